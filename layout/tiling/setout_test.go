package tiling

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// endPiece walks tile by tile from a tile's edge to the wall, which lies half an
// extent from the centre line, and returns what is left for the last tile.
func endPiece(start, extent, tile, joint float64) float64 {
	wall := extent / 2
	for start+tile < wall {
		start += tile + joint
		if start >= wall { // the joint meets the wall: the tile before it is whole
			return tile
		}
	}
	if wall-start < narrowestCut {
		return tile
	}
	return wall - start
}

// across is a floor one tile high, so that only its length is to be set out.
func across(extent, tile float64) (Room, job.Tile) {
	return Room{Tiled: rect(extent, 50)}, job.Tile{Length: tile, Width: 50, Joint: 0}
}

// Published sums of balanced cuts, all of a tile added to what is left over, halved:
// 24 + 1-1/2 in gives 12-3/4 (fcimag.com/articles/95138); a course of wall less its full
// tiles, a tile added, halved (half-tile rule, constructionmanuals.tpub.com/14044, figure
// 7-26): so 108 in of 16 in tile, 12 left of 6 tiles, gives 14; 1-3/4 + 1-1/4 left at both
// ends of 11-3/4 in tile gives 7-3/8.
func TestBalancedAsPublished(t *testing.T) {
	for _, c := range []struct{ extent, tile, want float64 }{
		{24 + 24 + 1.5, 24, 12.75}, {108, 16, 14}, {5*11.75 + 1.75 + 1.25, 11.75, 7.375},
	} {
		room, tile := across(c.extent*plane.Inch, c.tile*plane.Inch)
		all, err := Layouts(room, tile)
		if err != nil || math.Abs(all[0].Narrowest/plane.Inch-c.want) > 0.001 || all[0].UnderHalf > 0 ||
			all[0].Cut != 2 {
			t.Errorf("%g in of %g in tile: %+v, %v; want two of %g in", c.extent, c.tile, all, err, c.want)
		}
	}
}

// With a tile or a joint on the middle, whichever leaves the wider piece at the wall, no piece
// need be under half a tile (ANSI A108.02, 4.3.2), and then none is.
func TestNoCutUnderHalf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tile := float64(rapid.IntRange(150, 600).Draw(t, "tile"))
		joint := float64(rapid.IntRange(0, 10).Draw(t, "joint"))
		extent := float64(rapid.IntRange(1300, 6000).Draw(t, "extent")) + 0.37
		room := Room{Tiled: rect(extent, 100)}
		all, err := Layouts(room, job.Tile{Length: tile, Width: 100, Joint: joint})
		if err != nil {
			t.Fatal(err)
		}
		wider := max(endPiece(-tile/2, extent, tile, joint), endPiece(joint/2, extent, tile, joint))
		if half := (tile - joint) / 2; wider < half-narrowestCut {
			t.Fatalf("by hand %v of %v is to be had at best", wider, tile)
		}
		l := all[0]
		if l.UnderHalf > 0 || l.Cut > 0 && l.Narrowest < (tile-joint)/2-narrowestCut || l.Narrowest > tile {
			t.Fatalf("narrowest %v, %v to be had: %+v", l.Narrowest, wider, l)
		}
	})
}

// A job may ask for a tile or a joint on the middle, or whole tiles at the door: 1050 mm of
// 300 mm tile leave 3/8 of a tile with a tile there, 3/4 and 3/4 with a joint, half at the
// far end from the door.
func TestStartAsAskedFor(t *testing.T) {
	room := Room{Tiled: rect(1050, 600), Sides: []Side{
		{Segment: plane.Segment{A: plane.Pt(0, 600), B: plane.Pt(0, 0)}, Name: language.Say("wall D"), Seen: 3,
			Entry: true},
		{Segment: plane.Segment{A: plane.Pt(1050, 0), B: plane.Pt(1050, 600)}, Name: language.Say("wall B"), Seen: 1},
	}}
	for _, c := range []struct {
		how, along string
		narrowest  float64
	}{
		{FromTile, "a tile on the middle", 75}, {FromJoint, "a joint on the middle", 225},
		{FromDoor, "whole tiles at wall D", 150}, {"", "whole tiles at wall D", 150},
	} {
		all, err := Layouts(room, job.Tile{Length: 300, Width: 300, Start: c.how})
		if err != nil || all[0].Along.String() != c.along || math.Abs(all[0].Narrowest-c.narrowest) > 1e-6 {
			t.Errorf("%q: %q, narrowest %g, %v", c.how, all[0].Along, all[0].Narrowest, err)
		}
	}
}

