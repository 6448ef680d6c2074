package plane

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestCornersByHand(t *testing.T) {
	for _, k := range []struct{ pts, want []Point }{
		{[]Point{{0, 0}}, []Point{{0, 0}}},
		{[]Point{{0, 0}, {10, 0}}, []Point{{0, 0}, {10, 0}}},
		{[]Point{{0, 0}, {10, 0}, {20, 0}}, []Point{{0, 0}, {20, 0}}},
		{[]Point{{0, 0}, {10, 0}, {10, 10}}, []Point{{0, 0}, {10, 0}, {10, 10}}},
		{[]Point{{0, 0}, {20, 0}, {10, 0}}, []Point{{0, 0}, {20, 0}, {10, 0}}}, // back again
		{[]Point{{0, 0}, {10, 0}, {10, 0}, {10, 5}}, []Point{{0, 0}, {10, 0}, {10, 5}}},
		{[]Point{{0, 0}, {1000, 0}, {2000, 1}}, []Point{{0, 0}, {1000, 0}, {2000, 1}}}, // a thousandth aside
		{[]Point{{0, 0}, {1000, 0}, {2000, 0.0005}}, []Point{{0, 0}, {2000, 0.0005}}},
		{[]Point{{0, 0}, {0, 0.5}, {0.0005, 1}}, []Point{{0, 0}, {0, 0.5}, {0.0005, 1}}}, // as short pieces too
	} {
		given := slices.Clone(k.pts)
		if got := Corners(k.pts); !slices.Equal(got, k.want) {
			t.Errorf("of %v: %v, want %v", k.pts, got, k.want)
		}
		if !slices.Equal(given, k.pts) {
			t.Errorf("%v was changed to %v", given, k.pts)
		}
	}
}

// A way on a grid keeps its length, its ends and every place that it passes.
func TestCornersOfWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		way := []Point{{0, 0}}
		for _, d := range rapid.SliceOfN(rapid.IntRange(0, 1), 1, 30).Draw(t, "steps") {
			way = append(way, way[len(way)-1].Add([2]Point{{10, 0}, {0, 10}}[d]))
		}
		out := Corners(way)
		if out[0] != way[0] || out[len(out)-1] != way[len(way)-1] || math.Abs(PathLength(out)-10*float64(
			len(way)-1)) > 1e-9 {
			t.Fatalf("%v of %v", out, way)
		}
		for i := 2; i < len(out); i++ {
			if out[i-2].X == out[i].X || out[i-2].Y == out[i].Y {
				t.Fatalf("%v lies straight between its neighbours: %v", out[i-1], out)
			}
		}
	})
}

// A line of 3, 4 and 12 mm: 19 mm in all.
func TestLinesByHand(t *testing.T) {
	line := []Point{{0, 0}, {3, 0}, {3, 4}, {15, 4}}
	for n, want := range map[int]float64{0: 0, 1: 0, 2: 3, 3: 7, 4: 19} {
		if got := PathLength(line[:n]); got != want {
			t.Errorf("%d points: %g mm, want %g", n, got, want)
		}
	}
	for _, k := range []struct {
		p, at Point
		off   float64
		leg   int
		share float64
	}{
		{Pt(-3, 4), Pt(0, 0), 5, 0, 0}, {Pt(1.5, -2), Pt(1.5, 0), 2, 0, 0.5}, {Pt(2, 3), Pt(3, 3), 1, 1, 0.75},
		{Pt(6, 5), Pt(6, 4), 1, 2, 0.25}, {Pt(20, 4), Pt(15, 4), 5, 2, 1}, {Pt(4, -1), Pt(3, 0), math.Sqrt2, 0, 1},
	} {
		at, off, leg, share := Nearest(line, k.p)
		if at.Dist(k.at) > 1e-12 || math.Abs(off-k.off) > 1e-12 || leg != k.leg || math.Abs(share-k.share) > 1e-12 {
			t.Errorf("nearest to %v: %v, %g off, leg %d at %g", k.p, at, off, leg, share)
		}
		if d := PathDistance(line, k.p); math.Abs(d-k.off) > 1e-12 {
			t.Errorf("%v is %g mm off, want %g", k.p, d, k.off)
		}
	}
	if at, off, leg, share := Nearest([]Point{{3, 4}}, Pt(0, 0)); at != Pt(3, 4) || off != 5 || leg != 0 || share != 0 {
		t.Errorf("of one point: %v, %g, %d, %g", at, off, leg, share)
	}
	if at, off, leg, share := Nearest([]Point{{3, 4}, {3, 4}}, Pt(0, 0)); at != Pt(3, 4) || off != 5 || leg != 0 ||
		share != 0 {
		t.Errorf("of a leg without length: %v, %g, %d, %g", at, off, leg, share)
	}
	if got := Moved(line, Pt(1, -2)); !slices.Equal(got, []Point{{1, -2}, {4, -2}, {4, 2}, {16, 2}}) {
		t.Errorf("%v", got)
	}
}

