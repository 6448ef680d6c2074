package route

import (
	"errors"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// plainRooms are the three rooms of 75 mm spacing that other planners were
// measured on: a rectangle, an L and a room with a hole. The runs lie half a
// spacing from every edge. turns is the count of a serpentine (with the way
// round the hole in the third).
var plainRooms = []struct {
	name    string
	walls   plane.Ring
	hole    plane.Ring
	length  float64
	covered float64
	turns   int
}{
	{"rectangle", plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2400)), nil, 95590, 0.997, 62},
	{"L", plane.Ring{{X: 0, Y: 0}, {X: 3600, Y: 0}, {X: 3600, Y: 1500}, {X: 2400, Y: 1500}, {X: 2400, Y: 3000},
		{X: 0, Y: 3000}}, nil, 119300, 0.997, 78},
	{"hole", plane.Rectangle(plane.Pt(0, 0), plane.Pt(4000, 3000)), plane.Rectangle(plane.Pt(1600, 1200),
		plane.Pt(2400, 1800)), 152200, 0.998, 94},
}

func plainRoom(t fataler, i int) Problem {
	r := plainRooms[i]
	p := Problem{Floor: plane.FromRing(r.walls), Pitch: 25, Closest: 2, Widest: 5, Bend: 12.5, Entry: plane.Pt(100, 0)}
	zone, err := p.Floor.Grow(-37.5)
	if r.hole != nil && err == nil {
		p.Floor, _ = p.Floor.Less(plane.FromRing(r.hole))
		// an offset with square corners
		h := r.hole.Bounds()
		zone, err = zone.Less(plane.FromRing(plane.Rectangle(h.Min.Sub(plane.Pt(37.5, 37.5)),
			h.Max.Add(plane.Pt(37.5, 37.5)))))
	}
	if err != nil {
		t.Fatal(err)
	}
	p.Zones = []plane.Region{zone}
	p.Cables = []Cable{{ID: "H1", Length: r.length}}
	return p
}

func TestPlainRooms(t *testing.T) {
	for i, r := range plainRooms {
		t.Run(r.name, func(t *testing.T) {
			p := plainRoom(t, i)
			routes, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			if bad := broken(p, routes); bad != nil {
				t.Fatal(bad)
			}
			s := routes[0].Score
			t.Logf("covered %.4f, %d turns, bare %.2f, evenness %.3f", s.Covered, s.Turns, s.Bare, s.Evenness)
			if s.Covered < r.covered {
				t.Errorf("covered %.4f, want %.3f", s.Covered, r.covered)
			}
			if off := math.Abs(float64(s.Turns-r.turns)) / float64(r.turns); off > 0.05 {
				t.Errorf("%d turns, want %d within 5 %%", s.Turns, r.turns)
			}
		})
	}
}

func TestSameRouteOnAnyNumberOfCores(t *testing.T) {
	p := roomOf(t, outline(3, 2600, 2200), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.2)}}
	old := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(old)
	one, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	runtime.GOMAXPROCS(4)
	many, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(one, many); d != "" {
		t.Error(d)
	}
}

func TestJointKeepsCablesApart(t *testing.T) {
	joint := plane.Segment{A: plane.Pt(1700, -50), B: plane.Pt(1700, 2500)}
	p := roomOf(t, outline(0, 3000, 2400), nil, 75, &joint)
	if len(p.Zones) != 2 {
		t.Fatal(len(p.Zones), "zones")
	}
	for i, z := range p.Zones {
		p.Cables = append(p.Cables, Cable{ID: string(rune('A' + i)), Length: lengthFor(p, z, 3.2), LeadReach: 6000})
	}
	p.Cables[0], p.Cables[1] = p.Cables[1], p.Cables[0]
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Fatal(bad)
	}
	if routes[0].Zone != 1 || routes[1].Zone != 0 {
		t.Errorf("cables in zones %d and %d: the longer belongs in the larger", routes[0].Zone, routes[1].Zone)
	}
}

