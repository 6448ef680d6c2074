// Package hand is for tests: points and lines in few words.
package hand

import (
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// Points takes x and y in turn.
func Points(xy ...float64) (out []plane.Point) {
	for i := 0; i < len(xy); i += 2 {
		out = append(out, plane.Pt(xy[i], xy[i+1]))
	}
	return out
}

// Segment is the piece from x0, y0 to x1, y1.
func Segment(x0, y0, x1, y1 float64) plane.Segment {
	return plane.Segment{A: plane.Pt(x0, y0), B: plane.Pt(x1, y1)}
}

// Room is a room of walls lettered in order.
func Room(ring plane.Ring) *job.Room {
	r := &job.Room{Outline: ring}
	for i := range ring {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: ring.Edge(i)})
	}
	return r
}
