package symbols

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/layout/plane"
)

var east = drawing.Pt{X: 1}

// marks is every mark at a place, along a direction.
func marks(at, dir drawing.Pt) map[string][]drawing.Item {
	return map[string][]drawing.Item{
		"thermostat": Thermostat(at), "lead joint": LeadJoint(at), "halfway": Bar(at, dir, HalfwayBar),
		"quarter": Bar(at, dir, QuarterBar), "end cap": Bar(at, dir, EndBar), "sensor": Sensor(at, "S1"),
		"spare": SpareSensor(at, "S2"), "direction": DirectionArrow(at, dir), "run": RunNumber(at, "12"),
		"datum": Datum(at, dir, "D1"), "revision": RevisionTriangle(at, "B"), "north": North(at, 30),
		"arrowhead": Arrowhead(at, dir), "bar": Bar(at, dir, 3), "check line": CheckLine(at),
		"scale bar": ScaleBar(at, 20, plane.Millimetres, 100), "channel crossing": ChannelCrossing(at),
		"fixing point": FixingPoint(at),
	}
}

// size returns the extent of the mark's first path, its line left out.
func size(items []drawing.Item) (w, h float64) {
	b := drawing.PathBox(items[0].(*drawing.Path).Segs)
	return b.W(), b.H()
}

func TestMarkSizes(t *testing.T) {
	at := drawing.Pt{X: 100, Y: 50}
	for _, c := range []struct {
		name  string
		items []drawing.Item
		w, h  float64
	}{
		{"thermostat", Thermostat(at), 5, 5},
		{"lead joint", LeadJoint(at), 2.5, 2.5},
		{"halfway", Bar(at, east, HalfwayBar), 0, 4},
		{"halfway on an upright run", Bar(at, drawing.Pt{Y: -7}, HalfwayBar), 4, 0},
		{"quarter", Bar(at, east, QuarterBar), 0, 2.5},
		{"end cap", Bar(at, east, EndBar), 0, 3},
		{"run 7", RunNumber(at, "7"), 4, 4},
		{"arrowhead, three to one", Arrowhead(at, east), 2.5, 2.5 / 3},
	} {
		w, h := size(c.items)
		if math.Abs(w-c.w) > 0.01 || math.Abs(h-c.h) > 0.01 {
			t.Errorf("%s is %.3f x %.3f, want %v x %v", c.name, w, h, c.w, c.h)
		}
	}
	// a sensor's dot is 2 mm across with its line
	if b := Sensor(at, "")[0].(*drawing.Path).Box(); math.Abs(b.W()-SensorSize) > 1e-6 {
		t.Errorf("a sensor is %v across", b.W())
	}
}

// Marks on a black-and-white sheet are told apart by form: the spare is hollow.
func TestSpareIsHollow(t *testing.T) {
	at := drawing.Pt{}
	wired, spare := Sensor(at, "S1")[0].(*drawing.Path), SpareSensor(at, "S2")[0].(*drawing.Path)
	if wired.Fill.Lightness() > 0.3 || *spare.Fill != drawing.White {
		t.Error("sensor and spare look alike")
	}
}

// A mark must be drawable anywhere along any line, a line of no length too,
// with its tag clear of the mark and its lettering large enough.
func TestMarksAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-500, 500)
		at := drawing.Pt{X: c.Draw(t, "x"), Y: c.Draw(t, "y")}
		dir := drawing.Pt{X: rapid.Float64Range(-9, 9).Draw(t, "dx"), Y: rapid.Float64Range(-9, 9).Draw(t, "dy")}
		for name, items := range marks(at, dir) {
			s := &drawing.Sheet{Paper: drawing.Paper{W: 1, H: 1}, Items: items}
			if err := s.Check(); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, it := range items {
				if text, ok := it.(*drawing.Text); ok && text.Height < drawing.H25 {
					t.Fatalf("%s is lettered %v mm high", name, text.Height)
				}
			}
		}
	})
	for name, items := range marks(drawing.Pt{}, drawing.Pt{}) {
		if err := (&drawing.Sheet{Paper: drawing.Paper{W: 1, H: 1}, Items: items}).Check(); err != nil {
			t.Errorf("%s along nothing: %v", name, err)
		}
	}
}

func TestTagsStandClear(t *testing.T) {
	for _, dir := range []drawing.Pt{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 1, Y: 1}, {X: -3, Y: 1}} {
		for name, items := range marks(drawing.Pt{X: 50, Y: 50}, dir) {
			if !strings.Contains("sensor spare datum", name) {
				continue
			}
			mark, text := items[0].(*drawing.Path), items[1].(*drawing.Text)
			if mark.Box().Meets(text.Box()) && (dir.X == 0 || dir.Y == 0) {
				t.Errorf("%s along %v: tag %v on mark %v", name, dir, text.Box(), mark.Box())
			}
		}
	}
}

