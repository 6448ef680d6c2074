package main

import (
	"context"
	"flag"
	"fmt"
	"io"

	"oxturn/layout/language"
)

// An order is what one command line asks of a verb. Every verb is one.
type order interface {
	// flags names the verb's own flags and where what they say goes.
	flags(f *verbFlags)
	// run does the work, once flags and files are settled, and returns the exit code.
	run(ctx context.Context, c *commandLine) int
}

// A commandLine is one call of a verb: where it reads and writes, and what all verbs are
// told the same way.
type commandLine struct {
	*console
	jobFlags
	verb string
	args []string // what stands beside the flags; of a verb on jobs, the job files
}

// run reads a command line and carries it out. What is wrong with it is said before
// any file is read.
func (v verb) run(ctx context.Context, at *console, args []string) int {
	c := &commandLine{console: at, verb: v.name}
	f := &verbFlags{FlagSet: flag.NewFlagSet(v.name, flag.ContinueOnError)}
	if v.jobs != nil {
		c.jobFlags.add(f)
	}
	v.order.flags(f)
	rest, code, ok := parse(at, v.name, f.FlagSet, args)
	if !ok {
		return code
	}
	if err := c.settle(v, f, rest); err != nil {
		return c.fail(err)
	}
	return v.order.run(ctx, c)
}

// settle holds the flags to what they may say, and finds the job files meant.
func (c *commandLine) settle(v verb, f *verbFlags, rest []string) (err error) {
	c.Language, _ = language.Named(c.language) // of all but help, usage is told in it too
	if err := f.check(); err != nil {
		return err
	}
	if c.args = rest; v.jobs == nil {
		return nil
	}
	c.Colour = c.coloured(c.Err)
	c.args, err = v.jobs(c, rest)
	return err
}

// on is the same command line with other streams.
func (c *commandLine) on(other *console) *commandLine {
	o := *c
	o.console = other
	return &o
}

// aside is the same command line with its output among the messages.
func (c *commandLine) aside() *commandLine {
	return c.on(&console{In: c.In, Out: c.Err, Err: c.Err, Colour: c.Colour, Language: c.Language, teller: c.teller})
}

// stop says why the verb ends here, and returns its exit code.
func (c *commandLine) stop(code int, err error) int {
	c.say("oxturn %s: %v", c.verb, err)
	return code
}

// fail is stop for usage, files and output.
func (c *commandLine) fail(err error) int { return c.stop(exitUsage, err) }

// misuse is fail for what the verb's help would have told.
func (c *commandLine) misuse(err error) int {
	code := c.fail(err)
	c.say("hint: oxturn help %s", c.verb)
	return code
}

// tellEach tells each of some lines.
func (c *console) tellEach(lines []string) []string {
	out := make([]string, len(lines))
	for i, line := range lines {
		out[i] = c.told(line)
	}
	return out
}

// answer prints what a verb found: lines for people, or JSON for programs.
func (c *commandLine) answer(format string, inJSON func(io.Writer) error, lines func() []string) error {
	if format == "json" {
		return inJSON(c.Out)
	}
	for _, l := range lines() {
		fmt.Fprintln(c.Out, l)
	}
	return nil
}
