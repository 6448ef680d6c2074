package heat

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/layout/internal/published"
)

var near = published.Near

func layer(name string, mm, k float64) Layer {
	return Layer{Name: name, Thickness: mm, Conductivity: k, Density: 1800, HeatCapacity: 1000}
}

var (
	caseB1 = Section{
		Layers: []Layer{layer("mortar", 20, 1.0)}, Depth: 15, Spacing: 75, WattsPerMetre: 10,
		Top: Film{10},
	}
	caseB2 = Section{
		Layers: []Layer{layer("tile", 9, 1.3), layer("mortar", 12, 1.0), layer("plywood", 19, 0.13)},
		Depth:  17, Spacing: 76.2, WattsPerMetre: 12,
		Top: Film{10.8}, Below: Below{Kind: FilmBelow, Coefficient: 5.88},
	}
	caseB3 = Section{
		Layers: []Layer{layer("tile", 9, 1.3), layer("mortar", 12, 1.0), layer("board", 25, 0.033),
			layer("concrete", 100, 2.0)},
		Depth: 17, Spacing: 76.2, WattsPerMetre: 12,
		Top: Film{10.8}, Below: Below{Kind: Ground},
	}
)

// Values: exact Fourier series, computed independently of this program.
func TestSeries(t *testing.T) {
	cases := []struct {
		name               string
		section            Section
		mean, over, midway float64
		upShare, underside float64
	}{
		{"B1 insulated", caseB1, 13.333333, 14.702546, 12.264393, 1, math.NaN()},
		{"B2 plywood over a room", caseB2, 10.916317, 12.126656, 9.944710, 0.7486410, 6.731988},
		{"B3 board on a slab on ground", caseB3, 12.875760, 14.155144, 11.843645, 0.8830196, math.NaN()},
	}
	for _, c := range cases {
		for _, m := range []struct{ cell, within float64 }{{1, 0.01}, {0.5, 0.002}} {
			s := c.section
			s.Cell = m.cell
			st, err := s.Solve()
			if err != nil {
				t.Fatal(c.name, err)
			}
			near(t, c.name+" mean", st.Mean, c.mean, 2e-6)
			near(t, c.name+" over", st.OverCable, c.over, m.within)
			near(t, c.name+" midway", st.Midway, c.midway, m.within)
			near(t, c.name+" up share", st.UpShare, c.upShare, 1e-6)
			near(t, c.name+" imbalance", st.Imbalance, 0, 1e-6)
			if !math.IsNaN(c.underside) {
				near(t, c.name+" underside", st.Underside, c.underside, 2e-6)
			}
		}
	}
}

// The mean of B1 is exactly q'/(s h): all heat leaves through the film.
func TestMeanOfInsulatedFloorIsExact(t *testing.T) {
	st, err := caseB1.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", st.Mean, 10/(0.075*10), 1e-8)
}

// The test's own series must give the tabled figures before other floors are
// held against it.
func TestSeriesOracle(t *testing.T) {
	e := newSeries(caseB2)
	near(t, "over", e.at(e.top, 0), 12.126656065, 1e-8)
	near(t, "midway", e.at(e.top, 38.1), 9.944710488, 1e-8)
	near(t, "underside over", e.at(e.foot, 0), 7.461189296, 1e-8)
	near(t, "plane midway", e.at(e.plane, 38.1), 10.673087565, 1e-5)
}

// Halving the cells must quarter the error: second order.
func TestSecondOrder(t *testing.T) {
	for name, s := range map[string]Section{"B1": caseB1, "B2": caseB2, "B3": caseB3} {
		e := newSeries(s)
		exact := e.at(e.top, 0)
		var errors []float64
		for _, cell := range []float64{2, 1, 0.5} {
			s.Cell = cell
			st, err := s.Solve()
			if err != nil {
				t.Fatal(err)
			}
			errors = append(errors, math.Abs(st.OverCable-exact))
		}
		for i := range 2 {
			if order := math.Log2(errors[i] / errors[i+1]); order < 1.7 || order > 2.6 {
				t.Errorf("%s: errors %.3g fall with order %.2f, want 2", name, errors, order)
			}
		}
	}
}

// Case A: semi-infinite body, surface held at room temperature, row of line
// sources. Carslaw & Jaeger by images; also the shape factor of a row of
// cylinders in heat-transfer books. A large film coefficient holds the
// surface; 300 mm stand for no end. The local flux follows from the film.
func TestRowOfLineSources(t *testing.T) {
	s := Section{
		Layers: []Layer{layer("mortar", 300, 1.0)}, Depth: 15, Spacing: 76.2, WattsPerMetre: 12,
		Diameter: 6, Top: Film{1e7}, Cell: 0.5,
	}
	st, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean flux", st.Mean*1e7, 157.4803, 1e-3)
	near(t, "flux over a cable", st.OverCable*1e7, 286.3124, 286.3*0.005)
	near(t, "flux midway", st.Midway*1e7, 86.6188, 86.6*0.005)
	near(t, "far below", st.Underside, 2.36220, 2.36*0.005)
	near(t, "cable surface", st.Cable, 4.8619, 0.02)
	near(t, "hottest point", st.Hottest, 5.1314, 0.03)
}

