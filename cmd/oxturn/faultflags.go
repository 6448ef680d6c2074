package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/record"
)

// A faultOrder is what the flags of fault ask for.
type faultOrder struct {
	cable, dir, format, plan                                string
	short, earth, murray, varley, break1, break2, ns, echo  string
	wholeOhms, wholeFarads, leadOhms, velocity, meter, lead string
	set, coreShare, meterShare, warmer, perKelvin           float64
}

func (o *faultOrder) flags(f *verbFlags) {
	for name, to := range map[string]*string{
		"cable": &o.cable, "plan": &o.plan, "short": &o.short, "earth": &o.earth, "murray": &o.murray,
		"varley":      &o.varley,
		"capacitance": &o.break1, "capacitance-ends": &o.break2, "echo-time": &o.ns, "echo-distance": &o.echo,
		"whole-ohms": &o.wholeOhms, "whole-capacitance": &o.wholeFarads, "lead-ohms": &o.leadOhms,
		"velocity": &o.velocity, "lead": &o.lead,
	} {
		f.text(to, name)
	}
	f.format(&o.format)
	f.folder(&o.dir)
	f.StringVar(&o.meter, "meter-error", "1%", "")
	f.Float64Var(&o.set, "set", 0, "")
	f.Float64Var(&o.warmer, "warmer", 0, "")
	f.Float64Var(&o.perKelvin, "per-kelvin", 0, "")
	f.Float64Var(&o.coreShare, "core-share", 0, "")
}

// A method finds a fault on a cable.
type method func(record.Cable) (record.Stretch, error)

// method reads the one method the flags give.
func (o *faultOrder) method() (method, error) {
	share, err := percent(o.meter)
	if err != nil || share < 0 || share > 0.5 {
		return nil, fmt.Errorf("--meter-error %q is not a share such as 1%%", o.meter)
	}
	o.meterShare = share
	found, err := o.given()
	switch {
	case err != nil:
		return nil, err
	case len(found) == 0:
		return nil, fmt.Errorf("give one reading, such as --short 19.0 or --capacitance 3.15")
	case (o.ns != "" || o.echo != "") && o.velocity == "":
		return nil, fmt.Errorf("an echo needs --velocity, the cable's own factor")
	}
	if _, err := o.factor(); err != nil {
		return nil, err
	}
	return func(c record.Cable) (record.Stretch, error) {
		var out []record.Stretch
		for _, find := range found {
			s, err := find(c)
			if err != nil {
				return s, err
			}
			out = append(out, s)
		}
		return c.Meet(out)
	}, nil
}

// given reads every method that a flag asks for.
func (o *faultOrder) given() (found []method, err error) {
	for _, w := range o.ways() {
		if w.text == "" {
			continue
		}
		v, err := o.figures(w.flag, w.text, w.figures)
		if err != nil {
			return nil, err
		}
		found = append(found, func(c record.Cable) (record.Stretch, error) { return w.find(c, v) })
	}
	if o.echo != "" {
		m, err := o.echoDistance()
		if err != nil {
			return nil, err
		}
		found = append(found, m)
	}
	return found, nil
}

// A way is a method that takes figures alone, as its flag's text has them.
type way struct {
	flag, text string
	figures    int
	find       func(record.Cable, []record.Measured) (record.Stretch, error)
}

func (o *faultOrder) ways() []way {
	type (
		cable   = record.Cable
		figures = []record.Measured
		stretch = record.Stretch
	)
	return []way{
		{"short", o.short, 1, func(c cable, v figures) (stretch, error) { return c.Short(v[0]) }},
		{"earth", o.earth, 3, func(c cable, v figures) (stretch, error) { return c.EarthReadings(v[0], v[1], v[2]) }},
		{"murray", o.murray, 2, func(c cable, v figures) (stretch, error) {
			return c.Murray(v[0], v[1],
				record.Measured{})
		}},
		{"varley", o.varley, 4, func(c cable, v figures) (stretch, error) { return c.Varley(v[0], v[1], v[2], v[3]) }},
		{"capacitance", o.break1, 1, func(c cable, v figures) (stretch, error) { return c.Break(v[0]) }},
		{"capacitance-ends", o.break2, 2, func(c cable, v figures) (stretch, error) {
			return c.BreakBothWays(v[0],
				v[1])
		}},
		{"echo-time", o.ns, 1, o.echoTime},
	}
}

