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
	for _, k := range []struct {
		p, q Plan
		want bool
	}{
		{Plan{Packs: make([]Pack, 1), Taken: 9}, Plan{Packs: make([]Pack, 2)}, true},
		{Plan{Packs: make([]Pack, 2)}, Plan{Packs: make([]Pack, 1), Taken: 9}, false},
		{Plan{Taken: 10}, Plan{Taken: 10.5}, false}, {Plan{Taken: 10}, Plan{Taken: 11.5}, true},
		{Plan{Taken: 10}, Plan{Taken: 9}, false},
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
