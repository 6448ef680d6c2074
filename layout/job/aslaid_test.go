package job

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

func TestAsLaid(t *testing.T) {
	j := readGood(t, "testdata/good/every-key.toml")
	if len(j.Laid) != 4 {
		t.Fatalf("%d records read, want 4", len(j.Laid))
	}
	a := j.Laid[0]
	// wall A of the store runs along y = 0, wall B along x = 2000: the first
	// figure of a point is north of A, the second west of B
	samePoints(t, "corners", a.Corners, []plane.Point{{X: 1800, Y: 100}, {X: 200, Y: 100}, {X: 200, Y: 200}})
	samePoints(t, "points", []plane.Point{*a.FirstPeg, *a.Joint, *a.EndCap, *a.Sensor.Tip, *a.Spare.Tip},
		[]plane.Point{{X: 1880, Y: 110}, {X: 1790, Y: 100}, {X: 210, Y: 200}, {X: 1400, Y: 500}, {X: 1300, Y: 900}})
	tile := j.Rooms[a.Room].FirstTile
	samePoints(t, "first tile", []plane.Point{tile.A, tile.B}, []plane.Point{{X: 300, Y: 92}, {X: 1700, Y: 92}})
	samePoints(t, "leads", append(a.ColdLead, a.Spare.Lead...), []plane.Point{{X: 1800, Y: 0}, {X: 1790, Y: 100},
		{X: 1800, Y: 0}, {X: 1300, Y: 900}})
	checks := []struct {
		name      string
		want, got any
	}{
		{"evidence", []Evidence{ByHand, PlanOnly, PhotoWithTape, PhotoWithTape},
			[]Evidence{a.Evidence, j.Laid[1].Evidence, j.Laid[2].Evidence, j.Laid[3].Evidence}},
		{"cable", []any{"H2", 2, 20.0, 60.0}, []any{a.Cable, a.Room, a.Error, a.FingerRoom}},
		{"finger room left out", -1.0, j.Laid[1].FingerRoom},
		{"whole", []bool{true, true, false, true}, []bool{a.Whole(), j.Laid[1].Whole(), j.Laid[2].Whole(),
			j.Laid[3].Whole()}},
		{"legs", []Leg{{0, 9}, {90, 3}, {180, 9}}, j.Laid[3].Legs},
		{"runs", 4, j.Laid[2].Runs},
		{"insulation", Figure{2000, true, true}, a.Readings[0].Insulation},
		{"capacitance", Figure{9, true, false}, a.Readings[0].Capacitance},
		{"68 F is 20 °C", Figure{20, true, false}, a.Readings[0].Floor},
	}
	for _, c := range checks {
		if d := cmp.Diff(c.want, c.got, approx); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}

// TestOffWallsFindsThePointAgain tapes random points of a room that is not
// square from two of its walls.
func TestOffWallsFindsThePointAgain(t *testing.T) {
	j := mustRead(t, head+"[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 300], [2800, 2500], [-100, 2000]]\n"+tail)
	r := &j.Rooms[0]
	rapid.Check(t, func(t *rapid.T) {
		p := plane.Pt(rapid.Float64Range(0, 2700).Draw(t, "x"), rapid.Float64Range(310, 1900).Draw(t, "y"))
		a := rapid.IntRange(0, 3).Draw(t, "wall")
		b := (a + 1) % 4
		off := func(w Wall) float64 { return w.B.Sub(w.A).Unit().Left().Dot(p.Sub(w.A)) }
		q, ok := r.OffWalls(a, off(r.Walls[a]), b, off(r.Walls[b]))
		if !ok || p.Dist(q) > 1e-6 {
			t.Fatalf("%v was found again at %v (%v)", p, q, ok)
		}
	})
}

// TestStatusNeedsEvidence holds the rule that a plan never passes for what was
// laid.
func TestStatusNeedsEvidence(t *testing.T) {
	room := "[[room]]\nname = \"R\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n" + tail
	for _, c := range []struct{ record, want string }{
		{"", "nothing says how the cable"},
		{"[[as_laid]]\nroom = \"R\"\nevidence = \"plan only\"\nplan = \"x.layout.json\"\nas_planned = true\n",
			"the plan only"},
		{"[[as_laid]]\nroom = \"R\"\nevidence = \"photo with tape\"\nruns = 3\n", "nothing says where the cable"},
		{"[[as_laid]]\nroom = \"R\"\nevidence = \"photo with tape\"\nplan = \"x.layout.json\"\nas_planned = true\n",
			""},
	} {
		_, report := readPlanned("units = \"mm\"\n[job]\nstatus = \"as laid\"\n" + strings.Replace(head,
			"units = \"mm\"\n", "", 1) + room + c.record)
		if got := human(report); (c.want == "") != (report.Errors() == 0) || !strings.Contains(got, c.want) {
			t.Errorf("%q: want %q, got\n%s", c.record, c.want, got)
		}
	}
}

// issued is a layout file with one cable.
const issued = `{"schema": 1, "unit": "mm", "rooms": [{"name": "R", "outline": [[0,0],[3000,0],[3000,2000],[0,2000]], "cables": [
 {"id": "H1", "bend_radius_mm": 30, "path": [[75,75],[75,1900],[165,1900],[165,75]], "cold_lead": [[100,0],[75,75]]}],
 "sensors": [{"name": "S1", "tip": [120,900], "lead": [[100,0],[120,900]]}, {"name": "S2", "spare": true, "tip": [600,900], "lead": [[100,0],[600,900]]}]}]}`

// readPlanned reads a job beside which the file issued lies.
func readPlanned(text string) (*Job, *Report) {
	return Read("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(issued), nil })
}

func TestIssuedPlan(t *testing.T) {
	job := func(room, cable string) string {
		return head + "[[room]]\nname = \"" + room + "\"\ncorners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]\n" +
			tail +
			"[[as_laid]]\nroom = \"" + room + "\"\nevidence = \"photo with tape\"\nplan = \"p.json\"\n" + cable
	}
	j, report := readPlanned(job("R", "as_planned = true"))
	if report.Errors() > 0 {
		t.Fatal(human(report))
	}
	is := j.Laid[0].Issued
	samePoints(t, "path", is.Path, []plane.Point{{X: 75, Y: 75}, {X: 75, Y: 1900}, {X: 165, Y: 1900}, {X: 165, Y: 75}})
	samePoints(t, "tips", []plane.Point{*is.Sensor.Tip, *is.Spare.Tip}, []plane.Point{{X: 120, Y: 900},
		{X: 600, Y: 900}})
	for _, c := range []struct{ text, file, want string }{
		{job("R", "as_planned = true\ncable = \"H2\""), issued, "no cable H2 in room \"R\""},
		{job("Q", "as_planned = true"), issued, "no room \"Q\""},
		{job("R", "as_planned = true"), `{"schema": 2}`, "schema 2"},
		{job("R", "as_planned = true"), `{"schema": 1, "rooms": [{"name": "R", "cables": [{"id": "H1", "path": ` +
			`[[1e400, 2]]}]}]}`, "is no layout file"},
		{job("R", "as_planned = true"), `{"schema": 1, "rooms": [{"name": "R", "cables": [{"id": "H1", "path": ` +
			`[[1e40, 2], [4, 4]]}]}]}`, "outside wall"},
		{job("R", "as_planned = true"), `{"schema": 1, "rooms": [{"name": "R", "cables": [{"id": "H1", "path": [[9, ` +
			`2]]}]}]}`, "has no path"},
		{job("R", "as_planned = true"), `[[room]]`, "is no layout file"},
	} {
		_, report := Read("job.toml", []byte(c.text), func(string) ([]byte, error) { return []byte(c.file), nil })
		if got := human(report); !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.file, c.want, got)
		}
	}
	if _, report := readText(job("R", "as_planned = true")); report.Errors() == 0 {
		t.Error("a plan that cannot be opened is not reported")
	}
}

