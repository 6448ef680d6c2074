package draft_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/layout/draft"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

func read(t *testing.T, name string, o draft.Options) *draft.Found {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	found, bad := draft.Read(name, data, o)
	if bad != nil {
		t.Fatalf("%s: %v", name, bad)
	}
	return found
}

// near holds a figure to a share of what it should be.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*math.Abs(want) {
		t.Errorf("%s is %.6g, want %.6g", what, got, want)
	}
}

// Both drawings were written by another library, ezdxf 0.18.1: one of release 2000 with
// closed polylines, one of release 12 with loose lines. Areas by hand.
func TestDrawings(t *testing.T) {
	curved := read(t, "curved.dxf", draft.Options{})
	r := curved.Rooms[0]
	if len(r.Arcs) != 1 || r.Arcs[0].Into {
		t.Errorf("curved walls: %v", r.Arcs)
	}
	near(t, "a room with a quarter round", roomIn(t, curved).Outline.Area(), 3200*2000-1000*1000*(1-math.Pi/4), 1e-3)
	if len(curved.Rooms) != 1 || len(r.KeepOuts) != 2 {
		t.Fatalf("%d rooms, %d keep-outs", len(curved.Rooms), len(r.KeepOuts))
	}
	for _, k := range r.KeepOuts {
		if k.Name == "columns" && (k.Diameter != 200 || k.At.Dist(plane.Pt(1500, 1000)) > 0.01) {
			t.Errorf("the column is %v", k)
		}
		if k.Name == "fix" {
			near(t, "the fixture", k.Outline.Area(), 700*600, 1e-6)
		}
	}
	said := strings.Join(curved.Dropped, "\n")
	for _, want := range []string{"7.48 m²", "layer GRID", "1 thing of kind TEXT"} {
		if !strings.Contains(said, want) {
			t.Errorf("nothing is said of %q in:\n%s", want, said)
		}
	}
	lines := read(t, "lines.dxf", draft.Options{Unit: "in"})
	near(t, "a room of loose lines", lines.Rooms[0].Outline.Area(), (120*96-48*36)*25.4*25.4, 1e-6)
}

// Curved things in a room, written by ezdxf 0.18.1: a tub of two half circles, a counter whose
// front is hollow, a bowl of two flat arcs and a pillar drawn as two half circles. Areas by
// hand; none comes as sides.
func TestCurvedThings(t *testing.T) {
	segment := func(chord, rise float64) float64 {
		r := (chord*chord/4 + rise*rise) / (2 * rise)
		a := math.Asin(chord / 2 / r)
		return r * r * (a - math.Sin(2*a)/2)
	}
	want := map[string]struct {
		area    float64
		corners int
	}{"tub": {1000*700 + math.Pi*350*350, 4}, "counter": {1200*600 - segment(1200, 100), 4},
		"bowl": {2 * segment(800, 150), 4}, "pillar": {math.Pi * 200 * 200, 0}}
	found := read(t, "bent.dxf", draft.Options{Layer: "WALLS"})
	r := roomIn(t, found)
	if len(found.Rooms[0].KeepOuts) != len(want) || len(r.KeepOuts) != len(want) {
		t.Fatalf("%d keep-outs", len(r.KeepOuts))
	}
	for i, k := range found.Rooms[0].KeepOuts {
		w := want[k.Name]
		if len(k.Outline) != w.corners || (k.Rises == nil) != (w.corners == 0) {
			t.Errorf("%s: %d corners, rises %v", k.Name, len(k.Outline), k.Rises)
		}
		near(t, k.Name, r.KeepOuts[i].Outline.Area(), w.area, 8e-3)
	}
	if said := strings.Join(found.Took, "\n"); !strings.Contains(said, "3 of them with curved sides") {
		t.Error(said)
	}
}

