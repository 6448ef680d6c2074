package takeoff

import (
	"strings"
	"testing"

	"oxturn/layout/job"
)

// uspacks is a job that says nothing of what is bought.
const uspacks = `units = "in"
[membrane]
pitch = 1.2
[[cable]]
id = "C"
volts = 120
watts = 237
length = "64ft"
lead = "10ft"
[[room]]
name = "R"
walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]
[room.thermostat]
wall = "A"
from = 20
`

// TestPacksOfInches: in a job in inches packs are round in its own units, as
// they are sold (common practice: 10 lb of grout, 50 lb of mortar, half a cubic
// foot a bag, 10.1 fl oz a cartridge); what the job says always wins.
func TestPacksOfInches(t *testing.T) {
	read := func(text string) *job.Job {
		j, report := job.Read("job.toml", []byte(text), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		return j
	}
	packs := func(j *job.Job) string {
		m := j.Materials
		roll, _ := packOf(j.Membrane)
		var out []string
		for _, p := range []struct {
			v    float64
			unit string
		}{{roll, "m²"}, {m.BondMortar.Pack, "kg"}, {m.FillMortar.Yield, "L"}, {m.BedMortar.Yield, "L"}, {m.Grout.Pack,
			"kg"}, {1000 * m.Sealant.Pack, "mL"}} {
			v, unit := US(p.v, p.unit)
			out = append(out, Figure(v, unit)+" "+unit)
		}
		return strings.Join(out, ", ")
	}
	if got, want := packs(read(uspacks)),
		"104.00 ft², 50.00 lb, 3.75 gal, 3.75 gal, 10.00 lb, 10.1 fl oz"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	own := strings.Replace(uspacks, "pitch = 1.2\n",
		"pitch = 1.2\nroll_width = \"1 m\"\n[materials.grout]\npack = \"25 lb\"\n", 1)
	if got, want := packs(read(own)), "104.99 ft², 50.00 lb, 3.75 gal, 3.75 gal, 25.00 lb, 10.1 fl oz"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	metric := read(strings.NewReplacer(`units = "in"`, `units = "mm"`, "pitch = 1.2", "pitch = 30", "from = 20",
		"from = 500").Replace(uspacks))
	if m := metric.Materials; m.Grout.Pack != 5 || m.FillMortar.Yield != 16 ||
		m.BondMortar.Pack != 25 || m.BondMortar.Coverage != 7.7 ||
		m.BedMortar.Pack != 25 ||
		metric.Membrane.RollWidth != 1000 {
		t.Errorf("a metric job: %+v, %+v", metric.Membrane, m)
	}
	if tile := tileName(read(uspacks).Tile, read(uspacks).Units); tile.String() != `Tile 1'-0" x 1'-0", straight` {
		t.Error(tile)
	}
}
