package membrane

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

// However many lengths there are, no more bins are taken than first-fit decreasing takes,
// worked out here by itself; every length is in one of them, and none is too full.
func TestNoMoreBinsThanFirstFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const size = 97
		lengths := rapid.SliceOfN(rapid.IntRange(1, size), 1, 40).Draw(t, "lengths")
		falling := slices.Clone(lengths)
		slices.Sort(falling)
		slices.Reverse(falling)
		var rooms []int
		for _, n := range falling {
			at := slices.IndexFunc(rooms, func(room int) bool { return room >= n })
			if at < 0 {
				at, rooms = len(rooms), append(rooms, size)
			}
			rooms[at] -= n
		}
		bins := packed(lengths, size, 0)
		if len(bins) > len(rooms) {
			t.Fatalf("%d bins, first fit takes %d", len(bins), len(rooms))
		}
		var all []int
		for _, b := range bins {
			if len(b) == 0 || sumOf(lengths, b) > size {
				t.Fatalf("a bin of %v", b)
			}
			all = append(all, b...)
		}
		slices.Sort(all)
		for i := range lengths {
			if len(all) != len(lengths) || all[i] != i {
				t.Fatalf("%v of %d lengths", all, len(lengths))
			}
		}
	})
}

// Side by side every piece lies once, no crosscut is wider than the roll, and each is as long as
// its longest piece; no longer in all than by the best fit.
func TestEveryPieceLiesOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const rows = 10
		var items []item
		for i := range rapid.IntRange(1, 8).Draw(t, "n") {
			items = append(items, item{i, rapid.IntRange(1, rows).Draw(t, "rows"),
				rapid.IntRange(1, 9).Draw(t, "cells")})
		}
		sorted := slices.Clone(items)
		sortItems(sorted)
		fit := (&shelver{items: sorted, rows: rows}).fit()
		shelves := shelve(items, rows)
		if sumCells(shelves) > sumCells(fit) {
			t.Fatalf("%d pitches, %d by best fit", sumCells(shelves), sumCells(fit))
		}
		seen := map[int]int{}
		for _, s := range shelves {
			wide, long := 0, 0
			for _, it := range s.items {
				seen[it.number]++
				wide, long = wide+it.rows, max(long, it.cells)
			}
			if wide > rows || s.free != rows-wide || s.cells != long {
				t.Fatalf("%+v", s)
			}
		}
		for _, it := range items {
			if seen[it.number] != 1 {
				t.Fatalf("piece %d lies %d times", it.number, seen[it.number])
			}
		}
	})
}

// An instance of a thousand lengths on bins of 40,000 would take too long to fill exactly.
func TestWorkOfFillingIsBounded(t *testing.T) {
	lengths, order := make([]int, 1000), make([]int, 1000)
	for i := range order {
		lengths[i], order[i] = 1, i
	}
	if got := fullest(lengths, order, 40000); got != nil {
		t.Errorf("%d bins", len(got))
	}
	if got := fullest(lengths[:5], order[:5], 5); len(got) != 1 {
		t.Errorf("%v", got)
	}
	// 300 bins that are full at once ask for 45 million steps in all, 100 for 5 million
	for i := range lengths {
		lengths[i] = 1000
	}
	if got := fullest(lengths[:300], order[:300], 1000); got != nil {
		t.Errorf("%d bins", len(got))
	}
	if got := fullest(lengths[:100], order[:100], 1000); len(got) != 100 {
		t.Errorf("%d bins", len(got))
	}
}

// Six rooms are turned in all ways, so that two narrow strips that go into one crosscut are found
// although either alone takes more; seven one after the other.
func TestSixRoomsAreTurnedTogether(t *testing.T) {
	one := func(rows, cells float64) arrangement {
		return arrangement{strips: []strip{{high: rows * 25, pieces: []span{{0, cells * 25}}}}}
	}
	wide := []arrangement{one(40, 60), one(40, 61)}
	halves := []arrangement{one(40, 64), one(20, 120)} // 2 x 64 pitches, or 120 for both
	rooms := [][]arrangement{halves, wide, halves, wide, wide, wide}
	if got := meterRoll.pick(rooms); !slices.Equal(got, []int{1, 0, 1, 0, 0, 0}) {
		t.Errorf("%v", got)
	}
	if got := meterRoll.pick(append(rooms, wide)); slices.Contains(got, 1) {
		t.Errorf("seven: %v", got)
	}
	// up to a square millimetre makes no difference
	for extra, want := range map[float64]int{-0.5: 0, -1: 0, -1.5: 1} {
		other := one(40, 60)
		other.extra = extra
		if got := meterRoll.pick([][]arrangement{{one(40, 60), other}}); got[0] != want {
			t.Errorf("%g mm²: %v", extra, got)
		}
	}
}

