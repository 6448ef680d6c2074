package tiling

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/skip"
)

// A room of 1000 x 700 with 300 x 200 tiles and 2 mm joints, set out from a
// corner at 199, 351: columns begin at -103, 199, 501 and 803, rows at -53, 149,
// 351 and 553.
func TestTilesByHand(t *testing.T) {
	room := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 700)))
	ti, ok := Number(room, job.Tile{Width: 200, Length: 300, Joint: 2}, plane.Segment{A: plane.Pt(199, 351),
		B: plane.Pt(801, 351)})
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
	if got := ti.Piece(Place{1, 1}, plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 700))); math.Abs(
		got.Area()-197*147) > 1e-6 {
		t.Errorf("the cut tile in the corner is %v", got)
	}
	got := ti.Piece(Place{4, 4}, plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 700)).CCW())
	if got.Bounds() != (plane.Rect{Min: plane.Pt(803, 553), Max: plane.Pt(1000, 700)}) {
		t.Errorf("the cut tile in the far corner is %v", got)
	}
	if got := ti.Piece(Place{2, 2}, plane.Rectangle(plane.Pt(600, 0), plane.Pt(1000, 700))); got != nil {
		t.Errorf("of a tile beyond the wall there is %v", got)
	}
	if _, ok := ti.At(plane.Pt(-400, 1)); ok {
		t.Error("a point beyond the wall is on a tile")
	}
}

// Rows that run north are counted to the west; every second row of an offset
// pattern lies half a tile on, the first tile's own row not: its corner is the
// corner of a tile, wherever the room's middle is.
func TestTilesAreWhereTheFirstOneIs(t *testing.T) {
	room := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 700)))
	ti, ok := Number(room, job.Tile{Width: 200, Length: 300, Joint: 2, Pattern: Offset},
		plane.Segment{A: plane.Pt(640, 33), B: plane.Pt(640, 500)})
	if !ok {
		t.Fatal("not on a grid")
	}
	at, _ := ti.At(plane.Pt(639, 34))
	ring, _ := ti.Outline(at)
	for i, want := range []plane.Point{{X: 640, Y: 33}, {X: 640, Y: 333}, {X: 440, Y: 333}, {X: 440, Y: 33}} {
		if ring[i].Dist(want) > 1e-9 {
			t.Errorf("corner %d of the first tile lies at %v, want %v", i, ring[i], want)
		}
	}
	if west, _ := ti.At(plane.Pt(400, 190)); west.Row != at.Row+1 {
		t.Errorf("the tile west of row %d is in row %d", at.Row, west.Row)
	}
	west, _ := ti.At(plane.Pt(400, 190))
	if ring, _ := ti.Outline(west); math.Abs(ring[0].Y-(33+151)) > 1e-9 {
		t.Errorf("the row beside it begins a tile at %v, want y 184", ring[0])
	}
	if _, ok := Number(room, job.Tile{Width: 200, Length: 300}, plane.Segment{}); ok {
		t.Error("tiles are numbered that nobody set out")
	}
}

// TestStripsTooNarrowForTile: a first tile set 6 mm off the wall leaves 3 mm beside its joint, where nobody
// cuts a tile: row 1 is the one that is seen from the wall. From 10 mm on it is a row of cut tile, of small tile from a
// quarter on (common practice); likewise at the far wall, and at the ends of rows.
func TestStripsTooNarrowForTile(t *testing.T) {
	for _, c := range []struct {
		off, tile, w   float64
		rows, row, col int // in all, and of the first tile
	}{
		{6, 197, 1006, 5, 1, 1}, {12.9, 197, 1012.9, 5, 1, 1}, {13.1, 197, 1013.1, 6, 2, 2}, {1.5, 197, 1000, 5, 1, 1},
		{6, 197, 1012, 5, 1, 1}, {6, 197, 1017, 6, 1, 1}, {7.2, 17, 107.2, 5, 1, 1}, {7.3, 17, 107.3, 6, 2, 2},
	} {
		room := rect(c.w, c.w)
		first := plane.Segment{A: plane.Pt(c.off, c.off), B: plane.Pt(c.w/2, c.off)}
		ti, ok := Number(room, job.Tile{Width: c.tile, Length: c.tile, Joint: 3}, first)
		if !ok || len(ti.Rows) != c.rows || ti.Rows[0].Count != c.rows {
			t.Errorf("%+v: %+v", c, ti.Rows)
		}
		if at, ok := ti.At(first.A.Add(plane.Pt(5, 5))); !ok || at != (Place{c.row, c.col}) {
			t.Errorf("%+v: the first tile is %v", c, at)
		}
		for p, want := range map[plane.Point]Place{
			{X: 0.1, Y: 0.1}: {1, 1}, {X: c.w - 0.1, Y: c.w - 0.1}: {c.rows, c.rows},
		} {
			if at, ok := ti.At(p); !ok || at != want {
				t.Errorf("%+v: %v is beside tile %v (%v), want %v", c, p, at, ok, want)
			}
		}
		if at, ok := ti.At(plane.Pt(-c.tile, 5)); ok {
			t.Errorf("%+v: a point beyond the wall is on tile %v", c, at)
		}
		all, err := Layouts(Room{Tiled: room, First: first}, job.Tile{Width: c.tile, Length: c.tile, Joint: 3})
		if err != nil || len(all) != 1 || all[0].Numbers == nil || len(all[0].Numbers.Rows) != c.rows {
			t.Errorf("%+v: the tile plan counts otherwise: %v", c, err)
		}
	}
}

