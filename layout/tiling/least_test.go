package tiling

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// turned is a room and its floor turned about the origin.
func turned(room Room, floor plane.Region, angle float64) (Room, plane.Region) {
	segment := func(s plane.Segment) plane.Segment {
		return plane.Segment{A: s.A.Rotate(angle), B: s.B.Rotate(angle)}
	}
	out := room
	out.Sides, out.Joints = slices.Clone(room.Sides), slices.Clone(room.Joints)
	for i := range out.Sides {
		out.Sides[i].Segment = segment(out.Sides[i].Segment)
	}
	for i := range out.Joints {
		out.Joints[i].Segment = segment(out.Joints[i].Segment)
	}
	var ring plane.Ring
	for _, p := range floor[0].Outer {
		ring = append(ring, p.Rotate(angle))
	}
	return out, plane.FromRing(ring)
}

// A room that is turned with its tile has the same sides to begin from and the same tiles cut at
// its joints, on either side of the tile's corner.
func TestTurnedRoomsBeginAlike(t *testing.T) {
	floor := rect(1200, 808)
	room := Room{Edge: 0, Sides: []Side{{Segment: hand.Segment(0, 808, 0, 0), Name: language.Say("west"), Seen: 1},
		{Segment: hand.Segment(1200, 0, 1200, 808), Name: language.Say("east"), Seen: 2}, {Segment: hand.Segment(0, 0,
			1200, 0),
			Name: language.Say("south"), Seen: 1}, {Segment: hand.Segment(1200, 808, 0, 808),
			Name: language.Say("north"), Seen: 2}},
		Joints: []Joint{{Segment: hand.Segment(0, 264, 1200, 264), Width: 10}}}
	for _, angle := range []float64{0, 0.5, -2} {
		r, f := turned(room, floor, angle)
		g := Grid{Length: 300, Width: 200, Joint: 4, Angle: angle}
		for _, k := range []struct {
			a    axis
			want string
		}{{axis{g, f, plane.AxisX, 300, false}, "east at 1200 high, west at 0"}, {axis{g, f, plane.AxisY, 200, false},
			"north at 808 high, south at 0"}} {
			var got []string
			for _, s := range r.stations(k.a) {
				got = append(got, fmt.Sprintf("%s at %.0f", s.Name, s.at+0.1))
				if s.high {
					got[len(got)-1] += " high"
				}
			}
			if strings.Join(got, ", ") != k.want {
				t.Errorf("turned by %g: %q, want %q", angle, got, k.want)
			}
		}
		l, err := r.survey(g, f)
		if err != nil || l.AtJoints != 4 || math.Abs(l.Narrowest-60) > 1e-6 { // of the second row, 204 to 404
			t.Errorf("turned by %g: %d cut, the narrowest %g; %v", angle, l.AtJoints, l.Narrowest, err)
		}
	}
}

// How many layouts are tried: 20,000 places are looked at, a tile with its joint each and one more
// at the end; where that is too much it is across the rows that less is tried.
func TestHowManyLayoutsAreTried(t *testing.T) {
	g := Grid{Length: 10, Width: 10, Joint: 10}
	for _, k := range []struct {
		w, h  float64
		tried int
	}{{980, 1980, 4}, {1000, 1940, 4}, {1000, 1960, 2}, {1960, 1000, 2}} {
		all, err := Room{}.weighed(g, rect(k.w, k.h), job.Tile{})
		if err != nil || len(all) != k.tried {
			t.Errorf("%g by %g mm: %d layouts, %v", k.w, k.h, len(all), err)
		}
		if len(all) == 2 && (all[0].Along.String() == all[1].Along.String() ||
			all[0].Across.String() != all[1].Across.String()) {
			t.Errorf("%s and %s along, %s and %s across", all[0].Along, all[1].Along, all[0].Across, all[1].Across)
		}
	}
	if _, err := (Grid{Length: 5, Width: 5, Woven: true}).Count(rect(3000, 3000)); err == nil {
		t.Error("360,000 tiles of a weave are counted")
	}
	if c, err := (Grid{Length: 1, Width: 10, Joint: 1}).Count(rect(2000, 10)); err != nil || c.Whole != 1000 {
		t.Errorf("%+v, %v", c, err)
	}
}

