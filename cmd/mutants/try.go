package main

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// test is one test of the package and what it takes without a mutant.
type test struct {
	name string
	time time.Duration // of the processor
}

type end int

const (
	survived  end = iota
	killed        // a test failed
	hung          // the tests did not end, or ate memory without end
	unreached     // no test runs the code
)

type result struct {
	mutant mutant
	end    end
}

// command runs the binary where go test would.
func (b *binary) command(mutant string, args ...string) *exec.Cmd {
	return b.commandIn(context.Background(), mutant, args...)
}

func (b *binary) commandIn(ctx context.Context, mutant string, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, b.path, args...)
	cmd.Dir = b.pkg.Dir
	cmd.Env = append(os.Environ(), "OXTURN_MUTANT="+mutant)
	return cmd
}

// learn runs each test alone, without a mutant, and notes the mutants it reaches.
// It forgets tests that take longer than within, unless that is 0.
func (b *binary) learn(within time.Duration) error {
	names, err := b.names()
	if err != nil {
		return err
	}
	b.reach = map[int][]int{}
	notes := filepath.Join(b.dir, "reached")
	for _, name := range names {
		took, err := b.learnOne(name, notes, within)
		if err != nil {
			return err
		}
		if within > 0 && took > within {
			continue
		}
		b.tests = append(b.tests, test{name, took})
		if err := b.note(notes, len(b.tests)-1); err != nil {
			return err
		}
	}
	for _, tests := range b.reach {
		slices.SortFunc(tests, func(x, y int) int { return int(b.tests[x].time - b.tests[y].time) })
	}
	return nil
}

// learnOne returns the processor time that a test takes, so that other work on the
// machine does not count; it ends one that takes far longer than within.
func (b *binary) learnOne(name, notes string, within time.Duration) (time.Duration, error) {
	ctx, cancel := context.WithCancel(context.Background())
	if within > 0 {
		ctx, cancel = context.WithTimeout(ctx, busyFactor*within)
	}
	defer cancel()
	cmd := b.commandIn(ctx, "reach:"+notes, append(slices.Clone(b.flags), "-test.run", "^"+name+"$")...)
	out, err := cmd.CombinedOutput()
	switch {
	case ctx.Err() != nil:
		return busyFactor * within, nil
	case err != nil:
		return 0, fmt.Errorf("%s fails without a mutant: %w\n%s", name, err, out)
	}
	return cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), nil
}

// busyFactor is how many times as long by the clock a test may take on a busy machine.
const busyFactor = 10

func (b *binary) note(path string, test int) error {
	data, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for _, s := range strings.Fields(string(data)) {
		id, err := strconv.Atoi(s)
		if err != nil {
			return err
		}
		b.reach[id] = append(b.reach[id], test)
	}
	return os.Remove(path)
}

// tryAll yields what became of each mutant, in no order.
func (b *binary) tryAll(mutants []mutant, parallel int) iter.Seq[result] {
	todo, done := make(chan mutant), make(chan result)
	var workers sync.WaitGroup
	for range max(1, parallel) {
		workers.Go(func() {
			for m := range todo {
				done <- result{m, b.try(m)}
			}
		})
	}
	go func() {
		for _, m := range mutants {
			todo <- m
		}
		close(todo)
		workers.Wait()
		close(done)
	}()
	return func(yield func(result) bool) {
		for r := range done {
			if !yield(r) {
				return
			}
		}
	}
}

// try runs the tests that reach a mutant, the quick ones first, until one fails.
func (b *binary) try(m mutant) end {
	tests := b.reach[m.id]
	if len(tests) == 0 {
		return unreached
	}
	for len(tests) > 0 {
		n, took := 0, time.Duration(0)
		for n < len(tests) && (n == 0 || took+b.tests[tests[n]].time < time.Second/4) {
			took += b.tests[tests[n]].time
			n++
		}
		if e := b.runTests(m, tests[:n], took); e != survived {
			return e
		}
		tests = tests[n:]
	}
	return survived
}

func (b *binary) runTests(m mutant, tests []int, took time.Duration) end {
	var names []string
	for _, t := range tests {
		names = append(names, b.tests[t].name)
	}
	ctx, cancel := context.WithTimeout(context.Background(), busyFactor*(took+b.grace))
	defer cancel()
	args := append(slices.Clone(b.flags), "-test.failfast", "-test.run", "^("+strings.Join(names, "|")+")$")
	err := b.commandIn(ctx, strconv.Itoa(m.id), args...).Run()
	var exit *exec.ExitError
	switch {
	case err == nil:
		return survived
	case ctx.Err() != nil, errors.As(err, &exit) && exit.ExitCode() == 9:
		return hung
	}
	return killed
}
