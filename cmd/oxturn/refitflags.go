package main

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
)

// A refitOrder is what the flags of refit ask for.
type refitOrder struct {
	cable, plan, dir, format string
	runs                     int
	marks, counts            []string
	way                      refit.Way
}

func (o *refitOrder) flags(f *verbFlags) {
	f.text(&o.cable, "cable")
	f.text(&o.plan, "plan")
	f.IntVar(&o.runs, "runs", 0, "")
	f.each(&o.marks, "mark")
	f.each(&o.counts, "run")
	f.BoolVar(&o.way.Once, "once", false, "")
	f.IntVar(&o.way.Lift, "lift", 0, "")
	f.IntVar(&o.way.GiveUp, "give-up", 0, "")
	f.folder(&o.dir)
	f.format(&o.format)
}

// amend puts what the flags say of the floor into the job's record of the cable,
// or makes one.
func (o *refitOrder) amend(j *job.Job) error {
	if o.runs == 0 && len(o.marks)+len(o.counts) == 0 && o.plan == "" {
		return nil
	}
	a, err := o.record(j)
	if err != nil {
		return err
	}
	if o.plan != "" {
		if err := j.RestOn(a, o.plan, readPlan); err != nil {
			return fmt.Errorf("--plan: %w", err)
		}
	}
	for _, s := range o.marks {
		m, err := parseMark(s, j.Units)
		if err != nil {
			return err
		}
		m.Span = job.Span{File: a.Span.File} // no line of the job's
		a.Marks = append(a.Marks, m)
	}
	if err := o.laidTo(a); err != nil {
		return err
	}
	return o.recount(a)
}

// farthestRun is more runs than any cable has, and more pegs than any run.
const farthestRun = 10000

// recount puts in which laid runs have other pegs than the plan's.
func (o *refitOrder) recount(a *job.Laid) error {
	seen := map[int]bool{}
	for _, s := range o.counts {
		run, pegs, _ := strings.Cut(s, "=")
		n, err1 := strconv.Atoi(strings.TrimSpace(run))
		k, err2 := strconv.Atoi(strings.TrimSpace(pegs))
		switch {
		case err1 != nil || err2 != nil || n < 1 || k < leastRun || k > farthestRun:
			return fmt.Errorf("--run %q is not a run and the pegs it really has, %d at least, such as 8=13", s,
				leastRun)
		case seen[n]:
			return fmt.Errorf("--run gives run %d twice", n)
		case a.Runs == 0:
			return fmt.Errorf("--run %s: add --runs, how many are laid: pegs are those of the plan but for the runs "+
				"named", s)
		}
		seen[n] = true
		a.Miscounts = append(a.Miscounts, job.Miscount{Run: n, Pegs: k})
	}
	return nil
}

// leastRun is the fewest pegs that are counted as a run: what is shorter is a step
// of a turn.
const leastRun = 3

// laidTo settles how many runs are laid: as given, or up to the farthest mark where
// nothing else says so.
func (o *refitOrder) laidTo(a *job.Laid) error {
	runs := o.runs
	if runs == 0 && len(o.marks) > 0 && a.Runs == 0 && !a.Whole() {
		for _, m := range a.Marks {
			runs = max(runs, m.Run-1)
		}
		if runs == 0 {
			return fmt.Errorf("add --runs: the mark lies on the first run, which does not say how many are laid")
		}
	}
	if runs > 0 {
		a.Corners, a.Start, a.Legs, a.Runs = nil, nil, nil, runs
	}
	return nil
}

// record is the job's only record of a cable still to be finished, or a new one.
func (o *refitOrder) record(j *job.Job) (*job.Laid, error) {
	var fits []int
	for i, a := range j.Laid {
		if o.cable == "" || a.Cable == o.cable || a.Cable == "" && len(j.Laid) == 1 {
			fits = append(fits, i)
		}
	}
	switch {
	case len(fits) == 1:
		return &j.Laid[fits[0]], nil
	case len(fits) > 1:
		return nil, fmt.Errorf("the job has records of %d cables: name one with --cable", len(fits))
	case len(j.Rooms) > 1:
		return nil, fmt.Errorf("the job has %d rooms and no [[as_laid]] of the cable: add one with room = and "+
			"evidence =", len(j.Rooms))
	}
	file := job.Span{File: j.Rooms[0].Span.File} // no line of it: the flags say so
	j.Laid = append(j.Laid, job.Laid{Cable: o.cable, Evidence: job.ByHand, FingerRoom: -1, Span: file,
		Spans: job.Spans{"": file}})
	return &j.Laid[len(j.Laid)-1], nil
}

// parseMark reads "11,26" as run 11, peg 26, where the half-way mark was found, and
// "11,26=30m" as another length.
func parseMark(s string, u plane.Units) (job.LaidMark, error) {
	place, length, found := strings.Cut(s, "=")
	run, pegs, both := strings.Cut(place, ",")
	m := job.LaidMark{}
	var err1, err2 error
	m.Run, err1 = strconv.Atoi(strings.TrimSpace(run))
	if m.Pegs, err2 = 0, nil; both {
		m.Pegs, err2 = strconv.ParseFloat(strings.TrimSpace(pegs), 64)
	}
	if err1 != nil || err2 != nil || m.Run < 1 || m.Run > farthestRun || !(m.Pegs >= 0 && m.Pegs <= farthestRun) {
		return m, fmt.Errorf("--mark %q is not a run and pegs into it, such as 11,26, with a length after = where it "+
			"is not the half-way mark", s)
	}
	if !found {
		return m, nil
	}
	mm, err := plane.ParseLength(strings.TrimSpace(length), u)
	if err != nil || mm <= 0 {
		return m, fmt.Errorf("--mark %q: %q is no length read off a cable", s, length)
	}
	m.Length = mm
	return m, nil
}
