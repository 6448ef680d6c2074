package tiling

import (
	"math"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"

	"pgregory.net/rapid"
)

// square is the side of the squares that a floor is counted out in, mm: every edge of
// floor, tile and joint lies on their lines.
const square = 10

// squaredFloor is an L with a hole in it, in whole squares, as a region and as a test of
// a square by its lower left corner.
func squaredFloor(t *rapid.T) (plane.Region, func(x, y int) bool) {
	whole := func(name string, low, high int) int { return rapid.IntRange(low, high).Draw(t, name) }
	w, h := whole("width", 150, 320), whole("height", 150, 320)
	cutW, cutH := whole("notch", 20, w/2), whole("notch's depth", 20, h/2)
	holeX, holeY := whole("hole", 10, w/4), whole("hole up", 10, h/4)
	holeW, holeH := whole("hole's width", 5, w/5), whole("hole's depth", 5, h/5)
	at := func(x, y int) plane.Point { return plane.Pt(float64(x*square), float64(y*square)) }
	floor := plane.FromRing(plane.Ring{at(0, 0), at(w, 0), at(w, h-cutH), at(w-cutW, h-cutH), at(w-cutW, h), at(0, h)})
	hole := plane.FromRing(plane.Ring{at(holeX, holeY), at(holeX+holeW, holeY), at(holeX+holeW, holeY+holeH),
		at(holeX, holeY+holeH)})
	floor, err := floor.Less(hole)
	if err != nil {
		t.Fatal(err)
	}
	return floor, func(x, y int) bool {
		inL := x >= 0 && y >= 0 && x < w && y < h && !(x >= w-cutW && y >= h-cutH)
		return inL && !(x >= holeX && x < holeX+holeW && y >= holeY && y < holeY+holeH)
	}
}

// countSquares counts tiles of so many squares, each a joint from the next, their rows
// from a corner on and every second one moved, by the squares of floor under each.
func countSquares(on func(x, y int) bool, x0, y0, length, width, joint, shift int) (whole, cut int) {
	for row := -40; row < 60; row++ {
		for col := -40; col < 60; col++ {
			x, y := x0+col*(length+joint), y0+row*(width+joint)
			if row%2 != 0 {
				x += shift
			}
			under := 0
			for i := range length {
				for k := range width {
					if on(x+i, y+k) {
						under++
					}
				}
			}
			switch {
			case under == length*width:
				whole++
			case under > 0:
				cut++
			}
		}
	}
	return whole, cut
}

// TestCutTilesBySquares: whole and cut tiles are those found by counting out the floor in
// squares of a centimetre, round notch and hole too.
func TestCutTilesBySquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, on := squaredFloor(t)
		length, width := rapid.IntRange(20, 60).Draw(t, "length"), rapid.IntRange(10, 30).Draw(t, "tile's width")
		joint := rapid.IntRange(0, 1).Draw(t, "joint")
		x0, y0 := rapid.IntRange(0, 60).Draw(t, "from"), rapid.IntRange(0, 60).Draw(t, "up")
		shift := rapid.SampledFrom([]int{0, (length + joint) / 2}).Draw(t, "moved")
		g := Grid{Origin: plane.Pt(float64(x0*square), float64(y0*square)), Length: float64(length * square),
			Width: float64(width * square), Joint: float64(joint * square),
			Shift: float64(shift) / float64(length+joint)}
		got, err := g.Count(floor)
		if err != nil {
			t.Fatal(err)
		}
		whole, cut := countSquares(on, x0, y0, length, width, joint, shift)
		if got.Whole != whole || got.Cut != cut {
			t.Fatalf("%d whole and %d cut, by squares %d and %d", got.Whole, got.Cut, whole, cut)
		}
		if got.Pairs > cut/2 || got.Tiles() != whole+cut-got.Pairs {
			t.Fatalf("%d pairs of %d cut pieces, %d tiles", got.Pairs, cut, got.Tiles())
		}
	})
}

// TestPiecesOfCutTilesBySquares: what a numbered tile covers inside the walls is as large
// as its squares of floor are, cut tiles too.
func TestPiecesOfCutTilesBySquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, on := squaredFloor(t)
		walls := floor.Rings()[0]
		length, width := rapid.IntRange(20, 60).Draw(t, "length"), rapid.IntRange(10, 20).Draw(t, "tile's width")
		x0, y0 := rapid.IntRange(0, 60).Draw(t, "from"), rapid.IntRange(0, 60).Draw(t, "up")
		first := plane.Segment{A: plane.Pt(float64(x0*square), float64(y0*square)),
			B: plane.Pt(float64((x0+50)*square), float64(y0*square))}
		tile := job.Tile{Length: float64(length * square), Width: float64(width * square), Pattern: Straight}
		tiling, ok := Number(plane.FromRing(walls), tile, first)
		if !ok {
			t.Fatal("not numbered")
		}
		sum := 0.0
		for row := range tiling.Rows {
			for col := range tiling.Rows[row].Count {
				if piece := tiling.Piece(Place{row + 1, col + 1}, walls); piece != nil {
					sum += piece.Area()
				}
			}
		}
		squares := 0
		for x := range 400 {
			for y := range 400 {
				if on(x, y) {
					squares++
				}
			}
		}
		hole := floor.Rings()[1].Area()
		if want := float64(squares*square*square) + hole; math.Abs(sum-want) > 1 {
			t.Fatalf("the pieces make %.0f mm², the floor and its hole %.0f", sum, want)
		}
	})
}
