// Package specimen holds a sheet with every line, hatch, mark and outline
// there is, for the tests of the writers and for the eye.
package specimen

import (
	"fmt"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// Where the check line's 100 mm begin and end on the sheet.
var (
	CheckStart = drawing.Pt{X: 30, Y: 275}
	CheckEnd   = drawing.Pt{X: 130, Y: 275}
)

// Sheet returns the specimen on an A3 sheet lying on its side.
func Sheet() *drawing.Sheet {
	paper, _ := drawing.PaperNamed("A3")
	s := &drawing.Sheet{
		ID: "specimen", Title: "Specimen", Description: "Every line, hatch, mark and outline.",
		Paper: paper.Landscape(), Ratio: 20,
	}
	s.Items = append(s.Items, frame(s.Paper)...)
	s.Items = append(s.Items, lines(30, 25)...)
	s.Items = append(s.Items, hatches(30, 115)...)
	s.Items = append(s.Items, lettering(30, 185)...)
	s.Items = append(s.Items, marks(180, 25)...)
	s.Items = append(s.Items, outlines(180, 75)...)
	s.Items = append(s.Items, cable(180, 215)...)
	s.Items = append(s.Items, symbols.CheckLine(CheckStart)...)
	s.Items = append(s.Items, symbols.ScaleBar(drawing.Pt{X: 150, Y: 275}, 20, plane.Millimetres, 100)...)
	s.Items = append(s.Items, symbols.ScaleBar(drawing.Pt{X: 280, Y: 275}, 24, plane.Inches, 100)...)
	return s
}

func frame(p drawing.Paper) []drawing.Item {
	return []drawing.Item{&drawing.Path{Layer: drawing.LayerFrame, Segs: drawing.Rectangle(p.Frame()),
		Stroke: drawing.WallLine()}}
}

func say(x, y float64, s string) *drawing.Text {
	return &drawing.Text{Layer: drawing.LayerText, At: drawing.Pt{X: x, Y: y}, Text: s, Height: drawing.H25}
}

func lines(x, y float64) []drawing.Item {
	kinds := []struct {
		name   string
		stroke *drawing.Stroke
	}{
		{"wall", drawing.WallLine()}, {"cable", drawing.CableLine()}, {"cold lead", drawing.ColdLeadLine()},
		{"sensor lead", drawing.SensorLeadLine()}, {"fixture", drawing.FixtureLine()}, {"seam", drawing.SeamLine()},
		{"joint", drawing.JointLine()}, {"clearance", drawing.ClearanceLine()}, {"hidden", drawing.HiddenLine()},
		{"match", drawing.MatchLine()}, {"thin", drawing.ThinLine()}, {"medium", drawing.MediumLine()},
		{"mark", drawing.MarkLine()},
	}
	var items []drawing.Item
	for i, k := range kinds {
		row := y + 6.5*float64(i)
		items = append(items, say(x, row+1.25, k.name), &drawing.Path{
			Layer: drawing.LayerFloor, Title: k.name + " line", Stroke: k.stroke,
			Segs: drawing.Rounded([]drawing.Pt{{X: x + 35, Y: row}, {X: x + 100, Y: row}, {X: x + 100, Y: row + 4}}, 2),
		})
	}
	return items
}

// hatches fills an L with a hole, so that the patterns meet corners of every kind.
func hatches(x, y float64) []drawing.Item {
	var items []drawing.Item
	for p := drawing.HatchFixture; p <= drawing.HatchBoard; p++ {
		i := int(p)
		at := drawing.Pt{X: x + 24*float64(i%6), Y: y + 32*float64(i/6)}
		var rings [][]drawing.Pt
		for _, ring := range [][]drawing.Pt{
			{{X: 0, Y: 0}, {X: 20, Y: 0}, {X: 20, Y: 12}, {X: 12, Y: 20}, {X: 0, Y: 20}},
			{{X: 4, Y: 4}, {X: 9, Y: 4}, {X: 9, Y: 9}, {X: 4, Y: 9}},
		} {
			for j := range ring {
				ring[j] = ring[j].Add(at)
			}
			rings = append(rings, ring)
			items = append(items, &drawing.Path{Layer: drawing.LayerFixtures, Segs: drawing.Polygon(ring...),
				Stroke: drawing.FixtureLine()})
		}
		items = append(items, drawing.Hatch(rings, p)...)
		items = append(items, say(at.X, at.Y+25, p.String()))
	}
	return items
}

func lettering(x, y float64) []drawing.Item {
	sample := `Hxgjq 0123456789 9'-4 1/2" ½ ¼ ¾ Ø ° ± × ² Ω Å é ș <&> "q"`
	var items []drawing.Item
	for i, h := range []float64{drawing.H25, drawing.H35, drawing.H50} {
		t := say(x, y+9*float64(i), sample)
		t.Height = h
		if h == drawing.H50 {
			t.Text, t.Face = "TITLE 5 mm Bold", fonts.LetteringBold
		}
		items = append(items, t)
	}
	for i, a := range []drawing.Anchor{drawing.Start, drawing.Middle, drawing.End} {
		t := say(x+110+8*float64(i), y+40, "turned 90 gjq")
		t.Angle, t.Anchor = 90, a
		items = append(items, t, boxOf(t))
		t = say(x+50, y+26+6*float64(i), "anchored gjq")
		t.Anchor = a
		items = append(items, t, boxOf(t))
	}
	slant := say(x, y+45, "30 degrees, knock-out")
	slant.Angle, slant.Knockout = 30, 0.5
	return append(items, slant, &drawing.Path{
		Layer: drawing.LayerCable, Segs: drawing.Polyline(drawing.Pt{X: x, Y: y + 30},
			drawing.Pt{X: x + 40, Y: y + 45}), Stroke: drawing.CableLine(),
	})
}

func boxOf(t *drawing.Text) *drawing.Path {
	return &drawing.Path{Layer: drawing.LayerMarks, Segs: drawing.Rectangle(t.Box()),
		Stroke: &drawing.Stroke{Width: 0.13}}
}

func marks(x, y float64) []drawing.Item {
	right, at := drawing.Pt{X: 1}, func(i int) drawing.Pt {
		return drawing.Pt{X: x + 24*float64(i%9), Y: y + 18*float64(i/9)}
	}
	all := [][]drawing.Item{
		symbols.Thermostat(at(0)), symbols.LeadJoint(at(1)), symbols.Bar(at(2), right, symbols.HalfwayBar),
		symbols.Bar(at(3), right, symbols.QuarterBar), symbols.Bar(at(4), right, symbols.EndBar),
		symbols.Sensor(at(5), "S1"),
		symbols.SpareSensor(at(6), "S2"), symbols.DirectionArrow(at(7), right), symbols.RunNumber(at(8), "7"),
		symbols.RunNumber(at(9), "27"), symbols.RunNumber(at(10), "127"), symbols.Datum(at(11), drawing.Pt{Y: -1},
			"D1"),
		symbols.RevisionTriangle(at(12), "A"), symbols.North(at(13), 0), symbols.North(at(14), 30),
		symbols.Arrowhead(at(15), right), symbols.Bar(at(16), drawing.Pt{X: 1, Y: 1}, symbols.HalfwayBar),
		symbols.Bar(at(17), drawing.Pt{Y: 1}, symbols.EndBar),
		symbols.ChannelCrossing(at(18)), symbols.FixingPoint(at(19)),
	}
	var items []drawing.Item
	for i, m := range all {
		if i >= 1 && i <= 7 {
			items = append(items, &drawing.Path{
				Layer: drawing.LayerCable, Stroke: drawing.CableLine(),
				Segs: drawing.Polyline(at(i).Sub(drawing.Pt{X: 8}), at(i)),
			})
		}
		items = append(items, m...)
	}
	return items
}

func outlines(x, y float64) []drawing.Item {
	kinds := []struct {
		kind string
		w, d float64
	}{
		{"toilet", 400, 700}, {"vanity", 900, 530}, {"vanity", 1500, 530}, {"tub", 1524, 762}, {"shower", 914, 914},
		{"cabinet", 900, 610}, {"appliance", 760, 610}, {"island", 1500, 900}, {"column", 300, 300},
		{"hearth", 1200, 450},
		{"drain", 150, 150}, {"register", 300, 100}, {"other", 500, 300},
	}
	var items []drawing.Item
	place := func(i int) drawing.View {
		return drawing.View{Ratio: 50, At: drawing.Pt{X: x + 35*float64(i%6), Y: y + 35*float64(i/6)}}
	}
	along := symbols.OnRight(plane.Segment{A: plane.Pt(0, 0), B: plane.Pt(1, 0)})
	for i, k := range kinds {
		v := place(i)
		items = append(items, symbols.Items(symbols.Fixture(k.kind, k.w, k.d), along, v, drawing.LayerFixtures,
			k.kind)...)
		items = append(items, say(v.At.X, v.At.Y-2, k.kind))
	}
	openings := map[int][]symbols.Shape{
		13: symbols.Door(800, 120, true, false), 14: symbols.Door(800, 120, true, true),
		15: symbols.Door(800, 120, false, false),
		16: symbols.SlidingDoor(1200, 120), 17: symbols.CasedOpening(900, 120), 18: symbols.Threshold(900, 120),
		19: symbols.Window(900, 120), 20: symbols.Flange(89),
	}
	for i := range len(openings) {
		items = append(items, symbols.Items(openings[13+i], along, place(13+i), drawing.LayerFixtures,
			fmt.Sprintf("opening %d", i))...)
	}
	return items
}

// cable is a serpentine with a title.
func cable(x, y float64) []drawing.Item {
	var pts []drawing.Pt
	for i := range 5 {
		left, right := drawing.Pt{X: x + 5, Y: y + 5*float64(i)}, drawing.Pt{X: x + 65, Y: y + 5*float64(i)}
		if i%2 == 1 {
			left, right = right, left
		}
		pts = append(pts, left, right)
	}
	return []drawing.Item{&drawing.Path{Layer: drawing.LayerCable, Title: "cable H1", Segs: drawing.Rounded(pts, 2),
		Stroke: drawing.CableLine()}}
}
