package refit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
)

// readBothWays reads a half-way mark found so many pegs before run 8's end in both
// ways, and returns the way it was found after.
func readBothWays(t *testing.T) (steady, once *refit.Refit, way float64) {
	t.Helper()
	_, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	r := c.Runs[7]
	way = r.RunningEnd - 60
	p, c := laidSoFar(t, 2400, 2100, 40, 8, fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.3f mm\"\nrun = 8\npegs = %d\n",
		way+360, r.Pegs-2))
	var err error
	if steady, err = refit.New(p, &p.Rooms[0], c, refit.Way{}); err != nil {
		t.Fatal(err)
	}
	if once, err = refit.New(p, &p.Rooms[0], c, refit.Way{Once: true}); err != nil {
		t.Fatal(err)
	}
	return steady, once, way
}

// A drift misses by the whole cable's share, one slip by itself only: 40 m times the
// share of the mark, or the 360 mm it came early.
func TestAMarkHasTwoReadings(t *testing.T) {
	steady, once, way := readBothWays(t)
	// half of what a bend saves, 13 mm, lies behind the end of a run
	if want := 40000 * 360 / way; math.Abs(steady.Miss-want) > 45 || math.Abs(once.Miss-360) > 15 {
		t.Errorf("misses %.0f and %.0f mm, by hand %.0f and 360", steady.Miss, once.Miss, want)
	}
	if steady.Rate <= 1 || steady.Slip != 0 || once.Rate != 1 || math.Abs(once.Slip-360) > 15 {
		t.Errorf("rates %.4f and %.4f, slips %.0f and %.0f", steady.Rate, once.Rate, steady.Slip, once.Slip)
	}
	for _, f := range []*refit.Refit{steady, once} {
		said := strings.Join(f.Lines(plane.Millimetres), "\n")
		if want := fmt.Sprintf("if it goes on like this the cable would end %.0f mm short of its planned end; if it "+
			"was one slip, it would end %.0f mm short", steady.Miss, once.Miss); !strings.Contains(said, want) {
			t.Errorf("want %q in\n%s", want, said)
		}
		if sheet := strings.Join(f.Summary(plane.Millimetres), "\n"); strings.Contains(sheet, "--") {
			t.Errorf("what can be typed stands on the sheet:\n%s", sheet)
		}
	}
}

// By the reading as one slip, the rest of the cable covers as much way as there is
// cable, and its three-quarter mark comes where 30 m less the slip of way are covered.
func TestAfterOneSlipTheRestIsUsedAsDrawn(t *testing.T) {
	_, f, _ := readBothWays(t)
	if f.New == nil {
		t.Fatal(f.Reason)
	}
	if math.Abs(f.New.Routed-f.Way-f.Left) > 1 || math.Abs(f.New.Routed-(40000-f.Slip)) > 1 {
		t.Errorf("%.1f mm of way for %.1f of cable, and %.1f are left", f.New.Routed-f.Way, 40000-f.Used, f.Left)
	}
	last := f.New.Runs[len(f.New.Runs)-1]
	if math.Abs(last.RunningEnd-40000) > 1 {
		t.Errorf("the last run ends at %.1f of 40000 mm", last.RunningEnd)
	}
	m := f.New.Marks[2]
	before := f.WayBefore(m.Run)
	if math.Abs(m.Along-30000) > 1e-6 || math.Abs(before+m.Into-(30000-f.Slip)) > 5*30+60 {
		t.Errorf("the three-quarter mark at %.1f lies on run %d, %.0f into it, behind %.0f mm of way", m.Along, m.Run,
			m.Into, before)
	}
}

