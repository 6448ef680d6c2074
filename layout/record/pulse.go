package record

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/say"
)

// lightSpeed is the speed of light in mm/ns, exact by the metre's definition.
const lightSpeed = 299.792458

// A dielectric is a core insulation with the range of its relative
// permittivity, from memory.
type dielectric struct {
	name      string
	low, high float64
}

var dielectrics = []dielectric{{"PTFE", 2.1, 2.1}, {"FEP", 2.1, 2.1}, {"PE", 2.3, 2.3}, {"XLPE", 2.3, 2.3},
	{"ETFE", 2.6, 2.6}, {"PVC", 3.5, 5}}

// velocityError is what a velocity factor by the insulation's name alone may be
// off: it differs with the make and with moisture (common practice).
const velocityError = 0.03

// TypedVelocity is a velocity factor without an error of its own: no meter gave
// it, so that it is worth no more than one by the insulation's name.
func TypedVelocity(factor float64) Measured { return Measured{Value: factor, Error: velocityError} }

// Insulations are the names that VelocityOf knows.
func Insulations() []string {
	var out []string
	for _, d := range dielectrics {
		out = append(out, d.name)
	}
	return out
}

// VelocityOf returns the velocity factor of a cable by its core insulation's
// name, letter case apart, with how far it may be off.
func VelocityOf(name string) (Measured, bool) {
	for _, d := range dielectrics {
		if strings.EqualFold(d.name, strings.TrimSpace(name)) {
			slow, fast := velocityFactor(d.high), velocityFactor(d.low)
			return Measured{Value: (slow + fast) / 2, Error: (fast-slow)/2 + velocityError}, true
		}
	}
	return Measured{}, false
}

// velocityFactor returns the speed of a pulse over that of light in a cable
// whose insulation has that relative permittivity.
func velocityFactor(permittivity float64) float64 { return 1 / math.Sqrt(permittivity) }

// EchoTime finds a break or a short from the time in ns after which a
// reflectometer at the lead shows its echo: x = factor c t / 2 - lead.
func (c Cable) EchoTime(t, factor Measured) (Stretch, error) {
	const method = "echo of a pulse, by its time"
	if err := t.check("the echo's time", "ns"); err != nil {
		return Stretch{}, fmt.Errorf("%s: %w", method, err)
	}
	formula := fmt.Sprintf("x = factor × c × t / 2 - lead = %s × %s/ns × %s ns / 2 - %s", say.Working(factor.Value),
		c.far(lightSpeed), say.Working(t.Value), c.far(c.Lead))
	return c.echo(method, formula, factor, t, lightSpeed/2)
}

// EchoDistance finds a break or a short from the distance in mm that a
// reflectometer shows when set to the velocity factor set, which need not be
// the cable's: x = shown factor / set - lead.
func (c Cable) EchoDistance(shown Measured, set float64, factor Measured) (Stretch, error) {
	const method = "echo of a pulse, by the distance shown"
	if err := shown.check("the distance shown", "mm"); err != nil {
		return Stretch{}, fmt.Errorf("%s: %w", method, err)
	}
	if !(set > 0 && set <= 1) {
		return Stretch{}, fmt.Errorf("%s: the velocity factor set is %g; it lies between 0 and 1", method, set)
	}
	formula := fmt.Sprintf("x = shown × factor / set - lead = %s × %s / %s - %s",
		c.far(shown.Value), say.Working(factor.Value), say.Working(set), c.far(c.Lead))
	return c.echo(method, formula, factor, shown, 1/set)
}

// lossyBeyond is the distance in mm beyond which a heating cable's losses make an
// echo doubtful: a few tens of metres, from memory.
const lossyBeyond = 30_000

func (c Cable) echo(method, formula string, factor, reading Measured, scale float64) (Stretch, error) {
	if err := c.check(); err != nil {
		return Stretch{}, fmt.Errorf("%s: %w", method, err)
	}
	if err := factor.check("the velocity factor", "of light"); err != nil || !(factor.Value > 0 && factor.Value <= 1) {
		return Stretch{}, fmt.Errorf("%s: the velocity factor is %g ± %g; it lies between 0 and 1", method,
			factor.Value, factor.Error)
	}
	at := propagate(func(v []float64) float64 { return v[0]*v[1]*scale - c.Lead }, factor, reading)
	s, err := c.stretch(method, formula, at,
		"the pulse runs in the lead as fast as in the heating cable",
		"the velocity factor is the one given; it differs with the insulation and with moisture")
	if err == nil && s.To+c.Lead > lossyBeyond {
		s.Cautions = append([]string{"a heating cable loses much of a pulse: an echo from beyond " +
			c.far(lossyBeyond) +
			" or so is doubtful"}, s.Cautions...)
	}
	return s, err
}
