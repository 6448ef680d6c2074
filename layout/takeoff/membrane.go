package takeoff

import (
	"errors"
	"math"
	"sort"

	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/tiling"
)

// Strips is a membrane laid from the roll in parallel strips, butted.
type Strips struct {
	Along   string    // "east-west" or "north-south"
	Lengths []float64 // mm, in order across the room
	Seams   float64   // mm where neighbouring strips meet, at most
}

// Total returns the length of all strips in mm.
func (s Strips) Total() float64 {
	sum := 0.0
	for _, l := range s.Lengths {
		sum += l
	}
	return sum
}

// maxStrips is the number of strips beyond which a roll width is taken for a
// slip of the pen.
const maxStrips = 2000

var errTooManyStrips = errors.New("the roll is too narrow for the room")

// StripsFor returns the strips of a roll width in mm that cover a room: in the
// direction, and begun from the side, that takes least roll; east-west from
// the south when it makes no difference. A strip is as long as the floor under
// it reaches; a narrow last strip takes the roll's full width.
func StripsFor(room plane.Region, width float64) (Strips, error) {
	var best Strips
	for turn, along := range []string{"east-west", "north-south", "east-west", "north-south"} {
		s, err := strips(plane.FaceOf(room, plane.Point{}, float64(turn)*math.Pi/2), width)
		if err != nil {
			return Strips{}, err
		}
		if turn == 0 || s.Total() < best.Total()-narrowestPiece {
			best = s
			best.Along = along
		}
	}
	return best, nil
}

// strips cuts a shape into bands across y.
func strips(s plane.Face, width float64) (Strips, error) {
	box := s.Bounds()
	if !usable(width) || width < narrowestPiece || !(box.H()/width <= maxStrips) {
		return Strips{}, errTooManyStrips
	}
	var out Strips
	var last plane.Rect
	for i := range int(math.Ceil(box.H()/width - plane.Whit)) {
		low := box.Min.Y + float64(i)*width
		// a little inside the strip, so that a wall along its edge is not counted
		b := s.Between(plane.AxisY, low+narrowestPiece/2, low+width-narrowestPiece/2).Bounds()
		if b.W() < narrowestPiece {
			continue
		}
		if len(out.Lengths) > 0 {
			out.Seams += max(0, min(b.Max.X, last.Max.X)-max(b.Min.X, last.Min.X))
		}
		out.Lengths = append(out.Lengths, b.W())
		last = b
	}
	return out, nil
}

// Rolls returns how many rolls of a length the strips are cut from, all in
// mm: longest strip first, each from the first roll whose off-cut is long
// enough. A strip longer than a roll is pieced from whole rolls.
func Rolls(lengths []float64, roll float64) int {
	if !usable(roll) || roll < narrowestPiece {
		return 0
	}
	sorted := append([]float64(nil), lengths...)
	sort.Sort(sort.Reverse(sort.Float64Slice(sorted)))
	whole := 0
	var left []float64
	for _, l := range sorted {
		full := int(math.Floor(l/roll + plane.Whit))
		whole += full
		left = fromOffcut(left, l-float64(full)*roll, roll)
	}
	return whole + len(left)
}

// fromOffcut cuts need from the first of left that has it, else from a new roll.
func fromOffcut(left []float64, need, roll float64) []float64 {
	if need < plane.Hair { // what rounding leaves of whole rolls
		return left
	}
	for i := range left {
		if left[i] >= need-plane.Hair {
			left[i] -= need
			return left
		}
	}
	return append(left, roll-need)
}

// fixedEvery is how far apart a strip is fixed at most, common practice from memory: its ends, and each foot or 300 mm.
func (b *builder) fixedEvery() float64 {
	if b.in.Units == plane.Inches {
		return plane.Foot
	}
	return 300
}

// strips adds those that loose cable is clipped to, and what fixes them.
func (b *builder) strips() {
	long, fixings, every := 0.0, 0, b.fixedEvery()
	for _, s := range b.in.Strips {
		long += s
		fixings += 1 + max(1, int(math.Ceil(s/every-plane.Whit)))
	}
	b.add(Line{Code: "strips", Item: language.Say("Strips with clips for the cable"), Net: long / 1000, Unit: "m",
		Basis: b.lengthBasis(language.Say("%d pieces as drawn", len(b.in.Strips)), long),
		Note:  language.Say("off-cuts not counted")}, 0)
	b.each("strip-fixings", language.Say("Fasteners of the strips"), fixings, language.Say("at both ends of a piece, "+
		"and %s apart at most", language.Figure(say.Apart(every, b.in.Units))))
	b.ask("Strips: length of one, and how they are fixed to what they lie on.")
}