// A run counted two pegs short moves all that follows by two pegs along it; a second
// one on the way back makes good for it.
func TestAMiscountedRunMovesWhatFollows(t *testing.T) {
	_, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	two, three := c.Runs[1], c.Runs[2]
	move := two.To.Sub(two.From).Unit().Mul(-60)
	for _, back := range []bool{false, true} {
		j := trial.Read(t, "refit.toml", []byte(withRecord(plainRoom(2400, 2100, 40), 6, "")))
		j.Laid[0].Miscounts = append(j.Laid[0].Miscounts, miscount(2, two.Pegs-2))
		if back {
			j.Laid[0].Miscounts = append(j.Laid[0].Miscounts, miscount(3, three.Pegs-2))
		}
		p, found := build.Plan(j)
		if s := trial.Errors(found); s != "" {
			t.Fatal(s)
		}
		f, err := refit.New(p, &p.Rooms[0], &p.Rooms[0].Cables[0], refit.Way{})
		if err != nil || f.New == nil {
			t.Fatalf("%v, %s", err, f.Reason)
		}
		checkRefit(t, p, f)
		off := f.Laid[len(f.Laid)-1].Sub(c.Runs[5].To)
		want := move
		if back {
			want = plane.Point{}
		}
		if off.Dist(want) > 0.01 {
			t.Errorf("made good %t: the laid part ends %v off the plan, by hand %v", back, off, want)
		}
		if said := strings.Join(f.Lines(plane.Millimetres), "\n"); !strings.Contains(said,
			fmt.Sprintf("run %s has %d pegs, not %d", c.RunName(2), two.Pegs-2, two.Pegs)) {
			t.Error(said)
		}
	}
	j := trial.Read(t, "refit.toml", []byte(withRecord(plainRoom(2400, 2100, 40), 6, "")))
	j.Laid[0].Miscounts = append(j.Laid[0].Miscounts, miscount(7, 20))
	if _, found := build.Plan(j); !strings.Contains(trial.Errors(found),
		"run 7 is said to have 20 pegs, but 6 runs of cable H1 are laid") {
		t.Error(trial.Errors(found))
	}
}

func miscount(run, pegs int) job.Miscount { return job.Miscount{Run: run, Pegs: pegs} }

// TestAMarkBehindAMiscount: run 8 has 2 pegs too few, so that run 11, counted on by
// the run list, begins 2 pegs off where it was drawn; 26 pegs into it lie where the
// same peg was drawn, moved by the same 2 pegs. Way: the drawn way to there less 2 pegs.
func TestAMarkBehindAMiscount(t *testing.T) {
	_, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	for _, more := range []int{-2, 2} {
		j := trial.Read(t, "refit.toml", []byte(withRecord(plainRoom(2400, 2100, 40), 10,
			"[[as_laid.mark]]\nrun = 11\npegs = 26\n")))
		j.Laid[0].Miscounts = append(j.Laid[0].Miscounts, miscount(8, c.Runs[7].Pegs+more))
		p, found := build.Plan(j)
		if s := trial.Errors(found); s != "" {
			t.Fatal(s)
		}
		f, err := refit.New(p, &p.Rooms[0], &p.Rooms[0].Cables[0], refit.Way{})
		if err != nil {
			t.Fatal(err)
		}
		run, along := c.Runs[10], c.Runs[7].To.Sub(c.Runs[7].From).Unit()
		drawn := run.From.Add(run.To.Sub(run.From).Unit().Mul(26 * 30))
		want := drawn.Add(along.Mul(float64(more) * 30))
		if end := f.Laid[len(f.Laid)-1]; end.Dist(want) > 0.5 {
			t.Errorf("%+d pegs: laid to %v, by hand %v", more, end, want)
		}
		before := c.Runs[9].RunningEnd + 26*30 + float64(more)*30
		if gap := f.Way - before; gap < 0 || gap > 5*30+60 { // the turn between lies in it
			t.Errorf("%+d pegs: %.0f mm of way, by hand %.0f and a turn", more, f.Way, before)
		}
		if said := strings.Join(f.Lines(plane.Millimetres), "\n"); !strings.Contains(said,
			fmt.Sprintf("10 of %d runs and 26 pegs of run 11 are laid", len(c.Runs))) {
			t.Error(said)
		}
	}
}
