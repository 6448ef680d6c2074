package route

import (
	"fmt"
	"math"
	"testing"

	"oxturn/layout/plane"
)

// TestLeadsMakeWayForOneAnother: five leads go to starts of heat along a border of 75 mm,
// the far ones past the joints of the near ones. There is floor for all of them side by
// side, on the fine raster: none lies on another or crosses it, nor comes beside heating
// cable.
func TestLeadsMakeWayForOneAnother(t *testing.T) {
	p := roomOf(t, plane.Rectangle(plane.Pt(0, 0), plane.Pt(3000, 1500)), nil, 75, nil)
	p.Entry = plane.Pt(0, 40)
	var routes []Route
	for i, x := range []float64{400, 900, 1400, 1900, 2400} {
		p.Cables = append(p.Cables, Cable{ID: fmt.Sprint("H", i+1), Length: 1000})
		routes = append(routes, Route{Cable: i,
			Path: []plane.Point{plane.Pt(x, 75), plane.Pt(x, 1400), plane.Pt(x+100, 1400)}})
	}
	r := &room{p: p, steps: p.steps()}
	if f := r.leads(routes); f != nil {
		t.Fatal(f.what)
	}
	for i, rt := range routes {
		for _, other := range routes[:i] {
			if s := Stacked(rt.ColdLead, other.ColdLead, p.Entry); s.Length > 0 {
				t.Errorf("lead %d lies on lead %d for %.0f mm", i, other.Cable, s.Length)
			}
		}
		for _, s := range Samples(rt.ColdLead, 0, 5) {
			for _, other := range routes {
				if d := plane.PathDistance(other.Path, s.At); other.Cable != i && d < 5 {
					t.Fatalf("lead %d comes within %.1f mm of cable %d", i, d, other.Cable)
				}
			}
		}
		for _, other := range routes {
			if OverJoint(rt.ColdLead, other.Path[0]) {
				t.Errorf("lead %d lies on the joint of %d", i, other.Cable)
			}
		}
	}
	if f := crossedLeads(routes); f != nil {
		t.Error(f.what)
	}
}

// Less on one another is better, whatever the length; to a millimetre alike, the shorter by
// more than one.
func TestTheBetterLeads(t *testing.T) {
	of := func(stacked, length float64) *drawn { return &drawn{stacked: stacked, length: length} }
	for _, c := range []struct {
		a, b *drawn
		want bool
	}{
		{of(0, 900), of(10, 100), true}, {of(10, 100), of(0, 900), false}, {of(0, 98), of(0, 100), true},
		{of(0, 99), of(0, 100), false}, {of(0, 98.9), of(0, 100), true}, {of(1, 98), of(0, 100), true},
		{of(1.5, 98), of(0, 100), false}, {of(0, 101), of(1, 100), false}, {of(0, 101), of(1.5, 100), true},
	} {
		if got := c.a.better(c.b); got != c.want {
			t.Errorf("%g mm, %g on others, better than %g, %g: %v", c.a.length, c.a.stacked, c.b.length, c.b.stacked,
				got)
		}
	}
}

// A lead along another for 300 mm lies on it for so much, looked at every 3 mm; from 5.5 mm
// off it lies beside it, and near the entry all lie together.
func TestHowMuchLeadLiesOnAnother(t *testing.T) {
	entry := plane.Pt(-5000, 0)
	for y, want := range map[float64]float64{0: 300, leadThick - 0.6: 300, leadThick - 0.4: 0} {
		s := Stacked(points(0, y, 300, y), points(-1000, 0, 1000, 0), entry)
		if math.Abs(s.Length-want) > 3 || want > 0 && s.At.Dist(plane.Pt(150, y)) > 3 {
			t.Errorf("%g mm off: %+v, want %g", y, s, want)
		}
	}
	if s := Stacked(points(0, 0, nearEntry+300, 0), points(-1000, 0, 1000, 0), plane.Pt(0,
		0)); math.Abs(s.Length-300) > 3 {
		t.Errorf("from the entry on: %+v", s)
	}
	for off, want := range map[float64]bool{jointOff - 0.6: true, jointOff - 0.4: false} {
		if OverJoint(points(0, 0, 300, 0), plane.Pt(100, off)) != want {
			t.Errorf("a joint %g mm off: %v", off, !want)
		}
	}
	if OverJoint(points(0, 0, 300, 0), plane.Pt(300, 0)) {
		t.Error("its own joint")
	}
}
