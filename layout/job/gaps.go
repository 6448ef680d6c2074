package job

import (
	"fmt"
	"math"

	"oxturn/layout/plane"
)

// How many of the wider pitch the closest gap and the widest are where a job with two pitches leaves them out: as many
// as where there is one.
const (
	closestPitches = 2
	widestPitches  = 4
)

// readGaps reads the gaps of a lattice whose pegs lie otherwise one way than the other.
func (j *Job) readGaps(s table) {
	j.Spacing.Closest, j.Spacing.Widest = 0, 0
	j.Spacing.Least, j.Spacing.Most = s.num("closest_gap"), s.num("widest_gap")
	if !s.has("closest_gap") {
		j.Spacing.Least = closestPitches * j.Peg()
	}
	if !s.has("widest_gap") {
		j.Spacing.Most = widestPitches * j.Peg()
	}
}

// checkGaps refuses gaps that such pegs cannot hold.
func (j *Job) checkGaps(m, s table) {
	counted := j.countedGaps(m, s)
	if sp := j.Spacing; sp.Least > sp.Most {
		s.errorf("closest_gap", "swap them, or leave one out", "closest_gap = %s is more than widest_gap = %s",
			s.length(sp.Least), s.length(sp.Most))
		counted = true
	}
	if counted || j.betweenPegs(s) {
		s.spoil()
		return
	}
	j.checkBends(m, s)
}

// countedGaps refuses gaps that are counted in pegs, and reports whether there are any.
func (j *Job) countedGaps(m, s table) (any bool) {
	for _, key := range []string{"closest", "widest"} {
		if !s.has(key) {
			continue
		}
		any = true
		hint := func(peg float64) string {
			return fmt.Sprintf("write %s_gap as a length instead, such as %s_gap = %q", key, key,
				s.length(float64(s.whole(key))*peg))
		}
		if j.Strips != nil {
			s.errorf(key, hint(j.Membrane.Across), "%s is counted in pegs, and with [strips] there are none", key)
			continue
		}
		s.errorf(key, hint(j.Peg()),
			"%s = %d is counted in pegs, but those are %s apart along the roll and %s across it", key,
			s.whole(key), m.length(j.Membrane.PegPitch()), m.length(j.Membrane.Across))
	}
	return any
}

// betweenPegs refuses gaps between which no whole number of pegs or clips lies, and reports whether that is so.
func (j *Job) betweenPegs(s table) bool {
	pitch, across, sp := j.Membrane.Pitch, j.Membrane.Across, j.Spacing
	const hint = "make closest_gap less or widest_gap more"
	switch {
	case pegsBetween(sp, across) > 0:
		return false
	case j.Strips != nil:
		s.errorf("closest_gap", hint, "no whole number of clips lies between %s and %s: %d make %s and one more %s",
			s.length(sp.Least), s.length(sp.Most), below(sp, across), s.length(gapBelow(sp, across)),
			s.length(gapBelow(sp, across)+across))
		return true
	case pegsBetween(sp, pitch) > 0:
		return false
	}
	s.errorf("closest_gap", hint, "no whole number of pegs lies between %s and %s: one way %d make %s and one more "+
		"%s, the other %d make %s and one more %s",
		s.length(sp.Least), s.length(sp.Most), below(sp, pitch), s.length(gapBelow(sp, pitch)),
		s.length(gapBelow(sp, pitch)+pitch), below(sp, across), s.length(gapBelow(sp, across)),
		s.length(gapBelow(sp, across)+across))
	return true
}

// checkBends refuses bends of which no two have room in the closest gap.
func (j *Job) checkBends(m, s table) {
	bend, least := j.Membrane.BendRadius, j.Spacing.Least
	if 2*bend <= least+lengthRounding {
		return
	}
	var notes []Note
	if s.has("closest_gap") {
		notes = []Note{{s.at("closest_gap"), "the closest gap is set here"}}
	}
	m.with("bend_radius", "make the bend radius "+m.length(least/2)+" or less, or the closest gap more", notes,
		"two bends of radius %s need a gap of %s, but the closest gap is %s", m.length(bend), m.length(2*bend),
		m.length(least))
}

// pegsBetween is how many gaps of whole pegs a pitch makes between the closest and the widest.
func pegsBetween(sp Spacing, pitch float64) int {
	return max(0, int(math.Floor(sp.Most/pitch+plane.Whit))-int(math.Ceil(sp.Least/pitch-plane.Whit))+1)
}

// below is how many whole pegs a pitch has in less than the closest gap.
func below(sp Spacing, pitch float64) int { return int(math.Ceil(sp.Least/pitch-plane.Whit)) - 1 }

func gapBelow(sp Spacing, pitch float64) float64 { return float64(below(sp, pitch)) * pitch }