// TestFirstTileAsLaid: where the tile was found wins over where it was to be set
// out, and a room has one such place.
func TestFirstTileAsLaid(t *testing.T) {
	room := head + "[[room]]\nname = \"R\"\nfirst_tile = [[100, 100], [2000, 100]]\ncorners = [[0, 0], [3000, 0], " +
		"[3000, 2000], [0, 2000]]\n" + tail
	record := "[[as_laid]]\nroom = \"R\"\nevidence = \"measured by hand\"\n"
	if j := mustRead(t, room+record); j.Rooms[0].FirstTile.A != plane.Pt(100, 100) {
		t.Errorf("set out at %v", j.Rooms[0].FirstTile)
	}
	found := record + "first_tile = [[120, 90], [2000, 90]]\n"
	if j := mustRead(t, room+found); j.Rooms[0].FirstTile != (plane.Segment{A: plane.Pt(120, 90),
		B: plane.Pt(2000, 90)}) {
		t.Errorf("found at %v", j.Rooms[0].FirstTile)
	}
	for _, c := range []struct{ records, want string }{
		{strings.Replace(found, "evidence", "cable = \"H1\"\nevidence", 1) + strings.Replace(strings.Replace(found,
			"evidence", "cable = \"H2\"\nevidence", 1), "120", "125", 1),
			"room \"R\" has two places of its first tile"},
		{record + "first_tile = [[120, 90], [130, 90]]\n", "too near to tell which way the rows run"},
		{record + "first_tile = [[120, -900], [2000, 90]]\n", "outside the walls"},
	} {
		_, report := Read("job.toml", []byte(room+c.records), nil)
		var b strings.Builder
		report.Human(&b, false)
		if report.Errors() != 1 || !strings.Contains(b.String(), c.want) {
			t.Errorf("%q: %s", c.want, b.String())
		}
	}
}
