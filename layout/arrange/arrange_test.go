package arrange

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// room is a room of 3 by 2 m with things placed in every way.
const room = `units = "mm"

[membrane]
pitch = 30

[[cable]]
id = "X"
volts = 230
watts = 300
length = "20 m"
lead = "4 m"

[[room]]
name = "Bath" # the upper one
corners = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]

[[room.partition]]
name = "screen"
from = "A 1.5 m"
to = "A 1.5 m, 0.9 m"

[[room.opening]]
wall = "B"
from = 600 # from the corner
width = 760

[[room.fixture]]
kind = "vanity"
wall = "C"
to_end = "20cm"

[[room.fixture]]
kind = "toilet"
wall = "D"
centre = "1 m"  # where the flange is

[[room.fixture]]
kind = "shower"
corner = "A"
width = 800
depth = 800

[[room.fixture]]
kind = "drain"
at = ["40 cm", 400]

[[room.fixture]]
kind = "register"
beside = "vanity"
side = "before"
gap = 50

[[room.keep_out]]
name = "post"
outline = [
  [1800, 1000], # nearest the door
  ["2 m", 1000],
  [2000, 1200],
]

[[room.joint]]
from = "A 2.4 m"
to = "C 0.6 m"

[[room.fixing]]
kind = "door stop"
at = "B 1.8 m, 60 mm"

[room.thermostat]
wall = "A"
from = 2700
`

// read reads a job without any other file.
func read(t interface{ Fatal(...any) }, text string) *job.Job {
	j, r := job.Read("job.toml", []byte(text), func(string) ([]byte, error) { return nil, os.ErrNotExist })
	if j == nil {
		t.Fatal(r.Diagnostics())
	}
	return j
}

