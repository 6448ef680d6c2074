package photo

import (
	"fmt"
	"image"
	"math"
)

// Trouble is why pairs settle no map.
type Trouble int

// The kinds of trouble; what Points are in each.
const (
	TooFew    Trouble = iota
	Outside           // one that is not in the picture
	SamePlace         // two at one place, in the picture or on the floor
	OnALine           // three on a line, of which any four have some
	Exchanged         // two whose places are exchanged
	Mirrored          // none: the floor would be seen in a mirror
	Astray            // one, far off where all others have it
	Scattered         // none: they do not go together
)

// A Fault is trouble with pairs.
type Fault struct {
	Trouble Trouble
	Points  []int   // from 0
	By      float64 // mm on the floor: how far the points are off
}

func (f *Fault) Error() string { return fmt.Sprintf("trouble %d with points %v", f.Trouble, f.Points) }

// MostOff is how far known points may be off where the map has them, root mean square, mm of
// floor: 2 in. What is worse is a slip, not a measurement.
const MostOff = 50.8

// FitTo fits the map to pairs in a picture of a size. The error is a *Fault.
func FitTo(size image.Point, pairs []Pair) (*Fit, error) {
	if len(pairs) < FewestPairs {
		return nil, &Fault{Trouble: TooFew}
	}
	if fault := placed(size, pairs); fault != nil {
		return nil, fault
	}
	f := fitted(size, pairs)
	if f.sound() {
		if i, off, ok := masked(size, pairs); ok {
			return nil, &Fault{Astray, []int{i}, off}
		}
		return f, nil
	}
	by := math.Inf(1)
	if f != nil && !f.behind() {
		by = f.RMS()
	}
	if a, b, ok := exchanged(size, pairs); ok {
		return nil, &Fault{Exchanged, []int{a, b}, by}
	}
	if i, off, ok := astray(size, pairs); ok {
		return nil, &Fault{Astray, []int{i}, off}
	}
	if f != nil && !f.behind() && f.mirrored() && f.RMS() <= MostOff {
		return nil, &Fault{Trouble: Mirrored}
	}
	return nil, &Fault{Trouble: Scattered, By: by}
}

// sound reports whether a fit can be of a photo.
func (f *Fit) sound() bool {
	return f != nil && !f.behind() && !f.mirrored() && f.RMS() <= MostOff
}

// placed looks at where the pairs are.
func placed(size image.Point, pairs []Pair) *Fault {
	in := Fit{size: size}
	for i, p := range pairs {
		if !in.Holds(p.Image) {
			return &Fault{Trouble: Outside, Points: []int{i}}
		}
		for k, q := range pairs[:i] {
			if p.Image.Dist(q.Image) < 1 || p.Floor.Dist(q.Floor) < 1 {
				return &Fault{Trouble: SamePlace, Points: []int{k, i}}
			}
		}
	}
	var lined []int
	for a := range pairs {
		for b := a + 1; b < len(pairs); b++ {
			for c := b + 1; c < len(pairs); c++ {
				if thin(pairs, a, b, c) {
					lined = firstOf(lined, a, b, c)
					continue
				}
				for d := c + 1; d < len(pairs); d++ {
					if !thin(pairs, a, b, d) && !thin(pairs, a, c, d) && !thin(pairs, b, c, d) {
						return nil // four that settle a map
					}
				}
			}
		}
	}
	return &Fault{Trouble: OnALine, Points: lined}
}

func firstOf(found []int, abc ...int) []int {
	if found == nil {
		return abc
	}
	return found
}

func thin(pairs []Pair, a, b, c int) bool {
	return onLine(pairs[a].Image, pairs[b].Image, pairs[c].Image) ||
		onLine(pairs[a].Floor, pairs[b].Floor, pairs[c].Floor)
}

// exchanged finds the two points that make the best sound map once their places on the floor
// are exchanged.
func exchanged(size image.Point, pairs []Pair) (a, b int, ok bool) {
	least := math.Inf(1)
	for i := range pairs {
		for k := range i {
			other := append([]Pair(nil), pairs...)
			other[i].Floor, other[k].Floor = other[k].Floor, other[i].Floor
			if placed(size, other) != nil {
				continue
			}
			if f := fitted(size, other); f.sound() && f.RMS() < least {
				least, a, b, ok = f.RMS(), k, i, true
			}
		}
	}
	return a, b, ok
}

// leftOver is how many pairs are asked for before one is left out: the others must be able
// to say by themselves that they are sound.
const leftOver = FewestPairs + 2

// A point is taken for a slip that a sound fit hides where so many pairs or more are known, it is off by so much,
// mm, and no more than this share of honest readings would be by what the others state. What they state is of first
// order, and a lens carried on to a corner of the floor strays farther: hence the least distance.
const (
	maskedPairs = FewestPairs + 3
	maskedOff   = 5 * MostOff
	mostChance  = 1e-4
)

// masked finds a point that all others agree without, though the map bends to it so far that no residual
// is large: it is off by more than any measurement, and by so much as no honest reading is by what the others
// state. Of several it is that without which they agree best.
func masked(size image.Point, pairs []Pair) (point int, off float64, ok bool) {
	if len(pairs) < maskedPairs {
		return 0, 0, false
	}
	least := math.Inf(1)
	for i, p := range pairs {
		f := without(size, pairs, i)
		if !f.sound() || f.RMS() >= least {
			continue
		}
		at, seen := f.Floor(p.Image)
		if d := at.Dist(p.Floor); seen && d > maskedOff && f.chance(p.Image, d) < mostChance {
			least, point, off, ok = f.RMS(), i, d, true
		}
	}
	return point, off, ok
}

// without fits all pairs but one; nil where they settle no map.
func without(size image.Point, pairs []Pair, i int) *Fit {
	others := append(append([]Pair(nil), pairs[:i]...), pairs[i+1:]...)
	if placed(size, others) != nil {
		return nil
	}
	return fitted(size, others)
}

// astray finds the point without which all others make the best sound map, and how far it is
// off where they have it.
func astray(size image.Point, pairs []Pair) (point int, off float64, ok bool) {
	if len(pairs) < leftOver {
		return 0, 0, false
	}
	least := math.Inf(1)
	for i, p := range pairs {
		if f := without(size, pairs, i); f.sound() && f.RMS() < least {
			least, point, ok, off = f.RMS(), i, true, math.Inf(1)
			if at, seen := f.Floor(p.Image); seen {
				off = at.Dist(p.Floor)
			}
		}
	}
	return point, off, ok
}
