package layout

import (
	"cmp"
	"math"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A straight is a run in the lattice's frame, mm: from one place along it to another, and how far across.
type straight struct{ from, to, across float64 }

// Strips are those that hold a room's loose cable, as lines on the floor: the first and the last so far from where the
// runs turn as the job has it, those between no farther from one another than it allows, each as long as the
// runs it holds need it. Where other runs turn more than half of that beyond a strip they get one of their own.
func (r *Room) Strips(j *job.Job) (out []plane.Segment) {
	if j.Strips == nil || len(r.Cables) == 0 {
		return nil
	}
	runs, l := r.straights()
	if len(runs) == 0 {
		return nil
	}
	from, to := math.Inf(1), math.Inf(-1)
	for _, s := range runs {
		from, to = min(from, s.from), max(to, s.to)
	}
	from, to = from+j.Strips.FromTurns, to-j.Strips.FromTurns
	n := max(1, math.Ceil((to-from)/j.Strips.Apart-plane.Whit))
	var at []float64
	for k := 0.0; k <= n; k++ {
		at = append(at, from+(to-from)*k/n)
	}
	for _, x := range at {
		out = append(out, held(runs, x, l, j)...)
	}
	for _, end := range []float64{-1, 1} {
		out = append(out, ownStrips(runs, at, end, l, j)...)
	}
	return out
}

// straights are the room's runs in the lattice's frame, the lowest first.
func (r *Room) straights() (out []straight, l route.Lattice) {
	for _, c := range r.Cables {
		l = c.Lattice
		for _, run := range c.Runs {
			a, b := run.From.Sub(l.Origin).Rotate(-l.Angle), run.To.Sub(l.Origin).Rotate(-l.Angle)
			out = append(out, straight{min(a.X, b.X), max(a.X, b.X), a.Y})
		}
	}
	slices.SortStableFunc(out, func(a, b straight) int { return cmp.Compare(a.across, b.across) })
	return out, l
}

// held are the pieces of the strip at x along the runs that hold some of them: it is parted where two that it
// crosses lie more than two of the widest gaps apart. A clip's half is left at either end.
func held(runs []straight, x float64, l route.Lattice, j *job.Job) (out []plane.Segment) {
	var low, high float64
	none := true
	add := func() {
		if !none {
			place := func(y float64) plane.Point { return l.Origin.Add(plane.Pt(x, y).Rotate(l.Angle)) }
			out = append(out, plane.Segment{A: place(low - l.Across/2), B: place(high + l.Across/2)})
		}
	}
	for _, s := range runs {
		if x < s.from+j.Membrane.BendRadius-SamePeg || x > s.to-j.Membrane.BendRadius+SamePeg {
			continue
		}
		if none || s.across-high > 2*j.Far() {
			add()
			low, none = s.across, false
		}
		high = s.across
	}
	add()
	return out
}

// end is where a run turns towards one side: 1 the way it is counted, -1 the other.
func (s straight) end(side float64) float64 {
	if side < 0 {
		return s.from
	}
	return s.to
}

// farFrom reports whether a run turns towards a side far from every strip at places along it that crosses it.
func (s straight) farFrom(at []float64, side float64, j *job.Job) bool {
	near := math.Inf(1)
	for _, x := range at {
		if x >= s.from+j.Membrane.BendRadius && x <= s.to-j.Membrane.BendRadius {
			near = min(near, math.Abs(x-s.end(side)))
		}
	}
	return near > max(j.Strips.Apart/2, j.Strips.FromTurns)+SamePeg
}

// ownStrips are those of runs that turn far from every strip that crosses them, at their ends towards one side: one
// for all that turn about there side by side.
func ownStrips(runs []straight, at []float64, side float64, l route.Lattice, j *job.Job) (out []plane.Segment) {
	var far []straight
	for _, s := range runs {
		if s.farFrom(at, side, j) {
			far = append(far, s)
		}
	}
	for len(far) > 0 {
		group, rest := far[:1:1], []straight(nil)
		for _, s := range far[1:] {
			if math.Abs(s.end(side)-group[0].end(side)) <= j.Strips.FromTurns &&
				s.across-group[len(group)-1].across <= 2*j.Far() {
				group = append(group, s)
			} else {
				rest = append(rest, s)
			}
		}
		inmost := math.Inf(1)
		for _, s := range group {
			inmost = min(inmost, side*s.end(side))
		}
		out, far = append(out, held(group, side*(inmost-j.Strips.FromTurns), l, j)...), rest
	}
	return out
}