// Trimmed is 6 mm, of a strip 8 mm high a quarter, wherever it lies.
func TestTrimOfANarrowStrip(t *testing.T) {
	l, r := arrangement{}, Room{}
	s := strip{low: 100, high: 108, pieces: []span{{300, 312}}}
	if got := l.trimY(r, s, s.pieces[0], 100); got != 2 {
		t.Errorf("across: %g", got)
	}
	if got := l.trimX(r, s, s.pieces[0], 300); got != 3 {
		t.Errorf("along: %g", got)
	}
	r = Room{Tiled: floor(3000, 900), Joints: []Joint{{plane.Segment{A: plane.Pt(1800, 0), B: plane.Pt(1800, 900)}, 6}}}
	if got := l.trimX(r, strip{low: 300, high: 900}, span{0, 1797}, 1797); got != 0 {
		t.Errorf("at a joint: %g", got)
	}
	s.high, s.pieces[0].to = 400, 900
	if y, x := l.trimY(r, s, s.pieces[0], 100), l.trimX(r, s, s.pieces[0], 300); y != Trim || x != Trim {
		t.Errorf("%g and %g", y, x)
	}
}

// A roll without a length or of one without end is none; a plan is better by rolls, then by
// more than a square millimetre.
func TestStockAndPlansAtTheirLeast(t *testing.T) {
	inf := math.Inf(1)
	for _, s := range []Stock{{0, 5000, false}, {1000, 0, false}, {inf, inf, false}, {1000, inf, false},
		{-1, 5000, false}} {
		_, err := Input{Stock: s, Pitch: 30}.stockWays()
		if err == nil || err.Error() != "no roll or sheet size is given" {
			t.Errorf("%+v: %v", s, err)
		}
	}
	if _, err := (Input{Stock: Stock{0.8, 0.9, false}, Pitch: 0.5}).stockWays(); err != nil {
		t.Errorf("membrane under a millimetre: %v", err)
	}
	for _, k := range []struct {
		p, q Plan
		want bool
	}{
		{Plan{Packs: make([]Pack, 1), Taken: 9}, Plan{Packs: make([]Pack, 2)}, true},
		{Plan{Packs: make([]Pack, 2)}, Plan{Packs: make([]Pack, 1), Taken: 9}, false},
		{Plan{Taken: 10}, Plan{Taken: 10.5}, false}, {Plan{Taken: 10}, Plan{Taken: 11.5}, true},
		{Plan{Taken: 10}, Plan{Taken: 9}, false}, {Plan{Taken: 10}, Plan{Taken: 11}, false},
	} {
		if got := k.p.better(&k.q); got != k.want {
			t.Errorf("%+v better than %+v: %v", k.p, k.q, got)
		}
	}
}

// A floor without slivers comes back corner by corner as it is.
func TestFloorsWithoutSlivers(t *testing.T) {
	room := plane.FromRing(plane.Ring{plane.Pt(0, 0), plane.Pt(900, 40), plane.Pt(880, 700), plane.Pt(30, 650)})
	got, err := withoutSlivers(room)
	if err != nil || len(got) != 1 || !slices.Equal(got[0].Outer, room[0].Outer) {
		t.Errorf("%v, %v", got, err)
	}
	room = plane.FromRing(plane.Ring{plane.Pt(0, 0), plane.Pt(900.1234567, 1.0/3), plane.Pt(880, 700),
		plane.Pt(2.0/3, 650)})
	if got, err := withoutSlivers(room); err != nil || !slices.Equal(got[0].Outer, room[0].Outer) {
		t.Errorf("between the points of a grid: %v, %v", got, err)
	}
	// a speck of 0.25 mm² beside it is no bay
	speck := plane.FromRing(plane.Rectangle(plane.Pt(2000, 0), plane.Pt(2000.5, 0.5)))
	if bays, err := (Room{Tiled: append(room, speck...)}).bays(); err != nil || len(bays) != 1 {
		t.Errorf("%d bays, %v", len(bays), err)
	}
}

// A stretch of strip with no floor in it, or with less than 1 mm² of it, is no piece.
func TestShadowsAreNoPieces(t *testing.T) {
	room := Room{Tiled: floor(1000, 1000)}
	l := arrangement{bays: [][]plane.Ring{{box(0, 0, 1000, 1000)}}, floors: []plane.Region{room.Tiled},
		strips: []strip{{low: 0, high: 1000, pieces: []span{{0, 1000}, {5000, 6000}}}}}
	got, err := meterRoll.lay(room, l, 7)
	if err != nil || len(got.Pieces) != 1 || got.Pieces[0].Number != 7 {
		t.Errorf("%+v, %v", got.Pieces, err)
	}
}

