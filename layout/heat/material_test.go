package heat

import "testing"

func TestEveryMaterialCanBeComputedWith(t *testing.T) {
	for _, m := range materials {
		if m.Source == "" || m.Kind == "" {
			t.Errorf("%s has no source or kind", m.Name)
		}
		s := Section{Layers: []Layer{m.Layer(20)}, Depth: 10, Spacing: 75, WattsPerMetre: 10}
		if err := s.checkWarmUp(); err != nil {
			t.Errorf("%s: %v", m.Name, err)
		}
	}
}

// ISO 10456 as built into open building-simulation libraries.
func TestTileDefault(t *testing.T) {
	m, ok := DefaultMaterial("tile")
	if !ok || m.Conductivity != 1.3 || m.Density != 2300 || m.HeatCapacity != 840 {
		t.Errorf("got %+v", m)
	}
}

func TestUnknownKindHasNoDefault(t *testing.T) {
	for _, kind := range []string{"", "other", "cork"} {
		if m, ok := DefaultMaterial(kind); ok {
			t.Errorf("%q is %s", kind, m.Name)
		}
	}
	for _, kind := range []string{"tile", "mortar", "membrane", "board", "wood", "concrete", "screed"} {
		if _, ok := DefaultMaterial(kind); !ok {
			t.Errorf("%s has no default", kind)
		}
	}
}

func TestFilledMembraneLiesBetweenItsParts(t *testing.T) {
	mortar, _ := DefaultMaterial("mortar")
	plastic, _ := DefaultMaterial("plastic")
	for _, c := range []struct {
		void float64
		like Material
	}{{1, mortar}, {0, plastic}} {
		m := FilledMembrane(c.void)
		near(t, "conductivity", m.Conductivity, c.like.Conductivity, 1e-12)
		near(t, "density", m.Density, c.like.Density, 1e-9)
		near(t, "heat capacity", m.HeatCapacity, c.like.HeatCapacity, 1e-9)
	}
	near(t, "half and half", FilledMembrane(0.5).Conductivity, 0.61, 1e-12)
}
