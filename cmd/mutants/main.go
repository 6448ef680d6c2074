// Command mutants measures what the tests of a package notice. It changes one
// operator of the package at a time (a mutant) and runs the package's own tests:
// a mutant that no test fails on has survived. It is for people who work on oxturn.
//
//	go run ./cmd/mutants ./layout/plane ./layout/circuit
//	go run ./cmd/mutants -n 200 ./layout
//
// All mutants of a package are built into one test binary, each behind a switch
// that is set from outside, and each is tried only on the tests that reach it.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"time"
)

type settings struct {
	sample   int
	seed     uint64
	parallel int
	same     string // the file of mutants that change nothing
	only     string // files to mutate: those whose path contains it
	least    float64
	within   time.Duration // tests that take longer are not asked
	grace    time.Duration // beyond what they take without a mutant: tests that take longer hang
}

func main() {
	var s settings
	flag.IntVar(&s.sample, "n", 0, "try so many mutants of a package, drawn by -seed; 0 tries all")
	flag.Uint64Var(&s.seed, "seed", 1, "draws the sample")
	flag.IntVar(&s.parallel, "p", runtime.NumCPU(), "mutants tried at a time")
	flag.StringVar(&s.same, "same", "cmd/mutants/same.txt", "list of mutants that change nothing, with the reason")
	flag.StringVar(&s.only, "only", "", "mutate only files whose path contains this")
	flag.Float64Var(&s.least, "least", 0, "fail when a package's killed share is below this, in %")
	flag.DurationVar(&s.within, "within", 0, "ask only tests that take no longer alone; 0 asks all")
	flag.DurationVar(&s.grace, "grace", time.Second, "how much longer tests may take with a mutant, on an idle machine")
	flag.Parse()
	if flag.NArg() == 0 {
		fmt.Fprintln(os.Stderr, "mutants: name the packages, for example ./layout/plane")
		os.Exit(2)
	}
	if err := run(os.Stdout, s, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

// run tries the packages one after the other and prints what survived.
func run(w io.Writer, s settings, patterns []string) error {
	same, err := readSame(s.same)
	if err != nil {
		return err
	}
	pkgs, err := load(patterns)
	if err != nil {
		return err
	}
	var low []string
	for _, p := range pkgs {
		t, err := tryPackage(w, s, same, p)
		if err != nil {
			return fmt.Errorf("%s: %w", p.ImportPath, err)
		}
		fmt.Fprintln(w, t.line(p.ImportPath))
		if t.share() < s.least {
			low = append(low, p.ImportPath)
		}
	}
	if low != nil {
		return fmt.Errorf("under %g %%: %s", s.least, strings.Join(low, ", "))
	}
	return nil
}

// tally counts the mutants of one package.
type tally struct {
	all, tried, same, killed, timeouts, unreached int
}

// share returns the killed part of those tried that change something, in %.
func (t tally) share() float64 {
	if t.tried == 0 {
		return 100
	}
	return 100 * float64(t.killed) / float64(t.tried)
}

func (t tally) line(pkg string) string {
	return fmt.Sprintf("%s: %.1f %% killed: %d of %d tried (%d by hanging), %d survived (%d that no test reaches);"+
		" %d change nothing; %d mutants in all",
		pkg, t.share(), t.killed, t.tried, t.timeouts, t.tried-t.killed, t.unreached, t.same, t.all)
}

// tryPackage prints each survivor as it is found.
func tryPackage(w io.Writer, s settings, same *sameList, p *pkg) (tally, error) {
	mutants, files := findAll(p, s.only)
	if key, stale := same.stale(mutants); stale {
		return tally{}, fmt.Errorf("%s: no such mutant any more: %s", s.same, key)
	}
	t := tally{all: len(mutants)}
	var left []mutant
	for _, m := range draw(mutants, s.sample, s.seed) {
		if same.has(m.key()) {
			t.same++
			continue
		}
		left = append(left, m)
	}
	t.tried = len(left)
	bin, err := build(p, files, len(mutants))
	if err != nil {
		return t, err
	}
	bin.grace = s.grace
	defer bin.remove()
	if err := bin.learn(s.within); err != nil {
		return t, err
	}
	for r := range bin.tryAll(left, s.parallel) {
		switch r.end {
		case killed:
			t.killed++
		case hung:
			t.killed++
			t.timeouts++
		case unreached:
			t.unreached++
			fmt.Fprintf(w, "unreached %s\n", r.mutant)
		case survived:
			fmt.Fprintf(w, "survived  %s\n", r.mutant)
		}
	}
	return t, nil
}
