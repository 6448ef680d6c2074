package heat

import (
	"math"
	"testing"
)

// bareSlab is tile on an uninsulated bareSlab on ground: the floor that spreads heat farthest.
var bareSlab = Section{
	Layers: []Layer{layer("tile", 10, 1.3), layer("bed", 4, 1), layer("membrane", 5.5, 0.844),
		layer("concrete", 150, 2)},
	Depth: 16.75, Spacing: 120, WattsPerMetre: 12, Top: Film{10.8}, Below: Below{Kind: Ground, Rise: -10},
}

// at is the surface's rise over an even row of runs, x mm from one: the Fourier series of
// their heat, each term by the modes.
func (s Spreading) at(f Section, x float64) float64 {
	t := s.Base
	for n := range 200 {
		wave, q := 2*math.Pi*float64(n)/f.Spacing, 2*f.Flux()
		if n == 0 {
			q /= 2
		}
		for _, m := range s.Modes {
			t += q * math.Cos(wave*x) * m.Gain / (1 + wave*wave*m.Reach*m.Reach)
		}
	}
	return t
}

// The exact series of series_test.go, by admittances and not by modes.
func TestSpreadingOfEvenRows(t *testing.T) {
	insulated := bareSlab
	insulated.Below = Below{}
	for name, s := range map[string]Section{"B1": caseB1, "B2": caseB2, "B3": caseB3, "slab": bareSlab,
		"insulated slab": insulated} {
		sp, err := s.Spreading()
		if err != nil {
			t.Fatal(name, err)
		}
		st, err := s.Solve()
		if err != nil {
			t.Fatal(name, err)
		}
		near(t, name+" mean", sp.Base+s.Flux()*sum(sp.Modes), st.Mean, 1e-6)
		near(t, name+" over a run", sp.at(s, 0), st.OverCable, 0.01*(st.OverCable-sp.Base))
		near(t, name+" midway", sp.at(s, s.Spacing/2), st.Midway, 0.01*(st.Midway-sp.Base))
		if s.Below.Rise == 0 && s.Below.Kind == FilmBelow {
			e := newSeries(s)
			for _, x := range []float64{0, 0.1, 0.25, 0.5} {
				near(t, name+" by the series", sp.at(s, x*s.Spacing), e.at(e.top, x*s.Spacing), 0.05)
			}
		}
	}
}

func sum(modes []Mode) (total float64) {
	for _, m := range modes {
		total += m.Gain
	}
	return total
}
