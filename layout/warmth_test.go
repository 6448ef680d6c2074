package layout

import (
	"math"
	"strings"
	"testing"
)

const bathLayers = `
[[layer]]
kind = "tile"
thickness = 10
[[layer]]
kind = "mortar"
thickness = 4
[[layer]]
kind = "membrane"
thickness = 6
[[layer]]
kind = "wood"
thickness = 19
`

func TestWarmthOfAJob(t *testing.T) {
	w := build(t, bathJob+bathLayers+"[energy]\ntariff = 0.5\ncurrency = \"$\"\n").Warmth
	if w == nil || w.Problem != "" || len(w.Runs) != 1 || w.Runs[0].Cables[0] != "H1" {
		t.Fatalf("%+v", w)
	}
	if math.Abs(w.Depth-17) > 1e-9 {
		t.Errorf("the cable lies %.2f mm deep, want 10 + 4 + 6/2", w.Depth)
	}
	// what goes in comes out: 10 W/m over the even spacing
	s := w.Runs[0]
	if flux := 10 / (s.Section.Spacing / 1000); math.Abs(s.Steady.Up+s.Steady.Down-flux) > 1e-3*flux {
		t.Errorf("%.2f up and %.2f down of %.2f W/m²", s.Steady.Up, s.Steady.Down, flux)
	}
	if !(s.Steady.OverCable > s.Steady.Mean && s.Steady.Mean > s.Steady.Midway && s.Steady.Midway > 0) {
		t.Errorf("over %.2f, mean %.2f, midway %.2f", s.Steady.OverCable, s.Steady.Mean, s.Steady.Midway)
	}
	// 2, 3 and 4 pegs, each without and with the board
	if len(w.Offers) != 6 || w.Offers[0].Spacing != 60 || w.Offers[5].Spacing != 120 || !w.Offers[5].Board || w.Board != 10 {
		t.Errorf("offers %+v", w.Offers)
	}
	// 360 W cost 0.18 an hour at 0.5 a kWh
	if len(w.Use) != 1 || math.Abs(w.Use[0].PerHourPrice-0.18) > 1e-9 {
		t.Errorf("use %+v", w.Use)
	}
}

func TestWarmthWithout(t *testing.T) {
	if w := build(t, bathJob).Warmth; w != nil {
		t.Errorf("no layers, and yet %+v", w)
	}
	for layers, want := range map[string]string{
		strings.Replace(bathLayers, `"membrane"`, `"mortar"`, 1):                     "no layer is of kind",
		"[[layer]]\nkind = \"membrane\"\nthickness = 6\n":                            "nothing covers the cable",
		bathLayers + "[[layer]]\nkind = \"other\"\nname = \"cork\"\nthickness = 4\n": "the conductivity of cork",
	} {
		w := build(t, bathJob+layers).Warmth
		if w == nil || !strings.Contains(w.Problem, want) || len(w.Runs) != 0 || len(w.Layers) == 0 {
			t.Errorf("want %q: %+v", want, w)
		}
	}
}

// A board under the membrane never slows the floor down, and a colder ground
// never warms it.
func TestWarmthGoesTheRightWay(t *testing.T) {
	w := build(t, bathJob+bathLayers).Warmth
	for i := 0; i < len(w.Offers); i += 2 {
		if a, b := w.Offers[i], w.Offers[i+1]; b.Reached && a.Reached && b.Time > a.Time || a.Reached && !b.Reached {
			t.Errorf("%g mm: %v without a board, %v with one", a.Spacing, a.Time, b.Time)
		}
	}
	slab := strings.Replace(bathLayers, `"wood"`, `"concrete"`, 1)
	on := func(at string) float64 {
		return build(t, bathJob+slab+"[warmth]\nbelow = \"ground\"\nbelow_temperature = \""+at+"\"\n").Warmth.Runs[0].Steady.Mean
	}
	if warm, cold := on("15 C"), on("5 C"); warm <= cold {
		t.Errorf("%.2f K over ground at 15 °C, %.2f at 5 °C", warm, cold)
	}
}
