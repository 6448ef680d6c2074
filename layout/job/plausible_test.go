package job

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// A whole job in either system, each figure of which a slip may change.
const (
	soundInches = `units = "in"
[membrane]
pitch = "1.2in"
[clearance]
wall = 3
[supply]
max_density = "15 W/ft2"
[tile]
size = [12, 24]
thickness = "3/8in"
joint = "1/8in"
waste = "12 %"
[warmth]
room = "68 F"
covering_limit = "81 F"
[sensor]
kind = "table"
table = ["50 F 19900", "68 F 12490", "86 F 8057"]
[[layer]]
kind = "tile"
thickness = "3/8in"
[[layer]]
kind = "membrane"
thickness = "0.22in"
[[layer]]
kind = "screed"
thickness = 2
[materials.bond_mortar]
pack = "50 lb"
coverage = "75 ft2"
[materials.fill_mortar]
pack = "50 lb"
yield = "14.5 L"
[[circuit]]
name = "7"
breaker = 20
ground_fault = 5
[[cable]]
id = "C"
volts = 120
watts = 370
length = "100 ft"
ohms = 38.9
tolerance = ["-5 %", "10 %"]
lead = "10 ft"
[[room]]
name = "Bath"
walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]
[[room.fixture]]
kind = "toilet"
wall = "D"
from = "4ft"
rough_in = 12
[[room.opening]]
wall = "A"
from = "26in"
width = "30in"
[room.thermostat]
wall = "B"
from = "46in"
height = "48in"
`
	soundMetric = `units = "mm"
[membrane]
pitch = 30
bend_radius = 15
[[layer]]
kind = "tile"
thickness = 10
[[layer]]
kind = "membrane"
thickness = 5.5
[[cable]]
id = "C"
volts = 240
watts = 600
length = "60 m"
ohms = 96
lead = "4 m"
[[room]]
name = "Bath"
corners = [[0, 0], [2850, 0], [2850, 2400], [0, 2400]]
[[room.opening]]
wall = "A"
from = 100
width = 800
[room.thermostat]
wall = "B"
from = 1400
height = 1200
`
)