func TestNoCableGoesWhereItIsFarTooLong(t *testing.T) {
	p := roomOf(t, outline(0, 3000, 2400), nil, 75, nil)
	length := lengthFor(p, p.Zones[0], 3.2)
	pocket := plane.FromRing(plane.Rectangle(plane.Pt(3200, 100), plane.Pt(3600, 400)))
	p.Zones = append(p.Zones, pocket)
	p.Cables = []Cable{{ID: "A", Length: length * 0.55}, {ID: "B", Length: length * 0.45}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, rt := range routes {
		if rt.Zone != 0 {
			t.Errorf("cable %d lies in a pocket of %.2f m²", rt.Cable, pocket.Area()/1e6)
		}
	}
}

// TestCutsOtherwiseWhereTheBestCutFails has a room so full that one of the two
// shares of the most even cut can't hold its cable.
func TestCutsOtherwiseWhereTheBestCutFails(t *testing.T) {
	walls := plane.Ring{{X: 0, Y: 161.9}, {X: 2055.1, Y: 0}, {X: 2025.5, Y: 2279.2}, {X: 110.4, Y: 2230.6}}
	p := roomOf(t, walls, nil, 75, nil)
	p.Pitch, p.Bend, p.Entry = 32, 16, plane.Pt(2030.6, 1887.5)
	standing(t, &p, 75,
		plane.Ring{{X: 402.8, Y: 1172.9}, {X: 1088.4, Y: 1172.9}, {X: 1088.4, Y: 1664.4}, {X: 402.8, Y: 1664.4}},
		plane.Ring{{X: 465.1, Y: 125.2}, {X: 1213.3, Y: 66.3}, {X: 1240.2, Y: 408.3}, {X: 492, Y: 467.2}},
		plane.Ring{{X: 480.5, Y: 761}, {X: 755, Y: 761}, {X: 755, Y: 1050.8}, {X: 480.5, Y: 1050.8}})
	standing(t, &p, 40,
		plane.Ring{{X: 892.7, Y: 91.6}, {X: 1701.1, Y: 27.9}, {X: 1754, Y: 699.2}, {X: 945.6, Y: 762.9}},
		plane.Ring{{X: 0, Y: 161.9}, {X: 641.7, Y: 111.3}, {X: 681.2, Y: 612.7}, {X: 39.5, Y: 663.2}})
	if len(p.Zones[0]) != 1 {
		t.Fatal(len(p.Zones[0]), "pieces of floor")
	}
	p.Cables = []Cable{{ID: "A", Length: 16800, LeadReach: 6000}, {ID: "B", Length: 12667, LeadReach: 6000}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Fatal(bad)
	}
	r := &room{p: p, lattice: chooseLattice(p), steps: p.steps()}
	if _, err := r.solve(); err == nil {
		t.Error("the first cut does: the test shows nothing")
	}
}

func TestLeadsGoInTheOrderThatMakesThemShortest(t *testing.T) {
	// The first lead, straight to its start, leaves no way along the wall past
	// it: the second would have to go round both cables.
	r := &room{steps: &Steps{left: stepsACable},
		p: Problem{Floor: plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))),
			Entry: plane.Pt(3000, 1000), Cables: make([]Cable, 2)}}
	var zones []plane.Region
	near := []plane.Point{{X: 2900, Y: 1800}, {X: 1600, Y: 1800}, {X: 1600, Y: 200}, {X: 2900, Y: 200},
		{X: 2900, Y: 1700}}
	far := []plane.Point{{X: 1400, Y: 1800}, {X: 100, Y: 1800}, {X: 100, Y: 200}, {X: 1400, Y: 200}}
	for _, p := range [][]plane.Point{near, far} {
		b := plane.Bounds(p)
		zones = append(zones, plane.FromRing(plane.Rectangle(b.Min, b.Max)))
	}
	r.strip = newStrip(r.p.Floor, zones, r.p.Entry)
	routes := []Route{{Cable: 0, Path: near}, {Cable: 1, Path: far}}
	if f := r.leads(routes); f != nil {
		t.Fatal(f.what)
	}
	best := math.Inf(1)
	for _, order := range [][]int{{0, 1}, {1, 0}} {
		routes := []Route{{Cable: 0, Path: near}, {Cable: 1, Path: far}}
		d, f := r.leadsInOrder(routes, order, []*leadGround{r.ground(routes, stripCell)})
		if f == nil {
			t.Logf("order %v: %.0f mm", order, d.length)
			best = math.Min(best, d.length)
		}
	}
	got := pathLength(routes[0].ColdLead) + pathLength(routes[1].ColdLead)
	if straight := 810 + 2400.0; got > best+1 || got > straight {
		t.Errorf("leads of %.0f mm, could be %.0f", got, best)
	}
}

