package layout

import (
	"math"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// comb is a cable of parallel runs 1 m long at given heights.
func comb(heights ...float64) Cable {
	c := Cable{Label: job.Cable{Watts: 120, Length: 10000}}
	for i, y := range heights {
		a, b := plane.Pt(0, y), plane.Pt(1000, y)
		if i%2 == 1 {
			a, b = b, a
		}
		c.Path = append(c.Path, a, b)
		c.Runs = append(c.Runs, Run{Number: i + 1, From: a, To: b})
	}
	return c
}

func gapsOf(cables ...Cable) []Gaps {
	r := Room{Cables: cables, Heated: plane.FromRing(plane.Ring{{X: -100, Y: -100}, {X: 1100, Y: -100},
		{X: 1100, Y: 1100}, {X: -100, Y: 1100}})}
	r.FindGaps(&job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Widest: 4}})
	var out []Gaps
	for _, c := range r.Cables {
		out = append(out, c.Gaps)
	}
	return out
}

// 12 W/m in runs 60, 60 and 120 mm apart: the second run has 60 mm of floor
// and 200 W/m², the third 90 mm and 133.3. Plain arithmetic.
func TestDensestOfThreeRuns(t *testing.T) {
	g := gapsOf(comb(0, 60, 120, 240))[0]
	if g.Closest != 60 || g.Widest != 120 || g.Run != 2 || math.Abs(g.Densest-200) > 1e-9 {
		t.Errorf("%+v", g)
	}
}

// A run beside another cable's has that as its neighbour: 100 and 60 mm leave
// it 80 mm, 150 W/m².
func TestNeighboursOfAnotherCable(t *testing.T) {
	all := gapsOf(comb(0, 100), comb(160, 300))
	if g := all[0]; g.Closest != 60 || g.Run != 2 || math.Abs(g.Densest-150) > 1e-9 {
		t.Errorf("first: %+v", g)
	}
	if g := all[1]; g.Closest != 60 || g.Widest != 140 || g.Run != 1 || math.Abs(g.Densest-120) > 1e-9 {
		t.Errorf("second: %+v", g)
	}
}

// Two runs alone count by their gap; one run, and runs beyond twice the widest
// gap, have none.
func TestGapsOfFewRuns(t *testing.T) {
	if g := gapsOf(comb(0, 80))[0]; g.Closest != 80 || math.Abs(g.Densest-150) > 1e-9 {
		t.Errorf("two runs: %+v", g)
	}
	for _, c := range []Cable{comb(0), comb(0, 500), {}} {
		if g := gapsOf(c)[0]; g != (Gaps{}) {
			t.Errorf("no neighbours: %+v", g)
		}
	}
}

// Runs 120, 240 and 120 mm apart; what lies in the middle gap says whether it
// is one. Plain arithmetic.
func TestWidestGapIsOpenFloor(t *testing.T) {
	square := func(x, y, side float64) plane.Ring {
		return plane.Ring{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}
	}
	less := func(xs ...float64) plane.Region { // a fixture in the gap at each x
		floor := plane.Polygon{Outer: square(-100, -100, 1200)}
		for _, x := range xs {
			floor.Holes = append(floor.Holes, square(x, 180, 120))
		}
		return plane.Region{floor}
	}
	for _, c := range []struct {
		name   string
		region plane.Region
		finger []float64 // where along the runs pieces of cable stand in the gap
		widest float64
	}{
		{"open", less(), nil, 240},
		{"a fixture for some of it", less(300), nil, 240},
		{"fixtures all along", less(100, 350, 600, 850), nil, 120},
		{"fingers of cable", less(), []float64{150, 300, 450, 600, 750, 900}, 120},
	} {
		r := Room{Cables: []Cable{comb(0, 120, 360, 480)}, Heated: c.region}
		for _, x := range c.finger {
			r.Cables = append(r.Cables, Cable{Path: []plane.Point{plane.Pt(x, 180), plane.Pt(x, 300)}})
		}
		r.FindGaps(&job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Widest: 4}})
		if g := r.Cables[0].Gaps; g.Widest != c.widest || g.Closest != 120 {
			t.Errorf("%s: %+v, want %g mm at the widest", c.name, g, c.widest)
		}
	}
}
