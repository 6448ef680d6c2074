// Command oxturn turns a job file into the drawings, the take-off and the map
// of an electrically warmed tile floor.
//
//	oxturn draw bath.toml -o out
//
// Verbs, flags and exit codes are listed by oxturn help.
package main

import (
	"context"
	"fmt"
	"io"
	"runtime/debug"

	"oxturn/layout/job"
	"oxturn/layout/language"
)

// Exit codes: what a script may rely on.
const (
	exitOK          = 0
	exitJob         = 1 // the job has errors, or no cable fits
	exitUsage       = 2 // usage, missing file, I/O
	exitInterrupted = 130
)

// A console is where a verb reads and writes: data on Out, all else on Err.
type console struct {
	In       io.Reader
	Out, Err io.Writer
	Colour   bool              // messages may be coloured
	Language language.Language // what is said is told in
	teller   *language.Teller  // with the names of the job at work; nil: of none
}

// told puts what was put together in English into the language asked for.
func (c *console) told(text string) string {
	if c.teller != nil {
		return c.teller.Retold(text)
	}
	return c.Language.Retold(text)
}

// keep has the names that a job gives told as they stand.
func (c *console) keep(r *job.Report) {
	r.Language = c.Language
	t := r.Teller()
	c.teller = &t
}

// say prints lines for the user on the error stream.
func (c *console) say(format string, args ...any) {
	fmt.Fprintln(c.Err, c.told(fmt.Sprintf(format, args...)))
}

// Run carries out one command line and returns its exit code. It never
// panics: a fault of ours is reported as such, with exit code 2.
func Run(ctx context.Context, args []string, in io.Reader, out, err io.Writer) (code int) {
	data := &sink{to: out}
	c := &console{In: in, Out: data, Err: err}
	defer func() {
		if p := recover(); p != nil {
			c.fault(p)
			code = exitUsage
		}
	}()
	if len(args) == 0 {
		fmt.Fprint(c.Out, overview())
		return exitOK
	}
	name := args[0]
	switch name {
	case completeVerb:
		complete(c, args[1:])
		return exitOK
	case "-h", "--help", "-help":
		name = "help"
	case "--version", "-version":
		name = "version"
	}
	v, ok := verbNamed(name)
	if !ok {
		c.say("oxturn: %s", noVerb(name))
		return exitUsage
	}
	if code = v.run(ctx, c, args[1:]); code == exitOK && data.lost != nil {
		c.say("oxturn: not all of the output could be written: %v", data.lost)
		return exitUsage
	}
	return code
}

// A sink is where data goes; it remembers what could not be written there.
type sink struct {
	to   io.Writer
	lost error
}

// Write passes on what can be written and keeps the first error: what is lost is said at the end.
func (o *sink) Write(p []byte) (int, error) {
	n, err := o.to.Write(p)
	if o.lost == nil {
		o.lost = err
	}
	return n, err
}

// fault reports a panic as what it is.
func (c *console) fault(p any) {
	c.say("oxturn: this is a fault in oxturn, not in your job: %v\nplease report it with the job file and these "+
		"lines\n%s", p, debug.Stack())
}