// The lead goes round the room in the 75 mm between the walls and the run it
// leads to. A heating cable is 5 to 7 mm thick (common practice), so that lines
// less than that apart touch.
func TestLeadsKeepOffCableAndWalls(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	r := &room{steps: &Steps{left: stepsACable}, p: Problem{Floor: floor, Entry: plane.Pt(0, 1000),
		Cables: make([]Cable, 1)}}
	path := []plane.Point{{X: 2925, Y: 1925}, {X: 75, Y: 1925}, {X: 75, Y: 75}, {X: 2925, Y: 75}}
	r.strip = newStrip(floor, []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(75, 75), plane.Pt(2925, 1925)))},
		r.p.Entry)
	routes := []Route{{Path: path}}
	if f := r.leads(routes); f != nil {
		t.Fatal(f.what)
	}
	lead := routes[0].ColdLead
	for _, l := range plane.Segments(lead) {
		for d := 0.0; d < l.Length(); d += 5 {
			p := l.At(d)
			if p.Dist(r.p.Entry) < 75 || p.Dist(path[0]) < 75 {
				continue
			}
			if off := min(plane.PathDistance(path, p), floor.Distance(p)); off < 8 {
				t.Fatalf("%.1f mm from cable or wall at %.0f", off, p)
			}
		}
	}
	if n, least := pathLength(lead), 2900+925.0; n > 1.02*least {
		t.Errorf("a lead of %.0f mm, %.0f would do", n, least)
	}
}

func TestBothEndsReturn(t *testing.T) {
	p := roomOf(t, outline(0, 2600, 2200), nil, 75, nil)
	p.Cables = []Cable{{ID: "S1", Length: lengthFor(p, p.Zones[0], 3.3), Ends: circuit.BothEnds, LeadReach: 2500}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Fatal(bad)
	}
}

func TestGoesOnFromLaidPart(t *testing.T) {
	p := roomOf(t, outline(0, 2600, 2200), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3), LeadReach: 6000}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	lattice := routes[0].Lattice
	p.Lattice = &lattice
	for _, share := range []float64{0.35, 0.5, 0.7} {
		laid := firstPart(routes[0].Path, share)
		p.Frozen = [][]plane.Point{laid}
		// 60 mm more than planned have gone into what is laid
		p.Cables[0].Length = routes[0].ScoreLength(p.Bend) - 60
		again, err := Solve(p)
		if err != nil {
			t.Fatalf("%.0f %% laid: %v", 100*share, err)
		}
		if d := cmp.Diff(laid, again[0].Path[:len(laid)]); d != "" {
			t.Errorf("%.0f %% laid: the laid part has moved: %s", 100*share, d)
		}
		if bad := broken(p, again); bad != nil {
			t.Errorf("%.0f %% laid: %v", 100*share, bad)
		}
	}
}

// ScoreLength is the route's true length.
func (r Route) ScoreLength(bend float64) float64 { return Length(r.Path, bend) }

// firstPart returns the corner points up to a share of the path and a last
// one in the middle of the leg that follows, on a peg.
func firstPart(path []plane.Point, share float64) []plane.Point {
	k := int(share*float64(len(path))) | 1
	leg := plane.Segment{A: path[k-1], B: path[k]}
	return append(append([]plane.Point(nil), path[:k]...), leg.At(math.Round(leg.Length()/2/30)*30))
}

