package sheets

import (
	"fmt"
	"slices"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A scene is a sheet with a view to scale: what it shows, and what stands
// beside it.
type scene struct {
	Kind
	room     *layout.Room // nil: of no single room
	bounds   plane.Rect   // mm of floor, or of a wall
	border   func(ratio float64) (left, right, top, bottom float64)
	draw     func(v *roomView)
	levels   func(v *roomView) []level
	scales   []drawing.Scale          // nil: those that suit a floor
	north    bool                     // a north arrow belongs to it
	crowded  func(ratio float64) bool // whether the scale is too small to read; nil: never
	partly   bool                     // it shows a cable that is laid in part
	handOver bool                     // one page of A4 or letter, where it can be read at that size
}

// roomScene returns a scene of a kind that shows a room's floor; the rest is
// filled in by whoever draws the sheet.
func roomScene(k Kind, r *layout.Room) scene {
	return scene{
		Kind: k, room: r, bounds: r.Job.Outline.Bounds(), north: true,
		border:  func(ratio float64) (left, right, top, bottom float64) { return border(r.Job, ratio) },
		crowded: func(ratio float64) bool { return narrow(r, ratio, crowded) },
	}
}

// longest is the longest scale as printed: title blocks are measured with it,
// so that their height does not hang on the scale.
const longest = `1 1/2" = 1'-0"`

// A scenePage is a page with what found no room on it.
type scenePage struct {
	*page
	rest  []block // for a sheet of notes
	later []block // for the next sheet of the room, where that has white for it
}

// pages draws a scene, and what found no room on its page on sheets of notes.
func (s scene) pages(p *layout.Plan) ([]*page, error) {
	own, err := s.page(p)
	if err != nil {
		return nil, err
	}
	return own.withNotes()
}

// legendOver reports whether the legend goes on beyond the page.
func (sp scenePage) legendOver() bool {
	return slices.ContainsFunc(sp.rest, func(b block) bool {
		if m, ok := b.(measured); ok {
			b = m.block
		}
		_, ok := b.(legend)
		return ok
	})
}

// withNotes returns a page and the sheets of notes that go with it alone.
func (sp scenePage) withNotes() ([]*page, error) {
	more, err := sp.notes(sp.sheet.ID+"-notes", sp.sheet.Title+", notes", append(sp.rest, sp.later...))
	return append([]*page{sp.page}, more...), err
}

// titleOn returns the title of a sheet of a kind, with the name of its room.
func titleOn(kind string, r *layout.Room) string {
	if r == nil || r.Job.Name == "" {
		return kind
	}
	return kind + " - " + r.Job.Name
}

// idOf is titleOn for the ID.
func idOf(kind string, r *layout.Room) string {
	if r == nil || slug(r.Job.Name) == "" {
		return kind
	}
	return kind + "-" + slug(r.Job.Name)
}

// page draws a scene on the sheet that the job asks for, or on the one that
// gives the largest scale.
//
// What a legend has to say and which labels become notes is only known once
// the view is drawn, and takes room itself: so the sheet is drawn again until
// neither changes. Should it never settle, what does not fit goes on.
func (s scene) page(p *layout.Plan) (scenePage, error) {
	name := titleOn(s.Title, s.room)
	n := s.need(p, s.titleBlock(p, name))
	last := s.blank(p)
	var a arrangement
	for i := range 6 {
		n.levels = s.levels(last)
		next, err := s.arranged(n, p.Job)
		if err != nil {
			return scenePage{}, fmt.Errorf("%s: %w", name, err)
		}
		v := s.drawn(p, next)
		settled := i > 0 && next.alike(a) && same(last.used, v.used) && same(last.noted, v.noted)
		last, a = v, next
		if settled {
			break
		}
	}
	last.sheet.ID = idOf(s.ID, s.room)
	last.sheet.Title, last.sheet.Description, last.sheet.Ratio = name, s.About, a.scale.Ratio
	last.title = s.titleBlock(p, name)
	last.title.scale, last.title.paper, last.title.compact = a.scale.Name, a.paper.Name, isSmall(a.paper)
	l := s.levels(last)[a.level]
	return scenePage{last.page, append(last.finish(a, l), l.rest...), l.later}, nil
}

// titleBlock returns the scene's title block, still without scale and paper.
func (s scene) titleBlock(p *layout.Plan, title string) titleBlock {
	t := titleFor(p, title, s.Form)
	t.partly = s.partly
	return t
}

// arranged arranges a scene: one to be handed over on one small sheet, if that
// can be.
func (s scene) arranged(n need, j *job.Job) (arrangement, error) {
	if s.handOver {
		if a, ok := arrangeSmall(n, j, s.room); ok {
			return a, nil
		}
	}
	return arrangeFor(n, j, s.crowded)
}

func (s scene) need(p *layout.Plan, t titleBlock) need {
	t.scale, t.paper = longest, "tabloid"
	return need{
		bounds: s.bounds, border: s.border, title: t, proof: proof{units: figuresOf(p.Job).units}, scales: s.scales,
		ty: newTypesetter(), titles: map[titleKey]float64{},
	}
}

// blank returns a view without a drawing that uses every sign, to arrange the
// first trial by.
func (s scene) blank(p *layout.Plan) *roomView {
	v := &roomView{page: newPage(p, drawing.Paper{}), room: s.room, fig: figuresOf(p.Job)}
	for k := signCable; k < signCount; k++ {
		v.used = append(v.used, k)
	}
	return v
}

// drawn draws the field of an arrangement.
func (s scene) drawn(p *layout.Plan, a arrangement) *roomView {
	v := newView(newPage(p, a.paper), s, a)
	if s.north {
		v.north()
	}
	s.draw(v)
	v.settle()
	return v
}

// alike reports whether two arrangements share out their sheet alike.
func (a arrangement) alike(b arrangement) bool {
	return a.scale == b.scale && a.paper == b.paper && a.field == b.field && a.level == b.level
}

func same[T comparable](a, b []T) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// settle places the lettering of the field. A label without a place becomes a
// numbered note, its number standing by its subject where that is possible.
func (v *roomView) settle() {
	v.letters.place()
	var numbers []*label
	for i, l := range v.letters.homeless() {
		n := itoa(i + 1)
		v.noted = append(v.noted, l.note)
		m := &label{text: n, height: drawing.H25, rank: 9, subject: l.subject, mark: noteMark, of: signNote, option: true}
		m.spots = []spot{{at: l.subject, cost: 1}}
		sunk := m.sample(spot{}).Box().Centre().Y // a mark stands about its middle, lettering on its baseline
		for _, s := range tagSpots(l.subject, 1.5, "00") {
			s.at.Y += sunk
			m.spots = append(m.spots, s)
		}
		numbers = append(numbers, m)
	}
	for _, m := range numbers {
		v.letters.add(m)
		v.letters.put(m, v.letters.cheapest(m))
	}
	items, shown := v.letters.drawn()
	v.add(items...)
	for _, s := range shown {
		v.uses(s)
	}
}
