package sheets

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// pathsOf returns the boxes of a sheet's paths of a title.
func pathsOf(s *drawing.Sheet, title string) []drawing.Box {
	var out []drawing.Box
	for _, it := range s.Items {
		if p, ok := it.(*drawing.Path); ok && p.Title == title {
			out = append(out, drawing.PathBox(p.Segs))
		}
	}
	return out
}

func buildUpOf(t testing.TB, u plane.Units, spacing float64, layers ...job.Layer) *drawing.Sheet {
	t.Helper()
	p := samplePlan(t, u)
	p.Job.BuildUp = layers
	for i := range p.Rooms[0].Cables {
		p.Rooms[0].Cables[i].Spacing = spacing
	}
	pages, err := buildUp(p)
	if err != nil {
		t.Fatal(err)
	}
	return pages[0].Sheet
}

// A slab is shown between break lines, so that what lies over it can be read;
// what is figured stays true. 10 + 4 + 5.5 + 10 = 29.5 and 29.5 + 120 = 149.5 by
// hand. A layer that is not too thick is drawn to scale, as break lines are for
// what is left out (ISO 128-3: interrupted views).
func TestThickLayersAreBroken(t *testing.T) {
	layers := []job.Layer{
		{Name: "stone", Kind: "tile", Thickness: 10}, {Name: "bed", Kind: "mortar", Thickness: 4},
		{Name: "pegs", Kind: "membrane", Thickness: 5.5},
		{Name: "foam", Kind: "board", Thickness: 10}, {Name: "slab", Kind: "concrete", Thickness: 120},
	}
	s := buildUpOf(t, plane.Millimetres, 90, layers...)
	for _, want := range []string{"29.5", "149.5", "slab, 120 mm (4 3/4\")"} {
		if !strings.Contains(said(s), want) {
			t.Errorf("no %q", want)
		}
	}
	slab := pathsOf(s, "slab")
	level := 0 // break lines through the layer, led past it on both sides
	for _, b := range pathsOf(s, "break line") {
		if b.X0 < slab[0].X0 && b.X1 > slab[0].X1 {
			level++
		}
	}
	if got := (slab[1].Y0 - slab[0].Y0) * s.Ratio; level != 2 || got > 60 {
		t.Errorf("%d break lines across the section, the slab %.0f mm high", level, got)
	}
	if foam := pathsOf(s, "foam"); math.Abs((foam[1].Y0-foam[0].Y0)*s.Ratio-10) > 1e-6 {
		t.Errorf("10 mm of foam are drawn %.1f mm", (foam[1].Y0-foam[0].Y0)*s.Ratio)
	}
	layers[4].Thickness = 60
	if s := buildUpOf(t, plane.Millimetres, 90, layers...); strings.Contains(said(s), "between break lines") {
		t.Error("a slab of 60 mm is broken")
	}
}

// However far apart the runs lie, the section shows two with the sensor midway,
// a whole number of pegs apart as the membrane holds them, and no peg stands
// where cable or sensor lies.
func TestSectionShowsTwoRuns(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		spacing := rapid.Float64Range(40, 300).Draw(rt, "spacing")
		u := rapid.SampledFrom([]plane.Units{plane.Millimetres, plane.Inches}).Draw(rt, "units")
		s := buildUpOf(t, u, spacing, job.Layer{Kind: "tile", Thickness: 10},
			job.Layer{Kind: "membrane", Thickness: 5.5}, job.Layer{Kind: "wood", Thickness: 18})
		runs, sensors, pegs := pathsOf(s, "heating cable"), pathsOf(s, "sensor"), pathsOf(s, "peg")
		pitch := samplePlan(t, u).Job.Membrane.Pitch
		gap := (runs[1].Centre().X - runs[0].Centre().X) * s.Ratio
		if math.Abs(gap/pitch-math.Round(gap/pitch)) > 1e-6 || math.Abs(gap-spacing) > math.Max(pitch/2,
			2*pitch-spacing)+1e-6 {
			rt.Errorf("runs %.1f mm apart for %.1f mm, pitch %.1f", gap, spacing, pitch)
		}
		if len(sensors) != 1 || math.Abs(sensors[0].Centre().X-(runs[0].Centre().X+runs[1].Centre().X)/2) > 1e-6 {
			rt.Errorf("sensors at %v between %v and %v", sensors, runs[0], runs[1])
		}
		for _, p := range pegs {
			for _, c := range append(append([]drawing.Box{}, runs...), sensors...) {
				if c.Grow(-0.05).Meets(p) {
					rt.Errorf("a peg at %v where cable or sensor lies at %v", p, c)
				}
			}
		}
	})
}

