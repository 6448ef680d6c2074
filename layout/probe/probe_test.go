package probe_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/tiling"
)

// bath is a room of 2000 x 1500 with one cable laid as a hairpin whose first
// run lies at x = 500 and whose second lies at x = 620.
func bath(status job.Status, evidence job.Evidence) (*layout.Plan, *layout.Room) {
	outline := plane.Ring{{X: 0, Y: 0}, {X: 2000, Y: 0}, {X: 2000, Y: 1500}, {X: 0, Y: 1500}}
	r := &job.Room{Name: "Bath", Outline: outline}
	for i := range outline {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: outline.Edge(i)})
	}
	r.Thermostat = job.Thermostat{At: plane.Pt(1500, 0), Wall: 0, Along: 1500}
	r.FirstTile = plane.Segment{A: plane.Pt(547, 297), B: plane.Pt(1800, 297)}
	j := &job.Job{Units: plane.Millimetres, Info: job.Info{Status: status}, Tile: job.Tile{Width: 300, Length: 300,
		Joint: 3, Thickness: 10, Pattern: "straight"},
		Materials: job.Materials{BedThickness: 4}, Rooms: []job.Room{*r}}
	path := []plane.Point{{X: 500, Y: 100}, {X: 500, Y: 1400}, {X: 620, Y: 1400}, {X: 620, Y: 200}}
	record := &job.Laid{Evidence: evidence, Corners: path}
	laid := &layout.Laid{Job: record, Path: path, Whole: true, Planned: path, Joint: &path[0], EndCap: &path[3]}
	for _, a := range layout.Accuracies() {
		if a.Evidence == evidence {
			laid.Error, laid.FingerRoom = a.Error, a.FingerRoom
		}
	}
	c := layout.Cable{ID: "H1", Path: path, BendRadius: 30, Laid: laid, Label: job.Cable{Length: 2568, Diameter: 6},
		Routed:   2568,
		ColdLead: []plane.Point{{X: 1500, Y: 0}, {X: 1500, Y: 100}, {X: 500, Y: 100}}, Runs: []layout.Run{{Number: 1,
			RunningEnd: 1290}, {Number: 2, RunningEnd: 2568}}}
	tip := plane.Pt(560, 700)
	room := layout.Room{Job: r, Floor: plane.FromRing(outline), Tiled: plane.FromRing(outline),
		Cables: []layout.Cable{c},
		Sensors: []layout.Sensor{{Name: "S1", Tip: tip, Found: &tip, FoundLead: true,
			Lead: []plane.Point{{X: 1500, Y: 0}, {X: 560, Y: 50}, tip}}}}
	p := &layout.Plan{Job: j, Rooms: []layout.Room{room}}
	return p, &p.Rooms[0]
}

// Distances by hand: to the run at x = 620 from the east, less 3 mm half
// width, 12.7 or 25.4 mm error, 38.1 or 76.2 mm finger-room.
func TestVerdictsByHand(t *testing.T) {
	for _, c := range []struct {
		evidence job.Evidence
		spot     plane.Point
		want     probe.Verdict
		within   float64
	}{
		{job.PhotoWithTape, plane.Pt(621, 800), probe.CableHere, 0},
		{job.PhotoWithTape, plane.Pt(620+15.6, 800), probe.CableHere, 0},
		{job.PhotoWithTape, plane.Pt(620+15.8, 800), probe.TooClose, 0},
		{job.PhotoWithTape, plane.Pt(620+53.7, 800), probe.TooClose, 0},
		{job.PhotoWithTape, plane.Pt(620+60, 800), probe.NothingRecorded, 60 - 3 - 12.7 - 38.1},
		{job.ByHand, plane.Pt(620+60, 800), probe.TooClose, 0},
		{job.ByHand, plane.Pt(620+28.3, 800), probe.CableHere, 0},
		{job.ByHand, plane.Pt(620+200, 800), probe.NothingRecorded, 200 - 3 - 25.4 - 76.2},
		// 100 mm from the planned cold lead, which nobody recorded: within 305 mm
		{job.PhotoWithTape, plane.Pt(1000, 200), probe.TooClose, 0},
		// in front of the wall where the leads rise
		{job.PhotoWithTape, plane.Pt(1640, 90), probe.TooClose, 0},
		{job.PhotoWithTape, plane.Pt(-10, 800), probe.NoVerdict, 0},
		{job.PlanOnly, plane.Pt(1800, 1300), probe.NoVerdict, 0},
	} {
		m := probe.Of(bath(job.AsLaid, c.evidence))
		a := m.At(c.spot)
		if a.Verdict != c.want || math.Abs(a.Within-c.within) > 0.05 {
			t.Errorf("%s at %v: %s within %.1f, want %s within %.1f (%s)", c.evidence, c.spot, a.Verdict, a.Within,
				c.want, c.within, m.Headline(a))
		}
	}
}

