package tiling

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"oxturn/layout/internal/published"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// 10 m² of 300x600 with a 3 mm joint: 54.73 modules, 55 tiles, 61 with 10 %;
// 56 without the joint (plain arithmetic). 150 ft² with 15 % is 172.5 ft²
// (homeproject.tools/guides/tile-waste-percentage-guide).
func TestByArea(t *testing.T) {
	tile := job.Tile{Length: 600, Width: 300, Joint: 3}
	n := ByArea(10e6, tile)
	published.Near(t, "modules", n, 54.73, 5e-3)
	for waste, want := range map[float64]int{0: 55, 0.1: 61} {
		if got := int(math.Ceil(n * (1 + waste))); got != want {
			t.Errorf("with %g waste: %d tiles, want %d", waste, got, want)
		}
	}
	if got := int(math.Ceil(ByArea(10e6, job.Tile{Length: 600, Width: 300}))); got != 56 {
		t.Errorf("without joint: %d, want 56", got)
	}
	foot := job.Tile{Length: plane.Foot, Width: plane.Foot}
	published.Near(t, "ft² with 15 %", ByArea(150*plane.Foot*plane.Foot, foot)*1.15, 172.5, 1e-9)
}

func count(t *testing.T, room plane.Region, tile job.Tile) Count {
	t.Helper()
	all, err := Layouts(Room{Tiled: room}, tile)
	if err != nil || len(all) == 0 {
		t.Fatalf("%v is not laid out: %v", tile, err)
	}
	return all[0].Count
}

