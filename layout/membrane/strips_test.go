package membrane

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// The stock of most tests: 40 rows of pegs, 400 pitches long, 25 mm to the peg.
var meterRoll = cutter{pitch: 25, rows: 40, cells: 400}

func box(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1))
}

func spansNear(a, b []span) bool {
	return slices.EqualFunc(a, b, func(s, t span) bool {
		return math.Abs(s.from-t.from) < 1e-6 &&
			math.Abs(s.to-t.to) < 1e-6
	})
}

// A strip 600 of 1000 mm wide and 3 m long takes 3 m by 600 and half of the 400 ripped
// off; one of 25 m from rolls of 10 m has two seams across, each a metre of which is
// worth 200 mm of membrane; one under 150 mm costs 5 m² more.
func TestPriceOfAStrip(t *testing.T) {
	c := meterRoll
	for _, x := range []struct {
		floor []span
		width float64
		want  float64
	}{
		{[]span{{0, 3000}}, 600, 3000 * 800},
		{[]span{{0, 3000}}, 1000, 3000 * 1000},
		{[]span{{0, 3000}, {4000, 5000}}, 600, 4000 * 800},
		{[]span{{0, 25000}}, 1000, 25000*1000 + 2*200*1000},
		{[]span{{0, 10000}}, 600, 10000 * 800},
		{[]span{{0, 10001}}, 600, 10001*800 + 200*600},
		{[]span{{0, 3000}}, 150, 3000 * 575},
		{[]span{{0, 3000}}, 149, 3000*574.5 + 5e6},
	} {
		near(t, "price", c.price(x.floor, x.width), x.want)
	}
	near(t, "taken", c.taken(strip{low: 100, high: 700, pieces: []span{{0, 2000}, {3000, 4000}}}), 3000*800)
	near(t, "taken, full width", c.taken(strip{low: 100, high: 1100, pieces: []span{{0, 2000}}}), 2000*1000)
}

// Pieces end at channels, none is longer than the roll, and the rest is never short of 150 mm
// where rolls are long enough to help it.
func TestDividedByHand(t *testing.T) {
	short := cutter{pitch: 25, rows: 40, cells: 12} // 300 mm
	for _, x := range []struct {
		c    cutter
		s    span
		want []span
	}{
		{meterRoll, span{0, 10000}, []span{{0, 10000}}},
		{meterRoll, span{0, 10020}, []span{{0, 9850}, {9850, 10020}}},
		{meterRoll, span{0, 10150}, []span{{0, 10000}, {10000, 10150}}},
		{meterRoll, span{10, 25000}, []span{{10, 10000}, {10000, 20000}, {20000, 25000}}},
		{short, span{0, 310}, []span{{0, 300}, {300, 310}}},
		{cutter{pitch: 25, rows: 40, cells: 13}, span{0, 335}, []span{{0, 175}, {175, 335}}}, // 335 less 150 is 185
	} {
		if got := x.c.divided(x.s); !spansNear(got, x.want) {
			t.Errorf("%v: %v, want %v", x.s, got, x.want)
		}
	}
}

// Strips may end at walls and at the channels between, but for those within a millimetre of a wall.
func TestLinesByHand(t *testing.T) {
	for _, x := range []struct {
		low, high float64
		want      []float64
	}{
		{-10, 110, []float64{-10, 0, 25, 50, 75, 100, 110}}, {-0.5, 75.5, []float64{-0.5, 25, 50, 75.5}},
		{0, 75, []float64{0, 25, 50, 75}},
		{-1.5, 51.5, []float64{-1.5, 0, 25, 50, 51.5}}, {3, 20, []float64{3, 20}},
		{-60, -20, []float64{-60, -50, -25, -20}},
	} {
		got, err := meterRoll.lines([]plane.Ring{box(0, x.low, 500, (x.low+x.high)/2), box(0, (x.low+x.high)/2, 500,
			x.high)})
		if err != nil || !slices.Equal(got, x.want) {
			t.Errorf("%g to %g: %v, %v, want %v", x.low, x.high, got, err, x.want)
		}
	}
	if _, err := (cutter{pitch: 0.01, rows: 100, cells: 100}).lines([]plane.Ring{box(0, 0, 500, 500)}); err == nil {
		t.Error("50000 channels are laid out")
	}
}

