package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// Runs are legs of three pegs and more; the link of a turn back is none, however
// long, up to six pegs. By hand, on pegs of 30 mm.
func TestRunsOfAPath(t *testing.T) {
	for _, c := range []struct {
		name string
		path []plane.Point
		want string // direction, pegs and gap of each run
	}{
		{"a serpentine", hand.Points(0, 0, 900, 0, 900, 60, 0, 60, 0, 180, 900, 180),
			"east 30 2, west 30 4, east 30 0"},
		{"six pegs are a turn", hand.Points(0, 0, 900, 0, 900, 180, 0, 180), "east 30 6, west 30 0"},
		{"seven are a run", hand.Points(0, 0, 900, 0, 900, 210, 0, 210), "east 30 0, north 7 0, west 30 0"},
		{"two pegs are no run", hand.Points(0, 0, 900, 0, 900, 60, 1500, 60), "east 30 2, east 20 0"},
		{"three pegs on are one", hand.Points(0, 0, 900, 0, 900, 90, 1500, 90), "east 30 0, north 3 0, east 20 0"},
		{"a turn is shorter than its runs", hand.Points(0, 0, 150, 0, 150, 150, 0, 150),
			"east 5 0, north 5 0, west 5 0"},
		{"one leg", hand.Points(0, 0, 30, 0), "east 1 0"},
		{"aslant", hand.Points(0, 0, 300, 300, 600, 0, 0, 0), "north-east 14 0, south-east 14 0, west 20 0"},
	} {
		var got []string
		for i, r := range Runs(c.path, 15, route.Lattice{Pitch: 30}) {
			if r.Number != i+1 || c.path[r.Leg] != r.To || c.path[r.Leg-1] != r.From {
				t.Errorf("%s: run %d is %+v", c.name, i+1, r)
			}
			got = append(got, fmt.Sprint(r.Direction, " ", r.Pegs, " ", r.GapToNext))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

func TestPlaceOnRuns(t *testing.T) {
	rs := Runs(hand.Points(0, 0, 900, 0, 900, 60, 0, 60), 0, route.Lattice{Pitch: 30})
	cum := []float64{0, 900, 960, 1860}
	for s, want := range map[float64][2]float64{-5: {1, 0}, 0: {1, 0}, 450: {1, 450}, 930: {1, 930}, 960: {2, 0},
		1000: {2, 40}} {
		if run, into := PlaceOnRuns(rs, cum, s); float64(run) != want[0] || into != want[1] {
			t.Errorf("%g mm: run %d, %g mm into it", s, run, into)
		}
	}
	ms := Marks(hand.Points(0, 0, 900, 0, 900, 60, 0, 60), 0, rs)
	if len(ms) != 3 || ms[1].Along != 930 || ms[1].At != plane.Pt(900, 30) || ms[0].Run != 1 || ms[0].Into != 465 ||
		ms[2].Run != 2 || ms[2].Into != 435 {
		t.Errorf("%+v", ms)
	}
}

func TestCompass(t *testing.T) {
	for k, want := range compassNames {
		a := float64(k) * math.Pi / 4
		for _, off := range []float64{-0.39, 0, 0.39} {
			d := plane.Pt(math.Cos(a+off), math.Sin(a+off))
			if got := compass(d); got != want {
				t.Errorf("%v: %s, want %s", d, got, want)
			}
			if got := SideOfSheet(d); got != sheetSides[k]+" of the sheet" {
				t.Errorf("%v: %s", d, got)
			}
		}
	}
}

func TestTowardsAndAlong(t *testing.T) {
	square := plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))
	turned := slices.Clone(square)
	slices.Reverse(turned) // walls the other way round: 0,2000 to 3000,2000 and so on
	mid := plane.Pt(1000, 1000)
	for _, c := range []struct {
		d    plane.Point
		want string
	}{{plane.Pt(1, 0), "wall B"}, {plane.Pt(-1, 0), "wall D"}, {plane.Pt(0, 1), "wall C"}, {plane.Pt(0, -1),
		"wall A"}, {plane.Pt(1, 0.3), "wall B"}} {
		if got := Towards(hand.Room(square), mid, c.d).String(); got != c.want {
			t.Errorf("%v: %s, want %s", c.d, got, c.want)
		}
	}
	if got := Towards(hand.Room(turned), mid, plane.Pt(0, 1)).String(); got != "wall A" {
		t.Errorf("the other way round: %s", got)
	}
	// of two walls that face the way, the one met first; past all of them, the sheet
	bay := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 2000}, {X: 2000, Y: 2000}, {X: 2000, Y: 1200},
		{X: 0, Y: 1200}}
	for p, want := range map[plane.Point]string{{X: 1000, Y: 500}: "wall E", {X: 2500, Y: 500}: "wall C",
		{X: 1000, Y: 1200}: "wall E", {X: 1000, Y: 1205}: "top of the sheet"} {
		if got := Towards(hand.Room(bay), p, plane.Pt(0, 1)).String(); got != want {
			t.Errorf("from %v: %s, want %s", p, got, want)
		}
	}
	for _, c := range []struct {
		d    plane.Point
		want string
		off  float64
	}{{plane.Pt(1, 0), "A", 0}, {plane.Pt(0, -5), "B", 0}, {plane.Pt(1, 1), "A", 45}, {plane.Pt(100, 1), "A",
		0.573}, {plane.Pt(1, 2), "B", 26.565}} {
		if letter, off := Along(hand.Room(bay), c.d); letter != c.want || math.Abs(off-c.off) > 1e-3 {
			t.Errorf("%v: %s, %g", c.d, letter, off)
		}
	}
}

