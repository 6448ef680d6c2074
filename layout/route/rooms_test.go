package route

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
	"oxturn/layout/skip"
	"oxturn/layout/spend"
)

// TestMain keeps the random rooms few: each takes a good part of a second on
// a slow machine.
func TestMain(m *testing.M) {
	spend.Memory()
	flag.Parse()
	if f := flag.Lookup("rapid.checks"); f != nil && f.Value.String() == f.DefValue {
		_ = flag.Set("rapid.checks", "12")
	}
	os.Exit(m.Run())
}

// outline returns a room's outline of one of the shapes people tile, w by h mm.
func outline(kind int, w, h float64) plane.Ring {
	pt := plane.Pt
	switch kind {
	case 0:
		return plane.Rectangle(pt(0, 0), pt(w, h))
	case 1: // L
		return plane.Ring{pt(0, 0), pt(w, 0), pt(w, h/2), pt(w/2, h/2), pt(w/2, h), pt(0, h)}
	case 2: // U
		return plane.Ring{pt(0, 0), pt(w, 0), pt(w, h), pt(w*0.68, h), pt(w*0.68, h*0.45), pt(w*0.32, h*0.45),
			pt(w*0.32, h*0.9), pt(0, h*0.9)}
	case 3: // T
		return plane.Ring{pt(w*0.3, 0), pt(w*0.7, 0), pt(w*0.7, h/2), pt(w, h/2), pt(w, h), pt(0, h), pt(0, h/2),
			pt(w*0.3, h/2)}
	case 4: // Z
		return plane.Ring{pt(0, 0), pt(w*0.6, 0), pt(w*0.6, h/2), pt(w, h/2), pt(w, h), pt(w*0.4, h), pt(w*0.4, h*0.55),
			pt(0, h*0.55)}
	case 5: // bay
		return plane.Ring{pt(0, 0), pt(w, 0), pt(w, h), pt(w*0.7, h), pt(w*0.6, h+400), pt(w*0.4, h+400), pt(w*0.3, h),
			pt(0, h)}
	case 6: // chimney breast, skewed wall
		return plane.Ring{pt(0, 0), pt(w, 150), pt(w-100, h), pt(w*0.65, h), pt(w*0.65, h-300), pt(w*0.35, h-300),
			pt(w*0.35, h), pt(0, h)}
	}
	r := make(plane.Ring, 36) // rounded
	for i := range r {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 36)
		r[i] = pt(w/2+w/2*math.Copysign(math.Sqrt(math.Abs(c)), c), h/2+h/2*math.Copysign(math.Sqrt(math.Abs(s)), s))
	}
	return r
}

// fataler is what testing and rapid have in common.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// roomOf makes a problem from a room's outline, fixtures and joint; the
// cables' lengths are set by the caller.
func roomOf(t fataler, walls plane.Ring, fixtures []plane.Ring, clear float64, joint *plane.Segment) Problem {
	t.Helper()
	must := func(r plane.Region, err error) plane.Region {
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	p := Problem{Floor: plane.FromRing(walls), Pitch: 30, Closest: 2, Widest: 5, Bend: 15}
	zone := must(p.Floor.Grow(-clear))
	for _, f := range fixtures {
		p.Floor = must(p.Floor.Less(plane.FromRing(f)))
		zone = must(zone.Less(must(plane.FromRing(f).Grow(50.2))))
	}
	p.Zones = []plane.Region{zone}
	if joint != nil {
		zone = must(zone.Less(must(plane.Band([]plane.Point{joint.A, joint.B}, 100))))
		p.Zones = nil
		for _, q := range zone {
			p.Zones = append(p.Zones, plane.Region{q})
		}
	}
	for i := range walls {
		p.Walls = append(p.Walls, walls.Edge(i))
	}
	p.Entry = walls.Edge(0).At(walls.Edge(0).Length() * 0.4)
	return p
}

// lengthFor is the cable that fills zone at a spacing of gap pegs.
func lengthFor(p Problem, zone plane.Region, gap float64) float64 {
	return math.Round(zone.Area()/(gap*p.Pitch) + zone.Perimeter()/2)
}

// drawRoom makes a random room with its cables.
func drawRoom(t *rapid.T) Problem {
	walls := outline(rapid.IntRange(0, 7).Draw(t, "shape"), rapid.Float64Range(1900, 3800).Draw(t, "w"),
		rapid.Float64Range(1700, 3200).Draw(t, "h"))
	angle := rapid.SampledFrom([]float64{0, 0, 0.3, 1.1}).Draw(t, "angle")
	var fixtures []plane.Ring
	if rapid.Bool().Draw(t, "fixture") {
		e := walls.Edge(1)
		u, v := e.B.Sub(e.A).Unit(), e.B.Sub(e.A).Unit().Left()
		if w := math.Min(700, e.Length()*0.6); w > 200 {
			fixtures = append(fixtures, plane.Ring{e.A, e.A.Add(u.Mul(w)), e.A.Add(u.Mul(w)).Add(v.Mul(400)),
				e.A.Add(v.Mul(400))})
		}
	}
	for i := range walls {
		walls[i] = walls[i].Rotate(angle)
	}
	for _, f := range fixtures {
		for i := range f {
			f[i] = f[i].Rotate(angle)
		}
	}
	p := roomOf(t, walls, fixtures, rapid.SampledFrom([]float64{60, 75, 100}).Draw(t, "clear"), nil)
	length := lengthFor(p, p.Zones[0], rapid.Float64Range(2.7, 4).Draw(t, "gap"))
	p.Cables = []Cable{{ID: "H1", Length: length, LeadReach: 6000}}
	if rapid.IntRange(0, 3).Draw(t, "two") == 0 {
		p.Cables = []Cable{{ID: "H1", Length: math.Round(length * 0.55), LeadReach: 8000},
			{ID: "H2", Length: math.Round(length * 0.45), LeadReach: 8000}}
	}
	return p
}

// solved lays a room that was drawn; one that is refused with a reason is another case.
func solved(t *rapid.T, p Problem) []Route {
	routes, err := Solve(p)
	if refusal := (*Refusal)(nil); errors.As(err, &refusal) {
		if refusal.Reason == "" {
			t.Fatal("refused without a reason")
		}
		skip.Test(t, skip.OtherCase, refusal.Reason)
	}
	if err != nil {
		t.Fatal(err)
	}
	return routes
}

// TestHardRulesHold lays random rooms and checks every hard rule.
func TestHardRulesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawRoom(t)
		routes := solved(t, p)
		if bad := broken(p, routes); bad != nil {
			t.Fatalf("%d broken: %v", len(bad), bad)
		}
		for i, rt := range routes {
			if len(p.Cables) == 1 && rt.Score.Covered < 0.95 {
				t.Fatalf("cable %d covers %.3f", i, rt.Score.Covered)
			}
		}
	})
}

// TestEveryShapeIsLaid makes sure that the random rooms above are not all
// refused: each shape once, nothing refused.
func TestEveryShapeIsLaid(t *testing.T) {
	for kind := range 8 {
		t.Run(fmt.Sprint(kind), func(t *testing.T) {
			p := roomOf(t, outline(kind, 3000, 2400), nil, 75, nil)
			p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3), LeadReach: 6000}}
			routes, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			if bad := broken(p, routes); bad != nil {
				t.Fatal(bad)
			}
			if s := routes[0].Score; s.Covered < 0.98 || s.Bare > 3 {
				t.Errorf("covered %.4f, bare %.2f", s.Covered, s.Bare)
			}
		})
	}
}
