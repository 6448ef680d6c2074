package probe

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// northward is a straight line of something at an x, 6 wide, 12 off at the most
// and with 40 of finger-room.
func northward(kind Kind, name string, x float64) Thing {
	return Thing{Kind: kind, Name: name, Line: []plane.Point{{X: x}, {X: x, Y: 1000}}, Half: 3, Error: 12, Finger: 40,
		Recorded: true}
}

func floorWith(things ...Thing) *Map {
	outline := plane.Rectangle(plane.Pt(0, 0), plane.Pt(2000, 1000))
	m := &Map{Room: "R", Outline: outline, Things: things}
	for i, letter := range []string{"A", "B", "C", "D"} {
		m.Walls = append(m.Walls, layout.Wall{Letter: letter, Segment: outline.Edge(i)})
	}
	return m
}

// On a bound the wary answer holds: 15 from the centre line the cable may lie
// there, 55 from it a finger may touch it; 56 leaves 1.
func TestOnTheBoundIsNotFree(t *testing.T) {
	m := floorWith(northward(Cable, "H1", 500))
	for _, c := range []struct {
		off    float64
		want   Verdict
		within float64
	}{{15, CableHere, 0}, {15.5, TooClose, 0}, {55, TooClose, 0}, {55.5, NothingRecorded, 0.5}, {56, NothingRecorded,
		1}} {
		a := m.At(plane.Pt(500+c.off, 400))
		if a.Verdict != c.want || a.Within != c.within {
			t.Errorf("%g off: %s within %g, want %s within %g", c.off, a.Verdict, a.Within, c.want, c.within)
		}
		if c.want == CableHere && m.Headline(a) != "CABLE HERE: heating cable H1" {
			t.Error(m.Headline(a))
		}
	}
}

// Of several of a kind that is told of which least is left.
func TestLeastClearOfEachKind(t *testing.T) {
	vague := northward(Cable, "H2", 300)
	vague.Error = 112
	m := floorWith(northward(Cable, "H1", 100), northward(Cable, "H3", 700), vague, northward(SensorLead, "S1", 340))
	for x, want := range map[float64][]string{
		110: {"H1", "S1"}, 240: {"H2", "S1"}, // 60 from it less 155, 140 from H1 less 55
		640: {"H3", "S1"}, 330: {"H2", "S1"}, // 30 less 155 against 10 less 55
		600: {"H3", "S1"}, // 100 less 55; 300 less 155
		150: {"H1", "S1"}, // 50 less 55; 150 less 155: of as little the first
	} {
		var got []string
		for _, n := range m.At(plane.Pt(x, 400)).Near {
			got = append(got, n.Name)
		}
		if !slices.Equal(got, want) {
			t.Errorf("at %g: %v, want %v", x, got, want)
		}
	}
}

