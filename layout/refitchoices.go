package layout

import (
	"errors"

	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// A RefitChoice is a way out where the rest finds no route.
type RefitChoice struct {
	Lift    int     // laid runs to take up, from the last
	Lifted  float64 // mm of cable in them
	Area    int     // low-value area to leave without cable, from 1; 0: none
	Floor   float64 // mm² of that
	Remains float64 // mm of cable that would find no place, where nothing else helps
	Lacks   float64 // mm by which it is too short to cover the floor, where nothing else helps
}

// choices looks for ways out: laid runs to lift, a low-value area to leave
// bare, or else what length would be over or lacking.
func (f *Refit) choices(why error) {
	for _, n := range liftTried {
		if n > f.Runs || f.Laid == nil {
			break
		}
		rest := f.without(n)
		if _, err := f.solve(rest, f.floor); err == nil {
			f.Choices = append(f.Choices, RefitChoice{Lift: n, Lifted: f.Rate * (f.Way - pathLength(rest, f.Planned.BendRadius))})
			break
		}
	}
	for i, low := range f.Room.Job.Low {
		if zone := f.sparing(low); zone != nil {
			if _, err := f.solve(f.Laid, zone); err == nil {
				f.Choices = append(f.Choices, RefitChoice{Area: i + 1, Floor: f.floor.Area() - zone.Area()})
			}
		}
	}
	var ref *route.Refusal
	if errors.As(why, &ref) && ref.Longest > 0 {
		switch n := f.whole(); {
		case n > ref.Longest:
			f.Choices = append(f.Choices, RefitChoice{Remains: f.Rate * (n - ref.Longest)})
		case n < ref.Shortest:
			f.Choices = append(f.Choices, RefitChoice{Lacks: f.Rate * (ref.Shortest - n)})
		}
	}
}

// sparing is the floor without a low-value area; its largest part where that
// cuts it. nil: the area is not of this floor, or is most of it.
func (f *Refit) sparing(low plane.Ring) plane.Region {
	bare, err := f.floor.Less(plane.FromRing(low))
	if err != nil || bare.Area() > f.floor.Area()-1 {
		return nil
	}
	for _, part := range bare {
		if zone := (plane.Region{part}); zone.Area() > bare.Area()/2 {
			return zone
		}
	}
	return nil
}

// liftTried are the numbers of runs that lifting is tried with: few first, for
// each is work on knees and wear on the cable.
var liftTried = []int{1, 2, 3, 4, 6, 8, 11, 15, 20, 30}

// without returns the laid part less its last n runs; nil when nothing is left.
func (f *Refit) without(n int) []plane.Point {
	rs := runs(f.Laid, f.Planned.BendRadius, f.pitch())
	if n >= len(rs) {
		return nil
	}
	return f.Laid[:rs[len(rs)-1-n].leg+1]
}
