package arrange

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// store is a room of 3 by 2 m with nothing in it: its walls are A below, B right, C above, D left.
const store = `units = "mm"

[membrane]
pitch = 30

[[room]]
name = "Store"
corners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]
`

// with is the store with more in it.
func with(more string) string { return store + "\n" + more }

// pole is a round thing against a wall, rail a line, post fills the gap between two others.
const (
	pole = "[[room.keep_out]]\nname = \"pole\"\nwall = \"C\"\nfrom = 500\ndiameter = 200\n"
	pair = "[[room.keep_out]]\nname = \"a\"\nwall = \"B\"\nfrom = 0\nwidth = 300\ndepth = 200\n\n" +
		"[[room.keep_out]]\nname = \"b\"\nwall = \"B\"\nfrom = 1200\nwidth = 300\ndepth = 200\n\n"
	post = pair + "[[room.keep_out]]\nname = \"post\"\nwall = \"B\"\nbetween = [\"a\", \"b\"]\ndepth = 150\n"
	isle = "[[room.fixture]]\nkind = \"island\"\nat = [1500, 1000]\nwidth = 600\ndepth = 400\n"
)

// A round thing lies between the ends of its diameter, one in a gap from the one to the other. A
// side's way out is into the room.
func TestWhereThingsLie(t *testing.T) {
	for _, c := range []struct {
		text, table string
		low, high   float64
	}{
		{with(pole), "room/0/keep_out/0", 500, 700},
		{with(post), "room/0/keep_out/2", 300, 1200},
	} {
		th := thing(t, rooms(t, c.text), c.table)
		if math.Abs(th.Low-c.low)+math.Abs(th.High-c.high) > 0.01 {
			t.Errorf("%s lies from %g to %g, not %g to %g", c.table, th.Low, th.High, c.low, c.high)
		}
	}
	screen := "[[room.partition]]\nname = \"screen\"\nfrom = \"A 1 m\"\nto = \"A 1 m, 1 m\"\n\n"
	shelf := "[[room.keep_out]]\nwall = \"Screen\"\nfrom = 100\nwidth = 300\ndepth = 100\n\n"
	faces := rooms(t, with(screen+shelf+shelf+strings.Replace(shelf, "from", "face = \"right\"\nfrom", 1)))
	for i, side := range []int{4, 4, 5} {
		if th := thing(t, faces, fmt.Sprintf("room/0/keep_out/%d", i)); th.Side != side {
			t.Errorf("shelf %d is on side %d, not %d", i, th.Side, side)
		}
	}
	three := rooms(t, strings.Replace(store, ", [0, 2000]]", "]", 1))
	if len(three) != 1 || len(three[0].Sides) != 3 {
		t.Errorf("a room of three walls: %+v", three)
	}
	b := rooms(t, store)[0].Sides[1]
	if b.Name != "B" || b.Length != 2000 || b.Out != (XY{-1, 0}) {
		t.Errorf("%+v", b)
	}
}

