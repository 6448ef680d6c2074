package job

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// stocked reads a list of stock for a job of one cable, A, and returns the cables as ID x
// count and length, and what is said.
func stocked(t *testing.T, list string) (cables []string, said string) {
	t.Helper()
	j := mustRead(t, head+"[[room]]\nname = \"R\"\n"+anticlockwise+tail)
	j.Cables = []Cable{{ID: "A", Length: 30000, Volts: 240, Watts: 300}}
	j.Rooms[0].Cables, j.Rooms[0].Zones = []string{"A", "A"}, []Zone{{Cables: []string{"A"}}}
	report := &Report{}
	j.TakeStock("stock.csv", []byte(list), report)
	if r := j.Rooms[0]; r.Cables != nil || r.Zones[0].Cables != nil {
		t.Errorf("the choice is not open: %v, %v", r.Cables, r.Zones)
	}
	for _, c := range j.Cables {
		cables = append(cables, fmt.Sprintf("%s x %d, %g mm", c.ID, c.Count, c.Length))
	}
	return cables, spoken(report)
}

func TestStockByHand(t *testing.T) {
	const label = "B,2,240,400,40 m,4 m\n"
	for _, k := range []struct {
		list   string
		cables []string
		says   string
	}{
		{"id,count\nA,3\n", []string{"A x 3, 30000 mm"}, ""},
		{"id\nA\n", []string{"A x 1, 30000 mm"}, ""},
		{"count, id\n# counted on Friday\n 2 , A \n", []string{"A x 2, 30000 mm"}, ""},
		{"id,count,volts,watts,length,lead\n" + label + "A,1\n", []string{"B x 2, 40000 mm", "A x 1, 30000 mm"}, ""},
		{"id,count\nA,0\n", nil, "no cable is in the list"},
		{"id,count\n", nil, "no cable is in the list"},
		{"id,count\nA,-1\n", nil, `"-1" is no count of cables`},
		{"id,count\nA,x\n", nil, `"x" is no count of cables`},
		{"id,count\n,2\n", nil, "a cable has no id"},
		{"id,count\nB,2\n", nil, "is not in the job, and nothing of its label is given"},
		{"id,count\nA,1\nA,2\n", []string{"A x 1, 30000 mm"}, "is in the list twice"},
		{"count\n2\n", nil, "no column is called id"},
		{"id,colour\nA,red\n", nil, `there is no column "colour"`},
		{"id,count\n\"A,1\n", nil, "the list is not CSV"},
		{"id,volts,watts,length,lead\nB,240,x,40 m,4 m\n", nil, "watts"},
	} {
		cables, said := stocked(t, k.list)
		if !slices.Equal(cables, k.cables) {
			t.Errorf("%q: %v, want %v; %s", k.list, cables, k.cables, said)
		}
		if k.says == "" && said != "" || !strings.Contains(said, k.says) {
			t.Errorf("%q: said %q", k.list, said)
		}
		if n := strings.Count(said, "error"); k.says != "" && n > 1 && k.says != "watts" {
			t.Errorf("%q: %d faults for one: %s", k.list, n, said)
		}
	}
}

// A fault of a list is at its line; a list of more cables than a job may have ends there.
func TestPlacesInAStockList(t *testing.T) {
	report := &Report{}
	report.AddSource("s.csv", []byte("one\ntwo\nthree"))
	s := stock{name: "s.csv", report: report}
	for n, want := range map[int]Span{1: {"s.csv", 0, 3}, 2: {"s.csv", 4, 7}, 3: {"s.csv", 8, 13},
		9: {"s.csv", 8, 13}} {
		if got := s.line(n); got != want {
			t.Errorf("line %d: %+v", n, got)
		}
	}
	list := "id,volts,watts,length,lead\n"
	for i := range maxItems + 1 {
		list += fmt.Sprintf("C%d,240,400,40 m,4 m\n", i)
	}
	if cables, said := stocked(t, list); len(cables) != 0 || !strings.Contains(said, "more than") {
		t.Errorf("%d cables: %s", len(cables), said)
	}
}

// The last of a room's cables are those of its zones, in their order.
func TestTheZoneOfACable(t *testing.T) {
	r := &Room{Cables: []string{"A", "B", "C", "D"}, Zones: []Zone{{Name: "1", Cables: []string{"B"}}, {Name: "2"},
		{Name: "3", Cables: []string{"C", "D"}}}}
	for i, want := range []string{"", "1", "3", "3"} {
		got := ""
		if z := r.ZoneOf(i); z != nil {
			got = z.Name
		}
		if got != want {
			t.Errorf("cable %d lies in %q, want %q", i, got, want)
		}
	}
}

// A rectangle 600 mm wide across corners of 90, 60 and 120 degrees: the ends of its back lie on
// both walls, half its width over the sine of half the angle from the corner.
func TestThingsAcrossACorner(t *testing.T) {
	for _, degrees := range []float64{60, 90, 120} {
		half := degrees / 2 * math.Pi / 180
		sin, cos := math.Sincos(2 * half)
		c := cornered{u: plane.Pt(1, 0), back: plane.Pt(cos, sin)}
		s := c.diagonal(size{width: 600, depth: 200}, 0)
		reach := 300 / math.Sin(half)
		near(t, "along the wall", s.outline[1].X, reach, 1e-6)
		near(t, "on the wall", s.outline[1].Y, 0, 1e-6)
		near(t, "up the other", s.outline[0].Dist(plane.Pt(0, 0)), reach, 1e-6)
		near(t, "the back", s.back.Length(), 600, 1e-6)
		near(t, "deep", s.outline[2].Dist(s.outline[1]), 200, 1e-6)
		off := c.diagonal(size{width: 600, depth: 200}, 50)
		near(t, "off the wall", off.outline[1].Y, 50, 1e-6)
		near(t, "off the other", c.back.Cross(off.outline[0])*-1, 50, 1e-6)
	}
}