// Layers read as their thickness reads everywhere, and the height over the subfloor as its own, which they
// may miss as printed, so that a note says that each is rounded. By hand: 10 + 4 + 5.5 + 10 mm are 29.5 mm,
// in sixteenths of an inch 6 + 3 + 3 + 6 = 18, the sum 18.6 or 1 3/16 in; three times 1/8 in are 9.5 mm and 3
// times 3.2 mm.
func TestLayersReadAsTheirThickness(t *testing.T) {
	layers := func(mm ...float64) (out []job.Layer) {
		for i, v := range mm {
			out = append(out, job.Layer{Name: fmt.Sprintf("layer %d", i+1), Kind: "mortar", Thickness: v})
		}
		return out
	}
	for _, c := range []struct {
		layers []job.Layer
		units  plane.Units
		says   []string
	}{
		{layers(10, 4, 5.5, 10), plane.Millimetres, []string{`layer 1, 10 mm (3/8")`, `layer 3, 5.5 mm (3/16")`,
			`stands 29.5 mm (1 3/16") over`}},
		{layers(3.175, 3.175, 3.175), plane.Inches, []string{`layer 1, 1/8" (3.2 mm)`, `layer 3, 1/8" (3.2 mm)`,
			`stands 3/8" (9.5 mm) over`}},
		{layers(12.7, 25.4), plane.Inches, []string{`layer 2, 1" (25.4 mm)`, `stands 1 1/2" (38.1 mm) over`}},
	} {
		said := ""
		for _, x := range buildUpOf(t, c.units, 90, c.layers...).Texts() {
			said += x.Text + " "
		}
		for _, w := range c.says {
			if !strings.Contains(said, w) {
				t.Errorf("%v: nothing says %q", c.layers, w)
			}
		}
		if !strings.Contains(said, "each rounded") {
			t.Errorf("%v: nothing says that figures are rounded", c.layers)
		}
	}
}

// The names of layers stand in rows that keep clear of each other, beside their layers where
// these are thick enough, and within the border under the section. By hand at 1:5, 10 mm of
// tile, 4 of bed, 6 of membrane: middles 1, 2.4 and 3.4 mm below the surface, rows of 5.4 mm
// from the first on.
func TestNamesOfLayersStandInRows(t *testing.T) {
	s := section{layers: []sectionLayer{{job.Layer{Thickness: 10}, 0, 10}, {job.Layer{Thickness: 4}, -10, 4},
		{job.Layer{Thickness: 6}, -14, 6}}, names: []string{"1", "2", "3"}}
	for i, want := range []float64{1, 6.4, 11.8} {
		if got := s.nameRows(5)[i]; math.Abs(got-want) > 1e-9 {
			t.Errorf("row %d at %g, by hand %g", i+1, got, want)
		}
	}
	if _, _, _, bottom := s.border(5); math.Abs(bottom-(11.8-20.0/5+4)) > 1e-9 {
		t.Errorf("%g mm under the section", bottom)
	}
	for i, want := range []float64{5, 12, 17.4} { // at full size
		if got := s.nameRows(1)[i]; math.Abs(got-want) > 1e-9 {
			t.Errorf("full size: row %d at %g, by hand %g", i+1, got, want)
		}
	}
}