// The layered series at 24 places round the cable, averaged, by a program apart from this
// one (K over the room): a bath's plywood over a room at the room's temperature and
// insulated, a kitchen's board and slab on ground 10 K colder. The membrane is 5.5 mm thick
// with the cable in its middle, so that its faces touch the cable.
func TestCableSurfaceInLayers(t *testing.T) {
	bath := Section{Layers: []Layer{layer("tile", 9.525, 1.3), layer("bed", 3.175, 1), layer("membrane", 5.588, 0.844),
		layer("plywood", 19.05, 0.13)}, Depth: 15.494, Spacing: 88.2, WattsPerMetre: 12.149,
		Below: Below{Kind: FilmBelow, Coefficient: 1 / 0.17}}
	sealed := bath
	sealed.Below = Below{}
	kitchen := Section{Layers: []Layer{layer("tile", 10, 1.3), layer("bed", 4, 1), layer("membrane", 5.5, 0.844),
		layer("board", 10, 0.033), layer("slab", 120, 2)}, Depth: 16.75, Spacing: 117.07, WattsPerMetre: 12,
		Below: Below{Kind: Ground, Rise: -10}}
	for name, c := range map[string]struct {
		s             Section
		mean, hottest float64
	}{"bath": {bath, 16.0828, 17.22}, "bath, insulated": {sealed, 19.2858, 20.54}, "kitchen": {kitchen, 13.1178,
		14.45}} {
		st, err := c.s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" cable", st.Cable, c.mean, 0.005)
		near(t, name+" hottest", st.Hottest, c.hottest, 0.02)
	}
}

// A cable on the face between two layers is between those in either layer.
func TestCableBetweenLayers(t *testing.T) {
	at := func(layers ...Layer) float64 {
		s := caseB1
		s.Layers = layers
		st, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return st.Cable
	}
	worse, better := at(layer("a", 20, 0.5)), at(layer("b", 20, 1.5))
	face := at(layer("b", 15, 1.5), layer("a", 5, 0.5))
	if !(better < face && face < worse) {
		t.Errorf("good conductor %.3f, face %.3f, bad conductor %.3f", better, face, worse)
	}
}

// With the characteristic on top and all heat going up, 100 W/m² make 8.9994 K
// and 150 W/m² make 13.0106 K (inverse of EN 1264-2).
func TestSteadyOnTheCharacteristic(t *testing.T) {
	for _, c := range []struct{ q, rise float64 }{{100, 8.9994}, {120, 10.6218}, {150, 13.0106}} {
		s := caseB1
		s.Top = Film{}
		s.WattsPerMetre = c.q * s.Spacing / 1000
		st, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean", st.Mean, c.rise, 1e-4)
	}
}

// A room below that is 10 K colder draws heat by the exact resistances, also
// where no cable gives any: the difference of two balances is the cable's own.
func TestColdRoomBelow(t *testing.T) {
	s := caseB2
	s.Below.Rise = -10
	cold, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	warm, _ := caseB2.Solve()
	through := 10 / (1/10.8 + 0.009/1.3 + 0.012/1.0 + 0.019/0.13 + 1/5.88)
	near(t, "up", cold.Up, warm.Up-through, 1e-4)
	near(t, "down", cold.Down, warm.Down+through, 1e-4)
}

func TestProfileSpansTwoRuns(t *testing.T) {
	st, err := caseB2.Solve()
	if err != nil {
		t.Fatal(err)
	}
	first, last := st.Profile[0], st.Profile[len(st.Profile)-1]
	near(t, "both ends of the profile", first.X+last.X, 2*76.2, 1e-9)
	near(t, "rise at both ends", first.Rise, last.Rise, 1e-12)
	top := 0
	for i, p := range st.Profile[:len(st.Profile)/2] {
		if p.Rise > st.Profile[top].Rise {
			top = i
		}
	}
	near(t, "place of the first run", st.Profile[top].X, 76.2/2, 1)
	if first.Rise < st.Midway || st.Profile[top].Rise > st.OverCable {
		t.Errorf("profile %.3f..%.3f leaves %.3f..%.3f", first.Rise, st.Profile[top].Rise, st.Midway, st.OverCable)
	}
}

