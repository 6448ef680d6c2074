package figures

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
)

const folder = "../../testdata/jobs"

func plan(t *testing.T, text string) *layout.Plan {
	t.Helper()
	j, report := job.Read("job.toml", []byte(text),
		func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, n)) })
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, found := build.Plan(j)
	for _, d := range found {
		if d.Severity == job.Error {
			t.Fatal(d)
		}
	}
	return p
}

func example(t *testing.T, name string) *layout.Plan {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatal(err)
	}
	return plan(t, string(data))
}

func text(t *testing.T, r *Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := r.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A cable of 96 ohms and 240 V has 600 W and 2.5 A; -5/+10 % are 91.2 and 105.6
// ohms; 240²/91.2 = 631.6 W and 545.5 W; in 60 m 10 W/m; 2.5 A, which counts as it is in Europe (IEC 60364-4-43,
// 433.1). A lead of
// 4 m less 1.2 m, 0.2 m and 0.1 m reaches 2.5 m. All by hand.
const bath = `units = "mm"
[membrane]
pitch = 30
[supply]
volts = 240
max_density = "200 W/m2"
max_density_from = "label"
region = "europe"
[sensor]
kind = "pt1000"
from = "instructions"
[[circuit]]
name = "7"
breaker = 16
conductor = "2.5 mm2"
length = "20 m"
ground_fault = 30
ground_fault_at = "breaker"
[energy]
tariff = 0.5
currency = "EUR"
[[layer]]
kind = "tile"
thickness = 10
[[layer]]
kind = "membrane"
thickness = 5
placed = 2026-12-01
cure_days = 7
[[layer]]
kind = "wood"
thickness = 19
[tile]
grouted = 2026-12-04
grout_cure = 3
[warmth]
covering = "vinyl"
covering_limit = "27 C"
[[cable]]
id = "A240-60"
volts = 240
watts = 600
ohms = 96
tolerance = [-0.05, 0.10]
tolerance_from = "label"
length = "60 m"
lead = "4 m"
[[room]]
name = "Bath"
corners = [[0, 0], [2850, 0], [2850, 2100], [0, 2100]]
cables = ["A240-60"]
[room.thermostat]
wall = "A"
from = 1400
`

func TestFiguresByHand(t *testing.T) {
	r := Of(plan(t, bath))
	room := r.Rooms[0]
	c, l := room.Cables[0], room.Cables[0].Lead
	drop := r.Circuits[0].Drop
	for _, f := range []struct {
		name              string
		got, want, within float64
	}{
		{"amps", c.Amps, 2.5, 1e-9}, {"least ohms", c.Ohms.Low, 91.2, 1e-9}, {"most ohms", c.Ohms.High, 105.6, 1e-9},
		{"most heat", c.Ohms.Most, 631.6, 0.05}, {"least heat", c.Ohms.Least, 545.5, 0.05}, {"W/m", c.WattsPerMetre, 10,
			1e-9},
		{"reach", l.Reach, 2500, 1e-9}, {"left", l.Left + l.Used, 2500, 0.11},
		{"amps to carry", room.Thermostat.Continuous, 2.5, 1e-9},
		{"contacts to spare", room.Thermostat.Margin, 13.5, 1e-9}, {"floor", room.Floor, 5.985, 1e-9},
		{"heat", c.Spacing.Density, 10 / c.Spacing.Even * 1000, 0.1}, {"all of 16 A", r.Circuits[0].Ratings[0].Usable,
			16, 1e-9},
		{"drop", drop.Volts, 2 * 20 * 2.5 * 7.41e-3, 5e-4},
		{"drop, %", drop.Percent, 100 * 2 * 20 * 2.5 * 7.41e-3 / 240, 5e-4},
		{"pt1000 at 20 °C", r.Sensor.Expected[2].Ohms, 1077.9, 0.06}, {"kWh an hour", r.Energy[0].PerHour, 0.6, 1e-9},
		{"price", *r.Energy[0].Price, 0.3, 1e-9},
		{"always on, a month", r.Energy[0].AlwaysCost[1], 0.5 * r.Energy[0].AlwaysOn[1], 1e-9},
	} {
		if math.Abs(f.got-f.want) > f.within {
			t.Errorf("%s: %g, want %g", f.name, f.got, f.want)
		}
	}
	if r.FullUse.Date != "2026-12-08" || r.FullUse.By != "membrane" {
		t.Errorf("%+v", r.FullUse)
	}
	if l := r.Warmth.Surfaces[0].Limits[0]; l.Name != "vinyl" || l.Limit != 27 || l.Source != "job file" {
		t.Errorf("%+v", l)
	}
}

// Every limit is printed with where it comes from.
func TestTextNamesSources(t *testing.T) {
	got := text(t, Of(plan(t, bath)))
	for _, want := range []string{
		"supply          240 V (job file)",
		"200 W/m² at most, locally and overall, at even spacing and over the heated floor", "96.0 Ω at 20 °C (label)",
		"limits 91.2 to 105.6 Ω, -5/+10 % (label)",
		"less rise 1200 mm (default)", "16 A (job file): circuit-breaker and contacts bind alike, at 16 A",
		"16 A (default)", "trips at 30 mA, at the circuit-breaker (job file)", "Sensor pt1000 (instructions)",
		"vinyl (job file)", "occupied floor (EN 1264-2)", "Earliest full use: 2026-12-08, by the membrane",
		"7 days (job file), placed 2026-12-01",
		"IEC 60364-7-753:2014", "To buy", "judged by area",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	if t.Failed() {
		t.Log(got)
	}
}

// The words stay what they are allowed to be: nothing is safe, compliant or
// approved, and no breaker, conductor or device is recommended.
func TestTextClaimsNothing(t *testing.T) {
	claim := regexp.MustCompile(`(?i)\bsafe\b|compl(ies|iant|iance)|recommend|guarantee`)
	for _, name := range []string{"bath.toml", "kitchen.toml", "entry.toml"} {
		if got := text(t, Of(example(t, name))); claim.MatchString(got) {
			t.Errorf("%s: %q", name, claim.FindString(got))
		}
	}
}

// The JSON form reads back as what it was, and every figure's key ends in its
// unit or says that it is a number of things.
func TestJSONReadsBack(t *testing.T) {
	unit := regexp.MustCompile(
		`(` +
			strings.Join(strings.Fields(`_mm _m2 _m _w_m2 _w _kwh _price _a _v _c _k _h _min _ma _percent _pegs ohms volts
			watts amps w_m _run price days packs schema runs cables leads tiles boxes _deg ends value waste net gross pack spare _125_percent`), "|") + `)$`)
	for _, name := range []string{"bath.toml", "kitchen.toml", "entry.toml"} {
		r := Of(example(t, name))
		var b, again bytes.Buffer
		if err := r.WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		var back Report
		dec := json.NewDecoder(bytes.NewReader(b.Bytes()))
		dec.DisallowUnknownFields()
		if err := dec.Decode(&back); err != nil {
			t.Fatal(err)
		}
		if err := back.WriteJSON(&again); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			t.Errorf("%s: reads back otherwise: %v", name, err)
		}
		var tree any
		if err := json.Unmarshal(b.Bytes(), &tree); err != nil {
			t.Fatal(err)
		}
		walk(tree, "", func(key string) {
			if !unit.MatchString(key) {
				t.Errorf("%s: the figure %q has no unit in its name", name, key)
			}
		})
	}
}

// walk visits the keys of all numbers.
func walk(v any, key string, visit func(string)) {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			walk(x, k, visit)
		}
	case []any:
		for _, x := range v {
			walk(x, key, visit)
		}
	case float64:
		visit(key)
	}
}