func (o *faultOrder) echoTime(c record.Cable, v []record.Measured) (record.Stretch, error) {
	factor, err := o.factor()
	if err != nil {
		return record.Stretch{}, err
	}
	return c.EchoTime(v[0], factor)
}

func (o *faultOrder) echoDistance() (method, error) {
	mm, err := plane.ParseLength(o.echo, plane.NoUnits)
	if err != nil {
		return nil, fmt.Errorf("--echo-distance %q: %w", o.echo, err)
	}
	if !(o.set > 0) {
		return nil, fmt.Errorf("--echo-distance needs --set, the velocity factor that the instrument was set to")
	}
	shown := record.Measured{Value: mm, Error: o.meterShare * mm}
	return func(c record.Cable) (record.Stretch, error) {
		factor, err := o.factor()
		if err != nil {
			return record.Stretch{}, err
		}
		return c.EchoDistance(shown, o.set, factor)
	}, nil
}

// factor reads the velocity factor, or takes it from the core insulation named.
func (o *faultOrder) factor() (record.Measured, error) {
	if m, ok := record.VelocityOf(o.velocity); ok {
		return m, nil
	}
	m, err := o.measured("velocity", o.velocity)
	if err != nil {
		return m, fmt.Errorf("--velocity: %q is neither a figure such as 0.66 nor an insulation: %s", o.velocity,
			strings.Join(record.Insulations(), ", "))
	}
	if m.Value > 0 && !strings.ContainsAny(o.velocity, "±+") {
		m = record.TypedVelocity(m.Value)
	}
	return m, nil
}

// figures reads so many figures with commas between them.
func (o *faultOrder) figures(name, text string, n int) ([]record.Measured, error) {
	parts := strings.Split(text, ";")
	if len(parts) == 1 && n > 1 {
		parts = strings.Split(text, ",")
	}
	if len(parts) != n {
		return nil, fmt.Errorf("--%s takes %d with commas between them, or with semicolons where decimals have "+
			"commas, not %q", name, n, text)
	}
	var out []record.Measured
	for _, p := range parts {
		v, err := o.measured(name, p)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

// measured reads a figure with its error: 19.0, 19.0+-0.2, 19.0±1%. Empty text
// is the zero figure.
func (o *faultOrder) measured(name, text string) (record.Measured, error) {
	if text = strings.TrimSpace(text); text == "" {
		return record.Measured{}, nil
	}
	figure, spread, given := strings.Cut(strings.ReplaceAll(text, "±", "+-"), "+-")
	v, err := decimal(figure)
	if err != nil {
		return record.Measured{}, fmt.Errorf("--%s: %q is not a figure such as 19.0 or 19.0+-0.2", name, text)
	}
	if !given {
		return record.MeterReading(v, o.meterShare, 1, step(figure)), nil
	}
	m, ok := offBy(v, figure, strings.TrimSpace(spread))
	if !ok {
		return m, fmt.Errorf("--%s: %q is not an error such as +-0.2 or +-1%%", name, strings.TrimSpace(spread))
	}
	return m, nil
}

// offBy is a reading with what it may be off: a figure, or a share of it.
func offBy(v float64, figure, spread string) (m record.Measured, ok bool) {
	if strings.HasSuffix(spread, "%") {
		share, err := percent(spread)
		return record.MeterReading(v, share, 1, step(figure)), err == nil
	}
	e, err := decimal(spread)
	return record.Measured{Value: v, Error: e}, err == nil && e >= 0
}

// step is the last place of a figure as it was read off: 0.1 of 19.0. A
// display may be off by one of them beyond its share of the reading.
func step(figure string) float64 {
	_, places, _ := strings.Cut(strings.ReplaceAll(strings.TrimSpace(figure), ",", "."), ".")
	return math.Pow10(-len(places))
}

// percent reads 1% or 0.01.
func percent(s string) (float64, error) {
	figure, isPercent := strings.CutSuffix(strings.TrimSpace(s), "%")
	v, err := decimal(figure)
	if isPercent {
		v /= 100
	}
	return v, err
}

// decimal reads a figure with a decimal point or comma.
func decimal(s string) (float64, error) {
	s, err := plane.PointForComma(strings.TrimSpace(s))
	if err != nil {
		return 0, err
	}
	return strconv.ParseFloat(s, 64)
}