// Rooms counted by hand.
func TestCountByHand(t *testing.T) {
	for _, c := range []struct {
		name string
		room plane.Region
		tile job.Tile
		want Count
	}{
		{"4 x 3 tiles with their joints", rect(4*303-3, 3*303-3), job.Tile{Length: 300, Width: 300, Joint: 3},
			Count{Whole: 12}},
		// 3.5 tiles long: a tile on the centre line leaves quarters, a joint three quarters
		{"3.5 tiles long", rect(1050, 300), job.Tile{Length: 300, Width: 300}, Count{Whole: 2, Cut: 2}},
		// 2.8 tiles long: here a tile on the centre line leaves 0.9 at each end
		{"2.8 tiles long", rect(840, 300), job.Tile{Length: 300, Width: 300}, Count{Whole: 1, Cut: 2}},
		// rows run along the longer side
		{"portrait", rect(300, 1200), job.Tile{Length: 600, Width: 300}, Count{Whole: 2}},
		// second row moved half a tile: halves at its ends, from one tile only
		// when the saw leaves enough
		{"offset", rect(1200, 600), job.Tile{Length: 600, Width: 300, Pattern: Offset}, Count{Whole: 3, Cut: 2}},
	} {
		got := count(t, c.room, c.tile)
		got.Area = 0
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// A small room takes pieces under half a tile from one tile: 2.3 tiles long
// from a corner is 2 whole and a 0.3 piece; two such rows pair up.
func TestShortPiecesPair(t *testing.T) {
	g := Grid{Length: 300, Width: 300}
	c, err := g.Count(rect(690, 600))
	if err != nil || c.Whole != 4 || c.Cut != 2 || c.Pairs != 1 || c.Tiles() != 5 {
		t.Errorf("%+v, %d tiles, %v; want 4 whole, 2 cut in 1 pair, 5 tiles", c, c.Tiles(), err)
	}
}

// Short and narrow pieces come from unlike cuts and do not pair with each
// other: 3 short ones and 1 narrow one make one pair.
func TestShortAndNarrowDoNotPair(t *testing.T) {
	c, err := Grid{Length: 300, Width: 300}.Count(rect(390, 690))
	if err != nil || c.Whole != 2 || c.Cut != 4 || c.Pairs != 1 {
		t.Errorf("%+v, %v; want 2 whole, 4 cut, 1 pair", c, err)
	}
}

// Diagonal tile lies at 45 degrees to the walls: a floor that stands at 45 degrees takes
// straight tile without a cut, and diagonal tile as a square floor does.
func TestDiagonalLiesAtFortyFive(t *testing.T) {
	half := (4*303 - 3) / math.Sqrt2
	diamond := plane.FromRing(plane.Ring{plane.Pt(0, -half), plane.Pt(half, 0), plane.Pt(0, half), plane.Pt(-half, 0)})
	c := count(t, diamond, job.Tile{Length: 300, Width: 300, Joint: 3})
	if c.Whole != 16 || c.Cut != 0 {
		t.Errorf("%+v, want 16 whole", c)
	}
	tile := job.Tile{Length: 300, Width: 300, Joint: 3, Pattern: Diagonal}
	got, want := count(t, diamond, tile), count(t, rect(2*half/math.Sqrt2, 2*half/math.Sqrt2), tile)
	if got.Whole != want.Whole || got.Cut != want.Cut || got.Cut == 0 {
		t.Errorf("%+v, as a square %+v", got, want)
	}
}

// An L-shaped floor needs nothing in its missing corner, and a hole no tile.
func TestCountFollowsTheRoom(t *testing.T) {
	full, err := rect(1200, 1200).Less(plane.FromRing(plane.Rectangle(plane.Pt(600, 600), plane.Pt(1200, 1200))))
	if err != nil {
		t.Fatal(err)
	}
	g := Grid{Length: 300, Width: 300}
	if c, err := g.Count(full); err != nil || c.Whole != 12 || c.Cut != 0 {
		t.Errorf("L: %+v, %v", c, err)
	}
	holed, err := rect(900, 900).Less(plane.FromRing(plane.Rectangle(plane.Pt(300, 300), plane.Pt(600, 600))))
	if err != nil {
		t.Fatal(err)
	}
	if c, err := g.Count(holed); err != nil || c.Whole != 8 || c.Cut != 0 {
		t.Errorf("holed: %+v, %v", c, err)
	}
}

// Without joints the pieces of a grid make up the whole floor, whatever its
// shape, the grid's angle and the shift of its rows.
func TestPiecesMakeUpTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(900, 4000).Draw(t, "w"), rapid.Float64Range(900, 4000).Draw(t, "h")
		room := plane.FromRing(plane.Ring{plane.Pt(0, 0), plane.Pt(w, 0),
			plane.Pt(w, h*rapid.Float64Range(0.3, 1).Draw(t, "slope")),
			plane.Pt(w/2, h), plane.Pt(w/2, h*0.6), plane.Pt(0, h*0.7)})
		g := Grid{Length: rapid.Float64Range(150, 600).Draw(t, "l"), Width: rapid.Float64Range(150, 600).Draw(t, "b"),
			Angle: rapid.Float64Range(0, 3).Draw(t, "angle"), Shift: rapid.SampledFrom([]float64{0, 0.5}).Draw(t,
				"shift")}
		c, err := g.Count(room)
		if err != nil {
			t.Fatal(err)
		}
		// pieces under 1 mm are left out: at most 1 mm along the edge
		if lost := room.Area() - c.Area; lost < -1 || lost > room.Perimeter() {
			t.Fatalf("pieces make %.0f of %.0f mm²", c.Area, room.Area())
		}
		if float64(c.Tiles())*g.Length*g.Width < c.Area-1 {
			t.Fatalf("%d tiles cannot make %.0f mm²", c.Tiles(), c.Area)
		}
	})
}

func TestGridRefuses(t *testing.T) {
	for _, g := range []Grid{{}, {Length: 300}, {Length: math.NaN(), Width: 300}, {Length: 300, Width: 300, Joint: -1},
		{Length: 2, Width: 2}, {Length: 300, Width: 300, Origin: plane.Pt(1e18, 0)}, {Length: 300, Width: 300,
			Angle: math.NaN()}} {
		if _, err := g.Count(rect(9000, 9000)); err == nil {
			t.Errorf("%+v: no error", g)
		}
	}
	if c, err := (Grid{Length: 300, Width: 300}).Count(nil); err != nil || c.Tiles() != 0 {
		t.Errorf("no floor: %+v, %v", c, err)
	}
}

