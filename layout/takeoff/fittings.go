package takeoff

import (
	"math"

	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/tiling"
)

// Of what is fitted by the piece or cut from lengths (common practice): a profile comes in
// lengths of 2.5 m, in the US of 8 ft, and joints of spacers in bags of 100; leads and tubes
// are held by a strip of tape of 100 mm every 300 mm.
const (
	profileMetric = 2500.0
	profileUS     = 8 * plane.Foot
	spacerBag     = 100
	tapeShare     = 1.0 / 3
)

// cutWaste is the share added to what is cut to length on site (common practice).
const cutWaste = 0.1

// fittings adds what goes with tile and joints: rod behind sealant, profiles in doorways,
// spacers; and waterproofing, where the job gives a product for it.
func (b *builder) fittings() {
	rod := 0.0
	for _, s := range b.movementJoints() {
		rod += s.length
	}
	b.length("backer-rod", language.Say("Backer rod behind the sealant"), rod, language.Say("movement joints"))
	b.profiles()
	b.spacers()
	if p := b.in.Materials.Waterproofing; p.Coverage > 0 {
		l := Line{Code: "waterproofing", Item: language.Say("Waterproofing of the floor"), Basis: b.tiledBasis(),
			Waste:    p.Waste,
			PackName: "can"}
		l.call(p)
		b.cover(&l, p, b.in.tiled()/plane.SquareMetre)
		b.add(l, p.Price)
	}
}

// profiles adds an edge profile for every doorway that has no threshold of its own, each in
// one piece where a length holds it.
func (b *builder) profiles() {
	var doors []float64
	for _, r := range b.in.Rooms {
		doors = append(doors, r.Doorways...)
	}
	length := profileMetric
	if b.in.Units == plane.Inches {
		length = profileUS
	}
	if sum(doors) <= 0 {
		return
	}
	l := Line{Code: "profile", Item: language.Say("Edge profile in doorways"), Unit: "m", Net: sum(doors) / 1000,
		Basis: language.Say("%s without a threshold, %s", say.CountedMessage(len(doors), "doorway"),
			b.longWords(sum(doors))),
		Pack: length / 1000, PackName: "length", Packs: Rolls(doors, length)}
	l.take(float64(l.Packs) * l.Pack)
	l.note("lengths of %s, common practice", b.longWords(length))
	b.addCounted(l)
}

// spacers adds one for every tile, two where joints meet in tees: one at each end.
func (b *builder) spacers() {
	t, places := b.in.Tile, 0
	for _, r := range b.in.Rooms {
		if r.Tiles == nil || t.Joint < narrowestPiece {
			return
		}
		places += r.Tiles.Whole + r.Tiles.Cut
	}
	each, how := 1, language.Say("a cross at a corner of each")
	if t.Pattern == tiling.Offset || t.Pattern == tiling.Herringbone {
		each, how = 2, language.Say("a tee at each end")
	}
	if places > 0 {
		l := Line{Code: "spacers", Item: language.Say("Spacers"), Unit: "each",
			Basis: language.Say("%d tiles, %s", places, how), Net: float64(each * places), Pack: spacerBag,
			PackName: "bag", Waste: cutWaste}
		b.add(l, 0)
	}
}

// tape adds what holds leads and tubes down between the pegs.
func (b *builder) tape(leads float64) {
	b.length("tape", language.Say("Tape over leads and tubes"), leads*tapeShare, language.Say("a third"))
}

// visits adds the ways to the site, and the hire of testers where the price list has it.
func (b *builder) visits() {
	n, cost := 0, 0.0
	var phases []language.Message
	for _, w := range b.in.Labour {
		if w.Visits > 0 {
			n += w.Visits
			cost = max(cost, w.VisitCost)
			phases = append(phases, language.Say("%d for %s", w.Visits, w.Phase))
		}
	}
	if n > 0 {
		l := Line{Code: "visits", Item: language.Say("Visits to the site"), Unit: "each", Net: float64(n), Pack: 1,
			Basis: language.Joined(", ", phases...), Note: language.Say("job file")}
		b.add(l, cost)
	}
	if b.hires() {
		b.each("tester-hire", language.Say("Hire of insulation tester and alarm"), 1,
			language.Say("readings on arrival, once laid, once covered"))
	}
}

// hires reports whether testers are hired: the price list has them.
func (b *builder) hires() bool { return b.in.Prices["tester-hire"] > 0 }

func sum(vs []float64) float64 {
	total := 0.0
	for _, v := range vs {
		total += v
	}
	return total
}

// crewHours is how long a crew is at a phase of work.
func crewHours(hours float64, crew int) float64 { return hours / math.Max(1, float64(crew)) }