// A curved wall in sides: a length along it lies on the side that has it, and what is left of
// it there; so on the last wall of a room as on any other.
func TestLengthsAlongACurve(t *testing.T) {
	for _, wall := range []string{"B", "D"} {
		r := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \""+wall+"\"\nrise = 400\n")
		first := slices.IndexFunc(r.Walls, func(w Wall) bool { return w.Arc != nil })
		b := r.baseOf(first)
		last := first
		for last+1 < len(r.Walls) && r.Walls[last+1].Arc != nil {
			last++
		}
		if b.wall != first || b.line.A != r.Walls[first].A || b.line.B != r.Walls[last].B || !b.hollow {
			t.Errorf("wall %s: %+v", wall, b)
		}
		if again := r.baseOf(last); again.wall != first || again.line != b.line {
			t.Errorf("wall %s by its last side: %+v", wall, again)
		}
		for k := first; k <= last; k++ {
			at := b.along(r.Walls[k].A) + 1
			if side, rest := r.alongCurve(last, at); side != k || math.Abs(rest-1) > 1e-6 {
				t.Errorf("wall %s, side %d: %d and %g", wall, k, side, rest)
			}
		}
		if side, rest := r.alongCurve(first, -5); side != first || rest != 0 {
			t.Errorf("before it: %d and %g", side, rest)
		}
		if side, rest := r.alongCurve(first, 1e6); side != last || rest != r.Walls[last].Length() {
			t.Errorf("beyond it: %d and %g", side, rest)
		}
	}
}

// 96 ohms at 600 W are 240 V; 15 ohms at 600 W no voltage that is usual.
func TestVoltsThatFitALabel(t *testing.T) {
	for _, k := range []struct{ ohms, watts, want float64 }{{96, 600, 240}, {24, 600, 120}, {15, 600, 0}, {96 * 1.02,
		600, 240}, {96 * 1.045, 600, 0}} {
		if got := (&Cable{Ohms: k.ohms, Watts: k.watts}).voltsThatFit(); got != k.want {
			t.Errorf("%g ohms and %g W: %g V, want %g", k.ohms, k.watts, got, k.want)
		}
	}
}

// A remark after two strokes goes, but not what stands in quotes or a list.
func TestWhatOtherNotationsEndWith(t *testing.T) {
	for typed, want := range map[string]string{"30 // mm": "30", "30;": "30", "30, ": "30", `"a//b"`: `"a//b"`,
		"'a//b'": "'a//b'", "[1, 2] // x": "[1, 2] // x", "//x": ""} {
		if got := withoutTail(typed); got != want {
			t.Errorf("%q: %q, want %q", typed, got, want)
		}
	}
}

// The middle of a box is told where a box is meant, and nowhere else.
func TestCentreOfABox(t *testing.T) {
	rd := &reader{}
	for _, k := range []struct {
		name, path string
		want       bool
	}{{"centre", "room.thermostat", true}, {"center", "room.thermostat", true}, {"centre", "room.fixture", false},
		{"middle", "room.thermostat", false}} {
		if got := strings.HasPrefix(rd.inOtherWords(k.name, k.path), "write from: of a box"); got != k.want {
			t.Errorf("%s in %s: %v", k.name, k.path, got)
		}
	}
}

// Cable that comes fixed to a mat is none of this program's, which is said where a job asks for it.
func TestMatsAreOutOfScope(t *testing.T) {
	_, report := Read("job.toml", []byte("units = \"mm\"\n[[heating_mat]]\nlength = \"5 m\"\n"), nil)
	for _, d := range report.Diagnostics() {
		if strings.Contains(d.Message, `unknown key "heating_mat"`) {
			if !strings.Contains(d.Hint, "out of scope") || d.Span.Start != 15 {
				t.Errorf("at %d: %s", d.Span.Start, d.Hint)
			}
			return
		}
	}
	t.Errorf("not said: %v", report.Diagnostics())
}

// Sides that only touch, at the end of either, do not cross.
func TestSidesThatTouch(t *testing.T) {
	r := &Room{Outline: plane.Ring{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 10}, {X: 0, Y: 10}}}
	for _, k := range []struct {
		at   plane.Point
		want bool
	}{{plane.Pt(5, 5), true}, {plane.Pt(0, 0), false}, {plane.Pt(10, 0), false}, {plane.Pt(10, 10), false},
		{plane.Pt(0, 10), false}} {
		if got := r.crossing(plane.Clash{I: 0, J: 2, At: k.at}); got != k.want {
			t.Errorf("at %v: %v", k.at, got)
		}
	}
}

// Two niches in one wall: the walls come out lettered one after the other.
func TestTwoNichesInAWall(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.niche]]\nwall = \"A\"\nfrom = 300\nwidth = 500\ndepth = 400\n"+
		"[[room.niche]]\nwall = \"A\"\nfrom = 1500\nwidth = 600\ndepth = 300\n")
	var letters []string
	for _, w := range r.Walls {
		letters = append(letters, w.Letter)
	}
	if len(letters) != 12 || len(slices.Compact(slices.Sorted(slices.Values(letters)))) != 12 {
		t.Errorf("%v", letters)
	}
	want := 3000*2000 + 500*400 + 600*300.0
	near(t, "floor", r.Outline.Area(), want, 1e-6)
	for i := 1; i <= 8; i++ {
		if !slices.Contains(letters, fmt.Sprintf("A.%d", i)) {
			t.Errorf("no wall A.%d of %v", i, letters)
		}
	}
}
