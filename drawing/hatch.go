package drawing

import "math"

// A Pattern is a way of hatching. Patterns differ by their lines, never by
// colour.
type Pattern int

// The patterns of plans, and those of sections after the conventions of
// ISO 128-50.
const (
	HatchFixture    Pattern = iota // single, 3 mm apart: a fixture stands there
	HatchUndecided                 // single, dashed: reserved, not decided
	HatchFixing                    // cross, 1.5 mm apart: no-cut zone of a fixing
	HatchRise                      // vertical, 1.5 mm apart: leads rise in the wall
	HatchUnheated                  // dots, 3 mm apart: floor without heat
	HatchJoint                     // single the other way, 3 mm apart: kept free along a joint
	HatchTile                      // section: pairs of diagonals
	HatchMortar                    // section: fine stipple
	HatchConcrete                  // section: coarse stipple and stones
	HatchWood                      // section: grain
	HatchInsulation                // section: zigzag
	HatchBoard                     // section: short level dashes
)

// String returns what the pattern stands for, as a legend says it.
func (p Pattern) String() string {
	names := [...]string{
		"fixture", "undecided", "fixing", "lead rise", "unheated", "joint",
		"tile", "mortar", "concrete", "wood", "insulation", "board",
	}
	if p < 0 || int(p) >= len(names) {
		return "unknown"
	}
	return names[p]
}

// Hatch fills the area inside rings, by the even-odd rule, with p. All hatches
// start from the sheet's corner, so that neighbours run on into each other.
// Rings need not be closed by a repeated point. Nothing lies outside them.
func Hatch(rings [][]Pt, p Pattern) []Item {
	var all []Pt
	for _, r := range rings {
		all = append(all, r...)
	}
	for _, pt := range all {
		if !sound(pt.X, pt.Y) {
			// handed on, for Sheet.Check to name
			return []Item{&Path{Layer: LayerHatch, Title: p.String(), Segs: Polyline(all...)}}
		}
	}
	box := BoxOf(all...)
	var items []Item
	segs := hatchLines(rings, p, box)
	if len(segs) == 0 {
		segs = hatchMiddle(rings, p, box.Centre())
	}
	if len(segs) > 0 {
		items = append(items, &Path{Layer: LayerHatch, Segs: segs, Stroke: p.stroke()})
	}
	if segs := hatchDots(rings, p, box); len(segs) > 0 {
		items = append(items, &Path{Layer: LayerHatch, Segs: segs, Stroke: p.dotStroke()})
	}
	return items
}

// dotStroke is the line that dots are drawn with: those of an even row are its dashes.
func (p Pattern) dotStroke() *Stroke {
	s := &Stroke{Width: 2 * dotRadius}
	if step := p.step(); step > 0 {
		s.Dash = []float64{dotLength, step - dotLength}
	}
	return s
}

// step is from dot to dot along the rows of p, mm; 0 where they do not lie evenly.
func (p Pattern) step() float64 {
	if p == HatchUnheated {
		return unheatedStep
	}
	return 0
}

// stroke returns the line that p is drawn with.
func (p Pattern) stroke() *Stroke {
	if p == HatchUndecided {
		return &Stroke{Width: W018, Dash: []float64{2.5, 1.25}, Butt: true}
	}
	return &Stroke{Width: W018, Butt: true}
}

// hatchMiddle is the hatch of an area so narrow that it lies between two lines: with one through its middle, so that
// it is seen what the area is.
func hatchMiddle(rings [][]Pt, p Pattern, middle Pt) []Seg {
	var moved [][]Pt
	var all []Pt
	for _, r := range rings {
		var ring []Pt
		for _, pt := range r {
			ring = append(ring, pt.Sub(middle))
		}
		moved, all = append(moved, ring), append(all, ring...)
	}
	segs := hatchLines(moved, p, BoxOf(all...))
	for i := range segs {
		segs[i].To = segs[i].To.Add(middle)
	}
	return segs
}

func hatchLines(rings [][]Pt, p Pattern, box Box) []Seg {
	var segs []Seg
	for _, line := range p.lines(box) {
		for _, piece := range clipLine(rings, line) {
			segs = append(segs, Polyline(piece...)...)
		}
	}
	return segs
}

// Dots of a hatch, mm: their radius, how long the lines are whose round ends make
// them, and how far apart they lie on unheated floor.
const (
	dotRadius    = 0.2
	dotLength    = 0.005
	unheatedStep = 3.0
)

// hatchDots returns the dots of p that lie wholly inside, each as a line too
// short to see, whose round ends make the dot; even ones next to each other are one line.
func hatchDots(rings [][]Pt, p Pattern, box Box) []Seg {
	var segs []Seg
	last := Pt{X: math.Inf(-1)}
	for _, c := range p.dots(box) {
		if !within(rings, c, dotRadius+dotLength) {
			continue
		}
		if end := c.Add(Pt{X: dotLength}); c.Y == last.Y && math.Abs(c.X-last.X-p.step()) < dotLength {
			segs[len(segs)-1].To = end
		} else {
			segs = append(segs, Polyline(c, end)...)
		}
		last = c
	}
	return segs
}

// slant degrees is the slope of a hatch of lines.
const slant = 45

// How far lines, rows and dots of hatches stand apart, mm.
const (
	openStep     = 3.0
	closeStep    = 1.5
	tileStep     = 2.5 // of pairs of lines
	tilePair     = 0.7 // from one of a pair to the other
	grainStep    = 1.2
	mortarStep   = 1.4
	concreteStep = 2.4
)

// lines returns the lines of p that cover box, unclipped.
func (p Pattern) lines(box Box) [][]Pt {
	switch p {
	case HatchFixture, HatchUndecided:
		return parallels(box, slant, openStep, 0)
	case HatchJoint:
		return parallels(box, -slant, openStep, 0)
	case HatchFixing:
		return append(parallels(box, slant, closeStep, 0), parallels(box, -slant, closeStep, 0)...)
	case HatchRise:
		return parallels(box, 90, closeStep, 0)
	case HatchTile:
		return append(parallels(box, slant, tileStep, 0), parallels(box, slant, tileStep, tilePair)...)
	case HatchWood:
		return rows(box, grainStep, grain)
	case HatchInsulation:
		return rows(box, 3, zigzag)
	case HatchBoard:
		return dashes(box)
	case HatchConcrete:
		return stones(box)
	}
	return nil
}

// rowScatter of a step is how far dots stray, so that they look like mortar.
const rowScatter = 0.8

// dots returns the dots of p that cover box.
func (p Pattern) dots(box Box) []Pt {
	switch p {
	case HatchUnheated:
		return staggered(box, unheatedStep, 0)
	case HatchMortar:
		return staggered(box, mortarStep, rowScatter)
	case HatchConcrete:
		return staggered(box, concreteStep, rowScatter)
	}
	return nil
}
