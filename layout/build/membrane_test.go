package build_test

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
)

// The take-off counts what the cut plan cuts, and the plan's seams lie on the
// cable's own lattice.
func TestCutPlanOfAJob(t *testing.T) {
	p := trial.Laid(t, hand.Bath)
	l := p.MembraneOf("Bath")
	if l == nil || len(l.Pieces) != 2 || p.MembraneOf("Hall") != nil {
		t.Fatalf("membrane %+v", p.Membrane)
	}
	line := p.TakeOff.Lines[0]
	if line.Code != "membrane" || line.Packs != len(p.Membrane.Packs) ||
		math.Abs(line.Gross-p.Membrane.Taken/1e6) > 1e-9 || !strings.Contains(line.Note.String(),
		"the fewest possible") {
		t.Errorf("take-off %+v", line)
	}
	lattice := p.Rooms[0].Cables[0].Lattice
	for _, s := range l.Seams {
		u, v := lattice.ToPegs(s.A)
		if math.Abs(u-math.Round(u)) > 1e-6 && math.Abs(v-math.Round(v)) > 1e-6 {
			t.Errorf("seam %v is out of step with the cable", s)
		}
	}
}

// A first peg that the job gives is a place of the lattice.
func TestFirstPegIsKept(t *testing.T) {
	p := trial.Laid(t, strings.Replace(hand.Bath, "cables = [\"C\"]", "cables = [\"C\"]\nfirst_peg = [94, 88]", 1))
	u, v := p.Rooms[0].Cables[0].Lattice.ToPegs(plane.Pt(94, 88))
	if math.Abs(u-math.Round(u)) > 1e-6 || math.Abs(v-math.Round(v)) > 1e-6 {
		t.Errorf("the first peg lies at %.3f, %.3f of the lattice", u, v)
	}
	for _, q := range p.Rooms[0].Cables[0].Path[1:] {
		u, v := p.Rooms[0].Cables[0].Lattice.ToPegs(q)
		if math.Abs(u-math.Round(u)) > 1e-3 && math.Abs(v-math.Round(v)) > 1e-3 {
			t.Errorf("a corner lies off the lattice, at %.3f, %.3f", u, v)
		}
	}
}
