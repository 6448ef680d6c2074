package heat

// A Material is a default for a layer whose own figures are not known.
type Material struct {
	Name         string
	Kind         string  // the kind of layer it stands for, as in a job file
	Conductivity float64 // W/(m K)
	Density      float64 // kg/m³
	HeatCapacity float64 // J/(kg K)
	Source       string
}

// Layer returns a layer of the material, thickness in mm.
func (m Material) Layer(thickness float64) Layer {
	return Layer{m.Name, thickness, m.Conductivity, m.Density, m.HeatCapacity}
}

// materials: the first of a kind is the kind's default. Where a source gives a
// range, the middle is taken. All but the tiles' are from memory.
var materials = []Material{
	{"ceramic tile", "tile", 1.3, 2300, 840, "ISO 10456 table 3"},
	{"glazed ceramic tile", "tile", 1.4, 2500, 840, "CIBSE Guide A table 3.36"},
	{"cement mortar", "mortar", 1.0, 1800, 1000, "ISO 10456 table 3"},
	{"cement screed", "screed", 1.0, 1800, 1000, "ISO 10456 table 3, cement and sand mortar"},
	{"extruded polystyrene board", "board", 0.033, 32, 1450, "usual declared values, 0.029 to 0.036"},
	{"plywood", "wood", 0.13, 500, 1600, "ISO 10456 table 3"},
	{"dense plywood", "wood", 0.17, 700, 1600, "ISO 10456 table 3"},
	{"oriented strand board", "wood", 0.13, 650, 1700, "ISO 10456 table 3"},
	{"concrete", "concrete", 2.0, 2400, 1000, "ISO 10456 table 3"},
	{"reinforced concrete", "concrete", 2.3, 2350, 1000, "ISO 10456 table 3, 1 % steel"},
	{"polypropylene", "plastic", 0.22, 910, 1800, "ISO 10456 table 3"},
	{"polyethylene", "plastic", 0.50, 980, 1800, "ISO 10456 table 3"},
}

// usualVoid of a membrane's height is filled where its own share is not given.
const usualVoid = 0.8

// DefaultMaterial returns what stands for a kind of layer: tile, mortar,
// screed, board, wood, concrete, plastic, membrane. ok is false for a kind that
// has no default, so that the reader is asked.
func DefaultMaterial(kind string) (m Material, ok bool) {
	if kind == "membrane" {
		return FilledMembrane(usualVoid), true
	}
	for _, m := range materials {
		if m.Kind == kind {
			return m, true
		}
	}
	return Material{}, false
}

// FilledMembrane returns the pegged membrane with mortar in the share void of
// its height, plastic in the rest: the two side by side share the heat, so
// conductivity and heat content add by share of volume. Its fleece is left out.
func FilledMembrane(void float64) Material {
	mortar, _ := DefaultMaterial("mortar")
	plastic, _ := DefaultMaterial("plastic")
	mix := func(a, b float64) float64 { return void*a + (1-void)*b }
	density := mix(mortar.Density, plastic.Density)
	return Material{
		Name:         "membrane filled with mortar",
		Kind:         "membrane",
		Conductivity: mix(mortar.Conductivity, plastic.Conductivity),
		Density:      density,
		HeatCapacity: mix(mortar.Density*mortar.HeatCapacity, plastic.Density*plastic.HeatCapacity) / density,
		Source:       "computed from mortar and polypropylene by volume",
	}
}

// FilmDown is the film coefficient in W/(m² K) under a floor over a room or a
// void: the reciprocal of ISO 6946's surface resistance for heat flowing down.
const FilmDown = 1 / 0.17
