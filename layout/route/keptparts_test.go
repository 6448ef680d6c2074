package route

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// A keptPlan is a plan by hand on a floor of 30 mm pegs, with so many pegs of cable.
type keptPlan struct {
	name  string
	floor plane.Ring // mm
	turns turns
	nodes []node
	total float64
	rule  rules
	wish  wishes
}

// plainRule are rules of small rooms: gaps of 2 to 5 pegs.
func plainRule() rules { return rulesFor(Problem{Pitch: 30, Closest: 2, Widest: 5, Bend: 15}, Cable{}) }

// keptPlans are plans that pushes better: each a fault of one kind.
func keptPlans() []keptPlan {
	box := func(w, h float64) plane.Ring { return plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)) }
	capped := plainRule()
	capped.meanGap, capped.mean = 3, 90
	return []keptPlan{
		{"a turn short of its wall", box(900, 360), 0,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {24, 6}, {24, 9}, {0, 9}, {0, 12}, {30, 12}}, 126,
			plainRule(), wishes{}},
		{"the same across", box(360, 900), 1,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {24, 6}, {24, 9}, {0, 9}, {0, 12}, {30, 12}}, 126,
			plainRule(), wishes{}},
		{"the same from the other side", box(900, 360), 2,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {24, 6}, {24, 9}, {0, 9}, {0, 12}, {30, 12}}, 126,
			plainRule(), wishes{}},
		{"a pocket beside the last run", plane.Ring{plane.Pt(0, 0), plane.Pt(900, 0), plane.Pt(900, 270),
			plane.Pt(600, 270), plane.Pt(600, 450), plane.Pt(300, 450), plane.Pt(300, 270), plane.Pt(0, 270)}, 0,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {30, 6}, {30, 9}, {0, 9}}, 121, plainRule(), wishes{}},
		{"a pocket beside the first", plane.Ring{plane.Pt(0, 0), plane.Pt(300, 0), plane.Pt(300, -180),
			plane.Pt(600, -180), plane.Pt(600, 0), plane.Pt(900, 0), plane.Pt(900, 270), plane.Pt(0, 270)}, 0,
			[]node{{0, 6}, {30, 6}, {30, 9}, {0, 9}, {0, 12}, {30, 12}, {30, 15}, {0, 15}}, 120, plainRule(), wishes{}},
		{"runs set unevenly", box(900, 480), 0,
			[]node{{0, 0}, {30, 0}, {30, 2}, {0, 2}, {0, 4}, {30, 4}, {30, 9}, {0, 9}, {0, 14}, {30, 14}, {30, 16},
				{2, 16}}, 170, plainRule(), wishes{}},
		{"a wall aslant", plane.Ring{plane.Pt(0, 0), plane.Pt(900, 0), plane.Pt(600, 360), plane.Pt(0, 360)}, 0,
			[]node{{0, 0}, {28, 0}, {28, 2}, {0, 2}, {0, 5}, {22, 5}, {22, 8}, {0, 8}, {0, 11}, {20, 11}}, 111,
			plainRule(), wishes{}},
		{"a wall aslant, more cable", plane.Ring{plane.Pt(0, 0), plane.Pt(900, 0), plane.Pt(600, 360),
			plane.Pt(0, 360)}, 0,
			[]node{{0, 0}, {27, 0}, {27, 3}, {0, 3}, {0, 6}, {22, 6}, {22, 9}, {0, 9}, {0, 12}, {20, 12}}, 109,
			plainRule(), wishes{}},
		{"a jog", box(900, 360), 0,
			[]node{{0, 0}, {30, 0}, {30, 3}, {14, 3}, {14, 4}, {0, 4}, {0, 7}, {30, 7}, {30, 10}, {0, 10}}, 123,
			plainRule(), wishes{}},
		{"the end in a doorway", box(900, 360), 0,
			[]node{{0, 0}, {30, 0}, {30, 4}, {0, 4}, {0, 8}, {30, 8}, {30, 12}, {0, 12}}, 126, plainRule(),
			wishes{avoid: []plane.Region{plane.FromRing(box(90, 400))}}},
		{"good floor at the end", box(900, 360), 0,
			[]node{{0, 0}, {30, 0}, {30, 4}, {0, 4}, {0, 8}, {30, 8}, {30, 12}, {0, 12}}, 126, plainRule(),
			wishes{low: []plane.Region{plane.FromRing(box(450, 90))}}},
		{"both ends return", box(900, 360), 0,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {30, 6}, {30, 9}, {3, 9}, {3, 12}, {30, 12}}, 130,
			plainRule(), wishes{both: true}},
		{"a power cap", box(900, 420), 0,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {26, 6}, {26, 9}, {0, 9}, {0, 12}, {30, 12}}, 131, capped,
			wishes{}},
		{"a whole row bare", box(900, 480), 0,
			[]node{{0, 0}, {30, 0}, {30, 3}, {0, 3}, {0, 6}, {30, 6}, {30, 9}, {0, 9}, {0, 12}, {20, 12}}, 131,
			plainRule(), wishes{}},
		{"narrow and long", box(240, 1200), 0,
			[]node{{0, 0}, {8, 0}, {8, 3}, {0, 3}, {0, 6}, {8, 6}, {8, 40}, {5, 40}, {5, 9}, {2, 9}, {2, 40}}, 112,
			plainRule(), wishes{}},
	}
}

