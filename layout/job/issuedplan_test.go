package job

import (
	"os"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// layByFile is a layout file of the room R with one cable of the job's catalogue;
// what a test puts in stands in the cable, in the lattice and beside the schema.
func layByFile(top, pitch, path, more string) string {
	return `{"schema": 1,` + top + ` "rooms": [{"name": "R", "lattice": {"origin": [75, 80], "angle_deg": 90, ` +
		`"pitch_mm": ` + pitch + `}, "cables": [{"id": "H1", "catalogue": "A240-60", "length_mm": 60000,
 "path": ` + path + `, "cold_lead": [[100,0],[75,75]]` + more + `}], "sensors": [{"name": "S1", "tip": [120, 900], ` +
		`"lead": [[100,0],[120,900]]}, {"name": "S2", "spare": true, "tip": [500, 900], "lead": ` +
		`[[100,0],[500,900]]}]}]}`
}

func TestLayByAFile(t *testing.T) {
	const path = "[[75,75],[75,1900],[165,1900]]"
	job := func(record string) *Job {
		j, report := readPlanned(head + "[[room]]\nname = \"R\"\n" + anticlockwise + tail + record)
		if report.Errors() > 0 {
			t.Fatal(human(report))
		}
		return j
	}
	by := func(j *Job, text string) error {
		return j.LayBy("p.json", func(string) ([]byte, error) { return []byte(text), nil })
	}
	j := job("")
	if err := by(j, layByFile("", "30", path, "")); err != nil {
		t.Fatal(err)
	}
	r := j.LaidBy.Rooms[0]
	samePoints(t, "path", r.Cables[0].Path, []plane.Point{{X: 75, Y: 75}, {X: 75, Y: 1900}, {X: 165, Y: 1900}})
	samePoints(t, "pegs and tips", []plane.Point{r.Pegs.Origin, *r.Sensors[0].Tip, *r.Sensors[1].Tip},
		[]plane.Point{{X: 75, Y: 80}, {X: 120, Y: 900}, {X: 500, Y: 900}})
	near(t, "angle", r.Pegs.Angle, 1.5707963267948966, 1e-12)
	if r.Sensors[0].Spare || !r.Sensors[1].Spare || j.LaidBy.Code == "" || r.Cables[0].ID != "H1" {
		t.Errorf("%+v", j.LaidBy)
	}
	for _, c := range []struct{ name, text, want string }{
		{"a hundredth of a millimetre", layByFile("", "30.005", path, ""), ""},
		{"other pegs", layByFile("", "30.02", path, ""), "its pegs are 30.02 mm apart"},
		{"a millimetre of cable", layByFile("", "30", path, `, "length_mm": 60001`), ""},
		{"another length", layByFile("", "30", path, `, "length_mm": 60001.5`), "is 60.00 m long in it"},
		{"another cable", layByFile("", "30", path, `, "catalogue": "B"`), "which the job's catalogue does not have"},
		{"no path", layByFile("", "30", "[[75,75]]", ""), "has no path"},
		{"two points", layByFile("", "30", "[[75,75],[75,1900]]", ""), ""},
		{"as far over a wall as a tape errs", layByFile("", "30", "[[-20,75],[75,1900]]", ""), ""},
		{"through a wall", layByFile("", "30", "[[75,75],[-90,1900]]", ""), "90 mm outside wall D"},
		{"another room", strings.Replace(layByFile("", "30", path, ""), `"R"`, `"Q"`, 1), `no room "R"`},
		{"a record as laid", layByFile(` "status": "as laid",`, "30", path, ""), "is a record as laid"},
		{"no file", "", "no layout file"},
	} {
		err := by(job(""), c.text)
		if (c.want == "") != (err == nil) || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	record := "[[as_laid]]\nroom = \"R\"\nevidence = \"measured by hand\"\nruns = 3\n"
	if err := by(job(record), layByFile("", "30", path, "")); err != nil {
		t.Errorf("a record that rests on no plan: %v", err)
	}
	if err := by(job(record+"plan = \""+j.LaidBy.Code+"\"\n"), layByFile("", "30", path, "")); err != nil {
		t.Errorf("a record that rests on this plan: %v", err)
	}
	if err := by(job(record+"plan = \"7KF-4RP\"\n"), layByFile("", "30", path, "")); err == nil ||
		!strings.Contains(err.Error(), "was laid by plan 7KF-4RP") {
		t.Errorf("a record of another plan: %v", err)
	}
	if err := job("").LayBy("p.json", func(string) ([]byte, error) { return nil, os.ErrNotExist }); err == nil {
		t.Error("a file that is not there")
	}
}

// What reaches through a wall is told how to be moved, in the terms it was placed by.
func TestHowToMoveWhatReachesThroughAWall(t *testing.T) {
	for things, want := range map[string]string{
		"at = [100, 1000]\nwidth = 600\ndepth = 600":            "move it 200 mm east: at = [300, 1000]",
		"at = [1000, 1900]\nwidth = 600\ndepth = 600":           "move it 200 mm south: at = [1000, 1700]",
		"at = [1000, 1000]\nwidth = 600\ndepth = 2500":          "it is too large for its place",
		"wall = \"A\"\nfrom = 500\nwidth = 600\ndepth = 2500":   "less deep",
		"wall = \"A\"\nfrom = 500\nwidth = 600\ndepth = 1990\n": "",
	} {
		_, r := readText(head + "[[room]]\nname = \"R\"\n" + anticlockwise + "[[room.fixture]]\nkind = \"cabinet\"\n" +
			things + "\n" + tail)
		hint := ""
		for _, d := range r.Diagnostics() {
			hint += d.Hint
		}
		if want != "" && !strings.Contains(hint, want) || want == "" && r.Errors() > 0 {
			t.Errorf("%q: %q, want %q", things, hint, want)
		}
	}
}

func TestADrainInAShower(t *testing.T) {
	for _, order := range [][2]string{{"shower", "drain"}, {"drain", "shower"}} {
		text := ""
		for _, kind := range order {
			text += "[[room.fixture]]\nkind = \"" + kind + "\"\nat = [1000, 1000]\n"
		}
		if got := said(text); got != "" {
			t.Errorf("%v: %s", order, got)
		}
	}
	if s := usualSizes(func(z size) float64 { return z.diameter }); !strings.Contains(s, "drain 4 in (100 mm)") {
		t.Error(s)
	}
	if s := usualSizes(func(z size) float64 { return z.width }); !strings.Contains(s, "tub 60 in (1524 mm)") {
		t.Error(s)
	}
}
