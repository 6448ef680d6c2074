package takeoff

import (
	"strings"

	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// Compute takes off a whole job. A figure that is missing or not usable never
// drops a line: the line stands with what is known, and a question says what
// is missing.
func Compute(in Input) List {
	b := &builder{in: in, list: List{Status: in.Status.String()}}
	seams := b.membrane()
	b.mortars()
	b.tile()
	b.joints()
	b.fittings()
	b.underlays(seams)
	b.cables()
	b.controls()
	b.labour()
	b.visits()
	b.words()
	return b.list
}

// A builder gathers the lines of one take-off.
type builder struct {
	in   Input
	list List
}

// ask adds an open question.
func (b *builder) ask(format string, args ...any) {
	b.list.Questions = append(b.list.Questions, language.Say(format, args...))
}

// note adds to a line's note.
func (l *Line) note(format string, args ...any) {
	l.addNote(language.Say(format, args...))
}

func (l *Line) addNote(m language.Message) { l.Note = language.Joined("; ", l.Note, m) }

// take sets the gross figure of a line whose waste follows from a count; that of
// pieces from their number as it is written.
func (l *Line) take(gross float64) {
	if l.Unit == "each" {
		l.Net = written(l.Net, l.Unit)
	}
	l.Gross = max(gross, l.Net)
	if l.Net > 0 {
		l.Waste = l.Gross/l.Net - 1
	}
}

// add finishes a line whose gross is net with waste and whose packs follow
// from it. price is of one pack, 0: none given.
func (b *builder) add(l Line, price float64) {
	if !usable(l.Waste) {
		b.ask("%s: a waste of %g is not usable; none is added.", l.Item, l.Waste)
		l.Waste = 0
	}
	l.Gross = l.Net * (1 + l.Waste)
	b.addGross(l, price)
}

// addGross finishes a line whose packs follow from its gross figure.
func (b *builder) addGross(l Line, price float64) {
	l.Packs = WholePacks(snap(l.Gross), l.Pack)
	if l.Packs == 0 && l.Pack > 0 && l.Gross >= plane.Whit {
		b.ask("%s: %g %s in packs of %g cannot be counted.", l.Item, l.Gross, l.Unit, l.Pack)
	}
	b.finish(l, price)
}

// addCounted finishes a line whose packs were counted piece by piece.
func (b *builder) addCounted(l Line) { b.finish(l, 0) }

// finish checks, rounds and prices a line. A price by code wins.
func (b *builder) finish(l Line, price float64) {
	if !usable(l.Net) || !usable(l.Gross) || l.Packs < 0 {
		b.ask("%s: %g %s is not a usable quantity.", l.Item, l.Net, l.Unit)
		l.Net, l.Gross, l.Waste, l.Packs = 0, 0, 0, 0
	}
	if !usable(l.Pack) {
		b.ask("%s: a pack of %g %s is not usable; packs are not counted.", l.Item, l.Pack, l.Unit)
		l.Pack, l.Packs = 0, 0
	}
	l.Net, l.Gross = snap(l.Net), snap(l.Gross)
	if l.Packs > 0 {
		l.Spare = snap(max(0, float64(l.Packs)*l.Pack-l.Gross))
	}
	b.price(&l, price)
	b.list.Lines = append(b.list.Lines, l)
}

// price puts a line's price to it: the price file's goes before the job's.
func (b *builder) price(l *Line, price float64) {
	if p, ok := b.in.Prices[l.Code]; ok {
		price = p
	}
	if l.Packs > 0 {
		l.Each, l.Price = price, cost(price, float64(l.Packs))
	}
	if !usable(l.Price) {
		b.ask("%s: a price of %g is not usable.", l.Item, l.Price)
		l.Each, l.Price = 0, 0
	}
}

// tiledBasis words the tiled area of all rooms.
func (b *builder) tiledBasis() language.Message {
	return b.basis(language.Say("tiled area"), b.in.tiled())
}

func (b *builder) basis(what language.Message, mm2 float64) language.Message {
	return b.ofRooms(what, area(mm2, b.in.Units))
}

func (b *builder) lengthBasis(what language.Message, mm float64) language.Message {
	return b.ofRooms(what, b.longWords(mm))
}

// longWords writes a long length in both systems, the job's own first.
func (b *builder) longWords(mm float64) language.Figure {
	return language.Figure(say.LongBoth(mm, b.in.Units))
}

// ofRooms words how much there is of something, in how many rooms.
func (b *builder) ofRooms(what language.Message, much language.Figure) language.Message {
	m := language.Joined(" ", what, much.Message())
	if len(b.in.Rooms) < 2 {
		return m
	}
	return language.Joined(", ", m, language.Say("%d rooms", len(b.in.Rooms)))
}

// join lists names as a sentence does.
func join(names []string) string { return strings.Join(names, ", ") }