// polisher is one for the plan, its box below the middle of the floor.
func (k keptPlan) polisher(t *testing.T) *polisher {
	t.Helper()
	zone := plane.FromRing(k.floor)
	floor, err := zone.Grow(75)
	if err != nil {
		t.Fatal(err)
	}
	box := floor.Bounds()
	wish := k.wish
	wish.strip = newStrip(floor, []plane.Region{zone}, plane.Pt(box.Centre().X, box.Min.Y))
	lattice := Lattice{Pitch: 30}
	l := &laying{rule: k.rule, wish: &wish, zone: newRim(zone), length: 30 * k.total}
	l.spacing = ideal(zone, l.length)
	l.field = newField(zone, lattice, 60, l.spacing)
	g := newGrid(zone, lattice, k.turns)
	nodes := slices.Clone(k.nodes)
	for i := range nodes { // by hand they are told from the floor's low corner as the plan sees it
		if !g.inside(nodes[i].x, nodes[i].y) {
			t.Fatalf("%s: %v is off the floor of %d by %d pegs", k.name, nodes[i], g.nx, g.ny)
		}
	}
	p, ok := newPolisher(g, l, l.field, nil, nodes)
	if !ok {
		t.Fatalf("%s: the end finds no place", k.name)
	}
	return p
}

// What pushes make of plans by hand is kept, step by step: no worse, as long, and sound.
func TestKeptPushes(t *testing.T) {
	var now strings.Builder
	for _, k := range keptPlans() {
		p := k.polisher(t)
		tell := func(what string) {
			fmt.Fprintf(&now, "%s, %s: %.5f, leads %.4f, %d tries left, ends %.4f on: %v\n", k.name, what,
				p.score.Total,
				p.leads, p.tries, p.end, p.nodes)
		}
		tell("by hand")
		was := p.score
		p.warmAll()
		tell("warmed")
		p.run()
		tell("pushed")
		p.turnRound()
		tell("turned round")
		if p.score.Total > was.Total {
			t.Errorf("%s: from %g to %g", k.name, was.Total, p.score.Total)
		}
		if path := p.world(p.nodes, p.end); !sound(path, k.rule, newRim(plane.FromRing(k.floor)), 30*k.total, 0) {
			t.Errorf("%s: %v is not sound", k.name, p.nodes)
		}
	}
	keepText(t, "pushes", now.String())
}

