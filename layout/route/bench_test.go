package route

import (
	"fmt"
	"math"
	"testing"

	"oxturn/layout/plane"
)

// BenchmarkPlainRooms also says how near the routes come to what can be had at all, as
// turns over the fewest and covered over the most, and how easily they are laid.
func BenchmarkPlainRooms(b *testing.B) {
	for i, r := range plainRooms {
		p := plainRoom(b, i)
		b.Run(r.name, func(b *testing.B) {
			var routes []Route
			for b.Loop() {
				var err error
				if routes, err = Solve(p); err != nil {
					b.Fatal(err)
				}
			}
			rt := routes[0]
			ease := EaseOf(rt.Path, p.Pitch, p.Widest)
			b.ReportMetric(float64(rt.Score.Turns)/float64(leastTurns(rt, p.Zones[0], p.Pitch)), "turns/bound")
			b.ReportMetric(rt.Score.Covered/mostCovered(rt, p.Zones[0].Area(), p.Pitch, p.Cables[0].Length),
				"covered/bound")
			b.ReportMetric(ease.Long, "long-runs")
			b.ReportMetric(float64(ease.Jogs)/float64(ease.Runs), "jogs/run")
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

// BenchmarkHalls lays halls with columns of 300 mm and several cables, about 140 mm apart.
func BenchmarkHalls(b *testing.B) {
	for _, c := range []struct{ area, cables, columns float64 }{{200, 8, 40}, {400, 12, 40}, {800, 12, 40}} {
		w := math.Sqrt(c.area * 1e6 * 1.28)
		h := c.area * 1e6 / w
		var columns []plane.Ring
		for k := range int(c.columns) { // 8 by 5
			at := plane.Pt((float64(k%8)+0.5)*w/8, (float64(k/8)+0.5)*h/5)
			columns = append(columns, plane.Rectangle(at.Sub(plane.Pt(150, 150)), at.Add(plane.Pt(150, 150))))
		}
		p := roomOf(b, outline(0, w, h), columns, 75, nil)
		p.Pitch = 60
		length := p.Zones[0].Area()/140 + p.Zones[0].Perimeter()/2
		for k := range int(c.cables) {
			p.Cables = append(p.Cables, Cable{ID: fmt.Sprint("H", k+1), Length: length / c.cables})
		}
		b.Run(fmt.Sprintf("%.0fm2", c.area), func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
