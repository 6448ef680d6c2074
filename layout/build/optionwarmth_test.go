package build_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/trial"
)

// onSlab is hand.Bath with a choice of two cables, on a bare slab, in a room that
// may be warmer than it mostly is, under a covering with a limit.
func onSlab() []byte {
	text := strings.Replace(hand.Bath, `cables = ["C"]`+"\n", "", 1) +
		"[[cable]]\nid = \"D\"\nvolts = 240\nwatts = 600\nlength = \"45 m\"\nlead = \"4 m\"\n"
	slab := strings.Replace(hand.BathLayers, "kind = \"wood\"\nthickness = 19",
		"kind = \"concrete\"\nthickness = 150",
		1)
	return []byte(text + slab + "[warmth]\nroom = 20\nwarmest = 24\ncovering = \"vinyl\"\ncovering_limit = \"27 C\"\n")
}

// TestOptionsWarmthIsThePlans: what is said of the option taken is what the plan
// computes of its cable: output and warm-up in the cold case, limits in the hot.
// The plan's own figures are held against independent ones where they are made.
func TestOptionsWarmthIsThePlans(t *testing.T) {
	p := trial.Laid(t, string(onSlab()))
	rooms, _ := build.Options(trial.Read(t, "bath.toml", onSlab()))
	o, r := rooms[0].Options[0], p.Warmth.Runs[0]
	if !o.Taken || o.IDs[0] != p.Rooms[0].Cables[0].Label.ID || o.Warmth == nil {
		t.Fatalf("%+v", o)
	}
	w := o.Warmth
	same := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g, the plan has %g", what, got, want)
		}
	}
	same("mean in the cold case", w.Least, 20+r.Cold.Steady.Mean)
	same("over a cable in the hot case", w.Most, 24+r.Hot.Steady.OverCable)
	same("goes up", w.UpShare, r.Cold.Steady.UpShare)
	if !slices.Equal(w.Verdicts, r.Verdicts) {
		t.Errorf("%+v, the plan has %+v", w.Verdicts, r.Verdicts)
	}
	if cold := r.Cold.Steady.Against(20, heat.CoveringLimit("vinyl", 27, ""))[0]; cold.Over() || !w.Verdicts[0].Over() {
		t.Errorf("the cold case alone keeps the limit (%+v), the hot one does not: %+v", cold, w.Verdicts[0])
	}
}

// TestWarmthOfTwoCables: of a pair the weaker cable counts for the output, the
// stronger for the limits. By their watts a metre over the same spacing they are 1 to 2.
func TestWarmthOfTwoCables(t *testing.T) {
	joint := "[[room.joint]]\nfrom = [2000, 0]\nto = [2000, 2000]\n"
	text := string(partedHall(joint, 40))
	text = strings.Replace(text, "name = \"Hall\"\n", "name = \"Hall\"\ncables = [\"C40\", \"S40\"]\n", 1) +
		"[[cable]]\nid = \"S40\"\nvolts = 240\nlength = \"40 m\"\nwatts = 960\nlead = \"6 m\"\n" + hand.BathLayers
	rooms, _ := build.Options(trial.Read(t, "hall.toml", []byte(text)))
	at := slices.IndexFunc(rooms[0].Options, func(o build.Option) bool { return o.Taken })
	both := rooms[0].Options[at].Warmth
	if both == nil || len(both.Bounds.Runs) != 2 {
		t.Fatalf("%+v", rooms[0].Options[at])
	}
	weak, strong := both.Bounds.Runs[0], both.Bounds.Runs[1]
	if weak.Cold.Section.WattsPerMetre > strong.Cold.Section.WattsPerMetre {
		weak, strong = strong, weak
	}
	if both.Least != 20+weak.Cold.Steady.Mean || both.Most != 20+strong.Hot.Steady.OverCable ||
		both.WarmUp.Flux != weak.Cold.Section.Flux() {
		t.Errorf("%+v", both)
	}
	if !slices.Equal(both.Verdicts, strong.Verdicts) {
		t.Errorf("verdicts %+v", both.Verdicts)
	}
}
