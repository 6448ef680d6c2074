package warmth

import (
	"testing"

	"oxturn/layout"
	"oxturn/layout/spend"
)

func TestMain(m *testing.M) {
	spend.Memory()
	m.Run()
}

// groundOf is newGround of a room that is sound.
func groundOf(r *layout.Room, spacing float64) *ground {
	g, err := newGround(r, spacing)
	if err != nil {
		panic(err)
	}
	return g
}
