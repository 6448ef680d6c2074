package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// TestMembraneSheet: pieces add up to what is covered, every piece is lettered
// in the room and in a roll, seams and rolls are said, and nothing is measured
// from the thermostat's box, which the sheet does not show.
func TestMembraneSheet(t *testing.T) {
	kitchen := example(t, "kitchen")
	p, s := kitchen.plan, sheet(t, kitchen.set, "membrane")
	laid := laidIn(p, &p.Rooms[0])
	covered := 0.0
	for _, m := range laid.Pieces {
		covered += m.Shape.Area()
		if n := count(s, "M"+strconv.Itoa(m.Number)); n < 2 {
			t.Errorf("M%d stands %d times on the sheet", m.Number, n)
		}
	}
	if math.Abs(covered-p.Membrane.Covered) > 1e-6*covered {
		t.Errorf("pieces of %.0f mm², covered %.0f", covered, p.Membrane.Covered)
	}
	for i := range laid.Seams {
		if !has(s, seamName(i)) {
			t.Errorf("seam %s is not lettered", seamName(i))
		}
	}
	for _, want := range []string{"Pieces", "Seams", "P1", "how it is cut", "left over",
		say.Area(p.Membrane.Covered, plane.Millimetres)} {
		if !strings.Contains(said(s), want) {
			t.Errorf("no %q", want)
		}
	}
	// the marks along a roll add up: its last cut and what is left make its length
	for i, pack := range p.Membrane.Packs {
		last := pack.Cuts[len(pack.Cuts)-1]
		end := last.At + last.Length
		if math.Abs(end+pack.Left-p.Membrane.Stock.Length) > 1e-6 {
			t.Errorf("roll %d: cut to %.0f, %.0f left over", i+1, end, pack.Left)
		}
		if want := fmt.Sprintf("to %.0f; left over: %.0f", end, pack.Left); !strings.Contains(said(s), want) {
			t.Errorf("roll %d: no %q", i+1, want)
		}
	}
	for _, x := range s.Texts() {
		island := pathsOf(s, "island")[0]
		if strings.HasPrefix(x.Text, "M") && x.Height == drawing.H35 && x.Box().Grow(1).Meets(island) {
			t.Errorf("%s at %v leans on the island at %v", x.Text, x.Box(), island)
		}
	}
	if box := p.Rooms[0].Job.Thermostat; has(s, strconv.Itoa(int(box.Along))) {
		t.Errorf("%d is the place of a box that is not drawn", int(box.Along))
	}
}

// A leader to a piece ends in it, even where the piece is a frame: by hand, the
// deepest points of a frame of 200 mm round a hole lie 100 mm from both edges.
func TestDeepest(t *testing.T) {
	frame, err := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1400, 1000))).Less(
		plane.FromRing(plane.Rectangle(plane.Pt(200, 200), plane.Pt(1200, 800))))
	if err != nil {
		t.Fatal(err)
	}
	if p := deepest(frame); !frame.Contains(p) || frame.Depth(p) < 80 {
		t.Errorf("%v lies %.0f mm deep", p, frame.Depth(p))
	}
	if p := deepest(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))); p.Dist(plane.Pt(500,
		500)) > 60 {
		t.Errorf("%v is taken for the middle of a square", p)
	}
}

func count(s *drawing.Sheet, text string) int {
	n := 0
	for _, x := range s.Texts() {
		if x.Text == text {
			n++
		}
	}
	return n
}

// TestBuildUpSheet: every layer with its thickness in both systems, the height
// over the subfloor (10 + 4 + 5.5 + 10 = 29.5 mm by hand), and layers as thick
// on paper as the scale says.
func TestBuildUpSheet(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	p.Job.BuildUp = []job.Layer{
		{Name: "stone", Kind: "tile", Thickness: 10}, {Name: "bed", Kind: "mortar", Thickness: 4},
		{Name: "pegs", Kind: "membrane", Thickness: 5.5},
		{Name: "foam", Kind: "board", Thickness: 10}, {Name: "slab", Kind: "concrete", Thickness: 60},
	}
	set, err := Set(p)
	if err != nil {
		t.Fatal(err)
	}
	s := sheet(t, set, "build-up")
	for _, want := range []string{"stone, 10 mm (3/8\")", "bed, 4 mm (3/16\")", "pegs, 5.5 mm (3/16\")",
		"foam, 10 mm (3/8\")", "slab, 60 mm (2 3/8\")", "stands 29.5 mm (1 3/16\") over the subfloor", "cable"} {
		if !strings.Contains(said(s), want) {
			t.Errorf("no %q in %s", want, said(s))
		}
	}
	var stone []float64
	for _, it := range s.Items {
		if q, ok := it.(*drawing.Path); ok && q.Title == "stone" && q.Layer == drawing.LayerWalls {
			stone = append(stone, drawing.PathBox(q.Segs).Y0)
		}
	}
	if len(stone) < 2 || math.Abs(stone[1]-stone[0]-10/s.Ratio) > 1e-9 {
		t.Errorf("10 mm of stone at 1:%g lie at %v", s.Ratio, stone)
	}
}

