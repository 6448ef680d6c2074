package route

import (
	"fmt"
	"math"
	"testing"

	"oxturn/layout/plane"
)

func BenchmarkPlainRooms(b *testing.B) {
	for i, r := range plainRooms {
		p := plainRoom(b, i)
		b.Run(r.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkGrowth lays an L of 2 to 200 m².
func BenchmarkGrowth(b *testing.B) {
	for _, area := range []float64{2, 5, 10, 20, 50, 100, 200} {
		side := math.Sqrt(area * 1e6 / 0.75)
		p := roomOf(b, outline(1, side, side), nil, 75, nil)
		p.Entry = plane.Pt(side*0.4, 0)
		p.Cables = []Cable{{ID: "H1", Length: lengthFor(p, p.Zones[0], 3.4)}}
		b.Run(fmt.Sprintf("%.0fm2", area), func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
