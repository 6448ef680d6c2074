package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/plane"
)

func TestParseLeg(t *testing.T) {
	tests := []struct {
		in              string
		bearing, length float64
		bad             string
	}{
		{"east 9ft 4in", 90, 2844.8, ""},
		{"North 6ft", 0, 1828.8, ""},
		{"w 2850", 270, 2850, ""},
		{"SE 1 m", 135, 1000, ""},
		{"south-west 12'-6\"", 225, 3810, ""},
		{"north west 10 cm", 315, 100, ""},
		{"northeast 1m", 45, 1000, ""},
		{"47.5deg 3ft 2in", 47.5, 965.2, ""},
		{"47.5° 1m", 47.5, 1000, ""},
		{"-90 degrees 1m", 270, 1000, ""},
		{"360deg 1m", 0, 1000, ""},
		{"eastern 1m", 0, 0, "does not begin with a direction"},
		{"400deg 1m", 0, 0, "does not begin with a direction"},
		{"12 1m", 0, 0, "does not begin with a direction"},
		{"", 0, 0, "does not begin with a direction"},
		{"north", 0, 0, "has no length"},
		{"north 0", 0, 0, "walls are from 5 mm"},
		{"north -1m", 0, 0, "walls are from 5 mm"},
		{"north 2.31", 0, 0, "walls are from 5 mm"},
		{"north 1001 km", 0, 0, "not a unit"},
		{"north 1001000 m", 0, 0, "to 1000000 mm long"},
	}
	rd := newReader(&Report{}, newSchema(nil), "", nil)
	rd.units = plane.Millimetres
	for _, c := range tests {
		l, err := rd.parseLeg(c.in)
		if c.bad != "" {
			if err == nil || !strings.Contains(err.message, c.bad) {
				t.Errorf("%q: %v, want an error with %q", c.in, err, c.bad)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %s", c.in, err.message)
			continue
		}
		near(t, c.in+": bearing", l.bearing, c.bearing, 1e-9)
		near(t, c.in+": length", l.length, c.length, 1e-9)
	}
}

func TestWinds(t *testing.T) {
	for bearing, want := range map[float64]string{0: "north", 22: "north", 23: "north-east", 90: "east", 180: "south",
		337: "north-west", 338: "north", 359.9: "north"} {
		if got := Wind(bearing); got != want {
			t.Errorf("%v° is %s, want %s", bearing, got, want)
		}
	}
	for _, l := range []leg{{0, 5}, {90, 5}, {180, 5}, {270, 5}, {33, 5}, {201.5, 5}} {
		near(t, "bearing", bearingOf(l.vector()), l.bearing, 1e-9)
		near(t, "length", l.vector().Norm(), 5, 1e-9)
	}
}

// TestBowditch: the compass rule moves the end of every leg by the gap times
// the share of the way round taped so far. So each adjusted wall is its leg
// less the gap in proportion to its own length, the closing one included.
func TestBowditch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "walls")
		legs := make([]leg, n)
		for i := range legs {
			legs[i] = leg{rapid.Float64Range(0, 360).Draw(t, "bearing"), rapid.Float64Range(1, 1e5).Draw(t, "length")}
		}
		ring, gap := layOut(legs)
		adjust(ring, legs, gap)
		if ring[0] != (plane.Point{}) {
			t.Fatalf("the first corner moved to %v", ring[0])
		}
		sum := plane.Point{}
		for i, l := range legs {
			e := ring.Edge(i)
			want := l.vector().Sub(gap.Mul(l.length / around(legs)))
			got := e.B.Sub(e.A)
			if got.Dist(want) > 1e-6 {
				t.Fatalf("wall %s is %v, want %v", WallLetter(i), got, want)
			}
			sum = sum.Add(got)
		}
		if sum.Norm() > 1e-6 {
			t.Fatalf("the walls close to %v", sum)
		}
	})
}

