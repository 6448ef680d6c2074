package probe

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
	"oxturn/layout/tiling"
)

// A Fault is a stretch of cable, within which a fault must lie, on the floor.
type Fault struct {
	Map        *Map
	Room       *layout.Room
	Cable      *layout.Cable
	Stretch    record.Stretch
	Line       []plane.Point // the stretch
	Best       plane.Point   // its likeliest place
	Runs       [2]int        // numbers of the first and last run it touches
	Tiles      []tiling.Place
	Neighbours []Neighbour
}

// A Neighbour is a piece of another run that passes so near a stretch that it
// could be taken for it.
type Neighbour struct {
	Run      int
	From, To float64 // running lengths, mm
	Gap      float64 // mm between the two, at the least
	Line     []plane.Point
}

// confusedGaps is how near a run has to pass, in mean gaps, to be taken for the
// one with the fault: its neighbours to either side.
const confusedGaps = 1.3

// leastGap is the gap between runs where a cable's spacing is not known, or less, in mm.
const leastGap = 20

// Trace brings a stretch of a cable, by its name on the drawings, to the floor, in English. It is
// an error that no cable of the plan is called so.
func Trace(p *layout.Plan, cable string, s record.Stretch) (*Fault, error) {
	return TraceIn(p, cable, s, language.English)
}

// TraceIn is Trace in a language.
func TraceIn(p *layout.Plan, cable string, s record.Stretch, l language.Language) (*Fault, error) {
	room, c, err := CableNamed(p, cable)
	if err != nil {
		return nil, err
	}
	f := &Fault{Map: In(p, room, l), Room: room, Cable: c, Stretch: s}
	t := f.thing()
	line := record.Line{Points: t.Line, Along: t.Along}
	if err := line.Check(); err != nil {
		return nil, err
	}
	f.Line, f.Best = line.Cut(s.From, s.To), line.At(s.Best)
	f.Runs = [2]int{runAt(t.RunEnds, s.From), runAt(t.RunEnds, s.To)}
	off := t.Error
	if f.Map.NoReason != "" {
		off = 0 // by a plan the tiles are those it is drawn under; the words say what that is worth
	}
	if f.Map.Tiling != nil {
		f.Tiles = f.Map.Tiling.Near(f.Line, t.Half+off, f.Map.Outline)
	}
	near, err := line.Neighbours(s.From, s.To, confusedGaps*max(c.Spacing, leastGap)+off)
	if err != nil {
		return nil, err
	}
	for _, n := range near {
		f.Neighbours = append(f.Neighbours, Neighbour{runAt(t.RunEnds, (n.From+n.To)/2), n.From, n.To, n.Gap,
			line.Cut(n.From, n.To)})
	}
	return f, nil
}

func (f *Fault) thing() Thing {
	for _, t := range f.Map.Things {
		if t.Kind == Cable && t.Name == f.Cable.ID {
			return t
		}
	}
	return Thing{}
}

// CableNamed finds a cable by its name on the drawings; without a name, the
// plan's only one.
func CableNamed(p *layout.Plan, name string) (*layout.Room, *layout.Cable, error) {
	room, cable, n, known := cablesNamed(p, name)
	switch {
	case known == "":
		return nil, nil, fmt.Errorf("the job has no cable")
	case n == 0:
		return nil, nil, fmt.Errorf("the job has no cable %q; cables: %s", name, known[2:])
	case n > 1:
		return nil, nil, fmt.Errorf("the job has several cables, name one: %s", known[2:])
	}
	return room, cable, nil
}

// cablesNamed returns the last of the n cables of a name, any where that is empty, and
// all that there are in words.
func cablesNamed(p *layout.Plan, name string) (room *layout.Room, cable *layout.Cable, n int, known string) {
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := &p.Rooms[i].Cables[k]
			if c.ID == name || name == "" {
				room, cable = &p.Rooms[i], c
				n++
			}
			known += fmt.Sprintf(", %s in %s", c.ID, p.Rooms[i].Job.Name)
		}
	}
	return room, cable, n, known
}

