package route

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// drawUneven gives a random room pegs that lie otherwise one way than the other, and cables that fill it.
func drawUneven(t *rapid.T) Problem {
	p := drawRoom(t)
	u := &Uneven{Across: rapid.SampledFrom([]float64{22, 37.5, 40, 45, 60}).Draw(t, "across")}
	p.Pitch = rapid.SampledFrom([]float64{20, 30, 30.48, 50}).Draw(t, "along")
	u.Closest = rapid.SampledFrom([]float64{60, 66, 75}).Draw(t, "closest")
	u.Widest = u.Closest + rapid.Float64Range(60, 100).Draw(t, "wider")
	if rapid.Bool().Draw(t, "turned") {
		a := rapid.Float64Range(-4, 4).Draw(t, "direction")
		u.Along = &a
	}
	p.Closest, p.Widest, p.Bend, p.Uneven = 0, 0, 25, u
	spread(t, &p)
	return p
}

// spread gives the cables such lengths that they fill the room at a gap between the closest and the widest.
func spread(t *rapid.T, p *Problem) {
	u := p.Uneven
	gap := u.Closest + (u.Widest-u.Closest)*rapid.Float64Range(0.25, 0.7).Draw(t, "wish")
	length := p.Zones[0].Area()/gap + p.Zones[0].Perimeter()/2
	for i := range p.Cables {
		p.Cables[i].Length, p.Cables[i].LeadReach = math.Round(length/float64(len(p.Cables))), 0
	}
}

// offPegs says where a route leaves the lines of its lattice: every corner is on a crossing, the end on a line.
func offPegs(p Problem, rt Route) []string {
	var bad []string
	l := rt.Lattice
	for i, q := range rt.Path {
		d := q.Sub(l.Origin)
		u := (d.X*math.Cos(l.Angle) + d.Y*math.Sin(l.Angle)) / p.Pitch
		v := (d.Y*math.Cos(l.Angle) - d.X*math.Sin(l.Angle)) / p.Uneven.Across
		offU, offV := math.Abs(u-math.Round(u)), math.Abs(v-math.Round(v))
		if i+1 == len(rt.Path) {
			offU = min(offU, offV)
			offV = offU
		}
		if max(offU, offV) > 1e-6 {
			bad = append(bad, fmt.Sprintf("corner %d lies at %.4f, %.4f pegs", i, u, v))
		}
	}
	return bad
}

// Pegs that lie otherwise one way than the other: every hard rule, held by arithmetic that knows of no pegs, and
// every corner on one.
func TestHardRulesHoldOnUnevenPegs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawUneven(t)
		routes := solved(t, p)
		if bad := broken(p, routes); bad != nil {
			t.Fatalf("%d broken: %v", len(bad), bad)
		}
		for _, rt := range routes {
			if bad := offPegs(p, rt); bad != nil {
				t.Fatalf("off its pegs: %v", bad)
			}
			if len(p.Cables) == 1 && rt.Score.Covered < 0.93 {
				t.Fatalf("covers %.3f", rt.Score.Covered)
			}
		}
	})
}

// Each shape on pegs of 30 by 40 mm, either way round: nothing is refused, and hardly anything stays cold.
func TestEveryShapeIsLaidOnUnevenPegs(t *testing.T) {
	for kind := range 8 {
		for _, along := range []float64{0, math.Pi / 2} {
			t.Run(fmt.Sprintf("%d along %.1f", kind, along), func(t *testing.T) {
				p := roomOf(t, outline(kind, 3000, 2400), nil, 75, nil)
				p.Uneven = &Uneven{Across: 40, Closest: 60, Widest: 160, Along: &along}
				p.Cables = []Cable{{ID: "H1", Length: math.Round(p.Zones[0].Area()/95 + p.Zones[0].Perimeter()/2)}}
				routes, err := Solve(p)
				if err != nil {
					t.Fatal(err)
				}
				if bad := append(broken(p, routes), offPegs(p, routes[0])...); bad != nil {
					t.Fatal(bad)
				}
				if s := routes[0].Score; s.Covered < 0.975 || s.Bare > 3 {
					t.Errorf("covered %.4f, bare %.2f", s.Covered, s.Bare)
				}
				if a := routes[0].Lattice.Angle; kind != 6 && kind != 7 && math.Abs(a-along) > 1e-9 {
					t.Errorf("the pegs lie at %g", a)
				}
			})
		}
	}
}

// loose are the pieces of a route that no strip can hold: runs shorter than the strips' distance, but for the last
// one, and pieces longer than the widest gap that do not lie along the runs.
func loose(p Problem, rt Route) []string {
	var bad []string
	along := plane.Pt(math.Cos(rt.Lattice.Angle), math.Sin(rt.Lattice.Angle))
	for i := 1; i+1 < len(rt.Path); i++ {
		d := rt.Path[i].Sub(rt.Path[i-1])
		n, on := math.Hypot(d.X, d.Y), math.Abs(d.X*along.X+d.Y*along.Y)
		switch {
		case on > n-1 && n < p.Uneven.Held-1, on <= n-1 && n > p.Uneven.Widest+1:
			bad = append(bad, fmt.Sprintf("leg %d of %.0f mm, %.0f mm of it along the runs", i, n, on))
		}
	}
	return bad
}

