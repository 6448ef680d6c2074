package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"
)

// A waitLine tells whoever looks at a terminal what is being done, once that has
// taken a moment, and for how long; it is wiped when it is done. A nil one, for
// anything but a terminal, tells nothing.
type waitLine struct {
	mu    sync.Mutex
	to    io.Writer
	what  string
	start time.Time
	shown bool
	done  chan struct{}
}

// waitBefore is how long nothing is told, waitEvery how often it is told anew.
const (
	waitBefore = 200 * time.Millisecond
	waitEvery  = time.Second
)

// waiting begins a line on the console's error stream.
func waiting(c *console, what string) *waitLine {
	if !isTerminal(c.Err) || os.Getenv("TERM") == "dumb" {
		return nil
	}
	return newWaitLine(c.Err, what)
}

func newWaitLine(to io.Writer, what string) *waitLine {
	l := &waitLine{to: to, what: what, start: time.Now(), done: make(chan struct{})}
	go l.tick()
	return l
}

func (l *waitLine) tick() {
	clock := time.NewTimer(waitBefore)
	defer clock.Stop()
	for {
		select {
		case <-l.done:
			return
		case <-clock.C:
			l.mu.Lock()
			l.write()
			l.mu.Unlock()
			clock.Reset(waitEvery)
		}
	}
}

// tell says what is being done now.
func (l *waitLine) tell(what string) {
	if l == nil {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.what = what
	if time.Since(l.start) >= waitBefore {
		l.write()
	}
}

// beside prints something else meanwhile, with the line out of its way.
func (l *waitLine) beside(print func()) {
	if l == nil {
		print()
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.wipe()
	print()
}

// end wipes the line for good.
func (l *waitLine) end() {
	if l == nil {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	close(l.done)
	l.wipe()
	l.to = io.Discard // a last tick may be on its way
}

// mostTold is how many letters are told: a line that a terminal breaks in two
// could not be wiped.
const mostTold = 60

func (l *waitLine) write() {
	what := []rune(printable(l.what))
	if len(what) > mostTold {
		what = append(what[:mostTold-1], '…')
	}
	fmt.Fprintf(l.to, "\r\x1b[K%s, %.0f s", string(what), time.Since(l.start).Seconds())
	l.shown = true
}

func (l *waitLine) wipe() {
	if l.shown {
		fmt.Fprint(l.to, "\r\x1b[K")
		l.shown = false
	}
}