// roomIn is the first room of what was found, as a job has it.
func roomIn(t *testing.T, found *draft.Found) *job.Room {
	t.Helper()
	text := "units = \"mm\"\n" + head + found.Text(plane.Millimetres)
	j, report := job.Read("a.toml", []byte(text), nil)
	if report.Errors() > 0 {
		t.Fatalf("%v\n%s", report.Diagnostics(), text)
	}
	return &j.Rooms[0]
}

// Walls of a drawing that are bent come as curves: by bulges either way round and into the
// room, by arcs between lines, more than a half circle in two. Areas by hand.
func TestBentWalls(t *testing.T) {
	const open, line = "0\nSECTION\n2\nENTITIES\n", "0\nLWPOLYLINE\n8\nW\n70\n1\n"
	v := func(x, y int, bulge string) string { return fmt.Sprintf("10\n%d\n20\n%d\n42\n%s\n", x, y, bulge) }
	half, quarter := math.Pi/2*1e6, 1e6*(math.Pi/2-1) // over 2 m: a half circle, a quarter of one
	loose := func(x1, y1, x2, y2 int) string {
		return fmt.Sprintf("0\nLINE\n8\nW\n10\n%d\n20\n%d\n11\n%d\n21\n%d\n", x1, y1, x2, y2)
	}
	for name, c := range map[string]struct {
		text string
		area float64
		arcs int
	}{
		"half circle": {line + v(0, 0, "0") + v(3000, 0, "1") + v(3000, 2000, "0") + v(0, 2000, "0"), 6e6 + half, 1},
		"clockwise":   {line + v(0, 0, "0") + v(0, 2000, "0") + v(3000, 2000, "-1") + v(3000, 0, "0"), 6e6 + half, 1},
		"into it": {line + v(0, 0, "0") + v(3000, 0, "-0.41421356237") + v(3000, 2000, "0") + v(0, 2000, "0"),
			6e6 - quarter, 1},
		"three quarters": {line + v(0, 0, "0") + v(3000, 0, "2.41421356237") + v(3000, 2000, "0") + v(0, 2000, "0"),
			6e6 + 2e6*3*math.Pi/4 + 1e6, 2},
		"arc and lines": {loose(0, 0, 3000, 0) + loose(0, 2000, 0, 0) + loose(0, 2000, 3000, 2000) +
			"0\nARC\n8\nW\n10\n3000\n20\n1000\n40\n1000\n50\n270\n51\n90\n", 6e6 + half, 1},
	} {
		found, bad := draft.Read("a.dxf", []byte(open+c.text), draft.Options{Unit: "mm"})
		if bad != nil {
			t.Errorf("%s: %v", name, bad)
			continue
		}
		if n := len(found.Rooms[0].Arcs); n != c.arcs {
			t.Errorf("%s: %d curved walls", name, n)
		}
		near(t, name, roomIn(t, found).Outline.Area(), c.area, 1e-3)
	}
}

// A wall of a scan within the room is a partition up to the wall it meets, its door a doorway
// in it: an invented room of 4 by 3 m with a wall 1.5 m from its left, which ends 40 mm short.
func TestScanWithin(t *testing.T) {
	wall := func(x, z, width float64, across bool) string {
		turn := "1,0,0,0, 0,1,0,0, 0,0,1,0"
		if across {
			turn = "0,0,1,0, 0,1,0,0, -1,0,0,0"
		}
		return fmt.Sprintf(`{"dimensions": [%g, 2.4, 0], "transform": [%s, %g,1.2,%g,1]}`, width, turn, x, z)
	}
	found, bad := draft.Read("room.json", []byte(`{"walls": [`+wall(2, 0, 4, false)+","+wall(4, 1.5, 3, true)+","+
		wall(2, 3, 4, false)+","+wall(0, 1.5, 3, true)+","+wall(1.5, 1.04, 2, true)+`], "doors": [`+
		wall(1.52, 1.2, 0.8,
			true)+`], "floors": [{"dimensions": [4, 3, 0], "transform": [1,0,0,0, 0,0,-1,0, 0,1,0,0, 2,0,1.5,1],
		"polygonCorners": [[-2,-1.5,0],[2,-1.5,0],[2,1.5,0],[-2,1.5,0]]}]}`), draft.Options{})
	if bad != nil {
		t.Fatal(bad)
	}
	r := roomIn(t, found)
	if len(r.Partitions) != 1 || len(r.Partitions[0].Openings) != 1 || len(r.Openings) != 0 {
		t.Fatalf("partitions %v, doors %v", r.Partitions, r.Openings)
	}
	p := r.Partitions[0]
	near(t, "the wall's length", p.Length(), 2040, 1e-3)
	near(t, "the doorway's width", p.Openings[0].To-p.Openings[0].From, 800, 1e-3)
	near(t, "the wall's place", p.A.X, 1500, 1e-3)
	if d := math.Abs(p.At((p.Openings[0].From+p.Openings[0].To)/2).Y - 1800); d > 2 {
		t.Errorf("the doorway is %.0f mm off", d)
	}
}