// cheapest tries every way to end strips at channels.
func cheapest(c cutter, rings, doors []plane.Ring, lines []float64, at int) float64 {
	if at == len(lines)-1 {
		return 0
	}
	best := math.Inf(1)
	for to := at + 1; to < len(lines) && lines[to]-lines[at] <= float64(c.rows)*c.pitch+shortestCut; to++ {
		cost := c.price(merge(shadow(rings, lines[at], lines[to]), openGap), lines[to]-lines[at])
		if to < len(lines)-1 {
			for _, s := range overlap(scan(rings, lines[to]-shortestCut), scan(rings, lines[to]+shortestCut)) {
				cost += 20 * s.length()
				for _, d := range doors {
					if b := d.Bounds(); b.Min.Y < lines[to] && lines[to] < b.Max.Y {
						cost += 3000 * math.Max(0, math.Min(s.to, b.Max.X)-math.Max(s.from, b.Min.X))
					}
				}
			}
		}
		best = math.Min(best, cost+cheapest(c, rings, doors, lines, to))
	}
	return best
}

// No other division of a part at its channels costs less, and the strips are those that
// were priced: from wall to wall, one on the other.
func TestPartIsTheCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := cutter{pitch: rapid.Float64Range(60, 120).Draw(t, "pitch"), rows: rapid.IntRange(3, 8).Draw(t, "rows"),
			cells: rapid.IntRange(10, 40).Draw(t, "cells")}
		whole := func(name string, low, high int) float64 { return float64(rapid.IntRange(low, high).Draw(t, name)) }
		w, h, x, y := whole("w", 500, 3000), whole("h", 200, 640), whole("x", 100, 400), whole("y", 50, 150)
		ring := plane.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: x, Y: h}, {X: x, Y: y}, {X: 0, Y: y}}
		// a doorway whose edge is a channel may count either way
		door := box(x, h-whole("deep", 60, 140)-0.3, x+whole("broad", 50, 400), h+100)
		rings, doors := []plane.Ring{ring}, []plane.Ring{door}
		lines, err := c.lines(rings)
		if err != nil {
			t.Fatal(err)
		}
		strips, cost, err := c.divide(rings, doors)
		if err != nil {
			t.Fatal(err)
		}
		if want := cheapest(c, rings, doors, lines, 0); math.Abs(cost-want) > 1e-6*want {
			t.Fatalf("costs %.1f, %.1f would do", cost, want)
		}
		at := 0.0
		for _, s := range strips {
			if s.low != at || s.high <= s.low || len(s.pieces) == 0 {
				t.Fatalf("a strip from %g to %g after %g", s.low, s.high, at)
			}
			at = s.high
			sum := 0.0
			for _, p := range s.pieces {
				sum += p.length()
				if p.length() > float64(c.cells)*c.pitch+shortestCut {
					t.Fatalf("a piece of %g mm", p.length())
				}
			}
			if floor := total(merge(shadow(rings, s.low, s.high), openGap)); math.Abs(sum-floor) > 1e-6 {
				t.Fatalf("pieces of %g mm for %g of floor", sum, floor)
			}
		}
		if at != h {
			t.Fatalf("strips end at %g of %g", at, h)
		}
	})
}

