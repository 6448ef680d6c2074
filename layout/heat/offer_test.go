package heat

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/layout/language"
)

// slab is a floor on bare concrete on ground, from the default materials.
func slab() Section {
	layers := []Layer{}
	for _, p := range []struct {
		kind string
		mm   float64
	}{{"tile", 9}, {"mortar", 3}, {"membrane", 5}, {"concrete", 100}} {
		m, _ := DefaultMaterial(p.kind)
		layers = append(layers, m.Layer(p.mm))
	}
	return Section{
		Layers: layers, Depth: 14.5, Spacing: 90, WattsPerMetre: 12,
		Below: Below{Kind: Ground},
	}
}

func TestOffersComeInOrder(t *testing.T) {
	m, _ := DefaultMaterial("board")
	offers, err := slab().Offers([]float64{60, 75, 90}, &Board{m.Layer(10), 3}, 5, 12)
	if err != nil {
		t.Fatal(err)
	}
	if len(offers) != 6 {
		t.Fatalf("%d offers, want 6", len(offers))
	}
	for i := range 3 {
		bare, board := offers[2*i], offers[2*i+1]
		if bare.Board || !board.Board || bare.Spacing != board.Spacing {
			t.Fatalf("rows %d: %g and %g mm, board %v and %v", i, bare.Spacing, board.Spacing, bare.Board, board.Board)
		}
		if !board.Reached || bare.Reached && board.Time >= bare.Time {
			t.Errorf("%g mm: %g s with a board, %g s without", bare.Spacing, board.Time, bare.Time)
		}
		if i > 0 && board.Time <= offers[2*i-1].Time {
			t.Errorf("%g mm is warm sooner than %g mm", board.Spacing, offers[2*i-1].Spacing)
		}
	}
}

// Published for thin tile: 20 to 60 minutes, over boards or wood (common
// practice). The floor must come out in that region, not merely in order.
func TestThinTileOverBoardWarmsInAnHour(t *testing.T) {
	m, _ := DefaultMaterial("board")
	offers, err := slab().Offers([]float64{75}, &Board{m.Layer(10), 3}, 8, 12)
	if err != nil {
		t.Fatal(err)
	}
	with := offers[1]
	if !with.Reached || with.Time < 20*60 || with.Time > 75*60 {
		t.Errorf("8 K at 160 W/m² take %s", FormatTime(with.Time))
	}
	if with.Low != with.Time/2 || with.High != with.Time*1.5 {
		t.Errorf("range %g to %g about %g", with.Low, with.High, with.Time)
	}
	if bare := offers[0]; bare.Reached && bare.Time < 2*with.Time {
		t.Errorf("a bare slab takes only %s", FormatTime(bare.Time))
	}
}

// What is never reached is told from what is not reached in time. In the end a
// floor gains its steady rise, which series and two resistances are held against
// elsewhere.
func TestOfferThatIsNotReached(t *testing.T) {
	s := slab()
	settled, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		rise, hours float64
		want        string
	}{{15, 1, fmt.Sprintf("never: settles at %+.1f °C", settled.Mean)}, {0.95 * settled.Mean, 1, "not within 1 h"}} {
		offers, err := s.Offers([]float64{90}, nil, c.rise, c.hours)
		if err != nil {
			t.Fatal(err)
		}
		o := offers[0]
		near(t, "settles", o.Settles, settled.Mean, 1e-4)
		if o.Reached || o.Range(c.hours, false).String() != c.want || o.Never != (c.rise > settled.Mean) {
			t.Errorf("%g K: got %q, want %q", c.rise, o.Range(c.hours, false), c.want)
		}
	}
}

func TestOffersNameTheFigure(t *testing.T) {
	m, _ := DefaultMaterial("board")
	for _, f := range []func() error{
		func() error { _, err := slab().Offers([]float64{0}, nil, 5, 1); return err },
		func() error { _, err := slab().Offers([]float64{60}, &Board{m.Layer(10), 9}, 5, 1); return err },
		func() error { _, err := slab().Offers([]float64{60}, &Board{m.Layer(-1), 3}, 5, 1); return err },
		func() error { _, err := slab().Offers([]float64{60}, nil, -5, 1); return err },
	} {
		if f() == nil {
			t.Error("no error")
		}
	}
}

// What is printed must not promise.
func TestAssumptionsSayWhatIsNotComputed(t *testing.T) {
	s := slab()
	s.Below = Below{Kind: FilmBelow, Coefficient: 5.88, Rise: -8}
	words := strings.Join(language.In(language.English, append(s.Assumptions(false), s.Below.Words(false))), "\n")
	for _, want := range []string{"no room temperature", "EN 1264-2", "8 °C colder than the room", "±50 %", "12 W/m"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in\n%s", want, words)
		}
	}
}

// In US units nothing metric is left: 12 W/m are 3.66 W/ft, 8 K 14.4 °F, 5.88
// W/(m² K) 1.04 Btu/(h ft² °F); plain arithmetic.
func TestAssumptionsInUSUnits(t *testing.T) {
	s := slab()
	s.Below = Below{Kind: FilmBelow, Coefficient: 5.88, Rise: -8}
	words := strings.Join(language.In(language.English, append(s.Assumptions(true), s.Below.Words(true))), "\n")
	for _, want := range []string{"14.4 °F colder", "1.04 Btu/(h ft² °F)", "3.66 W/ft", " in apart", " in below"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in\n%s", want, words)
		}
	}
	for _, metric := range []string{" mm", " K ", "W/m", "°C"} {
		if strings.Contains(words, metric) {
			t.Errorf("%q is said in\n%s", metric, words)
		}
	}
}