// Of two ways without a cut under half a tile, that is taken whose cuts are where they
// are seen least: 1050 mm of 300 mm tile with whole tiles at either end leaves half a tile
// at the other.
func TestCutsWhereTheyAreSeenLeast(t *testing.T) {
	left := Side{Segment: plane.Segment{A: plane.Pt(0, 300), B: plane.Pt(0, 0)}, Name: language.Say("left"), Seen: 1}
	right := Side{Segment: plane.Segment{A: plane.Pt(1050, 0), B: plane.Pt(1050, 300)}, Name: language.Say("right"),
		Seen: 1}
	for _, plain := range []int{0, 1} {
		sides := []Side{left, right}
		sides[plain].Seen = 0.1
		sides[1-plain].Seen = 3
		all, err := Layouts(Room{Tiled: rect(1050, 300), Sides: sides}, job.Tile{Length: 300, Width: 300})
		if want := "whole tiles at " + sides[1-plain].Name.String(); err != nil || all[0].Along.String() != want ||
			all[0].Cut != 1 {
			t.Errorf("%+v, %v; want %s", all[0], err, want)
		}
	}
}

// Tiles part on a movement joint: 2000 mm of 300 mm tile with a joint at 700 mm is begun
// from it, and then no tile is cut there; 100 mm are left at both ends, as 700 is 2 x 300 and
// 100, and so is 1300 4 x 300 and 100.
func TestJointsAreRespected(t *testing.T) {
	mj := Joint{Segment: plane.Segment{A: plane.Pt(700, 0), B: plane.Pt(700, 900)}, Name: "MJ", Width: 6}
	all, err := Layouts(Room{Tiled: rect(2000, 900), Joints: []Joint{mj}}, job.Tile{Length: 300, Width: 300})
	if err != nil || all[0].AtJoints != 0 || all[0].Narrowest < 99 || all[0].Narrowest > 101 {
		t.Fatalf("%+v, %v", all, err)
	}
	crossed := Grid{Length: 300, Width: 300}
	l, err := Room{Joints: []Joint{mj}}.survey(crossed, rect(2000, 900))
	if err != nil || l.AtJoints != 3 || l.Cut != 6 || l.Whole != 15 || math.Abs(l.Narrowest-100) > 2*narrowestCut {
		t.Errorf("%+v, %v; want 3 cut at the joint in 100 and 200, 3 at the wall", l, err)
	}
}

// A sealed edge leaves its width free: 1212 mm with 6 mm at each end take four whole
// tiles of 300, and no more is counted.
func TestEdgeIsKeptFree(t *testing.T) {
	all, err := Layouts(Room{Tiled: rect(1212, 312), Edge: 6}, job.Tile{Length: 300, Width: 300})
	if err != nil || all[0].Whole != 4 || all[0].Cut != 0 {
		t.Errorf("%+v, %v", all, err)
	}
}

// Rows run as the walls do in a room that stands at 12 degrees on its plan; one that is a
// hair out of square is taken for square.
func TestRowsFollowTheWalls(t *testing.T) {
	for _, c := range []struct{ turned, want float64 }{{12, 12}, {0.1, 0}, {89.95, 0}, {101, 11}} {
		turn := plane.Radians(c.turned)
		ring := plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))
		for i := range ring {
			ring[i] = ring[i].Rotate(turn)
		}
		if got := mainAngle(plane.FromRing(ring)) * 180 / math.Pi; math.Abs(got-c.want) > 0.01 {
			t.Errorf("turned by %g: %g, want %g", c.turned, got, c.want)
		}
	}
}

