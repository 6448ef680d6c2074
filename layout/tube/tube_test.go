package tube

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// TestStraightenKeepsOff: a straightened way has the ends of the way and is no
// longer, bends less, and crosses nothing that the way does not cross.
func TestStraightenKeepsOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		way := []plane.Point{plane.Pt(0, 0)}
		for _, up := range rapid.SliceOfN(rapid.Bool(), 2, 40).Draw(t, "up") {
			step := plane.Pt(15, 0)
			if up {
				step = plane.Pt(0, 15)
			}
			way = append(way, way[len(way)-1].Add(step))
		}
		f := tubeFloor{foot: plane.Pt(-1000, -1000), off: margins{nearCable: 20, nearWall: 10}}
		mm := rapid.IntRange(-100, 700)
		for range rapid.IntRange(0, 6).Draw(t, "lines") {
			a := plane.Pt(float64(mm.Draw(t, "x")), float64(mm.Draw(t, "y")))
			b := plane.Pt(float64(mm.Draw(t, "x")), float64(mm.Draw(t, "y")))
			if line := []plane.Point{a, b}; a != b && crossings(way, line) == 0 {
				f.add(obstacleKind(rapid.IntRange(int(nearCable), int(nearWall)).Draw(t, "what")), line)
			}
		}
		out := f.straighten(way, nil, nil)
		if out[0] != way[0] || out[len(out)-1] != way[len(way)-1] {
			t.Fatalf("from %v to %v, the way from %v to %v", out[0], out[len(out)-1], way[0], way[len(way)-1])
		}
		if plane.PathLength(out) > plane.PathLength(way)+1e-6 {
			t.Fatalf("%.1f mm, the way is %.1f mm", plane.PathLength(out), plane.PathLength(way))
		}
		if len(plane.Corners(out)) > len(plane.Corners(way)) {
			t.Fatalf("%d points, the way has %d", len(plane.Corners(out)), len(plane.Corners(way)))
		}
		for _, l := range f.lines {
			for _, piece := range plane.Segments(out) { // what has no margin may be touched
				if piece.Crosses(l.Segment) || f.off[l.what] > 0 && piece.Meets(l.Segment) {
					t.Fatalf("%v crosses %v", out, l.Segment)
				}
			}
		}
	})
}

// TestTubesPassNoCable: whatever runs of unequal length stand at the mouth of a
// gap, and a fixture beside it, a tube to any place for a tip crosses no cable and
// does not leave the floor: common practice.
func TestTubesPassNoCable(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		r, j := unevenRuns(t)
		floor, err := r.LeadFloor()
		if err != nil {
			t.Fatal(err)
		}
		g := groundOf(r, floor, j)
		for _, p := range everyPlace(g) {
			drawn++
			tube := g.tube(p)
			if n := crossings(tube, r.Cables[0].Path); n > 0 {
				t.Fatalf("crosses cable %d times: %v", n, tube)
			}
			for _, piece := range plane.Segments(tube) {
				for d := 0.0; d < piece.Length(); d += 10 {
					if out := -floor.Depth(piece.At(d)); out > 0.5 {
						t.Fatalf("%.0f mm off the floor at %v: %v", out, piece.At(d), tube)
					}
				}
			}
		}
	})
	if drawn == 0 {
		t.Error("no tube was drawn")
	}
}

// everyPlace lists the places for tips that can be reached, one in seven, each
// with its way.
func everyPlace(g tubeGround) (out []sensorPlace) {
	start := g.walk.around(g.foot, footNear, func(p plane.Point) bool {
		return g.clear(plane.Segment{A: g.foot, B: p}, &margins{})
	})
	seen := map[int32]bool{}
	g.walk.run(start, func(state int, _ int32) bool {
		for k := g.first[state/4]; k >= 0; k = g.all[k].next {
			if k%7 == 0 && !seen[k] {
				seen[k] = true
				p := g.all[k]
				p.way = g.walk.way(state)
				out = append(out, p)
			}
		}
		return false
	})
	return out
}

// unevenRuns is a room with a cable that goes up and down, each run ending where
// it likes, and perhaps a fixture under some of them.
func unevenRuns(t *rapid.T) (*layout.Room, *job.Job) {
	const pitch = 30.0
	pegs := func(name string, low, high int) float64 {
		return pitch * float64(rapid.IntRange(low, high).Draw(t, name))
	}
	x, y := 90.0, 180.0
	path := []plane.Point{plane.Pt(x, y)}
	hook := pegs("hook", 0, 5)
	if hook > 0 { // the cable begins half across the mouth of its first gap
		path = []plane.Point{plane.Pt(x+hook, y-60), plane.Pt(x+hook, y), plane.Pt(x, y)}
	}
	foot := pegs("foot", 3, 40)
	zone := plane.Rectangle(plane.Pt(90, 90), plane.Pt(2400, 1410))
	room := &job.Room{Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(2490, 1500)),
		Thermostat: job.Thermostat{At: plane.Pt(foot, 0)}}
	for up := true; x < 2100; up = !up {
		last := path[len(path)-1].Y
		if y = pegs("end", 24, 46); !up {
			y = pegs("end", 4, 22)
		}
		if rapid.IntRange(0, 2).Draw(t, "short") == 0 { // a run of a few pegs, so that the next ends beside this one
			y = last + pegs("a few", 2, 6)
			if !up {
				y = last - pegs("a few", 2, 6)
			}
		}
		if up {
			y = min(1410, max(y, last+60))
		} else {
			y = max(90, min(y, last-60))
		}
		if hook > 0 && !up { // the next run faces the whole of the first
			y, hook = 120, 0
		}
		path = append(path, plane.Pt(x, y))
		x += pegs("gap", 2, 5)
		if up {
			x += hook
		}
		path = append(path, plane.Pt(x, y))
	}
	if depth := pegs("depth", 0, 6); depth > 0 {
		low := math.Inf(1)
		from := pegs("from", 0, 60)
		for _, q := range path {
			if q.X > from-60 && q.X < from+360 {
				low = min(low, q.Y)
			}
		}
		if low > depth+40 && (foot < from-30 || foot > from+330) {
			room.Fixtures = append(room.Fixtures,
				job.Fixture{Outline: plane.Rectangle(plane.Pt(from, 0), plane.Pt(from+300, depth))})
		}
	}
	r := &layout.Room{Job: room, Floor: plane.FromRing(room.Outline), Zones: []plane.Region{plane.FromRing(zone)}}
	r.Cables = []layout.Cable{{Path: path, Spacing: 90, Lattice: route.Lattice{Pitch: pitch}}}
	j := &job.Job{}
	j.Membrane.Pitch, j.Spacing.Closest = pitch, 2
	return r, j
}

// crossings counts where two lines cross or touch.
func crossings(a, b []plane.Point) (n int) {
	for _, s := range plane.Segments(a) {
		for _, o := range plane.Segments(b) {
			if s.Meets(o) {
				n++
			}
		}
	}
	return n
}