// A wedge of 0.5 mm, less than the trim at its two sides, leaves nothing to cut, and no notches in it.
func TestWedgesThatGoWithTheTrim(t *testing.T) {
	room := Room{Tiled: floor(1000, 1000)}
	s, sp := strip{low: 0, high: 1000}, span{0, 1000}
	for _, k := range []struct {
		ring          plane.Ring
		length, width float64
	}{
		{box(0, 500, 1000, 500.5), 988, 0}, {box(500, 0, 500.5, 1000), 0, 988},
	} {
		p := Piece{Shape: plane.FromRing(k.ring)}
		if err := meterRoll.size(room, arrangement{}, s, sp, &p); err != nil || p.Length != k.length ||
			p.Width != k.width ||
			p.Traced || len(p.Notches) != 0 {
			t.Errorf("%v: %+v, %v", k.ring, p, err)
		}
	}
}

// A thing 400 x 400 mm at a wall up to 16 mm out of square keeps its measures beside the wedge: a piece of 1988 x
// 888 mm as trimmed, from 988 to 1400 mm along it, down to 488 mm.
func TestNotchAtAWallOutOfSquare(t *testing.T) {
	tiled := plane.FromRing(plane.Ring{plane.Pt(0, 0), plane.Pt(2000, 0), plane.Pt(2000, 884), plane.Pt(0, 900)})
	p := cut(t, Stock{Width: 900, Length: 10000}, Room{Name: "R", Tiled: less(t, tiled, 1000, 500, 1400, 900)})
	piece := p.Pieces()[0]
	if len(p.Pieces()) != 1 || !piece.Traced || len(piece.Notches) != 1 {
		t.Fatalf("%+v", p.Pieces())
	}
	n := piece.Notches[0] // a stump of the wedge beside it may come off too, no longer than the trim
	if n.From > 988 || n.From < 988-Trim || n.To < 1400 || n.To > 1400+Trim || math.Abs(n.Low-488) > 0.01 {
		t.Errorf("%+v", n)
	}
}

// A seam lies in a doorway by more than a millimetre, or it does not.
func TestSeamsByAMillimetreInADoorway(t *testing.T) {
	for by, want := range map[float64]bool{0.5: false, 1: false, 1.5: true} {
		along := cut(t, roll, Room{Name: "R", Tiled: floor(3000, 2000),
			Doorways: []plane.Ring{box(-500, 900, by, 1100)}})
		if s := along.Rooms[0].Seams[0]; s.Across || s.Doorway != want {
			t.Errorf("along, by %g mm: %+v", by, s)
		}
		across := cut(t, roll, Room{Name: "R", Tiled: floor(15000, 1000),
			Doorways: []plane.Ring{box(9900, -300, 10100, by)}})
		if s := across.Rooms[0].Seams[0]; !s.Across || s.Doorway != want {
			t.Errorf("across, by %g mm: %+v", by, s)
		}
	}
}

// Pieces are numbered through the whole job, room after room.
func TestNumbersThroughTheJob(t *testing.T) {
	in := Input{Stock: Stock{Width: 1000, Length: 12000}, Pitch: 30}
	for _, name := range []string{"A", "B", "C"} {
		in.Rooms = append(in.Rooms, Room{Name: name, Tiled: floor(2400, 1800)})
	}
	p, err := Cut(in)
	if err != nil {
		t.Fatal(err)
	}
	for i, piece := range p.Pieces() {
		if piece.Number != i+1 {
			t.Errorf("piece %d has number %d", i+1, piece.Number)
		}
	}
	if len(p.Pieces()) < 6 {
		t.Errorf("%d pieces", len(p.Pieces()))
	}
}

