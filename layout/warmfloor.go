package layout

import "oxturn/layout/plane"

// A WarmFloor is the surface of a room's floor once it has settled, left on, over its
// cables as they lie: at least as warm as Cold, at most as Hot, as Warm has it over even
// runs. Package warmth works it out; where it cannot, Problem says why and nothing else
// is there.
type WarmFloor struct {
	Problem   string
	Spot      float64 // mm across, about a sole: what a spot's temperature is the mean of
	Cold, Hot FloorState
}

// A FloorState is one of the two cases.
type FloorState struct {
	Air          float64      // °C
	Mean, Spread float64      // °C of the surface over the heated floor, and its standard deviation, K
	Raster       plane.Raster // over the room and a little beyond it
	Spots        []float64    // °C of the spot about each cell's centre, row by row; NoFloor far from any
	Coldest      *FloorSpot   // of those where a foot can stand; nil: nowhere
	Warmest      *FloorSpot
}

// NoFloor stands for a spot that no floor is near, °C: the absolute zero.
const NoFloor = -273.15

// A FloorSpot is a place on the floor with its temperature, °C.
type FloorSpot struct {
	At      plane.Point
	Celsius float64
}

// Alike reports whether both cases are the same.
func (w *WarmFloor) Alike() bool { return w.Cold.Mean == w.Hot.Mean && w.Cold.Air == w.Hot.Air }
