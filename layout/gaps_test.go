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
		c.Path = append(c.Path, a, b)
		c.Runs = append(c.Runs, Run{Number: i + 1, From: a, To: b})
	}
	return c
}

func gapsOf(cables ...Cable) []Gaps {
	r := Room{Cables: cables}
	r.findGaps(&job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Widest: 4}})
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

// What the router laid under a cap is never reported as denser than the cap.
func TestDensestKeepsTheCap(t *testing.T) {
	p := build(t, bathJob+"\n[supply]\nvolts = 240\nmax_density = \"150 W/m2\"\n")
	for _, c := range p.Rooms[0].Cables {
		if c.Gaps.Densest == 0 || c.Gaps.Densest > 150*1.001 {
			t.Errorf("%s: densest %.1f W/m²", c.ID, c.Gaps.Densest)
		}
		if c.Gaps.Closest < 2*30-0.1 {
			t.Errorf("%s: closest %.1f mm", c.ID, c.Gaps.Closest)
		}
	}
}