// Layouts that cost the same but for the last bits of a sum stay in their order.
func TestLayoutsThatCostTheSame(t *testing.T) {
	got := best([]Layout{{UnderHalf: 2, cost: 1}, {UnderHalf: 1, cost: 1 - 1e-12}})
	if len(got) != 2 || got[0].UnderHalf != 2 {
		t.Errorf("%+v", got)
	}
	all, err := Layouts(Room{Tiled: rect(900, 900)}, job.Tile{Length: 300, Width: 200})
	if err != nil || all[0].Angle != 0 {
		t.Errorf("rows in a square: %+v, %v", all, err)
	}
}

// A tile of a millimetre is one, a narrower one is not, and none of a weave has a number.
func TestTilesThatAreNone(t *testing.T) {
	for _, k := range []struct{ length, width float64 }{{300, 0.5}, {0.5, 0.5}} {
		_, err := Layouts(Room{Tiled: rect(600, 300)}, job.Tile{Length: k.length, Width: k.width})
		if err == nil || !strings.HasPrefix(err.Error(), "a tile of ") {
			t.Errorf("%+v: %v", k, err)
		}
	}
	for _, k := range []struct{ length, width float64 }{{300, 1}, {1, 1}} {
		all, err := Layouts(Room{Tiled: rect(30, 5)}, job.Tile{Length: k.length, Width: k.width})
		if err != nil || len(all) == 0 {
			t.Errorf("%+v: %v", k, err)
		}
		if n, ok := (Grid{Length: k.length, Width: k.width}).numbered(rect(30, 5), plane.Point{}); !ok ||
			len(n.Rows) == 0 {
			t.Errorf("%+v: %+v", k, n)
		}
	}
	woven, err := Layouts(Room{Tiled: rect(900, 600)}, job.Tile{Length: 200, Width: 100, Pattern: Herringbone})
	if err != nil || woven[0].Numbers != nil {
		t.Errorf("%+v, %v", woven, err)
	}
	for pattern, want := range map[string]float64{Straight: 1, Diagonal: 1 + math.Pi/4, Herringbone: 1 - math.Pi/4} {
		if g, ok := gridFor(job.Tile{Length: 2, Width: 1, Pattern: pattern}, 1); !ok || math.Abs(g.Angle-want) > 1e-12 {
			t.Errorf("%s: %+v", pattern, g)
		}
	}
}

// A tile of 300 mm with 1.5 mm off one end is cut, one with 0.9 mm off is whole; of a tile so small that the joint
// takes up
// all of it, half of it and no more is a piece.
func TestHowFarATileIsWhole(t *testing.T) {
	for _, k := range []struct {
		size, floor plane.Point
		want        filling
	}{
		{plane.Pt(300, 300), plane.Pt(300, 298.5), cutCell}, {plane.Pt(300, 300), plane.Pt(298.5, 300), cutCell},
		{plane.Pt(300, 300), plane.Pt(300, 299.1), wholeCell}, {plane.Pt(300, 300), plane.Pt(299.1, 300), wholeCell},
		{plane.Pt(2, 300), plane.Pt(1, 300), cutCell}, {plane.Pt(300, 2), plane.Pt(300, 1), cutCell},
		{plane.Pt(2, 300), plane.Pt(1.1, 300), wholeCell}, {plane.Pt(300, 2), plane.Pt(300, 1.1), wholeCell},
		{plane.Pt(2.5, 300), plane.Pt(1.4, 300), cutCell}, {plane.Pt(300, 2.5), plane.Pt(300, 1.4), cutCell},
	} {
		c := cell{size: k.size, floor: plane.FaceOf(rect(k.floor.X, k.floor.Y), plane.Point{}, 0)}
		if got := c.filling(); got != k.want {
			t.Errorf("%v of a tile of %v: %d, want %d", k.floor, k.size, got, k.want)
		}
	}
}

