// Package warmth works out how warm the surface of a floor is from place to place, over
// its cables as they lie, once it has settled.
//
// Heat is given off along the cable's path and spreads in the floor's layers as
// heat.Spreading has it. The floor ends without loss at the walls and at what stands on
// the subfloor, where tile and membrane end; under what stands on the tile it goes on as
// if open to the room. Movement joints are taken as passing heat: cable keeps off either
// side alike, so that little would cross.
package warmth

import (
	"fmt"
	"math"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/plane"
)

// Floors returns the warmth of every room of a plan, nil where a room has no cable or the
// layers are not known.
func Floors(p *layout.Plan) []*layout.WarmFloor {
	out := make([]*layout.WarmFloor, len(p.Rooms))
	if p.Warmth == nil || p.Warmth.Problem != "" {
		return out
	}
	for i := range p.Rooms {
		out[i] = floorOf(p.Warmth, &p.Rooms[i])
	}
	return out
}

// floorOf works out one room; nil where it has no cable.
func floorOf(w *layout.Warmth, r *layout.Room) *layout.WarmFloor {
	h := heatOf(w, r)
	if len(h.lines) == 0 {
		return nil
	}
	out, err := h.over(w, r)
	if err != nil {
		return &layout.WarmFloor{Problem: err.Error()}
	}
	return out
}

// over works out the surface of a room that h warms.
func (h heating) over(w *layout.Warmth, r *layout.Room) (*layout.WarmFloor, error) {
	g, err := newGround(r, h.widest)
	if err != nil {
		return nil, fmt.Errorf("the floor that is open to the air: %w", err)
	}
	cold, err := h.cold.Spreading()
	if err != nil {
		return nil, err
	}
	hot, err := h.hot.Spreading()
	if err != nil {
		return nil, err
	}
	g.deposit(h.lines)
	out := &layout.WarmFloor{Spot: soleSpacings * h.widest}
	out.Cold = g.state(r, cold, w.Room, out.Spot)
	if out.Hot = out.Cold; h.hot.Below != h.cold.Below || w.Room != w.Warmest {
		out.Hot = g.state(r, hot, w.Warmest, out.Spot)
	}
	return out, nil
}

// A heating is what warms a room: its cables, and the floor over all of them together in
// either case, of which the film's coefficient is taken.
type heating struct {
	lines     []line
	widest    float64 // mm between runs, of the cable that has most
	cold, hot heat.Section
}

func heatOf(w *layout.Warmth, r *layout.Room) (h heating) {
	watts, area := 0.0, 0.0 // W, mm² at even runs
	for i := range r.Cables {
		c := &r.Cables[i]
		run := w.Of(c.ID)
		if run == nil || len(c.Path) < 2 {
			continue
		}
		h.cold, h.hot = run.Cold.Section, run.Hot.Section
		h.lines = append(h.lines, line{bent(c.Path, c.BendRadius), c.Label.Watts / c.Label.Length})
		h.widest = math.Max(h.widest, c.Spacing)
		watts, area = watts+c.Label.Watts, area+float64(c.Label.Length*c.Spacing)
	}
	together := h.cold.WattsPerMetre / 1000 * area / watts
	h.cold.Spacing, h.hot.Spacing = together, together
	return h
}

// soleSpacings is how wide a spot is, in spacings of the runs: the mean over a disc so wide has
// nothing left of even runs (the first zero of the Bessel function J1 is at 1.2197 pi), and
// it is about as large as the sole of a foot.
const soleSpacings = 1.22

// state works out one case, in air of so many °C.
func (g *ground) state(r *layout.Room, s heat.Spreading, air, spot float64) layout.FloorState {
	surface := g.surface(s)
	mean, spread := g.over(r.Heated, surface)
	out := layout.FloorState{Air: air, Mean: air + mean, Spread: spread}
	g.spots(&out, surface, spot)
	return out
}

// bent returns a cable's path with its corners rounded, as points.
func bent(path []plane.Point, radius float64) []plane.Point {
	const chords = 4
	out := []plane.Point{path[0]}
	for i := 1; i+1 < len(path); i++ {
		in, on := path[i].Sub(path[i-1]), path[i+1].Sub(path[i])
		turn := plane.Atan2(in.Cross(on), in.Dot(on))
		half := math.Abs(plane.Tan(turn / 2))
		cut := min(radius*half, in.Norm()/2, on.Norm()/2) // from the corner to where the bend begins
		from := path[i].Sub(in.Unit().Mul(cut))
		if half == 0 || cut == 0 {
			out = append(out, path[i])
			continue
		}
		arm := in.Unit().Left().Mul(-math.Copysign(cut/half, turn)) // from the bend's middle
		for k := range chords + 1 {
			out = append(out, from.Sub(arm).Add(arm.Rotate(turn*float64(k)/chords)))
		}
	}
	return append(out, path[len(path)-1])
}