// A square of 100 mm with a hole of 40 mm, between two lines, by hand.
func TestFacesBetweenLines(t *testing.T) {
	hole, err := FromRing(Rectangle(Pt(0, 0), Pt(100, 100))).Less(FromRing(Rectangle(Pt(30, 30), Pt(70, 70))))
	if err != nil {
		t.Fatal(err)
	}
	f := FaceOf(hole, Pt(0, 0), 0)
	for _, k := range []struct {
		axis      Axis
		low, high float64
		area      float64
		box       Rect
	}{
		{AxisX, -10, 110, 8400, Rect{Pt(0, 0), Pt(100, 100)}}, {AxisX, 0, 30, 3000, Rect{Pt(0, 0), Pt(30, 100)}},
		{AxisX, 40, 60, 20 * 60, Rect{Pt(40, 0), Pt(60, 100)}}, {AxisY, 20, 50, 3000 - 20*40, Rect{Pt(0, 20), Pt(100,
			50)}},
	} {
		got := f.Between(k.axis, k.low, k.high)
		if math.Abs(got.Area()-k.area) > 1e-9 || got.Bounds() != k.box {
			t.Errorf("from %g to %g: %g mm² in %v, want %g in %v", k.low, k.high, got.Area(), got.Bounds(), k.area,
				k.box)
		}
	}
	for _, beyond := range [][2]float64{{100.5, 200}, {-50, -0.5}} {
		if got := f.Between(AxisX, beyond[0], beyond[1]); len(got) != 0 {
			t.Errorf("beyond it: %v", got)
		}
	}
	// what lies on the line lies there to the last bit
	slant := Face{Ring{Pt(0, 0), Pt(100, 0.1), Pt(7, 93)}}
	for _, p := range slant.Between(AxisX, 1.0/3, 20.0/3)[0] {
		if d := math.Min(math.Abs(p.X-1.0/3), math.Abs(p.X-20.0/3)); d != 0 && d < 1e-6 {
			t.Errorf("%v is %g off the line", p, d)
		}
	}
	// turned about its own corner a quarter to the right, the square lies below the axis
	turned := FaceOf(FromRing(Rectangle(Pt(10, 20), Pt(40, 30))), Pt(10, 20), math.Pi/2)
	if b := turned.Bounds(); b.Min.Dist(Pt(0, -30)) > 1e-9 || b.Max.Dist(Pt(10, 0)) > 1e-9 {
		t.Errorf("%v", b)
	}
}

func TestAnglesByHand(t *testing.T) {
	for degrees, radians := range map[float64]float64{0: 0, 90: math.Pi / 2, -180: -math.Pi, 30: math.Pi / 6} {
		if got := Radians(degrees); math.Abs(got-radians) > 1e-12 {
			t.Errorf("%g degrees: %g", degrees, got)
		}
		if got := Degrees(radians); math.Abs(got-degrees) > 1e-12 {
			t.Errorf("%g radians: %g", radians, got)
		}
	}
}

// A raster has a cell more than go into its box; a row moved up looks where it lies then.
func TestRastersByHand(t *testing.T) {
	if r := RasterOver(Rect{Pt(5, 6), Pt(25, 36.5)}, 10); r != (Raster{Pt(5, 6), 10, 3, 4}) {
		t.Errorf("%+v", r)
	}
	ring := []Ring{{Pt(0, 1.25), Pt(4, 1.25), Pt(0, 5.25)}} // the slanting side is x = 5.25 - y
	got := Across(ring, 7, 0.5)
	for k, want := range [][][2]float64{nil, {{0, 3.75}}, {{0, 2.75}}, {{0, 1.75}}, {{0, 0.75}}, nil, nil} {
		if !slices.Equal(got[k], want) {
			t.Errorf("row %d at %g: %v, want %v", k, float64(k)+0.5, got[k], want)
		}
	}
}

// Nothing grown by nothing stays as it is; 20 mm of floor are what a strip of 30 mm leaves
// out, and a corner of a right angle keeps its tip.
func TestOpenedByHand(t *testing.T) {
	r := FromRing(Rectangle(Pt(0, 0), Pt(100, 50)))
	if got, err := r.Grow(0); err != nil || len(got) != 1 || !slices.Equal(got[0].Outer, r[0].Outer) {
		t.Errorf("%v, %v", got, err)
	}
	l := FromRing(Ring{Pt(0, 0), Pt(100, 0), Pt(100, 20), Pt(50, 20), Pt(50, 100), Pt(0, 100)})
	for w, want := range map[float64]float64{15: 6000, 30: 5000, 51: 0} {
		got, err := l.Opened(w)
		if err != nil || math.Abs(got.Area()-want) > 400 || want == 0 && got.Area() > 0 {
			t.Errorf("without what is narrower than %g: %g mm², want some %g, %v", w, got.Area(), want, err)
		}
	}
	square, err := r.Opened(40)
	if err != nil || math.Abs(square.Area()-5000) > 0.5 {
		t.Errorf("a rectangle keeps %g mm² of 5000, %v", square.Area(), err)
	}
}

// Two sides that fold back on one another clash though rounding holds them a hair apart.
func TestFoldedBack(t *testing.T) {
	for off, want := range map[float64]bool{0: true, 1e-7: true, 1: false} {
		r := Ring{Pt(0, 0), Pt(1000, 0), Pt(500, off), Pt(500, 500)}
		if _, got := r.edgesClash(0, 1); got != want {
			t.Errorf("%g mm apart: %v", off, got)
		}
	}
	if _, got := (Ring{Pt(0, 0), Pt(1000, 0), Pt(1500, 0), Pt(500, 500)}).edgesClash(0, 1); got {
		t.Error("straight on is no fold")
	}
}
