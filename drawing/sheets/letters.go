package sheets

import (
	"math"
	"sort"

	"oxturn/drawing"
	"oxturn/fonts"
)

// A label is lettering that names something in the field. Where it stands is
// settled for all labels of a sheet together; see lettering.place.
type label struct {
	text    string
	face    fonts.Face
	height  float64
	spots   []spot
	rank    int      // lower is placed first
	mark    markFunc // draws it about its centre, lettering included; nil: plain lettering
	of      sign     // what mark shows; wordsOnly: nothing but its lettering
	option  bool     // may be left out without a note
	note    string   // what is written in the column when no spot is free
	subject drawing.Pt
	shy     float64         // how far it keeps from names that begin with it, mm
	at      int             // the chosen spot, -1: none
	boxes   []drawing.Box   // of the spots
	sizes   [2]*drawing.Box // of the lettering about its point, level and upright
}

// A markFunc draws a mark that carries lettering, its centre at at.
type markFunc func(at drawing.Pt, text string) []drawing.Item

// A spot is a place where a label may stand.
type spot struct {
	at     drawing.Pt   // middle of the baseline, or centre of a mark
	angle  float64      // 0 or 90
	cost   float64      // dislike of the spot itself
	most   float64      // what lies under it must cost less; 0: any
	leader []drawing.Pt // from the lettering to its subject; nil: none
}

// Costs of a spot. A label that names its subject at a glance is worth a small
// detour; ink over ink is worth a large one.
const (
	overCable  = 16.0 // for a run of cable under the lettering
	overThin   = 5.0  // for a thin line under it
	overHatch  = 1.5
	perLeader  = 3.0  // for having a leader at all
	perMM      = 0.3  // of leader
	leaderTie  = 8.0  // for a leader across a leader or a dimension
	leaderWire = 2.5  // for a leader across a run of cable
	leaderThin = 0.5  // for a leader across a thin line
	asOne      = 6.0  // for reading as one with other lettering
	asOther    = 6.0  // for the letter of a wall beside a name that begins with it
	textGap    = 0.8  // white between letterings
	alike      = 1e-6 // costs no farther apart are the same on another processor
)

// knockout is the white round lettering that stands over lines.
const knockout = 0.5

// lettering settles where the labels of a sheet stand.
type lettering struct {
	field  drawing.Box
	ink    *ink
	labels []*label
	boxes  map[*label]drawing.Box
}

func newLettering(field drawing.Box) *lettering {
	return &lettering{field: field, ink: newInk(), boxes: map[*label]drawing.Box{}}
}

func (l *label) sample(s spot) *drawing.Text {
	return &drawing.Text{
		Layer: drawing.LayerText, At: s.at, Text: l.text, Height: l.height, Face: l.face,
		Anchor: drawing.Middle, Angle: s.angle,
	}
}

// box returns what the label covers at a spot. Plain lettering is measured
// once and moved.
func (l *label) box(s spot) drawing.Box {
	if l.mark != nil {
		if l.sizes[0] == nil {
			b := drawing.BoxOfItems(l.mark(drawing.Pt{}, l.text))
			l.sizes[0] = &b
		}
		return l.sizes[0].Moved(s.at)
	}
	k := 0
	if s.angle == 90 {
		k = 1
	}
	if l.sizes[k] == nil {
		b := l.sample(spot{angle: s.angle}).Box()
		l.sizes[k] = &b
	}
	return l.sizes[k].Moved(s.at)
}

func (t *lettering) add(l *label) {
	l.at = -1
	for _, s := range l.spots {
		l.boxes = append(l.boxes, l.box(s))
	}
	t.labels = append(t.labels, l)
}

// place chooses a spot for every label: by rank, each at its cheapest free
// spot; then those left over may push one other label to another spot; then
// every label looks once more for a cheaper one. The order of the labels
// settles all ties, so that the same sheet always comes out alike.
func (t *lettering) place() {
	order := append([]*label(nil), t.labels...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].rank < order[j].rank })
	for _, l := range order {
		t.put(l, t.cheapest(l))
	}
	for _, l := range order {
		if l.at < 0 && !l.option {
			t.push(l)
		}
	}
	for _, l := range order {
		t.put(l, t.cheapest(l))
	}
}

// centredOn returns where the baseline of lettering lies when the lettering,
// which covers size about its own point, is centred on c.
func centredOn(c drawing.Pt, size drawing.Box) drawing.Pt {
	return drawing.Pt{X: c.X, Y: c.Y - size.Centre().Y}
}

// put moves a label to spot i, -1 to nowhere.
func (t *lettering) put(l *label, i int) {
	if l.at >= 0 {
		delete(t.boxes, l)
		t.ink.lift(l)
	}
	l.at = i
	if i < 0 {
		return
	}
	s, b := l.spots[i], l.boxes[i]
	t.boxes[l] = b
	t.ink.text(l, b)
	if s.leader != nil {
		t.ink.leader(l, s.leader)
	}
}

// cheapest returns the best free spot of l, -1 when none is free.
func (t *lettering) cheapest(l *label) int {
	best, least := -1, math.Inf(1)
	for i, s := range l.spots {
		if s.cost >= least-alike {
			continue
		}
		if c, free := t.cost(l, i, nil); free && c < least-alike {
			best, least = i, c
		}
	}
	return best
}

// cost weighs a spot. free is false where the lettering would touch other
// lettering, a mark, a wall or the edge of the field; what is lettered by
// without is taken as not there.
func (t *lettering) cost(l *label, i int, without *label) (c float64, free bool) {
	s, b := l.spots[i], l.boxes[i]
	if !t.field.Contains(b) {
		return 0, false
	}
	under, ok := t.ink.under(b, l, without)
	if !ok || s.most > 0 && under >= s.most {
		return 0, false
	}
	c = s.cost + under
	if l.mark == nil {
		close := t.ink.mistaken(b, l, without)
		if c += close; l.option && close > 0 {
			return 0, false // rather left out
		}
	}
	if s.leader == nil {
		return c, true
	}
	along, ok := t.ink.along(s.leader, l, without)
	return c + perLeader + along, ok
}

// push looks for the spot of l that one other label can make free by moving.
func (t *lettering) push(l *label) {
	for i, s := range l.spots {
		for _, m := range t.ink.owners(l.boxes[i].Grow(textGap), s.leader) {
			if _, free := t.cost(l, i, m); !free {
				continue
			}
			was := m.at
			t.put(m, -1)
			t.put(l, i)
			if j := t.cheapest(m); j >= 0 {
				t.put(m, j)
				return
			}
			t.put(l, -1)
			t.put(m, was)
		}
	}
}

// homeless returns the labels that found no place and need a note.
func (t *lettering) homeless() []*label {
	var out []*label
	for _, l := range t.labels {
		if l.at < 0 && !l.option {
			out = append(out, l)
		}
	}
	return out
}

// drawn returns the placed labels, and the signs they show.
func (t *lettering) drawn() (items []drawing.Item, shown []sign) {
	for _, l := range t.labels {
		if l.at < 0 {
			continue
		}
		s := l.spots[l.at]
		if s.leader != nil {
			items = append(items, &drawing.Path{Layer: drawing.LayerDims, Segs: drawing.Polyline(s.leader...), Stroke: drawing.ThinLine()})
		}
		if l.mark != nil {
			items, shown = append(items, l.mark(s.at, l.text)...), append(shown, l.of)
			continue
		}
		text := l.sample(s)
		if t.ink.covered(t.boxes[l]) {
			text.Knockout = knockout
		}
		items = append(items, text)
	}
	return items, shown
}
