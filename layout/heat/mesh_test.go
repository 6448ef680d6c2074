package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Layers end on faces and the cable lies on one: the mesh must have the
// floor's thickness, resistance and heat content exactly, above and below it.
func TestMeshKeepsTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSection(t)
		m := s.mesh()
		depth, above, below := 0.0, 0.0, 0.0
		for j, h := range m.height {
			if j < m.cable {
				depth += h * 1000
				above += h / m.k[j]
			} else {
				below += h / m.k[j]
			}
		}
		if math.Abs(depth-s.Depth) > 1e-6 {
			t.Fatalf("cable at %g mm, want %g", depth, s.Depth)
		}
		if math.Abs(above-s.resistanceBetween(0, s.Depth)) > 1e-9 ||
			math.Abs(below-s.resistanceBetween(s.Depth, s.Thickness())) > 1e-9 {
			t.Fatalf("resistance %g above, %g below", above, below)
		}
	})
}

func TestThickGroundTakesFewCells(t *testing.T) {
	s := caseB1
	s.Cell = 1
	s.Layers = append(s.Layers[:1:1], layer("ground", 10_000, 1.5))
	if n := len(s.mesh().height); n > 200 {
		t.Errorf("10 m of ground take %d rows", n)
	}
	if n := (Section{Layers: []Layer{layer("upper", 500, 1), layer("lower", 500, 1), layer("bed", 20, 1)}, Depth: 1010,
		Spacing: 75, Cell: 1}).mesh(); len(n.height) > 200 {
		t.Errorf("1 m above the cable takes %d rows", len(n.height))
	}
	s.Below = Below{Kind: Ground}
	st, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", st.Mean, s.balanced(s.Flux()).surface, 1e-6)
}
