package refit

import (
	"math"
	"slices"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// rateTolerance is the share by which cable and way may differ at a mark before
// anything is planned anew: what a tape and counted pegs are good for over half
// a cable (common practice).
const rateTolerance = 0.005

// tolerated reports whether a mark came so near to where it was drawn that laying
// goes on as planned: within a peg, or rateTolerance.
func (f *Refit) tolerated() bool {
	return f.Laid != nil && f.plan != nil && f.Planned.Return == nil &&
		(math.Abs(f.Early) <= f.pitch() || math.Abs(f.Drift) <= rateTolerance)
}

// asPlanned is the plan, on the real pegs, with its end where the cable ends by
// then; nil where a run of it does not lie on its floor, or where the end
// finds no place. Less than half a peg needs none: no mark is read off so exactly.
func (f *Refit) asPlanned() *route.Route {
	if f.sound(f.plan) < len(layout.Runs(f.plan, f.Planned.BendRadius, f.Planned.Lattice)) {
		return nil
	}
	path := f.ended()
	if path == nil || len(path) < len(f.Laid) {
		return nil
	}
	return &route.Route{Path: path, ColdLead: f.Planned.ColdLead, Lattice: f.lattice(), Zone: f.Planned.Zone,
		Score: f.Planned.Score}
}

// ended is the plan's path made as long as the cable by its last leg alone; nil
// where that has no place.
func (f *Refit) ended() []plane.Point {
	over := f.whole() - route.Length(f.plan, f.Planned.BendRadius)
	if over < 0 {
		return endAt(f.plan, f.Planned.BendRadius, f.whole())
	}
	path, last := slices.Clone(f.plan), len(f.plan)-1
	path[last] = path[last].Add(path[last].Sub(path[last-1]).Unit().Mul(over))
	if over > f.pitch()/2 && !f.free(path, last) {
		return nil
	}
	return path
}