// TestStandingThings: an island is found again from both datums, by its extent;
// the same island turned by 30 degrees, by its corners. A line along a datum is
// one row, a skew one two.
func TestStandingThings(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	r := p.Rooms[0].Job
	island := plane.Rectangle(plane.Pt(1000, 400), plane.Pt(1600, 900))
	turned := make(plane.Ring, 4)
	for i, q := range island {
		turned[i] = q.Sub(plane.Pt(1300, 650)).Rotate(math.Pi / 6).Add(plane.Pt(1300, 650))
	}
	v := &floorplan.View{Page: setting.NewPage(p, drawing.Paper{}), Room: &p.Rooms[0], Fig: p.Job.Figures(), Out: 1}
	// D1 is wall A or C (8 ft), D2 the wall square to it
	d1, d2 := layout.DatumWalls(v.Room.Job)
	if rows := v.Extent("island", island); len(rows) != 1 {
		t.Errorf("%d rows for a square island", len(rows))
	} else {
		want := [2]string{"400 to 900", "1000 to 1600"}
		if d1 == 2 {
			want[0] = "624 to 1124"
		}
		if d2 == 1 {
			want[1] = "838 to 1438"
		}
		for k, w := range want {
			if got := strings.ReplaceAll(rows[0][k+1].Text, setting.NoBreak, " "); got != w {
				t.Errorf("D%d of the island: %q, want %q", k+1, got, w)
			}
		}
	}
	if rows := v.Extent("island", turned); len(rows) != 4 || rows[3][0].Text != "island, corner 4" {
		t.Errorf("a turned island: %v", rows)
	}
	if rows := v.Extent("MJ", []plane.Point{{X: 0, Y: 500}, {X: 900, Y: 500}}); len(rows) != 1 {
		t.Errorf("a joint along a datum: %v", rows)
	}
	if rows := v.Extent("MJ", []plane.Point{{X: 0, Y: 500}, {X: 900, Y: 700}}); len(rows) != 2 {
		t.Errorf("a skew joint: %v", rows)
	}
	if len(r.Fixtures) == 0 || len(v.Standing()) != 1 {
		t.Error("no table of what stands in the room")
	}
}

// TestCorners: between two slanting walls lies a corner that no chain gives, so
// that it is listed; their other ends, and a rectangle's corners, are chained.
func TestCorners(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	v := &floorplan.View{Page: setting.NewPage(p, drawing.Paper{}), Room: &p.Rooms[0], Fig: p.Job.Figures(), Out: 1,
		Paper: drawing.View{Ratio: 20}}
	if bs := v.Corners(); bs != nil {
		t.Errorf("a rectangle: %v", bs)
	}
	r := v.Room.Job
	r.Outline = plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 1000}, {X: 2600, Y: 1700}, {X: 2000, Y: 2000},
		{X: 0, Y: 2000}}
	r.Walls = nil
	for i := range r.Outline {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: r.Outline.Edge(i)})
	}
	bs := v.Corners()
	if len(bs) != 1 {
		t.Fatalf("%d blocks", len(bs))
	}
	rows := bs[0].(setting.Table).Rows
	if len(rows) != 1 || rows[0][0].Text != "C - D" || rows[0][1].Text != "1700" || rows[0][2].Text != "2600" {
		t.Errorf("%v", rows)
	}
}

// TestOwnersMapIsOnePage: the page that stays with the house is one page, of
// the examples too.
func TestOwnersMapIsOnePage(t *testing.T) {
	for _, name := range examples {
		maps := 0
		for _, s := range example(t, name).set {
			checkTitleBlock(t, s)
			if strings.HasPrefix(s.Label, "OM-") {
				maps++
				if !strings.Contains(said(s), "Living with the floor") {
					t.Errorf("%s: the owner's map does not say how to live with the floor", name)
				}
			}
		}
		if maps != 1 {
			t.Errorf("%s: the owner's map is %d pages", name, maps)
		}
	}
}
