package route

import (
	"strings"
	"testing"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// Pt(0, 0) to Pt(1000, 600) is floor; the zone keeps 50 mm off its edge and a
// wedge at the top right.
func auditRoom() *room {
	box := func(x0, y0, x1, y1 float64) plane.Ring { return plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1)) }
	zone := plane.Ring{{X: 50, Y: 50}, {X: 950, Y: 50}, {X: 950, Y: 400}, {X: 800, Y: 550}, {X: 50, Y: 550}}
	return &room{steps: &Steps{left: stepsACable}, p: Problem{
		Floor: plane.FromRing(box(0, 0, 1000, 600)), Zones: []plane.Region{plane.FromRing(zone)},
		Entry: plane.Pt(100, 0), Pitch: 30, Closest: 2, Widest: 5, Bend: 15,
	}}
}

func points(xy ...float64) []plane.Point {
	var out []plane.Point
	for i := 0; i < len(xy); i += 2 {
		out = append(out, plane.Pt(xy[i], xy[i+1]))
	}
	return out
}

// goodPath is a serpentine of four runs.
func goodPath() []plane.Point {
	return points(50, 50, 950, 50, 950, 140, 50, 140, 50, 230, 950, 230, 950, 320, 500, 320)
}

// lay lays a level path at y, its lead with it.
func lay(rt *Route, y float64) {
	rt.Path[0].Y, rt.Path[1].Y, rt.ColdLead[3].Y, rt.ColdLead[4].Y = y, y, y, y
}

