package plane

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A row through a corner of the ring is crossed once there, on the side where the
// ring goes up: half-open edges.
func TestAcrossCorners(t *testing.T) {
	ring := Ring{{1, 0}, {4, 0}, {4, 3}, {2.5, 1}, {1, 3}}
	want := [][][2]float64{{{1, 4}}, {{1, 2.5}, {2.5, 4}}, {{1, 1.75}, {3.25, 4}}, nil, nil}
	for y, row := range Across([]Ring{ring}, 5, 0) {
		if !slices.Equal(row, want[y]) {
			t.Errorf("row %d: %v, want %v", y, row, want[y])
		}
	}
}

// A raster's cells are those whose centres lie in the region, as Contains has it.
func TestRowsAgainstContains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		region := FromRing(star(t))
		r := RasterOver(region.Bounds(), rapid.Float64Range(30, 300).Draw(t, "cell"))
		rows := r.Rows(region)
		for y := range r.NY {
			for x := range r.NX {
				centre := r.Origin.Add(Pt((float64(x)+0.5)*r.Cell, (float64(y)+0.5)*r.Cell))
				in := slices.ContainsFunc(rows[y], func(s Span) bool { return s.From <= x && x <= s.To })
				if in != region.Contains(centre) && region.Distance(centre) > 1e-6 {
					t.Fatalf("cell %d, %d of %v: %v", x, y, r, in)
				}
			}
		}
	})
}
