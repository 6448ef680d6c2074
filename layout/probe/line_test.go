package probe

import (
	"math"
	"testing"

	"oxturn/layout/plane"
)

// A quarter bend of radius r takes (2 - π/2) r off the length of its square
// corner. Where the legs are too short the bends share them: an inner leg half
// and half, an end leg whole.
func TestRoundedByHand(t *testing.T) {
	off := 2 - math.Pi/2
	for _, c := range []struct {
		name string
		path []plane.Point
		want float64
	}{
		{"one corner", []plane.Point{{}, {X: 500}, {X: 500, Y: 500}}, 1000 - off*50},
		{"to the right", []plane.Point{{}, {X: 500}, {X: 500, Y: -500}}, 1000 - off*50},
		{"legs as long as the bend", []plane.Point{{}, {X: 50}, {X: 50, Y: 50}}, 100 - off*50},
		{"a short first leg", []plane.Point{{}, {X: 20}, {X: 20, Y: 500}}, 520 - off*20},
		{"a short last leg", []plane.Point{{}, {X: 500}, {X: 500, Y: 20}}, 520 - off*20},
		{"a short leg between", []plane.Point{{}, {X: 500}, {X: 500, Y: 60}, {Y: 60}}, 1060 - 2*off*30},
		{"a step with an end leg of 40", []plane.Point{{}, {X: 40}, {X: 40, Y: 200}, {X: 300, Y: 200}},
			500 - off*40 - off*50},
		{"a step with a last leg of 40", []plane.Point{{}, {X: 260}, {X: 260, Y: 200}, {X: 300, Y: 200}},
			500 - off*40 - off*50},
		{"straight on", []plane.Point{{}, {X: 100}, {X: 300}}, 300},
		{"straight back", []plane.Point{{}, {X: 100}, {X: 40}}, 160},
	} {
		line, along := rounded(c.path, 50)
		if got := along[len(along)-1]; math.Abs(got-c.want) > 0.3 { // chords lie up to 0.05 mm inside an arc
			t.Errorf("%s: %.3f mm, want %.3f", c.name, got, c.want)
		}
		if line[0] != c.path[0] || line[len(line)-1] != c.path[len(c.path)-1] {
			t.Errorf("%s: runs from %v to %v", c.name, line[0], line[len(line)-1])
		}
		for i := 1; i < len(line); i++ {
			if math.Abs(along[i]-along[i-1]-line[i-1].Dist(line[i])) > 1e-9 {
				t.Errorf("%s: %v mm along at %v", c.name, along[i], line[i])
			}
		}
	}
	if line, _ := rounded([]plane.Point{{}, {X: 500}, {X: 500, Y: 500}}, 0); len(line) != 3 {
		t.Errorf("a corner without a bend: %v", line)
	}
	// every chord's end lies on the circle round (450, 50)
	line, _ := rounded([]plane.Point{{}, {X: 500}, {X: 500, Y: 500}}, 50)
	for _, p := range line[1 : len(line)-1] {
		if d := p.Dist(plane.Pt(450, 50)); math.Abs(d-50) > 1e-9 {
			t.Errorf("%v lies %v from the bend's centre", p, d)
		}
	}
}

func TestNearestByHand(t *testing.T) {
	line := []plane.Point{{}, {X: 100}, {X: 100, Y: 200}}
	for _, c := range []struct {
		p, at      plane.Point
		off, share float64
		leg        int
	}{
		{plane.Pt(25, -7), plane.Pt(25, 0), 7, 0.25, 0}, {plane.Pt(110, 150), plane.Pt(100, 150), 10, 0.75, 1},
		{plane.Pt(-3, -4), plane.Pt(0, 0), 5, 0, 0}, {plane.Pt(103, 204), plane.Pt(100, 200), 5, 1, 1},
	} {
		at, off, leg, share := plane.Nearest(line, c.p)
		if at.Dist(c.at) > 1e-9 || math.Abs(off-c.off) > 1e-9 || leg != c.leg || math.Abs(share-c.share) > 1e-9 {
			t.Errorf("%v: %v, %v off, leg %d at %v", c.p, at, off, leg, share)
		}
	}
	if at, off, leg, share := plane.Nearest([]plane.Point{{X: 3, Y: 4}}, plane.Point{}); at != plane.Pt(3, 4) ||
		off != 5 || leg != 0 || share != 0 {
		t.Errorf("of one point: %v, %v, %d, %v", at, off, leg, share)
	}
	// a leg without length has no share of its own
	if _, off, _, share := plane.Nearest([]plane.Point{{}, {}, {X: 0.5}}, plane.Pt(0.5, 1)); off != 1 || share != 1 {
		t.Errorf("%v off at %v", off, share)
	}
}

func TestHeadByHand(t *testing.T) {
	line := []plane.Point{{}, {X: 100}, {X: 100, Y: 200}}
	for mm, want := range map[float64][]plane.Point{
		40: {{}, {X: 40}}, 100: {{}, {X: 100}}, 130: {{}, {X: 100}, {X: 100, Y: 30}}, 900: line,
	} {
		got := head(line, mm)
		same := len(got) == len(want)
		for i := range got {
			same = same && got[i].Dist(want[i]) < 1e-9
		}
		if !same {
			t.Errorf("first %g mm: %v, want %v", mm, got, want)
		}
	}
}