// A case changes a good answer of one or two cables so that it breaks one rule.
func TestAuditFindsFaults(t *testing.T) {
	second := points(200, 410, 700, 410)
	for _, c := range []struct {
		name   string
		change func(r *room, rt []Route)
		want   string
	}{
		{"nothing wrong", func(*room, []Route) {}, ""},
		{"a leg outside", func(_ *room, rt []Route) { rt[0].Path[0].X = 49.2 }, "leaves its zone"},
		{"a leg over the wedge", func(_ *room, rt []Route) { rt[1].Path = points(200, 410, 945, 410) },
			"leaves its zone"},
		{"within what can't be drawn", func(_ *room, rt []Route) { rt[0].Path[0].X = 49.7 }, ""},
		{"a leg across a hole", func(r *room, _ []Route) {
			r.p.Zones[0][0].Holes = []plane.Ring{{{X: 300, Y: 130}, {X: 300, Y: 150}, {X: 320, Y: 150},
				{X: 320, Y: 130}}}
		}, "leaves its zone"},
		{"a spike of the edge", func(r *room, _ []Route) {
			r.p.Zones[0][0].Outer = plane.Ring{{X: 50, Y: 50}, {X: 600, Y: 50}, {X: 601, Y: 52}, {X: 602, Y: 50},
				{X: 950, Y: 50}, {X: 950, Y: 400}, {X: 800, Y: 550}, {X: 50, Y: 550}}
		}, "leaves its zone"},
		{"a bend cut by a concave corner", func(r *room, _ []Route) {
			r.p.Zones[0][0].Holes = []plane.Ring{{{X: 850, Y: 51}, {X: 850, Y: 139}, {X: 949, Y: 139}, {X: 949, Y: 51}}}
		}, "leaves its zone"},
		{"runs too close", func(_ *room, rt []Route) {
			rt[0].Path = append(rt[0].Path[:6], points(950, 390, 500, 390, 500, 270)...)
		}, "closer to itself"},
		{"cables too close", func(_ *room, rt []Route) { rt[1].Path[0].Y, rt[1].Path[1].Y = 375, 375 },
			"closer to cable"},
		{"cables just apart", func(_ *room, rt []Route) { lay(&rt[1], 379.6) }, ""},
		{"cables not quite apart", func(_ *room, rt []Route) { lay(&rt[1], 379.4) },
			"closer to cable"},
		{"cables crossing", func(_ *room, rt []Route) { rt[1].Path = points(300, 200, 300, 410) }, "closer to cable"},
		{"too short", func(r *room, _ []Route) { r.p.Cables[0].Length += 0.2 }, "length"},
		{"no room for a bend", func(r *room, _ []Route) { r.p.Bend = 46 }, "bend"},
		{"too hot over three runs", func(r *room, _ []Route) {
			r.p.Cables[0].WattsPerMetre,
				r.p.Cables[0].MaxDensity = 10, 100
		}, "power"},
		{"as hot as may be", func(r *room, _ []Route) {
			r.p.Cables[0].WattsPerMetre, r.p.Cables[0].MaxDensity = 9,
				100
		}, ""},
		{"too hot beside a return lane", func(r *room, rt []Route) {
			// three lanes up the left wall, 60 mm apart; the runs are 90 mm apart
			rt[0].Path = points(50, 50, 50, 500, 110, 500, 110, 50, 170, 50, 170, 500, 800, 500, 800, 410, 300, 410)
			rt[1].Path = points(300, 100, 700, 100)
			r.p.Cables[0].WattsPerMetre, r.p.Cables[0].MaxDensity = 8, 100
		}, "power"},
		{"no lead", func(_ *room, rt []Route) { rt[0].ColdLead = nil }, "does not join"},
		{"lead from elsewhere", func(_ *room, rt []Route) { rt[0].ColdLead[0].X = 300 }, "does not join"},
		{"lead too long", func(r *room, _ []Route) { r.p.Cables[0].LeadReach = 50 }, "too short"},
		{"lead just long enough", func(r *room, _ []Route) { r.p.Cables[0].LeadReach = 70.65 }, ""}, // of 70.71 mm
		{"lead not quite", func(r *room, _ []Route) { r.p.Cables[0].LeadReach = 70.55 }, "too short"},
		{"hardly any lead", func(r *room, _ []Route) { r.p.Cables[0].LeadReach = 0.5 }, "too short"},
		{"lead off the floor", func(_ *room, rt []Route) { rt[0].ColdLead = points(100, 0, -20, 25, 50, 50) },
			"leaves the floor"},
		{"lead over its own cable", func(_ *room, rt []Route) { rt[0].ColdLead = points(100, 0, 100, 100, 50, 50) },
			"meets the heating part of cable A"},
		{"lead over another cable", func(_ *room, rt []Route) {
			rt[1].ColdLead = points(100, 0, 100, 20, 20, 20, 20, 600, 400, 600, 400, 380, 200, 410)
		}, "meets the heating part of cable B"},
		{"lead along a cable", func(_ *room, rt []Route) {
			rt[1].ColdLead = points(100, 0, 100, 20, 20, 20, 20, 320, 500, 320, 480, 365, 200, 410)
		}, "meets the heating part of cable A"},
		{"a single conductor without its way back", func(r *room, _ []Route) { r.p.Cables[0].Ends = circuit.BothEnds },
			"does not join"},
		{"leads crossing", func(_ *room, rt []Route) { rt[0].ColdLead = points(100, 0, 40, 40, 5, 300, 50, 50) },
			"leads cross"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := auditRoom()
			routes := []Route{
				{Cable: 0, Path: goodPath(), ColdLead: points(100, 0, 50, 50)},
				{Cable: 1, Path: append([]plane.Point(nil), second...), ColdLead: points(100, 0, 80, 10, 20, 30, 20,
					410, 200, 410)},
			}
			r.p.Cables = []Cable{{ID: "A"}, {ID: "B"}}
			for i := range routes {
				r.p.Cables[i].Length = 0
			}
			lengths := func() {
				for i, rt := range routes {
					r.p.Cables[i].Length += Length(rt.Path, r.p.Bend)
				}
			}
			c.change(r, routes)
			lengths()
			f := r.audit(routes)
			switch {
			case f == nil && c.want != "":
				t.Errorf("no fault found, want %q", c.want)
			case f != nil && (c.want == "" || !strings.Contains(f.what, c.want)):
				t.Errorf("fault %q, want %q", f.what, c.want)
			case f != nil && f.bearable != (c.want == "leads cross"):
				t.Errorf("bearable is %v", f.bearable)
			}
		})
	}
}

// A cable at fault gives way to its next best route; with none left the
// answer is a refusal.
func TestNextBestRoute(t *testing.T) {
	r := auditRoom()
	r.p.Cables = []Cable{{ID: "A", Length: Length(goodPath(), r.p.Bend)}}
	r.strip = newStrip(r.p.Floor, r.p.Zones, r.p.Entry)
	bad := Route{Path: append(points(20, 50), goodPath()[1:]...)}
	good := Route{Path: goodPath()}
	got, err := r.answer([][]Route{{bad, good}})
	if err != nil || got[0].Path[0] != good.Path[0] {
		t.Errorf("got %v, %v", got, err)
	}
	if got, err := r.answer([][]Route{{bad, bad}}); err == nil {
		t.Errorf("got %v, want a refusal", got)
	}
}

