package draft

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/plane"
)

// A drawing that breaks off, in the middle of a pair or where a section begins, has what came
// before.
func TestDrawingsThatBreakOff(t *testing.T) {
	for _, text := range []string{"0\nSECTION", "0\nSECTION\n", "0\nSECTION\n2\nHEADER\n0",
		"0\nSECTION\n2\nENTITIES\n0\nLINE",
		"0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n8\nR\n0\nVERTEX\n10\n0\n20\n0"} {
		if _, err := readDXF([]byte(text)); err != nil {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// A line's last corner has no wall after it; a ring's leads back to the first. A bulge of 1 is
// a half circle, whose middle stands off by half the way; more is two walls of one rise.
func TestKnotsByHand(t *testing.T) {
	corners := []vertex{{plane.Pt(0, 0), 0.5}, {plane.Pt(1000, 0), 0}, {plane.Pt(1000, 1000), 1}}
	ring := knotsOf(corners, true)
	want := []knot{{plane.Pt(0, 0), 250}, {plane.Pt(1000, 0), 0}, {plane.Pt(1000, 1000), 500 * math.Sqrt2}}
	if !slices.EqualFunc(ring, want, sameKnot) {
		t.Errorf("%v, want %v", ring, want)
	}
	line := knotsOf(corners, false)
	want[2].rise = 0
	if !slices.EqualFunc(line, want, sameKnot) {
		t.Errorf("%v, want %v", line, want)
	}
	// three quarters of a circle of 500 mm about (500, 0)... from its west to its south, by way of the north
	turn := knotsOf([]vertex{{plane.Pt(0, 500), -math.Tan(3 * math.Pi / 8)}, {plane.Pt(500, 0), 0}}, false)
	if len(turn) != 3 || turn[1].at.Dist(plane.Pt(500, 500)) > 1 && turn[1].at.Dist(plane.Pt(500+500/math.Sqrt2,
		500+500/math.Sqrt2)) > 1 || math.Abs(turn[0].rise-turn[1].rise) > 1e-9 {
		t.Errorf("%v", turn)
	}
	back := reversed(ring)
	for i, k := range back { // the wall after a knot was the one before it, bent to the other side
		n := len(ring)
		if k.at != ring[n-1-i].at || k.rise != -ring[(2*n-2-i)%n].rise {
			t.Errorf("%d: %v", i, k)
		}
	}
	if got := reversed(knotsOf(corners[:2], false)); got[0].rise != -250 || got[0].at != plane.Pt(1000, 0) {
		t.Errorf("a line the other way round: %v", got)
	}
}

func sameKnot(a, b knot) bool { return a.at.Dist(b.at) < 1e-6 && math.Abs(a.rise-b.rise) < 1e-6 }

// A corner in line with its neighbours is none, unless a wall beside it is bent; two at one
// place are one. Both ways round the outline is the same.
func TestBentRoomByHand(t *testing.T) {
	knots := []knot{{plane.Pt(0, 0), 0}, {plane.Pt(1000, 0), 0}, {plane.Pt(2000, 0), 300}, {plane.Pt(2000, 1000), 0},
		{plane.Pt(2000, 2000), 0}, {plane.Pt(2000, 2004), 0}, {plane.Pt(0, 2000), 0}}
	want := hand.Points(0, 0, 2000, 0, 2000, 1000, 2000, 2004, 0, 2000)
	ways := [][]knot{reversed(knots)}
	for i := range knots { // from whichever corner it begins
		ways = append(ways, slices.Concat(knots[i:], knots[:i]))
	}
	for _, k := range ways {
		ring, arcs, ok := bentRoom(&shape{knots: k}, frame{})
		if !ok || len(ring) != 5 || len(arcs) != 1 || arcs[0].Rise != 300 || arcs[0].Into {
			t.Errorf("%v, %+v, %v", ring, arcs, ok)
			continue
		}
		if e := ring.Edge(arcs[0].Wall); e != hand.Segment(2000, 0, 2000, 1000) {
			t.Errorf("bent between %v", e)
		}
		for _, p := range want {
			if ring.Distance(p) > 0.01 {
				t.Errorf("%v is not on %v", p, ring)
			}
		}
	}
	knots[2].rise = -300
	if _, arcs, ok := bentRoom(&shape{knots: knots}, frame{}); !ok || !arcs[0].Into {
		t.Errorf("%+v, %v", arcs, ok)
	}
	for rise, bent := range map[float64]bool{4.9: false, 5: true, -4.9: false, -5: true} {
		knots[2].rise = rise
		if _, arcs, _ := bentRoom(&shape{knots: knots}, frame{}); (len(arcs) > 0) != bent {
			t.Errorf("off by %g mm: %+v", rise, arcs)
		}
	}
}

// A keep-out that another room has taken is not taken again.
func TestKeepOutsAreTakenOnce(t *testing.T) {
	room := shape{line: box(0, 0, 3000, 3000), closed: true, at: 1}
	inner := shape{line: box(500, 500, 900, 900), closed: true, at: 2, layer: "column"}
	round := shape{line: hand.Points(2000, 2000), radius: 100, closed: true, at: 3, layer: "post"}
	d := &dxf{shapes: []shape{room, inner, round}}
	if r := d.room(&Found{}, room, "walls"); len(r.KeepOuts) != 2 || r.KeepOuts[1].Diameter != 200 {
		t.Errorf("%+v", r.KeepOuts)
	}
	if r := d.room(&Found{}, room, "walls"); len(r.KeepOuts) != 0 {
		t.Errorf("taken again: %+v", r.KeepOuts)
	}
}

// Two walls of a scan meet where their lines cross; where that is far off, as of two nearly in
// line, the corner stays at both ends.
func TestCornersOfAScan(t *testing.T) {
	round := []plane.Segment{hand.Segment(0, 0, 2990, 0), hand.Segment(3000, 10, 3000, 2000),
		hand.Segment(3000, 2000, 0, 2000), hand.Segment(0, 2000, 0, 100)}
	if got, want := cornersOf(round), hand.Points(0, 0, 3000, 0, 3000, 2000, 0, 2000); !same(got, want) {
		t.Errorf("%v", got)
	}
	// two walls a few millimetres out of line, whose lines cross 10 m away
	aslant := []plane.Segment{hand.Segment(0, 0, 2000, 0), hand.Segment(2000, 10, 4000, 12),
		hand.Segment(4000, 12, 2000, 2000)}
	if got := cornersOf(aslant); !slices.Contains(got, plane.Pt(2000, 0)) || !slices.Contains(got, plane.Pt(2000, 10)) {
		t.Errorf("%v", got)
	}
}

// Straight walls alone are no bent room.
func TestStraightRoomsAreNotBent(t *testing.T) {
	var knots []knot
	for _, p := range box(0, 0, 2000, 1000) {
		knots = append(knots, knot{at: p})
	}
	if ring, arcs, ok := bentRoom(&shape{knots: knots}, frame{}); ok || len(ring) != 4 || arcs != nil {
		t.Errorf("%v, %v, %v", ring, arcs, ok)
	}
}

// What is no outline of the walls' layer is no room: a line, a circle, another layer.
func TestRoomsOfALayer(t *testing.T) {
	square := func(layer string, closed bool, radius float64) shape {
		ring := box(0, 0, 2000, 1500)
		var knots []knot
		for _, p := range ring {
			knots = append(knots, knot{at: p})
		}
		return shape{layer: layer, line: ring, knots: knots, closed: closed, radius: radius, at: len(layer)}
	}
	for _, k := range []struct {
		s    shape
		want int
	}{{square("walls", true, 0), 1}, {square("walls", false, 0), 0}, {square("walls", true, 5), 0},
		{square("other", true, 0), 0}} {
		n := 0
		if f, err := (&dxf{shapes: []shape{k.s}}).rooms("walls", "mm"); err == nil {
			n = len(f.Rooms)
		}
		if n != k.want {
			t.Errorf("%+v: %d rooms", k.s, n)
		}
	}
}

// A light polyline's corners: what is given before the first x is of none.
func TestLightCornersByHand(t *testing.T) {
	e := &entity{groups: []group{{42, "9", 1}, {20, "7", 2}, {10, "1", 3}, {20, "2", 4}, {42, "0.5", 5}, {10, "3", 6},
		{20, "4", 7}}}
	want := []vertex{{plane.Pt(1, 2), 0.5}, {plane.Pt(3, 4), 0}}
	if got := lightVertices(e); !slices.Equal(got, want) {
		t.Errorf("%v", got)
	}
}

// A thing's place goes to the floor by its matrix, column by column: here x north, y east and
// z south, 2 m east and 3 m south of the scan's middle.
func TestFloorOfAScan(t *testing.T) {
	s := &scanned{Transform: []float64{0, 0, -1, 0, 1, 0, 0, 0, 0, 0, 1, 0, 2, 0, 3, 1}}
	for _, k := range []struct {
		x, y, z float64
		want    plane.Point
	}{{0, 0, 0, plane.Pt(2000, -3000)}, {100, 0, 0, plane.Pt(2000, -2900)}, {0, 100, 0, plane.Pt(2100, -3000)},
		{0, 0, 100, plane.Pt(2000, -3100)}} {
		if got := s.floor(k.x, k.y, k.z); got.Dist(k.want) > 1e-9 {
			t.Errorf("%g, %g, %g: %v, want %v", k.x, k.y, k.z, got, k.want)
		}
	}
}

// In a plan turned a quarter about the upright what lies along z is east.
func TestFloorOfATurnedScan(t *testing.T) {
	s := &scanned{Transform: []float64{0, 0, -1, 0, 0, 1, 0, 0, 1, 0, 0, 0, 2, 0, 3, 1}}
	if got := s.floor(100, 50, 300); got.Dist(plane.Pt(2300, -2900)) > 1e-9 {
		t.Errorf("%v", got)
	}
}

// An opening that goes beyond the end of its wall within the room is cut there, one that is
// left too narrow is none; a line from edge to edge of a room is cut at both.
func TestWallsWithinByHand(t *testing.T) {
	for _, k := range []struct {
		line        plane.Segment
		from, width float64
		in          bool
	}{
		{hand.Segment(500, 0, 1300, 0), 500, 800, true}, {hand.Segment(1300, 0, 2100, 0), 1300, 700, true},
		{hand.Segment(-300, 0, 700, 0), 0, 1000, true}, {hand.Segment(1900, 0, 2500, 0), 0, 0, false},
		{hand.Segment(500, 900, 1300, 900), 0, 0, false}, {hand.Segment(500, -400, 500, 400), 0, 0, false},
	} {
		r := &Room{Partitions: []Partition{{Segment: hand.Segment(0, 0, 2000, 0)}}}
		if got := r.inPartition("opening", k.line); got != k.in {
			t.Errorf("%v: %v", k.line, got)
			continue
		}
		if p := r.Partitions[0].Openings; k.in && (len(p) != 1 || p[0].From != k.from || p[0].Width != k.width) {
			t.Errorf("%v: %+v", k.line, p)
		}
		if r.inPartition("window", k.line) {
			t.Errorf("a window in %v", k.line)
		}
	}
	room := &Room{Outline: box(0, 0, 3000, 2000)}
	if got := room.trimmed(hand.Segment(-100, 500, 3100, 500)); got != hand.Segment(0, 500, 3000, 500) {
		t.Errorf("%v", got)
	}
	if got := room.trimmed(hand.Segment(1000, 500, 1000, 2100)); got != hand.Segment(1000, 500, 1000, 2000) {
		t.Errorf("%v", got)
	}
}

// What is wrong with a document of many places is at no line of it.
func TestFaultsOfNoLine(t *testing.T) {
	deep := geoObject{Type: "Feature"}
	for range mostNesting + 2 {
		deep = geoObject{Features: []geoObject{deep}}
	}
	if err := (&geo{}).object(deep, "", 0); err == nil || err.Line != 0 {
		t.Errorf("%+v", err)
	}
	odd := geoObject{Type: "Polygon", Coordinates: []byte(`"x"`)}
	if err := (&geo{}).object(odd, "", 0); err == nil || err.Line != 0 {
		t.Errorf("%+v", err)
	}
	odd.Type = "MultiPolygon"
	if err := (&geo{}).object(odd, "", 0); err == nil || err.Line != 0 {
		t.Errorf("%+v", err)
	}
	nested := geoObject{Type: "Polygon"}
	for range mostNesting + 2 {
		inner := nested
		nested = geoObject{Type: "Feature", Geometry: &inner}
	}
	if err := (&geo{}).object(nested, "", 0); err == nil || !strings.Contains(err.Message, "9 deep") {
		t.Errorf("%+v", err)
	}
	full := &geo{found: &Found{Rooms: make([]Room, mostRooms)}}
	if err := full.polygon([][][]float64{{}}, ""); err == nil || err.Line != 0 {
		t.Errorf("%+v", err)
	}
	short := &scan{Floors: []scanned{{PolygonCorners: [][]float64{{0}, {0}, {0}}}}}
	if _, _, err := short.outline(); err == nil || err.Line != 0 {
		t.Errorf("%+v", err)
	}
	small := `{"floors": [{"transform": [1,0,0,0,0,1,0,0,0,0,1,0,0,0,0,1], "polygonCorners": ` +
		`[[0,0,0],[0.1,0,0],[0,0,0.1]]}]}`
	if _, err := readScan([]byte(small), Options{}); err == nil || err.Line != 0 ||
		!strings.Contains(err.Message, "100 mm by 100 mm") {
		t.Errorf("%+v", err)
	}
	for _, typed := range []string{"left 2 m", "east far", "east 0 m"} {
		if _, err := ReadWall(typed, NoWall, false, plane.Millimetres); err == nil || err.Line != 0 {
			t.Errorf("%s: %+v", typed, err)
		}
	}
	if _, err := readGroups([]byte("5\nA\n")); err == nil || err.Line != 1 {
		t.Errorf("%+v", err)
	}
	if _, err := (&geo{}).flat([][]float64{{1}}, nil); err == nil || err.Line != 0 {
		t.Errorf("%+v", err)
	}
	_, far := (&geo{}).flat([][]float64{{10, 95}}, nil)
	if far == nil || !strings.Contains(far.Message, "position 10, 95") {
		t.Errorf("%+v", far)
	}
	// a unit of half a millimetre is one; none stands for degrees
	if ring, err := (&geo{scale: 0.5}).flat([][]float64{{300, 200}}, nil); err != nil || ring[0] != plane.Pt(150, 100) {
		t.Errorf("%v, %v", ring, err)
	}
}

// A row that breaks off has nothing in the columns behind its last.
func TestCellsOfATable(t *testing.T) {
	row := []string{" a ", "b"}
	for column, want := range map[int]string{-1: "", 0: "a", 1: "b", 2: "", 9: ""} {
		if got := (&tapeTable{}).cell(row, column); got != want {
			t.Errorf("column %d: %q, want %q", column, got, want)
		}
	}
}

// A half circle 1000 mm across, parted in its middle, is two walls of a quarter each: 500 mm off
// the straight way, each of them 500 (1 - cos 45°) off its own; straight sides stay.
func TestBentSidesAreHalved(t *testing.T) {
	got := halved([]knot{{plane.Pt(0, 0), 500}, {plane.Pt(1000, 0), 0}, {plane.Pt(1000, 1000), 0}})
	each := 500 * (1 - math.Sqrt2/2)
	want := []knot{{plane.Pt(0, 0), each}, {plane.Pt(500, -500), each}, {plane.Pt(1000, 0), 0},
		{plane.Pt(1000, 1000), 0}}
	if !slices.EqualFunc(got, want, sameKnot) {
		t.Errorf("%v, want %v", got, want)
	}
	// a side of no length has no middle to stand off
	none := []knot{{plane.Pt(5, 5), 3}, {plane.Pt(5, 5), 0}}
	if got := halved(none); !slices.EqualFunc(got, none, sameKnot) {
		t.Errorf("%v", got)
	}
}

// What is told of an outline's own corners: in line within 3 mm, one place within 8; three corners
// stay three. The area within bent sides has two thirds of the rectangles round them.
func TestTidiedByHand(t *testing.T) {
	at := func(xy ...float64) (out []knot) {
		for _, p := range hand.Points(xy...) {
			out = append(out, knot{at: p})
		}
		return out
	}
	for _, k := range []struct {
		name     string
		in, want []knot
	}{
		{"3 mm off the line", at(0, 0, 450, 3, 900, 0, 900, 600, 0, 600), at(0, 0, 900, 0, 900, 600, 0, 600)},
		{"8 mm apart", at(0, 0, 892, 0, 900, 0, 900, 600, 0, 600), at(0, 0, 900, 0, 900, 600, 0, 600)},
		{"8 mm apart at a corner", at(0, 0, 900, 0, 900, 600, 0, 600, 0, 8), at(0, 0, 900, 0, 900, 600, 0, 600)},
		{"three", at(0, 0, 450, 0, 900, 600), at(0, 0, 450, 0, 900, 600)},
		{"three in a line", at(0, 0, 450, 1, 900, 0), at(900, 0, 450, 1, 0, 0)},
	} {
		got := tidied(k.in)
		for range got { // from whichever corner it begins
			if slices.EqualFunc(got, k.want, sameKnot) {
				break
			}
			got = append(got[1:], got[0])
		}
		if !slices.EqualFunc(got, k.want, sameKnot) {
			t.Errorf("%s: %v", k.name, got)
		}
	}
	bent := at(0, 0, 450, 0, 900, 0, 900, 600, 0, 600)
	bent[1].rise = 5
	if got := tidied(bent); len(got) != 5 {
		t.Errorf("a wall bent by 5 mm: %v", got)
	}
	bent[0].rise, bent[1].rise = 5, 0
	if got := tidied(bent); len(got) != 5 {
		t.Errorf("the wall before bent by 5 mm: %v", got)
	}
	lens := []knot{{plane.Pt(0, 0), 300}, {plane.Pt(1000, 0), 300}}
	if got := turned(lens); got != 2*1000*300*2/3 {
		t.Errorf("%g mm²", got)
	}
	if got := turned(reversed(lens)); got != -2*1000*300*2/3 {
		t.Errorf("%g mm²", got)
	}
}

// What stands in a room with bent sides keeps them; with none, or where its corners make no outline,
// it is drawn by its line. A half disc has its arc in two.
func TestBentKeepOutsByHand(t *testing.T) {
	keep := func(line plane.Ring, rises ...float64) KeepOut {
		s := &shape{line: line}
		for i, p := range line {
			s.knots = append(s.knots, knot{p, rises[i]})
		}
		return bentKeepOut(s, frame{})
	}
	square := box(0, 0, 400, 400)
	if k := keep(square, 0, 5, 2, 0); !slices.Equal(k.Rises, []float64{0, 5, 0, 0}) || !same(k.Outline, square) {
		t.Errorf("%+v", k)
	}
	if k := keep(square, 0, 4.9, 2, 0); k.Rises != nil || !same(k.Outline, square) {
		t.Errorf("%+v", k)
	}
	cross := plane.Ring(hand.Points(0, 0, 400, 400, 400, 0, 0, 300))
	if k := keep(cross, 50, 0, 0, 0); k.Rises != nil || !same(k.Outline, cross) {
		t.Errorf("%+v", k)
	}
	each := 200 * (1 - math.Sqrt2/2)
	k := keep(hand.Points(0, 0, 400, 0), 200, 0)
	if !same(k.Outline, hand.Points(0, 0, 200, -200, 400, 0)) || len(k.Rises) != 3 ||
		math.Abs(k.Rises[0]-each) > 1e-6 ||
		math.Abs(k.Rises[1]-each) > 1e-6 || k.Rises[2] != 0 {
		t.Errorf("%+v", k)
	}
	if k := keep(hand.Points(0, 0, 10, 0), 5, 5); k.Diameter != 10 || k.At.Dist(plane.Pt(5, 0)) > 1e-9 {
		t.Errorf("%+v", k)
	}
}

// A thing that leans takes its place from its middle, and one without a depth has none.
func TestThingsThatLean(t *testing.T) {
	s := scanned{Dimensions: []float64{2, 1}, Transform: scanPlace{1, 0, 0, 0, 0.7, 0, 0.7, 0, 0, 0, 1, 0, 3, 0, 4, 1}}
	if got := s.stretch(); got != hand.Segment(2000, -4000, 4000, -4000) || s.depth() != 0 || s.width() != 2000 {
		t.Errorf("%v, %g deep", got, s.depth())
	}
	s.Dimensions = []float64{0.4, 1, 0.4}
	s.Transform[12], s.Transform[14] = 1.5, -1
	x, ok := (&Room{Outline: box(0, 0, 3000, 2000)}).fixture("toilet", &s, frame{})
	if !ok || x.Angle != 0 || x.At != plane.Pt(1500, 1000) {
		t.Errorf("%+v, %v", x, ok)
	}
}

// In a corner a thing stands at the wall it is nearer to, its back there or its side.
func TestThingsInACorner(t *testing.T) {
	r := &Room{Outline: box(0, 0, 3000, 2000)}
	for _, k := range []struct {
		x, z float64
		wall int
	}{{0.3, -1.64, 2}, {0.21, -1.55, 3}} { // 10 mm off one wall, 100 off the other
		th := thing("toilet", k.x, k.z, 0.4, 0.7, 0)
		if x, ok := r.fixture("toilet", &th, frame{}); !ok || x.Wall != k.wall {
			t.Errorf("%+v: %+v, %v", k, x, ok)
		}
	}
}

// A line within a room ends at its walls, not where one of them would go on: at the arm of an L.
func TestWallsOfAnLTrimNothingBeyondThem(t *testing.T) {
	r := &Room{Outline: hand.Points(0, 0, 4000, 0, 4000, 1000, 2000, 1000, 2000, 3000, 0, 3000)}
	if got := r.trimmed(hand.Segment(-100, 500, 3500, 500)); got != hand.Segment(0, 500, 3500, 500) {
		t.Errorf("%v", got)
	}
}

// What is said of a scan counts what was taken: one wall within, a door in it, one fixture.
func TestWhatAScanTakes(t *testing.T) {
	s := scan{Walls: []scanned{wallOf(1, -0.5, 2, -0.5)}, Doors: []scanned{wallOf(1.1, -0.5, 1.9, -0.5)},
		Objects: []scanned{thing("toilet", 1.5, -1.6, 0.4, 0.7, 0)}}
	r, f := &Room{Outline: box(0, 0, 3000, 2000)}, &Found{}
	s.partitions(f, r, frame{})
	s.openings(f, r, frame{})
	s.things(f, r, frame{})
	want := "1 wall within, 100 mm thick unless the tape says otherwise; 1 door; 1 fixture: toilet"
	if got := strings.Join(f.Took, "; "); got != want || len(r.Partitions) != 1 || len(r.Partitions[0].Openings) != 1 {
		t.Errorf("%q, %+v", got, r.Partitions)
	}
}

// Tables of walls: four that say where they go are not taken round from the east; a first turn left out is
// east, a later one to the left; a length with a unit keeps it.
func TestTablesByHand(t *testing.T) {
	for _, k := range []struct {
		text string
		want []Wall
	}{
		{"direction,length (m)\nnorth,2\neast,3\nsouth,2\nwest,3\n", []Wall{{0, 2000}, {90, 3000}, {180, 2000},
			{270, 3000}}},
		{"length (m)\n3\n2\n3\n2\n", []Wall{{90, 3000}, {0, 2000}, {270, 3000}, {180, 2000}}},
		{"turn,length (m)\n,3\nleft,2\n,3\nleft,2\n", []Wall{{90, 3000}, {0, 2000}, {270, 3000}, {180, 2000}}},
		{"turn,length (m)\non,3\n", nil},
		{"direction,length (m)\n,3\nnorth,2\n", nil},
		{"direction,length (cm)\neast,2.5 m\nnorth,120\n", []Wall{{90, 2500}, {0, 1200}}},
		{"3 m\n", nil},
	} {
		f, err := readTape([]byte(k.text), Options{})
		if k.want == nil {
			if err == nil || !strings.Contains(err.Message, "no direction to go from") {
				t.Errorf("%q: %+v, %v", k.text, f, err)
			}
			continue
		}
		if err != nil || len(f.Rooms) != 1 || !slices.Equal(f.Rooms[0].Walls, k.want) {
			t.Errorf("%q: %+v, %v", k.text, f, err)
		}
	}
	if w, err := ReadWall("left 1 m", Wall{Bearing: 0}, false, plane.NoUnits); err != nil || w.Bearing != 270 {
		t.Errorf("%+v, %v", w, err)
	}
	if w, err := ReadWall("360 1 m", Wall{Bearing: 90}, true, plane.NoUnits); err != nil || w.Bearing != 90 {
		t.Errorf("%+v, %v", w, err)
	}
}