// Waste of floors that are laid out beforehand was 3.43 to 5.50 % against the trade's 10 to
// 15 % (abstract of "Intelligent optimal design of floor tiles", a study of rooms by
// parametric design). A large plain floor comes near that, and no floor of
// this size is beyond the trade's.
func TestWasteAsPublished(t *testing.T) {
	worst, sum, n := 0.0, 0.0, 0
	for w := 6000.0; w <= 9000; w += 530 {
		for h := 5000.0; h <= 8000; h += 470 {
			all, err := Layouts(Room{Tiled: rect(w, h)}, job.Tile{Length: 300, Width: 300, Joint: 3})
			if err != nil {
				t.Fatal(err)
			}
			waste := float64(all[0].Tiles())*303*303/(w*h) - 1
			worst, sum, n = max(worst, waste), sum+waste, n+1
		}
	}
	t.Logf("waste %.1f %% in the mean, %.1f %% at most", 100*sum/float64(n), 100*worst)
	if worst > 0.15 || sum/float64(n) > 0.10 {
		t.Errorf("waste %.1f %% in the mean, %.1f %% at most", 100*sum/float64(n), 100*worst)
	}
}

// Moved or told from another corner, a floor takes as many tiles.
func TestSameFloorSameTiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, _ := squaredFloor(t)
		by := plane.Pt(float64(rapid.IntRange(-9, 9).Draw(t, "by"))*1000, 3000)
		moved := make(plane.Region, len(floor))
		for i, p := range floor {
			moved[i].Outer = p.Outer.Translate(by)
			for _, h := range p.Holes {
				moved[i].Holes = append(moved[i].Holes, h.Translate(by))
			}
		}
		pattern := rapid.SampledFrom([]string{Straight, Offset, Diagonal, Herringbone}).Draw(t, "pattern")
		tile := job.Tile{Length: 600, Width: 297, Joint: 5, Pattern: pattern}
		if a, b := tilesOf(t, floor, tile), tilesOf(t, moved, tile); a != b {
			t.Fatalf("%s: %d, moved %d", pattern, a, b)
		}
	})
}

func tilesOf(t *rapid.T, floor plane.Region, tile job.Tile) int {
	all, err := Layouts(Room{Tiled: floor}, tile)
	if err != nil {
		t.Fatal(err)
	}
	return all[0].Tiles()
}

// Pieces make up the floor, and those that are cut are counted as such; their joints are
// drawn where tiles part.
func TestPiecesAreThoseCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, _ := squaredFloor(t)
		pattern := rapid.SampledFrom([]string{Straight, Offset, Diagonal, Herringbone}).Draw(t, "pattern")
		all, err := Layouts(Room{Tiled: floor}, job.Tile{Length: 500, Width: 250, Pattern: pattern})
		if err != nil {
			t.Fatal(err)
		}
		cuts, area := 0, 0.0
		for _, p := range all[0].Pieces() {
			if p.Cut {
				cuts++
			}
			for _, ring := range p.Floor {
				area += ring.SignedArea()
			}
		}
		if cuts != all[0].Cut || math.Abs(area-floor.Area()) > floor.Perimeter() {
			t.Fatalf("%d cut of %d, %.0f of %.0f mm²", cuts, all[0].Cut, area, floor.Area())
		}
	})
}

// What cannot be laid out says why, and no pattern is laid out by guess.
func TestNoLayout(t *testing.T) {
	for _, tile := range []job.Tile{{Length: 2, Width: 2}, {Length: 0.5, Width: 300}, {Length: math.NaN(), Width: 1}} {
		if all, err := Layouts(Room{Tiled: rect(9e3, 9e3)}, tile); err == nil || len(all) > 0 {
			t.Errorf("%+v: %v", tile, all)
		}
	}
	waves := job.Tile{Length: 300, Width: 300, Pattern: "waves"}
	if all, err := Layouts(Room{Tiled: rect(9e3, 9e3)}, waves); err != nil || all != nil {
		t.Errorf("%v, %v", all, err)
	}
}

// A tiler's own layout is the only one.
func TestRecordedLayout(t *testing.T) {
	room := Room{Tiled: rect(1000, 700), First: plane.Segment{A: plane.Pt(199, 351), B: plane.Pt(801, 351)}}
	all, err := Layouts(room, job.Tile{Length: 300, Width: 200, Joint: 2})
	if err != nil || len(all) != 1 || !all[0].Recorded || all[0].Origin != room.First.A || all[0].Numbers == nil {
		t.Fatalf("%+v, %v", all, err)
	}
	// columns begin at -103, 199, 501 and 803, rows at -53, 149, 351 and 553: two by two whole
	if all[0].Whole != 4 || all[0].Cut != 12 || all[0].Along.String() != "" {
		t.Errorf("%+v", all[0].Count)
	}
}
