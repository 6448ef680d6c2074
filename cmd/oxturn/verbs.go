package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
)

// A verb is one thing the command can do. Help is at most a screen.
type verb struct {
	name  string
	use   string // argument line after "oxturn "
	short string // one line for the overview
	help  string // after the first two lines of help
	run   func(ctx context.Context, c *console, args []string) int
}

func verbs() []verb {
	return []verb{
		{"draw", "draw JOB.toml... [-o DIR] [--only layout,pdf,svg,takeoff]", "write the drawings, the take-off and the layout file", drawHelp, draw},
		{"check", "check JOB.toml...", "say what is wrong with a job and write nothing", checkHelp, check},
		{"help", "help [VERB]", "this list, or one verb's help", "", help},
		{"version", "version [--licences]", "version, build and fonts", "", version},
	}
}

func verbNamed(name string) (verb, bool) {
	for _, v := range verbs() {
		if v.name == name {
			return v, true
		}
	}
	return verb{}, false
}

func verbNames() []string {
	var out []string
	for _, v := range verbs() {
		out = append(out, v.name)
	}
	return out
}

// overview is what a bare call prints.
func overview() string {
	var b strings.Builder
	b.WriteString("oxturn - from one job file to the drawings, take-off and map of a warmed tile floor\n\n")
	for _, v := range verbs() {
		fmt.Fprintf(&b, "  oxturn %-9s %s\n", v.name, v.short)
	}
	b.WriteString("\nStart with:  oxturn draw JOB.toml -o out\n")
	b.WriteString("Exit codes:  0 done, 1 the job has errors or no cable fits, 2 usage or file trouble, 130 interrupted\n")
	return b.String()
}

func help(_ context.Context, c *console, args []string) int {
	if len(args) == 0 {
		fmt.Fprint(c.Out, overview())
		return exitOK
	}
	v, ok := verbNamed(args[0])
	if !ok {
		c.say("oxturn help: there is no verb %q%s", args[0], didYouMean(args[0], verbNames()))
		return exitUsage
	}
	fmt.Fprintf(c.Out, "oxturn %s\n%s\n%s", v.use, v.short, v.help)
	return exitOK
}

// parse reads flags wherever they stand, before or after the files, and
// returns the other arguments. ok is false when the verb should stop with code.
func parse(c *console, name string, fs *flag.FlagSet, args []string) (rest []string, code int, ok bool) {
	fs.SetOutput(io.Discard)
	for {
		err := fs.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			return nil, help(context.Background(), c, []string{name}), false
		}
		if err != nil {
			c.say("oxturn %s: %v%s\nhint: oxturn help %s", name, err, flagMeant(fs, err), name)
			return nil, exitUsage, false
		}
		if args = fs.Args(); len(args) == 0 {
			return rest, exitOK, true
		}
		rest, args = append(rest, args[0]), args[1:]
	}
}

// flagMeant suggests the nearest flag to an unknown one.
func flagMeant(fs *flag.FlagSet, err error) string {
	_, name, found := strings.Cut(err.Error(), "not defined: -")
	if !found {
		return ""
	}
	var names []string
	fs.VisitAll(func(f *flag.Flag) { names = append(names, f.Name) })
	return didYouMean(strings.TrimLeft(name, "-"), names)
}

// didYouMean names the nearest of the known words, if one is near.
func didYouMean(word string, known []string) string {
	best, at := 3, ""
	for _, k := range known {
		if d := distance(word, k); d < best {
			best, at = d, k
		}
	}
	if at == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", at)
}

// distance is the number of letters to change, add or drop between two words.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		prev := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := prev
			if a[i] != b[j] {
				cost = 1 + min(prev, row[j], row[j+1])
			}
			prev, row[j+1] = row[j+1], cost
		}
	}
	return row[len(b)]
}
