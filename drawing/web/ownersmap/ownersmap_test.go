package ownersmap

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

// samplePlan is a room recorded as laid, in which everything a job may name is
// named by name.
func samplePlan(u plane.Units, status job.Status, name string) *layout.Plan {
	outline := plane.Ring{{X: 0, Y: 0}, {X: 2600, Y: 100}, {X: 2500, Y: 1900}, {X: 1200, Y: 1900}, {X: 1200, Y: 2500},
		{X: 0, Y: 2400}}
	r := &job.Room{Name: name, Outline: outline}
	for i := range outline {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: outline.Edge(i)})
	}
	r.Thermostat = job.Thermostat{At: plane.Pt(1300, 50), Wall: 0, Along: 1300, Height: 1200}
	r.FirstTile = plane.Segment{A: plane.Pt(110, 170), B: plane.Pt(2300, 240)}
	r.Fixtures = []job.Fixture{{Kind: job.Vanity, Name: name, Outline: plane.Rectangle(plane.Pt(1900, 1500),
		plane.Pt(2500, 1900))}}
	r.KeepOuts = []job.KeepOut{{Name: name, Outline: plane.Ring{{X: 1400, Y: 800}, {X: 2300, Y: 900},
		{X: 1800, Y: 1400}, {X: 1700, Y: 1000}}}}
	r.Openings = []job.Opening{{Name: name, Kind: "door", Wall: 1, From: 200, To: 900}}
	j := &job.Job{Units: u, Info: job.Info{Title: name, Client: name, Site: name, Contractor: name, Number: name,
		Status: status}, Revisions: []job.Revision{{Letter: name}},
		Tile: job.Tile{Width: 300, Length: 600, Joint: 3, Thickness: 10, Pattern: "offset"}, Rooms: []job.Room{*r}}
	path := []plane.Point{{X: 200, Y: 200}, {X: 200, Y: 2200}, {X: 290, Y: 2200}, {X: 290, Y: 250}, {X: 410, Y: 250},
		{X: 410, Y: 2200}, {X: 500, Y: 2200}, {X: 500, Y: 260}, {X: 1000, Y: 700}, {X: 1700, Y: 700}}
	record := &job.Laid{Evidence: job.PhotoWithTape, Corners: path, ColdLead: []plane.Point{{X: 1300, Y: 50},
		{X: 1300, Y: 150}, {X: 200, Y: 200}}}
	laid := &layout.Laid{Job: record, Path: path, Whole: true, Planned: path, Joint: &path[0],
		EndCap: &path[len(path)-1], Error: 12.7, FingerRoom: 38.1}
	c := layout.Cable{ID: "H1", Path: path, BendRadius: 30, Laid: laid, Label: job.Cable{Length: 9300, Diameter: 6},
		Routed: 9200, ColdLead: record.ColdLead,
		Runs: []layout.Run{{Number: 1, RunningEnd: 1990}, {Number: 2, RunningEnd: 4000}, {Number: 3, RunningEnd: 6000},
			{Number: 4, RunningEnd: 8000}, {Number: 5, RunningEnd: 9200}}}
	tip := plane.Pt(345, 1500)
	room := layout.Room{Job: r, Floor: plane.FromRing(outline), Tiled: plane.FromRing(outline),
		Cables: []layout.Cable{c},
		Sensors: []layout.Sensor{{Name: "S1", Tip: tip, Found: &tip, FoundLead: true,
			Lead: []plane.Point{{X: 1300, Y: 50}, {X: 345, Y: 160}, tip}},
			{Name: "S2", Spare: true, Tip: plane.Pt(1400, 1000), Lead: []plane.Point{{X: 1300, Y: 50},
				{X: 1400, Y: 1000}}}}}
	return &layout.Plan{Job: j, Rooms: []layout.Room{room}}
}

func write(t testing.TB, p *layout.Plan) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestNothingIsFetched(t *testing.T) {
	page := write(t, samplePlan(plane.Millimetres, job.AsLaid, "Bath"))
	for _, m := range regexp.MustCompile(
		`(?i)(src|href)\s*=\s*"([^"]*)"|url\(([^)]*)\)|@import|https?://`).FindAllString(page, -1) {
		if m != `href="data:,"` && !strings.HasPrefix(m, "url(#clip-") {
			t.Errorf("the page reaches out: %s", m)
		}
	}
}

func TestSameBytes(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	if a, b := write(t, p), write(t, p); a != b {
		t.Error("the same plan gives two pages")
	}
}

// TestJobTextStaysText puts what would be markup and code into every text of a
// job.
func TestJobTextStaysText(t *testing.T) {
	for _, evil := range []string{`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`,
		`</script><script>alert(1)</script>`, `</title></style><b>`, "`${alert(1)}`", `<!--`, `' onload='alert(1)`} {
		page := write(t, samplePlan(plane.Millimetres, job.AsLaid, evil))
		plain := write(t, samplePlan(plane.Millimetres, job.AsLaid, "Bath"))
		for _, tag := range []string{"<script", "<img", "<b>", "<!--", "<style", "<title"} {
			if got, want := strings.Count(page, tag), strings.Count(plain, tag); got != want {
				t.Errorf("%q: %d times %s, want %d", evil, got, tag, want)
			}
		}
	}
}

func TestPlanIsNoRecord(t *testing.T) {
	for status, want := range map[job.Status]bool{job.Proposal: true, job.ForInstallation: true, job.AsLaid: false} {
		page := write(t, samplePlan(plane.Inches, status, "Bath"))
		if strings.Contains(page, "THIS IS A PLAN, NOT A RECORD") != want {
			t.Errorf("%s: wrong about what the map is worth", status)
		}
		if m := regexp.MustCompile(`(?i)\bsafe\w*`).FindString(page); m != "" {
			t.Errorf("%s: the page says %q", status, m)
		}
	}
}

// TestDifferencesAreShown: what does not lie as planned is drawn and listed,
// and nothing of the plan is drawn where all lies as drawn.
func TestDifferencesAreShown(t *testing.T) {
	p := samplePlan(plane.Millimetres, job.AsLaid, "Bath")
	if page := write(t, p); strings.Contains(page, `class="planned"`) || strings.Contains(page,
		"does not lie as planned") {
		t.Error("a difference is shown where there is none")
	}
	l := p.Rooms[0].Cables[0].Laid
	l.Planned = []plane.Point{{X: 240, Y: 200}, {X: 240, Y: 2200}}
	l.Differ = []layout.Difference{{What: language.Say("run 1"), Plan: plane.Pt(240, 900), Laid: plane.Pt(200, 900),
		Off: 40}}
	page := write(t, p)
	for _, want := range []string{`class="planned" points="240.0,-200.0 240.0,-2200.0"`,
		"H1, run 1: 40 mm off its plan"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not show %s", want)
		}
	}
}

// The page and the printed map tell alike how to live with the floor, once.
func TestLivingWithTheFloor(t *testing.T) {
	page := strings.ReplaceAll(write(t, samplePlan(plane.Millimetres, job.AsLaid, "Bath")), "&#39;", "'")
	for _, s := range append(probe.Living(circuit.Elsewhere, job.AsLaid, language.English), "Living with the floor") {
		if n := strings.Count(page, s); n != 1 {
			t.Errorf("%q is said %d times", s, n)
		}
	}
}