// A Fact is one thing said of a fault, with a word that says what it is about.
type Fact struct{ About, Words string }

// Facts says where the fault must lie, and by what.
func (f *Fault) Facts() []Fact {
	m, s := f.Map, f.Stretch
	out := []Fact{
		{"fault", m.Textf("%s, cable %s: between %s and %s of its length, likeliest at %s", f.Room.Job.Name,
			f.Cable.ID, m.running(s.From), m.running(s.To), m.running(s.Best))},
		{"where", m.Textf("%s; likeliest %s", f.runWords(), m.Spot(m.At(f.Best)))},
		{"by", s.Method + ": " + s.Formula},
	}
	if s.Core != record.AnyCore {
		out = append(out, Fact{"core", s.Core.String()})
	}
	if s.FaultOhms.Value > 0 || s.FaultOhms.Error > 0 {
		out = append(out, Fact{"fault", m.Textf("it has %s Ω itself, give or take %s",
			m.Figure(say.Digits(s.FaultOhms.Value, 4)), m.Figure(say.Digits(s.FaultOhms.Error, 2)))})
	}
	out = append(out, Fact{"record", m.Record()}, Fact{"plan", m.Rests()})
	for _, words := range f.tileWords() {
		out = append(out, Fact{"tile", words})
	}
	if m.NoTiles != "" {
		out = append(out, Fact{"tile", m.NoTiles})
	}
	if len(f.Tiles) > 0 {
		out = append(out, Fact{"", m.Counting()})
	}
	for _, n := range f.Neighbours {
		out = append(out, Fact{"beside", m.Textf("run %s, %s to %s, passes %s from it and could be taken for it",
			f.Cable.RunName(n.Run), m.running(n.From), m.running(n.To), m.Length(n.Gap))})
	}
	for _, a := range s.Assumptions {
		out = append(out, Fact{"assumed", a})
	}
	return out
}

// tileWords names the tiles over the stretch, row by row.
func (f *Fault) tileWords() []string {
	columns := map[int][]int{}
	for _, t := range f.Tiles {
		columns[t.Row] = append(columns[t.Row], t.Column)
	}
	var out []string
	for _, row := range slices.Sorted(maps.Keys(columns)) {
		cs := slices.Sorted(slices.Values(columns[row]))
		words := f.Map.Textf("row %d, column %d lies over it", row, cs[0])
		if len(cs) > 1 {
			words = f.Map.Textf("row %d, columns %s lie over it", row,
				strings.Trim(strings.ReplaceAll(fmt.Sprint(cs), " ", ", "), "[]"))
		}
		out = append(out, words)
	}
	return out
}

// Lines writes facts and cautions for people.
func (f *Fault) Lines() []string {
	var out []string
	for _, l := range f.Facts() {
		out = append(out, fmt.Sprintf("%-8s %s", l.About, l.Words))
	}
	for i, c := range f.Cautions() {
		out = append(out, fmt.Sprintf("%d. %s", i+1, c))
	}
	return out
}

func (f *Fault) runWords() string {
	if f.Runs[0] == f.Runs[1] {
		return f.Map.Textf("on run %s", f.Cable.RunName(f.Runs[0]))
	}
	return f.Map.Textf("from run %s to run %s", f.Cable.RunName(f.Runs[0]), f.Cable.RunName(f.Runs[1]))
}

// Cautions returns what is to be said with a fault's place, the method's own
// first.
func (f *Fault) Cautions() []string {
	out := append([]string{}, f.Stretch.Cautions...)
	if f.Map.NoReason != "" {
		out = append(out, f.Map.Text("this place is by a plan: the cable may have been laid elsewhere, so trace it on "+
			"the floor before anything is lifted"))
	}
	return out
}
