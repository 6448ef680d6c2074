package refit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
	"oxturn/layout/refit"
)

// markAt records a mark at the end of run 8 of a plain room's plan, its length off
// that drawn by so much.
func markAt(t *testing.T, off float64) *refit.Refit {
	t.Helper()
	_, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	r := c.Runs[7]
	p, c := laidSoFar(t, 2400, 2100, 40, 8, fmt.Sprintf("[[as_laid.mark]]\nlength = \"%.4f mm\"\nrun = 8\npegs = %d\n",
		r.RunningEnd+off, r.Pegs))
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil || f.New == nil {
		t.Fatalf("mark off by %g mm: %v, %+v", off, err, f)
	}
	return f
}

// A mark that comes within a peg of where it was drawn changes nothing but where
// the end cap comes: by the mark's share, off the way of the whole cable.
func TestAMarkWithinAPegChangesNothing(t *testing.T) {
	for _, off := range []float64{0, 1, -1, 20, 29} {
		f := markAt(t, off)
		if f.Change != (refit.Changed{}) {
			t.Errorf("a mark off by %g mm changes %+v", off, f.Change)
		}
		drawn := f.Planned.Runs[7].RunningEnd
		want := 40000*drawn/(drawn+off) - 40000
		if math.Abs(f.Farther-want) > 2 {
			t.Errorf("a mark off by %g mm: the end cap comes %.1f mm farther, by hand %.1f", off, f.Farther, want)
		}
		for i, p := range f.Laid {
			if i < len(f.Laid)-1 && f.New.Path[i] != p {
				t.Fatalf("a mark off by %g mm moves corner %d of the laid part from %v to %v", off, i, p, f.New.Path[i])
			}
		}
		if end, was := f.New.Path[len(f.New.Path)-1], f.Planned.Path[len(f.Planned.Path)-1]; math.Abs(
			end.Dist(was)-math.Abs(want)) > 2 {
			t.Errorf("a mark off by %g mm: the end cap moves %.1f mm, by hand %.1f", off, end.Dist(was), want)
		}
	}
}

// Beyond a peg and half a per cent the end is planned anew.
func TestAMarkBeyondTheToleranceChangesTheRest(t *testing.T) {
	for _, off := range []float64{400, -400} {
		if f := markAt(t, off); f.Change.From == 0 || f.Farther != 0 {
			t.Errorf("a mark off by %g mm changes %+v, farther %g", off, f.Change, f.Farther)
		}
	}
}

// What is left and what is used are the whole cable, and used is what was read.
func TestUsedAndLeftAreTheCable(t *testing.T) {
	f := markAt(t, 20)
	if math.Abs(f.Used+f.Left-40000) > 1e-6 || math.Abs(f.Used-f.Rate*f.Way) > 1e-6 || f.Left >= 40000 {
		t.Errorf("used %.1f, left %.1f of 40000, rate %.5f of %.1f", f.Used, f.Left, f.Rate, f.Way)
	}
	// half of what a bend saves lies behind the corner
	if r := f.Planned.Runs[7]; math.Abs(f.Used-(r.RunningEnd+20)) > 7 {
		t.Errorf("used %.2f, read %.2f", f.Used, r.RunningEnd+20)
	}
}

// With the pegs 12 mm off, what is laid has gone with them: a run inside a clearance
// is named with how far, and the cold lead meets the start where it lies.
func TestRunsLaidOnOtherPegsAreHeldAgainstTheClearances(t *testing.T) {
	_, c := laidSoFar(t, 2400, 2100, 40, 0, "")
	u, v := c.Lattice.ToPegs(plane.Pt(1000, 1000))
	at := c.Lattice.ToWorld(math.Round(u), math.Round(v)).Add(plane.Pt(12, 0))
	start := c.Path[0].Add(plane.Pt(12, 0))
	worst := 0.0
	for _, r := range c.Runs[:8] {
		for _, x := range []float64{r.From.X + 12, r.To.X + 12} {
			worst = max(worst, x-(2400-75), 75-x) // the walls' clearance is 75 mm
		}
	}
	p, c := laidSoFar(t, 2400, 2100, 40, 8, fmt.Sprintf("first_peg = [%.4f, %.4f]\n", at.X, at.Y))
	f, err := refit.New(p, &p.Rooms[0], c, refit.Way{})
	if err != nil {
		t.Fatal(err)
	}
	said := strings.Join(f.Lines(plane.Millimetres), "\n")
	if want := fmt.Sprintf("%.0f mm inside a clearance", worst); worst > 1 != strings.Contains(said, want) {
		t.Errorf("%.1f mm inside a clearance by hand; want %q in\n%s", worst, want, said)
	}
	if f.New != nil && (f.New.Path[0].Dist(start) > 0.01 || f.New.ColdLead[len(f.New.ColdLead)-1].Dist(start) > 0.01) {
		t.Errorf("start at %v, lead to %v; laid at %v", f.New.Path[0], f.New.ColdLead[len(f.New.ColdLead)-1], start)
	}
}
