package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"strings"

	"oxturn/layout/job"
)

const explainHelp = `
Says at length what a warning means, with a piece of a job that gives it and
one that does not. Without an ID it lists all warnings.

  oxturn explain
  oxturn explain W004

A job may accept a warning, with a reason; it is then not said again:

  [[allow]]
  id = "W004"
  reason = "tub drawn over the alcove on purpose"

Exit codes: 0 done, 2 there is no such warning.
`

func explain(_ context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("explain", flag.ContinueOnError)
	ids, code, ok := parse(c, "explain", fs, args)
	if !ok {
		return code
	}
	if len(ids) == 0 {
		for _, e := range explanations() {
			fmt.Fprintf(c.Out, "%s  %s\n", e.ID, e.Title)
		}
		return exitOK
	}
	for _, id := range ids {
		if !explainOne(c, id) {
			return exitUsage
		}
	}
	return exitOK
}

func explainOne(c *console, id string) bool {
	var known []string
	for _, e := range explanations() {
		if strings.EqualFold(e.ID, id) {
			writeExplanation(c.Out, e)
			return true
		}
		known = append(known, e.ID)
	}
	c.say("oxturn explain: there is no warning %q%s\nhint: oxturn explain lists them; errors explain themselves where they are printed", id, didYouMean(strings.ToUpper(id), known))
	return false
}

func writeExplanation(w io.Writer, e job.Explanation) {
	fmt.Fprintf(w, "%s: %s\n\n%s\n", e.ID, e.Title, wrap(e.Text, 78))
	for _, x := range []struct{ title, text string }{{"Gives it", e.Bad}, {"Does not", e.Good}} {
		if x.text != "" {
			fmt.Fprintf(w, "\n%s:\n\n%s\n", x.title, indent(x.text))
		}
	}
}

// wrap breaks text into lines of at most n characters.
func wrap(text string, n int) string {
	var b strings.Builder
	used := 0
	for _, word := range strings.Fields(text) {
		length := len([]rune(word))
		switch {
		case used == 0:
		case used+1+length > n:
			b.WriteByte('\n')
			used = 0
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += length
	}
	return b.String()
}

func indent(text string) string {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	for i, l := range lines {
		if l != "" {
			lines[i] = "  " + l
		}
	}
	return strings.Join(lines, "\n")
}
