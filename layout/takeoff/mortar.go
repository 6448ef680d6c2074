package takeoff

import (
	"fmt"
	"math"

	"oxturn/layout/job"
)

// mortars adds the three mortars, never as one: the bond coat under the
// membrane, the fill between its pegs, and the bed under the tile.
func (b *builder) mortars() {
	m := b.in.Materials
	b.coat(Line{Code: "bond-mortar", Item: "Bond mortar under the membrane", PackName: "bag"}, m.BondMortar, depth{})
	b.coat(Line{Code: "fill-mortar", Item: "Peg-fill mortar", PackName: "bag"}, m.FillMortar, b.fillDepth())
	b.coat(Line{Code: "bed-mortar", Item: "Tile-bed mortar", PackName: "bag"}, m.BedMortar, b.bedDepth())
}

// A depth is the mean depth in mm of a mortar, with where it comes from.
type depth struct {
	mm   float64
	from string
}

// sameBed is the difference of two beds under a tile that no trowel holds, mm.
const sameBed = 0.5

// Bed is the mean depth in mm of the bed under the tile: by the trowel held at
// 45 degrees where the job gives its notch.
func Bed(m job.Materials) float64 {
	if m.BedNotch > 0 {
		return MeanBed(m.BedNotch, math.Pi/4)
	}
	return m.BedThickness
}

// bedDepth is that of the bed under the tile. A section that shows another bed
// is asked about: one of the two is wrong.
func (b *builder) bedDepth() depth {
	m := b.in.Materials
	d := depth{Bed(m), m.BedSource.String()}
	if m.BedNotch > 0 {
		d.from = fmt.Sprintf("half the ridge of a %s notch held at 45 degrees, %s", b.both(m.BedNotch, "mm"), m.BedSource)
	}
	if shown := b.in.Bed; shown > 0 && math.Abs(shown-d.mm) > sameBed {
		b.ask("Tile-bed mortar: %s here, %s in the section of the build-up: which holds?", b.both(d.mm, "mm"), b.both(shown, "mm"))
	}
	return d
}

// fillDepth is that of the fill between the pegs: the membrane's height times
// the share of it that is void. The cable's own room is not taken off.
func (b *builder) fillDepth() depth {
	m := b.in.Membrane
	return depth{m.Height * m.VoidShare, fmt.Sprintf("of pegs %s high, %s, %g %% of it void, %s", b.both(m.Height, "mm"), m.HeightSource, 100*m.VoidShare, m.VoidShareSource)}
}

// coat adds one mortar on the tiled area. The depth in mm and the litres that
// a pack yields give its volume, 1 mm on 1 m² being 1 L; without either, the
// area that a pack covers is used. A coverage that is not a default wins over
// both: whoever wrote it knows their trowel.
func (b *builder) coat(l Line, p job.Product, d depth) {
	area := b.in.tiled() / 1e6
	l.Basis = b.tiledBasis()
	l.Waste = p.Waste
	l.call(p)
	switch {
	case byVolume(p, d.mm):
		l.Net, l.Unit, l.Pack = area*d.mm, "L", p.Yield
		l.note("%s mean depth, %s; %s", b.both(d.mm, "mm"), d.from, b.yields(p))
	case usable(p.Coverage) && p.Coverage > 0:
		b.cover(&l, p, area)
	default:
		l.Net, l.Unit, l.PackName = area, "m²", ""
		l.note("neither coverage nor depth and yield are given")
		b.ask("%s: coverage of a bag, or depth and yield, to count bags.", l.Item)
	}
	b.add(l, p.Price)
}

// byVolume reports whether a coat is measured by depth and yield.
func byVolume(p job.Product, depth float64) bool {
	if p.Coverage > 0 && p.Source != job.FromDefault {
		return false
	}
	return usable(p.Yield) && p.Yield > 0 && usable(depth) && depth > 0
}

// call notes what to ask for, when the job file names it.
func (l *Line) call(p job.Product) {
	if p.Name != "" {
		l.note("%s", p.Name)
	}
}

// cover measures a line by the area that one pack covers.
func (b *builder) cover(l *Line, p job.Product, area float64) {
	packs := area / p.Coverage
	l.Net, l.Unit, l.Pack = area, "m²", p.Coverage
	if p.Pack > 0 && p.Unit != "" && p.Unit != "m²" {
		l.Net, l.Unit, l.Pack = packs*p.Pack, p.Unit, p.Pack
	}
	l.note("%s a %s, %s", b.both(p.Coverage, "m²"), l.PackName, p.Source)
}
