package build_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
)

// den is a room of 2.4 m square that a cable of 44 m fills, with more said of it.
func den(says, more string) string {
	return "units = \"mm\"\n[membrane]\npitch = 30\n[[cable]]\nid = \"C\"\nvolts = 230\nwatts = 528\n" +
		"length = \"44 m\"\nlead = \"8 m\"\n[[room]]\nname = \"Den\"\ncables = [\"C\"]\n" +
		"corners = [[0, 0], [2400, 0], [2400, 2400], [0, 2400]]\n" + says +
		"\n[room.thermostat]\nwall = \"A\"\nfrom = 400\n" + more
}

// The heat starts within 300 mm of whatever corner is asked for, however the box lies to it,
// and the runs lie along what they are asked to, an oblique bearing among them.
func TestStartAndDirection(t *testing.T) {
	corners := map[string]plane.Point{"A": {}, "B": {X: 2400}, "C": {X: 2400, Y: 2400}, "D": {Y: 2400}}
	for letter, corner := range corners {
		for along, degrees := range map[string]float64{"A": 0, "north": 90} {
			p, _ := trial.Said(t, den("start = \""+letter+"\"\nalong = \""+along+"\"", ""))
			c := &p.Rooms[0].Cables[0]
			if off := c.Path[0].Dist(corner); off > 75*math.Sqrt2+300 {
				t.Errorf("start %s: it starts %.0f mm off", letter, off)
			}
			if share := alongShare(c, degrees); share < 0.8 {
				t.Errorf("along %s: %.2f of the cable lie so", along, share)
			}
		}
	}
	p, _ := trial.Said(t, den(`along = "60deg"`, ""))
	if share := alongShare(&p.Rooms[0].Cables[0], 30); share < 0.7 {
		t.Errorf("along a bearing of 60 degrees: %.2f of the cable lie so", share)
	}
}

// alongShare is the share of a cable that lies in a direction, degrees from east.
func alongShare(c *layout.Cable, degrees float64) float64 {
	way, all := 0.0, 0.0
	u := plane.Pt(1, 0).Rotate(plane.Radians(degrees))
	for _, s := range plane.Segments(c.Path) {
		if all += s.Length(); math.Abs(s.B.Sub(s.A).Unit().Dot(u)) > 0.999 {
			way += s.Length()
		}
	}
	return way / all
}

// What cannot be met is refused at its place.
func TestAskedInVain(t *testing.T) {
	zone := func(at int, says string) string {
		return "[[room.zone]]\nat = [" + map[int]string{0: "600", 1: "1800"}[at] + ", 1200]\n" + says + "\n"
	}
	const joint = "[[room.joint]]\nfrom = [1200, 0]\nto = [1200, 2400]\n"
	short := strings.Replace(den(`start = "C"`, ""), `lead = "8 m"`, `lead = "2 m"`, 1)
	for _, c := range []struct{ text, want string }{
		{short, "the corner where it is asked to start asks for"},
		{den("", joint+zone(0, `along = "A"`)+zone(1, `along = "20deg"`)), "asked for 20° apart"},
	} {
		_, said := trial.Said(t, c.text)
		words := ""
		for _, d := range said {
			words += strings.Join(d, " ") + "\n"
		}
		if !strings.Contains(words, c.want) {
			t.Errorf("said, not %q: %s", c.want, words)
		}
	}
}