// Each slip gives one message, at its figure, with what was read and, where
// another reading is usual, that one. What makes what is worked out by hand:
// 370 W on 100 in (8.33 ft) are 44.4 W/ft and on 100 ft 3.7 W/ft; 120²/370 is
// 38.9 ohms.
func TestImplausibleFigures(t *testing.T) {
	for _, c := range []struct{ sound, from, to, at, said, hint string }{
		{soundInches, `length = "100 ft"`, `length = 100`, "100",
			"length = 100 was read as 100 in = 8.3 ft, which with its 370 W makes 44.4 W/ft",
			`missing? length = "100 ft" would make 3.7 W/ft`},
		{soundInches, `length = "100 ft"`, `length = "100"`, `"100"`, "was read as 100 in = 8.3 ft",
			`length = "100 ft" would make 3.7 W/ft`},
		{soundInches, `length = "100 ft"`, `length = "100 in"`, `"100 in"`, `length is "100 in" = 8.3 ft`,
			`right? length = "100 ft" would make 3.7 W/ft`},
		{soundInches, `length = "100 ft"`, `length = "100 m"`, `"100 m"`, "makes 1.1 W/ft",
			`length = "100 ft" would make 3.7 W/ft`},
		{soundInches, `pitch = "1.2in"`, `pitch = 12`, "12", "pitch = 12 was read as 12 in; pegs stand",
			"is a point missing? pitch = 1.2"},
		{soundInches, `pitch = "1.2in"`, `pitch = 30`, "30", "pitch = 30 was read as 30 in",
			`is its unit missing? pitch = "30 mm"`},
		{soundInches, `watts = 370`, `watts = 3700`, "3700", "which on its 100 ft makes 37 W/ft",
			"is a point missing? watts = 370"},
		{soundInches, `watts = 370`, `watts = 0.37`, "0.37", "watts is 0.37", "is it in kW? watts = 370"},
		{soundInches, `ohms = 38.9`, `ohms = 389`, "389", "says 389 ohms, but 120 V and 370 W make 38.92",
			"is a point missing? ohms = 38.9"},
		{soundInches, `ohms = 38.9`, `ohms = 0.0389`, "0.0389", "no label is so far off", "is it in kΩ? ohms = 38.9"},
		{soundInches, `volts = 120`, `volts = 240`, "38.9", "240 V and 370 W make 155.7",
			"120 V would make 38.92 ohms"},
		{soundInches, `"-5 %", "10 %"`, `-5, 10`, "-5", "-500 %", `"-5 %" would be usual`},
		{soundInches, `lead = "10 ft"`, `lead = 10`, "10", "lead = 10 was read as 10 in", `lead = "10 ft"`},
		{soundInches, `height = "48in"`, `height = 1200`, "1200", "1200 in = 100 ft", `height = "1200 mm"`},
		{soundInches, `height = "48in"`, `height = 4`, "4", "4 in", `height = "4 ft"`},
		{soundInches, `width = "30in"`, `width = 760`, "760", "760 in = 63.3 ft", `width = "760 mm"`},
		{soundInches, `rough_in = 12`, `rough_in = 2`, "2", "2 in; a toilet's flange is", `rough_in = "2 ft"`},
		{soundInches, `[12, 24]`, `[300, 24]`, "300", "300 in = 25 ft", `"300 mm" would be usual`},
		{soundInches, `joint = "1/8in"`, `joint = 3`, "3", "grout joints are", `joint = "3 mm"`},
		{soundInches, `waste = "12 %"`, `waste = 12`, "12", "waste is 12 = 1200 %", `waste = "12 %"`},
		{soundInches, `wall = 3`, `wall = 75`, "75", "75 in = 6.2 ft", `wall = "75 mm"`},
		{soundInches, `"15 W/ft2"`, `15`, "15", "15 W/m² = 1.4 W/ft²", `max_density = "15 W/ft2"`},
		{soundInches, `room = "68 F"`, `room = 68`, "68", "68 °C = 154 °F", `room = "68 F"`},
		{soundInches, `covering_limit = "81 F"`, `covering_limit = 81`, "81", "81 °C = 178 °F",
			`covering_limit = "81 F"`},
		{soundInches, `thickness = "0.22in"`, `thickness = 5.5`, "5.5", "a membrane is", `thickness = "5.5 mm"`},
		{soundInches, "kind = \"screed\"\nthickness = 2", "kind = \"screed\"\nthickness = 50", "50", "a screed is",
			`thickness = "50 mm"`},
		{soundInches, `coverage = "75 ft2"`, `coverage = "75 m2"`, `"75 m2"`,
			"which for a pack of 22.7 kg makes 0.062 lb/ft²", `coverage = "75 ft2"`},
		{soundInches, `yield = "14.5 L"`, `yield = "1.45 L"`, `"1.45 L"`, "makes 0.064 L/kg", `yield = "14.5 L"`},
		{soundInches, `"50 F 19900"`, `"50 F 19.9"`, `"50 F 19.9"`, "19.9 ohms", "are they in kΩ? 19900"},
		{soundInches, `["50 F 19900", "68 F 12490", "86 F 8057"]`, `["50 C 19900", "68 C 12490"]`, `["50 C`,
			"runs from 50 to 68 °C", "the unit that its temperatures are in"},
		{soundInches, `ground_fault = 5`, `ground_fault = 0.005`, "0.005", "such devices trip at",
			"is it in A? ground_fault = 5"},
		{soundInches, `breaker = 20`, `breaker = 200`, "200", "breakers of", "breaker = 20"},
		{soundInches, `["east 5ft", "north 8ft", "west 5ft", "south 8ft"]`,
			`["east 5", "north 8", "west 5", "south 8"]`, `["east`, "read as inches", `"east 5ft"`},
		{soundInches, `["east 5ft", "north 8ft", "west 5ft", "south 8ft"]`,
			`["east 1524", "north 2438", "west 1524", "south 2438"]`, `["east`, "127 ft by 203 ft",
			"in mm its figures would make 40 ft²"},
		{soundMetric, `length = "60 m"`, `length = 60`, "60", "60 mm, which with its 600 W makes 10000 W/m",
			`length = "60 m" would make 10 W/m`},
		{soundMetric, "pitch = 30", "pitch = 12", "12", "pitch = 12 was read as 12 mm; pegs stand 20 to 120 mm apart",
			"look at the figure"},
		{soundMetric, "pitch = 30", "pitch = 3", "3", "3 mm; pegs stand", `pitch = "3 cm"`},
		{soundMetric, "pitch = 30", "pitch = 1.2", "1.2", "1.2 mm; pegs stand", `pitch = "1.2 in"`},
		{soundMetric, "pitch = 30", "pitch = 300", "300", "300 mm; pegs stand", "pitch = 30"},
		{soundMetric, "bend_radius = 15", `bend_radius = "15 cm 0"`, `"15 cm 0"`, "bend_radius", ""},
		{soundMetric, `lead = "4 m"`, `lead = 4`, "4", "4 mm; a cold lead is 1 to 50 m long", `lead = "4 m"`},
		{soundMetric, "height = 1200", "height = 48", "48", "48 mm", `height = "48 in"`},
		{soundMetric, "width = 800", "width = 80", "80", "doorways are", `width = "80 cm"`},
		{soundMetric, "[[0, 0], [2850, 0], [2850, 2400], [0, 2400]]", "[[0, 0], [2.85, 0], [2.85, 2.4], [0, 2.4]]",
			"[[0, 0], [2.85", "read as millimetres", "write the unit"},
		{soundMetric, "thickness = 10", "thickness = 0.375", "0.375", "0.375 mm; tiles are", `thickness = "0.375 in"`},
		{soundMetric, "watts = 600", "watts = 6", "6", "watts is 6", "look at the figure"},
		{soundMetric, "pitch = 30", "pitch = 30\nroll_width = 39", "39", "39 mm; membranes are",
			`roll_width = "39 in"`},
		{soundMetric, "pitch = 30", "pitch = 30\nroll_length = 12.5", "12.5", "rolls of membrane are",
			`roll_length = "12.5 m"`},
		{soundMetric, "bend_radius = 15", "bend_radius = 15\n[spacing]\nwidest = 120", "120",
			"widest = 120 is counted in pegs, which 30 mm apart make 3.6 m",
			"is it a length? 120 mm would be widest = 4"},
		{soundMetric, "bend_radius = 15", "bend_radius = 15\n[spacing]\nclosest = 60", "60",
			"30 mm apart make 1800 mm", "is it a length? 60 mm would be closest = 2"},
		{soundInches, "[clearance]", "[spacing]\nwidest = 40\n[clearance]", "40", "1.2 in apart make 48 in",
			"write it like widest = 4"},
		{soundMetric, "height = 1200", "height = 1200\n[room.loss]\noutside = -5\nwalls = \"7 m2\"\nwalls_u = " +
			"\"3.5 Btu/h ft2 F\"", `"3.5 Btu`, "19.9 W/(m² K); outside walls let through", "walls_u ="},
	} {
		text := strings.Replace(c.sound, c.from, c.to, 1)
		_, report := readText(text)
		all := report.Diagnostics()
		if len(all) != 1 || all[0].Severity != Error {
			t.Errorf("%s: want one error:\n%s", c.to, human(report))
			continue
		}
		d := all[0]
		if !strings.HasPrefix(text[d.Span.Start:], c.at) || !strings.Contains(d.Message, c.said) ||
			!strings.Contains(d.Hint, c.hint) {
			t.Errorf("%s: want it at %s, saying %q and %q:\n%s", c.to, c.at, c.said, c.hint, human(report))
		}
	}
}