// The scan is of an invented bath of 3.2 by 2.4 m, turned by 23°, whose first wall was
// seen 30 mm short.
func TestScan(t *testing.T) {
	r := read(t, "turned.json", draft.Options{}).Rooms[0]
	size := r.Outline.Bounds()
	near(t, "width", size.W(), 3200, 1e-4)
	near(t, "depth", size.H(), 2400, 1e-4)
	if len(r.Openings) != 1 || r.Openings[0].Kind != "door" {
		t.Fatalf("openings: %v", r.Openings)
	}
	near(t, "the door's place", r.Openings[0].From, 2100, 1e-3)
	near(t, "the door's width", r.Openings[0].Width, 800, 1e-3)
	want := map[string]draft.Fixture{
		"tub":    {Wall: 2, From: 800, Width: 1600, Depth: 750},
		"toilet": {Wall: 3, From: 1000, Width: 400, Depth: 700},
		"vanity": {Wall: 1, From: 500, Width: 600, Depth: 500},
	}
	for _, f := range r.Fixtures {
		w := want[f.Kind]
		got := fmt.Sprintf("%d %.0f %.0f %.0f", f.Wall, f.From, f.Width, f.Depth)
		if got != fmt.Sprintf("%d %.0f %.0f %.0f", w.Wall, w.From, w.Width, w.Depth) {
			t.Errorf("%s: %s", f.Kind, got)
		}
		delete(want, f.Kind)
	}
	if len(want) > 0 {
		t.Errorf("not taken: %v", want)
	}
}

// The floor's own corners win over its walls; a corner in line with its neighbours is none.
func TestScanOfFloor(t *testing.T) {
	found, bad := draft.Read("room.json", []byte(`{"walls": [], "doors": [], "objects": [{"category": "toilet"}],
		"floors": [{"dimensions": [4, 3, 0], "transform": [1,0,0,0, 0,0,-1,0, 0,1,0,0, 2,0,1.5,1],
		"polygonCorners": [[-2,-1.5,0],[0,-1.501,0],[2,-1.5,0],[2,1.5,0],[-2,1.5,0]]}]}`), draft.Options{})
	if bad != nil {
		t.Fatal(bad)
	}
	near(t, "the floor", found.Rooms[0].Outline.Area(), 12e6, 1e-3)
	if n := len(found.Rooms[0].Outline); n != 4 {
		t.Errorf("%d corners", n)
	}
	if said := strings.Join(found.Dropped, "\n"); !strings.Contains(said, "1 thing without a size or a place") {
		t.Errorf("said: %s", said)
	}
}

