package layout

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"oxturn/layout/circuit"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

func box(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1))
}

func floorOf(x0, y0, x1, y1 float64) plane.Region { return plane.FromRing(box(x0, y0, x1, y1)) }

func close6(a, b float64) bool { return math.Abs(a-b) <= 1e-6*max(1, math.Abs(b)) }

// Floor of 2 by 1 m, 6 m round: 23 m of cable less 3 are 100 mm apart; 3 m are too little.
func TestIdealSpacing(t *testing.T) {
	for length, want := range map[float64]float64{23e3: 100, 3e3: math.Inf(1), 3001: 2e6, 0: math.Inf(1)} {
		if got := IdealSpacing(floorOf(0, 0, 2000, 1000), length); got != want {
			t.Errorf("%g mm: %g, want %g", length, got, want)
		}
	}
}

// 10 W/m at 100 mm are 100 W/m², over the 2 m² that it serves 115; three runs may be denser.
func TestWhatALimitIsHeldAgainst(t *testing.T) {
	c := Cable{Label: job.Cable{Length: 23e3, Watts: 230}, Spacing: 100, Density: 100, Share: floorOf(0, 0, 2000, 1000)}
	if c.OverServed() != 115 || c.AtEven() != 2.3e6 || c.Warmed() != 2.3e6 || (&Cable{}).OverServed() != 0 {
		t.Errorf("%g W/m², %g mm²", c.OverServed(), c.AtEven())
	}
	for _, k := range []struct {
		over          string
		densest, want float64
	}{{"", 90, 115}, {"", 120, 120}, {job.OverEven, 90, 100}, {job.OverEven, 120, 120}, {job.OverHeated, 90, 115},
		{job.OverHeated, 120, 120}} {
		c.Gaps.MostOver, c.Gaps.Densest = k.over, k.densest
		if got := c.Judged(); got != k.want {
			t.Errorf("%q, %g: %g, want %g", k.over, k.densest, got, k.want)
		}
	}
	for most, want := range map[float64]bool{0: true, 120: true, 120 / 1.0009: true, 120 / 1.0011: false, 200: true} {
		if c.Gaps.Most = most; c.Keeps() != want {
			t.Errorf("keeps to %g: %v", most, !want)
		}
	}
	r := Room{Cables: []Cable{c, c}}
	if r.Warmed() != 4.6e6 {
		t.Errorf("%g mm² warmed", r.Warmed())
	}
}

// The layers over the membrane are the cover; without one, tile and its bed.
func TestCoverOverACable(t *testing.T) {
	p := &Plan{Job: &job.Job{}}
	p.Job.Tile.Thickness = 10
	p.Job.BuildUp = []job.Layer{{Kind: "tile", Thickness: 8}, {Kind: "mortar", Thickness: 4}, {Kind: "membrane",
		Thickness: 6},
		{Kind: "wood", Thickness: 19}}
	if mm, from := p.Cover(); mm != 12 || from != job.FromJob {
		t.Errorf("%g mm, %v", mm, from)
	}
	p.Job.BuildUp = p.Job.BuildUp[:2]
	if mm, _ := p.Cover(); mm < 10 || mm >= 30 || mm == 12 {
		t.Errorf("without a membrane: %g mm", mm)
	}
}

func TestWhatIsAskedOfAPlan(t *testing.T) {
	p := &Plan{Rooms: []Room{{Job: &job.Room{Name: "A"}}, {Job: &job.Room{Name: "B"}}}, Load: []Load{{Room: "A"},
		{Room: "B"}}}
	if p.RoomNamed("B") != &p.Rooms[1] || p.RoomNamed("C") != nil || p.LoadOf("B") != &p.Load[1] ||
		p.LoadOf("C") != nil ||
		p.MembraneOf("A") != nil {
		t.Error("rooms and loads by name")
	}
	p.Membrane = &membrane.Plan{Rooms: []membrane.Laid{{Name: "A"}, {Name: "B"}}}
	if p.MembraneOf("B") != &p.Membrane.Rooms[1] || p.MembraneOf("C") != nil {
		t.Error("membranes by name")
	}
	if RiseHalf(plane.Inches) != 152.4 || RiseHalf(plane.Millimetres) != 150 || RiseDepth(plane.Inches) != 101.6 ||
		RiseDepth(plane.Millimetres) != 100 {
		t.Error("the strip at a lead rise")
	}
	c := &Cable{Number: 2}
	if c.RunName(3) != "3" {
		t.Error(c.RunName(3))
	}
	if c.Several = true; c.RunName(3) != "2.3" {
		t.Error(c.RunName(3))
	}
	if JointName(0, 1) != "MJ" || JointName(0, 2) != "MJ1" || JointName(1, 2) != "MJ2" {
		t.Error("joints by name")
	}
	if got := MarkRead(job.LaidMark{}, &Cable{Label: job.Cable{Length: 500}}); got != 250 {
		t.Errorf("the half-way mark at %g", got)
	}
	if got := MarkRead(job.LaidMark{Length: 0.5}, &Cable{Label: job.Cable{Length: 500}}); got != 0.5 {
		t.Errorf("a mark at %g", got)
	}
	var none *Laid
	if none.Recorded() || (&Laid{Whole: true, Job: &job.Laid{}}).Recorded() ||
		(&Laid{Job: &job.Laid{Evidence: job.ByHand}}).Recorded() ||
		!(&Laid{Whole: true, Job: &job.Laid{Evidence: job.ByHand}}).Recorded() {
		t.Error("what is recorded of a cable")
	}
}

