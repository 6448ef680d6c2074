package job

import (
	"strconv"
	"strings"

	"oxturn/layout/circuit"
)

// A Sensor is the kind of floor sensor, the same all over the job.
type Sensor struct {
	Family    circuit.Family // its name empty: not given
	Tolerance float64        // K that a reading may be off the floor's temperature
	Source    Source         // where the kind was read
}

// sensorKeys: a sensor in its tube and a thermometer on the tile differ easily
// by 3 K (common practice).
func sensorKeys() []Key {
	return under(Key{Path: "sensor", Type: TypeTable,
		Doc:     "The kind of floor sensor, by its instructions: what it should read, and whether it does",
		Example: "[sensor]\nkind = \"10k-3977\""},
		Key{Path: "kind", Type: TypeChoice, Values: sensorKinds(), Required: true,
			Doc: "Its family, or table for one that is given by a table of its own", Example: `kind = "10k-3977"`},
		Key{Path: "table", Type: TypeTexts, Least: 2,
			Doc:     "Of kind table: a temperature and its ohms, as often as its instructions give them",
			Example: `table = ["10 C 19900", "20 C 12490", "30 C 8057"]`},
		Key{Path: "tolerance", Type: TypeNumber, Limits: Limits{Above: true, Max: 50}, Default: "3",
			Doc: "By how many K a reading may miss the floor's temperature", Example: "tolerance = 2"},
		Key{Path: "from", Type: TypeChoice, Values: []string{"job file", "label", "instructions"},
			Default: `"job file"`, Doc: "Where the kind was read", Example: `from = "instructions"`},
	)
}

func sensorKinds() []string {
	var out []string
	for _, f := range circuit.Families() {
		out = append(out, f.Name)
	}
	return append(out, "table")
}

func (j *Job) readSensor(t table) {
	if t.n == nil || t.broken() {
		return
	}
	j.Sensor = Sensor{Tolerance: t.num("tolerance"), Source: sourceNamed(t.text("from"))}
	isTable := t.text("kind") == "table"
	switch {
	case isTable && !t.has("table"):
		t.errorf("kind", "add "+t.key("table").Example, "a sensor of kind \"table\" needs its table")
	case t.has("table") && !isTable:
		t.errorf("table", "take kind = \"table\", or leave the table out",
			"a table goes with kind = \"table\", not with %q", t.text("kind"))
	case isTable:
		j.Sensor.Family = tableFamily(t)
	default:
		j.Sensor.Family, _ = circuit.FindFamily(t.text("kind")) // a choice of the keys is one of them
	}
}

// tableFamily reads a sensor's own table, each line a temperature and ohms.
func tableFamily(t table) circuit.Family {
	var points []circuit.RT
	for i, line := range t.texts("table") {
		p, bad := tablePoint(line, t.key("table"))
		if bad != nil {
			t.spoil()
			t.rd.report.Errorf(t.atItem("table", i), `write a temperature, then its ohms: "20 C 12490"`, "%s",
				bad.message)
			return circuit.Family{}
		}
		if tableOhms.judge(p.Ohms) == absurdFigure {
			t.spoil()
			t.rd.report.Errorf(t.atItem("table", i), ohmsHint(p.Ohms), "%q gives %s ohms; %s (%s)", line,
				figure(p.Ohms),
				strings.Replace(tableOhms.says, "%s", measureUnits["Ω"].span(tableOhms.low, tableOhms.high,
					t.rd.drawingUnits()), 1), tableOhms.source)
			return circuit.Family{}
		}
		points = append(points, p)
	}
	curve, err := circuit.NewTable(points)
	if err != nil {
		t.spoil()
		t.errorf("table", "look at its lines again", "%v", err)
		return circuit.Family{}
	}
	low, high := curve.Range()
	if low > floorWarm || high < floorCool {
		t.spoil()
		t.errorf("table", `write the unit that its temperatures are in, "68 F 12490" or "20 C 12490", and lines for `+
			`a floor's`,
			"the sensor's table runs from %s to %s °C, but floors are read between %s and %s °C", figure(low),
			figure(high), figure(floorCool), figure(floorWarm))
		return circuit.Family{}
	}
	return circuit.Family{
		Name:  "table",
		About: "by its own table, " + figure(low) + " to " + figure(high) + " °C", Source: "table of the job file",
		Curve: curve,
	}
}

// A warmed floor's sensor is read between these, °C (common practice).
const floorCool, floorWarm = 10.0, 40.0

// ohmsHint says what ohms that no sensor has were meant as.
func ohmsHint(ohms float64) string {
	if tableOhms.judge(1000*ohms) == usualFigure {
		return "are they in kΩ? " + figure(1000*ohms) + " ohms would be usual"
	}
	return `write a temperature, then its ohms: "20 C 12490"`
}

func tablePoint(line string, k Key) (circuit.RT, *valueError) {
	line = strings.TrimSpace(line)
	cut := strings.LastIndexByte(line, ' ')
	if cut < 0 {
		return circuit.RT{}, wrong("%q is not a temperature and its ohms", line)
	}
	celsius, bad := temperature(line[:cut], k)
	if bad != nil {
		return circuit.RT{}, wrong("%q does not begin with a temperature such as \"68 F\" or \"20 C\"", line)
	}
	ohms, err := strconv.ParseFloat(line[cut+1:], 64)
	if err != nil {
		return circuit.RT{}, wrong("%q does not end with ohms", line)
	}
	return circuit.RT{Celsius: celsius, Ohms: ohms}, nil
}
