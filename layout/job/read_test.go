package job

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// opener reads catalogues from a folder.
func opener(dir string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, name)) }
}

func glob(t testing.TB, pattern string) []string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no files %s (%v)", pattern, err)
	}
	return files
}

// readGood reads a file that must have nothing wrong.
func readGood(t *testing.T, path string) *Job {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	j, report := Read(path, data, opener(filepath.Dir(path)))
	if report.Errors()+report.Warnings() > 0 {
		t.Fatalf("%s:\n%s", path, human(report))
	}
	return j
}

func human(r *Report) string {
	var b bytes.Buffer
	_ = r.Human(&b, false) // a bytes.Buffer takes everything
	return b.String()
}

// readText reads a job from a test's own text.
func readText(text string) (*Job, *Report) { return Read("job.toml", []byte(text), nil) }

// mustRead reads a job from a test's own text, which must have nothing wrong.
func mustRead(t *testing.T, text string) *Job {
	t.Helper()
	j, report := readText(text)
	if report.Errors()+report.Warnings() > 0 {
		t.Fatalf("%s\n%s", text, human(report))
	}
	return j
}

// head begins a job whose rooms a test adds.
const head = `units = "mm"
[membrane]
pitch = 30
[[cable]]
id = "A240-60"
volts = 240
watts = 600
length = "60 m"
lead = "4 m"
`

// tail ends a room that a test begins.
const tail = "\n[room.thermostat]\nwall = \"A\"\nfrom = 100\n"

func TestGoodFiles(t *testing.T) {
	examples := glob(t, "../../testdata/jobs/*.toml")
	for _, f := range append(glob(t, "testdata/good/*.toml"), examples...) {
		if filepath.Base(f) == "cables.toml" {
			continue
		}
		if j := readGood(t, f); len(j.Rooms) == 0 || len(j.Rooms[0].Walls) < 3 {
			t.Errorf("%s: no room read", f)
		}
	}
}

// TestBadFiles compares every word said about files with something wrong.
func TestBadFiles(t *testing.T) {
	for _, f := range glob(t, "testdata/bad/*.toml") {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		_, report := Read("job.toml", data, opener(filepath.Dir(f)))
		report.Finish()
		got, golden := human(report), strings.TrimSuffix(f, ".toml")+".txt"
		if got == "" {
			t.Errorf("%s: nothing is said about it", f)
		}
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(string(want), got); d != "" {
			t.Errorf("%s (-want +got):\n%s", f, d)
		}
	}
}

// TestEveryErrorHelps holds every error of the bad files to the style: a place
// in a file, lower case, no full stop, and for a newcomer's a hint.
func TestEveryErrorHelps(t *testing.T) {
	for _, f := range glob(t, "testdata/bad/*.toml") {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		_, report := Read("job.toml", data, opener(filepath.Dir(f)))
		for _, d := range report.Diagnostics() {
			if d.Span.File == "" || strings.HasSuffix(d.Message, ".") || d.Message[0] >= 'A' && d.Message[0] <= 'Z' {
				t.Errorf("%s: %q does not keep to the style", f, d.Message)
			}
			if d.Hint == "" && len(d.Notes) == 0 {
				t.Errorf("%s: %q has neither hint nor note", f, d.Message)
			}
		}
	}
}