func rooms(t interface{ Fatal(...any) }, text string) []Room {
	all, err := Rooms(read(t, text), text)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func thing(t *testing.T, all []Room, table string) Thing {
	t.Helper()
	for _, r := range all {
		for _, th := range r.Things {
			if th.Table == table {
				return th
			}
		}
	}
	t.Fatalf("there is no %s", table)
	return Thing{}
}

func TestWhatCanBeMoved(t *testing.T) {
	all := rooms(t, room)
	for _, c := range []struct {
		table, kind, way string
		side             string
		low, high        float64
	}{
		{"room/0/partition/0", "partition", ByEnds, "", 0, 0},
		{"room/0/opening/0", "opening", OnSide, "B", 600, 1360},
		{"room/0/fixture/0", "vanity", OnSide, "C", 3000 - 200 - 762, 2800},
		{"room/0/fixture/1", "toilet", OnSide, "D", 1000 - 190.5, 1000 + 190.5},
		{"room/0/fixture/2", "shower", InCorner, "", 0, 0},
		{"room/0/fixture/3", "drain", Free, "", 0, 0},
		{"room/0/fixture/4", "register", OnSide, "C", 2038 - 50 - 254, 2038 - 50},
		{"room/0/keep_out/0", "keep_out", Free, "", 0, 0},
		{"room/0/joint/0", "joint", ByEnds, "", 0, 0},
		{"room/0/fixing/0", "fixing", Free, "", 0, 0},
		{"room/0/thermostat", "thermostat", OnSide, "A", 2700, 2700},
	} {
		th := thing(t, all, c.table)
		side := ""
		if th.Side >= 0 {
			side = all[0].Sides[th.Side].Name
		}
		if th.Kind != c.kind || th.Way != c.way || side != c.side ||
			c.side != "" && math.Abs(th.Low-c.low)+math.Abs(th.High-c.high) > 0.01 {
			t.Errorf("%s: %+v on %s", c.table, th, side)
		}
	}
	if n := len(all[0].Sides); n != 6 || all[0].Sides[4].Name != "screen" || all[0].Sides[5].Face != "right" {
		t.Errorf("%d sides: %+v", n, all[0].Sides)
	}
}

// What is moved stands in the file in the way it stood there before, the same unit and the same
// comment behind it.
func TestMoved(t *testing.T) {
	for _, c := range []struct {
		name     string
		move     Move
		old, now string
	}{
		{"along its wall", Move{Table: "room/0/opening/0", Way: OnSide, Side: 1, Low: 700},
			"from = 600 # from", "from = 700 # from"},
		{"from the other end, in its unit", Move{Table: "room/0/fixture/0", Way: OnSide, Side: 2, Low: 1000},
			`to_end = "20cm"`, `to_end = "123.8 cm"`},
		{"by its middle", Move{Table: "room/0/fixture/1", Way: OnSide, Side: 3, Low: 1050 - 190.5},
			`centre = "1 m"  # where`, `centre = "1.05 m"  # where`},
		{"to another wall", Move{Table: "room/0/fixture/1", Way: OnSide, Side: 1, Low: 500 - 190.5},
			"wall = \"D\"\ncentre = \"1 m\"  # where", "wall = \"B\"\ncentre = \"0.5 m\"  # where"},
		{"to the far face of a partition", Move{Table: "room/0/fixture/1", Way: OnSide, Side: 5, Low: 400 - 190.5},
			"wall = \"D\"\ncentre = \"1 m\"  # where the flange is\n",
			"wall = \"screen\"\ncentre = \"0.4 m\"  # where the flange is\nface = \"right\"\n"},
		{"away from what it stood beside", Move{Table: "room/0/fixture/4", Way: OnSide, Side: 2, Low: 100},
			"beside = \"vanity\"\nside = \"before\"\ngap = 50\n", "wall = \"C\"\nfrom = 100\n"},
		{"to another corner", Move{Table: "room/0/fixture/2", Way: InCorner, Corner: "B"},
			`corner = "A"`, `corner = "B"`},
		{"out of its corner", Move{Table: "room/0/fixture/2", Way: OnSide, Side: 0, Low: 100},
			"corner = \"A\"\nwidth = 800\ndepth = 800\n", "width = 800\ndepth = 800\nwall = \"A\"\nfrom = 100\n"},
		{"into the middle of the floor", Move{Table: "room/0/fixture/2", Way: Free, By: XY{600, 200}},
			"corner = \"A\"\nwidth = 800\ndepth = 800\n", "width = 800\ndepth = 800\nat = [1000, 600]\n"},
		{"each coordinate in its own unit", Move{Table: "room/0/fixture/3", Way: Free, By: XY{55, -1.25}},
			`at = ["40 cm", 400]`, `at = ["45.5 cm", 398.8]`},
		{"an outline with its comments", Move{Table: "room/0/keep_out/0", Way: Free, By: XY{-100, 50}},
			"[1800, 1000], # nearest the door\n  [\"2 m\", 1000],\n  [2000, 1200],",
			"[1700, 1050], # nearest the door\n  [\"1.9 m\", 1050],\n  [1900, 1250],"},
		{"both ends along their walls", Move{Table: "room/0/joint/0", Way: ByEnds, By: XY{-200, 70}},
			"from = \"A 2.4 m\"\nto = \"C 0.6 m\"", "from = \"A 2.2 m\"\nto = \"C 0.8 m\""},
		{"one end to another wall", Move{Table: "room/0/joint/0", Way: ByEnds, End: "to", To: XY{3000, 900}, Side: 1},
			`to = "C 0.6 m"`, `to = "B 0.9 m"`},
		{"off its wall as it was taped", Move{Table: "room/0/fixing/0", Way: Free, By: XY{-40, -300}},
			`at = "B 1.8 m, 60 mm"`, `at = "B 1500 mm, 100 mm"`},
		{"the box", Move{Table: "room/0/thermostat", Way: OnSide, Side: 1, Low: 300},
			"wall = \"A\"\nfrom = 2700", "wall = \"B\"\nfrom = 300"},
	} {
		got, err := Moved(read(t, room), room, c.move)
		want := strings.Replace(room, c.old, c.now, 1)
		if err != nil || want == room {
			t.Errorf("%s: %v", c.name, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", c.name, diff)
		}
	}
}

func TestMovesThatCannotBe(t *testing.T) {
	for _, m := range []Move{
		{Table: "room/0/fixture/9", Way: Free},
		{Table: "room/1/fixture/0", Way: Free},
		{Table: "room/0", Way: Free},
		{Table: "", Way: Free},
		{Table: "room/0/opening/0", Way: Free},
		{Table: "room/0/keep_out/0", Way: OnSide},
		{Table: "room/0/fixture/0", Way: OnSide, Side: 6},
		{Table: "room/0/fixture/0", Way: OnSide, Side: -1},
		{Table: "room/0/fixture/0", Way: InCorner, Corner: "Q"},
		{Table: "room/0/fixture/0", Way: "up"},
		{Table: "room/0/joint/0", Way: ByEnds, End: "middle"},
	} {
		if got, err := Moved(read(t, room), room, m); err == nil || got != room {
			t.Errorf("%+v: %v", m, err)
		}
	}
}

// A thing that was moved lies where it was moved to, as the job's own reader has it, and the file
// has every comment that it had.
func TestMovedThingsLieWhereTheyWereMoved(t *testing.T) {
	texts := []string{room, strings.NewReplacer(`units = "mm"`, `units = "in"`).Replace(inInches)}
	names, _ := filepath.Glob("../../testdata/jobs/*.toml")
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(data), "[[room]]") {
			texts = append(texts, string(data))
		}
	}
	if len(texts) < 4 {
		t.Fatal("the examples are not where they were")
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "job")
		all := rooms(t, text)
		r := rapid.SampledFrom(all).Draw(t, "room")
		if len(r.Things) == 0 {
			return
		}
		th := rapid.SampledFrom(r.Things).Draw(t, "thing")
		m := Move{Table: th.Table, Way: th.Way}
		switch th.Way {
		case OnSide:
			m.Side = rapid.IntRange(0, len(r.Sides)-1).Draw(t, "side")
			over := r.Sides[m.Side].Length - (th.High - th.Low)
			if over < 0 || th.Kind == "opening" && r.Sides[m.Side].Face != "" {
				return
			}
			m.Low = rapid.Float64Range(0, over).Draw(t, "low")
		case InCorner:
			m.Corner = rapid.SampledFrom(r.Sides).Draw(t, "corner").Name
		default:
			m.By = XY{rapid.Float64Range(-20, 20).Draw(t, "x"), rapid.Float64Range(-20, 20).Draw(t, "y")}
		}
		now, err := Moved(read(t, text), text, m)
		if err != nil && th.Way == InCorner {
			return // a partition has none
		}
		if err != nil {
			t.Fatalf("%+v: %v", m, err)
		}
		if a, b := comments(text), comments(now); a != b {
			t.Fatalf("comments: -was +now\n%s", cmp.Diff(a, b))
		}
		if a, b := unmoved(t, text, th.Table), unmoved(t, now, th.Table); !cmp.Equal(a, b) {
			t.Fatalf("something else changed: %s", cmp.Diff(a, b))
		}
		lies(t, now, m, th)
	})
}

