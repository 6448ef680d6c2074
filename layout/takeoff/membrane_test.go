package takeoff

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Strips counted by hand, roll 1 m wide.
func TestStripsTakeTheBetterDirection(t *testing.T) {
	ell, err := rect(3000, 2000).Less(plane.FromRing(plane.Rectangle(plane.Pt(1000, 1000), plane.Pt(3000, 2000))))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		room    plane.Region
		along   string
		lengths []float64
		seams   float64
	}{
		{"two strips of 3 m, not three of 2 m", rect(3000, 2000), "east-west", []float64{3000, 3000}, 3000},
		{"north-south wastes less", rect(2000, 2600), "north-south", []float64{2600, 2600}, 2600},
		{"a strip is as long as its floor", ell, "east-west", []float64{3000, 1000}, 1000},
	} {
		s, err := StripsFor(c.room, 1000)
		if err != nil || s.Along != c.along || len(s.Lengths) != len(c.lengths) {
			t.Fatalf("%s: %+v, %v", c.name, s, err)
		}
		total := 0.0
		for _, l := range c.lengths {
			total += l
		}
		near(t, c.name, s.Total(), total, 1e-6)
		near(t, c.name+", seams", s.Seams, c.seams, 1e-6)
	}
}

func TestRollsReuseOffcuts(t *testing.T) {
	for _, c := range []struct {
		lengths []float64
		roll    float64
		want    int
	}{
		{[]float64{3000, 3000, 3000}, 10000, 1},
		{[]float64{6000, 6000, 4000, 4000}, 10000, 2}, // each off-cut of 4 m is used
		{[]float64{6000, 6000, 5000}, 10000, 3},
		{[]float64{5000, 5000}, 10000, 1},  // to the millimetre
		{[]float64{23000}, 10000, 3},       // pieced from whole rolls
		{[]float64{23000, 7000}, 10000, 3}, // and its off-cut is used
		{nil, 10000, 0},
		{[]float64{1000}, 0, 0},
	} {
		if got := Rolls(c.lengths, c.roll); got != c.want {
			t.Errorf("%v from rolls of %g: %d, want %d", c.lengths, c.roll, got, c.want)
		}
	}
}

// Strips cover the floor but for a last one under 1 mm, and rolls hold them.
func TestRollsHoldTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rect(rapid.Float64Range(500, 9000).Draw(t, "w"), rapid.Float64Range(500, 9000).Draw(t, "h"))
		width := rapid.Float64Range(300, 1500).Draw(t, "width")
		roll := rapid.Float64Range(2000, 30000).Draw(t, "roll")
		s, err := StripsFor(room, width)
		if err != nil || s.Total()*width < room.Area()-narrowestPiece*room.Perimeter() {
			t.Fatalf("%+v for %.0f mm² (%v)", s, room.Area(), err)
		}
		if n := Rolls(s.Lengths, roll); float64(n)*roll < s.Total()-1 {
			t.Fatalf("%d rolls of %g for %g", n, roll, s.Total())
		}
	})
}

func TestStripsRefuse(t *testing.T) {
	for _, width := range []float64{0, -1, 0.5, math.NaN(), math.Inf(1)} {
		if _, err := StripsFor(rect(3000, 2000), width); err == nil {
			t.Errorf("width %g: no error", width)
		}
	}
}

// Wherever its origin is, a room takes the same strips, seams and tiles.
func TestRoomMayLieAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		by := plane.Pt(float64(rapid.IntRange(-4000, 4000).Draw(t, "x")),
			float64(rapid.IntRange(-4000, 4000).Draw(t, "y")))
		ring := plane.Ring{{X: 0, Y: 0}, {X: 3100, Y: 0}, {X: 3100, Y: 900}, {X: 1200, Y: 900}, {X: 1200, Y: 2300},
			{X: 0, Y: 2300}}
		moved := make(plane.Ring, len(ring))
		for i, p := range ring {
			moved[i] = p.Add(by)
		}
		a, _ := StripsFor(plane.FromRing(ring), 1000)
		b, err := StripsFor(plane.FromRing(moved), 1000)
		if err != nil || a.Along != b.Along || math.Abs(a.Total()-b.Total())+math.Abs(a.Seams-b.Seams) > 1e-6 {
			t.Fatalf("%+v, moved %+v, %v", a, b, err)
		}
	})
}

// The floor widens where one strip ends and the next begins: the strip below is as long
// as its own floor, 1 m, whatever lies beyond its edge.
func TestStripEndsAtItsEdge(t *testing.T) {
	room, err := rect(3000, 2000).Less(plane.FromRing(plane.Rectangle(plane.Pt(1000, 0), plane.Pt(3000, 1000))))
	if err != nil {
		t.Fatal(err)
	}
	s, err := strips(plane.FaceOf(room, plane.Point{}, 0), 1000)
	if err != nil || len(s.Lengths) != 2 {
		t.Fatalf("%+v, %v", s, err)
	}
	near(t, "first", s.Lengths[0], 1000, 1e-6)
	near(t, "second", s.Lengths[1], 3000, 1e-6)
}

// Strips that lie beside each other nowhere have no seam.
func TestStripsApartHaveNoSeam(t *testing.T) {
	floor := append(rect(1000, 1000), plane.FromRing(plane.Rectangle(plane.Pt(2000, 1000), plane.Pt(3000, 2000)))...)
	s, err := strips(plane.FaceOf(floor, plane.Point{}, 0), 1000)
	if err != nil || len(s.Lengths) != 2 || s.Seams != 0 {
		t.Errorf("%+v, %v", s, err)
	}
}

// Of a sheet that has one side only both are asked for, not how it is cut.
func TestHalfASheetIsNone(t *testing.T) {
	for _, size := range [][2]float64{{800, 0}, {0, 800}} {
		in := bath()
		in.Membrane = job.Membrane{SheetSize: size}
		if l := counted(in); !slices.Contains(english(l.Questions), "Membrane: roll or sheet size, to count rolls.") {
			t.Errorf("%v: %q", size, l.Questions)
		}
	}
}