// A joint of 4 mm between two tiles of 300 lies 302 mm from where the first begins.
func TestJointsLieBetweenTiles(t *testing.T) {
	l := Layout{Grid: Grid{Length: 300, Width: 300, Joint: 4}, Floor: rect(604, 300)}
	got := slices.DeleteFunc(l.Joints(), func(s plane.Segment) bool { return l.Floor.Depth(s.A.Lerp(s.B, 0.5)) < 1 })
	if len(got) != 1 || got[0] != hand.Segment(302, 0, 302, 300) {
		t.Errorf("%v", got)
	}
}

// The second point of a start lies on the same piece of the line, not across the gap of a U, and may
// be the origin.
func TestSecondPointOfAStart(t *testing.T) {
	u := plane.FromRing(hand.Points(0, 0, 2100, 0, 2100, 900, 1200, 900, 1200, 150, 900, 150, 900, 900, 0, 900))
	s, ok := Layout{Grid: Grid{Length: 300, Width: 300}, Floor: u}.Start()
	if !ok || s.At.X != 600 || s.Second != plane.Pt(300, s.At.Y) {
		t.Errorf("%+v, %v", s, ok)
	}
	about := plane.FromRing(hand.Points(-150, -150, 450, -150, 450, 150, -150, 150)) // joints cross at 0 and 300 alone
	s, ok = Layout{Grid: Grid{Length: 300, Width: 300}, Floor: about}.Start()
	if !ok || s.At != plane.Pt(0, 0) && s.Second != plane.Pt(0, 0) {
		t.Errorf("%+v, %v", s, ok)
	}
}

// A row of which the floor is too narrow for a tile has one all the same, so that each place has a number.
func TestRowsOfAStrip(t *testing.T) {
	floor := plane.FromRing(hand.Points(0, 0, 900, 0, 900, 190, 5, 190, 5, 600, 0, 600))
	n, ok := (Grid{Length: 300, Width: 200}).numbered(floor, plane.Pt(10, 10))
	if !ok || len(n.Rows) != 3 || n.Rows[0].Count != 3 || n.Rows[1].Count != 1 || n.Rows[2].Count != 1 {
		t.Errorf("%+v, %v", n.Rows, ok)
	}
}

// Sides of one direction count together wherever they stand in the outline, and of two with as
// much edge the first is taken.
func TestDirectionsCountTogether(t *testing.T) {
	at := func(from plane.Point, length, degrees float64) plane.Point {
		return from.Add(plane.Pt(length, 0).Rotate(plane.Radians(degrees)))
	}
	b := plane.Pt(1500, 0) // 1500 mm to the east, 1000 and 1300 at 20 degrees to that
	c := at(b, 1000, 110)
	got := mainAngle(plane.FromRing(plane.Ring{{}, b, c, at(c, 1300, 200)}))
	if math.Abs(got-plane.Radians(20)) > 1e-6 {
		t.Errorf("%g degrees", plane.Degrees(got))
	}
	rhombus := plane.Ring{{}, plane.Pt(1000, 0), at(plane.Pt(1000, 0), 1000, 60), at(plane.Point{}, 1000, 60)}
	if got := mainAngle(plane.FromRing(rhombus)); got != 0 {
		t.Errorf("%g degrees", plane.Degrees(got))
	}
}

// What a job leaves to be balanced is begun in every way there is; diagonal tile by quarters too. Sides
// just a tile apart have a middle to begin from.
func TestWaysToBeginAreAllTried(t *testing.T) {
	g := Grid{Length: 300, Width: 200, Joint: 4, Shift: 0.5}
	got := Room{}.axisStarts(axis{g, rect(1000, 600), plane.AxisX, 300, false}, 0, 1000, Balanced)
	if len(got) != 4 {
		t.Errorf("%v", got)
	}
	g.Shift = 0
	for pattern, want := range map[string]int{Straight: 2, Diagonal: 4} {
		along, across := Room{}.starts(g, rect(1000, 600), job.Tile{Pattern: pattern})
		if len(along) != want || len(across) != want {
			t.Errorf("%s: %v, %v", pattern, along, across)
		}
	}
	near := Room{Sides: []Side{{Segment: hand.Segment(0, 900, 0, 0)}, {Segment: hand.Segment(300, 0, 300, 900)}}}
	if got := near.fromSides(axis{g, rect(300, 900), plane.AxisX, 300, false}); len(got) != 4 {
		t.Errorf("%v", got)
	}
}
