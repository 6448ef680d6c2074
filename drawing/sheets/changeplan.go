package sheets

import (
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// ChangePlans draws what changed since an earlier revision on the newer plan of
// each room, every place in a cloud with the revision's triangle, and all
// changes in a list. A room without a change that has a place gets no sheet.
func ChangePlans(p *layout.Plan, changes []layout.Change) ([]*drawing.Sheet, error) {
	var pages []*page
	for i := range p.Rooms {
		r := &p.Rooms[i]
		var here []layout.Change
		for _, c := range changes {
			if c.Room == r.Job.Name && c.At != nil {
				here = append(here, c)
			}
		}
		if len(here) == 0 {
			continue
		}
		s := roomScene(kindNamed("changes"), r)
		s.draw = func(v *roomView) {
			drawCablePlan(v)
			v.clouds(here)
		}
		s.levels = func(v *roomView) []level { return changeLevels(v, changes) }
		pg, err := s.pages(p)
		if err != nil {
			return nil, err
		}
		pages = append(pages, pg...)
	}
	return numbered(pages), nil
}

// cloudBump is the width of a cloud's bumps on paper, mm.
const cloudBump = 5.0

// clouds draws a cloud round every place that changed; those that touch are
// drawn as one.
func (v *roomView) clouds(changes []layout.Change) {
	var rounds []plane.Region
	for _, c := range changes {
		rounds = append(rounds, plane.FromRing(plane.Circle(*c.At, math.Max(c.Radius, cloudBump*v.view.Ratio), 32)))
	}
	all, err := plane.Union(rounds...)
	if err != nil {
		return
	}
	for _, poly := range all {
		ring := v.view.Pts(poly.Outer)
		line := cloud(ring, cloudBump)
		v.sign(signCloud, drawing.LayerMarks, "changed", line, drawing.MediumLine(), nil)
		v.ink.segs(line, cableInk)
		v.revisionBeside(ring)
	}
}

// revisionBeside asks for the last revision's triangle beside a cloud, above it
// rather than below.
func (v *roomView) revisionBeside(ring []drawing.Pt) {
	letter := lastRevision(v.plan)
	if letter == noRevision {
		return
	}
	box := drawing.BoxOf(ring...)
	l := &label{text: letter, height: drawing.H25, rank: 1, subject: box.Centre(), mark: symbols.RevisionTriangle, of: signCloud, note: "changed by revision " + letter}
	for _, p := range ring {
		for _, off := range []float64{4.5, 7} {
			out := p.Sub(box.Centre()).Unit().Mul(off)
			l.spots = append(l.spots, spot{at: p.Add(out), cost: off/2 + 4*(p.Y-box.Y0)/box.H()})
		}
	}
	v.letters.add(l)
}

func changeLevels(v *roomView, changes []layout.Change) []level {
	l := list{head: "Changed since the revision before", number: 1}
	for _, c := range changes {
		if c.Room == "" || c.Room == v.room.Job.Name {
			c.Room = "" // the sheet's title names it
			l.paras = append(l.paras, strings.ReplaceAll(capital(c.String()), " -> ", " → "))
		}
	}
	bs := []block{l, legendOf(v.used), v.notes(), revisions(v.plan)}
	return []level{{blocks: bs}, {blocks: bs, gain: never, overflow: true}}
}
