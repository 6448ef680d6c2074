package tiling

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Joints of 3 by 2 tiles on a bare floor: two across of 600 mm and one along of 900.
func TestJointsByHand(t *testing.T) {
	all, err := Layouts(Room{Tiled: rect(900, 600)}, job.Tile{Length: 300, Width: 300})
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, s := range all[0].Joints() {
		if mid := s.A.Lerp(s.B, 0.5); rect(900, 600).Depth(mid) > narrowestCut {
			sum += s.Length()
		}
	}
	if math.Abs(sum-(2*600+900)) > 1e-6 {
		t.Errorf("%g mm of joints, want 2100", sum)
	}
}

// Where tiles meet no joint is left out and none is drawn twice: in any pattern all joints
// come to half the tiles' edges, but for those along the floor's own.
func TestJointsAreDrawnOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pattern := rapid.SampledFrom([]string{Straight, Offset, Diagonal, Herringbone}).Draw(t, "pattern")
		w, h := rapid.Float64Range(1500, 4000).Draw(t, "w"), rapid.Float64Range(1500, 4000).Draw(t, "h")
		all, err := Layouts(Room{Tiled: rect(w, h)}, job.Tile{Length: 400, Width: 200, Pattern: pattern})
		if err != nil {
			t.Fatal(err)
		}
		got, edges := 0.0, 0.0
		for _, s := range all[0].Joints() {
			if all[0].Floor.Depth(s.A.Lerp(s.B, 0.5)) > narrowestCut {
				got += s.Length()
			}
		}
		for _, p := range all[0].Pieces() {
			for _, ring := range p.Floor {
				for i := range ring {
					if e := ring.Edge(i); all[0].Floor.Depth(e.A.Lerp(e.B, 0.5)) > narrowestCut {
						edges += e.Length()
					}
				}
			}
		}
		if math.Abs(got-edges/2) > 0.01*edges {
			t.Fatalf("%s: %.0f mm of joints, half the edges are %.0f", pattern, got, edges/2)
		}
	})
}

// Both start lines are joints, square to each other, and their points lie on them.
func TestStartLiesOnJoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		floor, _ := squaredFloor(t)
		pattern := rapid.SampledFrom([]string{Straight, Offset, Diagonal, Herringbone}).Draw(t, "pattern")
		all, err := Layouts(Room{Tiled: floor}, job.Tile{Length: 300, Width: 150, Joint: 4, Pattern: pattern})
		if err != nil {
			t.Fatal(err)
		}
		s, ok := all[0].Start()
		if !ok {
			t.Fatal("no start")
		}
		square := s.Along.B.Sub(s.Along.A).Unit().Dot(s.Across.B.Sub(s.Across.A).Unit())
		if math.Abs(square) > 1e-9 || s.Along.Distance(s.At) > 1e-6 || s.Across.Distance(s.At) > 1e-6 ||
			s.Along.Distance(s.Second) > 1e-6 || s.At.Dist(s.Second) < 150 || !floor.Contains(s.At) {
			t.Fatalf("%s: %+v", pattern, s)
		}
		if pattern == Herringbone {
			return
		}
		for _, p := range all[0].Pieces() { // a joint runs between tiles, not through one
			for _, line := range []plane.Segment{s.Along} {
				mid := p.Tile.Bounds().Centre()
				if d := line.Distance(mid); d < 74 && p.Tile.Contains(mid) {
					t.Fatalf("%s: a tile's middle is %g off the start line", pattern, d)
				}
			}
		}
	})
}