// Lengths of a degree on the world geodetic system 1984 in metres, published tables (from
// memory): along the meridian 110,574 at the equator, 111,132 at 45°, 111,412 at 60°;
// along the parallel 111,320, 78,847 and 55,800.
func TestGeoJSON(t *testing.T) {
	for _, c := range []struct{ latitude, north, east float64 }{{0, 110574, 111320}, {45, 111132, 78847},
		{60, 111412, 55800}} {
		const part = 1e-4
		lat := c.latitude
		text := fmt.Sprintf(`{"type": "Feature", "properties": {"name": "Lobby"}, "geometry": {"type": "Polygon",
			"coordinates": [[[10, %.7[1]f], [%.7[2]f, %.7[1]f], [%.7[2]f, %.7[3]f], [10, %.7[3]f], [10, %.7[1]f]]]}}`,
			lat, 10+part, lat+part)
		found, bad := draft.Read("lobby.geojson", []byte(text), draft.Options{})
		if bad != nil {
			t.Fatal(bad)
		}
		size := found.Rooms[0].Outline.Bounds()
		near(t, fmt.Sprintf("north at %v", lat), size.H(), c.north*part*1000, 1e-4)
		near(t, fmt.Sprintf("east at %v", lat), size.W(), c.east*part*1000, 1e-4)
	}
	plain := `{"type": "Polygon", "coordinates": ` +
		`[[[0,0],[3,0],[3,2],[0,2],[0,0]],[[1,1],[1,1.3],[1.3,1.3],[1.3,1],[1,1]]]}`
	found, bad := draft.Read("floor.json", []byte(plain), draft.Options{Unit: "m"})
	if bad != nil || found.Rooms[0].Outline.Area() != 6e6 || len(found.Rooms[0].KeepOuts) != 1 {
		t.Errorf("in metres: %v, %v", found, bad)
	}
}

func TestTables(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"directions": {"direction,length (m)\neast,3.2\nnorth,2.4\nwest,3.2\nsouth,2.4\n",
			"east 3200 mm, north 2400 mm, west 3200 mm, south 2400 mm"},
		"turns": {"turn;length\n;12ft 3in\nleft;5ft\nl;3ft\nright;1ft\n90;2ft\n",
			"east 3733.8 mm, north 1524 mm, west 914.4 mm, north 304.8 mm, east 609.6 mm"},
		"bare lengths": {"2.853 m\n1.902 m\n2.85 m\n1.905 m\n",
			"east 2853 mm, north 1902 mm, west 2850 mm, south 1905 mm"},
		"decimal comma": {"direction;length_cm\neast;285,5\n\"47.5deg\";100\nwest;20\n",
			"east 2855 mm, 47.5deg 1000 mm, west 200 mm"},
		"no heads": {"# from the survey\neast,3m\nnorth,2m\nwest,3m\n",
			"east 3000 mm, north 2000 mm, west 3000 mm"},
	} {
		found, bad := draft.Read("walls.csv", []byte(c.text), draft.Options{})
		if bad != nil {
			t.Errorf("%s: %v", name, bad)
			continue
		}
		var got []string
		for _, w := range found.Rooms[0].Walls {
			got = append(got, w.Typed(plane.Millimetres))
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%s: %s", name, strings.Join(got, ", "))
		}
	}
	rooms, bad := draft.Read("walls.csv",
		[]byte("room,direction,length\nHall,east,3m\n,north,2m\n,west,3m\nBath,east,2m\n,north,2m\n,west,2m\n"),
		draft.Options{})
	if bad != nil || len(rooms.Rooms) != 2 || rooms.Rooms[1].Name != "Bath" {
		t.Errorf("two rooms: %+v, %v", rooms, bad)
	}
}

