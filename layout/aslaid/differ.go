package aslaid

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// differShare of a gap off its run is a cable that lies elsewhere.
const differShare = 0.75

// compared lists what does not lie where the plan had it, by more than the
// evidence can tell.
func compared(l *layout.Laid, c *layout.Cable) *layout.Laid {
	if len(l.Path) < 2 || len(l.Planned) < 2 || l.Error == 0 {
		return l
	}
	add(l, language.Say("lead joint"), l.Planned[0], l.Joint)
	for _, run := range layout.Runs(l.Path, c.BendRadius, c.Lattice) {
		if plan, laid, off := farthest(plane.Segment{A: run.From, B: run.To}, l.Planned); off > l.Error {
			l.Differ = append(l.Differ, layout.Difference{What: language.Say("run %s", c.RunName(run.Number)),
				Plan: plan, Laid: laid, Off: off})
		}
	}
	if !l.Whole {
		return l
	}
	for _, run := range layout.Runs(l.Planned, c.BendRadius, c.Lattice) {
		laid, plan, off := farthest(plane.Segment{A: run.From, B: run.To}, l.Path)
		if off > math.Max(l.Error, differShare*c.Spacing) {
			what := language.Say("planned run %s, where no cable lies", c.RunName(run.Number))
			if _, mid, _, _ := plane.Nearest(l.Path, run.From.Lerp(run.To, 0.5)); mid <= l.Error {
				what = language.Say("an end of planned run %s, where no cable lies", c.RunName(run.Number))
			}
			l.Differ = append(l.Differ, layout.Difference{What: what, Plan: plan,
				Laid: laid, Off: off})
		}
	}
	add(l, language.Say("end cap"), l.Planned[len(l.Planned)-1], l.EndCap)
	return l
}

func add(l *layout.Laid, what language.Message, plan plane.Point, laid *plane.Point) {
	if laid == nil {
		return
	}
	if off := laid.Dist(plan); off > l.Error {
		l.Differ = append(l.Differ, layout.Difference{What: what, Plan: plan, Laid: *laid, Off: off})
	}
}

// lookEvery mm of a run it is held against the plan.
const lookEvery = 50.0

// farthest returns the place of a run that lies farthest from a line, looked at
// every 50 mm, with the line's nearest point to it.
func farthest(run plane.Segment, line []plane.Point) (nearest, on plane.Point, off float64) {
	n := math.Ceil(run.Length()/lookEvery) + 1
	for k := range int(n) + 1 {
		p := run.A.Lerp(run.B, float64(k)/n)
		if q, d, _, _ := plane.Nearest(line, p); d > off {
			nearest, on, off = q, p, d
		}
	}
	return nearest, on, off
}
