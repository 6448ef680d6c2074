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
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// differMost is how many differences a sheet lists; the layout file has all.
const differMost = 8

// differences lists what does not lie where the plan had it, and what is drawn
// as planned because nobody recorded where it lies; nothing when all lies as
// drawn, or nothing is recorded.
func differences(v *floorplan.View) []setting.Block {
	l := setting.List{Head: v.Fig.Text("As laid against the plan")}
	recorded := false
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		if !c.Laid.Recorded() || v.Plan.Job.Info.Status != job.AsLaid {
			continue
		}
		recorded = true
		for k, d := range c.Laid.Differ {
			if k == differMost {
				l.Paras = append(l.Paras, v.Fig.Textf("%s: %d more in the layout file.", c.ID, len(c.Laid.Differ)-k))
				break
			}
			l.Paras = append(l.Paras, v.Fig.Textf("%s%s: %s off, at %s.", v.Prefix(c.ID), d.What,
				v.Fig.Spacing(d.Off),
				v.PlaceWords(d.Laid)))
		}
	}
	if names := unrecorded(v); recorded && len(names) > 0 {
		l.Paras = append(l.Paras, v.Fig.Textf("Drawn as planned, never recorded, and may lie %s off or more: %s.",
			v.Fig.Spacing(layout.UnrecordedError), strings.Join(names, ", ")))
	}
	if len(l.Paras) == 0 {
		return nil
	}
	return []setting.Block{l}
}

// unrecorded names the leads and sensors that nobody recorded.
func unrecorded(v *floorplan.View) []string {
	var out []string
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		if c.Laid == nil || c.Laid.Job.AsPlanned {
			continue
		}
		if len(c.Laid.Job.ColdLead) == 0 {
			out = append(out, v.Fig.Textf("cold lead of %s", c.ID))
		}
		if len(c.Return) > 0 && len(c.Laid.Job.Return) == 0 {
			out = append(out, v.Fig.Textf("second cold lead of %s", c.ID))
		}
	}
	for _, s := range v.Room.Sensors {
		switch {
		case s.Found == nil:
			out = append(out, v.Fig.Textf("%s and its lead", s.Name))
		case !s.FoundLead:
			out = append(out, v.Fig.Textf("lead of %s", s.Name))
		}
	}
	return out
}

// plannedLines draws where the plan had cable that was found to lie elsewhere.
func plannedLines(v *floorplan.View) {
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		if v.Plan.Job.Info.Status == job.AsLaid && c.Laid.Recorded() && len(c.Laid.Differ) > 0 {
			plannedLine(v, c.Laid.Planned, c.Path, c.Laid.Error)
		}
	}
}

// plannedStep is how far apart a planned line is looked at, mm of floor.
const plannedStep = 20.0

// plannedLine draws a planned path, by thin dashes, where it is more than off mm
// from where cable lies.
func plannedLine(v *floorplan.View, planned, lies []plane.Point, off float64) {
	for _, open := range astray(planned, lies, off) {
		line := v.Paper.Pts(open)
		v.Sign(signs.Planned, drawing.LayerCable, "where the plan had cable", drawing.Polyline(line...),
			drawing.HiddenLine(), nil)
		v.Ink.Line(line, lettering.ThinInk)
	}
}

// astray returns the stretches of a planned path that are more than off mm from where cable
// lies.
func astray(planned, lies []plane.Point, off float64) (out [][]plane.Point) {
	var open []plane.Point
	end := func() {
		if len(open) > 1 {
			out = append(out, open)
		}
		open = nil
	}
	for i := 1; i < len(planned); i++ {
		leg := plane.Segment{A: planned[i-1], B: planned[i]}
		n := math.Ceil(leg.Length() / plannedStep)
		for k := 0.0; k <= n; k++ {
			p := leg.A.Lerp(leg.B, k/math.Max(1, n))
			if awayFrom(lies, p) > off {
				open = append(open, p)
			} else {
				end()
			}
		}
	}
	end()
	return out
}

// awayFrom is how far a place is from a line.
func awayFrom(line []plane.Point, p plane.Point) float64 {
	off := math.Inf(1)
	for i := 1; i < len(line); i++ {
		off = math.Min(off, (plane.Segment{A: line[i-1], B: line[i]}).Distance(p))
	}
	return off
}

// stretchOf returns the corners of a cable between two lengths along its path,
// with where it begins and ends there.
func stretchOf(path []plane.Point, bend, from, to float64) []plane.Point {
	if from >= to {
		return nil
	}
	out := []plane.Point{route.Along(path, bend, from)}
	for i, s := range route.Stations(path, bend) {
		if s > from+bend && s < to-bend {
			out = append(out, path[i])
		}
	}
	return append(out, route.Along(path, bend, to))
}
