package takeoff

import (
	"math"
	"testing"

	"pgregory.net/rapid"
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
	if wall-start < least {
		return tile
	}
	return wall - start
}

// A tile or a joint lies on the centre line, whichever leaves the wider piece
// at the wall (common practice).
func TestSetOutTakesTheWiderPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tile, joint := float64(rapid.IntRange(50, 600).Draw(t, "tile")), float64(rapid.IntRange(0, 10).Draw(t, "joint"))
		extent := float64(rapid.IntRange(700, 6000).Draw(t, "extent")) + 0.37
		got := setOut(extent, tile, joint)
		onTile, onJoint := endPiece(-tile/2, extent, tile, joint), endPiece(joint/2, extent, tile, joint)
		if got != -tile/2 && got != joint/2 {
			t.Fatalf("begins at %v", got)
		}
		if math.Abs(onTile-onJoint) > 1e-6 && (got == -tile/2) != (onTile > onJoint) {
			t.Fatalf("begins at %v: a tile on the line leaves %v, a joint %v", got, onTile, onJoint)
		}
	})
	if got := setOut(1200, 300, 0); got != 0 { // both leave half or whole: four whole tiles
		t.Errorf("four tiles of 300 in 1200 begin at %v", got)
	}
	if got := setOut(900, 300, 0); got != -150 {
		t.Errorf("three tiles of 300 in 900 begin at %v", got)
	}
}