// The layer with the most days decides, the first of equals; one not stated is given 28.
func TestTheLongestWait(t *testing.T) {
	f := &FullUse{Cures: []record.Cure{{Layer: "grout", Days: 7}, {Layer: "bed", Days: 14}, {Layer: "mat", Days: 14}},
		Open: []string{"grout", "bed"}}
	if got := f.Longest().Layer; got != "bed" {
		t.Error(got)
	}
	if got, want := f.Words(language.English),
		"open: no day is written down for grout; bed; the longest wait is 14 days, for the bed"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	f.Cures = append(f.Cures, record.Cure{Layer: "screed"})
	if got := f.Words(language.English); !strings.HasSuffix(got, "is 28 days, for the screed (not stated, default)") {
		t.Error(got)
	}
	f.Open, f.Date, f.By, f.Screed = nil, time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC), "bed", "floor screed"
	if got := f.Words(language.English); !strings.HasPrefix(got,
		"2026-03-01, by the bed; new floor screed: no heat before day 21 if cement, day 7") {
		t.Error(got)
	}
}

// Doors cut the wall they stand in, windows do not; a stretch of a millimetre is none.
func TestStretchesOfAWallThatStand(t *testing.T) {
	r := hand.Room(box(0, 0, 3000, 2000))
	for _, k := range []struct {
		openings []job.Opening
		want     [][2]float64
	}{
		{nil, [][2]float64{{0, 3000}}}, {[]job.Opening{{Kind: "door", From: 1000, To: 1800}}, [][2]float64{{0, 1000},
			{1800, 3000}}},
		{[]job.Opening{{Kind: "window", From: 1000, To: 1800}}, [][2]float64{{0, 3000}}},
		{[]job.Opening{{Kind: "door", Wall: 1, From: 1000, To: 1800}}, [][2]float64{{0, 3000}}},
		{[]job.Opening{{Kind: "opening", From: 1500, To: 2999}, {Kind: "door", From: 1, To: 1600}}, nil},
		{[]job.Opening{{Kind: "door", From: 1.5, To: 2998}}, [][2]float64{{0, 1.5}, {2998, 3000}}},
	} {
		r.Openings = k.openings
		if got := Standing(r, 0); !slices.Equal(got, k.want) {
			t.Errorf("%+v: %v, want %v", k.openings, got, k.want)
		}
	}
	if got := longest([][2]float64{{0, 100}, {200, 350}, {400, 500}}); got != 150 {
		t.Errorf("the longest is %g", got)
	}
	for i, want := range hand.Points(0, 1, -1, 0, 0, -1, 1, 0) {
		if w := wallsOf(r)[i]; w.In.Dist(want) > 1e-9 || w.Curved {
			t.Errorf("wall %s looks %v, want %v", w.Letter, w.In, want)
		}
	}
	r = hand.Room(hand.Points(0, 0, 0, 2000, 3000, 2000, 3000, 0)) // the other way round
	if w := wallsOf(r)[0]; w.In.Dist(plane.Pt(1, 0)) > 1e-9 || w.FromWall(plane.Pt(500, 9)) != 500 {
		t.Errorf("%+v", w)
	}
}

// Off two walls, behind a wall's line with its words, and in a table with a minus.
func TestPlacesByTape(t *testing.T) {
	tape := NewTape(hand.Room(box(0, 0, 3000, 2000)), plane.Millimetres)
	for want, p := range map[string]plane.Point{
		"250 mm from wall A, 500 mm from wall B":              plane.Pt(2500, 250),
		"10 mm behind the line of wall A, 500 mm from wall B": plane.Pt(2500, -10),
		"0 mm from wall A, 0 mm from wall B":                  plane.Pt(3000, -0.4),
		"1 mm behind the line of wall A, 3000 mm from wall B": plane.Pt(0, -0.6),
		"2000 mm from wall A, 7 mm behind the line of wall B": plane.Pt(3007, 2000),
	} {
		if got := tape.Place(p); got != want {
			t.Errorf("%v: %q, want %q", p, got, want)
		}
	}
	for y, want := range map[float64]string{250: "250 mm", 0: "0 mm", -5: "-5 mm"} {
		if got := tape.Off(0, plane.Pt(9, y)); got != want {
			t.Errorf("at %g: %q, want %q", y, got, want)
		}
	}
	tape.Units = plane.Inches
	if got := tape.Length(25.4 * 5); got != `0'-5" (127 mm)` || tape.Length(12.7) != `1/2" (13 mm)` {
		t.Error(got)
	}
	if d1, d2 := tape.Datums(); d1 != 0 || d2 != 1 {
		t.Errorf("datums %d and %d", d1, d2)
	}
}

// A room's Warmth by its cables; comfort is judged in air at 20 or 24 °C at least, over the
// cable with the least margin.
func TestComfortOfARoom(t *testing.T) {
	bound := func(over float64) Bound { return Bound{Steady: heat.Steady{OverCable: over, Mean: over}} }
	w := &Warmth{Warmest: 22, Runs: []Warm{{Cables: []string{"H1", "H2"}, Hot: bound(5)}, {Cables: []string{"H3"},
		Hot: bound(12)}}}
	if w.Of("H2") != &w.Runs[0] || w.Of("H3") != &w.Runs[1] || w.Of("H4") != nil || (*Warmth)(nil).Of("H1") != nil {
		t.Error("warmth by cable")
	}
	r := &Room{Job: &job.Room{}, Cables: []Cable{{ID: "H1"}, {ID: "H3"}, {ID: "H9"}}}
	v := w.Comfort(r)
	if v == nil || v.Limit != heat.OccupiedLimit || v.Surface != 34 || !v.Over() {
		t.Errorf("%+v", v)
	}
	r.Cables = r.Cables[:1]
	if v = w.Comfort(r); v.Surface != 27 || v.Over() {
		t.Errorf("%+v", v)
	}
	r.Job.Fixtures = []job.Fixture{{Kind: "toilet"}, {Kind: job.Shower}}
	if v = w.Comfort(r); v.Limit != heat.BathroomLimit || v.Surface != 29 {
		t.Errorf("%+v", v)
	}
	if r.Cables = r.Cables[:0]; w.Comfort(r) != nil {
		t.Error("a room without cable")
	}
	if (&Warmth{}).Assumptions(plane.Millimetres) != nil {
		t.Error("nothing is assumed of nothing")
	}
	if !w.Runs[0].Alike() {
		t.Error("the same below in both cases")
	}
	if w.Runs[0].Hot.Section.Below = (heat.Below{Kind: heat.FilmBelow, Coefficient: 5}); w.Runs[0].Alike() {
		t.Error("warmer below in the hot case")
	}
	w.Runs[0].Cold.Section.Below = heat.Below{Kind: heat.Ground}
	if got := w.Bounds(false); len(got) != 3 || strings.Contains(got[2].String(), "new or long off") {
		t.Errorf("%q", got)
	}
	w.Runs[0].Soil = &heat.Soil{}
	if got := w.Bounds(false); !strings.HasSuffix(got[2].String(), ", as when the heating is new or long off") ||
		strings.Contains(got[0].String(), "soil takes") {
		t.Errorf("%q", got)
	}
	w.Runs[1].Hot.Section.Below = w.Runs[0].Hot.Section.Below
	if got := w.Bounds(false); len(got) != 2 {
		t.Errorf("two floors alike are said twice: %q", got)
	}
}

