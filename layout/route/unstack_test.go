package route

import (
	"fmt"
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