// What is wrong is said with its place and what to do.
func TestRefused(t *testing.T) {
	closed := "0\nSECTION\n2\nENTITIES\n"
	square := func(layer string, at, size int) string {
		return fmt.Sprintf(
			"0\nLWPOLYLINE\n8\n%s\n70\n1\n10\n%[2]d\n20\n%[2]d\n10\n%[3]d\n20\n%[2]d\n10\n%[3]d\n20\n%[3]d"+
				"\n10\n%[2]d\n20\n%[3]d\n",
			layer, at, at+size)
	}
	for _, c := range []struct {
		name, text string
		o          draft.Options
		line       int
		want       string
	}{
		{"a.pdf", "%PDF", draft.Options{}, 0, "none of the files"},
		{"a.csv", "direction,length\neast,3\n", draft.Options{}, 2, "not a length"},
		{"a.csv", "direction,length\nup,3m\n", draft.Options{}, 2, "has no direction to go from"},
		{"a.csv", "wall,way\nA,east\n", draft.Options{}, 1, "no column is called length"},
		{"a.csv", "direction,length (yards)\neast,3\n", draft.Options{}, 1, `unit "yards"`},
		{"a.csv", "\n\n", draft.Options{}, 0, "no room"},
		{"a.csv", "east,3m\xff\n", draft.Options{}, 0, "not UTF-8"},
		{"a.dxf", "AC1015 Binary DXF\r\n\x1a\x00", draft.Options{}, 1, "binary form"},
		{"a.dxf", "0\nSECTION\nxx\nENTITIES\n", draft.Options{}, 3, `"xx" is no group code`},
		{"a.dxf", closed + "0\nLINE\n8\nW\n10\nabc\n20\n0\n", draft.Options{Unit: "mm"}, 10, `"abc" is no number`},
		{"a.dxf", closed + square("W", 0, 3000), draft.Options{}, 0, "does not say what its numbers are in"},
		{"a.dxf", closed + square("W", 0, 30), draft.Options{Unit: "mm"}, 0, "no closed outline"},
		{"a.dxf", closed + square("W", 0, 3000), draft.Options{Unit: "m"}, 6, "3000.00 by 3000.00 m"},
		{"a.dxf", closed + square("W", 0, 3000) + square("V", 5000, 3000), draft.Options{Unit: "mm"}, 0,
			"may be on 2 layers"},
		{"a.dxf", closed + square("W", 0, 3000), draft.Options{Unit: "mm", Layer: "X"}, 0, "on layer X"},
		{"a.json", "{\n \"walls\": [{]}", draft.Options{}, 2, "cannot be read"},
		{"a.json", `{"walls": []}`, draft.Options{}, 0, "do not go round"},
		{"a.geojson", `{"type": "Point", "coordinates": [1, 2]}`, draft.Options{}, 0, "no room"},
		{"a.geojson", `{"type": "Polygon", "coordinates": [[[0,0],[3000,0],[3000,2000],[0,0]]]}`, draft.Options{}, 0,
			"no longitude"},
		{"a.geojson", `{"type": "Polygon", "coordinates": [[[0,0],[3,3],[3,0],[0,3],[0,0]]]}`, draft.Options{Unit: "m"},
			0, "cross"},
	} {
		_, bad := draft.Read(c.name, []byte(c.text), c.o)
		if bad == nil || !strings.Contains(bad.Message, c.want) || bad.Line != c.line {
			t.Errorf("%s %.40q: %+v, want line %d: %s", c.name, c.text, bad, c.line, c.want)
		}
	}
}

// Walls as typed one after the other, as a laser meter types them.
func TestWallsTyped(t *testing.T) {
	before := draft.NoWall
	var got []string
	for _, typed := range []string{"east 3.2 m", "1.400 m", "left 1200", "right 1.1 m", "l 2m", "SOUTH 2.5m",
		"on 100"} {
		w, bad := draft.ReadWall(typed, before, false, plane.Millimetres)
		if bad != nil {
			t.Fatal(bad)
		}
		got, before = append(got, w.Typed(plane.Millimetres)), w
	}
	want := "east 3200 mm, north 1400 mm, west 1200 mm, north 1100 mm, west 2000 mm, south 2500 mm, south 100 mm"
	if strings.Join(got, ", ") != want {
		t.Errorf("got %s", strings.Join(got, ", "))
	}
	if w := (draft.Wall{Bearing: 90, Length: 2844.8}).Typed(plane.Inches); w != "east 9ft 4in" {
		t.Errorf("in feet: %s", w)
	}
	if _, bad := draft.ReadWall("3 m", draft.NoWall, false, plane.Millimetres); bad == nil {
		t.Error("a first wall without a direction is taken")
	}
}

