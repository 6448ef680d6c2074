package build

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
)

func TestWarmthOfAJob(t *testing.T) {
	w := lay(t, hand.Bath+hand.BathLayers+"[energy]\ntariff = 0.5\ncurrency = \"$\"\n").Warmth
	if w == nil || w.Problem != "" || len(w.Runs) != 1 || w.Runs[0].Cables[0] != "H1" {
		t.Fatalf("%+v", w)
	}
	if math.Abs(w.Depth-17) > 1e-9 {
		t.Errorf("the cable lies %.2f mm deep, want 10 + 4 + 6/2", w.Depth)
	}
	// what goes in comes out: 10 W/m over the even spacing
	s := w.Runs[0].Cold
	if flux := 10 / (s.Section.Spacing / 1000); math.Abs(s.Steady.Up+s.Steady.Down-flux) > 1e-3*flux {
		t.Errorf("%.2f up and %.2f down of %.2f W/m²", s.Steady.Up, s.Steady.Down, flux)
	}
	if !(s.Steady.OverCable > s.Steady.Mean && s.Steady.Mean > s.Steady.Midway && s.Steady.Midway > 0) {
		t.Errorf("over %.2f, mean %.2f, midway %.2f", s.Steady.OverCable, s.Steady.Mean, s.Steady.Midway)
	}
	// 2, 3 and 4 pegs, each without and with the board
	if len(w.Offers) != 6 || w.Offers[0].Spacing != 60 || w.Offers[5].Spacing != 120 || !w.Offers[5].Board ||
		w.Board != 10 {
		t.Errorf("offers %+v", w.Offers)
	}
	// 360 W cost 0.18 an hour at 0.5 a kWh
	if len(w.Use) != 1 || math.Abs(w.Use[0].PerHourPrice-0.18) > 1e-9 {
		t.Errorf("use %+v", w.Use)
	}
}

// TestOffersKeepTheLimit: 10 W/m give 167 W/m² at 2 pegs of 30 mm and 111 W/m² at 3
// (plain arithmetic), so that with 150 W/m² allowed none is offered at 2.
func TestOffersKeepTheLimit(t *testing.T) {
	j := lay(t, hand.Bath+hand.BathLayers).Job
	j.Supply.MaxDensity = 150
	p, _ := Plan(j)
	if p.Warmth == nil || len(p.Warmth.Offers) != 4 || p.Warmth.Offers[0].Spacing != 90 {
		t.Fatalf("%+v", p.Warmth)
	}
	j.Supply.MaxDensity = 80
	w := &layout.Warmth{}
	*w = *p.Warmth
	p.Job = j
	if err := offers(w, p); err != nil || len(w.Offers) != 2 || w.Offers[0].Spacing != p.Rooms[0].Cables[0].Spacing {
		t.Errorf("%v, %+v; want the spacing as laid where no whole number of pegs is allowed", err, w.Offers)
	}
}

func TestWarmthWithout(t *testing.T) {
	if w := lay(t, hand.Bath).Warmth; w != nil {
		t.Errorf("no layers, and yet %+v", w)
	}
	for layers, want := range map[string]string{
		strings.Replace(hand.BathLayers, `"membrane"`, `"mortar"`, 1):                     "no layer is of kind",
		"[[layer]]\nkind = \"membrane\"\nthickness = 6\n":                                 "nothing covers the cable",
		hand.BathLayers + "[[layer]]\nkind = \"other\"\nname = \"cork\"\nthickness = 4\n": "the conductivity of cork",
	} {
		w := lay(t, hand.Bath+layers).Warmth
		if w == nil || !strings.Contains(w.Problem, want) || len(w.Runs) != 0 || len(w.Layers) == 0 {
			t.Errorf("want %q: %+v", want, w)
		}
	}
}

// A board under the membrane never slows the floor down, and a colder ground
// never warms it.
func TestWarmthGoesTheRightWay(t *testing.T) {
	w := lay(t, hand.Bath+hand.BathLayers).Warmth
	for i := 0; i < len(w.Offers); i += 2 {
		if a, b := w.Offers[i], w.Offers[i+1]; b.Reached && a.Reached && b.Time > a.Time || a.Reached && !b.Reached {
			t.Errorf("%g mm: %v without a board, %v with one", a.Spacing, a.Time, b.Time)
		}
	}
	slab := strings.Replace(hand.BathLayers, `"wood"`, `"concrete"`, 1)
	on := func(at string) float64 {
		return lay(t, hand.Bath+slab+"[warmth]\nbelow = \"ground\"\nbelow_temperature = \""+at+
			"\"\n").Warmth.Runs[0].Cold.Steady.Mean
	}
	if warm, cold := on("15 C"), on("5 C"); warm <= cold {
		t.Errorf("%.2f K over ground at 15 °C, %.2f at 5 °C", warm, cold)
	}
}

