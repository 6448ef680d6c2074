package probe_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
	"oxturn/layout/tiling"
)

// comb is bath with a cable H1 in four runs, at x = 500, 620, 740 and 860, from
// y = 200 to 1400 with square corners, 5260 mm long as routed and on its label;
// and a second cable H2 in two runs at x = 1400 and 1520, 2600 mm.
func comb(status job.Status, evidence job.Evidence) (*layout.Plan, *layout.Room) {
	p, room := bath(status, evidence)
	one := room.Cables[0]
	laid := *one.Laid
	path := []plane.Point{{X: 500, Y: 100}, {X: 500, Y: 1400}, {X: 620, Y: 1400}, {X: 620, Y: 200}, {X: 740, Y: 200},
		{X: 740, Y: 1400}, {X: 860, Y: 1400}, {X: 860, Y: 200}}
	one.Path, one.BendRadius, one.Label.Length, one.Routed, one.Spacing = path, 0, 5260, 5260, 120
	laid.Path, laid.Joint, laid.EndCap = path, &path[0], &path[7]
	one.Laid = &laid
	one.Runs = []layout.Run{{Number: 1, RunningEnd: 1300}, {Number: 2, RunningEnd: 2620}, {Number: 3, RunningEnd: 3940},
		{Number: 4, RunningEnd: 5260}}
	two, other := one, laid
	short := []plane.Point{{X: 1400, Y: 100}, {X: 1400, Y: 1300}, {X: 1520, Y: 1300}, {X: 1520, Y: 20}}
	other.Path, other.Joint, other.EndCap = short, &short[0], &short[3]
	two.ID, two.Path, two.Laid, two.Label.Length, two.Routed = "H2", short, &other, 2600, 2600
	two.ColdLead = []plane.Point{{X: 1500, Y: 0}, {X: 1400, Y: 100}}
	two.Runs = []layout.Run{{Number: 1, RunningEnd: 1200}, {Number: 2, RunningEnd: 2600}}
	room.Cables = []layout.Cable{one, two}
	return p, room
}

