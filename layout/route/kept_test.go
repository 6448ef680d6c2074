package route

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

var update = flag.Bool("update", false, "take the routes as they are now for good")

// A keptRoom is a small room of which the routes are kept.
type keptRoom struct {
	name string
	room func(t fataler) Problem
}

// These rooms are shapes that people tile, with gaps from the closest to the widest.
func TestKeptShapes(t *testing.T) {
	keep(t, "shapes", []keptRoom{
		{"rectangle", func(t fataler) Problem { return plainKept(t, outline(0, 1500, 1200), 3.3) }},
		{"closest gaps", func(t fataler) Problem { return plainKept(t, outline(0, 1400, 1100), 2.25) }},
		{"widest gaps", func(t fataler) Problem { return plainKept(t, outline(1, 1700, 1500), 4.7) }},
		{"L", func(t fataler) Problem { return plainKept(t, outline(1, 1900, 1600), 3.2) }},
		{"U", func(t fataler) Problem { return plainKept(t, outline(2, 2100, 1500), 3.1) }},
		{"T with a narrow leg", func(t fataler) Problem { return plainKept(t, outline(3, 1700, 1800), 2.8) }},
		{"Z", func(t fataler) Problem { return plainKept(t, outline(4, 1800, 1700), 3.6) }},
		{"a peg apart", func(t fataler) Problem {
			p := plainKept(t, outline(1, 800, 700), 1.7)
			p.Closest, p.Bend = 1, 8
			return p
		}},
		{"bay", func(t fataler) Problem { return plainKept(t, outline(5, 1600, 1100), 3.3) }},
	})
}

// These rooms have walls that are not along the pegs.
func TestKeptObliqueWalls(t *testing.T) {
	keep(t, "oblique", []keptRoom{
		{"skewed walls", func(t fataler) Problem { return plainKept(t, outline(6, 2000, 1700), 3.5) }},
		{"rounded", func(t fataler) Problem { return plainKept(t, outline(7, 1500, 1400), 3.2) }},
		{"turned, with a column", func(t fataler) Problem {
			walls, column := outline(0, 1900, 1500), plane.Rectangle(plane.Pt(800, 600), plane.Pt(1050, 800))
			for i := range walls {
				walls[i], column[i] = walls[i].Rotate(0.3), column[i].Rotate(0.3)
			}
			p := roomOf(t, walls, []plane.Ring{column}, 75, nil)
			p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], 3)}}
			return p
		}},
		{"all walls oblique", func(t fataler) Problem { return plainKept(t, scaled(starOutline(4), 700), 3.1) }},
		{"rows at an angle", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1300, 1100), 3.4)
			rows := 0.5
			p.Asks = []Ask{{Rows: &rows}}
			return p
		}},
	})
}

// These rooms have niches, necks and columns.
func TestKeptRaggedFloors(t *testing.T) {
	keep(t, "ragged", []keptRoom{
		{"comb", func(t fataler) Problem { return plainKept(t, scaled(combOutline(4), 420), 2.7) }},
		{"saw", func(t fataler) Problem { return plainKept(t, scaled(sawOutline(), 300), 3) }},
		{"star", func(t fataler) Problem { return plainKept(t, scaled(starOutline(5), 750), 3.1) }},
		{"spiral", func(t fataler) Problem { return plainKept(t, scaled(cellsOutline(spiralCells(4), nil), 400), 3) }},
		{"zigzag", func(t fataler) Problem {
			return plainKept(t, scaled(cellsOutline(zigzagCells(2, 3), nil), 400), 2.9)
		}},
		{"necks", func(t fataler) Problem { return plainKept(t, neckOutline(480, 270), 3) }},
		{"columns", func(t fataler) Problem {
			columns := columnsIn(3, 2)
			for i, c := range columns {
				columns[i] = scaled(c, 480)
			}
			p := roomOf(t, outline(0, 1920, 1440), columns, 75, nil)
			p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], 3)}}
			return p
		}},
	})
}

// These rooms have several, or one whose both ends return.
func TestKeptSeveralCables(t *testing.T) {
	keep(t, "cables", []keptRoom{
		{"two cables share a zone", func(t fataler) Problem {
			p := plainKept(t, outline(1, 2200, 1900), 3.2)
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
			p := plainKept(t, outline(0, 1600, 1300), 3.4)
			p.Cables[0].Ends, p.Cables[0].LeadReach = circuit.BothEnds, 2500
			return p
		}},
		{"three cables share a zone", func(t fataler) Problem {
			p := plainKept(t, outline(0, 2600, 1500), 3.3)
			n := p.Cables[0].Length
			p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.3)}, {ID: "B", Length: math.Round(n * 0.4)},
				{ID: "C", Length: math.Round(n * 0.3)}}
			return p
		}},
		{"two cables whose both ends return", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1800, 1100), 3.1)
			n := p.Cables[0].Length
			p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.5), Ends: circuit.BothEnds},
				{ID: "B", Length: math.Round(n * 0.5), Ends: circuit.BothEnds}}
			return p
		}},
		{"four cables share a zone", func(t fataler) Problem {
			p := plainKept(t, outline(0, 2400, 1400), 3.2)
			n := p.Cables[0].Length
			for k, id := range []string{"A", "B", "C", "D"} {
				p.Cables = append(p.Cables[:k], Cable{ID: id, Length: math.Round(n * (0.22 + 0.02*float64(k)))})
			}
			return p
		}},
		{"a cable for a place", func(t fataler) Problem {
			joint := plane.Segment{A: plane.Pt(900, -50), B: plane.Pt(900, 1500)}
			p := roomOf(t, outline(0, 1800, 900), nil, 75, &joint)
			at := plane.Pt(1500, 400)
			p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], 3.3), Within: &at},
				{ID: "B", Length: lengthFor(p, p.Zones[1], 3.1)}}
			return p
		}},
	})
}