// A covering of 27 °C over a bare slab is cool while the ground is, and too warm
// once it has settled: the limit is held against that.
func TestCoveringOverASlab(t *testing.T) {
	slab := strings.Replace(hand.BathLayers, `kind = "wood"`+"\n"+`thickness = 19`, `kind = "concrete"`+"\n"+
		`thickness = 150`, 1)
	p := lay(t, hand.Bath+slab+"[warmth]\ncovering = \"vinyl\"\ncovering_limit = \"27 C\"\n")
	r := p.Warmth.Runs[0]
	if cold := 20 + r.Cold.Steady.OverCable; cold > 27 {
		t.Errorf("%.1f °C over ground held cold", cold)
	}
	if v := r.Verdicts[0]; !v.Over() || math.Abs(v.Surface-20-r.Hot.Steady.OverCable) > 1e-9 {
		t.Errorf("%+v", v)
	}
	if found := tooWarm(p.Warmth, p.Job); len(found) != 1 || found[0].ID != "W122" {
		t.Errorf("%v", found)
	}
	if got := strings.Join(language.In(language.English, p.Warmth.Assumptions(p.Job.Units)),
		"\n"); !strings.Contains(got, "ISO 13370") ||
		!strings.Contains(got, "weeks") {
		t.Error(got)
	}
}

// Nothing is lost below in the hot case of a floor over a room; air at its
// warmest counts in full.
func TestHotCaseOverARoom(t *testing.T) {
	p := lay(t, hand.Bath+hand.BathLayers+"[warmth]\nwarmest = 24\n")
	r := p.Warmth.Runs[0]
	if r.Hot.Steady.Down != 0 || r.Cold.Steady.Down <= 0 || r.Alike() {
		t.Errorf("down %g and %g", r.Hot.Steady.Down, r.Cold.Steady.Down)
	}
	if got := r.Verdicts[0].Surface - r.Hot.Steady.OverCable; math.Abs(got-24) > 1e-9 {
		t.Errorf("judged in air at %g °C", got)
	}
}

// The hot case is never cooler than the cold one, whatever lies below: a boiler's room and
// ground in a hot place give the floor heat, and it passes a limit by what they give.
func TestHotCaseIsTheHotter(t *testing.T) {
	slab := strings.Replace(hand.BathLayers, `"wood"`, `"concrete"`, 1)
	for _, text := range []string{"below = \"room\"\nbelow_temperature = 45",
		"below = \"ground\"\nbelow_temperature = 32",
		"below = \"void\"\nbelow_temperature = -15", "below = \"ground\"\nbelow_temperature = -5",
		"below = \"insulated\"", "warmest = 27\nbelow = \"room\"\nbelow_temperature = 40"} {
		layers := hand.BathLayers
		if strings.Contains(text, "ground") {
			layers = slab
		}
		p := lay(t, hand.Bath+layers+"[warmth]\n"+text+"\n")
		r := p.Warmth.Runs[0]
		hot, cold := p.Warmth.Warmest+r.Hot.Steady.Mean, p.Warmth.Room+r.Cold.Steady.Mean
		if hot < cold-1e-9 {
			t.Errorf("%s: %.2f °C at most, %.2f at least", text, hot, cold)
		}
		if said := strings.Join(language.In(language.English, p.Warmth.Bounds(false)), "\n"); strings.Contains(said,
			"weeks") !=
			(r.Hot.Section.Below.Kind == heat.SoilBelow) {
			t.Errorf("%s: %s", text, said)
		}
	}
}

// The ground is that of a usual house unless the room is larger or says what
// its outside walls are: 3 m of a floor of 2.85 by 2.4 m make B' = 4.56 m.
func TestDimensionOfTheGround(t *testing.T) {
	slab := strings.Replace(hand.BathLayers, `"wood"`, `"concrete"`, 1)
	dimension := func(text string) float64 { return lay(t, text+slab).Warmth.Runs[0].Soil.Dimension }
	if got := dimension(hand.Bath); got != 4 {
		t.Errorf("%g m without any word", got)
	}
	told := strings.Replace(hand.Bath, "corners =", "exposed = 3000\ncorners =", 1)
	r := lay(t, told+slab)
	if got, want := dimension(told), r.Rooms[0].Floor.Area()/1e6/1.5; math.Abs(got-want) > 1e-9 {
		t.Errorf("%g m, want %g", got, want)
	}
}
