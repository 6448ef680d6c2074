package probe_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

func said(facts []probe.Fact) []string {
	var out []string
	for _, f := range facts {
		out = append(out, f.About+": "+f.Words)
	}
	return out
}

func hold(t *testing.T, got, want []string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// From (740, 800) by hand: 120 to the second run less 3, 12.7 and 38.1 leaves 66.2; its
// running length is 1300 + 120 + 600 less two bends of 30 mm (12.9 each), on the label's scale
// 1.97 m. The sensor's tip at (560, 700) is 205.9 away; the end cap at (620, 200) 611.9; the
// joint reaches 75 mm up the run from (500, 100): 669.5, its half width 7; the lead, never
// recorded, at y = 100 700 away, at most 304.8 nearer; the rise begins at x = 1350: 1006.0.
func TestFactsOfASpot(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	m := probe.Of(p, room)
	a := m.At(plane.Pt(740, 800))
	got := said(m.Facts(a, probe.Fact{About: "spot", Words: m.Spot(a)}, nil))
	hold(t, got, []string{
		"spot: 800 mm from wall A, 1260 mm from wall B; tile row 3, column 3",
		"record: AS LAID, photo with tape; H1 within 13 mm either way",
		"nearest: heating cable H1, run 2: 120 mm to its centre line at 1.97 m of its length; less 3 mm half width, " +
			"13 mm position error, 38 mm finger-room: 66 mm left",
		": sensor S1: 206 mm, 149 mm left",
		": sensor lead S1: 206 mm, 149 mm left",
		": cold lead H1 (as planned, never recorded): 700 mm, 354 mm left",
		": end cap H1: 612 mm, 554 mm left",
		": lead joint H1: 669 mm, 611 mm left",
		": lead rise wall A: 1006 mm",
		"tile: nothing is recorded under it",
		": rows are counted going north, tiles in a row going east, both from 1, cut tiles and those under fixtures " +
			"too, as the room's first tile was set out",
	})
}

// By a plan distances are said as they are drawn, and nothing is taken off them.
func TestFactsByAPlan(t *testing.T) {
	p, room := bath(job.ForInstallation, job.PhotoWithTape)
	m := probe.Of(p, room)
	a := m.At(plane.Pt(740, 800))
	got := said(m.Facts(a, probe.Fact{}, nil))[2:5]
	hold(t, got, []string{"nearest: heating cable H1, run 2: 120 mm to its centre line at 1.97 m of its length, by " +
		"the plan", ": sensor S1: 206 mm", ": sensor lead S1: 206 mm"})
	u, err := m.Under(*a.Tile)
	if err != nil {
		t.Fatal(err)
	}
	facts := strings.Join(said(m.Facts(u.Answer, m.TileFact(u), u.Pieces)), "\n")
	// y from 903 to 597 on the run at x = 620, half a width beyond the tile: 1917 to 2223 mm, less
	// 25.8 in bends, times 2568 / 2594.2
	want := "tile: planned under the tile: heating cable H1, run 2, from 1.87 m to 2.17 m of its length"
	if !strings.Contains(facts, want) {
		t.Errorf("no %q in\n%s", want, facts)
	}
	if !strings.HasPrefix(facts, "tile: row 3, column 3; its middle is 750 mm from wall A, 1303 mm from wall "+
		"B\nrecord: FOR INSTALLATION, plan only: this is a plan") {
		t.Error(facts)
	}
}

// What lies under a tile and what stands on it; the tile's own answer says nothing of
// what stands beside.
func TestFactsOfATile(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Job.Fixtures = []job.Fixture{{Kind: job.Island, Name: "island", Outline: plane.Rectangle(plane.Pt(700, 700),
		plane.Pt(1100, 1000))}}
	m := probe.Of(p, room)
	at, _ := m.Tiling.At(plane.Pt(740, 800))
	u, err := m.Under(at)
	if err != nil {
		t.Fatal(err)
	}
	got := said(m.Facts(u.Answer, m.TileFact(u), u.Pieces))
	for _, want := range []string{
		"nearest: sensor S1: 0 mm to its centre line", ": heating cable H1, run 2: 0 mm, nothing left",
		"tile: under the tile, or may be: heating cable H1, run 2, from 1.8", "tile: island stands on part of it",
	} {
		if !slices.ContainsFunc(got, func(s string) bool { return strings.HasPrefix(s, want) }) {
			t.Errorf("no %q in\n%s", want, strings.Join(got, "\n"))
		}
	}
	for _, s := range got {
		if strings.HasPrefix(s, "fixture") || strings.HasSuffix(s, "nothing is recorded under it") {
			t.Error(s)
		}
	}
	spot := said(m.Facts(m.At(plane.Pt(740, 650)), probe.Fact{}, nil))
	if !slices.Contains(spot, "fixture: island is the nearest, its edge 50 mm away") {
		t.Errorf("%q", spot)
	}
	var b bytes.Buffer
	if err := m.WriteJSON(&b, u.Answer, u.Pieces, false); err != nil {
		t.Fatal(err)
	}
	if got := values(t, b.Bytes(), "schema", "spot", "fixture", "on_tile",
		"tile"); got != `1 null null [{"all_of_it":false,"name":"island"}] {"column":3,"row":3}` {
		t.Error(got)
	}
}

// A lead rise, in the floor or up the wall, is told with no record's error taken off.
func TestFactsInFrontOfTheBox(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Job.Thermostat.Height = 1200
	room.Cables[0].ColdLead, room.Sensors = nil, nil
	m := probe.Of(p, room)
	a := m.At(plane.Pt(1500, 80))
	if got := said(m.Facts(a, probe.Fact{}, nil))[2]; got != "nearest: lead rise wall A: 80 mm" {
		t.Error(got)
	}
	if got := m.Headline(a); got != "TOO CLOSE: lead rise wall A" {
		t.Error(got)
	}
	wall := m.OnWall(probe.WallSpot{Face: 0, Along: 1300, Up: 600})
	facts := said(m.Facts(wall, probe.Fact{}, nil))
	if facts[2] != "nearest: lead rise wall A: 200 mm, 50 mm left" || !strings.HasPrefix(facts[len(facts)-1],
		"wall: the leads rise in wall A") {
		t.Errorf("%q", facts)
	}
	if got := m.CautionsOf(wall); !slices.Equal(got, m.WallCautions()) {
		t.Errorf("%q", got)
	}
}

// Nothing is left where a finger-room reaches, and a thing without a finger-room
// says none.
func TestNothingLeftIsSaid(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Cables[0].Laid.FingerRoom = 0.5
	m := probe.Of(p, room)
	a := m.At(plane.Pt(630, 800))
	if got := m.Reckoning(a.Near[0]); !strings.HasSuffix(got, "13 mm position error, 0 mm finger-room: nothing left") &&
		!strings.HasSuffix(got, "13 mm position error, 1 mm finger-room: nothing left") {
		t.Error(got)
	}
	room.Cables[0].Laid.FingerRoom = 0
	m = probe.Of(p, room)
	if got := m.Reckoning(m.At(plane.Pt(640, 800)).Near[0]); !strings.HasSuffix(got,
		"; less 3 mm half width, 13 mm position error: 4 mm left") {
		t.Error(got)
	}
}

// In inches every length has its millimetres; the depth says what it rests on.
func TestWordsInInches(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	p.Job.Units = plane.Inches
	m := probe.Of(p, room)
	for got, want := range map[string]string{
		m.Headline(
			m.At(plane.Pt(680, 800))): `NO CABLE RECORDED WITHIN 0'-0" (0 mm) of this spot; see the limits below`,
		// 280 less 53.8
		m.Headline(m.At(plane.Pt(900, 800))): `NO CABLE RECORDED WITHIN 0'-8 3/4" (222 mm) of this spot; see the ` +
			`limits below`,
		m.Cautions()[4]: `The cable lies in mortar, from about 9/16" (14 mm) below the face of ` +
			`the tile (by default, not measured). No drilling depth is free of risk.`,
	} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	p.Job.Tile.Thickness, p.Job.Materials.BedThickness = 0.5, 0
	if n := len(probe.Of(p, room).Cautions()); n != 5 {
		t.Errorf("%d cautions", n)
	}
	p.Job.Tile.Thickness = 0
	if n := len(probe.Of(p, room).Cautions()); n != 4 {
		t.Errorf("%d cautions where the depth is not known", n)
	}
}

// Rows run along the tile's own direction and are counted to its left.
func TestCountingFollowsTheFirstTile(t *testing.T) {
	for end, want := range map[plane.Point]string{
		{X: 1547, Y: 297}: "rows are counted going north, tiles in a row going east",
		{X: 547, Y: 1297}: "rows are counted going west, tiles in a row going north",
		{X: 100, Y: 297}:  "rows are counted going south, tiles in a row going west",
		{X: 947, Y: 697}:  "rows are counted going north-west, tiles in a row going north-east",
	} {
		p, room := bath(job.AsLaid, job.PhotoWithTape)
		room.Job.FirstTile.B = end
		if got := probe.Of(p, room).Counting(); !strings.HasPrefix(got, want) {
			t.Errorf("towards %v: %s", end, got)
		}
	}
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Job.FirstTile = plane.Segment{}
	if got := probe.Of(p, room).Counting(); got != "" {
		t.Error(got)
	}
}

// Numbers of an answer: tenths of a millimetre, never "-0"; what is not counted has no
// running length, and the start of the heating cable has one of 0.
func TestAnswerAsJSON(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	m := probe.Of(p, room)
	write := func(p plane.Point) []byte {
		var b bytes.Buffer
		a := m.At(p)
		under := []probe.Piece{{Thing: probe.Thing{Kind: probe.Cable, Name: "H1"}, From: 1.04, To: 2.06, Run: 2}}
		if err := m.WriteJSON(&b, a, under, true); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	if got := values(t, write(plane.Pt(-0.01, 800)), "spot", "verdict"); got != `[0,800] "NO VERDICT"` {
		t.Error(got)
	}
	at := write(plane.Pt(500, 90))
	if got := values(t, at, "schema", "under_tile",
		"nothing_recorded_within_mm"); got != `1 [{"from_mm":1,"kind":"heating `+
		`cable","name":"H1","run":2,"to_mm":2.1}] null` {
		t.Error(got)
	}
	near := values(t, at, "near")
	if !strings.Contains(near, `"clear_mm":-43.8,"distance_mm":10,`) || !strings.Contains(near,
		`"run":1,"running_mm":0}`) || strings.Count(near, "running_mm") != 1 {
		t.Error(near)
	}
	if bytes.Contains(write(plane.Pt(-0.01, 800)), []byte("-0,")) {
		t.Error("minus nothing")
	}
}

// Places of a room without a wall by that letter, and of a wall that is too short.
func TestWallsThatAreNone(t *testing.T) {
	m := probe.Of(bath(job.AsLaid, job.PhotoWithTape))
	if _, err := m.WallSpot("E", 1, 1); err == nil ||
		err.Error() != `room "Bath" has no wall "E"; it has walls A to D` {
		t.Error(err)
	}
	if _, err := m.OffWalls("A", 1, "C", 1); err == nil || !strings.HasPrefix(err.Error(),
		"walls A and C are parallel") {
		t.Error(err)
	}
	if s, err := m.WallSpot("d", 1500, 10); err != nil || s.Face != 3 {
		t.Error(fmt.Sprint(s, err))
	}
}
