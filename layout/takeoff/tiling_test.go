package takeoff

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A room of 1000 x 700 with 300 x 200 tiles and 2 mm joints: rows run east. A
// joint on the centre line leaves 197 of the second tile each way, a tile only
// 46, so there are 4 columns; across, 147 or 48, so 4 rows.
func TestTilesByHand(t *testing.T) {
	room := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 700)))
	ti, ok := Tile(room, job.Tile{Width: 200, Length: 300, Joint: 2})
	if !ok || len(ti.Rows) != 4 {
		t.Fatalf("%+v", ti)
	}
	for i, r := range ti.Rows {
		if r.Count != 4 {
			t.Errorf("row %d has %d columns", i+1, r.Count)
		}
	}
	for _, c := range []struct {
		p    plane.Point
		want Place
	}{{plane.Pt(1, 1), Place{1, 1}}, {plane.Pt(999, 1), Place{1, ti.Rows[0].Count}}, {plane.Pt(1, 699), Place{4, 1}}} {
		if got, ok := ti.At(c.p); !ok || got != c.want {
			t.Errorf("%v is tile %v (%v), want %v", c.p, got, ok, c.want)
		}
	}
	if _, ok := ti.At(plane.Pt(-400, 1)); ok {
		t.Error("a point beyond the wall is on a tile")
	}
}

// TestEveryPointHasItsTile holds numbers and outlines together, for all
// patterns on a grid and rooms of any shape.
func TestEveryPointHasItsTile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(500, 4000).Draw(t, "w"), rapid.Float64Range(500, 4000).Draw(t, "h")
		room := plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h / 2}, {X: w / 2, Y: h / 2}, {X: w / 2, Y: h}, {X: 0, Y: h}})
		tile := job.Tile{Width: rapid.Float64Range(50, 700).Draw(t, "tile"), Length: rapid.Float64Range(50, 700).Draw(t, "length"),
			Joint: rapid.Float64Range(0, 10).Draw(t, "joint"), Pattern: rapid.SampledFrom([]string{Straight, Offset, Diagonal}).Draw(t, "pattern")}
		ti, ok := Tile(room, tile)
		if !ok {
			t.Fatal("not on a grid")
		}
		p := plane.Pt(rapid.Float64Range(2, w-2).Draw(t, "x"), rapid.Float64Range(2, h-2).Draw(t, "y"))
		if room.Depth(p) < 2 {
			t.Skip("not in the room")
		}
		at, ok := ti.At(p)
		if !ok {
			t.Fatalf("%v in the room is on no tile of %+v", p, ti)
		}
		ring, ok := ti.Outline(at)
		if !ok || !ring.Contains(p) && ring.Distance(p) > tile.Joint/math.Sqrt2+1e-6 {
			t.Fatalf("%v is not on its tile %v with corners %v", p, at, ring)
		}
		if ring.Contains(p) && !slices.Contains(ti.Near([]plane.Point{p}, 0), at) {
			t.Fatalf("tile %v is not near its own point %v", at, p)
		}
	})
}
