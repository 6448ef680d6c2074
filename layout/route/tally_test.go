package route

import (
	"math/rand/v2"
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// What a tally knows after a leg was changed for another is what it knows of that other
// alone: of legs in one column or row that share much, little or nothing, and of any two.
func TestALegChangedIsTheOtherCounted(t *testing.T) {
	f := newField(plane.FromRing(outline(1, 1000, 1000)), Lattice{Pitch: 30}, 60, 100)
	rnd := rand.New(rand.NewPCG(5, 8))
	at := func(n int) float64 { return float64(rnd.IntN(n)) + 0.5 }
	upright := func(x float64) leg {
		a, b := at(f.ny), at(f.ny)
		return leg{x, min(a, b), x, max(a, b)}
	}
	level := func(y float64) leg { return legBetween(at(f.nx), y, at(f.nx), y) }
	for i := range 400 {
		x, y := at(f.nx), at(f.ny)
		var l, m leg
		switch i % 5 {
		case 0:
			l, m = upright(x), upright(x)
		case 1: // drawn out at its end by some cells
			l = leg{x, 10, x, 10 + at(60)}
			m = leg{x, 10, x, l.y1 + float64(rnd.IntN(9)-4)}
		case 2:
			l, m = level(y), level(y)
		case 3:
			l, m = level(y), upright(x)
		default:
			l, m = upright(x), upright(at(f.nx))
		}
		changed, counted := newTally(f), newTally(f)
		changed.add(l, 1)
		changed.change(l, m)
		counted.add(m, 1)
		compare(t, l, m, changed, counted)
		changed.swap([]leg{m}, nil)
		if changed.bare != f.cells || slices.ContainsFunc(changed.hits, func(n uint8) bool { return n != 0 }) {
			t.Fatalf("%v counted out leaves %d of %d cells cold", m, changed.bare, f.cells)
		}
	}
}

func compare(t *testing.T, l, m leg, got, want *tally) {
	t.Helper()
	if !slices.Equal(got.hits, want.hits) || !slices.Equal(got.cold, want.cold) || got.bare != want.bare {
		t.Fatalf("%v for %v: %d cells cold, want %d", m, l, got.bare, want.bare)
	}
	for k := range got.dens {
		if d := got.dens[k] - want.dens[k]; d > 1e-6 || d < -1e-6 {
			t.Fatalf("%v for %v: %g of cable about sample %d, want %g", m, l, got.dens[k], k, want.dens[k])
		}
	}
	if !near1(got.sum/1e3, want.sum/1e3) || !near1(got.squares/1e6, want.squares/1e6) {
		t.Fatalf("%v for %v: sums %g and %g, want %g and %g", m, l, got.sum, got.squares, want.sum, want.squares)
	}
}