// TestEveryPointHasItsTile holds numbers and outlines together, for all
// patterns on a grid and rooms of any shape.
func TestEveryPointHasItsTile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(500, 4000).Draw(t, "w"), rapid.Float64Range(500, 4000).Draw(t, "h")
		room := plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h / 2}, {X: w / 2, Y: h / 2},
			{X: w / 2, Y: h}, {X: 0, Y: h}})
		tile := job.Tile{Width: rapid.Float64Range(50, 700).Draw(t, "tile"), Length: rapid.Float64Range(50, 700).Draw(t,
			"length"),
			Joint: rapid.Float64Range(0, 10).Draw(t, "joint"), Pattern: rapid.SampledFrom([]string{Straight, Offset,
				Diagonal}).Draw(t, "pattern")}
		turn := rapid.Float64Range(0, 6).Draw(t, "turn")
		from := plane.Pt(rapid.Float64Range(0, w).Draw(t, "from x"), rapid.Float64Range(0, h).Draw(t, "from y"))
		ti, ok := Number(room, tile, plane.Segment{A: from, B: from.Add(plane.Pt(500, 0).Rotate(turn))})
		if !ok {
			t.Fatal("not on a grid")
		}
		p := plane.Pt(rapid.Float64Range(2, w-2).Draw(t, "x"), rapid.Float64Range(2, h-2).Draw(t, "y"))
		if room.Depth(p) < 2 {
			skip.Test(t, skip.OtherCase, "not in the room")
		}
		at, ok := ti.At(p)
		if !ok {
			t.Fatalf("%v in the room is on no tile of %+v", p, ti)
		}
		ring, ok := ti.Outline(at)
		off := tile.Joint/math.Sqrt2 + 1e-6
		if strip := math.Hypot(leastCut(tile.Width), leastCut(tile.Length)); room.Depth(p) < strip { // no tile there
			off = strip + tile.Joint
		}
		if !ok || !ring.Contains(p) && ring.Distance(p) > off {
			t.Fatalf("%v is not on its tile %v with corners %v", p, at, ring)
		}
		if ring.Contains(p) && !slices.Contains(ti.Near([]plane.Point{p}, 0, room.Rings()[0]), at) {
			t.Fatalf("tile %v is not near its own point %v", at, p)
		}
	})
}

// Numbers of no tile: before the first and beyond the last, of rows and of columns.
func TestNumbersOfNoTile(t *testing.T) {
	room := rect(1000, 700)
	ti, _ := Number(room, job.Tile{Width: 200, Length: 300, Joint: 2}, plane.Segment{A: plane.Pt(199, 351),
		B: plane.Pt(801, 351)})
	for _, p := range []Place{{0, 1}, {5, 1}, {1, 0}, {1, 5}, {4, 5}, {-3, 9}} {
		if ring, ok := ti.Outline(p); ok || ti.Piece(p, room.Rings()[0]) != nil {
			t.Errorf("%v lies at %v", p, ring)
		}
	}
	for _, p := range []Place{{1, 1}, {4, 4}} {
		if ring, ok := ti.Outline(p); !ok || math.Abs(ring.Area()-6e4) > 1e-6 {
			t.Errorf("%v lies at %v", p, ring)
		}
	}
	for _, p := range []plane.Point{{X: 500, Y: -160}, {X: 500, Y: 760}, {X: -110, Y: 100}, {X: 1110, Y: 100}} {
		if at, ok := ti.At(p); ok {
			t.Errorf("%v is on tile %v", p, at)
		}
	}
	// the middle of a joint parts the tiles beside it
	for x, want := range map[float64]int{197.9: 1, 198.1: 2, 499.9: 2, 500.1: 3} {
		if at, ok := ti.At(plane.Pt(x, 400)); !ok || at.Column != want {
			t.Errorf("x = %g: %v", x, at)
		}
	}
}