// membrane adds the membrane and returns the length of its seams in mm.
func (b *builder) membrane() float64 {
	m := b.in.Membrane
	if len(b.in.Strips) > 0 {
		b.strips()
		return 0
	}
	l := Line{Code: "membrane", Item: language.Say("Membrane"), Basis: b.tiledBasis(),
		Net:  b.in.tiled() / plane.SquareMetre,
		Unit: "m²"}
	switch {
	case b.in.Cut != nil:
		return b.cut(l)
	case m.RollWidth > 0 && m.RollLength > 0:
		return b.rolls(l)
	case m.SheetSize[0] > 0 && m.SheetSize[1] > 0:
		return b.sheets(l)
	}
	l.Waste = m.Waste
	l.Note = language.Say("by area with waste; no roll or sheet size is given")
	b.add(l, 0)
	b.ask("Membrane: roll or sheet size, to count rolls.")
	return 0
}

// cut counts the membrane by its cut plan.
func (b *builder) cut(l Line) (seams float64) {
	l.Packs, l.Note = b.in.Cut.Packs, b.in.Cut.Note
	if !usable(b.in.Cut.Taken) {
		b.ask("Membrane: a cut plan of %g mm² is not usable.", b.in.Cut.Taken)
	}
	l.take(b.in.Cut.Taken / plane.SquareMetre)
	l.Pack, l.PackName = packOf(b.in.Membrane)
	b.addCounted(l)
	return b.in.Cut.Seams
}

// packOf returns the area in m² of a roll or sheet and what it is called.
func packOf(m job.Membrane) (float64, string) {
	if m.RollWidth > 0 && m.RollLength > 0 {
		return m.RollWidth * m.RollLength / plane.SquareMetre, "roll"
	}
	return m.SheetSize[0] * m.SheetSize[1] / plane.SquareMetre, "sheet"
}

// rolls counts strips room by room, cuts them all from the same rolls, and
// returns the length of seams.
func (b *builder) rolls(l Line) float64 {
	var all []float64
	seams := 0.0
	for _, r := range b.in.Rooms {
		s, err := StripsFor(r.Tiled, b.in.Membrane.RollWidth)
		if err != nil {
			l.Waste = b.in.Membrane.Waste
			l.Note = language.Say("by area with waste; strips not counted: %v", err)
			b.add(l, 0)
			b.ask("Membrane: check the roll size, %s: %v.", r.Name, err)
			return 0
		}
		all = append(all, s.Lengths...)
		seams += s.Seams
		l.note("%s: %d strips %s", r.Name, len(s.Lengths), language.Say(s.Along))
	}
	l.take(Strips{Lengths: all}.Total() * b.in.Membrane.RollWidth / plane.SquareMetre)
	l.Pack, l.PackName = packOf(b.in.Membrane)
	l.Packs = Rolls(all, b.in.Membrane.RollLength)
	l.note("off-cuts reused, a narrow last strip takes the full width")
	b.addCounted(l)
	return seams
}

// sheets counts single sheets on a grid, room by room, the better way round,
// and returns the length of seams, taken as every sheet edge.
func (b *builder) sheets(l Line) float64 {
	total, seams := 0, 0.0
	w, h := b.in.Membrane.SheetSize[0], b.in.Membrane.SheetSize[1]
	for _, r := range b.in.Rooms {
		n, err := sheetsFor(r.Tiled, w, h)
		if err != nil {
			l.Waste = b.in.Membrane.Waste
			l.Note = language.Say("by area with waste; sheets not counted: %v", err)
			b.add(l, 0)
			b.ask("Membrane: check the sheet size, %s: %v.", r.Name, err)
			return 0
		}
		total += n
		seams += max(0, float64(n)*(w+h)-edgeOf(r.Tiled)/2)
		l.note("%s: %d sheets", r.Name, n)
	}
	l.take(float64(total) * w * h / plane.SquareMetre)
	l.Pack, l.PackName = packOf(b.in.Membrane)
	l.Packs = total
	l.note("on a grid from the corner of each room's box, off-cuts of half a sheet reused")
	b.addCounted(l)
	return seams
}

// sheetsFor returns the fewer sheets of either way round.
func sheetsFor(room plane.Region, w, h float64) (int, error) {
	fewest := math.MaxInt
	for _, g := range []tiling.Grid{{Length: w, Width: h}, {Length: h, Width: w}} {
		g.Origin = room.Bounds().Min
		c, err := g.Count(room)
		if err != nil {
			return 0, err
		}
		fewest = min(fewest, c.Tiles())
	}
	return fewest, nil
}