// randomSection draws any floor that Check admits and a builder might meet.
func randomSection(t *rapid.T) Section {
	s := Section{
		Spacing:       rapid.Float64Range(40, 200).Draw(t, "spacing"),
		WattsPerMetre: rapid.Float64Range(1, 30).Draw(t, "power"),
		Below:         Below{Kind: BelowKind(rapid.IntRange(0, 2).Draw(t, "below")), Coefficient: 5.88},
		Cell:          2,
	}
	for range rapid.IntRange(1, 5).Draw(t, "layers") {
		s.Layers = append(s.Layers, layer("layer", rapid.Float64Range(5, 80).Draw(t, "mm"),
			rapid.Float64Range(0.03, 3).Draw(t, "k")))
	}
	if rapid.Bool().Draw(t, "fixed film") {
		s.Top.Coefficient = rapid.Float64Range(2, 30).Draw(t, "film")
	}
	s.Depth = s.Thickness() * rapid.Float64Range(0.05, 0.95).Draw(t, "depth")
	return s
}

func TestAnySectionBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSection(t)
		st, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		b := s.balanced(s.Flux())
		if math.Abs(st.Imbalance) > 1e-6 || math.Abs(st.Mean-b.surface) > 1e-6*b.surface {
			t.Fatalf("imbalance %g, mean %g against %g", st.Imbalance, st.Mean, b.surface)
		}
		if st.OverCable < st.Mean || st.Midway > st.Mean || st.Midway < -1e-9 || st.UpShare > 1+1e-9 {
			t.Fatalf("out of order: over %g, mean %g, midway %g, share %g", st.OverCable, st.Mean, st.Midway,
				st.UpShare)
		}
	})
}

// Any layers, not only the tabled ones: the surface must follow the series.
// The error falls with the square of the cable's depth in cells, and a cable
// hard against the underside adds a little.
func TestAnySectionFollowsTheSeries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSection(t)
		s.Top.Coefficient = 10.8
		s.Cell = 1
		st, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		e := newSeries(s)
		over, midway := e.at(e.top, 0), e.at(e.top, s.Spacing/2)
		within := (0.01+0.5*math.Pow(s.Cell/s.Depth, 2))*(over-midway) + 1e-3
		if math.Abs(st.OverCable-over) > within || math.Abs(st.Midway-midway) > within {
			t.Fatalf("%g and %g, the series has %g and %g", st.OverCable, st.Midway, over, midway)
		}
	})
}

// Conduction with a fixed film is linear: twice the power, twice the rise.
func TestRiseScalesWithPower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSection(t)
		s.Top.Coefficient = 10.8
		a, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		s.WattsPerMetre *= 2
		b, _ := s.Solve()
		for _, p := range [][2]float64{{a.Mean, b.Mean}, {a.OverCable, b.OverCable}, {a.Cable, b.Cable},
			{a.Down, b.Down}} {
			if math.Abs(2*p[0]-p[1]) > 1e-7*(1+math.Abs(p[1])) {
				t.Fatalf("%g doubled to %g", p[0], p[1])
			}
		}
	})
}

func TestCheckNamesTheFigure(t *testing.T) {
	change := map[string]func(*Section){
		"the floor has no layers":                     func(s *Section) { s.Layers = nil },
		"the spacing is 0 mm":                         func(s *Section) { s.Spacing = 0 },
		"the cable's power is NaN":                    func(s *Section) { s.WattsPerMetre = math.NaN() },
		"the thickness of tile is -9 mm":              func(s *Section) { s.Layers = []Layer{layer("tile", -9, 1)} },
		"the conductivity of tile is 0":               func(s *Section) { s.Layers = []Layer{layer("tile", 9, 0)} },
		"the cable lies 15 mm deep, but the floor":    func(s *Section) { s.Layers = []Layer{layer("tile", 9, 1)} },
		"the film coefficient below is 0":             func(s *Section) { s.Below.Kind = FilmBelow },
		"the film coefficient on top is -1":           func(s *Section) { s.Top.Coefficient = -1 },
		"use larger ones":                             func(s *Section) { s.Cell = 0.01; s.Layers[0].Thickness = 2000 },
		"the temperature below is +Inf K over":        func(s *Section) { s.Below.Rise = math.Inf(1) },
		"the cable's diameter is 80 mm; it must lie":  func(s *Section) { s.Diameter = 80 },
		"the cable lies 0 mm deep, but the floor is ": func(s *Section) { s.Depth = 0 },
	}
	for want, f := range change {
		s := caseB1
		s.Layers = append([]Layer(nil), s.Layers...)
		f(&s)
		if _, err := s.Solve(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

func BenchmarkSectionAt1mm(b *testing.B) {
	for name, s := range map[string]Section{"B1": caseB1, "B2": caseB2, "B3": caseB3} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := s.Solve(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
