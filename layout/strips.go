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

// ownStrips are those of runs that turn far from every strip that crosses them, at their ends towards one side: one
// for all that turn about there side by side.
func ownStrips(runs []straight, at []float64, side float64, l route.Lattice, j *job.Job) (out []plane.Segment) {
	var far []straight
	for _, s := range runs {
		end := s.to
		if side < 0 {
			end = s.from
		}
		near := math.Inf(1)
		for _, x := range at {
			if x >= s.from+j.Membrane.BendRadius && x <= s.to-j.Membrane.BendRadius {
				near = min(near, math.Abs(x-end))
			}
		}
		if near > max(j.Strips.Apart/2, j.Strips.FromTurns)+SamePeg {
			far = append(far, s)
		}
	}
	for len(far) > 0 {
		first, rest := far[0], []straight(nil)
		group, last := []straight{first}, first
		for _, s := range far[1:] {
			alike := math.Abs(s.to-first.to) <= j.Strips.FromTurns
			if side < 0 {
				alike = math.Abs(s.from-first.from) <= j.Strips.FromTurns
			}
			if alike && s.across-last.across <= 2*j.Far() {
				group, last = append(group, s), s
			} else {
				rest = append(rest, s)
			}
		}
		x := slices.MinFunc(group, func(a, b straight) int { return cmp.Compare(a.to, b.to) }).to - j.Strips.FromTurns
		if side < 0 {
			x = slices.MaxFunc(group, func(a, b straight) int {
				return cmp.Compare(a.from,
					b.from)
			}).from + j.Strips.FromTurns
		}
		out, far = append(out, held(group, x, l, j)...), rest
	}
	return out
}