// These rooms ask for where the ends, the runs and the leads are to lie.
func TestKeptWishes(t *testing.T) {
	keep(t, "wishes", []keptRoom{
		{"ends where wanted", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1600, 1300), 3.2)
			p.Low = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(900, 700), plane.Pt(1600, 1300)))}
			p.Avoid = []plane.Region{plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(800, 300)))}
			return p
		}},
		{"power cap", func(t fataler) Problem {
			p := plainKept(t, outline(1, 1900, 1600), 3.6)
			p.Cables[0].WattsPerMetre, p.Cables[0].MaxDensity = 10, 10/0.09
			return p
		}},
		{"rows across", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1700, 1200), 3.3)
			across := math.Pi / 2
			p.Asks = []Ask{{Rows: &across}}
			return p
		}},
		{"short lead", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1700, 1300), 3.1)
			p.Entry, p.Cables[0].LeadReach = plane.Pt(1650, 0), 300
			return p
		}},
		{"lead round the room", func(t fataler) Problem {
			p := plainKept(t, outline(2, 2000, 1500), 3.4)
			p.Entry = plane.Pt(2000, 1400)
			return p
		}},
		{"a start asked for", func(t fataler) Problem {
			p := plainKept(t, outline(1, 1500, 1300), 3.3)
			at := plane.Pt(1400, 500)
			p.Asks = []Ask{{Start: &at}}
			return p
		}},
		{"the box in a corner", func(t fataler) Problem {
			p := plainKept(t, outline(4, 1500, 1300), 3)
			p.Entry = plane.Pt(0, 650)
			p.Cables[0].LeadReach = 1500
			return p
		}},
	})
}

// These rooms go on from what is laid.
func TestKeptLaidParts(t *testing.T) {
	keep(t, "laid parts", []keptRoom{
		{"gone on from a laid part", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1500, 1300), 3.3)
			p.Lattice = &Lattice{Origin: plane.Pt(75, 75), Pitch: 30}
			p.Frozen = [][]plane.Point{points(75, 75, 1425, 75, 1425, 165, 75, 165, 75, 255, 750, 255)}
			return p
		}},
		{"gone on in brief", func(t fataler) Problem {
			p := plainKept(t, outline(1, 1500, 1300), 3.3)
			p.Lattice, p.Brief = &Lattice{Origin: plane.Pt(75, 75), Pitch: 30}, true
			p.Frozen = [][]plane.Point{points(75, 75, 1395, 75, 1395, 165, 75, 165, 75, 255, 450, 255)}
			return p
		}},
		{"one of two laid", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1900, 1100), 3.3)
			n := p.Cables[0].Length
			p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.5)}, {ID: "B", Length: math.Round(n * 0.5)}}
			p.Lattice = &Lattice{Origin: plane.Pt(75, 75), Pitch: 30}
			p.Frozen = [][]plane.Point{points(75, 75, 885, 75, 885, 165, 75, 165, 75, 255, 450, 255)}
			return p
		}},
	})
}

// These rooms have no route.
func TestKeptRefusals(t *testing.T) {
	keep(t, "refusals", []keptRoom{
		{"too short", func(t fataler) Problem { return plainKept(t, outline(0, 1600, 1500), 30) }},
		{"nowhere to go on", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1300, 900), 3.3)
			p.Frozen = [][]plane.Point{points(75, 75, 200, 75, 200, 400)}
			p.Lattice = &Lattice{Origin: plane.Pt(85, 85), Pitch: 30}
			return p
		}},
		{"no lead comes there", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1300, 900), 3.3)
			p.Cables[0].LeadReach = 20
			return p
		}},
		{"no lead comes to the start asked for", func(t fataler) Problem {
			p := plainKept(t, outline(0, 2300, 900), 3.3)
			p.Entry, p.Cables[0].LeadReach = plane.Pt(0, 400), 900
			at := plane.Pt(2200, 500)
			p.Asks = []Ask{{Start: &at}}
			return p
		}},
		{"too narrow for a turn", func(t fataler) Problem { return plainKept(t, outline(0, 1300, 190), 3.3) }},
		{"no steps", func(t fataler) Problem {
			p := plainKept(t, outline(1, 1300, 1100), 3.3)
			p.Steps = &Steps{left: 3000}
			return p
		}},
		{"hardly any steps", func(t fataler) Problem {
			p := plainKept(t, outline(2, 1700, 1300), 2.9)
			p.Steps = &Steps{left: 60_000}
			return p
		}},
	})
}