// TestNoIdleTiles: in a slanting room the first and the last tile of each row reach into it, out to
// the middle of the joints round them and 3 mm at its sharp corners, and no point of it, on a joint or not, is beyond
// them.
func TestNoIdleTiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(900, 3000).Draw(t, "w"), rapid.Float64Range(900, 3000).Draw(t, "h")
		room := plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: w, Y: h / 8},
			{X: w * rapid.Float64Range(0.2, 0.8).Draw(t, "top"), Y: h}})
		tile := job.Tile{Width: rapid.Float64Range(100, 500).Draw(t, "tile"), Length: rapid.Float64Range(100,
			500).Draw(t, "length"),
			Joint: rapid.Float64Range(0, 60).Draw(t, "joint"), Pattern: rapid.SampledFrom([]string{Straight,
				Offset}).Draw(t, "pattern")}
		from := plane.Pt(rapid.Float64Range(0, w).Draw(t, "from x"), rapid.Float64Range(0, h).Draw(t, "from y"))
		ti, ok := Number(room, tile, plane.Segment{A: from,
			B: from.Add(plane.Pt(500, 0).Rotate(rapid.Float64Range(0, 6).Draw(t, "turn")))})
		if !ok {
			t.Fatal("not on a grid")
		}
		for row, r := range ti.Rows {
			for _, col := range []int{1, r.Count} {
				ring, _ := ti.Outline(Place{row + 1, col})
				centre := ring.Bounds().Centre()
				half := plane.Pt(ti.Grid.Length/2+tile.Joint/2, ti.Grid.Width/2+tile.Joint/2)
				place := plane.Rectangle(half.Mul(-1), half)
				for i := range place {
					place[i] = place[i].Rotate(ti.Grid.Angle).Add(centre)
				}
				if walls := room.Rings()[0]; Gap(place, append(walls, walls[0])) > 3 && !room.Contains(centre) {
					t.Fatalf("tile %d of row %d of %+v lies outside", col, row+1, ti)
				}
			}
		}
		for range 20 {
			p := plane.Pt(rapid.Float64Range(0, w).Draw(t, "x"), rapid.Float64Range(0, h).Draw(t, "y"))
			if _, ok := ti.At(p); !ok && room.Depth(p) > 2 {
				t.Fatalf("%v in the room is on no tile of %+v", p, ti)
			}
		}
	})
}

// Distances by hand: from a tile's edge, from its corner (3, 4, 5), to a line that passes by it, under it.
func TestGapByHand(t *testing.T) {
	ring := plane.Rectangle(plane.Pt(100, 100), plane.Pt(400, 300))
	for _, c := range []struct {
		line []plane.Point
		want float64
	}{
		{[]plane.Point{{X: 430, Y: 200}}, 30}, {[]plane.Point{{X: 403, Y: 304}}, 5}, {[]plane.Point{{X: 200, Y: 200}},
			0},
		{[]plane.Point{{X: 0, Y: 350}, {X: 500, Y: 350}}, 50},
		{[]plane.Point{{X: 0, Y: 900}, {X: 0, Y: 320}, {X: 500, Y: 320}}, 20},
		{[]plane.Point{{X: 0, Y: 200}, {X: 500, Y: 200}}, 0},
		{[]plane.Point{{X: 0, Y: 900}, {X: 50, Y: 200}, {X: 0, Y: -900}}, 50},
	} {
		if got := Gap(ring, c.line); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %g, want %g", c.line, got, c.want)
		}
	}
}

// Near a point or a line lie the tiles within the distance and no others: 30 from the edge of one and
// 33 from the next.
func TestNearByHand(t *testing.T) {
	room := rect(1200, 600)
	ti, _ := Number(room, job.Tile{Width: 297, Length: 297, Joint: 3}, plane.Segment{A: plane.Pt(0, 0),
		B: plane.Pt(300, 0)})
	for _, c := range []struct {
		line   []plane.Point
		within float64
		want   []Place
	}{
		{[]plane.Point{{X: 267, Y: 150}}, 0, []Place{{1, 1}}}, {[]plane.Point{{X: 267, Y: 150}}, 32, []Place{{1, 1}}},
		{[]plane.Point{{X: 267, Y: 150}}, 33, []Place{{1, 1}, {1, 2}}},
		{[]plane.Point{{X: 267, Y: 150}, {X: 267, Y: 450}}, 10, []Place{{1, 1}, {2, 1}}},
		{[]plane.Point{{X: 5000, Y: 150}}, 100, nil},
	} {
		if got := ti.Near(c.line, c.within, room.Rings()[0]); !slices.Equal(got, c.want) {
			t.Errorf("within %g of %v: %v, want %v", c.within, c.line, got, c.want)
		}
	}
}

// A floor of one row of tiles is one that can be numbered.
func TestTilingOfOneRow(t *testing.T) {
	tiling, ok := Number(rect(900, 300), job.Tile{Length: 300, Width: 300},
		plane.Segment{A: plane.Pt(0, 0), B: plane.Pt(300, 0)})
	if !ok || len(tiling.Rows) != 1 || tiling.Rows[0].Count != 3 {
		t.Errorf("%+v, %v", tiling, ok)
	}
}