// lies holds a moved thing to where it was to lie.
func lies(t *rapid.T, text string, m Move, was Thing) {
	for _, r := range rooms(t, text) {
		for _, th := range r.Things {
			if th.Table != m.Table {
				continue
			}
			const near = plane.Inch / 16
			if m.Way == OnSide && (th.Side != m.Side && r.Sides[th.Side].Name != r.Sides[m.Side].Name ||
				math.Abs(th.Low-m.Low) > near) {
				t.Fatalf("%+v lies %+v\n%s", m, th, text)
			}
			by := th.Shape[0].point().Sub(was.Shape[0].point()).Sub(m.By.point())
			if m.Way == Free && math.Hypot(by.X, by.Y) > 2*near {
				t.Fatalf("%+v was moved by %v too much\n%s", m, by, text)
			}
			return
		}
	}
	// what does not lie anywhere any more is refused by the reader, where it is said why
}

var comment = regexp.MustCompile(`(?m)#.*$`)

func comments(text string) string { return strings.Join(comment.FindAllString(text, -1), "\n") }

// unmoved is a job file but for one table of it.
func unmoved(t *rapid.T, text, table string) any {
	var v map[string]any
	if _, err := toml.Decode(text, &v); err != nil {
		t.Fatal(err)
	}
	var at any = v
	for _, step := range strings.Split(table, "/") {
		switch now := at.(type) {
		case map[string]any:
			at = now[step]
		case []map[string]any:
			var i int
			fmt.Sscan(step, &i)
			at = now[i]
		}
	}
	clear(at.(map[string]any))
	return v
}

