package job

import (
	"math"

	"oxturn/layout/plane"
)

// A Tape is a room's walls as they are being measured: where each begins as the
// tape has it, nothing shared out yet.
type Tape struct {
	Points []plane.Point // the start of each wall and the end of the last, mm
	Slips  []string      // for each wall what cannot be read of it, else empty
	Miss   float64       // from the last point to the first, mm
	Again  int           // the wall that alone could be wrong by the miss, from 0; -1: none stands out
	Along  []int         // all walls along which the miss lies, from 0
}

// TapeOf lays walls as typed, such as "east 9ft 4in", end to end. A bare number is in
// the units given.
func TapeOf(walls []string, units plane.Units) Tape {
	rd := &reader{units: units}
	t := Tape{Points: []plane.Point{{}}, Again: -1}
	var legs []leg
	for _, w := range walls {
		l, err := rd.parseLeg(w)
		slip := ""
		if err != nil {
			slip, l = err.message, leg{}
		}
		legs = append(legs, l)
		t.Slips = append(t.Slips, slip)
		t.Points = append(t.Points, t.Points[len(t.Points)-1].Add(l.vector()))
	}
	miss := t.Points[0].Sub(t.Points[len(t.Points)-1])
	t.Miss = miss.Norm()
	if t.Along = along(legs, miss); len(t.Along) == 1 {
		t.Again = t.Along[0]
	}
	return t
}

// tapeShare is within how much of the miss one wall's length must take it back: the rest
// is what tapes miss by anyhow.
const tapeShare = 0.35

// along finds the walls along which the miss lies, longer or shorter: if two do, either
// may be the wrong one, and none stands out. A gross error in one length shows as a miss
// along that line (surveying: the bearing of the error of closure, common practice).
func along(legs []leg, miss plane.Point) (out []int) {
	for i, l := range legs {
		v := l.vector()
		if v.Norm() == 0 || miss.Norm() == 0 {
			continue
		}
		if off := math.Abs(v.Cross(miss)) / (v.Norm() * miss.Norm()); off <= tapeShare {
			out = append(out, i)
		}
	}
	return out
}
