package tube

import (
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// nearest is the least distance of a line, looked at each millimetre, from another.
func nearest(line, other []plane.Point) float64 {
	least := 1e9
	for _, s := range plane.Segments(line) {
		for n, k := int(s.Length())+1, 0; k <= n; k++ {
			least = min(least, plane.PathDistance(other, s.A.Lerp(s.B, float64(k)/float64(n))))
		}
	}
	return least
}

// A tube is some 12 mm thick, a cable 6 mm and a lead joint up to 20 mm
// (common practice): 8 mm and 18 mm between centre lines keep them apart under tile,
// where the pitches below leave as much between two runs.
const (
	offCable = 8 - 0.5
	offJoint = 18 - 0.5
)

// TestTubesKeepOffCableAndJoints: whatever runs stand at the mouth of a gap, a tube
// that is found for a place keeps off cable and lead joint; most places have one.
func TestTubesKeepOffCableAndJoints(t *testing.T) {
	tried, laid := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r, j := unevenRuns(t)
		floor, err := r.LeadFloor()
		if err != nil {
			t.Fatal(err)
		}
		g := groundOf(r, floor, j)
		start := r.Cables[0].Path[0]
		for _, p := range everyPlace(g) {
			tried++
			q, tube := placeWithTube(r, &g, &p)
			if tube == nil {
				continue
			}
			if q.tip == p.tip {
				laid++
			}
			if d := nearest(tube, r.Cables[0].Path); d < offCable {
				t.Fatalf("%.1f mm from cable: %v", d, tube)
			}
			if d := nearest(tube, []plane.Point{start, start}); d < offJoint {
				t.Fatalf("%.1f mm from the lead joint: %v", d, tube)
			}
		}
	})
	if laid < tried*8/10 {
		t.Errorf("%d of %d places reached", laid, tried)
	}
}

// TestAuditLeavesOut: a tube over the cable, one at its lead joint and one through
// the wall are each left out, and the one that remains is the sensor.
func TestAuditLeavesOut(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1000, 1000)))
	r := &layout.Room{Cables: []layout.Cable{{Path: []plane.Point{plane.Pt(300, 300), plane.Pt(300, 900)}}}}
	tube := func(pts ...plane.Point) layout.Sensor { return layout.Sensor{Name: "S2", Spare: true, Lead: pts} }
	good := tube(plane.Pt(500, 0), plane.Pt(500, 800))
	for what, bad := range map[string]layout.Sensor{
		"over the cable":     tube(plane.Pt(200, 500), plane.Pt(400, 500)),
		"beside the cable":   tube(plane.Pt(307, 500), plane.Pt(307, 600)),
		"at the lead joint":  tube(plane.Pt(200, 285), plane.Pt(400, 285)),
		"through the wall":   tube(plane.Pt(900, 100), plane.Pt(1050, 200), plane.Pt(900, 300)),
		"without any length": tube(plane.Pt(900, 100)),
	} {
		kept := auditTubes(r, floor, []layout.Sensor{bad, good}, 20)
		if len(kept) != 1 || kept[0].Lead[0] != good.Lead[0] || kept[0].Name != "S1" || kept[0].Spare {
			t.Errorf("%s: %+v", what, kept)
		}
	}
}