// An island in a room, scanned and cast: lines above, through and below it, and bands that end
// at its edges.
func TestScanAndShadowByHand(t *testing.T) {
	rings := []plane.Ring{box(0, 0, 1000, 600), box(300, 200, 500, 400)}
	for y, want := range map[float64][]span{100: {{0, 1000}}, 300: {{0, 300}, {500, 1000}}, 500: {{0, 1000}}, 700: nil,
		-1: nil} {
		if got := scan(rings, y); !spansNear(got, want) {
			t.Errorf("at %g: %v, want %v", y, got, want)
		}
	}
	for _, x := range []struct {
		low, high float64
		want      []span
	}{
		{0, 200, []span{{0, 1000}}}, {200, 400, []span{{0, 300}, {500, 1000}}},
		{250, 350, []span{{0, 300}, {500, 1000}}}, {350, 450, []span{{0, 1000}}},
	} {
		if got := shadow(rings, x.low, x.high); !spansNear(got, x.want) {
			t.Errorf("%g to %g: %v, want %v", x.low, x.high, got, x.want)
		}
	}
	// a gable: its sides cast a longer shadow the lower the band reaches
	gable := []plane.Ring{{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 500, Y: 1000}}}
	for _, x := range []struct{ low, high, from, to float64 }{{0, 200, 0, 1000}, {500, 700, 250, 750},
		{900, 1100, 450, 550}} {
		got := shadow(gable, x.low, x.high)
		if len(got) != 1 || math.Abs(got[0].from-x.from) > 0.01 || math.Abs(got[0].to-x.to) > 0.01 {
			t.Errorf("gable from %g to %g: %v", x.low, x.high, got)
		}
	}
	// a peak that stands within the band casts its own shadow
	if got := shadow([]plane.Ring{{{X: 0, Y: 0}, {X: 100, Y: 50}, {X: 0, Y: 100}}}, 40, 60); !spansNear(got,
		[]span{{0, 100}}) {
		t.Errorf("a peak: %v", got)
	}
}

func TestClippedByHand(t *testing.T) {
	edge := func(x0, y0, x1, y1 float64) plane.Segment {
		return plane.Segment{A: plane.Pt(x0, y0), B: plane.Pt(x1, y1)}
	}
	for _, x := range []struct {
		e        plane.Segment
		from, to float64
		ok       bool
	}{
		{edge(0, 0, 100, 100), 20, 60, true}, {edge(100, 100, 0, 0), 20, 60, true}, {edge(0, 100, 100, 0), 40, 80,
			true}, {edge(0, 30, 50, 40), 0, 50, true},
		{edge(70, 30, 10, 30), 10, 70, true}, {edge(0, 0, 100, 20), 0, 0, false}, {edge(0, 60, 100, 90), 0, 0, false},
		{edge(0, 10, 100, 10), 0, 0, false}, {edge(5, 0, 5, 100), 5, 5, true},
	} {
		if got, ok := clipped(x.e, 20, 60); ok != x.ok || math.Abs(got.from-x.from) > 0.01 ||
			math.Abs(got.to-x.to) > 0.01 {
			t.Errorf("%v: %v, %v", x.e, got, ok)
		}
	}
}

func TestSpansByHand(t *testing.T) {
	for _, x := range []struct {
		spans []span
		gap   float64
		want  []span
	}{
		{[]span{{50, 60}, {0, 10}, {5, 20}}, 0.01, []span{{0, 20}, {50, 60}}}, {[]span{{0, 100}, {10, 20}}, 0.01,
			[]span{{0, 100}}},
		{[]span{{0, 10}, {310, 400}}, 300, []span{{0, 400}}}, {[]span{{0, 10}, {311, 400}}, 300,
			[]span{{0, 10}, {311, 400}}},
	} {
		if got := merge(x.spans, x.gap); !spansNear(got, x.want) {
			t.Errorf("%v: %v", x.want, got)
		}
	}
	a, b := []span{{0, 100}, {200, 300}}, []span{{50, 250}, {299.995, 400}}
	if got := overlap(a, b); !spansNear(got, []span{{50, 100}, {200, 250}}) {
		t.Errorf("%v", got)
	}
	near(t, "total", total(a), 200)
}

