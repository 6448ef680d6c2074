package heat

import (
	"fmt"
	"math"
)

// A Limit is the highest surface temperature a use or a covering allows.
type Limit struct {
	Name    string
	Celsius float64
	Source  string
}

// The comfort limits of EN 1264-2: 9 K over a room at 20 °C, the same over a
// bathroom at 24 °C, 15 K along outside walls. The bathroom's is from memory.
var (
	OccupiedLimit = Limit{"occupied floor", 29, "EN 1264-2"}
	BathroomLimit = Limit{"bathroom", 33, "EN 1264-2, from memory"}
	EdgeLimit     = Limit{"strip up to 1 m wide along outside walls", 35, "EN 1264-2"}
)

// CoveringLimit returns the limit of a floor covering as its instructions or
// the job file give it.
func CoveringLimit(name string, celsius float64, source string) Limit {
	return Limit{name, celsius, source}
}

// A Verdict holds a floor left on without a thermostat against one limit.
type Verdict struct {
	Limit   Limit
	Surface float64 // °C at its warmest, over a cable
	Margin  float64 // K to the limit; negative beyond it
}

// Over reports whether the surface would go beyond the limit.
func (v Verdict) Over() bool { return v.Margin < 0 }

// Words says the verdict for printing, in Fahrenheit or Celsius.
func (v Verdict) Words(us bool) string {
	w := words{us}
	side, margin, rest := "below", v.Margin, ""
	if v.Over() {
		side, margin, rest = "above", -v.Margin, ": the floor thermostat must hold it down"
	}
	return fmt.Sprintf("left on without a thermostat, the surface over a cable would reach %s, %s %s the limit of %s, %s (%s)%s",
		w.temperature(v.Surface), w.difference(math.Round(10*margin)/10), side, w.temperature(v.Limit.Celsius), v.Limit.Name, v.Limit.Source, rest)
}

// Against holds the steady state, in a room at the given temperature in °C,
// against limits: verdicts in the order of the limits. The room's temperature
// is an assumption of the reader's, not a result.
func (s Steady) Against(room float64, limits ...Limit) []Verdict {
	out := make([]Verdict, len(limits))
	for i, l := range limits {
		t := room + s.OverCable
		out[i] = Verdict{l, t, l.Celsius - t}
	}
	return out
}