// Boxes, gaps and tariffs that are usual pass: four tiles of 600 by 600 mm are 1.44 m²,
// and 31 yen a kWh is a usual price where 31 euros are none.
func TestUsualPasses(t *testing.T) {
	for from, to := range map[string]string{
		"[membrane]":         "[tile]\nsize = [600, 600]\nper_box = 4\n[membrane]",
		"bend_radius = 15\n": "bend_radius = 15\n[spacing]\nwidest = 16\n",
		"[[room]]\n":         "[energy]\ntariff = 31\ncurrency = \"JPY\"\n[[room]]\n",
	} {
		if _, report := readText(strings.Replace(soundMetric, from, to, 1)); len(report.Diagnostics()) > 0 {
			t.Errorf("%s:\n%s", to, human(report))
		}
	}
	text := strings.Replace(soundMetric, "[membrane]", "[tile]\nsize = [60, 60]\nper_box = 4\n[membrane]", 1)
	if _, report := readText(text); !strings.Contains(human(report), "in cm a box would hold 1.4 m²") {
		t.Error(human(report))
	}
	text = strings.Replace(soundMetric, "[[room]]", "[energy]\ntariff = 31\ncurrency = \"EUR\"\n[[room]]", 1)
	if _, report := readText(text); !strings.Contains(human(report), "is it in cents? tariff = 0.31") {
		t.Error(human(report))
	}
}