// TestClosedTape reads a taped room end to end: within the tolerance it is
// closed and the gap kept for the drawing, beyond it is an error.
func TestClosedTape(t *testing.T) {
	text := func(west string) string {
		return head + "[[room]]\nname = \"R\"\nwalls = [\"east 4000\", \"north 3000\", \"west " + west +
			"\", \"south 3000\"]\n" + tail
	}
	r := mustRead(t, text("3986")).Rooms[0]
	near(t, "gap", r.Closure.Gap, 14, 1e-9)
	near(t, "bearing", r.Closure.Bearing, 90, 1e-9)
	near(t, "share", r.Closure.Share, 14/13986.0, 1e-12)
	k := 14 / 13986.0
	samePoints(t, "corners", r.Outline, []plane.Point{{}, {X: 4000 - 4000*k}, {X: 4000 - 7000*k, Y: 3000},
		{X: 14 - 10986*k, Y: 3000}})
	// 1/200 of 13,930 is 69.65 mm, but 50 mm is the most
	mustRead(t, text("3950"))
	if _, report := readText(text("3949.9")); report.Errors() != 1 || !strings.Contains(human(report),
		"end 50.1 mm east of where they began") {
		t.Error(human(report))
	}
}

func TestPlainLength(t *testing.T) {
	tests := []struct {
		mm    float64
		units string
		want  string
	}{
		{305, "mm", "305 mm"}, {304.8, "in", "1ft"}, {2857.5, "in", "9ft 4-1/2in"}, {12.7, "in", "1/2in"},
		{38.1, "in", "1-1/2in"}, {101.6, "in", "4in"}, {0, "in", "0in"},
	}
	for _, c := range tests {
		rd := newReader(&Report{}, newSchema(nil), "", nil)
		rd.units = unitsNamed(c.units)
		if got := plainLength(table{rd: rd}, c.mm); got != c.want {
			t.Errorf("%v in %s: %q, want %q", c.mm, c.units, got, c.want)
		}
		if _, err := plane.ParseLength(c.want, plane.NoUnits); err != nil {
			t.Errorf("%q cannot be typed: %v", c.want, err)
		}
	}
}

// TestQuadrilateral tapes a known room that is out of square and wants its
// corners back, by either diagonal.
func TestQuadrilateral(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		jitter := func(what string) float64 { return rapid.Float64Range(-120, 120).Draw(rt, what) }
		ring := plane.Ring{{}, {X: 3000 + jitter("a")}, {X: 3000 + jitter("bx"), Y: 2400 + jitter("by")},
			{X: jitter("cx"), Y: 2400 + jitter("cy")}}
		for _, d := range []diagonal{{from: 0, to: 2}, {from: 1, to: 3}} {
			d.length = ring[d.from].Dist(ring[d.to])
			legs := make([]leg, 4)
			for i := range legs {
				legs[i] = leg{[]float64{90, 0, 270, 180}[i], ring.Edge(i).Length()}
			}
			var r Room
			got := r.quadrilateral(table{rd: newReader(&Report{}, newSchema(nil), "", nil)}, legs, d)
			for i := range ring {
				if got == nil || got[i].Dist(ring[i]) > 1e-6 {
					rt.Fatalf("by %s: %v, want %v", d.called(), got, ring)
				}
			}
		}
	})
}

