package symbols

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/layout/plane"
)

var kinds = []string{
	"toilet", "vanity", "tub", "shower", "cabinet", "appliance", "island", "column", "hearth", "drain", "register",
	"anything else",
}

func extent(shapes []Shape) drawing.Box {
	var b drawing.Box
	for i, s := range shapes {
		if c := drawing.PathBox(s.Segs); i == 0 {
			b = c
		} else {
			b = b.Union(c)
		}
	}
	return b
}

// Whatever its size, a fixture fills its place and does not leave it.
func TestFixturesFillTheirPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(kinds).Draw(t, "kind")
		w := rapid.Float64Range(50, 3000).Draw(t, "w")
		d := rapid.Float64Range(50, 3000).Draw(t, "d")
		got := extent(Fixture(kind, w, d))
		slack := 0.001 * (w + d) // an arc as cubics
		for _, v := range []float64{got.X0, got.Y0, got.X1 - w, got.Y1 - d} {
			if math.Abs(v) > slack {
				t.Fatalf("%s of %v x %v covers %v", kind, w, d, got)
			}
		}
	})
}

func TestFixturesLookDifferent(t *testing.T) {
	seen := map[string]string{}
	for _, kind := range kinds {
		key := fmt.Sprint(details(Fixture(kind, 800, 600)))
		if other := seen[key]; other != "" {
			t.Errorf("%s looks like %s", kind, other)
		}
		seen[key] = kind
	}
}

// details says where each path of an outline lies and how it is drawn.
func details(shapes []Shape) []string {
	var out []string
	for _, s := range shapes {
		out = append(out, fmt.Sprintf("%.0f %v %v", drawing.PathBox(s.Segs), *s.Stroke, s.Fill != nil))
	}
	return out
}

// The swing is a quarter circle about the hinge as wide as the opening, on the
// side asked for.
func TestDoors(t *testing.T) {
	const w, thick = 800, 120
	for _, c := range []struct {
		into, atEnd bool
		hinge, open drawing.Pt
	}{
		{true, false, drawing.Pt{X: 0, Y: 0}, drawing.Pt{X: 0, Y: w}},
		{true, true, drawing.Pt{X: w, Y: 0}, drawing.Pt{X: w, Y: w}},
		{false, false, drawing.Pt{X: 0, Y: -thick}, drawing.Pt{X: 0, Y: -thick - w}},
		{false, true, drawing.Pt{X: w, Y: -thick}, drawing.Pt{X: w, Y: -thick - w}},
	} {
		shapes := Door(w, thick, c.into, c.atEnd)
		swing := drawing.Flatten(shapes[1].Segs, 0.01)[0]
		for _, p := range swing {
			if math.Abs(p.Dist(c.hinge)-w) > 0.05 {
				t.Fatalf("%+v: %v is %v from the hinge", c, p, p.Dist(c.hinge))
			}
		}
		ends := []drawing.Pt{swing[0], swing[len(swing)-1]}
		if !slices.ContainsFunc(ends, func(p drawing.Pt) bool { return p.Dist(c.open) < 1e-6 }) {
			t.Errorf("%+v: the swing runs between %v", c, ends)
		}
		if b := drawing.PathBox(shapes[0].Segs); !b.Holds(c.hinge) || !b.Holds(c.open) {
			t.Errorf("%+v: the leaf is %v", c, b)
		}
	}
}

func TestOpeningsStayInTheWall(t *testing.T) {
	for name, shapes := range map[string][]Shape{
		"sliding": SlidingDoor(900, 120), "cased": CasedOpening(900, 120), "threshold": Threshold(900, 120),
		"window": Window(900, 120),
	} {
		if got, want := extent(shapes), (drawing.Box{X0: 0, Y0: -120, X1: 900, Y1: 0}); got != want {
			t.Errorf("%s covers %v, want %v", name, got, want)
		}
	}
}

// Along a wall that runs north the room lies west when it is on the left.
func TestFrames(t *testing.T) {
	wall := plane.Segment{A: plane.Pt(1000, 0), B: plane.Pt(1000, 3000)}
	p := drawing.Pt{X: 500, Y: 200}
	if got := OnLeft(wall).Floor(p); got.Dist(plane.Pt(800, 500)) > 1e-9 {
		t.Errorf("on the left: %v", got)
	}
	if got := OnRight(wall).Floor(p); got.Dist(plane.Pt(1200, 500)) > 1e-9 {
		t.Errorf("on the right: %v", got)
	}
}

func TestItemsArePlaced(t *testing.T) {
	v := drawing.View{Ratio: 20, At: drawing.Pt{X: 100, Y: 200}}
	back := plane.Segment{A: plane.Pt(0, 0), B: plane.Pt(1600, 0)}
	items := Items(Fixture("tub", 1600, 800), OnLeft(back), v, drawing.LayerFixtures, "tub")
	if got, want := drawing.PathBox(items[0].(*drawing.Path).Segs), (drawing.Box{X0: 100, Y0: 160, X1: 180,
		Y1: 200}); got != want {
		t.Errorf("a tub of 1600 x 800 at 1:20 covers %v, want %v", got, want)
	}
	for i, it := range items {
		p := it.(*drawing.Path)
		if p.Layer != drawing.LayerFixtures || (p.Title == "tub") != (i == 0) {
			t.Errorf("item %d: layer %s, title %q", i, p.Layer, p.Title)
		}
	}
}

func TestFlangeHasItsRadius(t *testing.T) {
	if got := drawing.PathBox(Flange(89)[0].Segs); math.Abs(got.W()-178) > 0.1 ||
		got.Centre().Dist(drawing.Pt{}) > 1e-9 {
		t.Errorf("%v", got)
	}
}

func ExampleItems() {
	view := drawing.View{Ratio: 20, At: drawing.Pt{X: 50, Y: 100}}
	wall := plane.Segment{A: plane.Pt(0, 0), B: plane.Pt(900, 0)}
	items := Items(Fixture("vanity", 900, 530), OnLeft(wall), view, drawing.LayerFixtures, "vanity")
	b := drawing.PathBox(items[0].(*drawing.Path).Segs)
	fmt.Printf("%.1f x %.1f mm on paper\n", b.W(), b.H())
	// Output: 45.0 x 26.5 mm on paper
}