func TestRefusals(t *testing.T) {
	room := func() Problem {
		p := roomOf(t, outline(0, 2400, 2000), nil, 75, nil)
		p.Cables = []Cable{{ID: "H1", Length: 50000, LeadReach: 6000}}
		return p
	}
	for _, c := range []struct {
		name   string
		change func(*Problem)
		want   string
	}{
		{"too long", func(p *Problem) { p.Cables[0].Length = 200000 }, "too long"},
		{"too short", func(p *Problem) { p.Cables[0].Length = 12000 }, "too short"},
		{"lead too short", func(p *Problem) { p.Cables[0].LeadReach = 20 }, "lead"},
		{"no floor", func(p *Problem) { p.Zones = nil }, "no floor"},
		{"no cable", func(p *Problem) { p.Cables = nil }, "no cable"},
		{"no pitch", func(p *Problem) { p.Pitch = 0 }, "positive"},
		{"NaN length", func(p *Problem) { p.Cables[0].Length = math.NaN() }, "length"},
		{"negative length", func(p *Problem) { p.Cables[0].Length = -3 }, "length"},
		{"too narrow", func(p *Problem) {
			p.Zones = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(100, 100), plane.Pt(130, 130)))}
		}, "narrow"},
		{"too hot", func(p *Problem) { p.Cables[0].WattsPerMetre, p.Cables[0].MaxDensity = 20, 130 }, "gaps"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := room()
			c.change(&p)
			_, err := Solve(p)
			var r *Refusal
			if !errors.As(err, &r) {
				t.Fatalf("no refusal but %v", err)
			}
			if !strings.Contains(r.Reason, c.want) {
				t.Errorf("reason %q, want one with %q", r.Reason, c.want)
			}
			if (c.name == "too long" || c.name == "too short") && !(r.Shortest > 0 && r.Shortest < r.Longest) {
				t.Errorf("range %.0f to %.0f mm", r.Shortest, r.Longest)
			}
		})
	}
}

// A length inside the range that a refusal gives is laid.
func TestRefusedRangeIsHonest(t *testing.T) {
	p := roomOf(t, outline(1, 2600, 2200), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: 1e6}}
	_, err := Solve(p)
	var r *Refusal
	if !errors.As(err, &r) {
		t.Fatal(err)
	}
	for _, f := range []float64{0.02, 0.5, 0.98} {
		p.Cables[0].Length = math.Round(r.Shortest + f*(r.Longest-r.Shortest))
		routes, err := Solve(p)
		if err != nil {
			t.Errorf("%.0f mm of %.0f to %.0f: %v", p.Cables[0].Length, r.Shortest, r.Longest, err)
			continue
		}
		if bad := broken(p, routes); bad != nil {
			t.Error(bad)
		}
	}
}

// Three neighbouring runs never give more power than the cap.
func TestPowerCap(t *testing.T) {
	p := roomOf(t, outline(0, 2400, 2000), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.9), WattsPerMetre: 10, MaxDensity: 10 / 0.0975}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	gaps := rowGaps(routes[0])
	for i := 1; i < len(gaps); i++ {
		if mean := (gaps[i-1] + gaps[i]) / 2; mean < 97.5-0.1 {
			t.Errorf("runs %.1f and %.1f mm apart: mean %.1f mm, 97.5 asked", gaps[i-1], gaps[i], mean)
		}
	}
}

// rowGaps returns the distances between neighbouring rows of runs.
func rowGaps(r Route) []float64 {
	var at []float64
	for i := 1; i < len(r.Path); i++ {
		d := r.Path[i].Sub(r.Path[i-1]).Rotate(-r.Rows)
		if math.Abs(d.X) > 500 {
			at = append(at, r.Path[i].Rotate(-r.Rows).Y)
		}
	}
	slices.Sort(at)
	var gaps []float64
	for i := 1; i < len(at); i++ {
		if g := at[i] - at[i-1]; g > 1 {
			gaps = append(gaps, g)
		}
	}
	return gaps
}

// TestDirectionsFarBehindAreLeft: once one direction of rows covers the floor well, another goes on
// only where it is not far behind; without a route of its own it may still find one.
func TestDirectionsFarBehindAreLeft(t *testing.T) {
	f := &field{hangs: 1}
	scored := func(covered, total float64) *way {
		return &way{field: f, best: &candidate{score: Score{Covered: covered, Total: total}}}
	}
	well, near, far, none := scored(0.995, 5), scored(0.97, 5+farBehind), scored(0.8, 5.1+farBehind), &way{field: f}
	for _, c := range []struct{ ways, want []*way }{
		{[]*way{well, far}, []*way{well}},
		{[]*way{near, well}, []*way{near, well}},
		{[]*way{none, well}, []*way{none, well}},
		{[]*way{near, scored(0.8, 30)}, nil}, // the best leaves floor cold: all go on
	} {
		if c.want == nil {
			c.want = c.ways
		}
		if got := ahead(c.ways); !slices.Equal(got, c.want) {
			t.Errorf("%d of %d ways go on, want %d", len(got), len(c.ways), len(c.want))
		}
	}
	well.annexes, near.annexes = true, true
	if got := ahead([]*way{near, well}); !slices.Equal(got, []*way{well}) {
		t.Errorf("%d ways go on where plans get rings, want the best alone", len(got))
	}
}