func TestDatumWalls(t *testing.T) {
	r := hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000)))
	if a, b := DatumWalls(r); a != 0 || b != 1 {
		t.Errorf("%d and %d", a, b)
	}
	door := func(wall int, from, to float64, kind string) job.Opening {
		return job.Opening{Kind: kind, Wall: wall, From: from, To: to}
	}
	for _, c := range []struct {
		openings []job.Opening
		want     [2]int
	}{
		{[]job.Opening{door(0, 100, 2900, "door")}, [2]int{2, 1}},
		{[]job.Opening{door(0, 299, 2701, "door")}, [2]int{2, 1}},
		{[]job.Opening{door(0, 300, 2800, "door")}, [2]int{0, 1}},
		{[]job.Opening{door(0, 0, 3000, "window")}, [2]int{0, 1}},
		{[]job.Opening{door(1, 0, 2000, "cased")}, [2]int{0, 3}},
	} {
		r.Openings = c.openings
		if a, b := DatumWalls(r); [2]int{a, b} != c.want {
			t.Errorf("%+v: %d and %d", c.openings, a, b)
		}
	}
	r.Openings = []job.Opening{door(0, 2000, 2500, "door"), door(0, 500, 900, "cased"), door(1, 0, 500, "door"),
		door(0, 1, 20, "window")}
	if got := Standing(r, 0); !slices.Equal(got, [][2]float64{{0, 500}, {900, 2000}, {2500, 3000}}) {
		t.Errorf("%v stand", got)
	}
	if got := longest(Standing(r, 0)); got != 1100 {
		t.Errorf("the longest is %g", got)
	}
	// no wall is square to the longest: what still fixes a point will do
	if a, b := DatumWalls(hand.Room(plane.Ring{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 2000, Y: 2000}})); a != 0 || b != 1 {
		t.Errorf("of a triangle %d and %d", a, b)
	}
	tape := NewTape(hand.Room(plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 2000))), plane.Millimetres)
	for p, want := range map[plane.Point]string{{X: 1000, Y: 300}: "300 mm from wall A, 2000 mm from wall B",
		{X: 3100, Y: 300}: "300 mm from wall A, 100 mm behind the line of wall B", {X: 3000.4,
			Y: 0}: "0 mm from wall A, 0 mm from wall B"} {
		if got := tape.Place(p); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	if got := tape.Off(1, plane.Pt(3100, 0)); got != "-100 mm" {
		t.Error(got)
	}
	if got := tape.Off(1, plane.Pt(3000, 0)); got != "0 mm" {
		t.Error(got)
	}
}