const inInches = `units = "in"

[membrane]
pitch = 1.25

[[room]]
name = "Bath"
walls = ["east 9ft", "north 7ft 6in", "west 9ft", "south 90"]

[[room.opening]]
wall = "B"
from = "2ft 3-1/2in" # taped
width = 30

[[room.fixture]]
kind = "vanity"
wall = "C"
centre = 40.5

[room.thermostat]
wall = "A"
from = "4ft 6in"
`

func TestInInches(t *testing.T) {
	for old, move := range map[string]struct {
		m   Move
		now string
	}{
		`from = "2ft 3-1/2in" # taped`: {Move{Table: "room/0/opening/0", Way: OnSide, Side: 1, Low: 12.3 * plane.Inch},
			`from = "1ft 0-5/16in" # taped`},
		`centre = 40.5`: {Move{Table: "room/0/fixture/0", Way: OnSide, Side: 2, Low: 20 * plane.Inch}, `centre = 35`},
		`from = "4ft 6in"`: {Move{Table: "room/0/thermostat", Way: OnSide, Side: 0, Low: 0.75 * plane.Inch},
			`from = "3/4in"`},
	} {
		got, err := Moved(read(t, inInches), inInches, move.m)
		if want := strings.Replace(inInches, old, move.now, 1); err != nil || got != want {
			t.Errorf("%v\n%s", err, cmp.Diff(want, got))
		}
	}
}

func TestAdded(t *testing.T) {
	for _, c := range []struct {
		a    Addition
		want string
	}{
		{Addition{What: "door", Side: 0, Along: 700},
			"[[room.opening]]\nkind = \"door\"\nwall = \"A\"\nfrom = 320\nwidth = 760\n"},
		{Addition{What: "tub", Side: 3, Along: 0}, "[[room.fixture]]\nkind = \"tub\"\nwall = \"D\"\nfrom = 0\n"},
		{Addition{What: "drain", At: XY{1000, 700}}, "[[room.fixture]]\nkind = \"drain\"\nat = [1000, 700]\n"},
		{Addition{What: "column", At: XY{1000, 700}},
			"[[room.fixture]]\nkind = \"column\"\nat = [1000, 700]\nwidth = 300\ndepth = 300\n"},
		{Addition{What: "keep-out", Side: 5, Along: 450},
			"[[room.keep_out]]\nwall = \"screen\"\nface = \"right\"\nfrom = 300\nwidth = 300\ndepth = 300\n"},
		{Addition{What: "joint", At: XY{1000, 700}}, "[[room.joint]]\nfrom = [1000, 0]\nto = [1000, 2000]\n"},
	} {
		c.a.Room = "room/0"
		got, table, err := Added(read(t, room), room, c.a, func(text string) *job.Job { return read(t, text) })
		if err != nil || !strings.Contains(got, "\n"+c.want) || len(got) != len(room)+1+len(c.want) {
			t.Errorf("%s: %v\n%s", c.a.What, err, got)
		}
		thing(t, rooms(t, got), table)
	}
	got, _, err := Added(read(t, room), room, Addition{Room: "room/1", What: "tub"}, nil)
	if err == nil || got != room {
		t.Error("a tub stands in a room that there is not")
	}
}
