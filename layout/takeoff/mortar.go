package takeoff

import (
	"math"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// mortars adds the three mortars, never as one: the bond coat under the
// membrane, the fill between its pegs, and the bed under the tile.
func (b *builder) mortars() {
	m := b.in.Materials
	if len(b.in.Strips) > 0 {
		b.ask("What the cable is bedded in is not in this list: its depth by the section of the build-up, or by " +
			"others?")
		b.coat(Line{Code: "bed-mortar", Item: language.Say("Tile-bed mortar"), PackName: "bag"}, m.BedMortar,
			b.bedDepth())
		return
	}
	b.coat(Line{Code: "bond-mortar", Item: language.Say("Bond mortar under the membrane"), PackName: "bag"},
		m.BondMortar, depth{})
	b.coat(Line{Code: "fill-mortar", Item: language.Say("Peg-fill mortar"), PackName: "bag"}, m.FillMortar,
		b.fillDepth())
	b.coat(Line{Code: "bed-mortar", Item: language.Say("Tile-bed mortar"), PackName: "bag"}, m.BedMortar, b.bedDepth())
}

// A depth is the mean depth in mm of a mortar, with where it comes from.
type depth struct {
	mm      float64
	from    language.Message
	trowels bool // left by a trowel: tables in print say how far a bag goes
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
	d := depth{Bed(m), language.Say(m.BedSource.String()), true}
	if m.BedNotch > 0 {
		d.from = language.Say("half the ridge of a %s notch held at 45 degrees, %s", b.both(m.BedNotch, "mm"),
			m.BedSource)
	}
	if shown := b.in.Bed; shown > 0 && math.Abs(shown-d.mm) > sameBed {
		b.ask("Tile-bed mortar: %s here, %s in the section of the build-up: which holds?", b.both(d.mm, "mm"),
			b.both(shown, "mm"))
	}
	return d
}

// fillDepth is that of the fill between the pegs: the membrane's height times
// the share of it that is void. The cable's own room is not taken off.
func (b *builder) fillDepth() depth {
	m := b.in.Membrane
	return depth{mm: m.Height * m.VoidShare, from: language.Say("of pegs %s high, %s, %s void, %s",
		b.both(m.Height, "mm"), m.HeightSource, percent(m.VoidShare), m.VoidShareSource)}
}

// coat adds one mortar on the tiled area. The depth in mm and the litres that
// a pack yields give its volume, 1 mm on 1 m² being 1 L; without either, the
// area that a pack covers is used. A coverage that is not a default wins over
// both: whoever wrote it knows their trowel.
func (b *builder) coat(l Line, p job.Product, d depth) {
	area := b.in.tiled() / plane.SquareMetre
	l.Basis = b.tiledBasis()
	l.Waste = p.Waste
	l.call(p)
	switch {
	case byVolume(p, d.mm):
		l.Net, l.Unit, l.Pack = area*d.mm, "L", p.Yield
		l.note("%s mean depth, %s; %s", b.both(d.mm, "mm"), d.from, b.yields(p))
		b.besidePrint(&l, p, d)
	case usable(p.Coverage) && p.Coverage > 0:
		b.cover(&l, p, area)
	default:
		l.Net, l.Unit, l.PackName = area, "m²", ""
		l.note("neither coverage nor depth and yield are given")
		b.ask("%s: coverage of a bag, or depth and yield, to count bags.", l.Item)
	}
	b.add(l, p.Price)
}

// A trowelCoverage is how far a 50 lb bag goes under a square notch by tables
// in print.
type trowelCoverage struct {
	notch       float64 // depth, mm
	least, most float64 // ft²
}

// trowelled: engineerfix.com/how-much-thinset-do-i-need-per-square-foot, which
// calls these best cases. They go further than a bag's wet volume does on half
// the ridge; the bed is still counted by volume, since under a heated floor no
// void may be left, and the difference is said.
var trowelled = []trowelCoverage{{plane.Inch / 4, 80, 100}, {plane.Inch * 3 / 8, 60, 80}, {plane.Inch / 2, 40, 50}}

// likeBed is how far a bed may lie beyond the tables' outermost ones, as a
// share, and still be taken for theirs.
const likeBed = 0.02

// bagPounds lb is the bag that coverage is usually told of.
const bagPounds = 50

// inPrint returns how far a bag of some kg goes by tables in print, in m², for
// a mean bed in mm; ok is false for beds that their trowels do not leave.
func inPrint(bed, kilos float64) (least, most float64, ok bool) {
	for i := 1; i < len(trowelled); i++ {
		a, b := trowelled[i-1], trowelled[i]
		low, high := MeanBed(a.notch, math.Pi/4), MeanBed(b.notch, math.Pi/4)
		if !(bed >= low*(1-likeBed) && bed <= high*(1+likeBed)) {
			continue
		}
		share := (min(max(bed, low), high) - low) / (high - low)
		bag := kilos * poundsPerKilo / bagPounds / (feetPerMetre * feetPerMetre)
		least = bag * (a.least + float64(share*(b.least-a.least)))
		most = bag * (a.most + float64(share*(b.most-a.most)))
		ok = true
		if bed <= high {
			break
		}
	}
	return least, most, ok
}

// besidePrint notes how far a bag goes where tables in print let it go further.
func (b *builder) besidePrint(l *Line, p job.Product, d depth) {
	if !d.trowels || p.Unit != "kg" || !usable(p.Pack) || p.Pack <= 0 {
		return
	}
	own := p.Yield / d.mm
	if least, most, ok := inPrint(d.mm, p.Pack); ok && own < least {
		l.note("%s a bag, trowel tables in print %s to %s at best", b.both(own, "m²"),
			b.both(least, "m²"), b.both(most, "m²"))
	}
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
		l.addNote(language.As(p.Name))
	}
}

// cover measures a line by the area that one pack covers.
func (b *builder) cover(l *Line, p job.Product, area float64) {
	packs := area / p.Coverage
	l.Net, l.Unit, l.Pack = area, "m²", p.Coverage
	if p.Pack > 0 && p.Unit != "" && p.Unit != "m²" {
		l.Net, l.Unit, l.Pack = packs*p.Pack, p.Unit, p.Pack
	}
	l.note("%s a %s, %s", b.both(p.Coverage, "m²"), language.Say(l.PackName), p.Source)
}
