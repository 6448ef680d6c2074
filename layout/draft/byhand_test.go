package draft

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/plane"
)

func same(a, b []plane.Point) bool {
	return slices.EqualFunc(a, b, func(p, q plane.Point) bool { return p.Dist(q) < 0.01 })
}

func box(x0, y0, x1, y1 float64) plane.Ring {
	return plane.Rectangle(plane.Pt(x0, y0), plane.Pt(x1, y1))
}

// Where a document breaks off, counted in lines and letters.
func TestWhereADocumentIsBroken(t *testing.T) {
	var into map[string]int
	for text, want := range map[string][2]int{"{]": {1, 2}, "{\n ]": {2, 2}, "{\"a\":\n\n   x}": {3, 4},
		"{\"a\": \"x\"}": {1, 9}, "\ufeff{]": {1, 2}, "": {1, 1}} {
		if err := parseJSON([]byte(text), &into); err == nil || err.Line != want[0] || err.Column != want[1] {
			t.Errorf("%q: %+v, want %v", text, err, want)
		}
	}
	if err := parseJSON([]byte(`{"a": 1}`), &into); err != nil || into["a"] != 1 {
		t.Errorf("%v", err)
	}
}

// A file of no known ending is told by what it says: GeoJSON has a type and no walls.
func TestReadersByContent(t *testing.T) {
	for text, want := range map[string]string{"{}": "room scan", `{"walls": []}`: "room scan",
		`{"type": "Polygon"}`: "GeoJSON", `{"type": "x", "walls": []}`: "room scan", `{"type": "Polygon",`: "room scan",
		"\ufeff\n {\"type\": \"x\"}": "GeoJSON", "x": "", "": ""} {
		if _, kind := readerOf("file", []byte(text)); kind != want {
			t.Errorf("%q: %q, want %q", text, kind, want)
		}
	}
}

// Two corners up to 8 mm apart are one, and one up to 3 mm off its neighbours' line is none.
func TestCornersThatAreNone(t *testing.T) {
	for _, k := range []struct {
		ring, want []plane.Point
		left       int
	}{
		{box(0, 0, 900, 600), box(0, 0, 900, 600), 0},
		{hand.Points(0, 0, 900, 0, 900, 8, 900, 600, 0, 600), box(0, 0, 900, 600), 1},
		{hand.Points(0, 0, 900, 0, 905, 9, 900, 600, 0, 600), hand.Points(0, 0, 900, 0, 905, 9, 900, 600, 0, 600), 0},
		{hand.Points(0, 0, 900, 0, 900, 600, 0, 600, 0, 8), box(0, 0, 900, 600), 1},
		{hand.Points(0, 0, 900, 0, 900, 600, 0, 600, 0, 0), box(0, 0, 900, 600), 1},
		{hand.Points(0, 0, 450, 3, 900, 0, 900, 600, 0, 600), box(0, 0, 900, 600), 1},
		{hand.Points(0, 0, 450, 3.1, 900, 0, 900, 600, 0, 600), hand.Points(0, 0, 450, 3.1, 900, 0, 900, 600, 0, 600),
			0},
		{hand.Points(450, 0, 900, 0, 900, 600, 0, 600, 0, 0), hand.Points(900, 0, 900, 600, 0, 600, 0, 0), 1},
		{hand.Points(0, 0, 900, 0, 450, 1), hand.Points(0, 0, 900, 0, 450, 1), 0}, // three corners stay
		{hand.Points(0, 0, 900, 0, 908, 0, 900, 600, 0, 600), box(0, 0, 900, 600), 1},
		{hand.Points(0, 0, 900, 0, 900, 600, 0, 600, -8, 0), box(0, 0, 900, 600), 1},
		{hand.Points(5, 5, 5, 5, 5, 5), hand.Points(5, 5), 2},
		{hand.Points(0, 0, 0, 600, 900, 600, 900, 0), hand.Points(900, 0, 900, 600, 0, 600, 0, 0), 0},
	} {
		got, left := cleaned(k.ring)
		if !same(got, k.want) || left != k.left {
			t.Errorf("%v: %v and %d, want %v and %d", k.ring, got, left, k.want, k.left)
		}
	}
}

func TestOutlinesThatAreNoRooms(t *testing.T) {
	many := func(n int) (out plane.Ring) {
		for i := range n {
			s, c := plane.Sincos(2 * math.Pi * float64(i) / float64(n))
			out = append(out, plane.Pt(1000*c, 1000*s))
		}
		return out
	}
	for _, k := range []struct {
		ring plane.Ring
		says string
	}{
		{box(0, 0, 1000, 1000), ""}, {box(0, 0, 400, 250), ""}, {box(0, 0, 400, 249), "would be 400 mm by 249 mm"},
		{box(0, 0, 1e5, 1e5), ""}, {box(0, 0, 1e5+1, 1000), "would be 100.00 by 1.00 m"}, {box(0, 0, 1000, 1e5+1),
			"would be 1.00 by 100.00 m"},
		{hand.Points(0, 0, 1000, 0, 0, 1000), ""},
		{hand.Points(0, 0, 1000, 0), "2 corners"}, {many(400), ""}, {many(401), "401 corners"},
		{hand.Points(0, 0, 1000, 1000, 1000, 0, 0, 1000), "walls 1 and 3 cross or touch at 500 mm, 500 mm"},
		{hand.Points(0, 0, 2e12, 0, 0, 5), "no place"}, {hand.Points(0, 0, 0, -2e12, 9, 5), "no place"},
		{plane.Ring{{}, {X: math.NaN()}, {Y: 5}}, "no place"}, {plane.Ring{{}, {Y: math.Inf(1)}, {Y: 5}}, "no place"},
	} {
		err := check(k.ring, 7)
		if (err == nil) != (k.says == "") || err != nil && (!strings.Contains(err.Message, k.says) || err.Line != 7) {
			t.Errorf("%.80v: %v, want %q", k.ring, err, k.says)
		}
	}
}

// A room is turned by no more than 45 degrees for its longest side to run with the sheet.
func TestTurningARoom(t *testing.T) {
	for turned, want := range map[float64]float64{0: 0, 10: -10, 44: -44, 46: 44, 90: 0, 100: -10, -10: 10, 180: 0,
		170: 10} {
		ring := plane.Ring(box(0, 0, 900, 600))
		for i := range ring {
			ring[i] = ring[i].Rotate(plane.Radians(turned))
		}
		if got := plane.Degrees(squared(ring)); math.Abs(got-want) > 1e-9 {
			t.Errorf("a room at %g°: turned by %g, want %g", turned, got, want)
		}
		f := standing(ring, squared(ring))
		if b := f.ring(ring).Bounds(); b.Min.Norm() > 1e-9 || math.Abs(b.W()*b.H()-900*600) > 1e-6 {
			t.Errorf("a room at %g° stands at %+v", turned, b)
		}
	}
}