// A polisher's legs are those of its path on the floor, whichever way the rows lie, and its
// score is the field's with what leads and cold floor ask.
func TestAPolisherCountsItsPath(t *testing.T) {
	for _, k := range keptPlans() {
		p := k.polisher(t)
		path := p.world(p.nodes, p.end)
		for i, l := range p.field.legs(path) {
			got := p.legs[i]
			if got.x0 > got.x1 != (l.x0 > l.x1) {
				got.x0, got.x1 = got.x1, got.x0
			}
			for _, d := range []float64{got.x0 - l.x0, got.y0 - l.y0, got.x1 - l.x1, got.y1 - l.y1} {
				if math.Abs(d) > 1e-6 {
					t.Errorf("%s: leg %d is %v, the field says %v", k.name, i, p.legs[i], l)
					break
				}
			}
		}
		s, cold := p.field.judge(path, math.Inf(1)), p.tally.coldFloor(p.legs, math.Inf(1))
		leads, places := p.wish.judge(path)
		want := s.Total - weighBare*max(0, s.Bare-1.5) + cold.penalty(1) + leads + places
		if math.Abs(p.score.Total-want) > 1e-6 || math.Abs(p.leads-leads) > 1e-6 || p.score.Bare != cold.ratio {
			t.Errorf("%s: scored %.6f with %.6f for leads, want %.6f and %.6f", k.name, p.score.Total, p.leads, want,
				leads)
		}
		if s.Turns != len(p.nodes)-2 || math.Abs(s.Straight-p.score.Straight) > 1e-9 {
			t.Errorf("%s: %+v, the field says %+v", k.name, p.score, s)
		}
	}
}

// The end cap lies where the cable is used up, its last corner at a whole peg or the next.
func TestWhereTheEndCapLies(t *testing.T) {
	p := &polisher{rule: plainRule()}
	bent := 2*15/30.0 - math.Pi/2*15/30 // what a bend saves, pegs
	for _, c := range []struct {
		total, end float64
		last       node
		ok         bool
	}{
		{20 + 3 + 8 - 2*bent, 8, node{12, 3}, true}, {20 + 3 + 8.2 - 2*bent, 8.2, node{11, 3}, true},
		{20 + 3 + 0.54 - 2*bent, 0.54, node{19, 3}, true}, {20 + 3 + 0.52 - 2*bent, 0, node{}, false},
		{20 + 3 + 30 - 2*bent, 30, node{-10, 3}, true},
	} {
		p.total = c.total
		nodes, end, ok := p.fitEnd([]node{{0, 0}, {20, 0}, {20, 3}, {5, 3}})
		if ok != c.ok || ok && (math.Abs(end-c.end) > 1e-9 || nodes[3] != c.last) {
			t.Errorf("%.2f pegs: ends %g on, at %v, %v", c.total, end, nodes, ok)
		}
	}
	if got := stops(7, 3, 5, 1); !slices.Equal(got, []int{7, 3, 4, 5}) {
		t.Errorf("stops %v", got)
	}
	if got := stops(4, 3, 5, 1); !slices.Equal(got, []int{4, 3, 5}) {
		t.Errorf("stops %v", got)
	}
}

// A keptLeads is a floor with cables whose leads are kept.
type keptLeads struct {
	name   string
	walls  plane.Ring
	zones  []plane.Region
	entry  plane.Point
	paths  [][]plane.Point
	ends   circuit.Ends
	reach  float64
	lying  [][]plane.Point
	shares bool // of the zones' floor one each
}

