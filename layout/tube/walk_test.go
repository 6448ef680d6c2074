package tube

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// walkFloor is an L with a corner cut off and a column, and a grid askew on it.
func walkFloor(t *testing.T) (*walk, plane.Region) {
	t.Helper()
	floor, err := plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: 900, Y: 0}, {X: 900, Y: 410}, {X: 700, Y: 610},
		{X: 430, Y: 610}, {X: 430, Y: 800}, {X: 0, Y: 800}}).
		Less(plane.FromRing(plane.Rectangle(plane.Pt(205, 215), plane.Pt(295, 335))))
	if err != nil {
		t.Fatal(err)
	}
	return newWalk(floor, plane.Pt(7, 11), 0.1, 30), floor
}

func TestNodesAreOnTheFloor(t *testing.T) {
	w, floor := walkFloor(t)
	free := 0
	for n, ok := range w.free {
		p := w.point(n)
		if d := floor.Depth(p); math.Abs(d) > 0.01 && ok != (d > 0) {
			t.Fatalf("node %d at %v, %.1f mm inside: %v", n, p, d, ok)
		}
		if ok {
			free++
		}
		if w.nodeAt(p) != n || w.nodeAt(p.Add(plane.Pt(14, 0).Rotate(0.1))) != n ||
			w.nodeAt(p.Add(plane.Pt(0, -14).Rotate(0.1))) != n {
			t.Fatalf("node %d is not found where it is", n)
		}
		if w.nodeAt(p.Add(plane.Pt(13, 13).Rotate(0.1))) != -1 {
			t.Fatalf("a point 18 mm from node %d is taken for it", n)
		}
	}
	if want := floor.Area() / 900; math.Abs(float64(free)-want) > want/10 {
		t.Errorf("%d nodes on %.0f squares of floor", free, want)
	}
	for _, p := range []plane.Point{{X: -200, Y: 300}, {X: 300, Y: -200}, {X: 1200, Y: 300}, {X: 300, Y: 1200}} {
		if n := w.nodeAt(p); n != -1 {
			t.Errorf("%v is node %d", p, n)
		}
	}
	for _, r := range floor {
		for _, p := range r.Outer { // the grid reaches past every corner
			if c := w.cell(p); c.X < -1e-9 || c.Y < -1e-9 || c.X > float64(w.nx-1) || c.Y > float64(w.ny-1) {
				t.Errorf("corner %v lies outside the grid, at %v", p, c)
			}
		}
	}
}

// Of a line, near visits all nodes within a distance, each once.
func TestNearVisitsAll(t *testing.T) {
	w, _ := walkFloor(t)
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		s := plane.Segment{A: plane.Pt(900*r.Float64(), 800*r.Float64()), B: plane.Pt(900*r.Float64(), 800*r.Float64())}
		d := 100 * r.Float64()
		seen := map[int]int{}
		w.near(s, d, func(n int, here plane.Point, c plane.Segment) {
			seen[n]++
			if away := c.Distance(here)*w.step - s.Distance(w.point(n)); math.Abs(away) > 1e-6 {
				t.Fatalf("node %d is %.2f mm farther off in cells", n, away)
			}
		})
		for n := range w.free {
			if in := s.Distance(w.point(n)) <= d; in && seen[n] != 1 || seen[n] > 1 {
				t.Fatalf("node %d, %.1f mm from %v, visited %d times within %.1f", n, s.Distance(w.point(n)), s,
					seen[n], d)
			}
		}
		if len(seen) > int((s.Length()+2*d+90)*(2*d+120+s.Length()/2)/900)+20 && len(seen) > len(w.free)/2 {
			t.Fatalf("%d of %d nodes visited for %v within %.0f", len(seen), len(w.free), s, d)
		}
	}
}

// What steps ask is worked out again from the lines themselves.
func TestBarsTollsAndShuns(t *testing.T) {
	w, floor := walkFloor(t)
	bar := []plane.Point{{X: 120, Y: 60}, {X: 122, Y: 500}, {X: 330, Y: 503}}
	toll := []plane.Point{{X: 500, Y: -50}, {X: 610, Y: 700}}
	shun := plane.Segment{A: plane.Pt(420, 130), B: plane.Pt(800, 133)}
	w.bar(bar)
	w.cross(toll, 7)
	w.shun(shun, 45, 3)
	w.shun(plane.Segment{A: shun.B, B: plane.Pt(800, 300)}, 45, 2)
	barred := 0
	for n := range w.free {
		p := w.point(n)
		on := plane.PathDistance(bar, p) < 0.3*30
		if inside := floor.Contains(p); w.free[n] != (inside && !on) {
			t.Fatalf("node %d free: %v", n, w.free[n])
		}
		for d := range fourWays {
			i, j := n%w.nx+fourWays[d][0], n/w.nx+fourWays[d][1]
			if i < 0 || j < 0 || i >= w.nx || j >= w.ny {
				if _, ask := w.next(n, d); ask != unreachable {
					t.Fatalf("node %d, way %d leads off the grid", n, d)
				}
				continue
			}
			m := j*w.nx + i
			step := plane.Segment{A: p, B: w.point(m)}
			var want int32
			if w.free[m] {
				q := w.point(m)
				if shun.Distance(q) < 45-1e-6 {
					want += 3
				}
				if (plane.Segment{A: shun.B, B: plane.Pt(800, 300)}).Distance(q) < 45-1e-6 {
					want += 2
				}
			}
			if meets(step, toll) {
				want += 7
			}
			// a step from a node that lies on the line is off it again
			if !w.free[m] || meets(step, bar) && !on && !(plane.PathDistance(bar, w.point(m)) < 9) {
				want = unreachable
			}
			got, ask := w.next(n, d)
			if on {
				continue
			}
			if ask != want || ask != unreachable && got != m {
				t.Fatalf("node %d, way %d asks %d, want %d", n, d, ask, want)
			}
			if want == unreachable {
				barred++
			}
		}
	}
	if barred < 50 {
		t.Errorf("only %d steps barred", barred)
	}
}

