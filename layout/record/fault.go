package record

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A Cable is what must be known of a cable to find a fault on it.
type Cable struct {
	Length float64 // mm of heating cable
	Ends   circuit.Ends
	Ohms   Measured // when whole, at the lead's ends, leads included; zero: not known
	// of the leads alone, there and back: both conductors of a twin's lead, both leads of a single-conductor cable
	LeadOhms  Measured
	Lead      float64  // mm of one lead, for what is found by time or capacitance
	CoreShare float64  // share of a twin's heating ohms in its first core; 0: a half, both cores alike
	Farads    Measured // nF conductors to braid when whole, leads included; zero: not known

	Feet bool // lengths are written in feet, not metres

	warmed string // how Ohms were brought to another temperature
}

// far writes a length in the cable's unit.
func (c Cable) far(mm float64) string {
	if c.Feet {
		return say.Working(mm/plane.Foot) + " ft"
	}
	return say.Working(mm/plane.Metre) + " m"
}

func (c Cable) check() error {
	if !(c.Length > 0) || math.IsInf(c.Length, 1) {
		return fmt.Errorf("the cable's length is %g mm; it must be above zero", c.Length)
	}
	if !(c.Lead >= 0) || math.IsInf(c.Lead, 1) {
		return fmt.Errorf("the lead's length is %g mm; it cannot be below zero", c.Lead)
	}
	if !(c.CoreShare >= 0 && c.CoreShare < 1) {
		return fmt.Errorf("the first core's share of the ohms is %g; it lies between 0 and 1", c.CoreShare)
	}
	if err := c.Ohms.check("the whole cable's ohms", "Ω"); err != nil {
		return err
	}
	if err := c.LeadOhms.check("the leads' ohms", "Ω"); err != nil {
		return err
	}
	return c.Farads.check("the whole cable's capacitance", "nF")
}

// Core says which conductor of a twin a fault lies on.
type Core int

// The cores of a twin. AnyCore: the method does not tell.
const (
	AnyCore Core = iota
	FirstCore
	ReturnCore
	EitherCore // near the far end, where the error spans both
)

// String returns the core in words, for printing.
func (c Core) String() string {
	return [...]string{"not told by this method", "the core read as A", "the return core, read as B",
		"either core, near the far end"}[c]
}

// A Stretch is where along a cable a fault must lie by one reading.
type Stretch struct {
	Method      string
	Formula     string  // with its figures
	Best        float64 // mm of heating cable from the start of heat, the likeliest place
	From, To    float64 // mm, the fault lies between; 0 <= From <= Best <= To <= length
	Core        Core
	FaultOhms   Measured // resistance of the fault itself where the method gives it
	Assumptions []string
	Cautions    []string
}

// An Elsewhere is the error for a reading that puts the fault off the heating
// cable.
type Elsewhere struct {
	Method string
	InLead bool    // in a cold lead or its joint; false: beyond the end of a twin, where nothing is
	Off    float64 // mm, how far off the heating cable the nearest possible place lies
	off    string  // the same in the cable's unit
}

// Error says where the fault is, or that the reading does not fit.
func (e *Elsewhere) Error() string {
	if e.InLead {
		return fmt.Sprintf("%s: the fault lies off the heating cable, in a cold lead or its joint", e.Method)
	}
	return fmt.Sprintf("%s: the reading puts the fault %s beyond the end of the cable; check the reading, the "+
		"lead taken off and the cable's figures", e.Method, e.off)
}

func (c Cable) elsewhere(method string, inLead bool, off float64) *Elsewhere {
	return &Elsewhere{method, inLead, off, c.rounded(off)}
}

// rounded writes a length as everything else says one of cable.
func (c Cable) rounded(mm float64) string {
	if c.Feet {
		return say.Long(mm, plane.Inches)
	}
	return say.Long(mm, plane.Millimetres)
}

// roughShare is the share of the cable beyond which a stretch is too long to act on.
const roughShare = 0.25

// stretch bounds a distance in mm from the start of heat by the cable's ends.
func (c Cable) stretch(method, formula string, at Measured, assumptions ...string) (Stretch, error) {
	const rounding = 1e-6 // mm
	from, to := at.Value-at.Error, at.Value+at.Error
	switch {
	case math.IsNaN(from) || math.IsNaN(to):
		return Stretch{}, fmt.Errorf("%s: the readings do not give a place", method)
	case to < -rounding:
		return Stretch{}, c.elsewhere(method, true, -to)
	case from > c.Length+rounding:
		return Stretch{}, c.elsewhere(method, c.Ends.Return(), from-c.Length)
	}
	s := Stretch{Method: method, Formula: formula, Assumptions: assumptions}
	s.From, s.Best, s.To = c.clamp(from), c.clamp(at.Value), c.clamp(to)
	return s.finish(c, from < -rounding || to > c.Length+rounding && c.Ends.Return()), nil
}

