package sheets

import (
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/compare"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// ChangePlans draws what changed since an earlier revision on the newer plan of
// each room, every place in a cloud with the revision's triangle, and all
// changes in a list. A room without a change that has a place gets no sheet.
func ChangePlans(p *layout.Plan, changes []compare.Change) ([]*drawing.Sheet, error) {
	var pages []*setting.Page
	for i := range p.Rooms {
		r := &p.Rooms[i]
		var here []compare.Change
		for _, c := range changes {
			if c.Room == r.Job.Name && c.At != nil {
				here = append(here, c)
			}
		}
		if len(here) == 0 {
			continue
		}
		s := floorplan.OfRoom(kindNamed("changes"), r)
		s.Draw = func(v *floorplan.View) {
			drawCablePlan(v)
			clouds(v, here)
		}
		s.Levels = func(v *floorplan.View) []setting.Level { return changeLevels(v, changes) }
		pg, err := s.Pages(p)
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
func clouds(v *floorplan.View, changes []compare.Change) {
	var rounds []plane.Region
	for _, c := range changes {
		rounds = append(rounds, plane.FromRing(plane.Circle(*c.At, math.Max(c.Radius, cloudBump*v.Paper.Ratio), 32)))
	}
	all, err := plane.Union(rounds...)
	if err != nil {
		return
	}
	for _, poly := range all {
		ring := v.Paper.Pts(poly.Outer)
		line := signs.CloudLine(ring, cloudBump)
		v.Sign(signs.Cloud, drawing.LayerMarks, "changed", line, drawing.MediumLine(), nil)
		v.Ink.Segs(line, lettering.CableInk)
		revisionBeside(v, ring)
	}
}

// revisionBeside asks for the last revision's triangle beside a cloud, above it
// rather than below.
func revisionBeside(v *floorplan.View, ring []drawing.Pt) {
	letter := setting.LastRevision(v.Plan)
	if letter == setting.NoRevision {
		return
	}
	box := drawing.BoxOf(ring...)
	l := &lettering.Label{Text: letter, Height: drawing.H25, Rank: 1, Subject: box.Centre(),
		Mark: symbols.RevisionTriangle, Of: signs.Cloud, Note: v.Fig.Textf("changed by revision %s", letter)}
	for _, p := range ring {
		for _, off := range []float64{4.5, 7} {
			out := p.Sub(box.Centre()).Unit().Mul(off)
			l.Spots = append(l.Spots, lettering.Spot{At: p.Add(out), Cost: off/2 + 4*(p.Y-box.Y0)/box.H()})
		}
	}
	v.Letters.Add(l)
}

func changeLevels(v *floorplan.View, changes []compare.Change) []setting.Level {
	l := setting.List{Head: v.Fig.Text("Changed since the revision before"), Number: 1}
	for _, c := range changes {
		if c.Room == "" || c.Room == v.Room.Job.Name {
			c.Room = "" // the sheet's title names it
			l.Paras = append(l.Paras, strings.ReplaceAll(capital(c.String()), " -> ", " → "))
		}
	}
	bs := []setting.Block{l, legendOf(v), notes(v), revisions(v.Plan)}
	return []setting.Level{{Blocks: bs}, {Blocks: bs, Gain: setting.Never, Overflow: true}}
}
