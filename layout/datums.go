package layout

import (
	"fmt"

	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A Datum is the face of a wall that places on the floor are measured from.
type Datum struct {
	Name  string // D1, D2
	Index int    // of the wall
	Wall
}

// Datums are the two faces that everything in a room is measured from. One is nil
// where the room has no wall for it.
type Datums [2]*Datum

// DatumsOf returns a room's datums.
func DatumsOf(r *job.Room) (out Datums) {
	walls := wallsOf(r)
	d1, d2 := DatumWalls(r)
	for i, d := range []int{d1, d2} {
		if d >= 0 {
			out[i] = &Datum{fmt.Sprintf("D%d", i+1), d, walls[d]}
		}
	}
	return out
}

// Both reports whether a place can be measured from two faces.
func (d Datums) Both() bool { return d[0] != nil && d[1] != nil }

// There lists the datums that the room has.
func (d Datums) There() (out []*Datum) {
	for _, one := range d {
		if one != nil {
			out = append(out, one)
		}
	}
	return out
}

// Offsets returns how far p lies from both faces, square to them, in mm; negative
// where the room reaches back behind a face's line, 0 where there is no face.
func (d Datums) Offsets(p plane.Point) (from [2]float64) {
	for i, one := range d {
		if one != nil {
			from[i] = one.FromWall(p)
		}
	}
	return from
}