// 30 m² of 48 mm mosaic, some 11,500 tiles, is counted in well under a second, by the
// quickest of a few tries: other work on the machine may hold up any of them.
func TestMosaicIsCountedQuickly(t *testing.T) {
	quickest := time.Hour
	for try := 0; try < 10 && quickest > time.Second; try++ {
		start := time.Now()
		c := count(t, rect(6000, 5000), job.Tile{Length: 48, Width: 48, Joint: 3, Pattern: Diagonal})
		if quickest = min(quickest, time.Since(start)); c.Tiles() < 11000 {
			t.Fatalf("%d tiles", c.Tiles())
		}
	}
	if quickest > time.Second {
		t.Errorf("counted in %v", quickest)
	}
}

// A tub 1.5 mm short of its niche leaves a sliver that sealant fills: it moves no
// tile and takes none. Plain arithmetic: five by three tiles without it.
func TestSliverMovesNoTile(t *testing.T) {
	plain := rect(1500, 900)
	floor, err := plane.Union(plain, plane.FromRing(plane.Rectangle(plane.Pt(1498.5, 800), plane.Pt(1500, 1700))))
	if err != nil {
		t.Fatal(err)
	}
	tile := job.Tile{Length: 300, Width: 300}
	for _, room := range []plane.Region{plain, floor} {
		c := count(t, room, tile)
		if c.Whole != 15 || c.Cut != 0 {
			t.Errorf("%v: %+v; want 15 whole", room.Bounds(), c)
		}
		if tiling, ok := Number(room, tile, plane.Segment{A: plane.Pt(0, 0), B: plane.Pt(300, 0)}); !ok ||
			len(tiling.Rows) != 3 || tiling.Rows[2].Count != 5 {
			t.Errorf("%v: tiles numbered %+v", room.Bounds(), tiling)
		}
	}
}

// A floor without slivers is counted as it is drawn, to the corner.
func TestFloorWithoutSliversStays(t *testing.T) {
	ell := plane.FromRing(plane.Ring{{X: 0, Y: 0}, {X: 2000, Y: 0}, {X: 2000, Y: 900}, {X: 700, Y: 900},
		{X: 700, Y: 1800}, {X: 0, Y: 1800}})
	got := withoutSlivers(ell).Rings()
	if len(got) != 1 || !slices.Equal(got[0], ell.Rings()[0]) {
		t.Errorf("%v", got)
	}
	thin := rect(1.5, 2000) // nothing but a sliver: left to whoever asks
	if got := withoutSlivers(thin); got.Area() != thin.Area() {
		t.Errorf("%v", got)
	}
}

// Whether a piece is short or narrow is settled at half a tile less the saw: 148.5 of 300.
func TestHalfATileLessTheSaw(t *testing.T) {
	for width, pairs := range map[float64]int{147.4: 1, 148.4: 1, 149.4: 0} {
		c, err := Grid{Length: 300, Width: 300}.Count(rect(300+width, 600))
		if err != nil || c.Whole != 2 || c.Cut != 2 || c.Pairs != pairs {
			t.Errorf("%g mm beside a tile: %+v, %v", width, c, err)
		}
		c, err = Grid{Length: 300, Width: 300}.Count(rect(600, 300+width))
		if err != nil || c.Whole != 2 || c.Cut != 2 || c.Pairs != pairs {
			t.Errorf("%g mm above a tile: %+v, %v", width, c, err)
		}
		// in every row, whatever the joint
		c, err = Grid{Length: 300, Width: 300, Joint: 40}.Count(rect(340+width, 640))
		if err != nil || c.Whole != 2 || c.Cut != 2 || c.Pairs != pairs {
			t.Errorf("%g mm beside a tile and its joint: %+v, %v", width, c, err)
		}
	}
}

// Far from where the grid begins joints add up: in row 27 pieces of 160 mm are still more
// than half a tile of 300, less the saw's 3 mm, and none of the three comes from another.
func TestPiecesFarFromTheOrigin(t *testing.T) {
	c, err := (Grid{Length: 300, Width: 300, Joint: 3}).Count(rect(906, 26*303+160))
	if want := (Count{Whole: 78, Cut: 3}); err != nil || c.Whole != want.Whole || c.Cut != want.Cut || c.Pairs != 0 {
		t.Errorf("%+v, %v, want %+v", c, err, want)
	}
}

// rect is a floor of w x h mm with a corner at the origin.
func rect(w, h float64) plane.Region {
	return plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)))
}
