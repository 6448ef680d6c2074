package heat

import (
	"math"

	"oxturn/layout/language"

	"oxturn/layout/say"
)

// A Limit is the highest surface temperature a use or a covering allows. One
// of comfort is a rise over the air: its temperature holds in a room of Air.
type Limit struct {
	Name    string
	Celsius float64
	Air     float64 // °C that it is made for; 0: the temperature counts, whatever the air
	Source  string
}

// The comfort limits of EN 1264-2: 9 K over a room at 20 °C, the same over a
// bathroom at 24 °C, 15 K along outside walls.
var (
	OccupiedLimit = Limit{"occupied floor", 29, 20, "EN 1264-2"}
	BathroomLimit = Limit{"bathroom", 33, 24, "EN 1264-2"}
	EdgeLimit     = Limit{"strip up to 1 m wide along outside walls", 35, 20, "EN 1264-2"}
)

// CoveringLimit returns the limit of a floor covering as its instructions or
// the job file give it.
func CoveringLimit(name string, celsius float64, source string) Limit {
	return Limit{name, celsius, 0, source}
}

// Rise returns the rise in K over the air that the limit stands for; infinite
// where the temperature alone counts.
func (l Limit) Rise() float64 {
	if l.Air == 0 {
		return math.Inf(1)
	}
	return l.Celsius - l.Air
}

// Words says the limit for printing: 33 °C, 9 °C over air at 24 °C.
func (l Limit) Words(us bool) language.Message {
	w := words{us}
	if l.Air == 0 {
		return w.temperature(l.Celsius).Message()
	}
	return language.Say("%s, %s over air at %s", w.temperature(l.Celsius), w.difference(l.Rise()), w.temperature(l.Air))
}

// Temperature writes °C for printing, in Fahrenheit or Celsius: 84.2 °F.
func Temperature(c float64, us bool) language.Figure { return words{us}.temperature(c) }

// A Verdict holds a floor left on without a thermostat against one limit.
type Verdict struct {
	Limit   Limit
	Surface float64 // °C at its warmest, over a cable
	Rise    float64 // K of that over the air
	Margin  float64 // K to the limit's temperature or to its rise, whichever is less; negative beyond it
}

// Over reports whether the surface would go beyond the limit.
func (v Verdict) Over() bool { return v.Margin < 0 }

// shownTenth K is the least that a tenth shows.
const shownTenth = 0.05

// MarginWords says how far the surface stays below the limit, or goes above
// it: "2.3 °C above". What a tenth does not show is called less than one.
func (v Verdict) MarginWords(us bool) language.Message {
	k, unit := math.Abs(v.Margin), "°C"
	if us {
		k, unit = say.Fahrenheits*k, "°F"
	}
	by := language.Figure(say.Tenths(k) + " " + unit).Message()
	if k < shownTenth {
		by = language.Say("less than %s", language.Figure("0.1 "+unit))
	}
	switch {
	case k == 0:
		return language.Say("just at")
	case v.Over():
		return language.Say("%s above", by)
	}
	return language.Say("%s below", by)
}

// Words says the verdict for printing, in Fahrenheit or Celsius.
func (v Verdict) Words(us bool) language.Message {
	w := words{us}
	said := language.Say("left on without a thermostat, the surface over a cable would reach %s, %s over the air, %s "+
		"the limit of %s, %s (%s)",
		w.temperature(v.Surface), w.tenthsOver(v.Rise), v.MarginWords(us), language.Say(v.Limit.Name),
		v.Limit.Words(us), language.Say(v.Limit.Source))
	if v.Over() {
		return language.Say("%s: the floor thermostat must hold it down", said)
	}
	return said
}

// Against holds the steady state, in a room at the given temperature in °C,
// against limits: verdicts in the order of the limits. The room's temperature
// is an assumption of the reader's, not a result.
func (s Steady) Against(room float64, limits ...Limit) []Verdict {
	out := make([]Verdict, len(limits))
	for i, l := range limits {
		t := room + s.OverCable
		out[i] = Verdict{l, t, s.OverCable, math.Min(l.Celsius-t, l.Rise()-s.OverCable)}
	}
	return out
}
