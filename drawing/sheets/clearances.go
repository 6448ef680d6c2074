package sheets

import (
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Of the figures of clearances.
const (
	clearProbe = 3.0  // mm of floor that the heated area may begin nearer or farther
	clearDot   = 0.4  // radius of the dots that end a figure's line, mm on paper
	clearTries = 40   // places along an edge
	clearSlant = 0.01 // that an edge may slant beside its figure, as taped walls do
)

// clearances figures on the plan how far the heated area keeps off walls and off fixtures, each once, at a
// place where it does and where nothing else is lettered or laid.
func clearances(v *floorplan.View) {
	var walls, fixtures []clearPlace
	for i, w := range v.Room.Job.Walls {
		in := v.Outward(w.Segment).Mul(-1)
		for _, p := range clearAlong(v, w.Segment, in, v.Plan.Job.Clearance.Wall, floorplan.Poche/2) {
			if !slices.ContainsFunc(v.Room.Job.Openings, func(o job.Opening) bool {
				return o.Wall == i && p.along > o.From && p.along < o.To
			}) {
				walls = append(walls, p)
			}
		}
	}
	for _, f := range v.Room.Job.Fixtures {
		if f.Heated {
			continue
		}
		for i := range f.Outline {
			edge := f.Outline.Edge(i)
			fixtures = append(fixtures, clearAlong(v, edge, f.Outline.Outward(edge), f.Clear, drawing.H25)...)
		}
	}
	figureClear(v, walls)
	figureClear(v, fixtures)
}

// A clearPlace is where a clearance can be figured: its line on paper and the middle of its figure.
type clearPlace struct {
	from, to, mid drawing.Pt
	clear, along  float64 // mm of floor: how far off its edge, and along that
	angle, cost   float64
}

// clearAlong lists the places along an edge that lies level or upright on paper: where the heated area begins so far
// off it, and only bare floor between. The figure stands so far behind the edge, mm on paper.
func clearAlong(v *floorplan.View, edge plane.Segment, off plane.Point, clear, behind float64) (out []clearPlace) {
	a, b := v.Paper.Pt(edge.A), v.Paper.Pt(edge.B)
	angle := 0.0
	switch d := b.Sub(a); {
	case math.Abs(d.X) < clearSlant*math.Abs(d.Y):
		angle = 90
	case math.Abs(d.Y) > clearSlant*math.Abs(d.X):
		return nil
	}
	for k := 1; k < clearTries; k++ {
		at := edge.A.Lerp(edge.B, float64(k)/clearTries)
		begins := func(d float64) bool { return v.Room.Heated.Contains(at.Add(off.Mul(d))) }
		if clear <= clearProbe || begins(clear-clearProbe) || !begins(clear+clearProbe) {
			continue
		}
		p := clearPlace{from: v.Paper.Pt(at), to: v.Paper.Pt(at.Add(off.Mul(clear))), clear: clear,
			angle: angle, along: edge.A.Dist(at),
			cost: 0.02 * math.Abs(float64(k)-clearTries/2)}
		u := p.to.Sub(p.from).Unit()
		p.mid = p.from.Sub(u.Mul(behind))
		if within := p.from.Add(u.Mul(0.5)); !v.Ink.Crossed(within, p.to.Sub(u.Mul(0.3)), lettering.CableInk,
			lettering.SolidInk, lettering.ThinInk) {
			out = append(out, p)
		}
	}
	return out
}

// figureClear letters the clearance at the cheapest of some places, if one is free.
func figureClear(v *floorplan.View, places []clearPlace) {
	if len(places) == 0 {
		return
	}
	clear := places[0].clear
	l := &lettering.Label{Text: v.Fig.Fine().Length(clear), Height: drawing.H25, Rank: 8, Option: true,
		Subject: places[0].from, Line: "clearance"}
	var lines []clearPlace
	for _, p := range places {
		if p.clear != clear {
			continue
		}
		size := l.Sample(lettering.Spot{Angle: p.angle}).Box()
		l.Spots = append(l.Spots, lettering.Spot{At: p.mid.Sub(size.Centre()), Angle: p.angle, Cost: p.cost,
			Most: lettering.OverCable, Leader: []drawing.Pt{p.from, p.to}})
		lines = append(lines, p)
	}
	l.With = func(spot int) []drawing.Item {
		p := lines[spot]
		var items []drawing.Item
		for _, end := range []drawing.Pt{p.from, p.to} {
			items = append(items, &drawing.Path{Layer: drawing.LayerDims, Segs: drawing.Circle(end, clearDot),
				Fill: drawing.Filled(drawing.Black)})
		}
		return items
	}
	v.Letters.Add(l)
}
