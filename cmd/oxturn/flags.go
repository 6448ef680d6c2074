package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"time"

	"oxturn/layout/job"
	"oxturn/layout/language"
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
			return nil, helpOn(c, name), false
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

// A verbFlags is the flag set of one verb, with what each flag is held to.
type verbFlags struct {
	*flag.FlagSet
	held []func() error
}

// hold adds what the flags are held to once all are read.
func (f *verbFlags) hold(to func() error) { f.held = append(f.held, to) }

// check returns the first thing that a flag may not say.
func (f *verbFlags) check() error {
	for _, to := range f.held {
		if err := to(); err != nil {
			return err
		}
	}
	return nil
}

// text is a flag with any text, left out: empty.
func (f *verbFlags) text(to *string, name string) { f.StringVar(to, name, "", "") }

// each is a flag that may be given several times.
func (f *verbFlags) each(to *[]string, name string) {
	f.Func(name, "", func(s string) error { *to = append(*to, s); return nil })
}

// word is a flag that takes one of some words.
func (f *verbFlags) word(to *string, name, preset string, known ...string) {
	f.StringVar(to, name, preset, "")
	f.hold(func() error {
		if *to == preset || slices.Contains(known, *to) {
			return nil
		}
		return fmt.Errorf("--%s %q is not known%s; use %s", name, *to, didYouMean(*to, known), either(known))
	})
}

// format is --format of a verb that answers in text, or in JSON for programs.
func (f *verbFlags) format(to *string) { f.word(to, "format", "text", "text", "json") }

// folder is -o of a verb that can draw its answer, left out: none.
func (f *verbFlags) folder(to *string) {
	f.text(to, "o")
	f.hold(func() error { return checkFolder(*to) })
}

// either lists words as a choice: a, b or c.
func either(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// styles are the words --diagnostics takes.
var styles = []string{"human", "short", "json", "github"}

// colourWhens are the words --color takes.
var colourWhens = []string{"auto", "always", "never"}

// jobFlags are those that every verb on jobs has.
type jobFlags struct {
	style     string        // how diagnostics are written, one of styles
	colour    string        // one of colourWhens
	strict    bool          // warnings count as errors
	timeLimit time.Duration // for one job
	language  string        // what is said to the user is told in, one of language.Tags
}

// jobFlagsHelp is the part of a verb's help for those flags.
const jobFlagsHelp = `  --diagnostics STYLE    how messages are written: human, short, json or github
  --language TAG         sentences in en, es, fr or de; keys and help in English
  --strict               warnings count as errors
  --color WHEN           auto, always or never
  --time-limit TIME      give up on a job after so long (default: never)
`

// noLimit is the time there is for a job where none is given: work is bounded by
// counted steps, so that no job's outcome hangs on the clock.
const noLimit = time.Duration(math.MaxInt64)

func (j *jobFlags) add(f *verbFlags) {
	f.StringVar(&j.style, "diagnostics", defaultStyle(), "")
	f.hold(func() error { return j.checkStyle() })
	f.word(&j.language, "language", "en", language.Tags()...)
	f.word(&j.colour, "color", "auto", colourWhens...)
	f.BoolVar(&j.strict, "strict", false, "")
	f.DurationVar(&j.timeLimit, "time-limit", noLimit, "")
	f.hold(func() error {
		if j.timeLimit <= 0 {
			return errors.New("--time-limit must be above 0, such as 30s or 5m")
		}
		return nil
	})
}

func (j *jobFlags) checkStyle() error {
	if slices.Contains(styles, j.style) {
		return nil
	}
	return fmt.Errorf("--diagnostics %q is not a style%s; use %s", j.style, didYouMean(j.style, styles), either(styles))
}

// coloured reports whether messages on a stream are coloured.
func (j *jobFlags) coloured(on io.Writer) bool { return coloured(j.colour, isTerminal(on), os.Getenv) }

// verdict is the exit code that a report calls for.
func (j *jobFlags) verdict(r *job.Report) int {
	if r.Errors() > 0 || j.strict && r.Warnings() > 0 {
		return exitJob
	}
	return exitOK
}

// defaultStyle is human, but where GitHub runs the command.
func defaultStyle() string {
	if os.Getenv("GITHUB_ACTIONS") == "true" {
		return "github"
	}
	return "human"
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