// CABLE HERE is said of what was found there: of the cable where it is one, else
// of what else; of what was only planned there, never.
func TestHeadlineNamesWhatIsHere(t *testing.T) {
	joint, cable, lead := northward(LeadJoint, "H1", 500), northward(Cable, "H1", 506), northward(ColdLead, "H1", 501)
	lead.Recorded = false
	lead.Error = 305
	tip := northward(SensorTip, "S1", 502)
	spot := plane.Pt(500, 400)
	for _, c := range []struct {
		things []Thing
		want   string
	}{
		{[]Thing{joint, cable, lead}, "CABLE HERE: heating cable H1"},
		{[]Thing{joint, northward(Cable, "H1", 530), lead}, "CABLE HERE: lead joint H1"},
		{[]Thing{tip, joint}, "CABLE HERE: lead joint H1"}, // nearer than the sensor
		{[]Thing{northward(Cable, "H1", 516), lead}, "TOO CLOSE: cold lead H1 (as planned, never recorded)"},
		{[]Thing{northward(Cable, "H1", 616)}, "NO CABLE RECORDED WITHIN 61 mm of this spot; see the limits below"},
	} {
		m := floorWith(c.things...)
		if got := m.Headline(m.At(spot)); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// A run is named from the first on; a thing that is told to be some way along may begin there. What
// is just enough, or not quite, is said as it is.
func TestWordsOnTheEdge(t *testing.T) {
	cable := northward(Cable, "H1", 500)
	cable.Along, cable.RunEnds, cable.RunNames = []float64{0, 1000}, []float64{1000}, []string{"1"}
	m := floorWith(cable)
	if got := m.Headline(m.At(plane.Pt(500, 400))); got != "CABLE HERE: heating cable H1, run 1" {
		t.Error(got)
	}
	for y, want := range map[float64]string{0: "at 0.00 m of its length", 0.5: "at 0.00 m of its length",
		400: "at 0.40 m of its length"} {
		if got := m.Reckoning(m.At(plane.Pt(600, y)).Near[0]); !strings.Contains(got, want) {
			t.Errorf("%g: %s", y, got)
		}
	}
	for off, want := range map[float64]string{55: "nothing left", 55.5: "0 mm left", 56: "1 mm left",
		54: "nothing left"} {
		if got := m.left(m.At(plane.Pt(500+off, 400)).Near[0]); got != want {
			t.Errorf("%g off: %s, want %s", off, got, want)
		}
	}
	joint := northward(LeadJoint, "H1", 500)
	m = floorWith(joint, northward(Cable, "H1", 515.5))
	if got := m.Headline(m.At(plane.Pt(500, 400))); got != "CABLE HERE: lead joint H1" {
		t.Error(got)
	}
}

// A running length belongs to the run it falls on, a bend to the run that it leads to; ends
// are rounded to the millimetre.
func TestRunAtByHand(t *testing.T) {
	ends := []float64{1000, 2100, 3200}
	for s, want := range map[float64]int{0: 1, 999.5: 1, 1000.5: 1, 1001: 1, 1001.5: 2, 2100: 2, 2102: 3, 3200: 3,
		3300: 3} {
		if got := runAt(ends, s); got != want {
			t.Errorf("%g mm: run %d, want %d", s, got, want)
		}
	}
	if got := runAt(nil, 100); got != 0 {
		t.Errorf("of no runs: %d", got)
	}
}

// The stretch under a tile from 300 to 600 of a line counted from 0 at x = 0, and its way
// back; a line that is not counted, a point, and a line with a repeated corner.
func TestUnderWalksTheWholeLine(t *testing.T) {
	tile := plane.Rectangle(plane.Pt(300, 0), plane.Pt(600, 300))
	there := []plane.Point{{X: 0, Y: 100}, {X: 1000, Y: 100}, {X: 1000, Y: 100}, {X: 1000, Y: 200}, {X: 0, Y: 200}}
	pieces := under(Thing{Line: there, Along: []float64{0, 1000, 1000, 1100, 2100}, RunEnds: []float64{1000, 2100}},
		tile, 0)
	if len(pieces) != 2 {
		t.Fatalf("%+v", pieces)
	}
	for i, want := range []Piece{{From: 300, To: 600, Run: 1}, {From: 1500, To: 1800, Run: 2}} {
		if p := pieces[i]; math.Abs(p.From-want.From) > 2.01 || math.Abs(p.To-want.To) > 2.01 || p.Run != want.Run {
			t.Errorf("piece %d runs from %g to %g on run %d", i, p.From, p.To, p.Run)
		}
	}
	if p := under(Thing{Line: there}, tile, 0); len(p) != 2 || p[0].From != 0 || p[0].To != 0 || p[0].Run != 0 {
		t.Errorf("not counted: %+v", p)
	}
	for y, want := range map[float64]int{150: 1, 310: 1, 311: 0} { // a cap, its half width and error 10
		if p := under(Thing{Line: []plane.Point{{X: 450, Y: y}}}, tile, 10); len(p) != want {
			t.Errorf("a cap at y = %g: %d pieces", y, len(p))
		}
	}
	// a cable that ends 1 mm inside the tile, a leg shorter than a step, is not missed
	for _, end := range []plane.Point{{X: 301, Y: 50}, {X: 599, Y: 50}} {
		from := plane.Pt(end.X-1.5, 50)
		if end.X > 450 {
			from = plane.Pt(600.5, 50)
		}
		if p := under(Thing{Line: []plane.Point{from, end}, Along: []float64{0, 1.5}}, tile, 0); len(p) != 1 {
			t.Errorf("from %v to %v: %+v", from, end, p)
		}
	}
}

// How far a line is from a tile as a whole, where, and how far along.
func TestNearestToRingByHand(t *testing.T) {
	tile := plane.Rectangle(plane.Pt(300, 0), plane.Pt(600, 300))
	for _, c := range []struct {
		name       string
		line       []plane.Point
		at         plane.Point
		off, share float64
		leg        int
	}{
		// its corner from the line, by the cross product
		{"passes above", []plane.Point{{X: 0, Y: 900}, {X: 700, Y: 350}}, plane.Pt(662.4, 379.5),
			90000 / math.Hypot(700, 550), 0.9464, 0},
		{"ends beside", []plane.Point{{X: 700, Y: 900}, {X: 700, Y: 100}}, plane.Pt(700, 300), 100, 0.75, 0},
		{"its start is nearest", []plane.Point{{X: 450, Y: 340}, {X: 450, Y: 900}}, plane.Pt(450, 340), 40, 0, 0},
		{"its second leg is nearest", []plane.Point{{X: 900, Y: 900}, {X: 900, Y: 320}, {X: 500, Y: 320}},
			plane.Pt(600, 320), 20, 0.75, 1},
		{"below the tile", []plane.Point{{X: 450, Y: 900}, {X: 450, Y: 100}}, plane.Pt(450, 300), 0, 0.75, 0},
		{"its end is nearest", []plane.Point{{X: 900, Y: 900}, {X: 450, Y: 307}}, plane.Pt(450, 307), 7, 1, 0},
		{"a cap", []plane.Point{{X: 450, Y: 325}}, plane.Pt(450, 325), 25, 0, 0},
	} {
		at, off, leg, share := nearestToRing(tile, c.line)
		if at.Dist(c.at) > 2.01 || math.Abs(off-c.off) > 0.01 || leg != c.leg || math.Abs(share-c.share) > 0.005 {
			t.Errorf("%s: %v, %g off, leg %d at %g", c.name, at, off, leg, share)
		}
	}
}

// Lengths that nothing is recorded within are rounded down, never up: 6.9 mm are 1/4 in
// (6.35 mm), 101 mm 3 3/4 in (95.25), a foot is a foot.
func TestFloorRoundsDown(t *testing.T) {
	m := &Map{}
	inches := &Map{Tape: layout.Tape{Units: plane.Inches}}
	for mm, want := range map[float64][2]string{
		6.9: {"6 mm", `1/4" (6 mm)`}, 101: {"101 mm", `0'-3 3/4" (95 mm)`}, 304.81: {"304 mm", `1'-0" (304 mm)`},
		330.5: {"330 mm", `1'-1" (330 mm)`},
	} {
		if got := m.floor(mm); got != want[0] {
			t.Errorf("%g: %s, want %s", mm, got, want[0])
		}
		if got := inches.floor(mm); got != want[1] {
			t.Errorf("%g: %s, want %s", mm, got, want[1])
		}
	}
	if got, want := inches.running(3048), "10.0 ft (3.05 m)"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// The eight winds of the compass, each half-way to the next.
func TestWindByHand(t *testing.T) {
	for i, want := range []string{"east", "north-east", "north", "north-west", "west", "south-west", "south",
		"south-east"} {
		for _, off := range []float64{-22, 0, 22} {
			d := plane.Pt(1, 0).Rotate((float64(i)*45 + off) * math.Pi / 180)
			if got := new(Map).wind(d); got != want {
				t.Errorf("%v: %s, want %s", d, got, want)
			}
		}
	}
}

// A corner with a very tight bend is still rounded, in one chord or more, and one
// turned by more than a quarter takes r tan(turn/2) off each leg.
func TestBendByHand(t *testing.T) {
	third := 2 * math.Pi / 3 // turned back by 120 degrees: legs of 500, a radius of 50 takes 50 tan 60° of each
	path := []plane.Point{{}, {X: 500}, {X: 500 + 500*math.Cos(third), Y: 500 * math.Sin(third)}}
	_, along := rounded(path, 50)
	if want := 1000 - 2*50*math.Sqrt(3) + 50*third; math.Abs(along[len(along)-1]-want) > 0.3 {
		t.Errorf("%v mm, want %v", along[len(along)-1], want)
	}
	line, _ := rounded([]plane.Point{{}, {X: 500}, {X: 1000, Y: 2}}, 0.06) // 0.2 degrees
	if len(line) < 3 {
		t.Errorf("a slight bend: %v", line)
	}
}
