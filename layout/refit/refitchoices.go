package refit

import (
	"errors"
	"fmt"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// A Choice is a way out where the rest finds no route, and what it takes.
type Choice struct {
	Way
	Lifted  float64 // mm of cable in the runs to lift
	Floor   float64 // mm² of the area to give up
	Remains float64 // mm of cable that would still find no place: then it is no way out
	Lacks   float64 // mm by which it would still be too short to cover the floor: no way out either
}

// take takes a way out.
func (f *Refit) take(way Way) error {
	f.WayOut = way
	switch n := len(f.Room.Job.Low); {
	case way.Lift < 0 || way.Lift > f.Runs:
		return fmt.Errorf("%s can't be lifted: %s of cable %s %s laid", say.Counted(way.Lift, "run"),
			say.Counted(f.Runs, "run"), f.Planned.ID, say.Are(f.Runs))
	case way.GiveUp < 0 || way.GiveUp > n:
		return fmt.Errorf("there is no low-value area %d to give up: room %q has %d", way.GiveUp, f.Room.Job.Name, n)
	}
	if way.Lift > 0 {
		before := f.Used
		f.Laid, f.Runs = f.without(way.Lift), f.Runs-way.Lift
		f.reckon()
		f.Lifted = before - f.Used
	}
	if way.GiveUp > 0 {
		zone := f.sparing(f.Room.Job.Low[way.GiveUp-1])
		if zone == nil {
			return fmt.Errorf("low-value area %d is no part of the floor of cable %s, or nearly all of it", way.GiveUp,
				f.Planned.ID)
		}
		f.Spared, f.floor = f.floor.Area()-zone.Area(), zone
	}
	return nil
}

// open says what a way out takes; the error says why the rest finds no route by it.
func (f *Refit) open(way Way) (Choice, error) {
	after := *f
	way.Once = f.WayOut.Once
	if err := after.take(way); err != nil {
		return Choice{}, err
	}
	_, err := after.solve(after.Laid, after.floor, way.Lift < f.Runs)
	return Choice{Way: way, Lifted: after.Lifted, Floor: after.Spared}, err
}

// choices looks for ways out, each tried before it is offered: laid runs to lift, a
// low-value area to leave bare, or else what length would be over or lacking.
func (f *Refit) choices(why error) {
	all, none := f.fewestLifted()
	if none == nil {
		f.Choices = append(f.Choices, all)
	}
	for i := range f.Room.Job.Low {
		if c, err := f.open(Way{GiveUp: i + 1}); err == nil {
			f.Choices = append(f.Choices, c)
		}
	}
	if c, ok := f.over(why); ok {
		f.Choices = append(f.Choices, c)
	} else if c, ok := f.over(none); ok && len(f.Choices) == 0 && f.Laid != nil {
		c.Lift = f.Runs
		f.Choices = append(f.Choices, c)
	}
}

// lengthRules reports whether a refusal is for the cable's length alone: then no
// other way over the same floor helps.
func (f *Refit) lengthRules(why error) bool {
	_, ok := f.over(why)
	return ok
}

// over says how much cable would be over or lacking, where that is why there is
// no route.
func (f *Refit) over(why error) (Choice, bool) {
	var ref *route.Refusal
	if !errors.As(why, &ref) || ref.Longest <= 0 {
		return Choice{}, false
	}
	switch n := f.whole(); {
	case n > ref.Longest:
		return Choice{Remains: f.Rate * (n - ref.Longest)}, true
	case n < ref.Shortest:
		return Choice{Lacks: f.Rate * (ref.Shortest - n)}, true
	}
	return Choice{}, false
}

// why says why the rest finds no route, in lengths of cable as it is read off.
func (f *Refit) why(err error, u plane.Units) string {
	words := err.Error()
	var ref *route.Refusal
	if errors.As(err, &ref) && ref.Longest > 0 {
		most, least := say.About(float64(f.Rate*ref.Longest)+f.Slip, u), say.About(float64(f.Rate*ref.Shortest)+
			f.Slip, u)
		switch n := f.whole(); {
		case n > ref.Longest:
			words = fmt.Sprintf("cable %s is too long: with the closest gaps allowed, what is laid and the floor "+
				"that is left take %s at most", f.Planned.ID, most)
		case n < ref.Shortest:
			words = fmt.Sprintf("cable %s is too short: with the widest gaps allowed, what is laid and the floor "+
				"that is left take %s at least", f.Planned.ID, least)
		case ref.Shortest <= 0:
			words = fmt.Sprintf("no way was found to lay just what is left of cable %s, though what is laid and the "+
				"floor that is left take up to %s", f.Planned.ID, most)
		default:
			words = fmt.Sprintf("no way was found to lay just what is left of cable %s, though what is laid and the "+
				"floor that is left take %s to %s", f.Planned.ID, least, most)
		}
	}
	if f.hotter() {
		return fmt.Sprintf("at this rate the power limit asks for %d pegs over the two gaps beside a run, %d as "+
			"drawn, and so: %s", f.twoGaps(f.Rate), f.twoGaps(1), words)
	}
	return words
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

// fewestLifted finds about how few runs must be lifted, for each is work on knees
// and wear on the cable. All of them are tried first: where that gives no rest, its
// refusal is returned, and nothing else is looked for. Tries double, then halve
// twice, so that the answer comes in seconds.
func (f *Refit) fewestLifted() (Choice, error) {
	if f.Laid == nil {
		return Choice{}, errNothingLaid
	}
	return fewest(f.Runs, func(n int) (Choice, error) { return f.open(Way{Lift: n}) })
}

// fewest finds about how few runs of so many must be lifted for a rest to be found.
func fewest(runs int, open func(lift int) (Choice, error)) (Choice, error) {
	best, err := open(runs)
	if err != nil {
		return best, err
	}
	refused := 0
	for n := 1; n < best.Lift; n *= 2 {
		c, err := open(n)
		if err == nil {
			best = c
			break
		}
		refused = n
	}
	for range 2 {
		n := (refused + best.Lift) / 2
		if n <= refused {
			break
		}
		if c, err := open(n); err == nil {
			best = c
		} else {
			refused = n
		}
	}
	return best, nil
}

var errNothingLaid = errors.New("nothing is laid that could be lifted")

// without returns the laid part less its last n runs; nil when nothing is left.
func (f *Refit) without(n int) []plane.Point {
	rs := layout.Runs(f.Laid, f.Planned.BendRadius, f.Planned.Lattice)
	if n >= len(rs) {
		return nil
	}
	return f.Laid[:rs[len(rs)-1-n].Leg+1]
}
