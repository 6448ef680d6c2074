package route

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// A room of 1500 by 1200 mm whose middle is zone: leads go round it.
func stripRoom() (floor plane.Region, zones []plane.Region, entry plane.Point) {
	floor = plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: 1500, Y: 0}, {X: 1500, Y: 700}, {X: 1100, Y: 1200},
		{X: 0, Y: 1200}})
	zone := plane.FromRing(plane.Rectangle(plane.Pt(80, 95), plane.Pt(1290, 850)))
	return floor, []plane.Region{zone}, plane.Pt(400, 0)
}

// The shortest leads are those that are left when no step from cell to cell
// makes any shorter (Bellman and Ford), and each is as long as its way back.
func TestStripHasTheShortestLeads(t *testing.T) {
	floor, zones, entry := stripRoom()
	s := newStrip(floor, zones, entry)
	open := func(x, y int) bool {
		if x < 0 || y < 0 || x >= s.nx || y >= s.ny {
			return false
		}
		at := plane.Pt((float64(x)+0.5)*15, (float64(y)+0.5)*15)
		return floor.Contains(at) && !zones[0].Contains(at)
	}
	dist := make([]float64, s.nx*s.ny)
	for i := range dist {
		at := plane.Pt((float64(i%s.nx)+0.5)*15, (float64(i/s.nx)+0.5)*15)
		dist[i] = math.Inf(1)
		if open(i%s.nx, i/s.nx) && at.Dist(entry) < 60 {
			dist[i] = at.Dist(entry)
		}
	}
	for changed := true; changed; {
		changed = false
		for i := range dist {
			x, y := i%s.nx, i/s.nx
			for k := range 9 {
				dx, dy := k%3-1, k/3-1
				if !open(x, y) || !open(x+dx, y) || !open(x, y+dy) || !open(x+dx, y+dy) {
					continue
				}
				step := 15.0
				if dx*dy != 0 {
					step *= math.Sqrt2
				}
				if d := dist[i] + step; (dx != 0 || dy != 0) && d < dist[(y+dy)*s.nx+x+dx]-1e-9 {
					dist[(y+dy)*s.nx+x+dx], changed = d, true
				}
			}
		}
	}
	reached := 0
	for i, d := range dist {
		if math.Abs(s.lead[i]-d) > 1e-6 || math.IsInf(d, 1) != math.IsInf(s.lead[i], 1) {
			t.Fatalf("cell %d: %g mm, %g do", i, s.lead[i], d)
		}
		if math.IsInf(d, 1) {
			continue
		}
		reached++
		n := 0.0
		for k := int32(i); ; k = s.back[k] {
			if s.back[k] < 0 {
				n += s.centre(int(k)).Dist(entry)
				break
			}
			n += s.centre(int(k)).Dist(s.centre(int(s.back[k])))
		}
		if math.Abs(n-d) > 1e-6 {
			t.Fatalf("cell %d: the way back is %g mm, not %g", i, n, d)
		}
	}
	if reached < 1000 {
		t.Errorf("only %d cells reached", reached)
	}
}

func TestLeadToIsByTheNearestCells(t *testing.T) {
	floor, zones, entry := stripRoom()
	s := newStrip(floor, zones, entry)
	rapid.Check(t, func(t *rapid.T) {
		p := plane.Pt(rapid.Float64Range(-60, 1600).Draw(t, "x"), rapid.Float64Range(-60, 1300).Draw(t, "y"))
		want := math.Inf(1)
		for i, d := range s.lead {
			if off := s.centre(i).Dist(p); off < 37.5 {
				want = math.Min(want, d+off)
			}
		}
		if p.X < 0 || p.Y < 0 {
			return // never asked: the floor begins at its box's corner
		}
		got, cell := s.nearest(p)
		if got != want || got != s.leadTo(p) || (cell < 0) != math.IsInf(want, 1) {
			t.Fatalf("%v: %g mm, counted %g", p, got, want)
		}
		if cell >= 0 && s.lead[cell]+s.centre(cell).Dist(p) != got {
			t.Fatalf("%v: not by cell %d", p, cell)
		}
	})
	if d := s.leadTo(plane.Pt(700, 450)); !math.IsInf(d, 1) {
		t.Errorf("a lead of %g mm to the middle of the zone", d)
	}
}

// geodesic is the length of the shortest way by corners that a string would
// touch.
func geodesic(pts ...plane.Point) float64 {
	n := 0.0
	for i := 1; i < len(pts); i++ {
		n += pts[i-1].Dist(pts[i])
	}
	return n
}

