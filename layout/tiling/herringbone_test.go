package tiling

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Laid square to the room, tiles of 200 x 100: one lies along the axes at the
// origin, one across them on top of its end. By hand.
func TestWeaveByHand(t *testing.T) {
	v := Grid{Woven: true, Length: 200, Width: 100}
	for _, c := range []struct {
		name string
		room plane.Region
		want Count
	}{
		{"a tile along", rect(200, 100), Count{Whole: 1}},
		{"a tile across", plane.FromRing(plane.Rectangle(plane.Pt(0, 100), plane.Pt(100, 300))), Count{Whole: 1}},
		{"both", plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 100}, {X: 100, Y: 100},
			{X: 100, Y: 300}, {X: 0, Y: 300}}), Count{Whole: 2}},
		// 90 of 200 of either, so that one tile gives both; 40 of 100 of either likewise
		{"ends of both", rect(90, 190), Count{Cut: 2, Pairs: 1}},
		{"sides of both", plane.FromRing(plane.Ring{{X: 0, Y: 60}, {X: 150, Y: 60}, {X: 150, Y: 100}, {X: 45, Y: 100},
			{X: 45, Y: 250}, {X: 0, Y: 250}}), Count{Cut: 2, Pairs: 1}},
		// one tile along, and half of the next two: the saw keeps both halves from coming of one tile
		{"a square", rect(200, 200), Count{Whole: 1, Cut: 2}},
	} {
		got, err := v.Count(c.room)
		if err != nil {
			t.Fatal(err)
		}
		got.Area = 0
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// Without joints the pieces make up the whole floor, whatever its shape, the
// tile and the angle: the weave leaves no hole and covers nothing twice.
func TestWeaveMakesUpTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(600, 2500).Draw(t, "w"), rapid.Float64Range(600, 2500).Draw(t, "h")
		room := plane.FromRing(plane.Ring{plane.Pt(0, 0), plane.Pt(w, 0),
			plane.Pt(w, h*rapid.Float64Range(0.3, 1).Draw(t, "slope")),
			plane.Pt(w/2, h), plane.Pt(w/2, h*0.6), plane.Pt(0, h*0.7)})
		v := herringbone(room, job.Tile{Length: rapid.Float64Range(100, 700).Draw(t, "l"), Width: rapid.Float64Range(60,
			300).Draw(t, "b")})
		v.Angle += rapid.Float64Range(-1, 1).Draw(t, "turned")
		c, err := v.Count(room)
		if err != nil {
			t.Fatal(err)
		}
		if lost := room.Area() - c.Area; lost < -1 || lost > 2*room.Perimeter() {
			t.Fatalf("pieces make %.0f of %.0f mm²", c.Area, room.Area())
		}
		if float64(c.Tiles())*v.Length*v.Width < c.Area-1 {
			t.Fatalf("%d tiles cannot make %.0f mm²", c.Tiles(), c.Area)
		}
	})
}

// With joints the faces are the share of the floor that one tile has of its
// place, to within the edge.
func TestWeaveWithJoints(t *testing.T) {
	tile := job.Tile{Length: 600, Width: 150, Joint: 3, Pattern: Herringbone}
	room := rect(9000, 6000)
	c, err := herringbone(room, tile).Count(room)
	if err != nil {
		t.Fatal(err)
	}
	want := room.Area() * 600 * 150 / (603 * 153)
	if math.Abs(c.Area-want) > 0.003*want {
		t.Errorf("%.4f m² of face, want %.4f", c.Area/1e6, want/1e6)
	}
	if byArea := ByArea(room.Area(), tile); float64(c.Tiles()) < byArea || float64(c.Tiles()) > 1.2*byArea {
		t.Errorf("%d tiles, by area alone %.0f; trade guides add 15 to 20 %%", c.Tiles(), byArea)
	}
}

// Its zigzag runs along the longer side: tiles are at 45 degrees to it.
func TestHerringboneLiesAlongTheRoom(t *testing.T) {
	tile := job.Tile{Length: 400, Width: 100}
	wide, high := herringbone(rect(3000, 1000), tile), herringbone(rect(1000, 3000), tile)
	for _, c := range []struct {
		v    Grid
		want plane.Point
	}{{wide, plane.Pt(math.Sqrt2, 0)}, {high, plane.Pt(0, math.Sqrt2)}} {
		if got := plane.Pt(1, 1).Rotate(c.v.Angle); got.Dist(c.want) > 1e-9 {
			t.Errorf("zigzag along %v, want %v", got, c.want)
		}
	}
}

func TestWeaveSaysWhatIsNoTile(t *testing.T) {
	for _, v := range []Grid{{Length: math.NaN(), Width: 100}, {Length: 200, Width: math.NaN()},
		{Length: 0.5, Width: 100}, {Length: 200, Width: 0.5}, {Length: 200, Width: 100, Joint: math.Inf(1)}} {
		if _, err := v.Count(rect(1000, 1000)); err == nil || !strings.Contains(err.Error(), "cannot be counted") {
			t.Errorf("%+v: %v", v, err)
		}
		if _, err := (Grid{Length: v.Length, Width: v.Width, Joint: v.Joint}).Count(rect(1000, 1000)); err == nil ||
			!strings.Contains(err.Error(), "cannot be counted") {
			t.Errorf("%+v on a grid: %v", v, err)
		}
	}
}

func TestWeaveRefuses(t *testing.T) {
	for _, v := range []Grid{{Length: 0, Width: 100}, {Length: math.NaN(), Width: 1},
		{Length: 200, Width: 100, Joint: -1}, {Length: 2, Width: 1}} {
		if _, err := v.Count(rect(1e5, 1e5)); err == nil {
			t.Errorf("%+v: no error", v)
		}
	}
}

// Square to the room too, the weave leaves no corner out.
func TestWeaveReachesEveryCorner(t *testing.T) {
	for w := 90.0; w < 900; w += 140 {
		for h := 90.0; h < 900; h += 110 {
			for _, at := range []plane.Point{{}, {X: -450, Y: -300}} {
				room := plane.FromRing(plane.Rectangle(at, at.Add(plane.Pt(w, h))))
				c, err := Grid{Woven: true, Length: 200, Width: 100}.Count(room)
				if err != nil || math.Abs(c.Area-w*h) > 1e-6 {
					t.Errorf("%g x %g at %v: %.0f mm², %v", w, h, at, c.Area, err)
				}
			}
		}
	}
}

// herringbone is a tile's weave as it is set out in a room.
func herringbone(room plane.Region, t job.Tile) Grid {
	t.Pattern = Herringbone
	all, err := Layouts(Room{Tiled: room}, t)
	if err != nil || len(all) == 0 {
		return Grid{}
	}
	return all[0].Grid
}
