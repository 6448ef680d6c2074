package job

import (
	"slices"

	"oxturn/layout/plane"
)

// stretches keeps those pieces between cuts whose middle is in the room.
func (r *Room) stretches(s plane.Segment, cuts []float64) [][2]float64 {
	slices.Sort(cuts)
	var out [][2]float64
	for i := 1; i < len(cuts); i++ {
		a, b := cuts[i-1], cuts[i]
		if b-a > rounding && r.Outline.Contains(s.At((a+b)/2)) {
			out = append(out, [2]float64{a, b})
		}
	}
	return out
}