func TestSettings(t *testing.T) {
	j := readGood(t, "testdata/good/every-key.toml")
	date := func(m time.Month, d int) time.Time { return time.Date(2026, m, d, 0, 0, 0, 0, time.UTC) }
	checks := []struct {
		name      string
		want, got any
	}{
		{"info", Info{Title: "Bath, upper floor", Number: "26-014", Client: "M. Example", Site: "12 Sample Street",
			Contractor: "Invented Tile Co.", DrawnBy: "A. B.", CheckedBy: "C. D.", ApprovedBy: "E. F.",
			Permit: "P-26-311", Date: date(11, 24), Status: ForInstallation}, j.Info},
		{"membrane", Membrane{Pitch: 31.75, BendRadius: 30, SheetSize: [2]float64{800, 1000}, Height: 5.5,
			VoidShare: 0.75, HeightSource: FromJob, VoidShareSource: FromJob, Waste: 0.08}, j.Membrane},
		{"spacing", Spacing{Closest: 2, Widest: 5, Search: 2}, j.Spacing},
		{"clearance", Clearance{Wall: 70, Fixture: 60, Joint: 55, Flange: 152.4, Drain: 110, Register: 210, Hearth: 220,
			Fixing: 90, Column: 61, Island: 62, KeepOut: 63}, j.Clearance},
		{"tile", Tile{300, 600, 2, 9, "herringbone", 0.33, "joint", 0.2, 0.03, 6, 7, date(12, 5)}, j.Tile},
		{"layers", []Layer{{"Porcelain", "tile", 9, 1.4, 2500, 850, true, "job file", 14, date(12, 3)},
			{"wood", "wood", 19.05, 0.13, 500, 1600, false, "ISO 10456 table 3", 0, time.Time{}}}, j.BuildUp},
		{"notes", []string{"One", "Two"}, j.Notes},
		{"revisions", []Revision{{"A", "Tub moved", "A. B.", date(12, 1)}}, j.Revisions},
		{"sheet", Sheet{Size: "arch C", Orientation: "landscape", Scale: "1/2in = 1ft", Ratio: 24, Units: plane.Inches,
			FieldSheet: new(bool), Both: true, North: 30,
			Letterhead: []string{"Invented Tile Co.", "Saltmarrow"}}, j.Sheet},
		{"region", "europe", j.Supply.Region},
		{"density limit", FromLabel, j.Supply.MaxDensitySource},
		{"tolerance", []any{-0.10, 0.10, FromLabel, circuit.BothEnds}, []any{j.Cables[0].OhmsLow, j.Cables[0].OhmsHigh,
			j.Cables[0].Tolerance, j.Cables[0].Ends}},
		{"catalogue's own units", 4000.5, j.Cables[1].Lead},
		{"pack", []any{"kg", FromJob}, []any{j.Materials.BondMortar.Unit, j.Materials.BondMortar.Source}},
		{"span of a value", "2", textAt(t, "testdata/good/every-key.toml", j.Spans.At("spacing.closest"))},
		{"span of a table for a value left out", "[materials]", textAt(t, "testdata/good/every-key.toml",
			j.Spans.At("materials.nothing"))},
	}
	for _, c := range checks {
		if d := cmp.Diff(c.want, c.got, approx); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
	// 15 W/ft² is the 161.46 W/m² of the area conversion 10.7639; 50 lb 22.68 kg
	near(t, "max_density", j.Supply.MaxDensity, 161.46, 0.005)
	near(t, "bond pack", j.Materials.BondMortar.Pack, 22.68, 0.001)
	near(t, "bond coverage", j.Materials.BondMortar.Coverage, 70*0.09290304, 1e-9)
	near(t, "primer pack", j.Materials.Primer.Pack, 3.785411784, 1e-9)
}

// What the section shows is bought and drawn alike: the bed and the pegs are
// those of their layers unless the file gives other figures for what is bought.
func TestBedAndPegsOfTheSection(t *testing.T) {
	layers := "[[layer]]\nkind = \"tile\"\nthickness = 10\n[[layer]]\nkind = \"mortar\"\nthickness = " +
		"4\n[[layer]]\nkind = \"membrane\"\nthickness = 5.5\n"
	for _, c := range []struct {
		name, text string
		bed, pegs  float64
		from       Source
	}{
		{"neither", "", 3.4, 5, FromDefault},
		{"layers", layers, 4, 5.5, FromJob},
		{"both", layers + "[materials]\nbed_thickness = 3\n", 3, 5.5, FromJob},
		{"mortar that is no bed", strings.Replace(layers, "kind = \"tile\"", "kind = \"wood\"", 1), 3.4, 5.5,
			FromDefault},
	} {
		j := mustRead(t, head+c.text+"[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, "+
			"2000]]\n"+
			tail)
		if j.Materials.BedThickness != c.bed || j.Membrane.Height != c.pegs || j.Materials.BedSource != c.from {
			t.Errorf("%s: bed %g mm (%s), pegs %g mm", c.name, j.Materials.BedThickness, j.Materials.BedSource,
				j.Membrane.Height)
		}
	}
}

func textAt(t *testing.T, file string, s Span) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data[s.Start:s.End])
}