func TestLeadRoutes(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 1000)))
	entry, start := plane.Pt(200, 0), plane.Pt(1800, 900)
	run := points(1800, 900, 1900, 900, 1900, 600) // the cable that the lead goes to
	for _, c := range []struct {
		name   string
		cables [][]plane.Point
		leads  [][]plane.Point
		want   float64 // mm by a string; 0 for no way
		off    float64 // mm kept from lines
	}{
		{"straight", nil, nil, geodesic(entry, start), 0},
		{"round a cable's end", [][]plane.Point{points(900, 0, 900, 700)}, nil, geodesic(entry, plane.Pt(900, 700),
			start), 10},
		{"round the other end", [][]plane.Point{points(900, 60, 900, 1000)}, nil, geodesic(entry, plane.Pt(900, 60),
			start), 10},
		{"between two", [][]plane.Point{points(900, 0, 900, 500), points(900, 560, 900, 1000)}, nil,
			geodesic(entry, plane.Pt(900, 500), plane.Pt(900, 560), start), 10},
		{"shut in", [][]plane.Point{points(0, 400, 500, 400, 500, 0)}, nil, 0, 0},
		{"shut out", [][]plane.Point{points(900, 0, 900, 1000)}, nil, 0, 0},
		{"round an earlier lead", nil, [][]plane.Point{points(200, 0, 200, 300, 1900, 300, 1900, 0)},
			geodesic(entry, plane.Pt(200, 300), start), 10},
		{"beside an earlier lead", nil, [][]plane.Point{points(200, 0, 600, 0, 600, 500)},
			geodesic(entry, plane.Pt(600, 500), start), 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := newLeadGround(floor, nil, entry, stripCell)
			for _, line := range append(c.cables, run) {
				g.add(byCable, plane.Point{}, line)
			}
			for _, line := range c.leads {
				g.addLead(byLead, line)
			}
			lead := g.leadRoute(start, byLead, 0)
			if c.want == 0 {
				if lead != nil {
					t.Fatalf("a way where none is: %v", lead)
				}
				return
			}
			if len(lead) < 2 || lead[0] != entry || lead[len(lead)-1] != start {
				t.Fatalf("from %v", lead)
			}
			if n := pathLength(lead); n < c.want-40 || n > 1.06*c.want+20 {
				t.Errorf("%.0f mm, a string takes %.0f: %v", n, c.want, lead)
			}
			for _, l := range plane.Segments(lead) {
				for d := 0.0; d < l.Length(); d += 4 {
					p := l.At(d)
					if floor.Depth(p) < -0.5 {
						t.Fatalf("off the floor at %v", p)
					}
					for _, line := range append(c.cables, c.leads...) {
						if off := plane.PathDistance(line, p); p.Dist(entry) > 40 && off < c.off-0.01 {
							t.Fatalf("%.1f mm from a line at %v", off, p)
						}
					}
				}
			}
		})
	}
}

// Through a gap too narrow for keeping off, a lead goes without.
func TestLeadGoesCloserWhereItMust(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 1000)))
	cables := [][]plane.Point{points(900, 0, 900, 977), points(1500, 500, 1800, 500)}
	g := newLeadGround(floor, nil, plane.Pt(200, 0), stripCell)
	for _, line := range cables {
		g.add(byCable, plane.Point{}, line)
	}
	lead := g.leadRoute(plane.Pt(1500, 500), 0, 0)
	if lead == nil {
		t.Fatal("no way through 23 mm")
	}
	for _, l := range plane.Segments(lead) {
		if l.Crosses(plane.Segment{A: cables[0][0], B: cables[0][1]}) {
			t.Error("over the cable")
		}
	}
}

// Leads past what lies there already: a mat's other leads, a sensor's tube.
func TestLeadsPast(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 1000)))
	p := Problem{Floor: floor, Entry: plane.Pt(200, 0), Cables: []Cable{{ID: "A"}}}
	path := points(1500, 500, 1800, 500, 1800, 600, 1500, 600)
	routes := []Route{{Path: path}}
	if !LeadsPast(p, routes, nil) || geodesic(routes[0].ColdLead...) > p.Entry.Dist(path[0])+1 {
		t.Errorf("nothing lies in the way, yet %v", routes[0].ColdLead)
	}
	lying := [][]plane.Point{points(200, 0, 900, 0, 900, 800)}
	if !LeadsPast(p, routes, lying) {
		t.Fatal("no way past")
	}
	if n, most := geodesic(routes[0].ColdLead...), geodesic(p.Entry, plane.Pt(900, 800), path[0]); n < most ||
		n > most*1.05 {
		t.Errorf("%.0f mm past what lies there, a string takes %.0f", n, most)
	}
	if routes[0].ColdLead = nil; LeadsPast(p, routes, [][]plane.Point{points(200, 300, 1000, 300)}) != true {
		t.Error("no way past a line")
	}
	p.Cables[0].LeadReach = 1000
	if LeadsPast(p, routes, lying) {
		t.Errorf("a lead of %.0f mm where there are 1000", geodesic(routes[0].ColdLead...))
	}
}

func TestOrders(t *testing.T) {
	for n, want := range []int{1, 1, 2, 6, 1} {
		seen := map[string]bool{}
		for _, o := range orders(n) {
			key := ""
			used := map[int]bool{}
			for _, i := range o {
				key += string(rune('a' + i))
				used[i] = i >= 0 && i < n
			}
			if len(o) != n || len(used) != n {
				t.Errorf("%v is no order of %d", o, n)
			}
			seen[key] = true
		}
		if len(seen) != want {
			t.Errorf("%d orders of %d things, want %d", len(seen), n, want)
		}
	}
	if o := orders(4)[0]; o[0] != 0 || o[3] != 3 {
		t.Errorf("of many things the given order, not %v", o)
	}
}