// Turned into the frame of the pegs and back a floor is where it was; a quarter turn about (100, 0) brings
// (100, 50) to (50, 0).
func TestFrameTurnsThereAndBack(t *testing.T) {
	f := frame{plane.Pt(100, 0), math.Pi / 2}
	if got := f.in(plane.Pt(100, 50)); got.Dist(plane.Pt(50, 0)) > 1e-9 {
		t.Errorf("%v", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		f := frame{plane.Pt(rapid.Float64Range(-99, 99).Draw(t, "x"), 7), rapid.Float64Range(-7, 7).Draw(t, "angle")}
		p := plane.Pt(rapid.Float64Range(-999, 999).Draw(t, "px"), 30)
		if f.out(f.in(p)).Dist(p) > 1e-8 || math.Abs(f.in(p).Norm()-p.Dist(f.origin)) > 1e-8 {
			t.Fatalf("%v comes back as %v", p, f.out(f.in(p)))
		}
	})
}

// Loose ends of a joint are led on in its own direction to the wall or the joint before it,
// a millimetre beyond; ends that stand on one of them stay.
func TestLooseEndsAreLedOn(t *testing.T) {
	seg := func(x0, y0, x1, y1 float64) Joint {
		return Joint{plane.Segment{A: plane.Pt(x0, y0), B: plane.Pt(x1, y1)}, 6}
	}
	for _, x := range []struct {
		name   string
		joints []Joint
		want   plane.Segment
	}{
		{"to both walls", []Joint{seg(1000, 500, 1000, 900)}, seg(1000, -1, 1000, 2001).Segment},
		{"from wall to wall", []Joint{seg(1000, 0, 1000, 2000)}, seg(1000, 0, 1000, 2000).Segment},
		{"4 mm short of a wall", []Joint{seg(1000, 4, 1000, 900)}, seg(1000, 4, 1000, 2001).Segment},
		{"6 mm short of a wall", []Joint{seg(1000, 6, 1000, 2000)}, seg(1000, -1, 1000, 2000).Segment},
		{"to another joint", []Joint{seg(1000, 0, 1000, 900), seg(0, 1500, 3000, 1500)},
			seg(1000, 0, 1000, 1501).Segment},
		{"on another joint", []Joint{seg(1000, 0, 1000, 1497), seg(0, 1500, 3000, 1500)},
			seg(1000, 0, 1000, 1497).Segment},
		{"6 mm short of another", []Joint{seg(1000, 0, 1000, 1494), seg(0, 1500, 3000, 1500)},
			seg(1000, 0, 1000, 1501).Segment},
		{"past one beside it", []Joint{seg(1000, 0, 1000, 900), seg(1200, 1500, 3000, 1500)},
			seg(1000, 0, 1000, 2001).Segment},
		{"to the nearer of two", []Joint{seg(1000, 0, 1000, 900), seg(0, 1800, 3000, 1800), seg(0, 1200, 3000, 1200)},
			seg(1000, 0, 1000, 1201).Segment},
		{"a point", []Joint{seg(1000, 900, 1000, 900)}, seg(1000, 900, 1000, 900).Segment},
	} {
		r := Room{Tiled: floor(3000, 2000), Joints: x.joints}
		if got := r.extended(0); got.A.Dist(x.want.A) > 1e-6 || got.B.Dist(x.want.B) > 1e-6 {
			t.Errorf("%s: %v, want %v", x.name, got, x.want)
		}
	}
	r := Room{Tiled: floor(3000, 2000), Joints: []Joint{seg(1000, 0, 1000, 2000)}}
	// half its 6 mm and 2
	for at, want := range map[float64]bool{1000: true, 1004.9: true, 1005.1: false, 995.1: true, 994.9: false} {
		if got := r.jointAt(plane.Pt(at, 700)); got != want {
			t.Errorf("at %g: %v", at, got)
		}
	}
}
