package route

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

var update = flag.Bool("update", false, "take the routes as they are now for good")

// keptRooms are small rooms that ask for every part of the search: what is laid in each is kept.
var keptRooms = []struct {
	name string
	room func(t fataler) Problem
}{
	{"rectangle", func(t fataler) Problem { return keptRoom(t, outline(0, 1500, 1200), 3.3) }},
	{"closest gaps", func(t fataler) Problem { return keptRoom(t, outline(0, 1400, 1100), 2.25) }},
	{"widest gaps", func(t fataler) Problem { return keptRoom(t, outline(1, 1700, 1500), 4.7) }},
	{"L", func(t fataler) Problem { return keptRoom(t, outline(1, 1900, 1600), 3.2) }},
	{"U", func(t fataler) Problem { return keptRoom(t, outline(2, 2100, 1500), 3.1) }},
	{"T with a narrow leg", func(t fataler) Problem { return keptRoom(t, outline(3, 1700, 1800), 2.8) }},
	{"Z", func(t fataler) Problem { return keptRoom(t, outline(4, 1800, 1700), 3.6) }},
	{"bay", func(t fataler) Problem { return keptRoom(t, outline(5, 1600, 1100), 3.3) }},
	{"skewed walls", func(t fataler) Problem { return keptRoom(t, outline(6, 2000, 1700), 3.5) }},
	{"rounded", func(t fataler) Problem { return keptRoom(t, outline(7, 1500, 1400), 3.2) }},
	{"turned, with a column", func(t fataler) Problem {
		walls, column := outline(0, 1900, 1500), plane.Rectangle(plane.Pt(800, 600), plane.Pt(1050, 800))
		for i := range walls {
			walls[i], column[i] = walls[i].Rotate(0.3), column[i].Rotate(0.3)
		}
		p := roomOf(t, walls, []plane.Ring{column}, 75, nil)
		p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], 3)}}
		return p
	}},
	{"two cables share a zone", func(t fataler) Problem {
		p := keptRoom(t, outline(1, 2200, 1900), 3.2)
		n := p.Cables[0].Length
		p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.6)}, {ID: "B", Length: math.Round(n * 0.4)}}
		return p
	}},
	{"two zones", func(t fataler) Problem {
		joint := plane.Segment{A: plane.Pt(1300, -50), B: plane.Pt(1300, 1500)}
		p := roomOf(t, outline(0, 2200, 1400), nil, 75, &joint)
		p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[1], 3.3)},
			{ID: "B", Length: lengthFor(p, p.Zones[0], 3)}}
		return p
	}},
	{"both ends return", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 1600, 1300), 3.4)
		p.Cables[0].Ends, p.Cables[0].LeadReach = circuit.BothEnds, 2500
		return p
	}},
	{"ends where wanted", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 1600, 1300), 3.2)
		p.Low = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(900, 700), plane.Pt(1600, 1300)))}
		p.Avoid = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(800, 300)))}
		return p
	}},
	{"power cap", func(t fataler) Problem {
		p := keptRoom(t, outline(1, 1900, 1600), 3.6)
		p.Cables[0].WattsPerMetre, p.Cables[0].MaxDensity = 10, 10/0.09
		return p
	}},
	{"rows across", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 1700, 1200), 3.3)
		across := math.Pi / 2
		p.Asks = []Ask{{Rows: &across}}
		return p
	}},
	{"short lead", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 1700, 1300), 3.1)
		p.Entry, p.Cables[0].LeadReach = plane.Pt(1650, 0), 300
		return p
	}},
	{"lead round the room", func(t fataler) Problem {
		p := keptRoom(t, outline(2, 2000, 1500), 3.4)
		p.Entry = plane.Pt(2000, 1400)
		return p
	}},
	{"gone on from a laid part", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 1500, 1300), 3.3)
		p.Lattice = &Lattice{Origin: plane.Pt(75, 75), Pitch: 30}
		p.Frozen = [][]plane.Point{points(75, 75, 1425, 75, 1425, 165, 75, 165, 75, 255, 750, 255)}
		return p
	}},
	{"three cables share a zone", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 2600, 1500), 3.3)
		n := p.Cables[0].Length
		p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.3)}, {ID: "B", Length: math.Round(n * 0.4)},
			{ID: "C", Length: math.Round(n * 0.3)}}
		return p
	}},
	{"too long", func(t fataler) Problem { return keptRoom(t, outline(1, 1500, 1400), 1.7) }},
	{"too short", func(t fataler) Problem { return keptRoom(t, outline(0, 2000, 1800), 14) }},
	{"two cables too long for a zone", func(t fataler) Problem {
		p := keptRoom(t, outline(0, 1600, 1000), 1.8)
		n := p.Cables[0].Length
		p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.5)}, {ID: "B", Length: math.Round(n * 0.5)}}
		return p
	}},
}

func keptRoom(t fataler, walls plane.Ring, gap float64) Problem {
	p := roomOf(t, walls, nil, 75, nil)
	p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], gap)}}
	return p
}

// keptText tells a room's routes, or why there are none, by their figures. The
// leads are not among them: how they go says nothing of the floor's warmth.
func keptText(p Problem, routes []Route, err error) string {
	if err != nil {
		return err.Error()
	}
	var parts []string
	for _, rt := range routes {
		s := rt.Score
		end := rt.Path[len(rt.Path)-1]
		parts = append(parts, fmt.Sprintf("%.0f mm from %.0f,%.0f to %.0f,%.0f: covered %.4f, bare %.3f, evenness "+
			"%.4f, straight %.4f, %d turns",
			Length(rt.Path, p.Bend), rt.Path[0].X, rt.Path[0].Y, end.X, end.Y, s.Covered, s.Bare, s.Evenness,
			s.Straight, s.Turns))
	}
	return strings.Join(parts, "; ")
}

// TestKeptRoutes holds the routes of small rooms, which keep the rules, against
// those that were looked at and taken: the floor is nowhere laid otherwise by
// accident. Where a change of the router means it, look at the rooms and take them:
//
//	go test ./layout/route -run TestKeptRoutes -update
func TestKeptRoutes(t *testing.T) {
	const name = "testdata/kept.txt"
	if *update {
		var all strings.Builder
		for _, c := range keptRooms {
			p := c.room(t)
			routes, err := Solve(p)
			fmt.Fprintf(&all, "%s: %s\n", c.name, keptText(p, routes, err))
		}
		if err := os.WriteFile(name, []byte(all.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	kept := map[string]string{}
	for line := range strings.Lines(string(data)) {
		room, text, _ := strings.Cut(strings.TrimSpace(line), ": ")
		kept[room] = text
	}
	for _, c := range keptRooms {
		t.Run(c.name, func(t *testing.T) {
			p := c.room(t)
			routes, err := Solve(p)
			if d := cmp.Diff(kept[c.name], keptText(p, routes, err)); d != "" {
				t.Errorf("where this is meant, look at the room and run: go test ./layout/route -run TestKeptRoutes "+
					"-update\n%s", d)
			}
			if err == nil {
				judgeKept(t, p, routes)
			}
		})
	}
}

// judgeKept: what is kept breaks no rule and leaves hardly any floor cold.
func judgeKept(t *testing.T, p Problem, routes []Route) {
	t.Helper()
	if bad := broken(p, routes); bad != nil {
		t.Error(bad)
	}
	for _, rt := range routes {
		if rt.Score.Covered < 0.97 || rt.Score.Bare > 2.5 {
			t.Errorf("covered %.4f, bare %.2f", rt.Score.Covered, rt.Score.Bare)
		}
	}
}