// Of the sides within so far and at that slope the nearest is taken; the place is the
// stretch's own from the side's beginning.
func TestTheSideAStretchLiesAlong(t *testing.T) {
	ring := box(0, 0, 2000, 1000)
	for _, k := range []struct {
		s    plane.Segment
		wall int
		from float64
		ok   bool
	}{
		{hand.Segment(300, 0, 1100, 0), 0, 300, true}, {hand.Segment(1100, 100, 300, 100), 0, 300, true},
		{hand.Segment(300, 101, 1100, 101), 0, 0, false}, {hand.Segment(1990, 200, 1990, 700), 1, 200, true},
		{hand.Segment(1990, 700, 1990, 200), 1, 200, true}, {hand.Segment(10, 900, 10, 400), 3, 100, true},
		{hand.Segment(1500, 990, 500, 990), 2, 500, true}, {hand.Segment(300, 20, 1100, 90), 0, 300 - 1.53, true},
		{hand.Segment(300, 0, 1100, 160), 0, 0, false}, {hand.Segment(1000, 0, 1000, 100), 0, 0, false},
	} {
		wall, from, ok := beside(ring, k.s, 100, 0.17)
		if ok != k.ok || ok && (wall != k.wall || math.Abs(from-k.from) > 0.01) {
			t.Errorf("%v: wall %d from %g, %v; want %d, %g, %v", k.s, wall, from, ok, k.wall, k.from, k.ok)
		}
	}
	for _, k := range []struct{ from, width, a, n float64 }{{100, 800, 100, 800}, {-50, 800, 0, 750}, {1500, 800,
		1500, 500},
		{-50, 9000, 0, 2000}} {
		if a, n := within(ring, 0, k.from, k.width); a != k.a || n != k.n {
			t.Errorf("%g and %g: %g and %g", k.from, k.width, a, n)
		}
	}
}

// pairs are group codes and values, each on its own line.
func pairs(s string) []byte { return []byte(strings.ReplaceAll(s, " ", "\n") + "\n") }