func TestMovedOtherwise(t *testing.T) {
	for _, c := range []struct {
		name     string
		text     string
		move     Move
		old, now string
	}{
		{"a round thing by its near end", with(pole), Move{Table: "room/0/keep_out/0", Way: OnSide, Side: 1, Low: 100},
			"wall = \"C\"\nfrom = 500", "wall = \"B\"\nfrom = 100"},
		{"a round thing off its wall is not turned", with(pole),
			Move{Table: "room/0/keep_out/0", Way: Free, By: XY{0, -500}},
			"wall = \"C\"\nfrom = 500\ndiameter = 200\n", "diameter = 200\nat = [2400, 1400]\n"},
		{"out of a gap it keeps its width", with(post), Move{Table: "room/0/keep_out/2", Way: OnSide, Side: 2, Low: 10},
			"wall = \"B\"\nbetween = [\"a\", \"b\"]\ndepth = 150\n",
			"wall = \"C\"\ndepth = 150\nwidth = 900\nfrom = 10\n"},
		{"and on the floor, turned as it stood", with(post),
			Move{Table: "room/0/keep_out/2", Way: Free, By: XY{-1000, 0}},
			"wall = \"B\"\nbetween = [\"a\", \"b\"]\ndepth = 150\n",
			"depth = 150\nwidth = 900\nangle = 90\nat = [1925, 750]\n"},
		{"and in a corner", with(post), Move{Table: "room/0/keep_out/2", Way: InCorner, Corner: "D"},
			"wall = \"B\"\nbetween = [\"a\", \"b\"]\ndepth = 150\n", "depth = 150\nwidth = 900\ncorner = \"D\"\n"},
		{"a gap's with a width of its own", with(strings.Replace(post, "depth = 150", "width = 400\ndepth = 150", 1)),
			Move{Table: "room/0/keep_out/2", Way: OnSide, Side: 1, Low: 320},
			"between = [\"a\", \"b\"]\nwidth = 400\ndepth = 150\n", "width = 400\ndepth = 150\nfrom = 320\n"},
		{"from the floor to a wall", with(isle), Move{Table: "room/0/fixture/0", Way: OnSide, Side: 0, Low: 100},
			"at = [1500, 1000]\nwidth = 600\ndepth = 400\n", "width = 600\ndepth = 400\nwall = \"A\"\nfrom = 100\n"},
		{"from the floor to a corner", with(isle), Move{Table: "room/0/fixture/0", Way: InCorner, Corner: "C"},
			"at = [1500, 1000]\nwidth = 600\ndepth = 400\n", "width = 600\ndepth = 400\ncorner = \"C\"\n"},
		{"from the lower wall, square to the floor",
			with("[[room.fixture]]\nkind = \"vanity\"\nwall = \"A\"\nfrom = 100\n"),
			Move{Table: "room/0/fixture/0", Way: Free, By: XY{0, 400}},
			"wall = \"A\"\nfrom = 100\n", "at = [481, 666.7]\n"},
		{"from a falling wall", with("[[room.fixture]]\nkind = \"vanity\"\nwall = \"D\"\nfrom = 100\n"),
			Move{Table: "room/0/fixture/0", Way: Free, By: XY{400, 0}},
			"wall = \"D\"\nfrom = 100\n", "angle = -90\nat = [666.7, 1519]\n"},
		{"by its middle once it has been moved", with(isle), Move{Table: "room/0/fixture/0", Way: Free, By: XY{-1500,
			7}},
			"at = [1500, 1000]", "at = [0, 1007]"},
		{"a corner's with its setback",
			with("[[room.fixture]]\nkind = \"shower\"\ncorner = \"B\"\nfrom = 20\noff = 10\n"),
			Move{Table: "room/0/fixture/0", Way: InCorner, Corner: "C"}, `corner = "B"`, `corner = "C"`},
		{"to the end of its wall", with("[[room.fixture]]\nkind = \"vanity\"\nwall = \"A\"\nto_end = 300\n"),
			Move{Table: "room/0/fixture/0", Way: OnSide, Side: 0, Low: 3000 - 762}, "to_end = 300", "to_end = 0"},
		{"no farther than its end", with("[[room.fixture]]\nkind = \"vanity\"\nwall = \"A\"\nto_end = 300\n"),
			Move{Table: "room/0/fixture/0", Way: OnSide, Side: 0, Low: 2500}, "to_end = 300", "to_end = 0"},
		{"a box by its place on a wall", with("[room.thermostat]\nat = \"A 2.7 m\"\n"),
			Move{Table: "room/0/thermostat", Way: OnSide, Side: 1, Low: 300}, `at = "A 2.7 m"`, `at = "B 0.3 m"`},
		{"a box by its coordinates", with("[room.thermostat]\nat = [2700, 0]\n"),
			Move{Table: "room/0/thermostat", Way: OnSide, Side: 1, Low: 300}, `at = [2700, 0]`, `at = [3000, 300]`},
		{"a drain that was taped", with("[[room.fixture]]\nkind = \"drain\"\nat = \"A 40cm, 300mm\"\n"),
			Move{Table: "room/0/fixture/0", Way: Free, By: XY{-500, 12}}, `"A 40cm, 300mm"`, `"A 0 mm, 312 mm"`},
		{"a joint's end beside a wall", with("[[room.joint]]\nfrom = \"A 1 m, 30 mm\"\nto = [1000, 2000]\n"),
			Move{Table: "room/0/joint/0", Way: ByEnds, By: XY{50, 20}}, "\"A 1 m, 30 mm\"\nto = [1000, 2000]",
			"\"A 1050 mm, 50 mm\"\nto = [1050, 2020]"},
		{"in fractions", with("[[room.fixture]]\nkind = \"drain\"\nat = [700.5, \"-0.1 m\"]\n"),
			Move{Table: "room/0/fixture/0", Way: Free, By: XY{0.25, 400}}, `[700.5, "-0.1 m"]`, `[700.8, "0.3 m"]`},
		{"coordinates in inches", strings.Replace(inInches, "[room.thermostat]",
			"[[room.fixture]]\nkind = \"drain\"\nat = [30, 20.5]\n\n[room.thermostat]", 1),
			Move{Table: "room/0/fixture/1", Way: Free, By: XY{25.4, -2 * 25.4}}, "[30, 20.5]", "[31, 18.5]"},
	} {
		got, err := Moved(read(t, c.text), c.text, c.move)
		want := strings.Replace(c.text, c.old, c.now, 1)
		if err != nil || want == c.text {
			t.Errorf("%s: %v", c.name, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", c.name, diff)
		}
	}
}

// How lengths are written: 1 in is 25.4 mm (by definition); a tape's fractions are sixteenths.
func TestLengthsAsTheyAreWritten(t *testing.T) {
	for _, c := range []struct {
		st    style
		mm    float64
		value string
	}{
		{styleOf(nil, plane.Millimetres), 1234.56, "1234.6"},
		{styleOf(nil, plane.Millimetres), math.Copysign(0, -1), "0"},
		{styleOf(nil, plane.Inches), 30 * 25.4, `"2ft 6in"`},
		{style{units: plane.Inches, bare: true}, 30.26 * 25.4, "30.25"},
		{style{unit: "m"}, 1234.4, `"1.234 m"`},
		{style{unit: "m"}, math.Copysign(0.1, -1), `"0 m"`},
		{style{unit: "cm"}, 1234.4, `"123.4 cm"`},
		{style{unit: "mm"}, 1234.4, `"1234.4 mm"`},
		{style{unit: unitOf(unitAtEnd(), "12 CM", "mm")}, 50, `"5 cm"`},
		{style{unit: unitOf(unitAtEnd(), `2' 6"`, "mm")}, 12 * 25.4, `"1ft 0in"`},
		{style{unit: unitOf(unitAtEnd(), "12", "mm")}, 50, `"50 mm"`},
	} {
		if got := c.st.value(c.mm); got != c.value {
			t.Errorf("%+v: %g mm is %s, not %s", c.st, c.mm, got, c.value)
		}
	}
}

func TestAddedOtherwise(t *testing.T) {
	inches := strings.NewReplacer("pitch = 30", "pitch = 1.25", "3000", `"10ft"`, "2000", `"7ft"`,
		`"mm"`, `"in"`).Replace(store)
	tall := strings.NewReplacer("3000", "1500").Replace(store)
	square := strings.NewReplacer("3000", "2000").Replace(store)
	for _, c := range []struct {
		text string
		a    Addition
		want string
		at   string
	}{
		{store, Addition{What: "door", Side: 0, Along: 2950},
			"[[room.opening]]\nkind = \"door\"\nwall = \"A\"\nfrom = 2240\n" +
				"width = 760\n", "opening/0"},
		{strings.TrimSpace(with(pair)) + "\n", Addition{What: "keep-out", Side: 0, Along: 450},
			"[[room.keep_out]]\nwall = \"A\"\nfrom = 300\n" +
				"width = 300\ndepth = 300\n", "keep_out/2"},
		{store, Addition{What: "hearth", Side: 3, Along: 1000}, "[[room.fixture]]\nkind = \"hearth\"\nwall = \"D\"\n" +
			"from = 620\nwidth = 760\ndepth = 300\n", "fixture/0"},
		{store, Addition{What: "island", At: XY{1500, 900}}, "[[room.fixture]]\nkind = \"island\"\nat = [1500, 900]\n" +
			"width = 600\ndepth = 600\n", "fixture/0"},
		{inches, Addition{What: "door", Side: 2, Along: 60 * 25.4},
			"[[room.opening]]\nkind = \"door\"\nwall = \"C\"\n" +
				"from = \"3ft 9in\"\nwidth = \"2ft 6in\"\n", "opening/0"},
		{tall, Addition{What: "joint", At: XY{700, 900}}, "[[room.joint]]\nfrom = [0, 900]\nto = [1500, 900]\n",
			"joint/0"},
		{square, Addition{What: "joint", At: XY{700, 900}}, "[[room.joint]]\nfrom = [700, 0]\nto = [700, 2000]\n",
			"joint/0"},
	} {
		c.a.Room = "room/0"
		got, table, err := Added(read(t, c.text), c.text, c.a, func(text string) *job.Job { return read(t, text) })
		if err != nil || !strings.HasSuffix(got, "\n\n"+c.want) || table != "room/0/"+c.at {
			t.Errorf("%s: %v, %s\n%s", c.a.What, err, table, got)
		}
	}
	for _, side := range []int{-1, 4} {
		a := Addition{Room: "room/0", What: "tub", Side: side}
		if got, _, err := Added(read(t, store), store, a, nil); err == nil || got != store {
			t.Errorf("a tub stands against side %d of four", side)
		}
	}
}

// A room is found by its place: two may have one name as long as the job is being written.
func TestRoomsOfOneName(t *testing.T) {
	text := store + strings.Replace(store[strings.Index(store, "[[room]]"):], "3000", "1200", 2)
	a := Addition{Room: "room/1", What: "joint", At: XY{600, 900}}
	got, table, err := Added(read(t, text), text, a, func(text string) *job.Job { return read(t, text) })
	if want := text + "\n[[room.joint]]\nfrom = [0, 900]\nto = [1200, 900]\n"; err != nil || got != want ||
		table != "room/1/joint/0" {
		t.Errorf("%v, %s\n%s", err, table, cmp.Diff(want, got))
	}
}

// A thing that no wall is named for stands against that which most of its places touch.
func TestTouched(t *testing.T) {
	r := read(t, store).Rooms[0]
	all := r.Sides()
	at := func(xy ...float64) (out []plane.Point) {
		for i := 0; i < len(xy); i += 2 {
			out = append(out, plane.Pt(xy[i], xy[i+1]))
		}
		return out
	}
	for _, c := range []struct {
		shape []plane.Point
		side  int
	}{
		{at(100, 0, 400, 0, 400, 300, 100, 300), 0},
		{at(0, 500, 0, 25, 300, 25), 0},        // two on either: the first
		{at(3000, 0, 3000, 900, 2900, 450), 1}, // one on A, two on B
		{at(500, 25), 0}, {at(500, 25.1), -1},  // as near as counts, and farther
		{at(-25, 10), 0}, {at(-25.1, 10), -1}, {at(3025, -25), 0}, // past an end
		{at(1500, 1000), -1}, {nil, -1},
	} {
		if got := touched(all, c.shape); got != c.side {
			t.Errorf("%v touches side %d, not %d", c.shape, got, c.side)
		}
	}
}
