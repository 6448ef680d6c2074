package route

import (
	"slices"

	"oxturn/layout/plane"
)

// Steps are the work that routes may cost, counted and never timed: a slow
// machine looks as far as a quick one and no farther.
type Steps struct {
	left  int
	given []string
}

// A floor gets the same for every cable and more for every peg: on 40 rooms of
// all shapes the most that a cable asked for is 25 million, on a star of 12 points more
// than 120 million.
const (
	stepsACable = 150_000_000
	stepsAPeg   = 2_000
)

// StepsFor returns the work for so many cables on floor, with pegs a pitch
// apart, times share.
func StepsFor(floor []plane.Region, pitch float64, cables int, share float64) *Steps {
	pegs := 0.0
	for _, z := range floor {
		pegs += z.Area() / (pitch * pitch)
	}
	return &Steps{left: int(share * (float64(cables)*stepsACable + float64(stepsAPeg*pegs)))}
}

// Add puts the steps of another purse into this one.
func (s *Steps) Add(other *Steps) { s.left += other.left }

// Copy returns as many steps for something that is only tried: what it spends and gives up is
// not these steps' own. It is nil for nil.
func (s *Steps) Copy() *Steps {
	if s == nil {
		return nil
	}
	return &Steps{left: s.left}
}

// GivenUp says in words what was left out when the steps were spent, each thing
// once, and forgets it.
func (s *Steps) GivenUp() []string {
	given := s.given
	s.given = nil
	return given
}

func (s *Steps) giveUp(what string) {
	if !slices.Contains(s.given, what) {
		s.given = append(s.given, what)
	}
}

// spent reports whether there is nothing left, and notes what is given up then.
func (s *Steps) spent(what string) bool {
	if s.left > 0 {
		return false
	}
	s.giveUp(what)
	return true
}

// allot returns the part of the steps for the first of several shares of floor
// that are still to be laid: what one leaves over is for those after it.
func (r *room) allot(still []share) int {
	area := 0.0
	for _, sh := range still {
		area += sh.region.Area()
	}
	if area == 0 {
		return r.steps.left
	}
	return int(float64(r.steps.left) * still[0].region.Area() / area)
}

// spend takes the work of sweeps off a laying's steps and the room's, and
// reports whether any are left to it.
func (r *room) spend(l *laying, ways ...*way) bool {
	out := false
	for _, w := range ways {
		l.steps -= w.sweep.work
		r.steps.left -= w.sweep.work
		out = out || w.sweep.out()
	}
	return l.steps > 0 && !out
}