func TestNoVerdictFromAPlan(t *testing.T) {
	for _, s := range []job.Status{job.Proposal, job.ForInstallation} {
		m := probe.Of(bath(s, job.PhotoWithTape))
		for _, spot := range []plane.Point{{X: 620, Y: 800}, {X: 1900, Y: 1400}} {
			if a := m.At(spot); a.Verdict != probe.NoVerdict || !strings.Contains(a.Reason, s.String()) {
				t.Errorf("%s: %s, %s", s, a.Verdict, a.Reason)
			}
		}
	}
}

func TestRunningLengthAndRun(t *testing.T) {
	m := probe.Of(bath(job.AsLaid, job.PhotoWithTape))
	a := m.At(plane.Pt(635, 800))
	// 1300 + 120 + 600 less two bends of 30 mm, each 0.43 of a radius short:
	// 1994 of 2594, scaled to the 2568 on the label
	if n := a.Near[0]; n.Kind != probe.Cable || n.Run != 2 || math.Abs(n.Running-1994.2*2568/2594.2) > 0.5 {
		t.Errorf("%s run %d at %.1f mm", n.Kind, n.Run, n.Running)
	}
}

func TestUnderTile(t *testing.T) {
	m := probe.Of(bath(job.AsLaid, job.PhotoWithTape))
	at, _ := m.Tiling.At(plane.Pt(560, 800))
	u, err := m.Under(at)
	if err != nil {
		t.Fatal(err)
	}
	runs := map[int]float64{}
	for _, p := range u.Pieces {
		if p.Kind == probe.Cable {
			runs[p.Run] += p.To - p.From
		}
	}
	// tiles are centred on x = 1000, so this one reaches from 547 to 847: run 2
	// at 620 crosses its 300 mm and the error of 15.7 at both edges, run 1 at 500
	// does not
	if math.Abs(runs[2]-331*2568/2594.2) > 5 || runs[1] != 0 {
		t.Errorf("mm of each run under the tile: %v", runs)
	}
	if u.Answer.Verdict != probe.CableHere {
		t.Errorf("the tile's verdict is %s", u.Answer.Verdict)
	}
	for _, bad := range []tiling.Place{{Row: 0, Column: 1}, {Row: 1, Column: 99}, {Row: 99, Column: 1}} {
		if _, err := m.Under(bad); err == nil {
			t.Errorf("%v is a tile", bad)
		}
	}
}

// A cut tile is judged by the piece that was laid. Tiles of 300 with joints of 3 begin
// at x = 440 + 303 k: the first is laid from 0 to 134 and the last from 1955 to 2000, and
// the middles of both whole tiles, at -16 and 2105, lie outside the walls. Run 1 is moved
// to x = 100.
func TestACutTileIsJudgedByItsPiece(t *testing.T) {
	p, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Job.FirstTile = plane.Segment{A: plane.Pt(440, 297), B: plane.Pt(1800, 297)}
	room.Cables[0].Path[0].X, room.Cables[0].Path[1].X = 100, 100
	m := probe.Of(p, room)
	for _, c := range []struct {
		x, middle float64
		runs      int
		off       float64 // from the tile's edge to run 2, at 620
		verdict   probe.Verdict
	}{
		{20, 67, 1, 0, probe.CableHere},
		{1990, 1977.5, 0, 1955 - 620, probe.NothingRecorded},
	} {
		at, ok := m.Tiling.At(plane.Pt(c.x, 750))
		u, err := m.Under(at)
		if err != nil || !ok {
			t.Fatal(err)
		}
		runs := map[int]bool{}
		for _, piece := range u.Pieces {
			if piece.Kind == probe.Cable {
				runs[piece.Run] = true
			}
		}
		a := u.Answer
		if math.Abs(a.Spot.X-c.middle) > 0.1 || len(runs) != c.runs || a.Verdict != c.verdict || !a.Inside {
			t.Errorf("the tile at %g: middle %.1f, runs %v under it, %s, inside %t", c.x, a.Spot.X, runs, a.Verdict,
				a.Inside)
		}
		if cable := a.Near[0]; cable.Kind == probe.Cable && math.Abs(cable.Distance-c.off) > 0.1 {
			t.Errorf("the tile at %g: %s %.1f away, by hand %.1f", c.x, cable.Kind, cable.Distance, c.off)
		}
	}
}

