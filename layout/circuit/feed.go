package circuit

import "fmt"

// A Conductor is one size of copper conductor with its resistance by a
// published table.
type Conductor struct {
	Size     string  // "12 AWG", "2.5 mm²"
	Standard string  // the table the figure is from
	OhmsPerM float64 // at the table's own temperature
	At       float64 // °C, the table's own temperature
}

const (
	chapter9 = "NEC chapter 9 table 8, solid uncoated copper, 75 °C"
	iec60228 = "IEC 60228 class 1 and 2, plain copper, maximum at 20 °C"
	perKft   = 1 / 304.8 // Ω per 1000 ft in Ω/m
	perKm    = 1e-3      // Ω per km in Ω/m
)

// Conductors are the sizes a feed may be worked out for.
var Conductors = []Conductor{
	{"14 AWG", chapter9, 3.07 * perKft, 75},
	{"12 AWG", chapter9, 1.93 * perKft, 75},
	{"10 AWG", chapter9, 1.21 * perKft, 75},
	{"1 mm²", iec60228, 18.1 * perKm, 20},
	{"1.5 mm²", iec60228, 12.1 * perKm, 20},
	{"2.5 mm²", iec60228, 7.41 * perKm, 20},
	{"4 mm²", iec60228, 4.61 * perKm, 20},
	{"6 mm²", iec60228, 3.08 * perKm, 20},
}

// A Convention moves a copper resistance from one temperature to another.
// Published conventions differ by about 0.3 % between 70 and 75 °C, so a
// result names the one it used.
type Convention struct {
	Name  string
	Alpha float64 // per kelvin, of the resistance at Base
	Base  float64 // °C
}

// The three conventions in print for copper.
var (
	// Copper20 is 0.00393 per kelvin at 20 °C, annealed copper.
	Copper20 = Convention{"0.00393/K at 20 °C", 0.00393, 20}
	// CopperIEC is the annex of IEC 60228, (230 + t)/250.
	CopperIEC = Convention{"IEC 60228 annex, (230 + t)/250", 1.0 / 250, 20}
	// CopperNEC is the note to NEC chapter 9 table 8, 0.00323 per kelvin at 75 °C.
	CopperNEC = Convention{"NEC chapter 9 table 8 note, 0.00323/K at 75 °C", 0.00323, 75}
)

// Factor returns what a resistance at from °C is multiplied by to get the one
// at to °C. Copper only: heating conductors are alloys.
func (c Convention) Factor(from, to float64) float64 {
	return (1 + c.Alpha*(to-c.Base)) / (1 + c.Alpha*(from-c.Base))
}

// A Drop is the voltage lost on a feed.
type Drop struct {
	Volts      float64
	Share      float64 // of the supply
	At         float64 // conductor °C
	Standard   string
	Convention string // "" when the table's own temperature was used
}

// FindConductor returns the conductor of a size as Conductors writes it.
func FindConductor(size string) (Conductor, error) {
	for _, c := range Conductors {
		if c.Size == size {
			return c, nil
		}
	}
	return Conductor{}, fmt.Errorf("no resistance is on file for a conductor of %q", size)
}

// Between these, in °C, copper is taken to gain resistance evenly.
const coldest, hottest = -100, 250

// FeedDrop returns the drop along a single-phase feed of one-way length mm
// that carries amps at volts, its copper at °C at: 2 L I R'. The size is the
// caller's; none is ever proposed.
func FeedDrop(c Conductor, by Convention, at, amps, volts, length float64) (Drop, error) {
	if !usable(amps) || !usable(length) || !usable(volts) || volts == 0 || !(at > coldest && at < hottest) {
		return Drop{}, fmt.Errorf("feed of %g A at %g V over %g mm at %g °C: a figure is not usable", amps, volts,
			length, at)
	}
	d := Drop{At: at, Standard: c.Standard}
	perMetre := c.OhmsPerM
	if at != c.At {
		perMetre *= by.Factor(c.At, at)
		d.Convention = by.Name
	}
	d.Volts = 2 * length / 1000 * amps * perMetre
	d.Share = d.Volts / volts
	return d, nil
}
