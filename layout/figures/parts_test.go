package figures

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/takeoff"
	"oxturn/layout/tiling"
)

// A layout that is proposed beside one it was compared with, by hand: of 40 tiles with a
// tenth for breakage 44 are bought, 5 boxes of 10.
func TestTileLayoutsInWords(t *testing.T) {
	r := &layout.Room{Tiles: []tiling.Layout{
		{Along: language.Say("a tile"), Across: language.Say("a joint"), Count: tiling.Count{Whole: 20, Cut: 25,
			Pairs: 5}, UnderHalf: 3,
			Slivers: 1, AtJoints: 2, Narrowest: 150},
		{Along: language.Say("a joint"), Across: language.Say("a tile"), Count: tiling.Count{Whole: 20, Cut: 20}},
	}}
	all := tileLayouts(r, job.Tile{Breakage: 0.1, PerBox: 10})
	if len(all) != 2 || !all[0].Taken || all[1].Taken || all[0].Tiles != 40 {
		t.Fatalf("%+v", all)
	}
	all[1].Boxes = 0
	hold(t, metric(func(p *page) { p.tiles(all) }),
		"  tile layouts  cut  under half  slivers  narrowest  tiles  boxes  along the rows; across them",
		"    * proposed  25   3           1        150 mm     44     5      a tile; a joint; 2 cut by a movement joint",
		"    compared    20   0           0        -          44     -      a joint; a tile")
	all[1].Boxes, all[1].AtJoints = 1, 1
	if got := metric(func(p *page) { p.tiles(all) }); !strings.HasSuffix(got,
		" 44     1      a joint; a tile; 1 cut by a movement joint\n") {
		t.Error(got)
	}
	all[0].Recorded = true
	hold(t, metric(func(p *page) { p.tiles(all) }),
		"  tile            as the tiler set it out: 20 whole, 25 cut, narrowest 150 mm, 44 tiles with breakage")
	if got := metric(func(p *page) { p.tiles(nil) }); got != "" {
		t.Errorf("of no layout: %q", got)
	}
}

// Two zones that the job speaks of, of 4 m² with 300 and 200 W and of 1 m² with none, and a
// cold one in the nearer of two pieces of floor: 2.25 m².
func TestZonesByHand(t *testing.T) {
	at := func(x, side float64) plane.Region {
		return plane.FromRing(plane.Rectangle(plane.Pt(x, 0), plane.Pt(x+side, side)))
	}
	r := &layout.Room{Job: &job.Room{Zones: []job.Zone{{Name: "sofa"}, {Name: "door"}, {Name: "stove", Cold: true,
		At: plane.Pt(9000, 500)}}}, Zones: []plane.Region{at(0, 500), at(1000, 2000), at(4000, 1000)}}
	r.Named = []*job.Zone{nil, &r.Job.Zones[0], &r.Job.Zones[1]}
	r.Cold = append(at(5000, 1000), at(8500, 1500)...)
	for i, watts := range []float64{100, 300, 200} {
		r.Cables = append(r.Cables, layout.Cable{ID: string(rune('A' + i)), Zone: []int{0, 1, 1}[i]})
		r.Cables[i].Label.Watts = watts
	}
	got := zones(r)
	want := `[{"name":"sofa","heated_m2":4,"cables":["B","C"],"heat_over_heated_w_m2":125,"cold":false},` +
		`{"name":"door","heated_m2":1,"cables":[],"heat_over_heated_w_m2":0,"cold":false},` +
		`{"name":"stove","heated_m2":2.25,"cables":[],"heat_over_heated_w_m2":0,"cold":true}]`
	if text, err := json.Marshal(got); err != nil || string(text) != want {
		t.Errorf("%s, %v\nwant %s", text, err, want)
	}
	hold(t, metric(func(p *page) {
		for _, z := range got {
			p.zone(z)
		}
	}),
		"  zone            sofa: 4.00 m² with B, C; 125 W/m² over it", "  zone            door: 1.00 m² have no cable",
		"  zone            stove: 2.25 m² stay without cable as asked")
	// the piece that a place lies in, whichever stands first
	for x, want := range map[float64]float64{5500: 1e6, 9000: 2.25e6, 6100: 1e6, 8400: 2.25e6} {
		if got := nearestArea(r.Cold, plane.Pt(x, 500)).Area(); got != want {
			t.Errorf("at %g: a piece of %g mm²", x, got)
		}
	}
}

