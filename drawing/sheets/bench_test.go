package sheets

import (
	"testing"

	"oxturn/layout/plane"
)

// BenchmarkSet draws the whole set of a bath.
func BenchmarkSet(b *testing.B) {
	p := samplePlan(b, plane.Inches)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Set(p); err != nil {
			b.Fatal(err)
		}
	}
}