func keptLeadScenes() []keptLeads {
	box := func(x0, y0, x1, y1 float64) plane.Ring { return plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1)) }
	region := func(x0, y0, x1, y1 float64) plane.Region { return plane.FromRing(box(x0, y0, x1, y1)) }
	row := func(border, y float64, starts ...float64) (out [][]plane.Point) {
		for _, x := range starts {
			out = append(out, points(x, border, x, y, x+80, y))
		}
		return out
	}
	across := [][]plane.Point{points(700, 60, 700, 700, 600, 700, 600, 60), points(60, 60, 60, 700, 200, 700, 200, 60)}
	return []keptLeads{
		{"five in a border of 75 mm", box(0, 0, 3000, 900), []plane.Region{region(75, 75, 2925, 825)}, plane.Pt(0, 40),
			row(75, 800, 400, 900, 1400, 1900, 2400), circuit.OneEnd, 0, nil, false},
		{"four in a border of 40 mm", box(0, 0, 2000, 700), []plane.Region{region(40, 40, 1960, 660)}, plane.Pt(0, 20),
			row(40, 600, 1500, 1100, 700, 300), circuit.OneEnd, 0, nil, false},
		{"three in a border of 25 mm", box(0, 0, 1500, 600), []plane.Region{region(25, 25, 1475, 575)}, plane.Pt(0, 12),
			row(25, 500, 300, 700, 1200), circuit.OneEnd, 0, nil, false},
		{"three in a border of 25 mm, the far ones first", box(0, 0, 1500, 600),
			[]plane.Region{region(25, 25, 1475, 575)}, plane.Pt(0, 12), row(25, 500, 1200, 700, 300), circuit.OneEnd, 0,
			nil, false},
		{"two that return", box(0, 0, 900, 800), []plane.Region{region(60, 60, 840, 740)}, plane.Pt(400, 0), across,
			circuit.BothEnds, 0, nil, false},
		{"a share each", box(0, 0, 1800, 800), []plane.Region{region(60, 60, 880, 740), region(920, 60, 1740, 740)},
			plane.Pt(0, 700), append(row(60, 700, 300), points(1700, 700, 1700, 100, 1000, 100)), circuit.OneEnd, 0,
			nil, true},
		{"a reach", box(0, 0, 1500, 600), []plane.Region{region(60, 60, 1440, 540)}, plane.Pt(0, 30),
			row(60, 500, 300, 500, 700), circuit.OneEnd, 760, nil, false},
		{"past a tube", box(0, 0, 1500, 600), []plane.Region{region(60, 60, 1440, 540)}, plane.Pt(0, 30),
			row(60, 500, 500, 1100), circuit.OneEnd, 0, [][]plane.Point{points(0, 30, 250, 30, 250, 400)}, false},
		{"aslant", plane.Ring{plane.Pt(0, 0), plane.Pt(1400, 300), plane.Pt(1300, 900), plane.Pt(0, 800)},
			[]plane.Region{region(100, 320, 1150, 720)}, plane.Pt(500, 107), row(320, 700, 300, 600, 1000),
			circuit.OneEnd, 0, nil, false},
		{"a long way round", box(0, 0, 1200, 900), []plane.Region{region(60, 60, 1140, 840)}, plane.Pt(0, 450),
			[][]plane.Point{points(0, 100, 1100, 100, 1100, 820, 700, 820), points(600, 840, 600, 300, 500, 300)},
			circuit.OneEnd, 0, nil, false},
		{"shut in", box(0, 0, 1200, 900), []plane.Region{region(60, 60, 1140, 840)}, plane.Pt(0, 450),
			[][]plane.Point{points(0, 100, 1200, 100), points(600, 60, 700, 60)}, circuit.OneEnd, 0, nil, false},
	}
}

// How cold leads are drawn is kept: where each bends, how long all are, for how much they
// lie on one another, and how many cells were looked at.
func TestKeptLeads(t *testing.T) {
	var now strings.Builder
	for _, k := range keptLeadScenes() {
		p := Problem{Floor: plane.FromRing(k.walls), Zones: k.zones, Entry: k.entry, Pitch: 30, Closest: 2, Widest: 5,
			Bend: 15, Steps: &Steps{left: stepsACable}}
		var routes []Route
		for i, path := range k.paths {
			p.Cables = append(p.Cables, Cable{ID: fmt.Sprint("H", i+1), Length: Length(path, 15), Ends: k.ends,
				LeadReach: k.reach})
			routes = append(routes, Route{Cable: i, Path: path})
		}
		r := &room{p: p, steps: p.Steps, lying: k.lying}
		if k.shares {
			r.regions = k.zones
		}
		if f := r.leads(routes); f != nil {
			fmt.Fprintf(&now, "%s: cable %d: %s; %d looks\n", k.name, f.cable, f.what, stepsACable-r.steps.left)
			continue
		}
		d := r.drawnAs(routes, r.leadLines(routes), r.joints(routes))
		fmt.Fprintf(&now, "%s: %.1f mm, on one another %.0f mm; %d looks, %d of them fine\n", k.name, d.length,
			d.stacked,
			stepsACable-r.steps.left, r.fine)
		for _, rt := range routes {
			fmt.Fprintf(&now, "\tcable %d: %.0f back %.0f\n", rt.Cable, rt.ColdLead, rt.Return)
		}
		for _, rt := range routes {
			if what := r.auditLeads(routes, rt.Cable); what != "" && k.reach == 0 {
				t.Errorf("%s: the lead of cable %d %s", k.name, rt.Cable, what)
			}
		}
	}
	keepText(t, "leads", now.String())
}
