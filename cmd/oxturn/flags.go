package main

import (
	"context"
	"errors"
	"flag"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"oxturn/layout/job"
)

// parse reads flags wherever they stand, before or after the files, and
// returns the other arguments; after -- all are files. ok is false when the
// verb should stop with code.
func parse(c *console, name string, fs *flag.FlagSet, args []string) (rest []string, code int, ok bool) {
	fs.SetOutput(io.Discard)
	var plain []string
	if i := slices.Index(args, "--"); i >= 0 {
		args, plain = args[:i], args[i+1:]
	}
	for {
		err := fs.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			return nil, help(context.Background(), c, []string{name}), false
		}
		if err != nil {
			c.say("oxturn %s: %s\nhint: oxturn help %s", name, flagTrouble(fs, err), name)
			return nil, exitUsage, false
		}
		if args = fs.Args(); len(args) == 0 {
			return append(rest, plain...), exitOK, true
		}
		rest, args = append(rest, args[0]), args[1:]
	}
}

// flagTrouble says what is wrong with a flag, as it is typed in help, with the
// nearest known one for an unknown one.
func flagTrouble(fs *flag.FlagSet, err error) string {
	_, name, found := strings.Cut(err.Error(), "not defined: -")
	if !found {
		return err.Error()
	}
	name = strings.TrimLeft(name, "-")
	var names []string
	fs.VisitAll(func(f *flag.Flag) { names = append(names, dashed(f.Name)) })
	return "there is no flag " + dashed(name) + didYouMean(dashed(name), names)
}

// dashed writes a flag's name as help does.
func dashed(name string) string {
	if len(name) == 1 {
		return "-" + name
	}
	return "--" + name
}

// styles are the words --diagnostics takes.
var styles = []string{"human", "short", "json", "github"}

// A manner is how a verb that reads jobs goes about it: flags they share.
type manner struct {
	style     string        // how diagnostics are written, one of styles
	colour    string        // auto, always, never
	strict    bool          // warnings count as errors
	timeLimit time.Duration // for one job
	undrawn   bool          // no sheets are wanted

	amend func(*job.Job) error // what flags add to the job; nil: nothing
}

// mannerHelp is the part of a verb's help for those flags.
const mannerHelp = `  --diagnostics STYLE    how messages are written: human, short, json or github
  --strict               warnings count as errors
  --color WHEN           auto, always or never
  --time-limit TIME      give up on a job after so long (default 2m)
`

func mannerFlags(fs *flag.FlagSet) *manner {
	m := &manner{}
	fs.StringVar(&m.style, "diagnostics", defaultStyle(), "")
	fs.StringVar(&m.colour, "color", "auto", "")
	fs.BoolVar(&m.strict, "strict", false, "")
	fs.DurationVar(&m.timeLimit, "time-limit", 2*time.Minute, "")
	return m
}

// defaultStyle is human, but where GitHub runs the command.
func defaultStyle() string {
	if os.Getenv("GITHUB_ACTIONS") == "true" {
		return "github"
	}
	return "human"
}

// settle checks the shared flags and decides about colour.
func (m *manner) settle(c *console, verb string) bool {
	if !slices.Contains(styles, m.style) {
		c.say("oxturn %s: --diagnostics %q is not a style%s; use human, short, json or github", verb, m.style, didYouMean(m.style, styles))
		return false
	}
	whens := []string{"auto", "always", "never"}
	if !slices.Contains(whens, m.colour) {
		c.say("oxturn %s: --color %q is not known%s; use auto, always or never", verb, m.colour, didYouMean(m.colour, whens))
		return false
	}
	if m.timeLimit <= 0 {
		c.say("oxturn %s: --time-limit must be above 0, such as 30s or 5m", verb)
		return false
	}
	c.Colour = coloured(m.colour, isTerminal(c.Err), os.Getenv)
	return true
}

// coloured reports whether messages are coloured. A flag wins; then NO_COLOR,
// then FORCE_COLOR and CLICOLOR_FORCE, then whether a terminal reads them.
func coloured(when string, terminal bool, env func(string) string) bool {
	switch {
	case when != "auto":
		return when == "always"
	case env("NO_COLOR") != "":
		return false
	case forced(env("FORCE_COLOR")), forced(env("CLICOLOR_FORCE")):
		return true
	}
	return terminal && env("TERM") != "dumb"
}

func forced(value string) bool { return value != "" && value != "0" }

// isTerminal reports whether a stream is one that a person looks at.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && !isNull(info)
}

// isNull reports whether a stream goes to the null device, which is a
// character device as a terminal is.
func isNull(info os.FileInfo) bool {
	null, err := os.Stat(os.DevNull)
	return err == nil && os.SameFile(null, info)
}
