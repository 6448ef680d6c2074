package circuit

import (
	"fmt"
	"math"
)

// A Load is what one thermostat feeds, its cables side by side on the supply.
type Load struct {
	Cables     int
	Volts      float64
	Watts      float64
	Amps       float64
	Continuous float64 // Amps times what the region multiplies a continuous load by
	Region     Region
	Ohms       float64 // of all cables in parallel
	Contacts   float64 // rating of the thermostat's contacts in A, 0: not stated
	Margin     float64 // Contacts less Amps; 0 when not stated
	Needs      string  // "", "a relay" or "a relay or a second thermostat"
}

// Total adds up the cables on one thermostat. contacts is its rating in amps,
// 0: not stated; the region says how a continuous load counts. Cables of unlike
// voltage on one thermostat are an error.
func Total(cables []Cable, contacts float64, in Region) (Load, error) {
	if !usable(contacts) {
		return Load{}, fmt.Errorf("a thermostat rating of %g A is not a usable figure", contacts)
	}
	l := Load{Cables: len(cables), Contacts: contacts, Region: in}
	siemens := 0.0
	for _, c := range cables {
		if l.Volts != 0 && c.Volts != l.Volts {
			return Load{}, fmt.Errorf("cables %s (%g V) and %s (%g V) cannot share a supply: each takes only its own "+
				"voltage",
				cables[0].ID, l.Volts, c.ID, c.Volts)
		}
		l.Volts = c.Volts
		l.Watts += c.Watts
		siemens += 1 / c.Nominal
	}
	if len(cables) == 0 {
		return l, nil
	}
	l.Amps = l.Watts / l.Volts
	l.Continuous = l.Amps * in.Continuous.Value
	l.Ohms = 1 / siemens
	l.judgeContacts(cables)
	return l, nil
}

// judgeContacts says what is needed when the thermostat's contacts are too
// small. Contacts are held against the plain load everywhere: their rating
// is for continuous use (common practice). A second thermostat helps only when
// no single cable is too much for one.
func (l *Load) judgeContacts(cables []Cable) {
	if l.Contacts == 0 {
		return
	}
	l.Margin = l.Contacts - l.Amps
	if within(l.Amps, l.Contacts) {
		return
	}
	l.Needs = "a relay or a second thermostat"
	for _, c := range cables {
		if !within(c.Amps, l.Contacts) {
			l.Needs = "a relay"
		}
	}
}

// within reports v <= limit, exactly at the limit included despite rounding.
func within(v, limit float64) bool { return v <= limit*(1+limitRounding) }

// A Binding says, for one breaker rating, which rating is reached first.
// It is information for the electrician, who chooses.
type Binding struct {
	Breaker float64 // A
	Usable  float64 // A of continuous load: all of Breaker, or 80 % by North American rules
	Limit   float64 // A, the smaller of Usable and the thermostat's contacts
	Binds   string  // "breaker", "thermostat contacts" or "both alike"
	Watts   float64 // Limit at the load's volts
	Under   bool    // the load is at or below Limit
}

// Bindings returns one row per breaker rating in amps.
func (l Load) Bindings(breakers []float64) []Binding {
	out := make([]Binding, len(breakers))
	for i, b := range breakers {
		row := Binding{Breaker: b, Usable: b / l.Region.Continuous.Value, Binds: "breaker"}
		row.Limit = row.Usable
		switch {
		case l.Contacts == 0 || l.Contacts > row.Usable*(1+limitRounding):
		case l.Contacts < row.Usable*(1-limitRounding):
			row.Limit, row.Binds = l.Contacts, "thermostat contacts"
		default:
			row.Binds = "both alike"
		}
		row.Watts = row.Limit * l.Volts
		row.Under = within(l.Amps, row.Limit)
		out[i] = row
	}
	return out
}

// AreaAt returns the largest heated area in mm² that one row's limit feeds at
// a density in W/m²; 0 when the density is not usable.
func (b Binding) AreaAt(density float64) float64 {
	if !usable(density) || density == 0 {
		return 0
	}
	return math.Max(0, b.Watts/density*1e6)
}
