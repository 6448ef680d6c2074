package route

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// mostCovered is the largest share of a floor that a path covers to half a spacing and half
// a peg, whatever its course: a band along its length, a half disc at either end, and at
// each right-angle turn the band meets itself. For bands that nowhere overlap else.
func mostCovered(rt Route, area, pitch, length float64) float64 {
	r := (rt.Spacing + pitch) / 2
	most := 2*r*length + math.Pi*r*r - (1-math.Pi/4)*r*r*float64(rt.Score.Turns)
	return math.Min(1, most/area)
}

// leastTurns is how often a path must turn at least: each straight leg covers a strip no
// longer than the floor's longest chord along either axis, a spacing and a peg wide with
// its round ends, and turns are one fewer than the strips (the strip bound of coverage
// paths along two axes).
func leastTurns(rt Route, zone plane.Region, pitch float64) int {
	chord := 0
	for _, t := range []turns{0, 1} {
		for _, row := range newGrid(zone, rt.Lattice, t).rows {
			for _, s := range row {
				chord = max(chord, s.width())
			}
		}
	}
	width := rt.Spacing + pitch
	strip := width*(float64(chord)*pitch+2*pitch) + math.Pi*width*width/4
	return int(math.Ceil(rt.Score.Covered*zone.Area()/strip)) - 1
}

// TestRoutesAreWithinBounds: no route covers more or turns less than can be had at all; if
// one did, its figures or the bound would be wrong.
func TestRoutesAreWithinBounds(t *testing.T) {
	for i, room := range plainRooms {
		p := plainRoom(t, i)
		routes, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		rt, area := routes[0], p.Zones[0].Area()
		most, least := mostCovered(rt, area, p.Pitch, p.Cables[0].Length), leastTurns(rt, p.Zones[0], p.Pitch)
		t.Logf("%s: covered %.4f of at most %.4f; %d turns of at least %d", room.name, rt.Score.Covered, most,
			rt.Score.Turns, least)
		if rt.Score.Covered > most || rt.Score.Turns < least {
			t.Errorf("%s: beyond its bounds", room.name)
		}
		if most < 0.5 || least < 10 {
			t.Errorf("%s: bounds that say nothing: %.2f, %d", room.name, most, least)
		}
	}
}