// These cables are too long for their floor.
func TestKeptTooLong(t *testing.T) {
	keep(t, "too long", []keptRoom{
		{"too long", func(t fataler) Problem { return plainKept(t, outline(1, 1000, 900), 1.7) }},
		{"two cables too long for a zone", func(t fataler) Problem {
			p := plainKept(t, outline(0, 1000, 600), 1.8)
			n := p.Cables[0].Length
			p.Cables = []Cable{{ID: "A", Length: math.Round(n * 0.5)}, {ID: "B", Length: math.Round(n * 0.5)}}
			return p
		}},
	})
}

// plainKept is a room with one cable that fills it at a mean gap of so many pegs.
func plainKept(t fataler, walls plane.Ring, gap float64) Problem {
	p := roomOf(t, walls, nil, 75, nil)
	p.Cables = []Cable{{ID: "A", Length: lengthFor(p, p.Zones[0], gap)}}
	return p
}

// keptText tells a room's routes, or why there are none, by their figures, and what the
// search cost.
func keptText(p Problem) (text string, routes []Route) {
	if p.Steps == nil {
		p.Steps = p.steps()
	}
	purse := p.Steps.left
	routes, err := Solve(p)
	cost := fmt.Sprintf("; %d steps", purse-p.Steps.left)
	if given := p.Steps.GivenUp(); given != nil {
		cost += ", given up: " + strings.Join(given, ", ")
	}
	if refusal := new(Refusal); errors.As(err, &refusal) {
		return fmt.Sprintf("%s (cable %d, zone %d, %.0f to %.0f mm, %.4f cold, lead %.0f, early %v, start %v)",
			refusal.Reason, refusal.Cable, refusal.Zone, refusal.Shortest, refusal.Longest, refusal.Cold, refusal.Lead,
			refusal.Early, refusal.Start) + cost, nil
	}
	var parts []string
	for _, rt := range routes {
		s := rt.Score
		end := rt.Path[len(rt.Path)-1]
		parts = append(parts, fmt.Sprintf("%.0f mm from %.0f,%.0f to %.0f,%.0f: covered %.4f, bare %.3f, evenness "+
			"%.4f, straight %.4f, %d turns, score %.4f, leads %.0f and %.0f mm",
			Length(rt.Path, p.Bend), rt.Path[0].X, rt.Path[0].Y, end.X, end.Y, s.Covered, s.Bare, s.Evenness,
			s.Straight, s.Turns, s.Total, pathLength(rt.ColdLead), pathLength(rt.Return)))
	}
	return strings.Join(parts, "; ") + cost, routes
}

// keep holds the routes of small rooms, which keep the rules, against those that were
// looked at and taken: the floor is nowhere laid otherwise by accident, nor at another
// cost. Where a change of the router means it, look at the rooms and take them:
//
//	go test ./layout/route -run Kept -update
func keep(t *testing.T, group string, rooms []keptRoom) {
	t.Helper()
	var now strings.Builder
	for _, c := range rooms {
		p := c.room(t)
		text, routes := keptText(p)
		fmt.Fprintf(&now, "%s: %s\n", c.name, text)
		if routes != nil {
			judgeKept(t, c.name, p, routes)
		}
	}
	keepText(t, group, now.String())
}

// keepText holds what a test found against what was taken before.
func keepText(t *testing.T, group, now string) {
	t.Helper()
	name := filepath.Join("testdata", "kept", group+".txt")
	if *update {
		if err := os.WriteFile(name, []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Split(string(data), "\n"), strings.Split(now, "\n")); d != "" {
		t.Errorf("where this is meant, look at the room and run: go test ./layout/route -run Kept -update\n%s", d)
	}
}

// judgeKept: what is kept breaks no rule and leaves hardly any floor cold.
func judgeKept(t *testing.T, name string, p Problem, routes []Route) {
	t.Helper()
	if bad := broken(p, routes); bad != nil {
		t.Errorf("%s: %v", name, bad)
	}
	for _, rt := range routes {
		if rt.Score.Covered < 0.97 || rt.Score.Bare > 2.5 {
			t.Errorf("%s: covered %.4f, bare %.2f", name, rt.Score.Covered, rt.Score.Bare)
		}
	}
}

// scaled is a ring k times as large.
func scaled(r plane.Ring, k float64) plane.Ring {
	out := make(plane.Ring, len(r))
	for i, p := range r {
		out[i] = p.Mul(k)
	}
	return out
}