// Loose cable clipped to strips: every hard rule, and nothing that no strip holds.
func TestHardRulesHoldOnStrips(t *testing.T) {
	laid := 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawRoom(t)
		p.Pitch, p.Closest, p.Widest, p.Bend = 10, 0, 0, 20
		clip := rapid.SampledFrom([]float64{25, 40, 50}).Draw(t, "clip")
		p.Uneven = &Uneven{Across: clip, Closest: 2 * clip, Widest: 200, Held: 300}
		spread(t, &p)
		routes := solved(t, p)
		laid++
		bad := broken(p, routes)
		for _, rt := range routes {
			bad = append(append(bad, offPegs(p, rt)...), loose(p, rt)...)
		}
		if bad != nil {
			t.Fatalf("%d broken: %v", len(bad), bad)
		}
	})
	if laid == 0 {
		t.Error("no room was laid")
	}
}

// Plain rooms are laid on strips and covered as well as on pegs; in a room of 3 m by 2.4 m the runs lie along its
// longer walls.
func TestPlainRoomsAreLaidOnStrips(t *testing.T) {
	for kind, least := range map[int]float64{0: 0.99, 1: 0.97, 5: 0.95, 6: 0.97} {
		t.Run(fmt.Sprint(kind), func(t *testing.T) {
			p := roomOf(t, outline(kind, 3000, 2400), nil, 75, nil)
			p.Pitch, p.Bend, p.Uneven = 10, 20, &Uneven{Across: 25, Closest: 50, Widest: 150, Held: 300}
			p.Cables = []Cable{{ID: "H1", Length: math.Round(p.Zones[0].Area()/90 + p.Zones[0].Perimeter()/2)}}
			routes, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			if bad := append(broken(p, routes), loose(p, routes[0])...); bad != nil {
				t.Fatal(bad)
			}
			if s := routes[0].Score; s.Covered < least {
				t.Errorf("covered %.4f", s.Covered)
			}
			if kind == 0 && math.Abs(math.Sin(routes[0].Rows)) > 1e-9 {
				t.Errorf("the runs lie at %g", routes[0].Rows)
			}
		})
	}
}

// Where nothing fixes the pegs' first way both are tried: here a lead of 1.5 m comes to no end of a run along the
// longer walls, 3.85 m long with the box at their middle, but to one of those across.
func TestRunsLieWhereTheLeadReaches(t *testing.T) {
	p := roomOf(t, outline(0, 4000, 2500), nil, 75, nil)
	p.Entry = plane.Pt(2000, 0)
	p.Pitch, p.Bend, p.Uneven = 10, 45, &Uneven{Across: 30, Closest: 90, Widest: 200, Held: 500}
	p.Cables = []Cable{{ID: "H1", Length: 60e3, LeadReach: 1500}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := append(broken(p, routes), loose(p, routes[0])...); bad != nil {
		t.Fatal(bad)
	}
	if math.Abs(math.Cos(routes[0].Rows)) > 1e-9 {
		t.Errorf("the runs lie at %g", routes[0].Rows)
	}
	longer := 0.0
	p.Uneven.Along = &longer
	if _, err := Solve(p); err == nil {
		t.Error("runs along the longer walls begin where no lead reaches")
	}
}

// What makes no sense of uneven pegs is refused with a reason.
func TestUnevenPegsThatMakeNoSense(t *testing.T) {
	rows := math.Pi / 2
	for name, u := range map[string]Uneven{
		"no pitch":                    {Across: 0, Closest: 60, Widest: 120},
		"no gap":                      {Across: 40, Closest: 0, Widest: 120},
		"the gaps the wrong way":      {Across: 40, Closest: 120, Widest: 60},
		"two bends have no room":      {Across: 40, Closest: 40, Widest: 120},
		"no whole pegs in between":    {Across: 50, Closest: 65, Widest: 85},
		"none across the only runs":   {Across: 50, Closest: 55, Widest: 95, Held: 300},
		"none across those asked for": {Across: 60, Closest: 70, Widest: 100},
	} {
		t.Run(name, func(t *testing.T) {
			p := roomOf(t, outline(0, 3000, 2400), nil, 75, nil)
			p.Pitch, p.Bend, p.Uneven = 30, 25, &u
			switch name {
			case "no whole pegs in between":
				p.Pitch = 40 - 8
				u.Closest, u.Widest = 66, 90
			case "none across those asked for":
				horizontal := 0.0
				p.Asks = []Ask{{Rows: &horizontal}}
				p.Uneven.Along = &horizontal
			}
			p.Cables = []Cable{{ID: "H1", Length: 60e3}}
			_, err := Solve(p)
			var refusal *Refusal
			if !errors.As(err, &refusal) || refusal.Reason == "" {
				t.Fatalf("%v", err)
			}
			if name == "none across those asked for" {
				p.Asks[0].Rows = &rows // across, 30 mm pegs make 90
				if _, err := Solve(p); err != nil {
					t.Error(err)
				}
			}
		})
	}
}
