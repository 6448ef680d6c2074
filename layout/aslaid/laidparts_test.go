package aslaid

import (
	"math"
	"slices"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

func TestSelfCrossing(t *testing.T) {
	for _, c := range []struct {
		path []plane.Point
		want [2]int
	}{
		{hand.Points(0, 0, 100, 0, 100, 100), [2]int{}}, {hand.Points(0, 0, 100, 0, 100, 60, 0, 60), [2]int{}},
		{hand.Points(0, 0, 100, 0, 100, 100, 50, 100, 50, -10), [2]int{1, 4}},
		{hand.Points(0, 0, 100, 0, 100, 100, 50, 100, 50, 0), [2]int{1, 4}},
		{hand.Points(0, 0, 100, 0, 100, 100, 50, 100, 50, 1), [2]int{}}, {hand.Points(0, 0, 100, 0, 40, 0),
			[2]int{1, 2}}, {hand.Points(50, 50, 0, 0, 100, 0, 20, 0), [2]int{2, 3}},
	} {
		if i, k, ok := selfCrossing(c.path); [2]int{i, k} != c.want || ok != (c.want != [2]int{}) {
			t.Errorf("%v: %d over %d, %v", c.path, i, k, ok)
		}
	}
}

func TestLegsAreWalkedOnTheLattice(t *testing.T) {
	c := &layout.Cable{Lattice: route.Lattice{Pitch: 30, Angle: 0.2}}
	got := walkLegs(c, plane.Pt(10, 20), []job.Leg{{Bearing: 90, Pegs: 4}, {Bearing: 0, Pegs: 2}, {Bearing: 0, Pegs: 3},
		{Bearing: 45, Pegs: 5}, {Bearing: 225, Pegs: 1}})
	u, v := plane.Pt(30, 0).Rotate(0.2), plane.Pt(0, 30).Rotate(0.2)
	a := plane.Pt(10, 20)
	b := a.Add(u.Mul(4))
	d := b.Add(v.Mul(5))
	e := d.Add(u.Mul(5)).Add(v.Mul(5))
	want := []plane.Point{a, b, d, e, e.Sub(u).Sub(v)}
	for i := range want {
		if len(got) != len(want) || got[i].Dist(want[i]) > 1e-6 {
			t.Fatalf("%v, want %v", got, want)
		}
	}
}

func TestAMiscountMovesWhatFollows(t *testing.T) {
	path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 120, 900, 120)
	c := &layout.Cable{ID: "H1", Lattice: route.Lattice{Pitch: 30}}
	for _, k := range []struct {
		run, pegs int
		want      []plane.Point
	}{
		{1, 31, hand.Points(0, 0, 930, 0, 930, 60, 30, 60, 30, 120, 930, 120)},
		{2, 29, hand.Points(0, 0, 900, 0, 900, 60, 30, 60, 30, 120, 930, 120)}, {3, 30, path}, {4, 30, nil},
	} {
		l := &layout.Laid{Path: path, Job: &job.Laid{Miscounts: []job.Miscount{{Run: k.run, Pegs: k.pegs}}}}
		d := recount(&job.Job{}, l, c, layout.Runs(path, 15, route.Lattice{Pitch: 30}))
		if (d != nil) != (k.want == nil) || k.want != nil && !slices.Equal(l.Path, k.want) {
			t.Errorf("run %d of %d pegs: %v, %v", k.run, k.pegs, l.Path, d)
		}
	}
	if path[1] != plane.Pt(900, 0) {
		t.Error("the plan itself was moved")
	}
}