// Every zone that asks for a density gets the cable nearest to it, of two that both fit, and
// the weaker zone is asked for the wider spacing.
func TestDensityOfZones(t *testing.T) {
	text := strings.Replace(parted("[[room.joint]]\nfrom = \"A 3 m\"\nto = \"C 3 m\"\n"+
		"[[room.zone]]\nname = \"warm\"\nat = [1500, 1200]\ndensity = 160\n"+
		"[[room.zone]]\nname = \"mild\"\nat = [4500, 1200]\ndensity = 90\n"), "pitch = 30\n",
		"pitch = 30\n[spacing]\nwidest = 6\n", 1)
	text = strings.Replace(text, "[[room]]", "[[cable]]\nid = \"D\"\nvolts = 230\nwatts = 900\nlength = \"75 m\"\n"+
		"lead = \"4 m\"\n[[cable]]\nid = \"E\"\nvolts = 230\nwatts = 660\nlength = \"55 m\"\n"+
		"lead = \"4 m\"\n[[room]]", 1)
	p, _ := trial.Said(t, text)
	r := &p.Rooms[0]
	if len(r.Cables) != 2 {
		t.Fatalf("%d cables: %v", len(r.Cables), r.Chosen)
	}
	for _, c := range r.Cables {
		// By hand: either zone has 6.3 m² and 10.1 m of edge, so that 12 W/m over 6.3 / (length - 5.05) is 94 W/m² of
		// 55 m, 101 of 58 m and 133 of 75 m.
		want := map[bool]string{true: "D", false: "E"}[c.Path[0].X < 3000]
		if c.Label.ID != want {
			t.Errorf("the zone at %v has cable %s", c.Path[0], c.Label.ID)
		}
	}
	if o, wrong := build.Options(p.Job); len(o) != 2 || o[0].Zone != "warm" || o[1].Asked != 90 || wrong != nil {
		t.Errorf("options: %d, %v", len(o), wrong)
	}
}

// Two cables of one length part a square room in the middle, and the option says where.
func TestSplit(t *testing.T) {
	text := strings.Replace(strings.Replace(den("", ""), "cables = [\"C\"]\n", "cables = [\"C\", \"C\"]\n", 1), "44 m",
		"22 m", 1)
	p, _ := trial.Said(t, strings.Replace(text, "528", "264", 1))
	options, wrong := build.Options(p.Job)
	if wrong != nil {
		t.Fatal(wrong)
	}
	for _, o := range options[0].Options {
		if !o.Taken {
			continue
		}
		if len(o.Splits) != 1 {
			t.Fatalf("%d splits of %v", len(o.Splits), o.IDs)
		}
		s := o.Splits[0]
		middle := s.Line.A.Lerp(s.Line.B, 0.5)
		if middle.Dist(plane.Pt(1200, 1200)) > 100 || s.Line.Length() != 2250 {
			t.Errorf("the line: %v", s.Line)
		}
		a, b := s.Sides[0], s.Sides[1]
		if share := a.Area / (a.Area + b.Area); math.Abs(share-0.5) > 0.03 || a.Side == b.Side {
			t.Errorf("%+v", s.Sides)
		}
		return
	}
	t.Error("nothing is taken")
}

// Three cables of one length in a hall of 6 by 1.4 m lie one beside the other: two lines, at a
// third and at two thirds of it, which part first one cable from two, then those. Off walls
// are 75 mm, 90 lie between two shares.
func TestSplitOfThree(t *testing.T) {
	p, _ := trial.Said(t, "units = \"mm\"\n[membrane]\npitch = 30\n[[cable]]\nid = \"C\"\nvolts = 230\nwatts = 330\n"+
		"length = \"27 m\"\nlead = \"5 m\"\n[[room]]\nname = \"Hall\"\ncables = [\"C\", \"C\", \"C\"]\n"+
		"corners = [[0, 0], [6000, 0], [6000, 1400], [0, 1400]]\n[room.thermostat]\nwall = \"A\"\nfrom = 3000\n")
	options, wrong := build.Options(p.Job)
	if wrong != nil {
		t.Fatal(wrong)
	}
	i := slices.IndexFunc(options[0].Options, func(o build.Option) bool { return o.Taken })
	splits := options[0].Options[i].Splits
	if len(splits) != 2 {
		t.Fatalf("%d lines", len(splits))
	}
	area, cables := 0.0, 0
	for k, s := range splits {
		middle := s.Line.A.Lerp(s.Line.B, 0.5)
		if off := min(math.Abs(middle.X-2000), math.Abs(middle.X-4000)); off > 120 || math.Abs(middle.Y-700) > 1 {
			t.Errorf("line %d: %v", k, s.Line)
		}
		if n := len(s.Sides[0].IDs) + len(s.Sides[1].IDs); n != 3-k || s.Sides[0].Side == s.Sides[1].Side {
			t.Errorf("line %d: %+v", k, s.Sides)
		}
		for _, side := range s.Sides {
			if len(side.IDs) == 1 {
				area, cables = area+side.Area, cables+1
			}
		}
	}
	if want := (5.85 - 2*0.09) * 1.25; math.Abs(area/1e6-want) > 0.02*want || cables != 3 {
		t.Errorf("%d cables on %.2f m²", cables, area/1e6)
	}
}
