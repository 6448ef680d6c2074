package job

import (
	"slices"

	"oxturn/layout/plane"
)

// stepAlong is how finely runs end along themselves where strips hold them, mm: nothing there asks for more than what a
// person counts in.
func stepAlong(u plane.Units) float64 {
	if u == plane.Inches {
		return plane.Inch
	}
	return 10
}

// readStrips reads what holds loose cable, in place of a membrane, and the spacing.
func (j *Job) readStrips(top, t, s table) {
	if top.has("membrane") {
		top.errorf("strips", "leave one of the two out", "cable lies on the pegs of a [membrane] or is clipped to "+
			"[strips], not both")
		t.spoil()
	}
	clips := t.num("clips")
	j.Strips = &Strips{Apart: t.num("apart"), FromTurns: t.num("from_turns")}
	j.Membrane = Membrane{Pitch: stepAlong(top.rd.drawingUnits()), Across: clips, BendRadius: t.num("bend_radius")}
	j.Spacing = Spacing{Search: s.num("search")}
	for _, l := range top.each("layer") {
		if l.text("kind") == "membrane" {
			l.errorf("kind", "write the layer that the cable is bedded in as kind = \"mortar\" or \"screed\"",
				"with [strips] there is no membrane")
		}
	}
	if clips <= 0 || t.broken() || s.broken() {
		return
	}
	j.readGaps(s)
	if !t.has("bend_radius") {
		j.Membrane.BendRadius = j.Near() / 2
	}
	j.checkGaps(t, s)
	if !t.has("from_turns") {
		j.Strips.FromTurns = max(j.Strips.FromTurns, j.Membrane.BendRadius)
	}
	if j.Strips.FromTurns < j.Membrane.BendRadius-lengthRounding {
		t.errorf("from_turns", "make from_turns "+t.length(j.Membrane.BendRadius)+" or more",
			"strips %s from the turns would lie under bends of radius %s, which no clip holds",
			t.length(j.Strips.FromTurns), t.length(j.Membrane.BendRadius))
	}
	if j.Strips.FromTurns > j.Strips.Apart/2 {
		t.errorf("from_turns", "make from_turns less",
			"strips %s from the turns leave no room for two on a run of %s, the shortest", t.length(j.Strips.FromTurns),
			t.length(j.Strips.Apart))
	}
}

// Holding is the layer that the cable lies in, -1 where none is: the membrane, or where strips hold the cable what it
// is bedded in, the lowest of the mortars over what carries the floor.
func (j *Job) Holding() int {
	if j.Strips == nil {
		return slices.IndexFunc(j.BuildUp, func(l Layer) bool { return l.Kind == "membrane" })
	}
	holds := -1
	for i, l := range j.BuildUp {
		if bedding := l.Kind == "mortar" || l.Kind == "screed"; bedding && (holds < 0 || holds == i-1) {
			holds = i
		}
	}
	return holds
}

// RunUnit is what runs are counted in: pegs, or, where strips hold the cable, cm or inches.
func (j *Job) RunUnit() string {
	switch {
	case j.Strips == nil:
		return "pegs"
	case j.Membrane.Pitch == plane.Inch:
		return "in"
	}
	return "cm"
}