// TestMoreErrorSaysLess holds at random spots that a coarser record never
// leaves more floor, that no answer is below the true distance, and that the
// word which may not be said is not.
func TestMoreErrorSaysLess(t *testing.T) {
	fine, coarse := probe.Of(bath(job.AsLaid, job.PhotoWithTape)), probe.Of(bath(job.AsLaid, job.ByHand))
	plan := probe.Of(bath(job.ForInstallation, job.ByHand))
	rapid.Check(t, func(t *rapid.T) {
		p := plane.Pt(rapid.Float64Range(-50, 2050).Draw(t, "x"), rapid.Float64Range(-50, 1550).Draw(t, "y"))
		a, b := fine.At(p), coarse.At(p)
		if b.Within > a.Within || a.Verdict == probe.CableHere && b.Verdict != probe.CableHere {
			t.Fatalf("%v: by photo %s %.1f, by hand %s %.1f", p, a.Verdict, a.Within, b.Verdict, b.Within)
		}
		for _, n := range a.Near {
			if a.Verdict == probe.NothingRecorded && a.Within+n.Half+n.Error > n.Distance {
				t.Fatalf("%v: nothing within %.1f, but %s lies %.1f away", p, a.Within, n.Kind, n.Distance)
			}
		}
		for _, m := range []*probe.Map{fine, coarse, plan} {
			a := m.At(p)
			said := m.Headline(a) + m.Spot(a) + m.Record() + m.Counting() + strings.Join(m.Cautions(), " ")
			for _, n := range a.Near {
				said += m.Reckoning(n)
			}
			if strings.Contains(strings.ToLower(said), "safe") {
				t.Fatalf("the word is said: %s", said)
			}
		}
	})
}

// TestWhatStandsThere: an island of 400 x 300 from (1000, 600), and a column
// beside it. Tiles are 300 with joints of 3, centred on x = 1000, so that they
// begin at x = 547, 850, 1153.
func TestWhatStandsThere(t *testing.T) {
	plan, room := bath(job.AsLaid, job.PhotoWithTape)
	room.Job.Fixtures = []job.Fixture{{Kind: job.Island, Name: "island", Outline: plane.Rectangle(plane.Pt(1000, 600),
		plane.Pt(1400, 900))}}
	room.Job.KeepOuts = []job.KeepOut{{Name: "post", Outline: plane.Rectangle(plane.Pt(1700, 700),
		plane.Pt(1800, 800))}}
	m := probe.Of(plan, room)
	for _, c := range []struct {
		spot  plane.Point
		name  string
		under bool
		off   float64
	}{
		{plane.Pt(1050, 700), "island", true, 50},
		{plane.Pt(900, 700), "island", false, 100},
		{plane.Pt(970, 560), "island", false, 50}, // 3, 4, 5
		{plane.Pt(1600, 750), "post", false, 100},
		{plane.Pt(1790, 790), "post", true, 10},
	} {
		n := m.At(c.spot).Stand
		if n == nil || n.Name != c.name || n.Under != c.under || math.Abs(n.Distance-c.off) > 1e-9 {
			t.Errorf("%v: %+v, want %s at %g", c.spot, n, c.name, c.off)
		}
	}
	on := func(x, y float64) string {
		p, ok := m.Tiling.At(plane.Pt(x, y))
		if !ok {
			t.Fatalf("no tile at %g, %g", x, y)
		}
		out := ""
		for _, s := range m.OnTile(p) {
			out += fmt.Sprintf("%s %v ", s.Name, s.All)
		}
		return out
	}
	for _, c := range []struct {
		x, y float64
		want string
	}{{900, 750, "island false "}, {1300, 750, "island false "}, {700, 750, ""}, {1750, 750, "post false "}} {
		if got := on(c.x, c.y); got != c.want {
			t.Errorf("on the tile at %g, %g: %q, want %q", c.x, c.y, got, c.want)
		}
	}
	m.Stands[0].Outline = plane.Rectangle(plane.Pt(100, 100), plane.Pt(1900, 1400))
	if got := on(1000, 750); got != "island true " {
		t.Errorf("on a tile all under it: %q", got)
	}
	facts := fmt.Sprint(m.Facts(m.At(plane.Pt(1050, 700)), probe.Fact{}, nil))
	for _, want := range []string{"{fixture the spot is under island,", "{tile island stands on all of it}"} {
		if !strings.Contains(facts, want) {
			t.Errorf("no %q in %s", want, facts)
		}
	}
}

