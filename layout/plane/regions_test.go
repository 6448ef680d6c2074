package plane

import (
	"math"
	"testing"
)

func square(x, y, side float64) Region { return FromRing(Rectangle(Pt(x, y), Pt(x+side, y+side))) }

func TestNothingAsARegion(t *testing.T) {
	if FromRing(Ring{{0, 0}, {1, 1}}) != nil || len(FromRing(Ring{{0, 0}, {1, 0}, {0, 1}})) != 1 {
		t.Error("a region has three corners or more")
	}
	a := square(0, 0, 10)
	for name, c := range map[string]struct {
		do   func() (Region, error)
		want float64
	}{
		"less nothing":    {func() (Region, error) { return a.Less(nil) }, 100},
		"nothing less":    {func() (Region, error) { return Region(nil).Less(a) }, 0},
		"meet nothing":    {func() (Region, error) { return a.Meet(nil) }, 0},
		"nothing meets":   {func() (Region, error) { return Region(nil).Meet(a) }, 0},
		"union of none":   {func() (Region, error) { return Union() }, 0},
		"union of one":    {func() (Region, error) { return Union(a) }, 100},
		"union with none": {func() (Region, error) { return Union(nil, a, Region{}) }, 100},
		"grown by 1":      {func() (Region, error) { return a.Grow(1) }, 140 + math.Pi},
		"grown by 0":      {func() (Region, error) { return a.Grow(0) }, 100},
		"nothing grown":   {func() (Region, error) { return Region(nil).Grow(5) }, 0},
		"shrunk away":     {func() (Region, error) { return a.Grow(-6) }, 0},
		"a sliver left":   {func() (Region, error) { return a.Less(square(0, 0.05, 10)) }, 0},
		"a square mm":     {func() (Region, error) { return square(0, 0, 1).Less(square(5, 5, 1)) }, 1},
	} {
		got, err := c.do()
		if err != nil || math.Abs(got.Area()-c.want) > 0.01 {
			t.Errorf("%s: %v mm², %v; want %v", name, got.Area(), err, c.want)
		}
	}
}

// The order that a region's parts are kept in is its own rule: lowest first, then leftmost.
func TestPartsAreInOrder(t *testing.T) {
	at := []Point{{50, 0}, {90, 0}, {0, 40}, {70, 40}, {20, 80}}
	for _, order := range [][]int{{0, 1, 2, 3, 4}, {4, 3, 2, 1, 0}, {2, 4, 1, 0, 3}, {3, 0, 4, 2, 1}} {
		var parts []Region
		for _, i := range order {
			parts = append(parts, square(at[i].X, at[i].Y, 10))
		}
		all, err := Union(parts...)
		if err != nil || len(all) != len(at) {
			t.Fatalf("%d parts, %v", len(all), err)
		}
		for i, p := range all {
			if p.Outer.Bounds().Min != at[i] {
				t.Errorf("part %d begins at %v, want %v", i, p.Outer.Bounds().Min, at[i])
			}
		}
	}
}

// A ring's boundary counts its holes: 4 x 100 outside, 4 x 20 inside.
func TestPerimeterCountsHoles(t *testing.T) {
	r, err := square(0, 0, 100).Less(square(40, 40, 20))
	if err != nil || math.Abs(r.Perimeter()-480) > 1e-9 || math.Abs(r.Distance(Pt(50, 50))-10) > 1e-9 {
		t.Errorf("perimeter %v, from the hole's middle %v, %v", r.Perimeter(), r.Distance(Pt(50, 50)), err)
	}
	two, err := Union(r, square(300, 0, 10))
	if err != nil || math.Abs(two.Area()-9700) > 0.01 || len(two.Rings()) != 3 {
		t.Errorf("%v mm² in %d rings, %v", two.Area(), len(two.Rings()), err)
	}
}

// What rounds to less than a triangle goes; corners that round to one are one.
func TestOnGrid(t *testing.T) {
	ring := Ring{{0, 0}, {10, 0}, {10.00001, 0}, {10, 10}, {0, 10}, {0, 0.00001}}
	if got := ring.onGrid(); len(got) != 4 || got[0] != Pt(0, 0) {
		t.Errorf("corners %v", got)
	}
	again := Ring{{0, 0}, {10, 0}, {10, 10}, {0.00001, 0}, {0, 0}}
	if got := again.onGrid(); len(got) != 3 {
		t.Errorf("corners %v", got)
	}
	if got := (Ring{{0, 0}, {0.00001, 0}, {0, 0.00001}}).onGrid(); len(got) != 1 {
		t.Errorf("corners %v", got)
	}
	if got := (Ring{{-0.00001, -0.00001}}).onGrid()[0]; math.Signbit(got.X) || math.Signbit(got.Y) {
		t.Error("a minus before nothing")
	}
	tri := Ring{{1, 1}, {2, 1}, {1, 2}}
	dot := Ring{{3, 3}, {3.00001, 3}, {3, 3.00001}}
	r := Region{{Outer: Rectangle(Pt(0, 0), Pt(10, 10)), Holes: []Ring{tri, dot}}, {Outer: dot}}.onGrid()
	if len(r) != 1 || len(r[0].Holes) != 1 || len(r[0].Holes[0]) != 3 {
		t.Errorf("left of a square, a triangle and a dot: %v", r)
	}
}

// 1 m² is 10.7639 ft² (NIST SP 811, appendix B).
func TestAreasInBothUnits(t *testing.T) {
	if m, ft := Millimetres.Area(2e6), Inches.Area(1e6); m != 2 || math.Abs(ft-10.7639) > 5e-5 {
		t.Errorf("2 m² as %v, 1 m² as %v ft²", m, ft)
	}
}
