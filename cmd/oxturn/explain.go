package main

import (
	"context"
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

// An explainOrder has no flags: its words are IDs.
type explainOrder struct{}

func (explainOrder) flags(*verbFlags) {}

func (explainOrder) run(_ context.Context, c *commandLine) int {
	if len(c.args) == 0 {
		for _, e := range explanations() {
			fmt.Fprintf(c.Out, "%s  %s\n", e.ID, e.Title)
		}
		return exitOK
	}
	for _, id := range c.args {
		if err := explainOne(c.Out, id); err != nil {
			return c.fail(err)
		}
	}
	return exitOK
}

func explainOne(w io.Writer, id string) error {
	var known []string
	for _, e := range explanations() {
		if strings.EqualFold(e.ID, id) {
			writeExplanation(w, e)
			return nil
		}
		known = append(known, e.ID)
	}
	return fmt.Errorf("there is no warning %q%s\nhint: oxturn explain lists them; errors explain themselves where "+
		"they are printed",
		id, didYouMean(strings.ToUpper(id), known))
}

// textWide columns is how wide text for a terminal is set.
const textWide = 78

func writeExplanation(w io.Writer, e job.Explanation) {
	fmt.Fprintf(w, "%s: %s\n\n%s\n", e.ID, e.Title, wrap(e.Text, textWide))
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
