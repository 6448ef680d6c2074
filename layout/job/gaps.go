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
	pitch, across, sp := j.Membrane.Pitch, j.Membrane.Across, j.Spacing
	refused := false
	for _, key := range []string{"closest", "widest"} {
		if s.has(key) && j.Strips != nil {
			s.errorf(key, fmt.Sprintf("write %s_gap as a length instead, such as %s_gap = %q", key, key,
				s.length(float64(s.whole(key))*across)), "%s is counted in pegs, and with [strips] there are none", key)
			refused = true
		} else if s.has(key) {
			s.errorf(key, fmt.Sprintf("write %s_gap as a length instead, such as %s_gap = %q", key, key,
				s.length(float64(s.whole(key))*j.Peg())),
				"%s = %d is counted in pegs, but those are %s apart along the roll and %s across it", key, s.whole(key),
				m.length(j.Membrane.PegPitch()), m.length(across))
			refused = true
		}
	}
	if sp.Least > sp.Most {
		s.errorf("closest_gap", "swap them, or leave one out", "closest_gap = %s is more than widest_gap = %s",
			s.length(sp.Least), s.length(sp.Most))
		refused = true
	}
	if refused {
		s.spoil()
		return
	}
	if j.Strips != nil && pegsBetween(sp, across) == 0 {
		s.errorf("closest_gap", "make closest_gap less or widest_gap more",
			"no whole number of clips lies between %s and %s: %d make %s and one more %s", s.length(sp.Least),
			s.length(sp.Most), below(sp, across), s.length(gapBelow(sp, across)), s.length(gapBelow(sp, across)+across))
		s.spoil()
		return
	}
	if pegsBetween(sp, pitch) == 0 && pegsBetween(sp, across) == 0 {
		s.errorf("closest_gap", "make closest_gap less or widest_gap more",
			"no whole number of pegs lies between %s and %s: one way %d make %s and one more %s, the other %d make "+
				"%s and one more %s",
			s.length(sp.Least), s.length(sp.Most), below(sp, pitch), s.length(gapBelow(sp, pitch)),
			s.length(gapBelow(sp, pitch)+pitch), below(sp, across), s.length(gapBelow(sp, across)),
			s.length(gapBelow(sp, across)+across))
		s.spoil()
		return
	}
	if 2*j.Membrane.BendRadius > sp.Least+lengthRounding {
		var notes []Note
		if s.has("closest_gap") {
			notes = []Note{{s.at("closest_gap"), "the closest gap is set here"}}
		}
		m.with("bend_radius", "make the bend radius "+m.length(sp.Least/2)+" or less, or the closest gap more", notes,
			"two bends of radius %s need a gap of %s, but the closest gap is %s", m.length(j.Membrane.BendRadius),
			m.length(2*j.Membrane.BendRadius), m.length(sp.Least))
	}
}

// pegsBetween is how many gaps of whole pegs a pitch makes between the closest and the widest.
func pegsBetween(sp Spacing, pitch float64) int {
	return max(0, int(math.Floor(sp.Most/pitch+plane.Whit))-int(math.Ceil(sp.Least/pitch-plane.Whit))+1)
}

// below is how many whole pegs a pitch has in less than the closest gap.
func below(sp Spacing, pitch float64) int { return int(math.Ceil(sp.Least/pitch-plane.Whit)) - 1 }

func gapBelow(sp Spacing, pitch float64) float64 { return float64(below(sp, pitch)) * pitch }