// The letters of a framed mark stay inside its frame.
func TestLettersFitTheirFrames(t *testing.T) {
	at := drawing.Pt{X: 50, Y: 50}
	for name, items := range map[string][]drawing.Item{
		"T": Thermostat(at), "7": RunNumber(at, "7"), "27": RunNumber(at, "27"), "127": RunNumber(at, "127"),
		"A": RevisionTriangle(at, "A"),
	} {
		frame, text := items[0].(*drawing.Path), items[1].(*drawing.Text)
		ring := drawing.Flatten(frame.Segs, 0.01)[0]
		for _, corner := range text.Box().Grow(-0.3).Corners() {
			if !inside(ring, corner) {
				t.Errorf("%s: corner %v of the lettering leaves the frame", name, corner)
			}
		}
	}
}

func inside(ring []drawing.Pt, p drawing.Pt) bool {
	floor := make(plane.Ring, len(ring))
	for i, q := range ring {
		floor[i] = plane.Pt(q.X, q.Y)
	}
	return floor.Contains(plane.Pt(p.X, p.Y))
}

func TestNorthPoints(t *testing.T) {
	at := drawing.Pt{X: 50, Y: 50}
	for degrees, want := range map[float64]drawing.Pt{0: {X: 50, Y: 45}, 90: {X: 55, Y: 50}, 180: {X: 50, Y: 55},
		270: {X: 45, Y: 50}} {
		head := North(at, degrees)[1].(*drawing.Path)
		if tip := head.Segs[0].To; tip.Dist(want) > 1e-9 {
			t.Errorf("north at %v degrees points to %v, want %v", degrees, tip, want)
		}
	}
}

// Every block must be as long on paper as its figures say, at every scale.
func TestScaleBarIsTrue(t *testing.T) {
	unit := map[string]float64{"mm": 1, "m": 1000, "in": plane.Inch, "ft": plane.Foot}
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		for _, s := range drawing.ScalesFor(u) {
			if s.Ratio < 1 {
				continue
			}
			items := ScaleBar(drawing.Pt{X: 30, Y: 20}, s.Ratio, u, 100)
			var end float64
			var last string
			for _, it := range items {
				switch it := it.(type) {
				case *drawing.Path:
					end = drawing.PathBox(it.Segs).X1
				case *drawing.Text:
					last = it.Text
				}
			}
			figure, name, _ := strings.Cut(last, " ")
			var n float64
			if _, err := fmt.Sscan(figure, &n); err != nil {
				t.Fatalf("%s: last figure %q: %v", s.Name, last, err)
			}
			length := end - 30
			if want := n * unit[name] / s.Ratio; math.Abs(length-want) > 1e-9 || want == 0 {
				t.Errorf("%s: %s is drawn %v mm long, want %v", s.Name, last, length, want)
			}
			if length < 40 || length > 102 {
				t.Errorf("%s: the bar is %v mm long", s.Name, length)
			}
		}
	}
}

func TestScaleBarFiguresDoNotTouch(t *testing.T) {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		for _, s := range drawing.ScalesFor(u) {
			var before *drawing.Text
			for _, it := range ScaleBar(drawing.Pt{}, s.Ratio, u, 100) {
				if text, ok := it.(*drawing.Text); ok {
					if before != nil && before.Box().Grow(1).Meets(text.Box()) {
						t.Errorf("%s: %q runs into %q", s.Name, before.Text, text.Text)
					}
					before = text
				}
			}
		}
	}
}

func TestCheckLine(t *testing.T) {
	var ups, downs []float64
	for _, it := range CheckLine(drawing.Pt{X: 20, Y: 30}) {
		p, ok := it.(*drawing.Path)
		if !ok {
			continue
		}
		switch b := drawing.PathBox(p.Segs); {
		case b.Y0 < 30:
			ups = append(ups, b.X0)
		case b.Y1 > 30:
			downs = append(downs, b.X0)
		}
	}
	if len(ups) != 2 || ups[1]-ups[0] != 100 || len(downs) != 2 || math.Abs(downs[1]-downs[0]-101.6) > 1e-9 {
		t.Errorf("ticks at %v above and %v below", ups, downs)
	}
}

func ExampleRunNumber() {
	for _, it := range RunNumber(drawing.Pt{X: 10, Y: 10}, "12") {
		if t, ok := it.(*drawing.Text); ok {
			fmt.Printf("%s at %v,%v\n", t.Text, t.At.X, t.At.Y)
		}
	}
	// Output: 12 at 10,11.25
}
