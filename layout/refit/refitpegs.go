package refit

import (
	"math"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// lattice is the grid of pegs as it lies.
func (f *Refit) lattice() route.Lattice {
	l := f.Planned.Lattice
	if is := f.Planned.Laid.Job.Issued; is != nil && is.Pegs != nil {
		l.Origin, l.Angle = is.Pegs.Origin, is.Pegs.Angle
	}
	if at := f.Planned.Laid.Job.FirstPeg; at != nil {
		l.Origin = *at
	}
	return l
}

// OnPegs puts the laid part and the plan on the pegs that are really there:
// corners taped by hand on the nearest, a plan's runs where the grid has them.
func (f *Refit) OnPegs(l *layout.Laid) {
	grid := f.lattice()
	if len(l.Job.Corners) > 0 {
		f.Laid = plane.Corners(snapped(l.Path, grid))
	}
	best := -1
	for _, s := range f.shifts(l) {
		plan := plane.Corners(plane.Moved(l.Planned, s))
		if n := f.sound(plan); n > best {
			best, f.plan = n, plan
			if len(l.Path) > 1 && len(l.Job.Corners) == 0 {
				f.Laid = plane.Corners(plane.Moved(l.Path, s))
			}
		}
	}
	f.drawn, f.plan = f.plan, f.onward(f.plan)
}

// shifts are the ways from the plan's pegs to the real ones. A laid part has
// gone to the nearest; before anything is laid, each of the four round about
// will do.
func (f *Refit) shifts(l *layout.Laid) []plane.Point {
	if l.Job.FirstPeg == nil || len(l.Job.Corners)+len(l.Job.Legs) > 0 {
		return []plane.Point{{}}
	}
	grid, was := f.lattice(), f.Planned.Lattice
	if is := l.Job.Issued; is != nil && is.Pegs != nil {
		was.Origin, was.Angle = is.Pegs.Origin, is.Pegs.Angle
	}
	u, v := was.ToPegs(*l.Job.FirstPeg)
	u, v = u-math.Round(u), v-math.Round(v)
	var out []plane.Point
	for _, d := range [][2]float64{{u, v}, {u - math.Copysign(1, u), v}, {u, v - math.Copysign(1, v)},
		{u - math.Copysign(1, u), v - math.Copysign(1, v)}} {
		out = append(out, grid.Offset(d[0], d[1]))
	}
	if len(l.Path) > 1 {
		return out[:1]
	}
	return out
}

func snapped(path []plane.Point, grid route.Lattice) []plane.Point {
	out := make([]plane.Point, len(path))
	for i, p := range path {
		u, v := grid.ToPegs(p)
		out[i] = grid.ToWorld(math.Round(u), math.Round(v))
	}
	return out
}

// straightOn is the cosine from which on two links go one way.
const straightOn = 0.999

// onward returns the plan's path with the laid part at its head; nil where the
// laid part does not end on the plan, so that nothing of it can be kept.
func (f *Refit) onward(plan []plane.Point) []plane.Point {
	if f.Laid == nil {
		return plan
	}
	end := f.Laid[len(f.Laid)-1]
	before := f.Laid[len(f.Laid)-2]
	for i := 1; i < len(plan); i++ {
		leg := plane.Segment{A: plan[i-1], B: plan[i]}
		if leg.Distance(end) > layout.SamePeg || leg.B.Sub(leg.A).Unit().Dot(end.Sub(before).Unit()) < straightOn {
			continue
		}
		rest := plan[i:]
		if leg.B.Dist(end) <= layout.SamePeg {
			rest = plan[i+1:]
		}
		if f.apart(f.Laid, rest) {
			return plane.Corners(append(f.Laid[:len(f.Laid):len(f.Laid)], rest...))
		}
	}
	return nil
}

// apart reports whether what the plan goes on with keeps the closest gap from
// the laid part that it joins.
func (f *Refit) apart(laid, rest []plane.Point) bool {
	least := f.Job.Near() - layout.SamePeg
	line := append(laid[len(laid)-1:len(laid):len(laid)], rest...)
	for i := 1; i < len(laid)-1; i++ {
		for k := 1; k < len(line); k++ {
			if (plane.Segment{A: laid[i-1], B: laid[i]}).Gap(plane.Segment{A: line[k-1], B: line[k]}) < least {
				return false
			}
		}
	}
	return true
}

// sound returns how many of the runs of a path, from the first, lie on floor
// where cable may lie, and at the rate found keep the power limit. Laid ones are
// there, whatever they lie on.
func (f *Refit) sound(path []plane.Point) int {
	zone, all := f.Room.Zones[f.Planned.Zone], plane.Segments(path)
	rs := layout.Runs(path, f.Planned.BendRadius, f.Planned.Lattice)
	for n, r := range rs {
		from := 1
		if n > 0 {
			from = rs[n-1].Leg + 1
		}
		for i := from; i <= r.Leg && n >= f.Runs; i++ {
			if !inside(plane.Segment{A: path[i-1], B: path[i]}, zone) {
				return n
			}
		}
		if n >= f.Runs && !route.Cool(all[from-1:r.Leg], all, f.bothGaps(), f.links()) {
			return n
		}
	}
	return len(rs)
}

// intrusion is the laid run that lies farthest out of the floor for cable, as where
// the pegs came to lie elsewhere, and by how much, mm; 0: none does by samePeg.
func (f *Refit) intrusion() (run int, off float64) {
	zone := f.Room.Zones[f.Planned.Zone]
	off = layout.SamePeg
	for _, r := range layout.Runs(f.Laid, f.Planned.BendRadius, f.Planned.Lattice) {
		leg := plane.Segment{A: r.From, B: r.To}
		for s := 0.0; s <= leg.Length(); s += 10 {
			if out := -zone.Depth(leg.At(s)); out > off {
				run, off = r.Number, out
			}
		}
	}
	return run, off
}

// inside reports whether a leg lies in a zone, looked at every 10 mm.
func inside(leg plane.Segment, zone plane.Region) bool {
	n := math.Ceil(leg.Length()/10) + 1
	for k := 0.0; k <= n; k++ {
		if zone.Depth(leg.A.Lerp(leg.B, k/n)) < -layout.SamePeg/2 {
			return false
		}
	}
	return true
}

// Before is the path as it was to be, on the real pegs: the plan's, with the
// laid part at its head.
func (f *Refit) Before() []plane.Point {
	if f.plan != nil {
		return f.plan
	}
	return f.Planned.Laid.Planned
}