func TestGroupsOfADrawing(t *testing.T) {
	for text, says := range map[string]string{"0 EOF": "", "999 note 0 EOF": "",
		"1 x": "does not begin with group code 0",
		"":    "does not begin", "0 SECTION xx 2": `"xx" is no group code`} {
		if _, err := readGroups(pairs(text)); (err == nil) != (says == "") || err != nil &&
			!strings.Contains(err.Message, says) {
			t.Errorf("%q: %v", text, err)
		}
	}
	got, err := readGroups([]byte("\ufeff  0\r\n EOF \r\n  70\r\n 1\r\n\r\n\r\n"))
	if err != nil || !slices.Equal(got, []group{{0, "EOF", 2}, {70, "1", 4}}) {
		t.Errorf("%v, %v", got, err)
	}
	if got := shortened(" " + strings.Repeat("é", 31)); got != strings.Repeat("é", 30)+"…" {
		t.Error(got)
	}
	if got := shortened(strings.Repeat("é", 30)); got != strings.Repeat("é", 30) {
		t.Error(got)
	}
	for text, binary := range map[string]bool{"xx Binary DXF": true, "0\nEOF\n\x00": true, "0\nEOF\n": false} {
		if _, err := readDXF([]byte(text)); binary != (err != nil && strings.Contains(err.Message, "binary")) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// Of a drawing's things, by release 2000 and by release 12 of its form: what is on paper or
// outside the section of things is none.
func TestThingsOfADrawing(t *testing.T) {
	d, err := readDXF(pairs("0 SECTION 2 HEADER 9 $OTHER 70 3 9 $INSUNITS 70 4 9 $LAST 70 5 0 ENDSEC " +
		"0 SECTION 2 BLOCKS 0 LINE 8 B 10 0 20 0 11 1 21 1 0 ENDSEC 0 SECTION 2 ENTITIES " +
		"0 LINE 8 W 10 1 20 2 11 3 21 4 0 LINE 8 P 67 1 10 0 20 0 11 1 21 1 " +
		"0 CIRCLE 8 C 10 5 20 6 40 7 0 TEXT 8 T 1 x 0 TEXT 8 T 1 y " +
		"0 LWPOLYLINE 8 L 70 1 42 0.5 10 0 20 0 10 3 20 0 10 3 20 2 " +
		"0 LWPOLYLINE 8 O 70 128 10 0 20 0 10 3 20 0 10 3 20 2 10 7 " +
		"0 POLYLINE 8 R 70 1 0 VERTEX 8 R 10 0 20 0 0 VERTEX 8 R 10 4 20 0 " +
		"0 VERTEX 8 R 10 4 20 x 0 VERTEX 8 R 10 4 20 5 0 SEQEND " +
		"0 POLYLINE 8 Q 67 1 0 VERTEX 10 0 20 0 0 SEQEND " +
		"0 ARC 8 A 10 0 20 0 40 100 50 0 51 90 0 ENDSEC 0 LINE 8 Z 10 0 20 0 11 1 21 1 0 EOF"))
	if err != nil {
		t.Fatal(err)
	}
	if d.insunits != 4 || d.unread["TEXT"] != 2 || d.unread["SEQEND"] != 2 || len(d.shapes) != 6 {
		t.Errorf("units %d, unread %v, %d shapes", d.insunits, d.unread, len(d.shapes))
	}
	for i, want := range []shape{{layer: "W", line: hand.Points(1, 2, 3, 4)},
		{layer: "C", line: hand.Points(5, 6), radius: 7, closed: true},
		{layer: "L", line: hand.Points(0, 0, 3, 0, 3, 2), closed: true}, {layer: "O", line: hand.Points(0, 0, 3, 0, 3,
			2, 7, 0)},
		{layer: "R", line: hand.Points(0, 0, 4, 0, 4, 5), closed: true}} {
		s := d.shapes[i]
		if s.layer != want.layer || s.radius != want.radius || s.closed != want.closed || !same(s.line, want.line) {
			t.Errorf("%+v, want %+v", s, want)
		}
	}
	if k := d.shapes[5].knots; k[0].at != d.shapes[5].line[0] || math.Abs(k[0].rise-100*(1-math.Sqrt2/2)) > 1e-9 {
		t.Errorf("the arc's corners %v", k) // a quarter of a circle stands off by r (1 - cos 45°)
	}
	// one without corners is none, and one takes no layer from what is before it; a single corner stays to be said
	d, err = readDXF(pairs("0 SECTION 2 ENTITIES 0 LWPOLYLINE 8 L 0 POLYLINE 8 R 0 SEQEND 0 LINE 10 0 20 0 11 1 21 " +
		"1 8 Z " +
		"0 POLYLINE 0 VERTEX 10 3 20 4 0 SEQEND 0 EOF"))
	if err != nil || len(d.shapes) != 2 || d.shapes[1].layer != "" || !same(d.shapes[1].line, hand.Points(3, 4)) {
		t.Errorf("%+v, %v", d, err)
	}
	// what has a figure that is none is refused, and not taken
	d = drawn()
	if err := d.entity(group{0, "LINE", 7}, []group{{10, "x", 9}}); err == nil || err.Line != 9 || d.shapes != nil {
		t.Errorf("%v, %+v", err, d.shapes)
	}
}

// The arc of a drawing of one thing each.
func TestArcOfADrawing(t *testing.T) {
	d, err := readDXF(pairs("0 SECTION 2 ENTITIES 0 ARC 8 A 10 0 20 0 40 100 50 0 51 90 0 ENDSEC 0 EOF"))
	if err != nil || len(d.shapes) != 1 {
		t.Fatalf("%+v, %v", d, err)
	}
	a := d.shapes[0].line
	if a[0].Dist(plane.Pt(100, 0)) > 0.01 || a[len(a)-1].Dist(plane.Pt(0, 100)) > 0.01 || d.shapes[0].closed {
		t.Errorf("the arc %v", a)
	}
}

// A side drawn for an arc stands off it by 0.2 % of its radius at most: cos of half its angle
// is 0.998, its angle 7.247°. A half turn takes 25 of them, a quarter 13, a whole turn 50.
func TestSidesOfAnArc(t *testing.T) {
	for degrees, n := range map[float64]int{0: 1, 7: 1, 7.3: 2, 90: 13, 180: 25, 360: 50} {
		if got := sides(plane.Radians(degrees)); got != n {
			t.Errorf("%g°: %d sides, want %d", degrees, got, n)
		}
	}
	for _, k := range []struct {
		from, to float64 // degrees
		n        int
		end      plane.Point
	}{{0, 90, 14, plane.Pt(10, 110)}, {270, 0, 14, plane.Pt(110, 10)}, {0, 0, 51, plane.Pt(110, 10)}, {90, 270, 26,
		plane.Pt(10, -90)},
		{350, 10, 4, plane.Pt(10+100*math.Cos(math.Pi/18), 10+100*math.Sin(math.Pi/18))}} {
		got := arc(plane.Pt(10, 10), 100, plane.Radians(k.from), plane.Radians(k.to))
		if len(got) != k.n || got[len(got)-1].Dist(k.end) > 1e-6 {
			t.Errorf("from %g to %g°: %d corners to %v, want %d to %v", k.from, k.to, len(got), got[len(got)-1], k.n,
				k.end)
		}
		for _, p := range got {
			if math.Abs(p.Dist(plane.Pt(10, 10))-100) > 1e-6 {
				t.Errorf("%v is off the circle", p)
			}
		}
	}
	// a bulge of 1 is a half circle, to the right of the way where positive
	for bulge, apex := range map[float64]plane.Point{1: plane.Pt(100, -100), -1: plane.Pt(100, 100),
		math.Sqrt2 - 1: plane.Pt(100, -100*(math.Sqrt2-1))} {
		got := bent(plane.Pt(0, 0), plane.Pt(200, 0), bulge)
		near := math.Inf(1)
		for _, p := range got {
			near = min(near, p.Dist(apex))
		}
		n := sides(4*math.Atan(math.Abs(bulge))) - 1
		if len(got) != n || near > 13 {
			t.Errorf("bulge %g: %d corners, the nearest %g mm off its top", bulge, len(got), near)
		}
		if got[0].X < 0 || got[0].X > 30 {
			t.Errorf("bulge %g: begins at %v", bulge, got[0])
		}
	}
	if bent(plane.Pt(1, 1), plane.Pt(1, 1), 1) != nil || bent(plane.Pt(1, 1), plane.Pt(9, 1), 1e-8) != nil {
		t.Error("nothing is bent there")
	}
	corners := []vertex{{plane.Pt(0, 0), 0}, {plane.Pt(200, 0), 0}, {plane.Pt(200, 200), 1}}
	if got := vertices(corners, false); len(got) != 3 {
		t.Errorf("an open line goes on behind its end: %v", got)
	}
	if got := vertices(corners, true); len(got) != 3+24 {
		t.Errorf("%d corners with the half circle that closes it, want 27", len(got))
	}
	corners[0].bulge, corners[2].bulge = 1, 0
	if got := vertices(corners, true); len(got) != 3+24 || got[25] != plane.Pt(200, 0) {
		t.Errorf("the bend lies elsewhere: %v", got)
	}
}

// drawn is a drawing of shapes, each at a line of its own, their sides straight unless they say.
func drawn(shapes ...shape) *dxf {
	for i := range shapes {
		if shapes[i].knots == nil {
			for _, p := range shapes[i].line {
				shapes[i].knots = append(shapes[i].knots, knot{at: p})
			}
		}
		shapes[i].at = i + 1
		if shapes[i].layer == "" {
			shapes[i].layer = "W"
		}
	}
	return &dxf{shapes: shapes, unread: map[string]int{}}
}

// Ends meet within a 2000th of the drawing's size: of 2 m, 1 mm.
func TestLinesAreJoined(t *testing.T) {
	for _, k := range []struct {
		name   string
		shapes []shape
		closed int
		open   int
	}{
		{"four lines, one drawn backwards", []shape{{line: hand.Points(0, 0, 2000, 0)}, {line: hand.Points(2000, 1000,
			2000, 0)},
			{line: hand.Points(2000, 1000, 0, 1000)}, {line: hand.Points(0, 1000, 0, 0)}}, 1, 0},
		{"in any order", []shape{{line: hand.Points(2000, 1000, 0, 1000)}, {line: hand.Points(0, 0, 2000, 0)},
			{line: hand.Points(0, 1000, 0, 0)}, {line: hand.Points(2000, 0, 2000, 1000)}}, 1, 0},
		{"0.9 mm apart", []shape{{line: hand.Points(0, 0, 2000, 0)}, {line: hand.Points(2000, 0.9, 2000, 1000, 0,
			1000, 0, 0.9)}}, 1, 0},
		{"1 mm apart", []shape{{line: hand.Points(0, 0, 2000, 0)}, {line: hand.Points(2000, 1, 2000, 1000, 0,
			1000, 0, 1)}}, 0, 2},
		{"open, its ends 1 mm apart", []shape{{line: hand.Points(0, 0, 2000, 0, 2000, 1000, 0, 1)}}, 0, 1},
		{"closed by itself, a line from its corner", []shape{{line: hand.Points(0, 0, 2000, 0, 2000, 1000, 0, 0.5)},
			{line: hand.Points(0, 0.5, 0, 900)}}, 1, 1},
		{"1.1 mm apart", []shape{{line: hand.Points(0, 0, 2000, 0)}, {line: hand.Points(2000, 1.1, 2000, 1000, 0,
			1000, 0, 1.1)}}, 0, 2},
		{"on two layers", []shape{{line: hand.Points(0, 0, 2000, 0)}, {layer: "V", line: hand.Points(2000, 0, 2000,
			1000, 0, 1000,
			0, 0)}}, 0, 2},
		{"open, its ends the same", []shape{{line: hand.Points(0, 0, 2000, 0, 2000, 1000, 0, 0.5)}}, 1, 0},
		{"two sides there and back", []shape{{line: hand.Points(0, 0, 2000, 0, 0, 0)}}, 0, 1},
		{"two rooms", []shape{{line: hand.Points(0, 0, 2000, 0, 2000, 1000)}, {line: hand.Points(3000, 0, 4000, 0,
			4000, 1000)},
			{line: hand.Points(2000, 1000, 0, 0)}, {line: hand.Points(4000, 1000, 3000, 0)}}, 2, 0},
		{"closed", []shape{{line: box(0, 0, 2000, 1000), closed: true}}, 1, 0},
		{"a point", []shape{{line: hand.Points(0, 0)}, {line: box(0, 0, 2000, 1000), closed: true}}, 1, 1},
	} {
		d := drawn(k.shapes...)
		d.close()
		closed, open := 0, 0
		for _, s := range d.shapes {
			if s.closed {
				closed++
				if strings.HasPrefix(k.name, "four") && len(s.line) != 4 {
					t.Errorf("%s: %v", k.name, s.line)
				}
				if area := s.line.Area(); k.name != "two rooms" && area != 2e6 && math.Abs(area-2e6) > 3000 &&
					area != 1e6 &&
					math.Abs(area-1e6) > 1000 {
					t.Errorf("%s: %v", k.name, s.line)
				}
			} else {
				open++
			}
		}
		if closed != k.closed || open != k.open {
			t.Errorf("%s: %d closed, %d open; want %d and %d", k.name, closed, open, k.closed, k.open)
		}
	}
	d := drawn(shape{line: hand.Points(0, 0, 2, 0, 2, 0.004, 2, 1, 0, 1), closed: true},
		shape{line: hand.Points(1, 0.5), radius: 0.1, closed: true},
		shape{line: hand.Points(0, 0, 1, 0, 1.5, 0, 2, 0), knots: []knot{{plane.Pt(0, 0), 0.25}}})
	if got := d.across(); got != "2 by 1" {
		t.Error(got)
	}
	d.scale(1000)
	if s := d.shapes; !same(s[0].line, box(0, 0, 2000, 1000)) || s[0].dropped != 1 || s[1].radius != 100 ||
		s[1].line[0] != plane.Pt(1000, 500) || len(s[2].line) != 4 || s[2].knots[0].rise != 250 {
		t.Errorf("%+v", s)
	}
}

// Bent walls stay so where lines are joined: east, and back west along an arc that stands off by 250 mm, drawn
// from its other end.
func TestBentLinesAreJoined(t *testing.T) {
	d := drawn(shape{line: hand.Points(0, 0, 2000, 0, 2000, 1000)}, shape{line: hand.Points(0, 0, 0, 1000, 2000, 1000),
		knots: []knot{{at: plane.Pt(0, 0)}, {plane.Pt(0, 1000), -250}, {at: plane.Pt(2000, 1000)}}})
	d.close()
	want := []knot{{at: plane.Pt(0, 0)}, {at: plane.Pt(2000, 0)}, {plane.Pt(2000, 1000), 250}, {at: plane.Pt(0, 1000)}}
	if s := d.shapes; len(s) != 1 || !s[0].closed || !slices.EqualFunc(s[0].knots, want, sameKnot) ||
		!same(s[0].line, box(0, 0, 2000, 1000)) {
		t.Errorf("%+v", s)
	}
}

// What lies in a room and reaches out of it, and another drawing of its own walls, is no keep-out; what is
// said of curves and of corners left out counts them.
func TestWhatIsSaidOfARoom(t *testing.T) {
	bulge := func(x0, y0, x1, y1, rise float64, n int) shape {
		s := shape{line: box(x0, y0, x1, y1), closed: true, layer: "Fix"}
		for i, p := range s.line {
			k := knot{at: p}
			if i < n {
				k.rise = rise
			}
			s.knots = append(s.knots, k)
		}
		return s
	}
	walls := func(n int) shape {
		s := bulge(0, 0, 3000, 2000, 200, n)
		s.layer = "W"
		return s
	}
	straight := bulge(500, 500, 900, 900, 0, 0)
	for _, k := range []struct {
		name   string
		shapes []shape
		kept   int
		said   string
	}{
		{"bare", []shape{walls(0)}, 0, ""}, {"one curved wall", []shape{walls(1)}, 0, "1 curved wall, by its rise"},
		{"two", []shape{walls(2)}, 0, "2 curved walls, by their rises"},
		{"a corner left out", []shape{{line: box(0, 0, 3000, 2000), closed: true, dropped: 1}}, 0,
			"1 corner that were none, within 3 mm of a straight wall or of another"},
		{"a keep-out", []shape{walls(0), straight}, 1, "1 keep-out in the room of 6.00 m²"},
		{"a curved one", []shape{walls(0), straight, bulge(1500, 500, 1900, 900, 50, 1)}, 2,
			"2 keep-outs in the room of 6.00 m², 1 of them with curved sides, by their rises"},
		{"out through a wall", []shape{walls(0), bulge(2500, 1000, 3300, 1400, 0, 0)}, 0,
			"1 shape on layer Fix: not closed, or in no room"},
		{"the walls once more", []shape{walls(0), bulge(0, 0, 3000, 2000, 0, 0)}, 0,
			"1 shape on layer Fix: not closed, or in no room"},
	} {
		f, err := drawn(k.shapes...).rooms("W", "mm")
		if err != nil || len(f.Rooms) != 1 || len(f.Rooms[0].KeepOuts) != k.kept {
			t.Errorf("%s: %+v, %v", k.name, f, err)
			continue
		}
		f.Took = f.Took[:len(f.Took)-1] // the outline itself
		if got := strings.Join(append(f.Took, f.Dropped...), "; "); got != k.said {
			t.Errorf("%s: %q, want %q", k.name, got, k.said)
		}
	}
	// just half of an outline is not most of it, and a floor of 0.1 m² is one
	d := drawn(shape{line: box(0, 0, 2000, 1000), closed: true}, shape{line: box(0, 0, 1000, 1000), closed: true})
	if got := d.floors(&Found{}, d.shapes); len(got) != 1 || got[0].line.Area() != 2e6 {
		t.Errorf("%+v", got)
	}
	d = drawn(shape{line: box(0, 0, 400, 250), closed: true})
	if got := d.floors(&Found{}, d.shapes); len(got) != 1 {
		t.Errorf("%+v", got)
	}
}

// Of outlines on the rooms' layer: what runs round most of another is a wall's outer face,
// what lies in a room is kept off, what is under 0.1 m² no room.
func TestOutlinesOfADrawing(t *testing.T) {
	closed := func(r plane.Ring) shape { return shape{line: r, closed: true} }
	d := drawn(closed(box(-100, -100, 3100, 2100)), closed(box(0, 0, 3000, 2000)), closed(box(500, 500, 1500, 1000)),
		closed(box(5000, 0, 5316, 316)), closed(box(6000, 0, 6400, 300)), shape{line: hand.Points(2000, 1000),
			radius: 90, closed: true},
		shape{layer: "Fix", line: box(100, 100, 700, 400), closed: true}, shape{layer: "FIX", line: hand.Points(9000,
			9000, 9100, 9000)},
		shape{layer: "Dot", line: box(10, 10, 20, 20), closed: true}, shape{layer: "Fix", line: box(2900, 1000, 3300,
			1400), closed: true})
	d.shapes = append(d.shapes, shape{layer: "Open", at: 90, line: hand.Points(100, 1200, 700, 1200, 700, 1800)},
		shape{layer: "Hole", at: 91, line: hand.Points(8000, 8000), radius: 50, closed: true})
	d.unread["TEXT"] = 1
	f, err := d.rooms("W", "mm")
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Rooms) != 2 || f.Rooms[0].Outline.Area() != 6e6 || f.Rooms[1].Outline.Area() != 120_000 {
		t.Fatalf("%+v", f.Rooms)
	}
	var kept []string
	for _, k := range f.Rooms[0].KeepOuts {
		kept = append(kept, fmt.Sprint(k.Name, " ", k.Outline.Area(), " ", k.Diameter))
	}
	if want := []string{"keep-out 500000 0", "keep-out 0 180", "fix 180000 0"}; !slices.Equal(kept, want) {
		t.Errorf("%q, want %q", kept, want)
	}
	if len(f.Rooms[1].KeepOuts) != 0 {
		t.Errorf("%+v", f.Rooms[1].KeepOuts)
	}
	said := strings.Join(f.Dropped, "\n") + "\n" + strings.Join(f.Took, "\n")
	for _, want := range []string{"an outline of 7.04 m² on layer W that runs round another", "1 shape on layer FIX",
		"1 shape on layer W:",
		"1 shape on layer Dot", "1 shape on layer Open", "1 shape on layer Hole", "1 shape on layer Fix",
		"1 thing of kind TEXT", "3 keep-outs in the room of 6.00 m²",
		"2 closed outlines on layer W, its numbers read as mm"} {
		if !strings.Contains(said, want) {
			t.Errorf("nothing is said of %q in\n%s", want, said)
		}
	}
	// an outline round less than half of what it has is a room with a room in it
	d = drawn(closed(box(0, 0, 3000, 2000)), closed(box(500, 500, 2400, 2000)))
	if f, _ := d.rooms("W", "mm"); len(f.Rooms) != 1 || len(f.Rooms[0].KeepOuts) != 1 {
		t.Errorf("%+v", f.Rooms)
	}
	var many []shape
	for i := range mostRooms + 1 {
		many = append(many, closed(box(5000*float64(i), 0, 5000*float64(i)+1000, 1000)))
	}
	if _, err := drawn(many...).rooms("W", "mm"); err == nil || !strings.Contains(err.Message,
		"41 rooms on layer W; 40") {
		t.Errorf("%v", err)
	}
	if f, err := drawn(many[1:]...).rooms("W", "mm"); err != nil || len(f.Rooms) != mostRooms {
		t.Errorf("%v", err)
	}
}

func TestTheLayerOfRooms(t *testing.T) {
	on := func(layer string, r plane.Ring) shape { return shape{layer: layer, line: r, closed: true} }
	for _, k := range []struct {
		name, asked string
		shapes      []shape
		want, says  string
	}{
		{"the only one", "", []shape{on("W", box(0, 0, 3000, 2000)), on("F", box(0, 0, 300, 300))}, "W", ""},
		{"of two, what lies in it", "", []shape{on("A", box(0, 0, 600, 600)), on("W", box(0, 0, 3000, 2000))}, "W", ""},
		{"asked for in other letters", "w", []shape{on("V", box(5000, 0, 8000, 2000)), on("W", box(0, 0, 3000,
			2000))}, "W", ""},
		{"asked for and not there", "X", []shape{on("W", box(0, 0, 3000, 2000))}, "",
			"no closed outline of a room's size is on layer X"},
		{"two", "", []shape{on("V", box(5000, 0, 8000, 2000)), on("W", box(0, 0, 3000, 2000)), on("W", box(0, 0, 1000,
			2000))}, "",
			"may be on 2 layers: V (1 outline, the largest 3.00 by 2.00 m), W (2 outlines, the " +
				"largest 3.00 by 2.00 m)"},
		{"none", "", []shape{on("W", box(0, 0, 300, 200)), {line: box(0, 0, 3000, 2000)}}, "",
			"no closed outline of a room's size is in"},
		{"just one", "", []shape{on("W", box(0, 0, 400, 250))}, "W", ""},
	} {
		got, err := drawn(k.shapes...).roomLayer(k.asked)
		if got != k.want || (err == nil) != (k.says == "") || err != nil && !strings.Contains(err.Message, k.says) {
			t.Errorf("%s: %q, %v", k.name, got, err)
		}
		if k.name == "two" && (!slices.Equal(err.Layers, []string{"V", "W"}) || !strings.Contains(err.Hint,
			"--layer V")) {
			t.Errorf("%+v", err)
		}
	}
	for s, want := range map[string]string{"A": "A", "A B": `"A B"`, "A'": `"A'"`} {
		if got := quoted(s); got != want {
			t.Errorf("%s: %s", s, got)
		}
	}
	for _, k := range []struct {
		a, b plane.Ring
		want bool
	}{{box(0, 0, 9, 9), box(0, 0, 9, 9), true}, {box(-8, 0, 9, 9), box(0, 0, 99, 99), true}, {box(-9, 0, 9, 9), box(0,
		0, 99, 99), false},
		{nil, box(0, 0, 9, 9), false}, {hand.Points(5, 5), box(0, 0, 9, 9), true}} {
		if got := inside(k.a, k.b); got != k.want {
			t.Errorf("%v in %v: %v", k.a, k.b, got)
		}
	}
}

// Positions at most 180 and 89 degrees; a figure more is a height.
func TestPositions(t *testing.T) {
	for _, k := range []struct {
		at    []float64
		scale float64
		says  string
	}{{[]float64{180, 0}, 0, ""}, {[]float64{180.1, 0}, 0, "no longitude"}, {[]float64{-181, 0}, 0, "no longitude"},
		{[]float64{0, 89}, 0, ""}, {[]float64{0, 89.1}, 0, "no longitude"}, {[]float64{5}, 0, "1 figures"},
		{[]float64{500, 600, 7}, 10, ""}} {
		g := geo{scale: k.scale}
		var origin *plane.Point
		ring, err := g.flat([][]float64{k.at}, &origin)
		if (err == nil) != (k.says == "") || err != nil && !strings.Contains(err.Message, k.says) {
			t.Errorf("%v: %v", k.at, err)
		}
		if err != nil && err.Line != 0 {
			t.Errorf("%v: at line %d of a file that is no lines", k.at, err.Line)
		}
		if k.scale > 0 && !same(ring, hand.Points(5000, 6000)) {
			t.Errorf("%v", ring)
		}
	}
}

// A polygon repeats its first corner; more that are none are said, and its holes are kept off.
func TestPolygons(t *testing.T) {
	read := func(text string, o Options) *Found {
		t.Helper()
		f, err := readGeo([]byte(text), o)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	f := read(`{"type": "FeatureCollection", "features": [{"type": "Feature", 
		"properties": {"name": "", "ref": "Hall"}, "geometry":
		{"type": "MultiPolygon", "coordinates": [[[[0,0],[3,0],[3,2],[0,2],[0,0]], [[1,1],[1,1.5],[1.5,1.5],[1,1]],
			[[1,1],[1,1.001],[1,1]]],
		[[[9,0],[12,0],[12,1],[12,2],[9,2],[9,0]]]]}}, {"type": "Feature"}, {"type": "Point"}]}`, Options{Unit: "m"})
	if len(f.Rooms) != 2 || f.Rooms[0].Name != "Hall" || len(f.Rooms[0].KeepOuts) != 1 ||
		len(f.Rooms[1].KeepOuts) != 0 {
		t.Fatalf("%+v", f.Rooms)
	}
	if f.Rooms[0].KeepOuts[0].Outline.Area() != 125_000 || !same(f.Rooms[1].Outline, box(0, 0, 3000, 2000)) {
		t.Errorf("%+v", f.Rooms)
	}
	if got, want := strings.Join(f.Dropped, "; "),
		"1 corner of Hall that were none; a Point, which is no outline"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := f.Took[0], "a polygon of Hall of 6.00 m², with 1 hole"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	one := `{"type": "Polygon", "coordinates": [[[0,0],[3,0],[3,2],[0,2],[0,0]]]}`
	list := func(n int) string {
		return `{"type": "GeometryCollection", "geometries": [` + strings.TrimSuffix(strings.Repeat(one+",", n),
			",") + `]}`
	}
	if f := read(list(mostRooms), Options{Unit: "m"}); len(f.Rooms) != mostRooms {
		t.Errorf("%d rooms", len(f.Rooms))
	}
	if _, err := readGeo([]byte(list(mostRooms+1)), Options{Unit: "m"}); err == nil || !strings.Contains(err.Message,
		"more than 40") {
		t.Errorf("%v", err)
	}
	deep := func(n int) string {
		return strings.Repeat(`{"type": "GeometryCollection", "geometries": [`, n) + one + strings.Repeat("]}", n)
	}
	if f := read(deep(mostNesting), Options{Unit: "m"}); len(f.Rooms) != 1 {
		t.Errorf("%d rooms", len(f.Rooms))
	}
	if _, err := readGeo([]byte(deep(mostNesting+1)), Options{Unit: "m"}); err == nil || !strings.Contains(err.Message,
		"9 deep") {
		t.Errorf("%v", err)
	}
	if f := read(`{"type": "Polygon", "coordinates": []}`, Options{}); f.Rooms != nil {
		t.Errorf("%+v", f.Rooms)
	}
}

// wallOf is a wall of a scan from one place to another, north of nothing: x east, z south, m.
func wallOf(x0, z0, x1, z1 float64) scanned {
	n := math.Hypot(x1-x0, z1-z0)
	u, v := (x1-x0)/n, (z1-z0)/n
	return scanned{Dimensions: []float64{n, 2.4, 0}, Transform: scanPlace{u, 0, v, 0, 0, 1, 0, 0, -v, 0, u, 0,
		(x0 + x1) / 2, 0, (z0 + z1) / 2, 1}}
}

// thing is a thing of a scan, its front towards the south where angle is 0.
func thing(kind string, x, z, w, d, angle float64) scanned {
	s, c := plane.Sincos(plane.Radians(angle))
	return scanned{Category: json.RawMessage(`"` + kind + `"`), Dimensions: []float64{w, 1, d},
		Transform: scanPlace{c, 0, -s, 0, 0, 1, 0, 0, s, 0, c, 0, x, 0, z, 1}}
}

func TestWallsOfAScan(t *testing.T) {
	around := []scanned{wallOf(0, 0, 3, 0), wallOf(3, 0, 3, -2), wallOf(3, -2, 0, -2), wallOf(0, -2, 0, 0)}
	lying := scanned{Transform: scanPlace{1, 0, 0, 0, 0, 0, -1, 0, 0, 1, 0, 0, 2, 0, 1.5, 1}} // its own y goes north
	if got := lying.floor(100, 400, 7); got != plane.Pt(2100, -1500+400) {
		t.Errorf("on a lying floor: %v", got)
	}
	if s := around[0].stretch(); !same([]plane.Point{s.A, s.B}, hand.Points(0, 0, 3000, 0)) {
		t.Errorf("%v", s)
	}
	for _, k := range []struct {
		name  string
		walls []scanned
		want  plane.Ring
		ok    bool
	}{
		{"all round", around, box(0, 0, 3000, 2000), true},
		{"three", []scanned{wallOf(0, 0, 3, 0), wallOf(3, 0, 3, -2), wallOf(3, -2, 0, 0)}, hand.Points(0, 0, 3000, 0,
			3000, 2000), true},
		{"in another order, one the other way round", []scanned{around[0], around[2], wallOf(3, -2, 3, 0), around[3]},
			box(0, 0, 3000, 2000), true},
		{"each some short", []scanned{wallOf(0.1, 0, 2.8, 0), wallOf(3, -0.2, 3, -1.8), around[2], around[3]}, box(0,
			0, 3000, 2000), true},
		{"a wall and a half lacking", []scanned{around[0], wallOf(3, 0, 3, -1), around[2]}, nil, false},
		{"three, the fourth as a gap", around[:3], nil, false}, {"two", around[:2], nil, false},
		{"three and a stump", append(slices.Clone(around), wallOf(9, 9, 9.005, 9)), box(0, 0, 3000, 2000), true},
		{"beside it another", append(slices.Clone(around), wallOf(9, 9, 9.9, 9)), box(0, 0, 3000, 2000), true},
		{"a gap of 599 mm", []scanned{around[0], around[1], around[2], wallOf(0, -1.401, 0, 0)}, box(0, 0, 3000,
			2000), true},
		{"a gap of 601 mm", []scanned{around[0], around[1], around[2], wallOf(0, -1.399, 0, 0)}, nil, false},
		{"two in one line", []scanned{wallOf(0, 0, 1.5, 0), wallOf(1.7, 0, 3, 0), around[1], around[2], around[3]},
			hand.Points(0, 0, 1500, 0, 1700, 0, 3000, 0, 3000, 2000, 0, 2000), true},
	} {
		got, ok := chained(k.walls)
		if ok != k.ok || !same(got, k.want) {
			t.Errorf("%s: %v, %v; want %v", k.name, got, ok, k.want)
		}
	}
	s := scan{Walls: around, Floors: []scanned{{}, {Transform: around[0].Transform, PolygonCorners: [][]float64{{0, 0,
		0}, {1, 0, 0},
		{1, 0, -1}}}}}
	if ring, how, err := s.outline(); err != nil || how != "the corners of the floor" || !same(ring, hand.Points(1500,
		0, 2500, 0, 2500,
		1000)) {
		t.Errorf("%v, %s, %v", ring, how, err)
	}
	s.Floors[1].PolygonCorners[1] = []float64{1, 0}
	if _, _, err := s.outline(); err == nil || !strings.Contains(err.Message, "2 figures") {
		t.Errorf("%v", err)
	}
	s.Floors[1].PolygonCorners = s.Floors[1].PolygonCorners[:2]
	if _, how, err := s.outline(); err != nil || how != "its walls" {
		t.Errorf("%s, %v", how, err)
	}
	for _, k := range []struct {
		category, want string
	}{{`"sink"`, "sink"}, {`{"toilet": {}}`, "toilet"}, {`{"a": {}, "b": {}}`, ""}, {`{}`, ""}, {`5`, ""}} {
		if got := (&scanned{Category: json.RawMessage(k.category)}).kind(); got != k.want {
			t.Errorf("%s: %q", k.category, got)
		}
	}
	for _, k := range []struct {
		change func(s *scanned)
		want   bool
	}{{func(s *scanned) {}, true}, {func(s *scanned) { s.Transform = s.Transform[:15] }, false},
		{func(s *scanned) { s.Transform[12] = 1e4 }, true}, {func(s *scanned) { s.Transform[12] = 1.001e4 }, false},
		{func(s *scanned) { s.Dimensions[1] = math.NaN() }, false}} {
		w := wallOf(0, 0, 3, 0)
		if k.change(&w); w.sound() != k.want {
			t.Errorf("%+v: sound %v", w, !k.want)
		}
	}
	var p scanPlace
	if err := json.Unmarshal([]byte("[[1,2],[3,4]]"), &p); err != nil || !slices.Equal(p, scanPlace{1, 2, 3, 4}) {
		t.Errorf("%v, %v", p, err)
	}
}

// Openings stand in the nearest wall, cut to it; a job takes none under 300 mm of a door,
// 150 mm of another, and one of two in a stretch.
func TestOpeningsOfAScan(t *testing.T) {
	s := scan{Doors: []scanned{wallOf(1, 0, 1.8, 0), wallOf(2.8, 0, 3.6, 0), wallOf(1.5, -1, 2.3, -1), wallOf(2.71, 0,
		3.6, 0.01)},
		Openings: []scanned{wallOf(3, -0.5, 3, -0.65), wallOf(3, -1, 3, -1.149), wallOf(1.795, 0, 2.5, 0)},
		Windows:  []scanned{wallOf(1, -2.29, 2, -2.29), wallOf(1.794, 0, 2.5, 0)}}
	r := Room{Outline: box(0, 0, 3000, 2000)}
	f := &Found{}
	s.openings(f, &r, frame{})
	var got []string
	for _, o := range r.Openings {
		got = append(got, fmt.Sprintf("%s %d %.0f %.0f", o.Kind, o.Wall, o.From, o.Width))
	}
	want := []string{"door 0 1000 800", "opening 1 500 150", "opening 0 1795 705", "window 2 1000 1000"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	said := strings.Join(f.Dropped, "; ")
	for what, n := range map[string]int{"a door of 0.80 m that stands in no wall": 2,
		"a door of 0.89 m that stands in no wall": 1,
		"a opening of 0.15 m":                     1, "same stretch of wall": 1} {
		if strings.Count(said, what) != n {
			t.Errorf("%q is said %d times in %q", what, strings.Count(said, what), said)
		}
	}
	if took := strings.Join(f.Took, "; "); took != "1 door; 2 openings; 2 windows" {
		t.Error(took)
	}
}

// Fixtures stand with their back at a wall up to 150 mm off, on any of their four sides, or
// free; none stands through a wall or on another.
func TestFixturesOfAScan(t *testing.T) {
	r := &Room{Outline: box(0, 0, 3000, 2000)}
	for _, k := range []struct {
		name               string
		x, z, w, d, angle  float64
		wall               int
		from, width, depth float64
		ok                 bool
	}{
		{"at the north wall", 1, -1.65, 0.4, 0.7, 0, 2, 1800, 400, 700, true},
		{"100 mm off it", 1, -1.55, 0.4, 0.7, 0, 2, 1800, 400, 700, true},
		{"151 mm off it", 1, -1.499, 0.4, 0.7, 0, -1, 0, 400, 700, true},
		{"at the south wall", 1, -0.35, 0.4, 0.7, 180, 0, 800, 400, 700, true},
		{"its back the other way", 1, -0.35, 0.4, 0.7, 0, 0, 800, 400, 700, true},
		{"at the west wall, by its side", 0.2, -1, 0.4, 0.7, 0, 3, 650, 700, 400, true},
		{"at the east wall, by its side", 2.8, -1, 0.4, 0.7, 0, 1, 650, 700, 400, true},
		{"free", 1.5, -1, 0.4, 0.7, 30, -1, 0, 400, 700, true},
		{"through a wall", 1, -2, 0.4, 0.7, 45, -1, 0, 400, 700, false},
		{"outside", 5, -1, 0.4, 0.7, 0, -1, 0, 400, 700, false},
		{"of no width", 1, -1.65, 0.008, 0.7, 0, 2, 1996, 8, 700, false},
		{"of no depth", 1, -1.996, 0.4, 0.008, 0, 2, 1800, 400, 8, false},
	} {
		th := thing("toilet", k.x, k.z, k.w, k.d, k.angle)
		x, ok := r.fixture("toilet", &th, frame{})
		if ok != k.ok || ok && (x.Wall != k.wall || math.Abs(x.Width-k.width) > 0.01 ||
			math.Abs(x.Depth-k.depth) > 0.01) ||
			ok && x.Wall >= 0 && math.Abs(x.From-k.from) > 0.01 {
			t.Errorf("%s: %+v, %v", k.name, x, ok)
		}
	}
	at := func(kind string, x, y float64) Fixture {
		return Fixture{Kind: kind, Wall: -1, At: plane.Pt(x, y), Width: 400, Depth: 600}
	}
	for _, k := range []struct {
		a, b Fixture
		want bool
	}{{at("tub", 500, 500), at("toilet", 895, 500), true}, {at("tub", 500, 500), at("toilet", 897, 500), false},
		{at("tub", 500, 500), at("toilet", 500, 1095), true}, {at("tub", 500, 500), at("toilet", 500, 1097), false},
		{at("cabinet", 500, 500), at("appliance", 500, 500), false}, {at("cabinet", 500, 500), at("cabinet", 500,
			500), true},
		{at("cabinet", 500, 500), at("tub", 500, 500), true}} {
		if got := r.share(k.a, k.b); got != k.want {
			t.Errorf("%+v and %+v share floor: %v", k.a, k.b, got)
		}
	}
	if got, want := r.footprint(Fixture{Wall: 1, From: 100, Width: 400, Depth: 600}), hand.Points(3000, 100, 3000,
		500, 2400, 500, 2400,
		100); !same(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	first := Fixture{Wall: 0, From: 100, Width: 400, Depth: 600}
	if got, want := r.footprint(first), hand.Points(100, 0, 500, 0, 500, 600, 100, 600); !same(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	turned := Fixture{Wall: -1, At: plane.Pt(1000, 1000), Angle: 90, Width: 400, Depth: 600}
	if got, want := r.footprint(turned), hand.Points(1300, 800, 1300, 1200, 700, 1200, 700, 800); !same(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	s := scan{Objects: []scanned{thing("toilet", 1, -1.65, 0.4, 0.7, 0), thing("bathtub", 1, -1.6, 1.6, 0.75, 0),
		thing("chair", 1.5, -1, 0.4, 0.4, 0), thing("sink", 9, -1, 0.4, 0.4, 0), thing("sink", 2.7, -0.3, 0.5, 0.5, 0)}}
	room, f := &Room{Outline: box(0, 0, 3000, 2000)}, &Found{}
	s.things(f, room, frame{})
	if len(room.Fixtures) != 2 || room.Fixtures[0].Kind != "tub" || room.Fixtures[1].Kind != "vanity" {
		t.Errorf("%+v", room.Fixtures)
	}
	if got := strings.Join(f.Took, "; "); got != "2 fixtures: tub, vanity" {
		t.Error(got)
	}
	if got, want := strings.Join(f.Dropped, "; "),
		"a toilet on the same floor as something larger; a vanity that stands outside the "+
			"room or through its walls; 1 thing that can be moved, such as tables and chairs"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// The box goes 200 mm beside the first door, behind it first, where 100 mm are free about
// it; else into the middle of the longest free stretch.
func TestWhereABoxIsGuessed(t *testing.T) {
	ring := box(0, 0, 3000, 2000)
	door := func(wall int, from float64) Opening { return Opening{"door", wall, from, 800} }
	for _, k := range []struct {
		name     string
		openings []Opening
		fixtures []Fixture
		wall     int
		from     float64
	}{
		{"no door", nil, nil, 0, 1500}, {"behind the door", []Opening{door(0, 500)}, nil, 0, 1500},
		{"the door in another wall", []Opening{door(3, 100)}, nil, 3, 1100},
		{"before the door", []Opening{door(0, 2200)}, nil, 0, 2000},
		{"just room behind it", []Opening{door(0, 1900)}, nil, 0, 2900}, {"not quite", []Opening{door(0, 1901)}, nil,
			0, 1701},
		{"just room before it", []Opening{door(1, 300)}, []Fixture{{Wall: 1, From: 1100, Width: 900}}, 1, 100},
		{"none", []Opening{door(1, 299)}, []Fixture{{Wall: 1, From: 1099, Width: 901}}, 0, 1500},
		{"a window is no door", []Opening{{"window", 0, 1000, 500}}, nil, 2, 1500},
		{"the longest stretch", []Opening{{"window", 0, 1000, 500}, {"window", 2, 100, 2800}}, nil, 1, 1000},
		{"behind a fixture", nil, []Fixture{{Wall: 0, From: 0, Width: 500}, {Wall: 2, From: 0, Width: 1000}}, 0, 1750},
	} {
		r := &Room{Outline: ring, Openings: k.openings, Fixtures: k.fixtures}
		if wall, from := placeForBox(r, ring); wall != k.wall || from != k.from {
			t.Errorf("%s: wall %d at %g, want %d at %g", k.name, wall, from, k.wall, k.from)
		}
	}
	r := &Room{Openings: []Opening{{"window", 0, 100, 200}, {"window", 1, 0, 900}, {"window", 0, 300, 50}, {"window",
		0, 900, 100}}}
	if got, want := freeStretches(r, 0, 1000), [][2]float64{{0, 100}, {350, 900}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestLengthsInAJob(t *testing.T) {
	for _, k := range []struct {
		units plane.Units
		mm    float64
		want  string
	}{{plane.Millimetres, 1234.4, "1234"}, {plane.Millimetres, 1234.5, "1235"}, {plane.Inches, 25.4, "1"},
		{plane.Inches, 25.4 * 1.06, "1.0625"}, {plane.Inches, 254, "10"}} {
		if got := (&writer{units: k.units}).length(k.mm); got != k.want {
			t.Errorf("%g mm: %s, want %s", k.mm, got, k.want)
		}
	}
	f := &Found{Rooms: []Room{{Outline: box(0, 0, 3000, 2000), KeepOuts: []KeepOut{{Name: "a", At: plane.Pt(5, 6),
		Diameter: 80},
		{Name: "b", Outline: box(0, 0, 9, 9)}}, Fixtures: []Fixture{{Kind: "tub", Wall: 2, From: 7, Width: 8, Depth: 9},
		{Kind: "toilet", Wall: -1, At: plane.Pt(5, 6), Angle: 12.34, Width: 8, Depth: 9},
		{Kind: "cabinet", From: 3, Width: 4, Depth: 5}}}, {Name: "Hall",
		Outline: box(0, 0, 900, 900)},
		{Outline: box(0, 0, 900, 900)}}}
	text := f.Text(plane.Millimetres)
	for _, want := range []string{`name = "Room 1"`, `name = "Hall"`, `name = "Room 3"`, "at = [5, 6]\ndiameter = 80",
		"outline = [[0, 0], [9, 0], [9, 9], [0, 9]]", "wall = \"C\"\nfrom = 7\nwidth = 8\ndepth = 9",
		"at = [5, 6]\nangle = 12.3\n",
		"# A, 3000 long", "wall = \"A\"\nfrom = 3\nwidth = 4\ndepth = 5"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	f = &Found{Rooms: []Room{{Outline: box(0, 0, 3000, 2000)}}}
	if text := f.Text(plane.Inches); !strings.Contains(text, `name = "Room"`) || !strings.Contains(text, "84 F") {
		t.Error(text)
	}
}

// A square of 3 m in characters twice as tall as wide: 16 rows of 31, a letter in the middle
// of each side.
func TestASquareAsASketch(t *testing.T) {
	rows := Sketch(hand.Points(0, 0, 3000, 0, 3000, 3000, 0, 3000, 0, 0))
	if len(rows) != 16 || len([]rune(rows[0])) != 31 || len([]rune(rows[15])) != 31 {
		t.Fatalf("%d rows\n%s", len(rows), strings.Join(rows, "\n"))
	}
	for i, row := range rows {
		r := []rune(row)
		switch {
		case i == 0 && (r[15] != 'C' || r[0] != '·' || strings.Count(row, "·") != 30):
			t.Errorf("row %d: %s", i, row)
		case i == 15 && (r[15] != 'A' || r[0] != 'o' || strings.Count(row, "·") != 29):
			t.Errorf("row %d: %s", i, row)
		case i > 0 && i < 15 && (len(r) != 31 || strings.Trim(string(r[1:30]), " ") != "" ||
			!strings.ContainsRune("·D", r[0]) ||
			!strings.ContainsRune("·B", r[30])):
			t.Errorf("row %d: %s", i, row)
		}
	}
	moved := Sketch(hand.Points(5000, -7000, 8000, -7000, 8000, -4000, 5000, -4000, 5000, -7000))
	if !slices.Equal(moved, rows) {
		t.Errorf("the same elsewhere:\n%s", strings.Join(moved, "\n"))
	}
	if rows := Sketch(hand.Points(0, 0, 4300, 0)); len(rows) != 1 || len([]rune(rows[0])) != 44 {
		t.Errorf("%q", rows)
	}
	if rows := Sketch(hand.Points(5, 5, 5, 5)); rows != nil {
		t.Errorf("%q", rows)
	}
	// of two letters the second stands beside the first, and a side shorter than a letter is wide is drawn too
	zigzag := []plane.Point{{}}
	for i := range 25 {
		zigzag = append(zigzag, plane.Pt(float64(i+1)*150, float64(i%2)*10))
	}
	zigzag = append(zigzag, plane.Pt(3750, 1000), plane.Pt(2750, 1000), plane.Pt(2750, 3000))
	if rows := Sketch(zigzag); !strings.Contains(strings.Join(rows, "\n"), "·AA·") {
		t.Errorf("%s", strings.Join(rows, "\n"))
	}
	edge := append(zigzag[:26:26], plane.Pt(3750, 10), plane.Pt(3750, 1000)) // its 27th side is the right edge
	if rows := Sketch(edge); !strings.HasSuffix(rows[len(rows)/2-1]+rows[len(rows)/2], "A") {
		t.Errorf("%s", strings.Join(rows, "\n"))
	}
}

// The columns of a table in any order.
func TestColumnsOfATable(t *testing.T) {
	f, err := readTape([]byte("length (m),direction\n3,east\n2,north\n3,west\n"), Options{})
	if err != nil || len(f.Rooms) != 1 || len(f.Rooms[0].Walls) != 3 || f.Rooms[0].Walls[1] != (Wall{0, 2000}) {
		t.Errorf("%+v, %v", f, err)
	}
}

// What is dropped from a scan is said, and only that: here a floor of four corners and one
// that is none, with and without it.
func TestWhatAScanLeavesOut(t *testing.T) {
	floor := `{"dimensions": [4, 3, 0], "transform": [1,0,0,0, 0,0,-1,0, 0,1,0,0, 2,0,1.5,1], ` +
		`"polygonCorners": [[-2,-1.5,0],%s[2,-1.5,0],` +
		`[2,1.5,0],[-2,1.5,0]]}`
	for middle, want := range map[string]string{"": "",
		"[0,-1.501,0],": "1 corner that were none, within 3 mm of a straight wall or of another"} {
		f, err := readScan([]byte(`{"floors": [`+fmt.Sprintf(floor, middle)+`]}`), Options{})
		if err != nil || strings.Join(f.Dropped, "; ") != want {
			t.Errorf("%q: %q, %v", middle, f.Dropped, err)
		}
		if strings.Join(f.Took, "; ") != "an outline of 4 walls and 12.00 m² from the corners of the floor" {
			t.Errorf("%q", f.Took)
		}
	}
	leaning := thing("toilet", 1.5, -1, 0.4, 0.7, 0) // its up does not matter, its place does
	leaning.Transform[4], leaning.Transform[6] = 0.5, 0.5
	if x, ok := (&Room{Outline: box(0, 0, 3000, 2000)}).fixture("toilet", &leaning, frame{}); !ok ||
		x.At.Dist(plane.Pt(1500, 1000)) > 1e-9 {
		t.Errorf("%+v, %v", x, ok)
	}
	for cell, want := range map[string][2]string{"Length": {"length", ""}, "length (m)": {"length", "m"},
		"dist_cm": {"dist", "cm"},
		"(m)":     {"", "m"}, " Way [in] ": {"way", "in"}, "l/ft": {"l", "ft"}} {
		if word, unit := headWord(cell); [2]string{word, unit} != want {
			t.Errorf("%q: %q and %q", cell, word, unit)
		}
	}
	if rows := Sketch(hand.Points(0, 0, 30, 0, 30, 30, 0, 30, 0, 0)); len(rows) != 16 || len([]rune(rows[0])) != 31 {
		t.Errorf("a square of 30 mm: %q", rows)
	}
}
