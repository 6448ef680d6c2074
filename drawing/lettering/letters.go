// Package lettering settles where the names and figures in a drawing stand: each at
// the cheapest free place over the ink that is drawn.
package lettering

import (
	"math"
	"sort"

	"oxturn/drawing"
	"oxturn/drawing/signs"
	"oxturn/fonts"
)

// A Label is lettering that names something in the field. Where it stands is
// settled for all labels of a sheet together; see Labels.Place.
type Label struct {
	Text    string
	Face    fonts.Face
	Height  float64
	Spots   []Spot
	Rank    int        // lower is placed first
	Mark    markFunc   // draws it about its centre, lettering included; nil: plain lettering
	Of      signs.Sign // what mark shows; wordsOnly: nothing but its lettering
	With    withFunc   // what is drawn with plain lettering; nil: nothing
	Option  bool       // may be left out without a note
	Line    string     // what its leader is called where that is more than one
	Note    string     // what is written in the column when no spot is free
	Subject drawing.Pt
	Instead *Label          // what is tried where no spot is free: the same in less room
	Shy     float64         // how far it keeps from names that begin with it, mm
	At      int             // the chosen spot, -1: none
	boxes   []drawing.Box   // of the spots
	sizes   [2]*drawing.Box // of the lettering about its point, level and upright
	inked   []*cell         // where its lettering and its leader are taken note of
}

// A markFunc draws a mark that carries lettering, its centre at at.
type markFunc func(at drawing.Pt, text string) []drawing.Item

// A withFunc draws what belongs to lettering at a spot of its label.
type withFunc func(spot int) []drawing.Item

// A Spot is a place where a label may stand.
type Spot struct {
	At     drawing.Pt   // middle of the baseline, or centre of a mark
	Angle  float64      // 0 or 90
	Cost   float64      // dislike of the spot itself
	Most   float64      // what lies under it must cost less; 0: any
	Leader []drawing.Pt // from the lettering to its subject; nil: none
}

// Costs of a spot. A label that names its subject at a glance is worth a small
// detour; ink over ink is worth a large one.
const (
	OverCable  = 16.0 // for a run of cable under the lettering
	overThin   = 5.0  // for a thin line under it
	overHatch  = 1.5
	perLeader  = 3.0  // for having a leader at all
	perMM      = 0.3  // of leader
	leaderTie  = 8.0  // for a leader across a leader or a dimension
	leaderWire = 2.5  // for a leader across a run of cable
	leaderThin = 0.5  // for a leader across a thin line
	asOne      = 6.0  // for reading as one with other lettering
	asOther    = 6.0  // for the letter of a wall beside a name that begins with it
	TextGap    = 0.8  // white between letterings
	sameCost   = 1e-6 // costs no farther apart are the same on another processor
)

// knockoutMargin is the white round lettering that stands over lines.
const knockoutMargin = 0.5

// Labels settles where the labels of a sheet stand.
type Labels struct {
	Field  drawing.Box
	Ink    *Ink
	Labels []*Label
	boxes  map[*Label]drawing.Box
}

// New returns the labels of a field, still none.
func New(field drawing.Box) *Labels {
	return &Labels{Field: field, Ink: NewInk(), boxes: map[*Label]drawing.Box{}}
}

// Sample is the label as plain lettering at a spot.
func (l *Label) Sample(s Spot) *drawing.Text {
	return &drawing.Text{
		Layer: drawing.LayerText, At: s.At, Text: l.Text, Height: l.Height, Face: l.Face,
		Anchor: drawing.Middle, Angle: s.Angle,
	}
}

// Box returns what the label covers at a spot. Plain lettering is measured
// once and moved.
func (l *Label) Box(s Spot) drawing.Box {
	if l.Mark != nil {
		if l.sizes[0] == nil {
			b := drawing.BoxOfItems(l.Mark(drawing.Pt{}, l.Text))
			l.sizes[0] = &b
		}
		return l.sizes[0].Moved(s.At)
	}
	k := 0
	if s.Angle == 90 {
		k = 1
	}
	if l.sizes[k] == nil {
		b := l.Sample(Spot{Angle: s.Angle}).Box()
		l.sizes[k] = &b
	}
	return l.sizes[k].Moved(s.At)
}

// Add takes up a label; Place finds it a spot.
func (t *Labels) Add(l *Label) {
	l.At = -1
	for _, s := range l.Spots {
		l.boxes = append(l.boxes, l.Box(s))
	}
	t.Labels = append(t.Labels, l)
}

