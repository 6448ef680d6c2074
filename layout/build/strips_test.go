package build

import (
	"math"
	"os"
	"strings"
	"testing"
)

// Loose cable on strips, judged by its lines alone: each run crosses a strip where it is straight, no strip is farther
// from the next than allowed, and what lies beyond the last of them is no more than half of that or has a strip of its
// own as near to the turn as the job says.
func TestStripsHoldEveryRun(t *testing.T) {
	data, err := os.ReadFile("../job/testdata/good/strips.toml")
	if err != nil {
		t.Fatal(err)
	}
	p := lay(t, string(data))
	r, c := &p.Rooms[0], p.Rooms[0].Cables[0]
	strips := r.Strips(p.Job)
	if len(strips) < 10 || !c.Lattice.Loose {
		t.Fatalf("%d strips", len(strips))
	}
	if math.Abs(c.Routed-62000) > 0.1 {
		t.Errorf("%.2f mm are laid", c.Routed)
	}
	for i, run := range c.Runs {
		if math.Abs(run.From.Y-run.To.Y) > 1e-6 {
			t.Fatalf("run %d lies from %v to %v", run.Number, run.From, run.To)
		}
		lo, hi := min(run.From.X, run.To.X)+c.BendRadius, max(run.From.X, run.To.X)-c.BendRadius
		at := []float64{}
		for _, s := range strips {
			if s.A.X > lo-1 && s.A.X < hi+1 && min(s.A.Y, s.B.Y) < run.From.Y && max(s.A.Y, s.B.Y) > run.From.Y {
				at = append(at, s.A.X)
			}
		}
		if len(at) == 0 {
			t.Errorf("no strip holds run %d", run.Number)
			continue
		}
		first, last := math.Inf(1), math.Inf(-1)
		for _, x := range at {
			first, last = min(first, x), max(last, x)
			next := math.Inf(1)
			for _, y := range at {
				if y > x {
					next = min(next, y-x)
				}
			}
			if !math.IsInf(next, 1) && next > 400+1e-6 {
				t.Errorf("run %d: strips %.0f mm apart", run.Number, next)
			}
		}
		if off := max(first-lo, hi-last) + c.BendRadius; off > 200+1 {
			t.Errorf("run %d of %d turns %.0f mm beyond its last strip", i+1, len(c.Runs), off)
		}
		// so many clips to the next run, so many cm along this one
		if i+1 < len(c.Runs) {
			if gap := math.Abs(c.Runs[i+1].From.Y - run.From.Y); math.Abs(gap-25*float64(run.GapToNext)) > 1e-6 ||
				gap < 75 {
				t.Errorf("run %d lies %.1f mm from the next, %d clips", run.Number, gap, run.GapToNext)
			}
			if n := run.Length(); math.Abs(n-10*float64(run.Pegs)) > 1e-6 {
				t.Errorf("run %d of %.1f mm counts %d cm", run.Number, n, run.Pegs)
			}
		}
	}
}

// Strips come by the metre, and nothing of a membrane with them.
func TestTakeOffOfStrips(t *testing.T) {
	data, err := os.ReadFile("../job/testdata/good/strips.toml")
	if err != nil {
		t.Fatal(err)
	}
	p := lay(t, string(data))
	long := 0.0
	for _, s := range p.Rooms[0].Strips(p.Job) {
		long += s.Length()
	}
	found := false
	for _, l := range p.TakeOff.Lines {
		switch l.Code {
		case "strips":
			found = true
			if math.Abs(l.Net-long/1000) > 0.01 || l.Unit != "m" {
				t.Errorf("%g %s of strips, %.0f mm are drawn", l.Net, l.Unit, long)
			}
		case "membrane", "bond-mortar", "fill-mortar":
			t.Errorf("%s with strips", l.Code)
		}
	}
	if !found || p.Membrane != nil {
		t.Errorf("strips %v, membrane %v", found, p.Membrane)
	}
	for _, a := range p.TakeOff.Assumptions {
		if strings.Contains(a.String(), "embrane") {
			t.Error(a)
		}
	}
}
