package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func share(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	near(t, what, got, want, within*math.Abs(want))
}

// Lumped floor: dT = (q/h)(1 - e^(-t/tau)), tau = C/h; 9 mm of tile and 12 mm
// of mortar, C = 38 988 J/(m² K), h = 10.8, q = 150. Values from the formula.
// Conductivities of 10 000 W/(m K) leave no temperature difference inside.
func TestLumpedFloor(t *testing.T) {
	s := Section{
		Layers: []Layer{{"tile", 9, 1e4, 2300, 840}, {"mortar", 12, 1e4, 1800, 1000}},
		Depth:  15, Spacing: 100, WattsPerMetre: 15, Top: Film{10.8},
	}
	c, err := s.WarmUp(8)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []Moment{{600, 2.1268}, {1800, 5.4532}, {3600, 8.7653}, {7200, 11.9988}, {10830, 13.1974}} {
		share(t, "rise", c.At(p.Seconds), p.Rise, 0.001)
	}
	got, ok := c.TimeTo(6)
	if !ok {
		t.Fatal("never gains 6 K")
	}
	share(t, "time to 6 K", got, 2041.9, 0.001)
	share(t, "steady", c.Steady, 13.8889, 1e-5)
	share(t, "first rise, K/min", c.At(60), 0.23084, 0.01) // the initial slope; it falls by 0.8 % in the first minute
}

// Slab with constant flux at its back and a film in front: exact series
// (Carslaw & Jaeger 3.11), k 1, rho c 2e6, L 50 mm, h 10, q 150.
func TestSlabHeatedAtItsBack(t *testing.T) {
	s := Section{
		Layers: []Layer{{"slab", 50, 1, 2000, 1000}},
		Depth:  49.99, Spacing: 100, WattsPerMetre: 15, Top: Film{10},
	}
	c, err := s.WarmUp(10)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []Moment{{600, 0.10312}, {1800, 1.26055}, {3600, 3.19511}, {7200, 6.31767}, {14400, 10.303815},
		{36000, 14.25686}} {
		share(t, "front", c.At(p.Seconds), p.Rise, 0.005)
	}
}

// runColumn advances a section's column to the given time in equal steps.
func runColumn(s Section, seconds, step float64) *column {
	c := s.defaults().newColumn()
	for t := 0.0; t < seconds-1e-9; t += step {
		c.advance(math.Min(step, seconds-t))
	}
	return c
}

func TestSlabBackFace(t *testing.T) {
	s := Section{
		Layers: []Layer{{"slab", 50, 1, 2000, 1000}},
		Depth:  49.99, Spacing: 100, WattsPerMetre: 15, Top: Film{10}, Cell: 0.5,
	}
	for _, p := range []Moment{{60, 0.927058}, {600, 2.93168}, {1800, 5.13804}, {3600, 7.63304}, {7200, 11.56645}} {
		c := runColumn(s, p.Seconds, 10)
		back := c.rise[len(c.rise)-1]
		share(t, "back", back, p.Rise, 0.005)
	}
}

// Slab with both faces insulated and constant flux on one: Carslaw & Jaeger
// 3.8, k 1, rho c 1.8e6, L 20 mm, q 150, 600 s. The smallest film there is
// stands for insulation on top; the heated face is the lower one.
func TestInsulatedSlab(t *testing.T) {
	s := Section{
		Layers: []Layer{{"slab", 20, 1, 1800, 1000}},
		Depth:  19.99, Spacing: 100, WattsPerMetre: 15, Top: Film{1e-6}, Cell: 0.25,
	}
	c := runColumn(s, 600, 5)
	share(t, "heated face", c.rise[len(c.rise)-1], 3.49984, 0.005)
	share(t, "far face", c.surface, 2.00016, 0.005)
}

// Semi-infinite body with constant flux on its face: (2q/k) sqrt(a t/pi), and
// at depth the integral of the error function (Carslaw & Jaeger 2.9), q = 150.
// The face is the floor's underside; 20 mm up is read between two rows.
func TestSemiInfiniteBody(t *testing.T) {
	for _, c := range []struct {
		k, density, seconds, face, at20 float64
	}{
		{1.0, 1800, 600, 3.09019, 0.97354}, {1.0, 1800, 3600, 7.56940, 4.94474},
		{2.0, 2400, 600, 1.89235, 0.75869}, {2.0, 2400, 3600, 4.63529, 3.28895},
	} {
		s := Section{
			Layers: []Layer{{"body", 600, c.k, c.density, 1000}},
			Depth:  599.995, Spacing: 150, WattsPerMetre: 22.5, Top: Film{10}, Cell: 0.25,
		}
		col := runColumn(s, c.seconds, 10)
		n := len(col.rise)
		share(t, "face", col.rise[n-1], c.face, 0.005)
		depth := 0.0
		for j := n - 1; ; j-- {
			next := depth + (col.height[j]+col.height[j-1])/2*1000
			if next >= 20 {
				at := col.rise[j] + (col.rise[j-1]-col.rise[j])*(20-depth)/(next-depth)
				share(t, "20 mm in", at, c.at20, 0.005)
				break
			}
			depth = next
		}
	}
}

// A step of the room's temperature on a semi-infinite body: the surface takes
// 1 - exp(h² a t/k²) erfc(h sqrt(a t)/k) of it (Carslaw & Jaeger 2.7): 0.356212
// for h 10, k 1, a 1/1.8e6 m²/s after an hour. Told from the other side: the
// floor starts 1 K warmer than the room and keeps the rest.
func TestRoomTurnsColder(t *testing.T) {
	s := Section{
		Layers: []Layer{{"body", 600, 1, 1800, 1000}},
		Depth:  100, Spacing: 150, WattsPerMetre: 1e-6, Top: Film{10}, Cell: 1,
	}
	c := s.newColumn()
	c.surface = 1
	for j := range c.rise {
		c.rise[j] = 1
	}
	for range 360 {
		c.advance(10)
	}
	share(t, "share given up", 1-c.surface, 0.356212, 0.005)
}