// What is unusual is warned of, and the job goes on.
func TestUnusual(t *testing.T) {
	for from, to := range map[string]string{
		`watts = 600`:        "watts = 1600", // 26.7 W/m; its ohms are then wrong as well
		"pitch = 30":         "pitch = 110",
		`width = 800`:        "width = 350",
		"height = 1200":      "height = 200",
		"units = \"mm\"":     "units = \"mm\"\ntile.size = [24, 600]\ntile.per_box = 4",
		"[membrane]":         "[tile]\nsize = [60, 60]\nper_box = 4\n[membrane]", // 4 x 0.0036 m²
		"bend_radius = 15\n": "bend_radius = 15\n[spacing]\nwidest = 20\n",       // 600 mm
		"[[room]]\n":         "[energy]\ntariff = 31\ncurrency = \"EUR\"\n[[room]]\n",
	} {
		text := strings.Replace(strings.Replace(soundMetric, "ohms = 96\n", "", 1), from, to, 1)
		_, report := readText(text)
		if all := report.Diagnostics(); report.Errors() > 0 || len(all) != 1 || all[0].ID != "W008" ||
			!strings.Contains(all[0].Message, "usually") {
			t.Errorf("%s:\n%s", to, human(report))
		}
	}
}

// All slips of a file are said at once, and those that do not depend on one
// another.
func TestSlipsAreGathered(t *testing.T) {
	text := strings.NewReplacer("pitch = 30", "pitch = 3", `lead = "4 m"`, "lead = 4", "ohms = 96", "ohms = 9.6",
		"height = 1200", "height = 48", "width = 800", "width = 80").Replace(soundMetric)
	if _, report := readText(text); report.Errors() != 5 {
		t.Errorf("want five errors:\n%s", human(report))
	}
}

// No example, default or sound file is implausible.
func TestSoundJobsArePlausible(t *testing.T) {
	for _, text := range []string{soundInches, soundMetric} {
		mustRead(t, text)
	}
	for _, f := range append(glob(t, "../../testdata/jobs/*.toml"), glob(t, "testdata/good/*.toml")...) {
		if filepath.Base(f) != "cables.toml" {
			readGood(t, f)
		}
	}
	for _, k := range Keys() {
		for what, text := range map[string]string{"example": k.Example, "default": k.Name() + " = " + k.Default} {
			if root, err := tree.Parse([]byte(text)); err == nil && root.Get(k.Name()) != nil && k.Type != TypeTable &&
				k.Type != TypeTables {
				rd := newReader(&Report{}, newSchema(Keys()), "", []byte(text))
				rd.units = plane.Millimetres
				n := root.Get(k.Name())
				if rd.implausible(root, n, k); rd.report.Errors()+rd.report.Warnings() > 0 {
					t.Errorf("%s: its %s: %s", k.Path, what, rd.report.Diagnostics()[0].Message)
				}
			}
		}
	}
}

// Jobs within what is usual get no such message, in either system.
func TestUsualJobsArePlausible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit, mm := "mm", 1.0
		if rapid.Bool().Draw(t, "inches") {
			unit, mm = "in", plane.Inch
		}
		between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		size := func(name string, low, high float64) string { return fmt.Sprintf("%.4f", between(name, low, high)/mm) }
		length, perMetre, volts := between("length", 3e3, 200e3), between("W/m", 7, 24),
			rapid.SampledFrom(mainsVolts).Draw(
				t, "volts")
		watts := length / 1000 * perMetre
		w, d := between("across", 1200, 15e3), between("deep", 1200, 15e3)
		text := fmt.Sprintf("units = %q\n[membrane]\npitch = %s\n[tile]\nsize = [%s, %s]\nthickness = "+
			"%s\n[[layer]]\nkind = \"screed\"\nthickness = %s\n"+
			"[[cable]]\nid = \"C\"\nvolts = %g\nwatts = %.2f\nlength = %.4f\nohms = %.5g\nlead = %s\n"+
			"[[room]]\nname = \"R\"\ncorners = [[0, 0], [%.3f, 0], [%.3[12]f, %.3[13]f], [0, "+
			"%.3[13]f]]\n[room.thermostat]\nwall = \"A\"\nfrom = 1\nheight = %[14]s\n",
			unit, size("pitch", 25, 60), size("tile", 50, 1200), size("tile's length", 50, 1200), size("thick", 6, 20),
			size("screed", 20, 100),
			volts, watts, length/mm, volts*volts/watts*between("off", 0.98, 1.05), size("lead", 2000, 15e3), w/mm, d/mm,
			size("height", 400, 1600))
		if _, report := readText(text); report.Errors()+report.Warnings() > 0 {
			t.Fatalf("%s\n%s", text, human(report))
		}
	})
}