// onLoop bounds a share of the loop of heating conductor, counted from end A,
// and folds it onto the cable: out along the first core, which takes the share
// first of the loop, and back along the return core. Both ends of a twin's
// loop are the start of heat. A single-conductor cable has nothing to fold.
func (c Cable) onLoop(method, formula string, share Measured, first float64, assumptions ...string) (Stretch, error) {
	if c.Ends.Return() {
		return c.stretch(method, formula, Measured{Value: share.Value * c.Length, Error: share.Error * c.Length},
			assumptions...)
	}
	const rounding = 1e-9
	low, high := share.Value-share.Error, share.Value+share.Error
	switch {
	case math.IsNaN(low) || math.IsNaN(high):
		return Stretch{}, fmt.Errorf("%s: the readings do not give a place", method)
	case high < -rounding || low > 1+rounding:
		return Stretch{}, c.elsewhere(method, true, math.Max(-high, low-1)*c.Length/first)
	}
	s := Stretch{Method: method, Formula: formula, Assumptions: assumptions}
	a, b := fold(low, first)*c.Length, fold(high, first)*c.Length
	s.From, s.Best, s.To = math.Min(a, b), fold(share.Value, first)*c.Length, math.Max(a, b)
	switch {
	case high <= first:
		s.Core = FirstCore
	case low >= first:
		s.Core = ReturnCore
	default:
		s.Core, s.To = EitherCore, c.Length
	}
	return s.finish(c, low < -rounding || high > 1+rounding), nil
}

// fold turns a share of the loop into a share of the cable's length.
func fold(loop, first float64) float64 {
	loop = math.Max(0, math.Min(1, loop))
	if loop <= first {
		return loop / first
	}
	return (1 - loop) / (1 - first)
}

// Meet returns where a fault must lie by several methods at once. The error
// says which two contradict each other.
func (c Cable) Meet(found []Stretch) (Stretch, error) {
	out := found[0]
	for _, s := range found[1:] {
		if s.From > out.To || s.To < out.From {
			return Stretch{}, fmt.Errorf("%s puts the fault between %s and %s, %s between %s and %s: "+
				"both cannot be true of one fault; look at the readings, or for a second fault",
				out.Method, c.rounded(out.From), c.rounded(out.To), s.Method, c.rounded(s.From), c.rounded(s.To))
		}
		out = out.meet(s)
	}
	return out, nil
}

// meet keeps the place of the sharper of two stretches that have a part in
// common.
func (s Stretch) meet(o Stretch) Stretch {
	sharp, other := s, o
	if o.To-o.From < s.To-s.From {
		sharp, other = o, s
	}
	out := sharp
	out.From, out.To = math.Max(s.From, o.From), math.Min(s.To, o.To)
	out.Best = math.Max(out.From, math.Min(out.To, sharp.Best))
	out.Method, out.Formula = s.Method+"; and "+o.Method, s.Formula+"; "+o.Formula
	if out.Core == AnyCore {
		out.Core = other.Core
	}
	if out.FaultOhms == (Measured{}) {
		out.FaultOhms = other.FaultOhms
	}
	out.Assumptions, out.Cautions = union(s.Assumptions, o.Assumptions), union(s.Cautions, o.Cautions)
	return out
}

func union(a, b []string) []string {
	out := append([]string{}, a...)
	for _, s := range b {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

func (c Cable) clamp(mm float64) float64 { return math.Max(0, math.Min(c.Length, mm)) }

// finish adds what is said of every stretch.
func (s Stretch) finish(c Cable, lead bool) Stretch {
	s.Assumptions = append(s.Assumptions, "there is one fault")
	if lead {
		s.Cautions = append(s.Cautions, "the fault may also lie in a cold lead or its joint")
	}
	if s.To-s.From > roughShare*c.Length {
		s.Cautions = append(s.Cautions, fmt.Sprintf("the stretch is %s of the cable: too long to act on; read "+
			"again with a finer instrument or by another method", say.Percent((s.To-s.From)/c.Length)))
	}
	s.Cautions = append(s.Cautions, Cautions()...)
	return s
}

// Cautions returns what is to be said with every stretch.
func Cautions() []string {
	return []string{
		"isolate the circuit and prove it dead first; disconnect thermostat and sensor before any test",
		"confirm the place by a second method (tracing tone, listening, heat) before a tile is lifted",
		"the place is a stretch of cable, not a point; neighbouring runs may lie under the same tile",
		"do not re-energise a circuit that has tripped or failed a test",
		"repair only as the cable's instructions allow",
	}
}
