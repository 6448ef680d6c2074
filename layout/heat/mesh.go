package heat

import (
	"math"
	"slices"
)

// A mesh cuts the section into rows of cells, top to bottom. The cable lies on
// the face between rows cable-1 and cable; every layer ends on a face.
type mesh struct {
	height []float64 // m
	k      []float64 // W/(m K)
	heat   []float64 // J/(m³ K)
	cable  int
}

// cellGrowth is how much larger cells get per mm beyond one spacing from the
// cable. The uneven part of the field falls by e^(-2 pi) over one spacing, and
// the mean is exact at any cell size.
const cellGrowth = 0.2

// leastColumns cells stand between a cable and the middle of its gap.
const leastColumns = 16

// columns returns the number of columns in half a spacing.
func (s Section) columns() int {
	return max(leastColumns, int(math.Round(s.Spacing/2/s.Cell)))
}

// mesh cuts s, whose defaults must have been filled in.
func (s Section) mesh() mesh {
	var m mesh
	bottom := s.Depth
	for _, l := range slices.Backward(s.layersBetween(0, s.Depth)) {
		m.add(s, l, s.Depth-bottom)
		bottom -= l.Thickness
	}
	slices.Reverse(m.height)
	slices.Reverse(m.k)
	slices.Reverse(m.heat)
	m.cable = len(m.height)
	top := s.Depth
	for _, l := range s.layersBetween(s.Depth, s.Thickness()) {
		m.add(s, l, top-s.Depth)
		top += l.Thickness
	}
	return m
}

// layersBetween returns the layers between two depths in mm, the outer ones cut.
func (s Section) layersBetween(from, to float64) []Layer {
	const sliver = 1e-9 // mm, rounding
	var out []Layer
	top := 0.0
	for _, l := range s.Layers {
		bottom := top + l.Thickness
		cut := l
		cut.Thickness = math.Min(to, bottom) - math.Max(from, top)
		if cut.Thickness > sliver {
			out = append(out, cut)
		}
		top = bottom
	}
	return out
}

// add appends the cells of a layer that begins at distance mm from the cable,
// in the order of growing distance.
func (m *mesh) add(s Section, l Layer, distance float64) {
	var heights []float64
	sum := 0.0
	for {
		h := s.Cell + cellGrowth*math.Max(0, distance+sum-s.Spacing)
		if len(heights) > 0 && sum+h/2 > l.Thickness {
			break
		}
		heights = append(heights, h)
		sum += h
	}
	for _, h := range heights {
		m.height = append(m.height, h*l.Thickness/sum/1000)
		m.k = append(m.k, l.Conductivity)
		m.heat = append(m.heat, l.Density*l.HeatCapacity)
	}
}

// half returns the conductance in W/(m² K) from the middle of row j to its face.
func (m mesh) half(j int) float64 { return 2 * m.k[j] / m.height[j] }

// between returns the conductance in W/(m² K) from row j to row j+1.
func (m mesh) between(j int) float64 { return 1 / (1/m.half(j) + 1/m.half(j+1)) }

// top returns the conductance in W/(m² K) from row 0 to the room through a
// film coefficient.
func (m mesh) top(film float64) float64 { return 1 / (1/film + 1/m.half(0)) }

// bottom returns the conductance in W/(m² K) from the last row to what lies below.
func (m mesh) bottom(b Below) float64 {
	g := m.half(len(m.height) - 1)
	switch b.Kind {
	case FilmBelow, SoilBelow:
		return 1 / (1/g + 1/b.Coefficient)
	case Ground:
		return g
	}
	return 0
}

// shares returns the parts of the cable's power that enter the rows above and
// below its face. A source on a face, eliminated from the equations, splits as
// the conductances from that face do.
func (m mesh) shares() (above, below float64) {
	a, b := m.half(m.cable-1), m.half(m.cable)
	return a / (a + b), b / (a + b)
}
