package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"runtime"
	"strings"
)

// A batch is the same thing done to many jobs, on all cores, its messages
// printed in the order the jobs were named in. Only a few finished jobs wait
// for their turn, so that memory does not grow with the number of jobs.
type batch struct {
	names []string
	style string // how diagnostics are written
	done  string // what a job without errors is said to be: "drawn"
	aside bool   // messages go to the error stream whatever their style
	one   func(ctx context.Context, c *console, name string) int
}

// A result is what one job printed and its exit code.
type result struct {
	name     string
	out, err bytes.Buffer
	code     int
}

// run does the work and returns the worst exit code.
func (b *batch) run(ctx context.Context, c *console) int {
	if b.style == "json" {
		to := c.Out
		if b.aside {
			to = c.Err
		}
		to.Write(jsonHead())
	}
	if len(b.names) == 1 {
		return b.one(ctx, c, b.names[0])
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	t := tally{batch: b, c: c}
	t.line = waiting(c, t.sofar())
	all := t.collect(ctx, b.queue(ctx, c))
	t.line.end()
	if !all {
		return exitInterrupted
	}
	t.end()
	return t.worst
}

// queue starts jobs as cores come free and hands their results on in order.
func (b *batch) queue(ctx context.Context, c *console) <-chan chan *result {
	workers := runtime.GOMAXPROCS(0)
	free := make(chan struct{}, workers)
	out := make(chan chan *result, 2*workers)
	go func() {
		defer close(out)
		for _, name := range b.names {
			pending := make(chan *result, 1)
			select {
			case out <- pending:
			case <-ctx.Done():
				return
			}
			free <- struct{}{}
			go func() {
				pending <- b.do(ctx, c, name)
				<-free
			}()
		}
	}()
	return out
}

// do does one job; a panic of ours is that job's alone.
func (b *batch) do(ctx context.Context, c *console, name string) *result {
	r := &result{name: name}
	own := &console{In: strings.NewReader(""), Out: &r.out, Err: &r.err, Colour: c.Colour, Language: c.Language}
	if name == "-" {
		own.In = c.In
	}
	defer func() {
		if p := recover(); p != nil {
			own.fault(p)
			r.code = exitUsage
		}
	}()
	r.code = b.one(ctx, own, name)
	return r
}

// A tally prints results as they come and counts them.
type tally struct {
	*batch
	c     *console
	line  *waitLine
	n     int
	bad   []string
	worst int
}

// collect adds results until there are no more; false: until ctx ended.
func (t *tally) collect(ctx context.Context, results <-chan chan *result) bool {
	for pending := range results {
		select {
		case r := <-pending:
			t.add(r)
		case <-ctx.Done():
			return false
		}
	}
	return ctx.Err() == nil
}

func (t *tally) add(r *result) {
	t.n++
	if r.code != exitOK {
		t.bad = append(t.bad, r.name)
	}
	t.worst = max(t.worst, r.code)
	t.line.beside(func() {
		io.Copy(t.c.Out, &r.out)
		io.Copy(t.c.Err, &r.err)
	})
	t.line.tell(t.sofar())
}

func (t *tally) sofar() string {
	return fmt.Sprintf("%d of %d jobs, %d in trouble", t.n, len(t.names), len(t.bad))
}

// mostNamed is how many jobs in trouble are named in the last line.
const mostNamed = 10

// end prints the last line.
func (t *tally) end() {
	if len(t.bad) == 0 {
		t.c.say("%d jobs %s", t.n, t.done)
		return
	}
	named := strings.Join(t.bad[:min(len(t.bad), mostNamed)], ", ")
	if more := len(t.bad) - mostNamed; more > 0 {
		named += fmt.Sprintf(" and %d more", more)
	}
	t.c.say("%d jobs: %d %s, %d in trouble: %s", t.n, t.n-len(t.bad), t.done, len(t.bad), named)
}