func trace(t *testing.T, p *layout.Plan, cable string, s record.Stretch) *probe.Fault {
	t.Helper()
	f, err := probe.Trace(p, cable, s)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// From 3000 to 3200 mm H1 lies on its third run, x = 740, from y = 460 to 660. Its
// neighbours lie 120 to either side; within 1.3 gaps and the photo's 12.7 mm, 168.7, they pass
// it from y = 341.4 to 778.6, walked by tens: 2.05 to 2.47 m and 4.69 to 5.11 m along. Tiles:
// columns begin at x = -59, 244, 547, 850, rows at y = -6, 297, 600.
func TestFaultInWords(t *testing.T) {
	p, _ := comb(job.AsLaid, job.PhotoWithTape)
	f := trace(t, p, "H1", record.Stretch{Method: "pulse", Formula: "l = v t / 2", From: 3000, Best: 3100, To: 3200,
		Core:      record.FirstCore,
		FaultOhms: record.Measured{Value: 12.34, Error: 0.5}, Assumptions: []string{"there is one fault"},
		Cautions: []string{"first", "second"}})
	want := []string{
		"fault    Bath, cable H1: between 3.00 m and 3.20 m of its length, likeliest at 3.10 m",
		"where    on run 3; likeliest 560 mm from wall A, 1260 mm from wall B; tile row 2, column 3",
		"by       pulse: l = v t / 2",
		"core     the core read as A",
		"fault    it has 12.34 Ω itself, give or take 0.5",
		"record   AS LAID, photo with tape; H1 within 13 mm either way; H2 within 13 mm either way",
		"plan     rests on plan ",
		"tile     row 2, column 3 lies over it",
		"tile     row 3, column 3 lies over it",
		"         rows are counted going north, tiles in a row going east, both from 1, cut tiles and those under " +
			"fixtures too, as the room's first tile was set out",
		"beside   run 2, 2.05 m to 2.47 m, passes 120 mm from it and could be taken for it",
		"beside   run 4, 4.69 m to 5.11 m, passes 120 mm from it and could be taken for it",
		"assumed  there is one fault",
		"1. first",
		"2. second",
	}
	if got := f.Lines(); !slices.Equal(got, want) {
		t.Errorf("%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if got := f.Line[0]; got.Dist(plane.Pt(740, 460)) > 1e-6 {
		t.Errorf("from %v", got)
	}
	other := trace(t, p, "H2", record.Stretch{From: 1100, Best: 1250, To: 1400})
	if got := other.Lines()[1]; !strings.HasPrefix(got,
		"where    from run 1 to run 2; likeliest 1300 mm from wall A, 550 mm from wall B") {
		t.Error(got)
	}
}

// By a plan the tiles are those the cable is drawn under; as laid, those it may lie
// under too: at x = 543.5 it ends half a millimetre inside one column of tiles and
// 3.5 from the next.
func TestFaultUnderTwoColumns(t *testing.T) {
	for status, want := range map[job.Status]string{
		job.AsLaid:          "row 2, columns 2, 3 lie over it",
		job.ForInstallation: "row 2, column 2 lies over it",
	} {
		p, room := comb(status, job.ByHand)
		for i := range 2 {
			room.Cables[0].Path[i].X = 543.5
		}
		said := strings.Join(trace(t, p, "H1", record.Stretch{From: 300, Best: 350, To: 400}).Lines(), "\n")
		if !strings.Contains(said, want) {
			t.Errorf("%s: no %q in\n%s", status, want, said)
		}
		if planned := strings.Contains(said, "1. this place is by a plan"); planned != (status != job.AsLaid) {
			t.Errorf("%s: by a plan: %v", status, planned)
		}
	}
}

// Runs 160 mm apart lie within 1.3 mean gaps of 120 only with the record's error of 25.4.
func TestNeighboursWithinTheError(t *testing.T) {
	for status, want := range map[job.Status]int{job.AsLaid: 1, job.ForInstallation: 0} {
		p, room := bath(status, job.ByHand)
		c := &room.Cables[0]
		c.Spacing = 120
		c.Path[2].X, c.Path[3].X = 660, 660
		if f := trace(t, p, "", record.Stretch{From: 600, Best: 650, To: 700}); len(f.Neighbours) != want {
			t.Errorf("%s: %+v", status, f.Neighbours)
		}
	}
}

func TestFaultSaysOnlyWhatIsKnown(t *testing.T) {
	p, room := comb(job.AsLaid, job.PhotoWithTape)
	room.Job.FirstTile = plane.Segment{}
	f := trace(t, p, "H1", record.Stretch{From: 3000, Best: 3100, To: 3200})
	said := strings.Join(f.Lines(), "\n")
	for _, no := range []string{"core ", "Ω", "rows are counted", "lies over it", "\n         \n"} {
		if strings.Contains(said, no) {
			t.Errorf("it says %q:\n%s", no, said)
		}
	}
	p, _ = comb(job.AsLaid, job.PhotoWithTape)
	f = trace(t, p, "H1", record.Stretch{From: 3000, Best: 3100, To: 3200})
	for n, want := range map[int]bool{0: false, 1: true, 2: true} {
		if f.Tiles = f.Tiles[:n:2]; strings.Contains(strings.Join(f.Lines(), "\n"), "rows are counted") != want {
			t.Errorf("of %d tiles it says how they are counted: %v", n, !want)
		}
	}
	if !strings.Contains(said, `tile     nobody recorded where the tile of room "Bath" was set out from`) {
		t.Error(said)
	}
	for ohms, want := range map[record.Measured]string{{Value: 0.8}: "it has 0.8 Ω itself, give or take 0",
		{Value: 150000, Error: 2340}: "it has 150000 Ω itself, give or take 2340",
		{Error: 0.7}:                 "it has 0 Ω itself, give or take 0.7"} {
		if said := strings.Join(trace(t, p, "H1", record.Stretch{To: 10, FaultOhms: ohms}).Lines(),
			"\n"); !strings.Contains(said, want) {
			t.Errorf("no %q in %s", want, said)
		}
	}
}

func TestCableNamed(t *testing.T) {
	p, _ := comb(job.AsLaid, job.PhotoWithTape)
	if _, c, err := probe.CableNamed(p, "H2"); err != nil || c.ID != "H2" {
		t.Error(c, err)
	}
	for name, want := range map[string]string{"": "several cables, name one: H1 in Bath, H2 in Bath",
		"H7": `no cable "H7"; cables: H1 in Bath, H2 in Bath`} {
		if _, _, err := probe.CableNamed(p, name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", name, err)
		}
	}
	p.Rooms[0].Cables = nil
	if _, _, err := probe.CableNamed(p, ""); err == nil || !strings.Contains(err.Error(), "the job has no cable") {
		t.Error(err)
	}
}

// values reads what a JSON document has at some of its keys.
func values(t *testing.T, b []byte, keys ...string) string {
	t.Helper()
	var out map[string]any
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, k := range keys {
		v, err := json.Marshal(out[k])
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, string(v))
	}
	return strings.Join(got, " ")
}

func TestFaultAsJSON(t *testing.T) {
	p, _ := comb(job.AsLaid, job.PhotoWithTape)
	write := func(ohms record.Measured) []byte {
		var b bytes.Buffer
		f := trace(t, p, "H1", record.Stretch{From: 3000, Best: 3100.04, To: 3200.06, FaultOhms: ohms})
		if err := f.WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	got := values(t, write(record.Measured{}), "schema", "from_mm", "likeliest_mm", "to_mm", "line", "likeliest",
		"runs", "fault_ohms")
	if want := "1 3000 3100 3200.1 [[740,460],[740,660.1]] [740,560] [3,3] null"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	got = values(t, write(record.Measured{Value: 0.8}), "neighbours", "tiles", "fault_ohms")
	want := `[{"from_mm":2050,"gap_mm":120,"run":2,"to_mm":2470},` +
		`{"from_mm":4690,"gap_mm":120,"run":4,"to_mm":5110}]`
	if !strings.HasPrefix(got, want) || !strings.HasSuffix(got, " 0.8") {
		t.Errorf("%s, want %s", got, want)
	}
	if got := values(t, write(record.Measured{Error: 0.7}), "fault_ohms"); got != "0" {
		t.Errorf("0 to 0.7 Ω: %s", got)
	}
}

// things returns what a map has of a kind.
func things(m *probe.Map, k probe.Kind) (out []probe.Thing) {
	for _, x := range m.Things {
		if x.Kind == k {
			out = append(out, x)
		}
	}
	return out
}

// A plan without a record still has its map: everything lies where it is planned, within
// 12 in (common practice), and no finger-room is taken off, since nothing is reckoned.
func TestMapOfAPlan(t *testing.T) {
	p, room := bath(job.Proposal, job.PhotoWithTape)
	room.Cables[0].Laid = nil
	room.Cables[0].Label.Diameter = 0
	m := probe.Of(p, room)
	for _, x := range m.Things {
		if x.Kind != probe.LeadRise && (x.Recorded || x.Error != 304.8 || x.Finger != 0) {
			t.Errorf("%+v", x)
		}
	}
	if c := things(m, probe.Cable)[0]; c.Half != 3.5 {
		t.Errorf("a cable without a width on its label is %g mm to either side", c.Half)
	}
	room.Cables[0].Label.Length, room.Cables[0].Label.Diameter = 0, 0.8
	if c := things(probe.Of(p, room), probe.Cable)[0]; c.Half != 0.4 || math.Abs(c.Along[len(c.Along)-1]-2594.2) > 0.1 {
		t.Errorf("a label without a length: %g mm along, %g to either side", c.Along[len(c.Along)-1], c.Half)
	}
	if m.Evidence != "plan only" || len(m.Differ) != 0 {
		t.Errorf("%s, %v", m.Evidence, m.Differ)
	}
}

// As laid, joint and end cap lie where they were found, on a plan where the path begins and
// ends; by a plan nothing differs.
func TestEndsLieWhereTheyWereFound(t *testing.T) {
	for status, want := range map[job.Status]plane.Point{job.AsLaid: {X: 480, Y: 120}, job.ForInstallation: {X: 500,
		Y: 100}} {
		p, room := bath(status, job.PhotoWithTape)
		l := room.Cables[0].Laid
		l.Joint = &plane.Point{X: 480, Y: 120}
		l.Differ = []layout.Difference{{What: language.Say("lead joint"), Plan: plane.Pt(500, 100),
			Laid: plane.Pt(480, 120),
			Off:  28.3}}
		m := probe.Of(p, room)
		if joint := things(m, probe.LeadJoint)[0]; joint.Mark != want {
			t.Errorf("%s: joint at %v", status, joint.Mark)
		}
		if n := len(m.Differ); n != len(m.Planned) || (n == 1) != (status == job.AsLaid) {
			t.Errorf("%s: %d differences", status, n)
		}
		if status == job.AsLaid && m.Moved(m.Differ[0]) != "H1, lead joint: 28 mm off its plan, at 120 mm from wall "+
			"A, 1520 mm from wall B" {
			t.Error(m.Moved(m.Differ[0]))
		}
	}
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	if m := probe.Of(p, room); len(m.Planned) != 0 {
		t.Errorf("nothing differs, but %d plans are kept", len(m.Planned))
	}
}

// Leads are found on the floor, held as planned, or only planned, each apart.
func TestWhichLeadsAreRecorded(t *testing.T) {
	way := []plane.Point{{X: 1500, Y: 0}, {X: 500, Y: 100}}
	for _, c := range []struct {
		name        string
		laid        job.Laid
		first, last bool
	}{
		{"neither", job.Laid{}, false, false},
		{"the lead", job.Laid{ColdLead: way}, true, false},
		{"its return", job.Laid{Return: way}, false, true},
		{"as planned", job.Laid{AsPlanned: true}, true, true},
	} {
		p, room := bath(job.AsLaid, job.PhotoWithTape)
		c.laid.Evidence = job.PhotoWithTape
		room.Cables[0].Return = []plane.Point{{X: 620, Y: 200}, {X: 1500, Y: 0}}
		room.Cables[0].Laid.Job = &c.laid
		leads := things(probe.Of(p, room), probe.ColdLead)
		if len(leads) != 2 || leads[0].Recorded != c.first || leads[1].Recorded != c.last {
			t.Errorf("%s: %+v", c.name, leads)
		}
		room.Cables[0].ColdLead, room.Cables[0].Return = room.Cables[0].ColdLead[:1], nil
		if leads := things(probe.Of(p, room), probe.ColdLead); len(leads) != 0 {
			t.Errorf("a lead of one point: %+v", leads)
		}
	}
}

// A sensor found on the floor is as sure as the least sure cable's record; its lead only
// where its own way was recorded.
func TestHowSureASensorIs(t *testing.T) {
	for _, order := range [][2]job.Evidence{{job.PhotoWithTape, job.ByHand}, {job.ByHand, job.PhotoWithTape}} {
		p, room := comb(job.AsLaid, order[0])
		_, other := comb(job.AsLaid, order[1])
		laid := *room.Cables[1].Laid
		laid.Error, laid.FingerRoom, laid.Job = other.Cables[1].Laid.Error, other.Cables[1].Laid.FingerRoom,
			other.Cables[1].Laid.Job
		room.Cables[1].Laid = &laid
		m := probe.Of(p, room)
		if tip := things(m, probe.SensorTip)[0]; !tip.Recorded || tip.Error != 25.4 || tip.Finger != 76.2 {
			t.Errorf("%v: %+v", order, tip)
		}
		if m.Evidence != "measured by hand" {
			t.Errorf("%v: %s", order, m.Evidence)
		}
	}
	for _, c := range []struct{ found, lead, want bool }{{true, true, true}, {true, false, false},
		{false, true, false}} {
		p, room := bath(job.AsLaid, job.PhotoWithTape)
		room.Sensors[0].FoundLead = c.lead
		if !c.found {
			room.Sensors[0].Found = nil
		}
		m := probe.Of(p, room)
		if lead := things(m, probe.SensorLead); len(lead) != 1 || lead[0].Recorded != c.want ||
			things(m, probe.SensorTip)[0].Recorded != c.found {
			t.Errorf("%+v: %+v", c, lead)
		}
		room.Sensors[0].Lead = room.Sensors[0].Lead[:1]
		if lead := things(probe.Of(p, room), probe.SensorLead); len(lead) != 0 {
			t.Errorf("a lead of one point: %+v", lead)
		}
	}
}

// Without a box on a wall there is no rise, and it is said.
func TestNoRiseWithoutABox(t *testing.T) {
	for _, wall := range []int{-1, 4} {
		p, room := bath(job.AsLaid, job.PhotoWithTape)
		room.Job.Thermostat.Wall = wall
		m := probe.Of(p, room)
		if len(things(m, probe.LeadRise)) != 0 || m.Rise() != nil ||
			m.RiseWords() != "where the leads rise is not known" {
			t.Errorf("wall %d: %s", wall, m.RiseWords())
		}
	}
}

// The zone kept for the leads ends where its wall does.
func TestRiseEndsWithItsWall(t *testing.T) {
	for along, want := range map[float64]string{
		100: "the zone kept for them is 250 mm wide, from 0 mm to 250 mm from its corner with wall D, and reaches " +
			"from the floor to 1350 mm up",
		1900: "the zone kept for them is 250 mm wide, from 1750 mm to 2000 mm from its corner with wall D",
		1000: "the leads rise in wall A to the box, whose middle is 1200 mm up: the zone kept for them is 900 mm " +
			"wide, from 250 mm to 1150 mm from",
	} {
		p, room := bath(job.AsLaid, job.PhotoWithTape)
		room.Job.Thermostat.At, room.Job.Thermostat.Along, room.Job.Thermostat.Height = plane.Pt(along, 0), along, 1200
		room.Sensors, room.Cables[0].ColdLead = nil, nil
		if along == 1000 { // a lead that comes up 600 mm beside the box, its end at the joint listed first
			room.Cables[0].ColdLead = []plane.Point{{X: 500, Y: 1000}, {X: 400, Y: 90}}
		}
		if got := probe.Of(p, room).RiseWords(); !strings.Contains(got, want) {
			t.Errorf("box at %g: %s", along, got)
		}
	}
	// a lead that comes no nearer than 100 mm to the wall widens nothing
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Cables[0].ColdLead = []plane.Point{{X: 400, Y: 110}, {X: 500, Y: 1000}}
	room.Sensors = nil
	if r := probe.Of(p, room).Rise(); r.Line[0] != r.Line[1] {
		t.Errorf("%+v", r)
	}
}

// At the height of the box and below, the rise is as far as it is along the wall; the very
// end of a wall is on it.
func TestDistanceAlongTheWall(t *testing.T) {
	m := wallMap(job.AsLaid)
	for _, up := range []float64{0, 600, 1200} {
		s, err := m.WallSpot("A", 2000, up)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range m.OnWall(s).Near {
			if n.Kind == probe.LeadRise && math.Abs(n.Distance-500) > 1e-9 {
				t.Errorf("%g up: %g mm from the rise", up, n.Distance)
			}
		}
	}
}

// Of things that overlap that is told of which the spot lies deepest under; a post on
// one tile stands on part of it, and so does something with a notch in it.
func TestStandsThatOverlap(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Job.Fixtures = []job.Fixture{
		{Kind: job.Island, Name: "chest", Outline: plane.Rectangle(plane.Pt(1200, 600), plane.Pt(1300, 700))},
		{Kind: job.Island, Name: "island", Outline: plane.Rectangle(plane.Pt(1000, 500), plane.Pt(1600, 1100))},
		{Kind: job.Island, Name: "mat", Outline: plane.Rectangle(plane.Pt(1180, 580), plane.Pt(1330, 730))},
	}
	m := probe.Of(p, room)
	if n := m.At(plane.Pt(1250, 650)).Stand; n.Name != "island" || n.Distance != 150 {
		t.Errorf("%+v", n)
	}
	// the tile from (1153, 600) to (1453, 900) has the chest and the mat inside it or across its edge
	at, _ := m.Tiling.At(plane.Pt(1400, 850))
	m.Stands = []job.Stand{{Name: "post", Outline: plane.Rectangle(plane.Pt(1250, 700), plane.Pt(1300, 750))},
		{Name: "horseshoe", Outline: plane.Ring{{X: 1000, Y: 500}, {X: 1280, Y: 500}, {X: 1280, Y: 800},
			{X: 1320, Y: 800}, {X: 1320, Y: 500}, {X: 1600, Y: 500}, {X: 1600, Y: 1000}, {X: 1000, Y: 1000}}},
		{Name: "far", Outline: plane.Rectangle(plane.Pt(100, 100), plane.Pt(200, 200))}}
	if got := fmt.Sprintf("%v", onTile(m, at)); got != "[post false horseshoe false]" {
		t.Error(got)
	}
}

func onTile(m *probe.Map, at tiling.Place) (out []string) {
	for _, s := range m.OnTile(at) {
		out = append(out, fmt.Sprintf("%s %v", s.Name, s.All))
	}
	return out
}

// What is wrong with a tile's number is said with those there are: rows 1 to 5 (y from -6 by
// 303 to 1500), columns 1 to 7 (x from -59 to 2000).
func TestTilesThatAreNone(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	m := probe.Of(p, room)
	rows := len(m.Tiling.Rows)
	for row, want := range map[int]string{0: `room "Bath" has rows 1 to 5`, 1: `row 1 of room "Bath" has tiles 1 to 7`,
		5: `row 5 of room "Bath" has tiles 1 to 7`, 6: `room "Bath" has rows 1 to 5`} {
		place := m.Tiling.Rows[0].Count + 1
		at, _ := m.Tiling.At(plane.Pt(1, 1))
		at.Row, at.Column = row, place
		if _, err := m.Under(at); err == nil || err.Error() != want {
			t.Errorf("row %d of %d: %v, want %s", row, rows, err, want)
		}
	}
	room.Job.FirstTile = plane.Segment{}
	m = probe.Of(p, room)
	at, _ := probe.Of(bath(job.AsLaid, job.PhotoWithTape)).Tiling.At(plane.Pt(1, 1))
	if _, err := m.Under(at); err == nil || !strings.Contains(err.Error(), "nobody recorded where the tile") ||
		m.OnTile(at) != nil {
		t.Error(err)
	}
	p.Job.Tile.Pattern = "herringbone"
	if m = probe.Of(p, room); !strings.Contains(m.NoTiles, "not laid in rows") {
		t.Error(m.NoTiles)
	}
	room.Job.FirstTile = plane.Segment{A: plane.Pt(547, 297), B: plane.Pt(1800, 297)}
	if m = probe.Of(p, room); !strings.Contains(m.NoTiles, "not laid in rows") {
		t.Error(m.NoTiles)
	}
	p.Job.Tile.Pattern = "straight"
	if m = probe.Of(p, room); m.NoTiles != "" {
		t.Error(m.NoTiles)
	}
}
