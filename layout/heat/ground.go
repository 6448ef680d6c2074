package heat

import (
	"math"

	"oxturn/layout/language"

	"oxturn/layout/plane"
)

// Soil under a slab on ground, by ISO 13370: the figures that the resistance
// between the slab and the outside air follows from.
type Soil struct {
	Conductivity float64 // W/(m K)
	Dimension    float64 // characteristic dimension of the floor, B' = A / (P/2), m
}

// SoilConductivity is the standard's value in W/(m K) where the ground is not
// known: that of sand and gravel (ISO 13370, table of the ground's properties).
const SoilConductivity = 2.0

// Figures of ISO 13370: surface resistances in m²K/W indoors, downwards, and
// outdoors, and the usual thickness of the outer walls in m.
const (
	resistanceDown    = 0.17
	resistanceOutside = 0.04
	wallThickness     = 0.3
)

// mostDimension is the largest characteristic dimension told apart, m: a floor
// without any edge to the outside has none.
const mostDimension = 100

// CharacteristicDimension returns B' in m of a floor of so many m², with so
// many m of its edge along outside walls.
func CharacteristicDimension(area, exposed float64) float64 {
	if exposed <= 0 {
		return mostDimension
	}
	return math.Min(mostDimension, area/(exposed/2))
}

// wellInsulated is the factor of B' for a slab whose equivalent thickness is not less than that (ISO 13370,
// well-insulated floors).
const wellInsulated = 0.457

// Transmittance returns the U-value in W/(m² K) of a slab on ground, room air
// to outside air in the year's mean, for a floor of the given resistance in
// m²K/W from its surface to the slab's lower face (ISO 13370, slab on ground).
func (s Soil) Transmittance(floor float64) float64 {
	k, b := s.Conductivity, s.Dimension
	d := wallThickness + k*(resistanceDown+floor+resistanceOutside) // equivalent thickness, m
	if d >= b {
		return k / (wellInsulated*b + d)
	}
	return 2 * k / (math.Pi*b + d) * math.Log(math.Pi*b/d+1)
}

// Resistance returns what of that lies under the slab, in m²K/W: the soil, and
// the way up to the outside air.
func (s Soil) Resistance(floor float64) float64 {
	return 1/s.Transmittance(floor) - resistanceDown - floor
}

// OnSoil returns s on soil that has settled, the outside air being rise K over
// the room.
func (s Section) OnSoil(soil Soil, rise float64) Section {
	r := soil.Resistance(s.resistanceBetween(0, s.Thickness()))
	s.Below = Below{Kind: SoilBelow, Coefficient: 1 / r, Rise: rise}
	return s
}

// Words says what the soil is taken for, under a floor on it.
func (s Soil) Words(floor Section, us bool) language.Message {
	w, r := words{us}, 1/floor.Below.Coefficient
	return language.Say("ISO 13370, slab on ground: soil %s, characteristic dimension %s, outer walls %s thick, %s "+
		"below the slab",
		w.figure(s.Conductivity, "W/(m K)", s.Conductivity*usConductivity, "Btu/(h ft °F)"),
		w.figure(s.Dimension, "m", s.Dimension/footMetres, "ft"),
		w.figure(1000*wallThickness, "mm", 1000*wallThickness/plane.Inch, "in"), w.figure(r, "m²K/W", r*usFilm,
			"h ft² °F/Btu"))
}