// Heat asked to start at corner B starts 500 mm off it (300 and 400 mm).
func TestStartByHand(t *testing.T) {
	r := &layout.Room{Job: hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 2000)))}
	c := &layout.Cable{Path: hand.Points(1700, 400, 300, 400)}
	if s := startOf(r, c); s != nil {
		t.Errorf("not asked: %+v", s)
	}
	r.Job.Start = &plane.Point{X: 2000, Y: 0}
	if s := startOf(r, c); s == nil || *s != (Start{"B", 500}) {
		t.Errorf("%+v", s)
	}
	r.Job.Start = &plane.Point{X: 1, Y: 0}
	if s := startOf(r, c); s != nil {
		t.Errorf("no corner: %+v", s)
	}
}

// The second of a cable's marks is its half-way mark; readings stand with what is said of them.
func TestWhatACableSays(t *testing.T) {
	c := &layout.Cable{Spacing: 75, Label: job.Cable{Watts: 600, Length: 60000}}
	c.Marks = []layout.Mark{{Run: 2, Into: 300}, {Run: 4, Into: 700}, {Run: 6, Into: 900}}
	if out := cable(c, job.Thermostat{}); out.HalfRun != 4 || out.HalfInto != 700 || out.recorded {
		t.Errorf("%+v", out)
	}
	c.Laid = &layout.Laid{Job: &job.Laid{}}
	if !cable(c, job.Thermostat{}).recorded {
		t.Error("its record is not known")
	}
	c.Tested = []record.Reading{{}}
	c.Verdicts = []record.Verdict{{Item: "resistance", Grade: record.Within, Words: language.As("96 Ω")}}
	out := Cable{}
	if out.readings(c); len(out.Readings) != 1 || out.Worst != record.Within.String() {
		t.Errorf("%+v", out)
	}
	c.Unjudged, out = errors.New("no ohms"), Cable{}
	if out.readings(c); out.Readings != nil || out.Worst != "" {
		t.Errorf("not judged: %+v", out)
	}
	d := wound()
	d.Drift = []Drift{{Mark: "12", words: "-1 %"}, {Mark: "18", words: "-2 %"}}
	if got := metric(func(p *page) { p.drift(d) }); !strings.HasPrefix(got,
		"  drift           takes at least -1 % at mark 12; -2 % at mark 18;\n") {
		t.Error(got)
	}
}

// What is a little over nothing is said, in the smallest figures that a job can have.
func TestLeastFigures(t *testing.T) {
	r := Room{Corners: []Corner{{Wall: "A", X: 10, Y: 20}}, Missed: 0.5}
	got := metric(func(p *page) { p.put("corners", p.corners(r)...) })
	if want := "the 0.5 mm by which the walls as taped missed their start"; !strings.Contains(got, want) {
		t.Error(got)
	}
	r.Missed = 0
	if got := metric(func(p *page) { p.room(r, Supply{}) }); strings.Count(got, "A starts at (10 mm, 20 mm)\n") != 1 {
		t.Error(got)
	}
	if got := metric(func(p *page) { p.room(Room{}, Supply{}) }); strings.Contains(got, "corners") {
		t.Error(got)
	}
	p := &layout.Plan{Job: &job.Job{}}
	room := &layout.Room{Job: &job.Room{}}
	for set, want := range map[float64]bool{0: false, 0.5: true, 29: true} {
		room.Job.Thermostat.Limit = set
		if got := thermostat(p, room).FloorLimit; (got != nil) != want || want && got.Value != set {
			t.Errorf("a limit of %g °C: %v", set, got)
		}
	}
}

// A report begins without an empty line, and its parts stand apart by one.
func TestHeads(t *testing.T) {
	hold(t, metric(func(p *page) {
		p.head("A %d", 1)
		p.head("B")
	}), "A 1", "", "B")
	hold(t, metric(func(p *page) { p.takeOff([]bought{{item: language.As("a"), packs: "1"}}) }),
		"To buy (waste included; the take-off sheet says what each is worked out from)", "  a  1")
}

// The take-off stands in the report as its own file has it.
func TestTakeOffInTheReport(t *testing.T) {
	p := plan(t, bath)
	p.TakeOff = takeoff.List{Lines: []takeoff.Line{{Code: "tile", Item: language.As("Tile"), Unit: "m²", Gross: 2}}}
	var b strings.Builder
	if err := takeoff.WriteJSON(&b, p.TakeOff); err != nil {
		t.Fatal(err)
	}
	if got := string(Of(p).TakeOff); got != b.String() {
		t.Errorf("%s\nwant %s", got, b.String())
	}
}

// A price of a tenth of a cent for an hour is one; none is none.
func TestPricesOfEnergy(t *testing.T) {
	w := &layout.Warmth{Use: []layout.RoomUse{{Room: "Bath"}}}
	for price, want := range map[float64]bool{0: false, 0.001: true} {
		w.Use[0].PerHourPrice = price
		if got := energy(w, "EUR")[0].Price; (got != nil) != want {
			t.Errorf("%g: %v", price, got)
		}
	}
}