// Place chooses a spot for every label: by rank, each at its cheapest free
// spot; then those left over may push one other label to another spot; then
// every label looks once more for a cheaper one. The order of the labels
// settles all ties, so that the same sheet always comes out alike.
func (t *Labels) Place() {
	order := append([]*Label(nil), t.Labels...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].Rank < order[j].Rank })
	for _, l := range order {
		t.Put(l, t.Cheapest(l))
	}
	for _, l := range order {
		if l.At < 0 && !l.Option {
			t.push(l)
		}
		if l.At < 0 && l.Instead != nil {
			t.exchange(l)
		}
	}
	for _, l := range order {
		t.Put(l, t.Cheapest(l))
	}
}

// exchange makes a label what it has instead.
func (t *Labels) exchange(l *Label) {
	l.Text, l.Mark, l.Spots, l.sizes, l.boxes = l.Instead.Text, l.Instead.Mark, l.Instead.Spots, [2]*drawing.Box{}, nil
	for _, s := range l.Spots {
		l.boxes = append(l.boxes, l.Box(s))
	}
	if t.Put(l, t.Cheapest(l)); l.At < 0 {
		t.push(l)
	}
}

// CentredOn returns where the baseline of lettering lies when the lettering,
// which covers size about its own point, is centred on c.
func CentredOn(c drawing.Pt, size drawing.Box) drawing.Pt {
	return drawing.Pt{X: c.X, Y: c.Y - size.Centre().Y}
}

// Put moves a label to spot i, -1 to nowhere.
func (t *Labels) Put(l *Label, i int) {
	if l.At >= 0 {
		delete(t.boxes, l)
		t.Ink.lift(l)
	}
	l.At = i
	if i < 0 {
		return
	}
	s, b := l.Spots[i], l.boxes[i]
	t.boxes[l] = b
	t.Ink.text(l, b)
	if s.Leader != nil {
		t.Ink.leader(l, s.Leader)
	}
}

// Cheapest returns the best free spot of l, -1 when none is free.
func (t *Labels) Cheapest(l *Label) int {
	best, least := -1, math.Inf(1)
	for i, s := range l.Spots {
		if s.Cost >= least-sameCost {
			continue
		}
		if c, free := t.cost(l, i, nil, least-sameCost); free && c < least-sameCost {
			best, least = i, c
		}
	}
	return best
}

// cost weighs a spot. free is false where the lettering would touch other
// lettering, a mark, a wall or the edge of the field; what is lettered by
// without is taken as not there. A spot that is seen to cost as much as most is as good as not
// free: what else it costs is not looked for.
func (t *Labels) cost(l *Label, i int, without *Label, most float64) (c float64, free bool) {
	s, b := l.Spots[i], l.boxes[i]
	if !t.Field.Contains(b) || s.Leader != nil && s.Cost+perLeader >= most {
		return 0, false
	}
	under, ok := t.Ink.under(b, l, without)
	if !ok || s.Most > 0 && under >= s.Most {
		return 0, false
	}
	c = s.Cost + under
	if l.Mark == nil {
		close := t.Ink.mistaken(b, l, without)
		if c += close; l.Option && close > 0 {
			return 0, false // rather left out
		}
	}
	if s.Leader == nil {
		return c, true
	}
	if c+perLeader >= most {
		return 0, false
	}
	along, ok := t.Ink.along(s.Leader, l, without)
	return c + perLeader + along, ok
}

// push looks for the spot of l that one other label can make free by moving.
func (t *Labels) push(l *Label) {
	for i, s := range l.Spots {
		for _, m := range t.Ink.owners(l.boxes[i].Grow(TextGap), s.Leader) {
			if _, free := t.cost(l, i, m, math.Inf(1)); !free {
				continue
			}
			was := m.At
			t.Put(m, -1)
			t.Put(l, i)
			if j := t.Cheapest(m); j >= 0 {
				t.Put(m, j)
				return
			}
			t.Put(l, -1)
			t.Put(m, was)
		}
	}
}

// Homeless returns the labels that found no place and need a note.
func (t *Labels) Homeless() []*Label {
	var out []*Label
	for _, l := range t.Labels {
		if l.At < 0 && !l.Option {
			out = append(out, l)
		}
	}
	return out
}

// Drawn returns the placed labels, and the signs they show.
func (t *Labels) Drawn() (items []drawing.Item, shown []signs.Sign) {
	for _, l := range t.Labels {
		if l.At < 0 {
			continue
		}
		s := l.Spots[l.At]
		if s.Leader != nil {
			items = append(items, &drawing.Path{Layer: drawing.LayerDims, Title: l.Line,
				Segs: drawing.Polyline(s.Leader...), Stroke: drawing.ThinLine()})
		}
		if l.Mark != nil {
			items, shown = append(items, l.Mark(s.At, l.Text)...), append(shown, l.Of)
			continue
		}
		if l.With != nil {
			items = append(items, l.With(l.At)...)
		}
		text := l.Sample(s)
		if t.Ink.covered(t.boxes[l]) {
			text.Knockout = knockoutMargin
		}
		items = append(items, text)
	}
	return items, shown
}