// A job of the least there may be has all its lines.
func TestBareJob(t *testing.T) {
	bare := bath[:strings.Index(bath, "[supply]")] + bath[strings.Index(bath, "[[cable]]"):]
	laid := plan(t, bare)
	laid.Shifts = build.ShiftsLaid(laid)
	got := text(t, Of(laid))
	for _, want := range []string{"not given, the labels' own is assumed", "no limit is given", "not named by the job",
		"its kind is not given", "the job gives no layers", "laid anew"} {
		if !strings.Contains(got, want) {
			t.Errorf("the report does not say %q in\n%s", want, got)
		}
	}
	for _, line := range strings.Split(got, "\n") {
		if strings.Contains(line, "NaN") || strings.Contains(line, "Inf") || strings.TrimRight(line, " ") != line {
			t.Errorf("%q", line)
		}
	}
}

// Nothing that is no number gets into a report.
func TestRound(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1)} {
		if got := round(v, "2"); got != 0 || math.Signbit(got) {
			t.Errorf("%g: %g", v, got)
		}
	}
	if round(2.345678, "2") != 2.35 || round(-2.345678, "2") != -2.35 {
		t.Error("rounds otherwise")
	}
}

// The corners of taped walls are those of the adjusted room: by the compass
// rule a gap of 8 mm east over 10 000 mm round moves the corner after 3000 mm by
// 2.4 mm, that after 5000 mm by 4 mm and that after 8008 mm by 6.4 mm.
func TestCornersOfTheAdjustedRoom(t *testing.T) {
	walls := `walls = ["east 3000", "north 2000", "west 2992", "south 2000"]`
	r := Of(plan(t, strings.Replace(bath, outlineOfBath(t), walls, 1)))
	round := 9992.0
	want := []Corner{{"A", 0, 0}, {"B", 3000 - 8*3000/round, 0}, {"C", 3000 - 8*5000/round, 2000},
		{"D", 8 - 8*7992/round, 2000}}
	for i, c := range r.Rooms[0].Corners {
		if c.Wall != want[i].Wall || math.Abs(c.X-want[i].X) > 0.01 || math.Abs(c.Y-want[i].Y) > 0.01 {
			t.Errorf("%+v, want %+v", c, want[i])
		}
	}
	if got := text(t, r); !strings.Contains(got, "C starts at (2996 mm, 2000 mm)") || !strings.Contains(got,
		"the 8 mm by which the walls as taped missed their start") {
		t.Error(got)
	}
}

// outlineOfBath is the line of the bath that gives its corners.
func outlineOfBath(t *testing.T) string {
	t.Helper()
	for _, line := range strings.Split(bath, "\n") {
		if strings.HasPrefix(line, "corners") {
			return line
		}
	}
	t.Fatal("the bath has no corners")
	return ""
}