func TestMarksGrowAlongTheCable(t *testing.T) {
	c := &layout.Cable{ID: "H1", Label: job.Cable{Length: 10000}}
	mark := func(length float64, run int, pegs float64) job.LaidMark {
		return job.LaidMark{Length: length, Run: run, Pegs: pegs}
	}
	for _, k := range []struct {
		marks []job.LaidMark
		want  int
	}{
		{[]job.LaidMark{mark(10000, 3, 2)}, 0}, {[]job.LaidMark{mark(10001, 3, 2)}, 1},
		{[]job.LaidMark{mark(2000, 1, 5), mark(3000, 1, 9), mark(4000, 2, 0)}, 0},
		{[]job.LaidMark{mark(4000, 2, 0), mark(2000, 1, 5)}, 0},
		{[]job.LaidMark{mark(2000, 1, 9), mark(3000, 1, 5)}, 1}, {[]job.LaidMark{mark(2000, 2, 1), mark(3000, 1, 5)},
			1},
		{[]job.LaidMark{mark(0, 2, 1), mark(4000, 3, 5)}, 1}, {[]job.LaidMark{mark(0, 2, 1), mark(6000, 3, 5)}, 0},
		{[]job.LaidMark{mark(5000, 2, 1), mark(5000, 3, 1)}, 1},
		{[]job.LaidMark{mark(5000, 3, 1), mark(5000, 2, 1)}, 1}, {[]job.LaidMark{mark(5000, 3, 1), mark(5000, 3, 1)},
			0},
		{[]job.LaidMark{mark(5000, 3, 1), mark(6000, 3, 1)}, 1}, {[]job.LaidMark{mark(6000, 3, 1), mark(5000, 3, 1)},
			1},
	} {
		l := &layout.Laid{Job: &job.Laid{Marks: k.marks}}
		if got := checkMarks(l, c, &job.Job{Units: plane.Millimetres}); len(got) != k.want {
			t.Errorf("%+v: %v", k.marks, got)
		}
	}
	if layout.MarkRead(mark(0, 1, 1), c) != 5000 || layout.MarkRead(mark(70, 1, 1), c) != 70 {
		t.Error("the half-way mark stands for half the cable")
	}
}

// The rate is that of the mark farthest along: cable by way.
func TestRateByTheFarthestMark(t *testing.T) {
	path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60)
	c := &layout.Cable{Label: job.Cable{Length: 1860}, Lattice: route.Lattice{Pitch: 30}}
	for _, k := range []struct {
		marks []job.LaidMark
		want  float64
	}{
		{nil, 1},
		{[]job.LaidMark{{Length: 612, Run: 1, Pegs: 20}}, 1.02},
		{[]job.LaidMark{{Length: 1236, Run: 2, Pegs: 8}, {Length: 612, Run: 1, Pegs: 20}}, 1236 / 1200.0},
		{[]job.LaidMark{{Length: 945, Run: 1, Pegs: 40}}, 945 / 900.0},
		// no farther than the run's end
		{[]job.LaidMark{{Length: 612, Run: 1, Pegs: 20}, {Length: 606, Run: 1, Pegs: 20}}, 1.02},
		// the first of two there
		{[]job.LaidMark{{Length: 612, Run: 9, Pegs: 20}}, 1},
		{[]job.LaidMark{{Length: 1200, Run: 1, Pegs: 20}}, 1}, // a slip, no drift
	} {
		l := &layout.Laid{Path: path, Job: &job.Laid{Marks: k.marks}}
		if got := rate(l, c); math.Abs(got-k.want) > 1e-9 {
			t.Errorf("%+v: %g, want %g", k.marks, got, k.want)
		}
	}
}

func TestFarthestOfARun(t *testing.T) {
	line := hand.Points(0, 0, 1000, 0)
	near, on, off := farthest(hand.Segment(0, 50, 1000, 130), line)
	if off != 130 || on != plane.Pt(1000, 130) || near != plane.Pt(1000, 0) {
		t.Errorf("%v of %v, %g", near, on, off)
	}
	if _, on, off := farthest(hand.Segment(0, 130, 1000, 50), line); off != 130 || on.X != 0 {
		t.Errorf("%v, %g", on, off)
	}
	if _, on, off := farthest(hand.Segment(0, 50, 1000, 50), line); off != 50 || on.X != 0 {
		t.Errorf("of places as far off the first: %v, %g", on, off)
	}
	if q, d, _, _ := plane.Nearest(hand.Points(0, 0, 100, 0, 100, 100), plane.Pt(130, 40)); d != 30 ||
		q != plane.Pt(100, 40) {
		t.Errorf("%v, %g", q, d)
	}
}
