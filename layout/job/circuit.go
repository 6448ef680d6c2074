package job

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// A Circuit is a branch circuit as the electrician has settled it. Nothing of
// it is ever chosen here; what is 0 or empty was not given.
type Circuit struct {
	Name           string
	Breaker        float64 // A
	Conductor      string  // a size of circuit.Conductors
	Length         float64 // mm one way, from where the circuit starts to its farthest thermostat
	Celsius        float64 // of the conductor, where CelsiusGiven
	CelsiusGiven   bool
	GroundFault    float64 // mA at which its device trips
	GroundFaultsAt string  // "thermostat" or "breaker"
	Span           Span
	Spans          Spans
}

func circuitKeys() []Key {
	return under(Key{Path: "circuit", Type: TypeTables,
		Doc:     "A branch circuit as the electrician has settled it; nothing of it is chosen here",
		Example: "[[circuit]]\nname = \"7\"\nbreaker = 20"},
		Key{Path: "name", Type: TypeText, Required: true,
			Doc: "Its number at the panel, consumer unit or distribution board", Example: `name = "7"`},
		Key{Path: "breaker", Type: TypeNumber, Limits: Limits{Above: true, Max: 1000},
			Otherwise: "the load is held against every usual rating", Doc: "Rating of its breaker, in A",
			Example: "breaker = 20"},
		Key{Path: "conductor", Type: TypeChoice, Values: conductorSizes(), Otherwise: "no voltage drop is worked out",
			Doc: "Size of its copper conductor", Example: `conductor = "12 AWG"`},
		Key{Path: "length", Type: TypeLength, Limits: overZero,
			Doc:     "One way, from the panel, consumer unit or distribution board to its farthest thermostat",
			Example: `length = "60 ft"`},
		Key{Path: "conductor_temperature", Type: TypeTemperature, Limits: Limits{Min: -40, Max: 150},
			Otherwise: "that of the conductor's own table, 75 °C for AWG and 20 °C for mm²",
			Doc:       "Temperature of the conductor under load", Example: `conductor_temperature = "70 C"`},
		Key{Path: "ground_fault", Type: TypeNumber, Limits: Limits{Above: true, Max: 10000},
			Doc: "Current at which its ground-fault device trips, in mA", Example: "ground_fault = 5"},
		Key{Path: "ground_fault_at", Type: TypeChoice, Values: []string{"thermostat", "breaker"},
			Otherwise: "left for the electrician to fill in", Doc: "Where that device sits",
			Example: `ground_fault_at = "thermostat"`},
	)
}

func conductorSizes() []string {
	var out []string
	for _, c := range circuit.Conductors {
		out = append(out, typed(c.Size))
	}
	return out
}

// typed writes a size as a keyboard does.
func typed(size string) string { return strings.ReplaceAll(size, "²", "2") }

// conductorNamed returns the size of circuit.Conductors that is typed so.
func conductorNamed(s string) string {
	for _, c := range circuit.Conductors {
		if typed(c.Size) == s {
			return c.Size
		}
	}
	return ""
}

// readCircuits reads the circuits, before the rooms whose thermostats name
// them.
func (j *Job) readCircuits(top table) {
	seen := namesSeen{}
	all := top.each("circuit")
	if len(all) > maxThings {
		top.errorf("circuit", "split the job into several files", "the job has %d circuits; %d are taken at most",
			len(all), maxThings)
		all = all[:maxThings]
	}
	for _, t := range all {
		seen.check(t, "name", t.text("name"), "circuit")
		if !t.broken() && t.has("conductor") != t.has("length") {
			t.errorf("name", "give both, or neither",
				"circuit %q has one of conductor and length; the voltage drop needs both", t.text("name"))
		}
		j.Circuits = append(j.Circuits, Circuit{
			Name: t.text("name"), Breaker: t.num("breaker"), Conductor: conductorNamed(t.text("conductor")),
			Length:  t.num("length"),
			Celsius: t.num("conductor_temperature"), CelsiusGiven: t.has("conductor_temperature"),
			GroundFault: t.num("ground_fault"), GroundFaultsAt: t.text("ground_fault_at"), Span: t.span(),
			Spans: t.spans(),
		})
	}
}

// Region returns the region whose ratings and words the job goes by.
func (j *Job) Region() circuit.Region {
	return circuit.RegionNamed(j.Supply.Region, j.Units == plane.Inches || j.mainsOfAmerica())
}

// mainsLow is above the voltages of 100 to 127 V that people are supplied with in
// North America, and below those elsewhere.
const mainsLow = 150.0

// mainsOfAmerica reports whether what the job is wired with tells of North
// America: a conductor by its gauge, or a low supply; where no supply is given, a
// cable for one. Its rules are the stricter ones for a breaker, so that a slip here
// errs on the safe side.
func (j *Job) mainsOfAmerica() bool {
	low := func(volts float64) bool { return volts > 0 && volts < mainsLow }
	for _, c := range j.Circuits {
		if strings.Contains(c.Conductor, "AWG") {
			return true
		}
	}
	if j.Supply.Volts > 0 { // a catalogue has cables for other supplies too
		return low(j.Supply.Volts)
	}
	return slices.ContainsFunc(j.Cables, func(c Cable) bool { return low(c.Volts) })
}

// Circuit returns the circuit that feeds a thermostat: the one it names, or
// the job's only one; nil for none.
func (j *Job) Circuit(t Thermostat) *Circuit {
	for i := range j.Circuits {
		if j.Circuits[i].Name == t.Circuit || t.Circuit == "" && len(j.Circuits) == 1 {
			return &j.Circuits[i]
		}
	}
	return nil
}

// checkCircuits looks up the circuits that thermostats name.
func (j *Job) checkCircuits(top table) {
	var names []string
	for _, c := range j.Circuits {
		names = append(names, c.Name)
	}
	for _, room := range top.each("room") {
		t := room.sub("thermostat")
		name := t.text("circuit")
		if name == "" || j.Circuit(Thermostat{Circuit: name}) != nil {
			continue
		}
		hint := "add [[circuit]] with that name"
		if near := nearest(name, names); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		t.errorf("circuit", hint, "the job has no circuit %q", name)
	}
}
