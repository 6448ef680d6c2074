package warmth

import (
	"oxturn/layout"
	_ "oxturn/layout/spend/intests"
)

// groundOf is newGround of a room that is sound.
func groundOf(r *layout.Room, spacing float64) *ground {
	g, err := newGround(r, spacing)
	if err != nil {
		panic(err)
	}
	return g
}