func meets(s plane.Segment, line []plane.Point) bool {
	return slices.ContainsFunc(plane.Segments(line), s.Meets)
}

// The cheapest ways are those that no further step makes cheaper.
func TestRunFindsTheCheapestWays(t *testing.T) {
	w, _ := walkFloor(t)
	w.bar([]plane.Point{{X: 330, Y: 10}, {X: 330, Y: 560}})
	w.cross([]plane.Point{{X: 500, Y: -50}, {X: 610, Y: 700}}, 7)
	w.shun(plane.Segment{A: plane.Pt(420, 130), B: plane.Pt(800, 133)}, 45, 3)
	start := w.around(plane.Pt(60, 60), 20, func(plane.Point) bool { return true })
	if len(start) == 0 {
		t.Fatal("no start")
	}
	w.run(start, func(int, int32) bool { return false })
	want := make([]int32, len(w.cost))
	for i := range want {
		want[i] = unreachable
	}
	for _, n := range start {
		for d := range 4 {
			want[4*n+d] = 0
		}
	}
	for changed := true; changed; {
		changed = false
		for s, c := range want {
			if c == unreachable {
				continue
			}
			for d := range 4 {
				m, ask := w.next(s/4, d)
				if ask == unreachable {
					continue
				}
				on := c + 1 + ask
				if d != s%4 {
					on += 3
				}
				if on < want[4*m+d] {
					want[4*m+d], changed = on, true
				}
			}
		}
	}
	reached := 0
	for s := range want {
		if want[s] != w.cost[s] {
			t.Fatalf("state %d costs %d, %d does", s, w.cost[s], want[s])
		}
		if want[s] < unreachable {
			reached++
			way := w.way(s)
			if way[len(way)-1] != w.point(s/4) || !slices.Contains(start, w.nodeAt(way[0])) {
				t.Fatalf("state %d: the way runs from %v to %v", s, way[0], way[len(way)-1])
			}
			for i := 1; i < len(way); i++ {
				if d := way[i].Dist(way[i-1]); math.Abs(d-30) > 1e-6 {
					t.Fatalf("a step of %.1f mm", d)
				}
			}
		}
	}
	if reached < 1000 {
		t.Errorf("only %d states reached", reached)
	}
	var last int32
	w.run(start, func(_ int, c int32) bool {
		if c < last {
			t.Fatalf("%d after %d: not the cheapest first", c, last)
		}
		last = c
		return c >= 9
	})
	if last != 9 {
		t.Errorf("stopped at %d", last)
	}
}

func TestAround(t *testing.T) {
	w, floor := walkFloor(t)
	for _, p := range []plane.Point{{X: 450, Y: 300}, {X: 250, Y: 275}, {X: 3, Y: 3}, {X: -2000, Y: 0}} {
		for _, none := range []bool{false, true} {
			ok := func(q plane.Point) bool { return !none && q.X > 200 }
			got := w.around(p, 50, ok)
			var want []int
			best, at := 100.0, -1
			for n := range w.free {
				q := w.point(n)
				if !floor.Contains(q) {
					continue
				}
				if d := q.Dist(p); d <= 50 && ok(q) {
					want = append(want, n)
				} else if d < best {
					best, at = d, n
				}
			}
			if want == nil && at >= 0 {
				want = []int{at}
			}
			if !slices.Equal(got, want) {
				t.Errorf("about %v: %v, want %v", p, got, want)
			}
		}
	}
}

func TestCornersOfALine(t *testing.T) {
	pt := plane.Pt
	got := cornersOf(pt(0, 0), pt(10, 0), pt(20, 0), pt(20, 0), pt(20, 5), pt(20, 3), pt(30, 3))
	want := []plane.Point{pt(0, 0), pt(20, 0), pt(20, 5), pt(20, 3), pt(30, 3)}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := cornersOf(pt(0, 0), pt(10, 0)); len(got) != 2 {
		t.Error(got)
	}
}

func cornersOf(pts ...plane.Point) []plane.Point { return plane.Corners(pts) }