// Gaps by hand: runs of 2 m at 0, 60, 180 and 300 mm; 10 W/m over half of 60 and 120 mm are
// 111 W/m², over half of two of 120 mm 83.
func TestGapsBesideARun(t *testing.T) {
	all := []plane.Segment{hand.Segment(0, 0, 2000, 0), hand.Segment(2000, 60, 0, 60), hand.Segment(0, 180, 2000, 180),
		hand.Segment(500, 300, 1500, 300), hand.Segment(0, 900, 2000, 900), hand.Segment(0, 60.9, 2000, 60.9),
		hand.Segment(100, 0, 100, 900)}
	got := neighbours(all[1], all, 240)
	want := []neighbour{{0, 2000, 60}, {0, 2000, -120}, {500, 1500, -240}} // it goes west: south is left
	if len(got) != 3 {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if !close6(got[i].from, want[i].from) || !close6(got[i].to, want[i].to) || !close6(got[i].off, want[i].off) {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
	if got := neighbours(all[1], all, 239); len(got) != 2 {
		t.Errorf("within 239 mm: %+v", got)
	}
	pieces := stretches(all[2], []plane.Segment{all[1], all[3]}, 240)
	wants := []stretch{{0, 500, math.Inf(1), 120}, {500, 1500, 120, 120}, {1500, 2000, math.Inf(1), 120}}
	if !slices.Equal(pieces, wants) {
		t.Errorf("%+v, want %+v", pieces, wants)
	}
	pieces = stretches(all[2], []plane.Segment{hand.Segment(0, 300, 199, 300), hand.Segment(400, 300, 600, 300)}, 240)
	if !slices.Equal(pieces, []stretch{{400, 600, 120, math.Inf(1)}}) {
		t.Errorf("neighbours for 199 and 200 mm: %+v", pieces)
	}
	pieces = stretches(all[2], []plane.Segment{all[1], hand.Segment(0, 120, 2000, 120), all[3], hand.Segment(500, 240,
		1500, 240)}, 240)
	if len(pieces) != 3 || pieces[1].left != 60 || pieces[1].right != 60 {
		t.Errorf("of two on a side the nearer counts: %+v", pieces)
	}
	j := &job.Job{Membrane: job.Membrane{Pitch: 30}, Spacing: job.Spacing{Widest: 4}}
	j.Supply.MaxDensity = 120
	path := hand.Points(0, 0, 2000, 0, 2000, 60, 0, 60, 0, 180, 2000, 180, 2000, 300, 0, 300)
	r := Room{Heated: floorOf(-50, -50, 2050, 350), Cables: []Cable{{ID: "H1", Path: path,
		Label: job.Cable{Length: 10e3, Watts: 100},
		Runs:  Runs(path, 15, route.Lattice{Pitch: 30})}}}
	r.FindGaps(j)
	g := r.Cables[0].Gaps
	if g.Closest != 60 || g.Widest != 120 || g.Beside != 2 || !close6(g.Densest, 10/0.09) || g.Run != 2 ||
		g.Most != 120 {
		t.Errorf("%+v", g)
	}
	r.Cables[0].Path, r.Cables[0].Runs = path[:2], Runs(path[:2], 15, route.Lattice{Pitch: 30})
	if r.FindGaps(j); r.Cables[0].Gaps != (Gaps{Most: 120}) {
		t.Errorf("one run alone: %+v", r.Cables[0].Gaps)
	}
	r.Cables[0].Path, r.Cables[0].Runs = path[:4], Runs(path[:4], 15, route.Lattice{Pitch: 30})
	if r.FindGaps(j); !close6(r.Cables[0].Gaps.Densest, 10/0.06) || r.Cables[0].Gaps.Run != 1 {
		t.Errorf("two runs: %+v", r.Cables[0].Gaps)
	}
}

// Between two runs 300 mm apart nothing but heated floor, for 200 mm at least, looked at each
// half peg of 15 mm.
func TestOpenFloorBetweenRuns(t *testing.T) {
	run, s := hand.Segment(0, 0, 2000, 0), stretch{0, 2000, 300, math.Inf(1)}
	piece := func(x0, y0, x1, y1 float64) []plane.Segment { return []plane.Segment{hand.Segment(x0, y0, x1, y1)} }
	for _, k := range []struct {
		name   string
		floor  plane.Region
		pieces []plane.Segment
		off    float64
		want   bool
	}{
		{"open", floorOf(-9, -400, 2009, 400), nil, 300, true}, {"to the right", floorOf(-9, -400, 2009, 0), nil,
			-300, true},
		{"off the floor", floorOf(-9, -400, 2009, 200), nil, 300, false}, {"open for 240 mm", floorOf(995, -9, 1235,
			400), nil, 300, true},
		{"open for 180 mm", floorOf(995, -9, 1175, 400), nil, 300, false},
		{"a run between", floorOf(-9, -400, 2009, 400), piece(0, 150, 2000, 150), 300, false},
		{"a run between for half", floorOf(-9, -400, 2009, 400), piece(0, 150, 1000, 150), 300, true},
		{"turns between", floorOf(-9, -400, 2009, 400), append(piece(0, 150, 900, 150), piece(1080, 150, 2000,
			150)...), 300, false},
		{"the two runs themselves", floorOf(-9, -400, 2009, 400), append(piece(0, 0, 2000, 0), piece(0, 300, 2000,
			300)...), 300, true},
	} {
		o := openFloor{region: k.floor, pieces: k.pieces, step: 15}
		if got := o.open(run, s, k.off); got != k.want {
			t.Errorf("%s: %v", k.name, got)
		}
	}
}

// Leads on one another, and one over the joint of another cable; each cable's own joint is its end.
func TestLeadsThatLieOnOneAnother(t *testing.T) {
	r := &Room{Job: &job.Room{}}
	r.Cables = []Cable{{ID: "H1", ColdLead: hand.Points(0, 0, 1000, 0), Path: hand.Points(1000, 0, 1000, 500)},
		{ID: "H2", ColdLead: hand.Points(0, 0, 0, 500, 500, 500, 500, -500, 700, -500), Path: hand.Points(700, -500,
			900, -500)}}
	got := r.LeadStacks()
	if len(got) != 1 || got[0].Lead.String() != "cold lead of H1" || got[0].On.String() != "cold lead of H2" ||
		got[0].Joint ||
		got[0].Length <= 0 ||
		got[0].At.Dist(plane.Pt(500, 0)) > 20 {
		t.Errorf("%+v", got)
	}
	r.Cables[1].ColdLead = hand.Points(0, 0, 0, 500, 1000, 500, 1000, 0, 1500, 0)
	got = r.LeadStacks()
	if i := slices.IndexFunc(got, func(s LeadStack) bool { return s.Joint }); i < 0 ||
		got[i].Lead.String() != "cold lead of H2" || got[i].On.String() !=
		"lead joint of H1" || got[i].At != plane.Pt(1000, 0) {
		t.Errorf("%+v", got)
	}
	r.Cables[1].ColdLead = hand.Points(0, 0)
	if got := r.LeadStacks(); got != nil {
		t.Errorf("no lead to speak of: %+v", got)
	}
	if len(r.namedLeads()) != 1 {
		t.Errorf("%+v", r.namedLeads())
	}
}

// Floor without cable is what lies inside the walls outside the heated area, less a strip
// along what was found elsewhere: 25 mm off and 75 more, both ways.
func TestFloorWithoutCable(t *testing.T) {
	r := &Room{Floor: floorOf(0, 0, 3000, 2000), Heated: floorOf(100, 100, 2900, 1900),
		Cables: []Cable{{Path: hand.Points(-500, 0, 3500, 0),
			Laid: &Laid{Whole: true, Error: 25, FingerRoom: 75, Job: &job.Laid{Evidence: job.ByHand}}},
			{Path: hand.Points(-500, 2000, 3500, 2000)}}}
	got, err := r.WithoutCable()
	if err != nil || math.Abs(got.Area()-(6e6-2800*1800-3000*100)) > 10 {
		t.Errorf("%g mm², %v", got.Area(), err)
	}
}

// Of a loss: 1.2 kW lost and 300 to 400 W given.
func TestLossInWords(t *testing.T) {
	l := RoomLoss{Room: "Bath", Loss: heat.Loss{Outside: -5, Inside: 20}, Lost: heat.Range{Low: 1200, High: 1200},
		Gives: heat.Range{Low: 300, High: 400}}
	if got := l.Words(say.Figures{Units: plane.Millimetres}); !strings.Contains(got,
		"at -5 °C outside and 20 °C inside; the floor's cables have 400 W, part of") {
		t.Error(got)
	}
	l.Known = true
	if got := l.Words(say.Figures{Units: plane.Inches}); !strings.Contains(got,
		"at 23 °F outside and 68 °F inside; the warmed floor, left on, gives it") {
		t.Error(got)
	}
	p := &Plan{Job: &job.Job{}, Losses: []RoomLoss{{Room: "Hall"}, l}}
	if got := p.LossWords(&Room{Job: &job.Room{Name: "Bath"}}, language.English); !strings.HasPrefix(got,
		"Simplified") ||
		!strings.Contains(got, "°C inside; the warmed") {
		t.Error(got)
	}
	if got := p.LossWords(&Room{Job: &job.Room{Name: "Attic"}}, language.English); got != "" {
		t.Error(got)
	}
}

// What a layout file has, each figure as rounded there.
func TestALayoutFile(t *testing.T) {
	for _, k := range []struct {
		v    float64
		n    int
		want float64
	}{{1.25, 1, 1.3}, {-1.26, 1, -1.3}, {1234.5678, 0, 1235}, {0.0004, 3, 0}} {
		if got := Round(k.v, k.n); got != k.want || math.Signbit(got) != math.Signbit(k.want) {
			t.Errorf("%g to %d decimals: %g", k.v, k.n, got)
		}
	}
	if math.Signbit(Round(-0.0001, 2)) {
		t.Error("nothing has a sign")
	}
	path := hand.Points(0, 0, 900, 0, 900, 60, 0, 60)
	runs := Runs(path, 15, route.Lattice{Pitch: 30})
	c := Cable{ID: "H1", Number: 1, Label: job.Cable{ID: "X", Length: 1850}, Zone: 1, Path: path,
		ColdLead:   hand.Points(-9, 0, 0, 0),
		BendRadius: 15, Routed: 1849.99949, Spacing: 60.12345678, Score: route.Score{Covered: 0.123456, Bare: 1.23456,
			Evenness: 0.2,
			Straight: 0.9, Turns: 2}, Runs: runs, Marks: Marks(path, 15, runs)}
	c.Lattice = route.Lattice{Origin: plane.Pt(1, 2), Angle: math.Pi / 6, Pitch: 30}
	p := &Plan{Job: &job.Job{}, Code: "CODE", Rooms: []Room{{Job: &job.Room{Name: "Bath", Outline: box(0, 0, 1000,
		500)}, Cables: []Cable{c},
		Floor: floorOf(0, 0, 1000, 500), Tiled: floorOf(0, 0, 1000, 400), Heated: floorOf(0, 0, 1000, 300),
		Sensors: []Sensor{{Name: "S1"}, {Name: "S2", Spare: true, Tip: plane.Pt(5, 6), Lead: hand.Points(0, 0, 5,
			6)}}}}}
	p.Membrane = &membrane.Plan{Rooms: []membrane.Laid{{Name: "Bath", Pieces: []membrane.Piece{{Number: 3,
		Length: 1000.06, Width: 500.04}}}}}
	var b bytes.Buffer
	if err := p.WriteFile(&b); err != nil {
		t.Fatal(err)
	}
	var f fileJSON
	if err := json.Unmarshal(b.Bytes(), &f); err != nil {
		t.Fatal(err)
	}
	r := f.Rooms[0]
	k := r.Cables[0]
	if f.Code != "CODE" || f.Schema != 1 || r.Areas != (areasJSON{0.5, 0.4, 0.3}) || r.Lattice.AngleDeg != 30 ||
		r.Lattice.Origin != [2]float64{1, 2} ||
		k.Zone != 2 || k.Routed != 1849.999 || k.Spacing != 60.123457 || k.Score != (scoreJSON{0.1235, 1.235, 0.2,
		0.9, 2}) || k.Return != nil ||
		len(k.Path) != 4 || len(k.Runs) != 2 || k.Runs[0] != (RunJSON{1, "east", 30, 2, 896.8}) ||
		len(r.Sensors) != 2 || !r.Sensors[1].Spare ||
		r.Sensors[1].Tip != [2]float64{5, 6} || r.Pieces[0].Length != 1000.1 || r.Pieces[0].Width != 500 ||
		r.Pieces[0].Piece != 3 {
		t.Errorf("%s", b.String())
	}
}

// What a record's readings are held against: the volts last set, and what was taken.
func TestReadingsOfACable(t *testing.T) {
	c := &Cable{Circuit: circuit.Cable{Nominal: 100, Limits: circuit.Limits{Low: 95, High: 110, LowShare: -0.05,
		HighShare: 0.1}}}
	plain := c.RecordLimits()
	if plain.Low != -0.05 || plain.High != 0.1 {
		t.Errorf("%+v", plain)
	}
	c.Laid = &Laid{Job: &job.Laid{}}
	if c.Judge(job.Sensor{}); c.Tested != nil || c.Verdicts != nil {
		t.Errorf("nothing was read: %+v", c.Verdicts)
	}
	taken := func(v float64) job.Figure { return job.Figure{Value: v, Taken: true} }
	c.Laid.Job.Readings = []job.Reading{{Stage: "on spool", Ohms: taken(101), Volts: 250, Hand: "open"},
		{Stage: "tiled", Ohms: taken(102),
			Volts: 500, Hand: "connected", Insulation: job.Figure{Value: 2000, Taken: true, Over: true}},
		{Stage: "grouted", Ohms: taken(101)}}
	if got := c.RecordLimits().Volts; got != 500 || plain.Volts == 250 {
		t.Errorf("%g V", got)
	}
	c.Judge(job.Sensor{})
	tested, verdicts, err := c.Readings()
	if len(tested) != 3 || len(verdicts) == 0 || err != nil || tested[0].Hand != record.Open ||
		tested[1].Hand != record.Connected ||
		!tested[1].Insulation.Over || tested[1].Stage != record.Tiled || tested[2].Ohms.Value != 101 ||
		tested[2].Hand == record.Open {
		t.Errorf("%+v, %+v, %v", tested, verdicts, err)
	}
}

// An end should not lie in a doorway, as deep as it is wide, nor in a warmed shower, nor by a
// flange.
func TestWhereNoEndShouldLie(t *testing.T) {
	for _, ring := range []plane.Ring{box(0, 0, 3000, 2000), hand.Points(0, 0, 0, 2000, 3000, 2000, 3000, 0)} {
		r := &Room{Job: hand.Room(ring), Floor: plane.FromRing(ring.CCW())}
		r.Job.Openings = []job.Opening{{Kind: "door", Wall: 0, From: 500, To: 1300}, {Kind: "window", Wall: 1,
			From: 0, To: 900},
			{Kind: "door", Wall: 4}, {Kind: "door", Wall: -1}}
		got := r.Avoid()
		if len(got) != 1 || got[0].Area() != 800*800 {
			t.Fatalf("%+v", got)
		}
		if in := r.Job.Walls[0].At(900).Add(wallsOf(r.Job)[0].In.Mul(400)); !got[0].Contains(in) {
			t.Errorf("%v does not hold %v", got[0], in)
		}
		r.Job.Openings, r.Job.Fixtures = nil, []job.Fixture{{Heated: true, Outline: box(0, 0, 900, 900)},
			{Outline: box(0, 0, 9, 9)},
			{Outline: box(0, 0, 9, 9), Flange: &job.Flange{Centre: plane.Pt(500, 500), Radius: 60, Clear: 40}}}
		got = r.Avoid()
		if len(got) != 2 || got[0].Area() != 810_000 || math.Abs(got[1].Area()-math.Pi*200*200) > 0.01*math.Pi*200*200 {
			t.Errorf("%+v", got)
		}
	}
	r := &Room{Job: hand.Room(box(0, 0, 3000, 2000)), Floor: floorOf(0, 0, 3000, 2000)}
	r.Job.Fixtures = []job.Fixture{{Outline: box(0, 0, 1000, 500)}}
	r.Job.KeepOuts = []job.KeepOut{{Outline: box(2000, 0, 2100, 100)}, {Outline: box(1500, 0, 1600, 100), Cold: true}}
	r.NoCut = []NoCut{{Reason: ForFixing, Region: floorOf(2900, 0, 3000, 100)}, {Reason: ForJoint,
		Region: floorOf(1200, 0, 1300, 100)}}
	if got, err := r.LeadFloor(); err != nil || got.Area() != 6e6-500_000-10_000-10_000 {
		t.Errorf("%g mm² for leads, %v", got.Area(), err)
	}
	r.Job.Thermostat.Height, r.Job.Thermostat.Tail, r.Job.Thermostat.Slack = 1200, 150, 100
	if got := r.LeadReach(job.Cable{Lead: 4000}); got != 2550 {
		t.Errorf("%g mm of lead for the floor", got)
	}
	c := r.Cable(&job.Job{Membrane: job.Membrane{Pitch: 30, BendRadius: 15}}, job.Cable{Length: 2e3, Watts: 20,
		Lead: 4000},
		route.Route{Path: hand.Points(0, 0, 900, 0), Spacing: 80}, 3)
	if c.ID != "H3" || c.Density != 125 || c.Routed != 900 || c.LeadReach != 2550 || len(c.Marks) != 3 {
		t.Errorf("%+v", c)
	}
	for spacing, want := range map[float64]float64{0: 0, 0.5: 20_000} {
		got := r.Cable(&job.Job{Membrane: job.Membrane{Pitch: 30}}, job.Cable{Length: 2e3, Watts: 20},
			route.Route{Path: hand.Points(0, 0, 900, 0), Spacing: spacing}, 1)
		if got.Density != want {
			t.Errorf("%g mm apart: %g W/m²", spacing, got.Density)
		}
	}
	if z := new(job.Zone); (&Room{Named: []*job.Zone{z}}).Spoken(0) != z ||
		(&Room{Named: []*job.Zone{z}}).Spoken(1) != nil {
		t.Error("the zones that a job speaks of")
	}
	if got := Named(&job.Job{Cables: []job.Cable{{ID: "A"}, {ID: "B", Watts: 1}, {ID: "B", Watts: 2}}}, []string{"B",
		"A", "B"}); len(got) != 3 ||
		got[0].Watts != 1 || got[1].ID != "A" {
		t.Errorf("%+v", got)
	}
}

// The two datums of a room by name, and none where there is but one.
func TestDatumsOfARoom(t *testing.T) {
	r := hand.Room(box(0, 0, 3000, 2000))
	d := DatumsOf(r)
	if !d.Both() || d[0].Name != "D1" || d[0].Index != 0 || d[0].Letter != "A" || d[1].Name != "D2" ||
		d[1].Index != 1 || len(d.There()) != 2 {
		t.Errorf("%+v", d)
	}
	for _, k := range []struct {
		d     Datums
		both  bool
		there int
	}{{Datums{}, false, 0}, {Datums{d[0], nil}, false, 1}, {Datums{nil, d[1]}, false, 1}} {
		if k.d.Both() != k.both || len(k.d.There()) != k.there {
			t.Errorf("%+v", k.d)
		}
	}
	r.Openings = []job.Opening{{Kind: "opening", Wall: 0, From: 0, To: 2750}} // 250 mm stand
	if d1, d2 := DatumWalls(r); d1 != 2 || d2 != 1 {
		t.Errorf("datums %d and %d, of a room whose first wall is all opening", d1, d2)
	}
	r.Openings[0].To = 2700
	if d1, _ := DatumWalls(r); d1 != 0 {
		t.Errorf("300 mm of the first wall stand: datum %d", d1)
	}
	r.Openings = []job.Opening{{Kind: "opening", Wall: 1, From: 0, To: 2000}, {Kind: "opening", Wall: 3, From: 0,
		To: 2000}}
	if d1, d2 := DatumWalls(r); d1 != 0 || d2 != 1 {
		t.Errorf("datums %d and %d, where no wall square to the first stands", d1, d2)
	}
}

// The wall that a way runs along: the longest within a degree of the nearest.
func TestTheWallAWayRunsAlong(t *testing.T) {
	turned := func(degrees float64) plane.Point { return plane.Pt(1, 0).Rotate(plane.Radians(degrees)) }
	// A of 1 m east, B of 2 m 0.5° north of it, C back in two
	r := &job.Room{Walls: []job.Wall{{Letter: "A", Segment: hand.Segment(0, 0, 1000, 0)},
		{Letter: "B", Segment: plane.Segment{A: plane.Pt(1000, 0), B: plane.Pt(1000, 0).Add(turned(0.5).Mul(2000))}},
		{Letter: "C", Segment: plane.Segment{A: plane.Pt(3000, 0), B: plane.Pt(3000, 0).Add(turned(30).Mul(2000.5))}}}}
	for _, k := range []struct {
		along  float64
		letter string
		off    float64
	}{{0, "B", 0.5}, {0.5, "B", 0}, {-0.4, "B", 0.9}, {-0.6, "A", 0.6}, {30, "C", 0}, {20, "C", 10}, {180, "B", 0.5},
		{10, "B", 9.5}, {15.2, "B", 14.7},
		{16, "C", 14}} {
		letter, off := Along(r, turned(k.along))
		if k.along == -0.6 && letter == "B" && close6(off, 1.1) {
			continue // what is a degree off what was found first may go either way
		}
		if letter != k.letter || math.Abs(off-k.off) > 1e-6 {
			t.Errorf("at %g°: wall %s, %g° off; want %s, %g", k.along, letter, off, k.letter, k.off)
		}
	}
}

// A job laid by a layout file has its cables and sensors from there, in zones it has.
func TestRoomsAsIssued(t *testing.T) {
	tip := plane.Pt(5, 6)
	j := &job.Job{Membrane: job.Membrane{Pitch: 30}, Cables: []job.Cable{{ID: "X"}},
		LaidBy: &job.IssuedPlan{File: "a.layout.json", Code: "CODE",
			Rooms: []job.IssuedRoom{{Name: "Hall"}, {Name: "Bath", Pegs: job.IssuedPegs{Origin: plane.Pt(1, 2),
				Angle: 0.5}, Cables: []job.IssuedCable{
				{ID: "H4", Label: "X", Path: hand.Points(0, 0, 9, 0), Zone: 1, Spacing: 80}, {ID: "odd", Label: "X",
					Zone: 7}, {ID: "H0", Label: "X", Zone: -1}},
				Sensors: []job.IssuedSensor{{Name: "S1", LaidSensor: job.LaidSensor{Tip: &tip}}}}}}}
	r := &Room{Job: &job.Room{Name: "Bath"}, Zones: []plane.Region{floorOf(0, 0, 9, 9), floorOf(20, 0, 29, 9)}}
	routes, labels, wrong := r.Issued(j)
	if len(routes) != 3 || len(labels) != 3 || wrong != nil || routes[0].Zone != 1 || routes[1].Zone != 1 ||
		routes[2].Zone != 0 ||
		routes[0].Spacing != 80 || routes[1].Cable != 1 || routes[0].Lattice != (route.Lattice{Origin: plane.Pt(1, 2),
		Angle: 0.5, Pitch: 30}) {
		t.Errorf("%+v, %v", routes, wrong)
	}
	r.Cables = []Cable{{ID: "H1", Number: 1}, {ID: "H2", Number: 2}, {ID: "H3", Number: 3}}
	for i, want := range []string{"H4", "H2", "H3"} {
		if r.CalledAsIssued(j, i); r.Cables[i].ID != want {
			t.Errorf("cable %d is called %s, want %s", i, r.Cables[i].ID, want)
		}
	}
	if r.Cables[0].Number != 4 {
		t.Errorf("%+v", r.Cables[0])
	}
	if r.IssuedSensors(j); len(r.Sensors) != 1 || r.Sensors[0].Tip != tip || r.Sensors[0].Why != "as in plan CODE" {
		t.Errorf("%+v", r.Sensors)
	}
	for _, name := range []string{"Hall", "Attic"} {
		other := &Room{Job: &job.Room{Name: name}, Zones: r.Zones}
		if _, _, wrong := other.Issued(j); len(wrong) != 1 || !strings.Contains(wrong[0].Message,
			"no cable in a.layout.json") {
			t.Errorf("%s: %+v", name, wrong)
		}
	}
	j.LaidBy = nil
	r.CalledAsIssued(j, 1)
}

// A record that rests on another plan: an error where what is laid was counted on it.
func TestRecordsThatRestOnAnotherPlan(t *testing.T) {
	p, c := &Plan{Code: "NOW"}, &Cable{ID: "H1"}
	for _, k := range []struct {
		a    job.Laid
		want string // severity; "": nothing is wrong
	}{{job.Laid{}, ""}, {job.Laid{PlanCode: "NOW", Runs: 3}, ""}, {job.Laid{PlanCode: "OLD", Issued: &job.Issued{}},
		""},
		{job.Laid{PlanCode: "OLD"}, "warning"}, {job.Laid{PlanCode: "OLD", Runs: 1}, "error"},
		{job.Laid{PlanCode: "OLD", AsPlanned: true}, "error"},
		{job.Laid{PlanCode: "OLD", Marks: make([]job.LaidMark, 1)}, "error"}} {
		d := p.Rests(&k.a, c)
		if (d == nil) != (k.want == "") || d != nil && (k.want == "warning") != (d.Severity == job.Warning &&
			d.ID == "W113") {
			t.Errorf("%+v: %+v", k.a, d)
		}
	}
	if p.CodeOf(c) != "NOW" {
		t.Error(p.CodeOf(c))
	}
	c.Laid = &Laid{Job: &job.Laid{}}
	if p.CodeOf(c) != "NOW" {
		t.Error(p.CodeOf(c))
	}
	if c.Laid.Job.PlanCode = "OLD"; p.CodeOf(c) != "OLD" {
		t.Error(p.CodeOf(c))
	}
	r := &Room{Sensors: []Sensor{{Tip: plane.Pt(1, 2)}, {Spare: true, Tip: plane.Pt(3, 4)}}}
	is := r.IssuedNow(c, "NOW")
	if is.Code != "NOW" || *is.Sensor.Tip != plane.Pt(1, 2) || *is.Spare.Tip != plane.Pt(3, 4) {
		t.Errorf("%+v", is)
	}
	joint := plane.Pt(7, 8)
	l := &Laid{Job: &job.Laid{Evidence: job.ByHand}, Error: 25.44, Whole: true, Path: hand.Points(1, 2, 3, 4),
		Joint:  &joint,
		Differ: []Difference{{What: language.Say("the cap"), Off: 12.34}}}
	got := l.json()
	if got.Error != 25.4 || !got.Whole || len(got.Path) != 2 || *got.Joint != [2]float64{7, 8} || got.EndCap != nil ||
		got.Differ[0].Off != 12.3 {
		t.Errorf("%+v", got)
	}
	if l.EndCap = &joint; l.json().EndCap == nil || (*Laid)(nil).json() != nil {
		t.Error("an end cap that was found")
	}
}

// A run to the north has its left neighbour in the west, whatever lies in the east; ten looks
// of 20 mm are the 200 that count.
func TestOpenFloorBesideARunNorth(t *testing.T) {
	run, s := hand.Segment(0, 0, 0, 1000), stretch{0, 1000, 300, 300}
	west := openFloor{region: floorOf(-400, -9, 9, 1009), step: 15}
	if !west.open(run, s, 300) || west.open(run, s, -300) {
		t.Errorf("west %v, east %v", west.open(run, s, 300), west.open(run, s, -300))
	}
	o := openFloor{region: floorOf(-400, -9, 9, 1009), step: 20}
	for to, want := range map[float64]bool{160: false, 180: true, 200: true} {
		if got := o.open(run, stretch{0, to, 300, 300}, 300); got != want {
			t.Errorf("open as far as %g mm: %v", to, got)
		}
	}
}

// What the router is told of cables: those that the job names for the room lie where it asks,
// and a lead that does not reach the floor reaches none of it.
func TestCablesForTheRouter(t *testing.T) {
	r := &Room{Job: hand.Room(box(0, 0, 3000, 2000)), Floor: floorOf(0, 0, 3000, 2000)}
	r.Heated = floorOf(50, 50, 2950, 1950)
	r.Zones = []plane.Region{r.Heated}
	r.Job.Thermostat.Height = 1000
	r.Job.Cables, r.Job.Zones = []string{"A", "B"}, []job.Zone{{At: plane.Pt(700, 800), Cables: []string{"B"}}}
	j := &job.Job{Membrane: job.Membrane{Pitch: 30}}
	j.Supply.MaxDensity = 150
	labels := []job.Cable{{ID: "A", Length: 20000, Watts: 300, Lead: 900},
		{ID: "B", Length: 10000, Watts: 120, Lead: 4000}}
	p, err := r.ProblemWith(j, labels)
	if err != nil || len(p.Cables) != 2 {
		t.Fatal(p.Cables, err)
	}
	a, b := p.Cables[0], p.Cables[1]
	if a.Within != nil || b.Within == nil || *b.Within != plane.Pt(700, 800) {
		t.Errorf("asked into %v and %v", a.Within, b.Within)
	}
	if a.LeadReach != 0 || b.LeadReach != 3000 || a.WattsPerMetre != 15 || b.WattsPerMetre != 12 ||
		a.MaxDensity != 150 || a.Length != 20000 || a.ID != "A" {
		t.Errorf("%+v, %+v", a, b)
	}
	for _, other := range [][]job.Cable{labels[:1], {labels[1], labels[0]}} {
		p, err := r.ProblemWith(j, other)
		if err != nil || p.Cables[0].Within != nil {
			t.Errorf("others than those named are asked into a zone: %v", p.Cables[0].Within)
		}
	}
}

// Leads run over floor that cable keeps off, but not under what stands on it, nor where it is
// drilled for fixing.
func TestFloorForLeads(t *testing.T) {
	r := &Room{Job: hand.Room(box(0, 0, 1000, 1000)), Floor: floorOf(0, 0, 1000, 1000)}
	r.Job.Fixtures = []job.Fixture{{Outline: box(0, 0, 100, 100)}}
	r.Job.KeepOuts = []job.KeepOut{{Outline: box(200, 0, 300, 100)}, {Outline: box(400, 0, 500, 100), Cold: true}}
	r.NoCut = []NoCut{{Reason: ForFixing, Region: floorOf(600, 0, 700, 100)}, {Reason: ForFixture, Region: floorOf(0, 0,
		150, 150)}}
	floor, err := r.LeadFloor()
	if err != nil || !close6(floor.Area(), 1e6-3e4) {
		t.Errorf("%g mm², %v", floor.Area(), err)
	}
}

// Two leads that meet at the box alone lie on one another nowhere.
func TestLeadsApart(t *testing.T) {
	r := &Room{Job: &job.Room{}}
	for i, id := range []string{"H1", "H2"} {
		y := float64(600*i - 300)
		r.Cables = append(r.Cables, Cable{ID: id, ColdLead: hand.Points(0, 0, 500, y),
			Path: hand.Points(500, y, 900, y)})
	}
	if got := r.LeadStacks(); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// Of walls of 3 m east and 1 m north and one of 2.5 m at 60 degrees, the square one is the
// second datum, though it comes first and is the shortest; without it the slanting one is.
func TestTheSecondDatum(t *testing.T) {
	walls := []plane.Segment{hand.Segment(0, 0, 0, 1000), hand.Segment(0, 0, 3000, 0), hand.Segment(0, 0, 1250, 2165)}
	all := func(int) bool { return true }
	if d1, d2 := datumsOf(walls, all); d1 != 1 || d2 != 0 {
		t.Errorf("%d and %d", d1, d2)
	}
	if d1, d2 := datumsOf(walls, func(i int) bool { return i > 0 }); d1 != 1 || d2 != 2 {
		t.Errorf("%d and %d", d1, d2)
	}
	if d1, d2 := datumsOf(walls[1:2], all); d1 != 0 || d2 != -1 {
		t.Errorf("%d and %d", d1, d2)
	}
	one := &job.Room{Outline: box(0, 0, 10, 10), Walls: []job.Wall{{Letter: "A", Segment: walls[1]}}}
	if tape := NewTape(one, plane.Millimetres); tape.D1 != 0 || tape.D2 != 0 {
		t.Errorf("%d and %d of one wall", tape.D1, tape.D2)
	}
}