func TestDefaults(t *testing.T) {
	j := mustRead(t, head+"[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n"+tail)
	checks := []struct {
		name      string
		want, got any
	}{
		{"membrane", Membrane{Pitch: 30, BendRadius: 30, RollWidth: 1000, RollLength: 10000, Height: 5, VoidShare: 0.8,
			Waste: 0.08}, j.Membrane},
		{"spacing", Spacing{Closest: 2, Widest: 4, Search: 1}, j.Spacing},
		{"clearance", Clearance{75, 50, 50, 150, 100, 200, 200, 100, 50, 50, 50}, j.Clearance},
		{"tile", Tile{300, 300, 3, 10, "straight", 0.5, "balanced", 0.10, 0.05, 0, 0, time.Time{}}, j.Tile},
		{"supply", Supply{ThermostatAmps: 15}, j.Supply},
		{"sealant depth is the tile's thickness", 10.0, j.Materials.SealantDepth},
		{"mortar is a default", FromDefault, j.Materials.FillMortar.Source},
		{"no primer unless asked for", 0.0, j.Materials.Primer.Pack},
		{"tolerance", []float64{-0.05, 0.10}, []float64{j.Cables[0].OhmsLow, j.Cables[0].OhmsHigh}},
		{"thermostat", []float64{1200, 200, 100}, []float64{j.Rooms[0].Thermostat.Height, j.Rooms[0].Thermostat.Tail,
			j.Rooms[0].Thermostat.Slack}},
		{"given", FromJob, j.Spans.Source("membrane.pitch")},
		{"left out", FromDefault, j.Spans.Source("membrane.bend_radius")},
	}
	for _, c := range checks {
		if d := cmp.Diff(c.want, c.got, approx); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}

// TestDrawingUnits: a file that names no units reads as most of its lengths do.
func TestDrawingUnits(t *testing.T) {
	text := strings.Replace(head, "units = \"mm\"\n", "", 1)
	text = strings.Replace(text, "pitch = 30", `pitch = "1.2in"`, 1)
	j := mustRead(t,
		text+"[[room]]\nname = \"R\"\nwalls = [\"east 9ft\", \"north 6ft\", \"west 9ft\", \"south 6ft\"]\n"+
			strings.Replace(tail, "100", `"1ft"`, 1))
	if j.Units.String() != "in" || j.Sheet.Units.String() != "in" {
		t.Errorf("units %v and %v, want in", j.Units, j.Sheet.Units)
	}
}

func TestIsCatalogue(t *testing.T) {
	for text, want := range map[string]bool{
		"units = \"in\"\n[[cable]]\nid = \"A\"\n": true,
		"[[cable]]\n":           true,
		"units = \"in\"\n":      false,
		"[[cable]]\n[[room]]\n": false,
		"[[cable]]\n[job]\n":    false,
		"[[cable]]\nid = \n":    false,
		"":                      false,
	} {
		if got := IsCatalogue([]byte(text)); got != want {
			t.Errorf("%q: %t", text, got)
		}
	}
}

func TestCatalogueTroubles(t *testing.T) {
	text := "catalogue = \"cables.toml\"\n" + head +
		"[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n" + tail
	tests := []struct {
		name string
		open func(string) ([]byte, error)
		want string
	}{
		{"none to be had", nil, "job.toml:1:13: error: the catalogue \"cables.toml\" cannot be read here\n"},
		{"missing", func(n string) ([]byte, error) { return os.ReadFile("testdata/nowhere/" + n) },
			"job.toml:1:13: error: cannot read the catalogue \"cables.toml\": there is no such file\n"},
		{"same id", func(string) ([]byte, error) {
			return []byte("[[cable]]\nid = \"A240-60\"\nvolts = 240\nwatts = 600\nlength = \"60 m\"\nlead = \"4 m\"\n"),
				nil
		}, "jobs/cables.toml:2:6: error: two cables are called \"A240-60\"\n"},
		{"not a catalogue", func(string) ([]byte, error) { return []byte("[[room]]\nname = \"R\"\n"), nil },
			"jobs/cables.toml:1:3: error: unknown key \"room\" at the top of the file\n"},
		{"too large", func(string) ([]byte, error) { return make([]byte, maxFile+1), nil },
			"jobs/cables.toml: error: the file has 1048577 bytes; a job file has 1048576 at most\n"},
	}
	for _, c := range tests {
		name := "job.toml"
		if strings.HasPrefix(c.want, "jobs/") {
			name = "jobs/job.toml"
		}
		_, report := Read(name, []byte(text), c.open)
		var b bytes.Buffer
		if err := report.Short(&b); err != nil || b.String() != c.want {
			t.Errorf("%s: %v\n got %s\nwant %s", c.name, err, b.String(), c.want)
		}
	}
}

func TestLimits(t *testing.T) {
	room := func(n int) string {
		return strings.Replace("[[room]]\nname = \"R#\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n"+tail,
			"#", strings.Repeat("x", n), 1)
	}
	var rooms, corners strings.Builder
	for i := range maxRooms + 1 {
		rooms.WriteString(room(i))
	}
	for range maxItems + 1 {
		corners.WriteString("[0, 0], ")
	}
	tests := []struct{ name, text, want string }{
		{"rooms", head + rooms.String(), "the job has 201 rooms; 200 are taken at most"},
		{"corners", head + "[[room]]\nname = \"R\"\ncorners = [" + corners.String() + "]\n" + tail,
			"corners has 501 items; 500 are taken at most"},
		{"bytes", "# " + strings.Repeat("x", maxFile), "the file has 1048578 bytes; a job file has 1048576 at most"},
		{"things", head + room(0) + strings.Repeat("[[room.keep_out]]\nat = [500, 500]\ndiameter = 100\n", maxThings+1),
			"there are 101 tables [[room.keep_out]] in one room; 100 are taken at most"},
		{"tables", head + strings.Repeat("[[revision]]\n", maxItems+1) + room(0),
			"there are 501 tables [[revision]]; 500 are taken at most"},
		{"text", "notes = [\"" + strings.Repeat("x", maxText+1) + "\"]\n" + head + room(0),
			"notes has a text of 1001 bytes; 1000 are the most"},
		{"nesting", "a = " + strings.Repeat("[", 1<<19), "brackets or dotted keys are nested too deep here"},
		{"a million corners", "a = [" + strings.Repeat("[0,0],", 170000) + "]",
			`the lists of this file have more than 100000 items`},
	}
	for _, c := range tests {
		start := time.Now()
		_, report := readText(c.text)
		found := false
		for _, d := range report.Diagnostics() {
			found = found || d.Message == c.want
		}
		if !found {
			t.Errorf("%s: %.500s", c.name, human(report))
		}
		if d := time.Since(start); d > 5*time.Second {
			t.Errorf("%s: took %v", c.name, d)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	data, err := os.ReadFile("testdata/good/every-key.toml")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		Read("job.toml", data, opener("testdata/good"))
	}
}