// Where the best fit is a pitch longer than need be the search finds the shorter way (instances found
// at random, the shortest by trying all), and where it is not it stays.
func TestSideBySideByAPitch(t *testing.T) {
	for _, k := range []struct {
		rows      int
		items     []item
		fit, want int
	}{
		{9, []item{{1, 3, 5}, {2, 2, 4}, {0, 6, 3}, {3, 6, 2}}, 10, 9},
		{7, []item{{0, 1, 5}, {1, 1, 4}, {3, 6, 3}, {2, 6, 2}}, 10, 9},
		{9, []item{{1, 2, 6}, {2, 1, 5}, {0, 8, 3}, {3, 7, 3}}, 12, 11},
		{6, []item{{0, 3, 4}, {4, 1, 4}, {5, 1, 4}, {1, 4, 3}, {3, 3, 2}, {2, 6, 1}}, 10, 9},
	} {
		s := shelver{items: k.items, rows: k.rows}
		if n := sumCells(s.fit()); n != k.fit {
			t.Errorf("%v: %d pitches by best fit, want %d", k.items, n, k.fit)
		}
		if n := sumCells(shelve(k.items, k.rows)); n != k.want || shortest(k.items, k.rows, nil) != k.want {
			t.Errorf("%v: %d pitches, want %d", k.items, n, k.want)
		}
		s.best, s.least, s.steps = s.fit(), k.fit, 3
		if s.search(0, 0, nil); s.least != k.fit {
			t.Errorf("%v: %d pitches after three steps", k.items, s.least)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.IntRange(3, 9).Draw(t, "rows")
		var items []item
		for i := range rapid.IntRange(1, 6).Draw(t, "n") {
			items = append(items, item{i, rapid.IntRange(1, rows).Draw(t, "wide"), rapid.IntRange(1, 5).Draw(t,
				"long")})
		}
		got, want := shelve(items, rows), shortest(items, rows, nil)
		sortItems(items)
		fit := (&shelver{items: items, rows: rows}).fit()
		same := func(a, b shelf) bool { return slices.Equal(a.items, b.items) }
		if n := sumCells(got); n != want || n == sumCells(fit) && !slices.EqualFunc(got, fit, same) {
			t.Fatalf("%v: %v, want %d pitches", items, got, want)
		}
	})
	// of two crosscuts with as much room the first is taken
	s := shelver{rows: 40, items: []item{{1, 30, 100}, {2, 30, 90}, {3, 10, 80}}}
	if out := s.fit(); len(out) != 2 || len(out[0].items) != 2 {
		t.Errorf("%+v", out)
	}
}

// Bins as few as the bound are left as they are, though one of them could be filled.
func TestRefillingEndsAtTheBound(t *testing.T) {
	bins := [][]int{{0, 2}, {1, 3}}
	if got := refill([]int{5, 4, 3, 2}, bins, 10, 2); !slices.EqualFunc(got, bins, slices.Equal) {
		t.Errorf("%v", got)
	}
	if got := refill([]int{5, 4, 3, 2}, bins, 10, 1); len(got) != 2 || !slices.Equal(got[0], []int{3, 2, 0}) {
		t.Errorf("%v", got)
	}
}

// A roll that is cut up has nothing left.
func TestNothingLeftOfAWholeRoll(t *testing.T) {
	p := &Plan{Stock: roll, Pitch: 25, Rooms: []Laid{{Pieces: []Piece{{Number: 1, Rows: 40, Cells: 400}}}}}
	if p.pack(meterRoll); len(p.Packs) != 1 || p.Packs[0].Left != 0 {
		t.Errorf("%+v", p.Packs)
	}
}

// Of divisions that cost the same the first strip is the widest, and a square room keeps the
// direction of its channels.
func TestDivisionsThatCostTheSame(t *testing.T) {
	strips, _, err := meterRoll.divide([]plane.Ring{box(0, 0, 3000, 1500)}, nil)
	if err != nil || len(strips) != 2 || strips[0].high != 1000 {
		t.Errorf("%+v, %v", strips, err)
	}
	both, err := meterRoll.room(Room{Tiled: floor(2000, 2000)})
	if err != nil || both[0].frame.angle != 0 {
		t.Errorf("%+v, %v", both[0].frame, err)
	}
}

// What is refused as too fine: 20,000 channels, more than 20 million ways for a strip to lie in
// them, and more than two thousand million sides of floor to look at for those.
func TestTooFineByHand(t *testing.T) {
	round := func(n int, high float64) (out plane.Ring) { // n corners about a box
		for i := range n - 3 {
			out = append(out, plane.Pt(float64(i), 0))
		}
		return append(out, plane.Pt(300, 0), plane.Pt(300, high), plane.Pt(0, high))
	}
	for _, k := range []struct {
		name    string
		corners int
		high    float64
		pitch   float64
		rows    int
		refused bool
	}{
		{"20,000 channels", 4, 20000, 1, 1, true}, {"one less", 4, 19999, 1, 1, false},
		{"3000 by 7000 ways", 4, 1500, 0.5, 7000, true}, {"3000 by 6600", 4, 1500, 0.5, 6600, false},
		{"10 million ways by 201 sides", 201, 500, 0.5, 10000, true}, {"by 199", 199, 500, 0.5, 10000, false},
	} {
		_, err := (cutter{pitch: k.pitch, rows: k.rows, cells: 100}).lines([]plane.Ring{round(k.corners, k.high)})
		if (err != nil) != k.refused {
			t.Errorf("%s: %v", k.name, err)
		}
	}
	if got, err := meterRoll.lines([]plane.Ring{box(0, 110, 500, 160)}); err != nil ||
		!slices.Equal(got, []float64{110, 125, 150, 160}) {
		t.Errorf("%v, %v", got, err)
	}
}
