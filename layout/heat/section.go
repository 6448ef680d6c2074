// Package heat computes how warm an electrically heated floor gets and how
// soon: steady conduction in the floor's section, warm-up, energy.
//
//	      film to the room
//	0 ------------------------------ surface
//	  tile
//	  ------------------------------
//	  mortar        o <- Depth ->  o     one cable every Spacing
//	  ------------------------------
//	  board
//	  ------------------------------
//	      insulated, film, ground or soil
//
// All temperatures are rises in K over the air of the room above. Nothing here
// is a heat-loss calculation: no room temperature is computed or promised.
package heat

import (
	"fmt"
	"math"
)

// A Layer is one layer of the floor. Density and HeatCapacity count for the
// warm-up only.
type Layer struct {
	Name         string
	Thickness    float64 // mm
	Conductivity float64 // W/(m K)
	Density      float64 // kg/m³
	HeatCapacity float64 // J/(kg K)
}

// BelowKind is what lies under the lowest layer.
type BelowKind int

// The things that may lie under the lowest layer.
const (
	Insulated BelowKind = iota // no heat leaves downward
	FilmBelow                  // a room or a void below, through a film coefficient
	Ground                     // ground or anything else held at one temperature, right under the floor
	SoilBelow                  // soil that has settled, through a coefficient, down to the outside air
)

// Below is the lower boundary of a Section.
type Below struct {
	Kind        BelowKind
	Coefficient float64 // W/(m² K), of FilmBelow and SoilBelow only
	Rise        float64 // temperature down there over the room above, K: -10 for a cellar 10 K colder
}

// A Section is a floor cut across its runs. Its layers have no cable in them:
// the cable is a line of heat at Depth, one every Spacing.
type Section struct {
	Layers        []Layer // top to bottom
	Depth         float64 // from the surface to the cable's centre line, mm
	Spacing       float64 // between neighbouring runs, mm
	WattsPerMetre float64 // of cable
	Diameter      float64 // of the cable, mm; 0: DefaultDiameter
	Top           Film
	Below         Below
	Cell          float64 // size of the cells near the cable, mm; 0: DefaultCell
}

// DefaultCell is the size of the cells near the cable in mm. Surface figures
// are then within 0.01 K of exact ones.
const DefaultCell = 1.0

// DefaultDiameter is the cable's diameter in mm where none is given: common
// practice for cable laid in a pegged membrane.
const DefaultDiameter = 5.5

// Thickness returns the thickness of all layers in mm.
func (s Section) Thickness() float64 {
	t := 0.0
	for _, l := range s.Layers {
		t += l.Thickness
	}
	return t
}

// Flux returns the power per area of floor in W/m².
func (s Section) Flux() float64 { return s.WattsPerMetre / (s.Spacing / 1000) }

// WithLayer returns a copy of s with l put in above layer i; with
// i == len(s.Layers) it becomes the lowest. The cable keeps its depth, so l
// belongs below it.
func (s Section) WithLayer(i int, l Layer) Section {
	layers := make([]Layer, 0, len(s.Layers)+1)
	layers = append(layers, s.Layers[:i]...)
	layers = append(layers, l)
	s.Layers = append(layers, s.Layers[i:]...)
	return s
}

// defaults returns s with its zero fields filled in.
func (s Section) defaults() Section {
	if s.Cell == 0 {
		s.Cell = DefaultCell
	}
	if s.Diameter == 0 {
		s.Diameter = DefaultDiameter
	}
	return s
}

// A bound is the range a figure must lie in to be computed with at all. They
// are wide: they keep nonsense out, not bad floors.
type bound struct {
	name     string
	value    float64
	low, top float64
	unit     string
}

func (b bound) check() error {
	if b.value >= b.low && b.value <= b.top { // false for NaN
		return nil
	}
	return fmt.Errorf("%s is %g %s; it must lie between %g and %g", b.name, b.value, b.unit, b.low, b.top)
}

// maxCells bounds the work of one section.
const maxCells = 500_000

// Check reports the first thing that keeps the steady state from being computed.
func (s Section) Check() error {
	s = s.defaults()
	if len(s.Layers) == 0 {
		return fmt.Errorf("the floor has no layers")
	}
	bounds := []bound{
		{"the spacing", s.Spacing, 5, 2000, "mm"},
		{"the cable's power", s.WattsPerMetre, 1e-6, 1000, "W/m"},
		{"the cell size", s.Cell, 0.01, 100, "mm"},
		{"the cable's diameter", s.Diameter, 0.1, s.Spacing, "mm"},
		{"the temperature below", s.Below.Rise, -200, 200, "K over the room"},
	}
	for _, l := range s.Layers {
		bounds = append(bounds,
			bound{"the thickness of " + l.Name, l.Thickness, 0.01, 1e5, "mm"},
			bound{"the conductivity of " + l.Name, l.Conductivity, 1e-3, 1e4, "W/(m K)"})
	}
	if s.Top.Coefficient != 0 {
		bounds = append(bounds, bound{"the film coefficient on top", s.Top.Coefficient, 1e-6, 1e12, "W/(m² K)"})
	}
	if s.Below.Kind == FilmBelow || s.Below.Kind == SoilBelow {
		bounds = append(bounds, bound{"the film coefficient below", s.Below.Coefficient, 1e-6, 1e12, "W/(m² K)"})
	}
	if err := checkAll(bounds); err != nil {
		return err
	}
	if t := s.Thickness(); !(s.Depth > 0 && s.Depth < t) {
		return fmt.Errorf("the cable lies %g mm deep, but the floor is %g mm thick; it must lie inside", s.Depth, t)
	}
	if n := s.columns() * int(math.Ceil(math.Min(s.Thickness(), 4*s.Spacing)/s.Cell)); n > maxCells {
		return fmt.Errorf("cells of %g mm give %d cells, more than %d; use larger ones", s.Cell, n, maxCells)
	}
	return nil
}

// checkWarmUp reports the first thing that keeps the warm-up from being computed.
func (s Section) checkWarmUp() error {
	if err := s.Check(); err != nil {
		return err
	}
	var bounds []bound
	for _, l := range s.Layers {
		bounds = append(bounds,
			bound{"the density of " + l.Name, l.Density, 0.1, 1e5, "kg/m³"},
			bound{"the heat capacity of " + l.Name, l.HeatCapacity, 1, 1e5, "J/(kg K)"})
	}
	return checkAll(bounds)
}

func checkAll(bounds []bound) error {
	for _, b := range bounds {
		if err := b.check(); err != nil {
			return err
		}
	}
	return nil
}

// resistanceBetween returns the resistance in m²K/W of the floor between two
// depths in mm, a above b.
func (s Section) resistanceBetween(a, b float64) float64 {
	r, top := 0.0, 0.0
	for _, l := range s.Layers {
		share := math.Min(b, top+l.Thickness) - math.Max(a, top)
		r += math.Max(0, share) / 1000 / l.Conductivity
		top += l.Thickness
	}
	return r
}

// resistanceBelow returns the resistance in m²K/W from the cable's plane to
// what lies below the floor; infinite when it is insulated.
func (s Section) resistanceBelow() float64 {
	r := s.resistanceBetween(s.Depth, s.Thickness())
	switch s.Below.Kind {
	case FilmBelow, SoilBelow:
		return r + 1/s.Below.Coefficient
	case Ground:
		return r
	}
	return math.Inf(1)
}