func TestSketch(t *testing.T) {
	rows := draft.Sketch([]plane.Point{{}, {X: 3000}, {X: 3000, Y: 2000}, {Y: 2000}, {}})
	if len(rows) < 10 || !strings.HasPrefix(rows[len(rows)-1], "o") || !strings.Contains(rows[0], "C") ||
		!strings.Contains(rows[len(rows)-1], "A") {
		t.Errorf("%s", strings.Join(rows, "\n"))
	}
	if rows := draft.Sketch([]plane.Point{{}}); rows != nil {
		t.Errorf("of a point: %q", rows)
	}
}

// head is what a job needs beside rooms.
const head = "[membrane]\npitch = \"30 mm\"\n[[cable]]\nid = \"X\"\nvolts = 230\nwatts = 240\nlength = \"20 " +
	"m\"\nlead = \"4 m\"\n"

// Whatever is read comes out as a job that is read again without an error in its text, with
// rooms of the same size.
func TestTextIsRead(t *testing.T) {
	for _, name := range []string{"curved.dxf", "lines.dxf", "turned.json"} {
		found := read(t, name, draft.Options{Unit: map[bool]string{true: "in"}[name == "lines.dxf"]})
		for _, units := range []plane.Units{plane.Millimetres, plane.Inches} {
			text := "units = \"" + units.String() + "\"\n" + head + found.Text(units)
			j, report := job.Read(name+".toml", []byte(text), nil)
			if report.Errors() > 0 {
				var b strings.Builder
				_ = report.Short(&b)
				t.Fatalf("%s\n%s", b.String(), text)
			}
			want := found.Rooms[0].Outline.Area()
			if len(found.Rooms[0].Arcs) > 0 {
				want = 3200*2000 - 1000*1000*(1-math.Pi/4) // curved.dxf, by hand
			}
			near(t, name, j.Rooms[0].Outline.Area(), want, 2e-3)
		}
	}
}

func FuzzWallTable(f *testing.F) {
	for _, text := range []string{"direction,length\neast,3m\nnorth,2m\nwest,3m\n",
		"length (ft);turn\n9,5;left\n8;90\n9 1/2;l\n",
		"wall\tlength\nA\t3,25\nB\t2\n"} {
		f.Add([]byte(text))
	}
	fuzzed(f, "a.csv")
}

func FuzzDrawing(f *testing.F) {
	seeded(f, "curved.dxf", "lines.dxf", "bent.dxf")
	fuzzed(f, "a.dxf")
}

func FuzzScan(f *testing.F) {
	seeded(f, "turned.json")
	fuzzed(f, "a.json")
}

func FuzzGeoJSON(f *testing.F) {
	f.Add([]byte(`{"type":"Polygon","coordinates":[[[0,0],[3,0],[3,2],[0,2],[0,0]]]}`))
	f.Add([]byte(`{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Küche"},"geometry":` +
		`{"type":"MultiPolygon","coordinates":[[[[8.1,47],[8.1001,47],[8.1001,47.0001],[8.1,47]]]]}}]}`))
	fuzzed(f, "a.geojson")
}

func seeded(f *testing.F, files ...string) {
	for _, name := range files {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
}

// fuzzed holds what is read of any bytes, as a file of a name: it is refused with words, or
// its text is a job.
func fuzzed(f *testing.F, name string) {
	f.Fuzz(func(t *testing.T, data []byte) {
		found, bad := draft.Read(name, data, draft.Options{Unit: "m"})
		if bad != nil {
			if bad.Message == "" {
				t.Error("refused without a word")
			}
			return
		}
		text := "units = \"mm\"\n" + head + found.Text(plane.Millimetres)
		if j, report := job.Read("a.toml", []byte(text), nil); j == nil {
			var b strings.Builder
			_ = report.Short(&b)
			t.Errorf("%s\n%s", b.String(), text)
		}
	})
}
