package tiling

import (
	"testing"

	"oxturn/layout/job"
)

// Layouts of a floor as large as a kitchen's, and of one ten times that.
func BenchmarkLayouts(b *testing.B) {
	for _, side := range []float64{3200, 10000} {
		for b.Loop() {
			if _, err := Layouts(Room{Tiled: rect(side*1.3, side)}, job.Tile{Length: 600, Width: 300}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
