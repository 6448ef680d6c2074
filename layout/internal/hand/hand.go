// Package hand is for tests: points and lines in few words, and a small job.
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

// Bath is a bath that one cable fills.
const Bath = `units = "mm"
[membrane]
pitch = 30
roll_width = "1 m"
roll_length = "12 m"
[[cable]]
id = "C"
volts = 240
watts = 360
length = "36 m"
lead = "4 m"
[[room]]
name = "Bath"
corners = [[0, 0], [2400, 0], [2400, 1800], [0, 1800]]
cables = ["C"]
[room.thermostat]
wall = "A"
from = 400
`

// BathLayers are a floor for Bath.
const BathLayers = `
[[layer]]
kind = "tile"
thickness = 10
[[layer]]
kind = "mortar"
thickness = 4
[[layer]]
kind = "membrane"
thickness = 6
[[layer]]
kind = "wood"
thickness = 19
`