// TestTwoColdEndsAreToldApart: a cable with a joint at both ends has its two
// joints and leads named by the ends they are at.
func TestTwoColdEndsAreToldApart(t *testing.T) {
	plan, room := bath(job.AsLaid, job.ByHand)
	c := &room.Cables[0]
	c.Return = []plane.Point{{X: 620, Y: 200}, {X: 1500, Y: 50}, {X: 1500, Y: 0}}
	names := map[string]bool{}
	for _, x := range probe.Of(plan, room).Things {
		names[string(x.Kind)+" "+x.Name+" "+x.Tag] = true
	}
	for _, want := range []string{"lead joint H1 START START", "lead joint H1 END END", "cold lead H1 START ",
		"cold lead H1 END "} {
		if !names[want] {
			t.Errorf("no %q among %v", want, names)
		}
	}
}

func TestOffWalls(t *testing.T) {
	m := probe.Of(bath(job.AsLaid, job.ByHand))
	p, err := m.OffWalls("a", 200, "B", 300)
	if err != nil || p.Dist(plane.Pt(1700, 200)) > 1e-9 {
		t.Errorf("%v, %v", p, err)
	}
	for _, w := range [][2]string{{"A", "C"}, {"A", "Q"}, {"A", "A"}} {
		if _, err := m.OffWalls(w[0], 1, w[1], 1); err == nil {
			t.Errorf("walls %s and %s fix a point", w[0], w[1])
		}
	}
}

func TestJSON(t *testing.T) {
	m := probe.Of(bath(job.AsLaid, job.PhotoWithTape))
	var b bytes.Buffer
	a := m.At(plane.Pt(680, 800))
	if err := m.WriteJSON(&b, a, nil, true); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprint(out["verdict"], out["nothing_recorded_within_mm"],
		out["spot"]); got != "NO CABLE RECORDED6.2 [680 800]" {
		t.Error(got)
	}
}

// TestLaidExample reads the example of a floor recorded as laid: its path is
// that of the issued plan, wherever a plan worked out today would lay it.
func TestLaidExample(t *testing.T) {
	const dir = "../../testdata/laid"
	data, err := os.ReadFile(filepath.Join(dir, "bath.toml"))
	if err != nil {
		t.Fatal(err)
	}
	j, report := job.Read("bath.toml", data,
		func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, n)) })
	if report.Errors() > 0 {
		var b bytes.Buffer
		_ = report.Human(&b, false) // a bytes.Buffer takes everything
		t.Fatal(b.String())
	}
	p, _ := build.Plan(j)
	m := probe.Of(p, &p.Rooms[0])
	issued := j.Laid[0].Issued.Path
	mid := issued[4].Lerp(issued[5], 0.5)
	if a := m.At(mid); a.Verdict != probe.CableHere {
		t.Errorf("on a run of the issued plan: %s", m.Headline(a))
	}
	if !strings.HasPrefix(m.Record(), "AS LAID, photo with tape") {
		t.Error(m.Record())
	}
	if n := len(j.Laid[0].Readings); n != 6 {
		t.Errorf("%d readings", n)
	}
}