func TestWishesJudgeEnds(t *testing.T) {
	r := auditRoom()
	strip := newStrip(r.p.Floor, r.p.Zones, r.p.Entry)
	region := func(x0, y0, x1, y1 float64) []plane.Region {
		return []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1)))}
	}
	path := goodPath()
	plain, _ := (&wishes{strip: strip}).judge(path)
	if lead := strip.leadTo(path[0]); plain != weighLead*lead/1000 || lead < 60 {
		t.Errorf("judged %g with a lead of %g mm", plain, lead)
	}
	for _, c := range []struct {
		name string
		w    wishes
		more float64
	}{
		{"end in low-value floor", wishes{low: region(400, 300, 600, 340)}, 0},
		{"end in good floor", wishes{low: region(700, 400, 800, 500)}, weighEndHigh},
		{"end in a doorway", wishes{avoid: region(400, 300, 600, 340)}, weighEndAvoid},
		{"start in a doorway", wishes{avoid: region(0, 0, 200, 200)}, weighEndAvoid},
	} {
		c.w.strip = strip
		if lead, got := c.w.judge(path); lead != plain || got != c.more {
			t.Errorf("%s: %g more, want %g", c.name, got, c.more)
		}
	}
}

// The end cap goes to low-value floor and, like the start of heat, keeps out
// of where none should lie.
func TestEndsGoWhereWanted(t *testing.T) {
	p := roomOf(t, outline(0, 2600, 2200), nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.3), LeadReach: 6000}}
	end := func(p Problem) (start, end plane.Point) {
		t.Helper()
		routes, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		path := routes[0].Path
		return path[0], path[len(path)-1]
	}
	around := func(q plane.Point, d float64) []plane.Region {
		return []plane.Region{plane.FromRing(plane.Rectangle(q.Sub(plane.Pt(d, d)), q.Add(plane.Pt(d, d))))}
	}
	s, e := end(p)
	p.Avoid = append(around(e, 300), around(s, 200)...)
	if s, e := end(p); anyHolds(p.Avoid, e) || anyHolds(p.Avoid, s) {
		t.Errorf("path from %v to %v, in a doorway", s, e)
	}
	p.Avoid = nil
	// the end across from the entry, and to either side
	box, found := p.Zones[0].Bounds(), 0
	for _, half := range []plane.Rect{
		{Min: box.Min, Max: plane.Pt(box.Centre().X, box.Max.Y)}, {Min: plane.Pt(box.Centre().X, box.Min.Y),
			Max: box.Max},
		{Min: plane.Pt(box.Min.X, box.Centre().Y), Max: box.Max},
	} {
		low, _ := plane.FromRing(plane.Rectangle(half.Min, half.Max)).Grow(10)
		p.Low = []plane.Region{low}
		_, e := end(p)
		if anyHolds(p.Low, e) {
			found++
		}
	}
	if found < 3 {
		t.Errorf("the end lay in low-value floor for %d of 3 halves", found)
	}
}

// Leads that cross are found whatever their number of corners, but for the fan at the entry.
func TestLeadsThatCross(t *testing.T) {
	straight, fan := points(0, 0, 1000, 0), leadFan
	for _, c := range []struct {
		name  string
		other []plane.Point
		want  bool
	}{{"aside", points(0, 0, 500, 500), false}, {"over it", points(0, 0, 500, 500, 500, -500), true},
		{"within the fan", points(0, 0, fan-5, 500, fan-5, -500), false},
		{"beyond it", points(0, 0, fan+5, 500, fan+5, -500), true}, {"none", nil, false}} {
		for _, back := range []bool{false, true} { // as a lead of its own, or a second lead
			routes := []Route{{Cable: 0, ColdLead: straight}, {Cable: 1, ColdLead: c.other}}
			if back {
				routes = []Route{{Cable: 1, ColdLead: straight, Return: c.other}}
			}
			f := crossedLeads(routes)
			if (f != nil) != c.want || f != nil && (f.cable != 1 || !f.bearable) {
				t.Errorf("%s: %+v", c.name, f)
			}
		}
	}
}
