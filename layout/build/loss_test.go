package build_test

import (
	"math"
	"strings"
	"testing"

	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

const bathLoss = `[room.loss]
outside = -5
walls = "6 m2"
walls_u = 0.3
windows = "1 m2"
windows_u = 1.4
ceiling_u = 0.2
above = 10
floor_u = 0.5
air_changes = 1
most_air_changes = 1
ceiling_height = 2500
`

// 6 x 0.3 x 25 + 1.4 x 25 + floor x 0.2 x 10 + the cold rest of the floor x 0.5 x 25 +
// 0.34 x floor x 2.5 x 25, and 15 % either way; what goes up of 360 W against it.
func TestLossOfARoom(t *testing.T) {
	p := trial.Laid(t, hand.Bath+bathLoss+hand.BathLayers)
	if len(p.Losses) != 1 || !p.Losses[0].Known {
		t.Fatalf("%+v", p.Losses)
	}
	l, r := p.Losses[0], &p.Rooms[0]
	floor := r.Floor.Area() / 1e6
	c := r.Cables[0]
	cold := floor - c.Label.Length*c.Spacing/1e6
	want := 45 + 35 + floor*2 + cold*12.5 + 0.34*floor*2.5*25
	if math.Abs(l.Lost.Low-0.85*want) > 1e-6 || math.Abs(l.Lost.High-1.15*want) > 1e-6 {
		t.Errorf("%v W, want %.1f and 15 %%", l.Lost, want)
	}
	up := p.Warmth.Runs[0].Cold.Steady.Up * c.Label.Length * c.Spacing / 1e6
	if math.Abs(l.Gives.Low-up) > 1e-3*up || math.Abs(l.Gives.High-360) > 0.1 {
		t.Errorf("gives %v W, want %.1f to 360", l.Gives, up)
	}
	if math.Abs(l.Covers.Low-l.Gives.Low/l.Lost.High) > 1e-9 || math.Abs(l.Covers.High-l.Gives.High/l.Lost.Low) > 1e-9 {
		t.Errorf("covers %v", l.Covers)
	}
	words := l.Words(say.Figures{Units: plane.Millimetres})
	for _, want := range []string{"at -5 °C outside", "covers", "of the loss"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not in %q", want, words)
		}
	}
}

// Without layers the floor's power is all that is known, and no share is said.
func TestLossWithoutLayers(t *testing.T) {
	l := trial.Laid(t, hand.Bath+bathLoss).Losses[0]
	if l.Known || l.Gives.Low != 0 || l.Gives.High != 360 ||
		strings.Contains(l.Words(say.Figures{Units: plane.Inches}), "covers") {
		t.Errorf("%+v: %s", l, l.Words(say.Figures{Units: plane.Inches}))
	}
	if len(trial.Laid(t, hand.Bath).Losses) != 0 {
		t.Error("a loss that no job asked for")
	}
}