// Quartering the error by halving the step shows second order in time; the
// film is the characteristic, so the repeated film is part of what is shown.
func TestSecondOrderInTime(t *testing.T) {
	s := caseB2
	s.Top = Film{}
	fine := runColumn(s, 3600, 1).surface
	a := math.Abs(runColumn(s, 3600, 240).surface - fine)
	b := math.Abs(runColumn(s, 3600, 120).surface - fine)
	if order := math.Log2(a / b); order < 1.6 || order > 2.6 {
		t.Errorf("errors %.3g and %.3g fall with order %.2f, want 2", a, b, order)
	}
}

// The heat stored and the heat lost must be the heat given.
func TestWarmUpKeepsTheHeat(t *testing.T) {
	s := caseB2
	s.Cell = 1
	c := s.newColumn()
	const step, steps = 5.0, 720
	lost := 0.0
	for range steps {
		out := func() float64 {
			return 10.8*c.surface + c.lower*c.rise[len(c.rise)-1]
		}
		before := out()
		c.advance(step)
		lost += step * (before + out()) / 2
	}
	stored := 0.0
	for j, r := range c.rise {
		stored += c.store[j] * r
	}
	share(t, "stored and lost", stored+lost, s.Flux()*step*steps, 1e-4)
}

func TestWarmUpEndsAtTheSteadyState(t *testing.T) {
	for name, s := range map[string]Section{"B1": caseB1, "B2": caseB2, "B3": caseB3} {
		s.Top = Film{}
		s.Below.Rise = -3
		c, err := s.WarmUp(240)
		if err != nil {
			t.Fatal(err)
		}
		share(t, name, c.Points[len(c.Points)-1].Rise, c.Steady, 1e-4)
		if name != "B1" && c.Start >= 0 {
			t.Errorf("%s: starts at %g K over a colder space below", name, c.Start)
		}
	}
}

// The settled floor with the cable off must stay as it is.
func TestStartIsAtRest(t *testing.T) {
	s := caseB3
	s.Top = Film{}
	s.Below.Rise = 8
	s.WattsPerMetre = 1e-6
	c, err := s.WarmUp(5)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "after 5 h", c.Points[len(c.Points)-1].Rise, c.Start, 1e-4)
}

func TestWarmUpIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSection(t)
		c, err := s.WarmUp(6)
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(c.Points); i++ {
			a, b := c.Points[i-1], c.Points[i]
			if b.Rise < a.Rise-1e-9 || b.Seconds <= a.Seconds || b.Rise > c.Steady*(1+1e-6)+1e-9 {
				t.Fatalf("%+v then %+v, steady %g", a, b, c.Steady)
			}
		}
		s.WattsPerMetre *= 1.5
		more, _ := s.WarmUp(6)
		goal := c.Points[len(c.Points)-1].Rise / 2
		slow, ok := c.TimeTo(goal)
		quick, _ := more.TimeTo(goal)
		if !ok || quick > slow {
			t.Fatalf("half as much power again takes %g s instead of %g s", quick, slow)
		}
	})
}

func TestFinerStepsChangeLittle(t *testing.T) {
	s := caseB3
	s.Top = Film{}
	c, err := s.WarmUp(6)
	if err != nil {
		t.Fatal(err)
	}
	for _, seconds := range []float64{600, 3600, 4 * 3600} {
		share(t, "rise", c.At(seconds), runColumn(s, seconds, 2).surface, 0.002)
	}
}

func TestTimeToWhatIsNeverReached(t *testing.T) {
	c, err := caseB2.WarmUp(1)
	if err != nil {
		t.Fatal(err)
	}
	if s, ok := c.TimeTo(50); ok || s != 0 {
		t.Errorf("reaches 50 K after %g s", s)
	}
	if s, ok := c.TimeTo(0); !ok || s != 0 {
		t.Errorf("0 K takes %g s", s)
	}
}

func TestWarmUpNamesTheFigure(t *testing.T) {
	s := caseB1
	s.Layers = []Layer{{"tile", 20, 1, 0, 840}}
	if _, err := s.WarmUp(1); err == nil {
		t.Error("no density passes")
	}
	for _, hours := range []float64{0, -1, math.NaN(), 1e9} {
		if _, err := caseB1.WarmUp(hours); err == nil {
			t.Errorf("%g h pass", hours)
		}
	}
}

func TestFormatTime(t *testing.T) {
	for _, c := range []struct {
		seconds float64
		want    string
	}{
		{0, "0 min"}, {29 * 60, "29 min"}, {59.6 * 60, "1 h"}, {3600, "1 h"}, {4000, "1 h 10 min"},
		{6600, "1 h 50 min"}, {3 * 3600, "3 h"}, {359 * 60, "6 h"}, {11.4 * 3600, "11 h"},
	} {
		if got := FormatTime(c.seconds); got != c.want {
			t.Errorf("%g s is %q, want %q", c.seconds, got, c.want)
		}
	}
}

func BenchmarkWarmUp24h(b *testing.B) {
	s := caseB3
	s.Top = Film{}
	for b.Loop() {
		if _, err := s.WarmUp(24); err != nil {
			b.Fatal(err)
		}
	}
}