func TestDiagonals(t *testing.T) {
	text := func(walls, diagonals string) string {
		return head + "[[room]]\nname = \"R\"\n" + walls + "\ndiagonals = [" + diagonals + "]\n" + tail
	}
	square := `walls = ["east 4000", "north 3000", "west 4000", "south 3000"]`
	bay := `corners = [[0, 0], [4000, 0], [4000, 3000], [2000, 3500], [0, 3000]]`
	tests := []struct{ walls, diagonals, want string }{
		{square, `"5000", "5000"`, ""},
		{square, `"A-C 5000", "b-d 5010"`, ""},
		{square, `"A-C 5000", "B-D 5030"`, "was taped as 5030 mm, but the walls make it 5000 mm: 30 mm apart"},
		{square, `"A-C 6900"`, "diagonal A-C of room \"R\", 6900 mm, does not go with its walls"},
		{square, `"A-C 9000"`, "does not go with its walls"},
		{square, `"A-B 5000"`, "its two corners are ends of one wall"},
		{square, `"A-E 5000"`, "the room has walls A to D"},
		{square, `"A-C -1"`, "must be above 0"},
		{bay, `"A-C 5000"`, ""},
		{bay, `"A-C 5020"`, "20 mm apart"},
		{bay, `"5000"`, "does not say between which walls' starts"},
		{bay, `"A-C"`, "an empty length"},
	}
	for _, c := range tests {
		_, report := readText(text(c.walls, c.diagonals))
		got := human(report)
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.diagonals, c.want, got)
		}
	}
}

func TestLettersBeyondZ(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 499: "SF"} {
		if got := WallLetter(i); got != want {
			t.Errorf("wall %d is %s, want %s", i, got, want)
		}
	}
}

// TestLining moves studs in by the lining on every side, whichever way round
// the room is written.
func TestLining(t *testing.T) {
	corners := []string{"[0, 0]", "[3000, 0]", "[3000, 2000]", "[1500, 2000]", "[1500, 1000]", "[0, 1000]"}
	want := []plane.Point{{X: 10, Y: 10}, {X: 2990, Y: 10}, {X: 2990, Y: 1990}, {X: 1510, Y: 1990}, {X: 1510, Y: 990},
		{X: 10, Y: 990}}
	for range 2 {
		text := fmt.Sprintf("%s[[room]]\nname = \"R\"\ncorners = [%s]\nmeasured_to = \"stud\"\nlining = 10\n%s", head,
			strings.Join(corners, ","), tail)
		samePoints(t, "finished corners", mustRead(t, text).Rooms[0].Outline, want)
		for i, j := 0, len(want)-1; i < j; i, j = i+1, j-1 {
			want[i], want[j] = want[j], want[i]
			corners[i], corners[j] = corners[j], corners[i]
		}
	}
	if math.Abs(inset(plane.Ring{{}, {X: 10}, {X: 20}, {X: 20, Y: 20}, {Y: 20}}, 1)[1].Y-1) > 1e-9 {
		t.Error("a corner in a straight wall is not moved in")
	}
}

// A traverse with one gross error in a length misses its start along that line: the
// bearing of the error of closure points to the leg (surveying, common practice).
func TestTapeNamesTheWallToMeasureAgain(t *testing.T) {
	good := []string{"east 3 m", "north 2 m", "45deg 1 m", "north-west 1.4142 m", "west 2.7071 m"}
	for i := range good {
		walls := slices.Clone(good)
		word, rest, _ := strings.Cut(walls[i], " ")
		v, err := strconv.ParseFloat(strings.TrimSuffix(rest, " m"), 64)
		if err != nil {
			t.Fatal(err)
		}
		walls = append(walls, "south 3.7071 m")
		walls[i] = fmt.Sprintf("%s %.4f m", word, v+0.3)
		tape := TapeOf(walls, plane.Millimetres)
		if math.Abs(tape.Miss-300) > 1 {
			t.Errorf("%v: misses by %.1f mm, want 300", walls, tape.Miss)
		}
		want := i
		if i == 0 || i == 1 || i == 4 { // another wall runs along it: either may be wrong
			want = -1
		}
		if tape.Again != want {
			t.Errorf("%v: wall %d is to be measured again, want %d", walls, tape.Again, want)
		}
	}
	if tape := TapeOf([]string{"east 3 m", "upwards 2 m"}, plane.Millimetres); tape.Slips[0] != "" ||
		!strings.Contains(tape.Slips[1], "direction") || len(tape.Points) != 3 {
		t.Errorf("%+v", tape)
	}
}
