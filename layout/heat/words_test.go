package heat

import (
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout/language"
)

func hold(t *testing.T, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%q\nwant %q", got, want)
	}
}

// Figures in both systems, by the exact ratios of foot, pound and Btu: 1 Btu/(h ft °F) is 1.7307
// W/(m K), 1 Btu/(h ft² °F) 5.678 W/(m² K), 1 ft 0.3048 m (tables of conversion, from memory).
func TestWhatLiesBelowInWords(t *testing.T) {
	for _, c := range []struct {
		below  Below
		si, us string
	}{
		{Below{}, "no heat is lost", "no heat is lost"},
		{Below{Kind: FilmBelow, Coefficient: 5.678263},
			"a space at the room's temperature, through 5.68 W/(m² K) (ISO 6946, heat flowing down)",
			"a space at the room's temperature, through 1 Btu/(h ft² °F) (ISO 6946, heat flowing down)"},
		{Below{Kind: SoilBelow, Coefficient: 11.356526, Rise: -0.5},
			"soil that has settled, to outside air 0.5 °C colder than the room, through 11.4 W/(m² K)",
			"soil that has settled, to outside air 0.9 °F colder than the room, through 2 Btu/(h ft² °F)"},
		{Below{Kind: Ground, Rise: 0.5},
			"ground held 0.5 °C warmer than the room right under the lowest layer, without any soil's resistance",
			"ground held 0.9 °F warmer than the room right under the lowest layer, without any soil's resistance"},
	} {
		hold(t, c.below.Words(false).String(), c.si)
		hold(t, c.below.Words(true).String(), c.us)
	}
	s := Section{Below: Below{Kind: SoilBelow, Coefficient: 5.678263 / 2}}
	soil := Soil{2, 3.048}
	hold(t, soil.Words(s, true).String(), "ISO 13370, slab on ground: soil 1.16 Btu/(h ft °F), characteristic "+
		"dimension 10 "+
		"ft, outer walls 11.8 in thick, 2 h ft² °F/Btu below the slab")
	hold(t, soil.Words(s, false).String(), "ISO 13370, slab on ground: soil 2 W/(m K), characteristic dimension "+
		"3.05 m, outer "+
		"walls 300 mm thick, 0.352 m²K/W below the slab")
}

func TestFilmInWords(t *testing.T) {
	hold(t, Film{}.words(words{false}).String(),
		"surface to room: q = 8.92 (mean surface - air)^1.1 in W/m² and K (EN "+
			"1264-2); 7 W/(m² K) where the floor is colder than the air (ISO 11855-2)")
	hold(t, Film{}.words(words{true}).String(), "surface to room: q = 0.434 (mean surface - air)^1.1 in W/ft² and "+
		"°F (EN "+
		"1264-2); 1.23 Btu/(h ft² °F) where the floor is colder than the air (ISO 11855-2)")
	hold(t, Film{0.5}.words(words{false}).String(), "surface to room: 0.5 W/(m² K)")
	// the formula in US units gives what the other does: 9 K are 16.2 °F, a ft² is 0.0929 m²
	near(t, "W/ft²", 0.434*math.Pow(16.2, 1.1), 0.09290304*Film{}.Flux(9), 0.01)
}

func TestAssumptionsInBothSystems(t *testing.T) {
	s := caseB1
	hold(t, s.Assumptions(false)[3].String(),
		"cable full on at 10 W/m, 75 mm apart, 5.5 mm thick, its middle 15 mm below the surface")
	s.Spacing, s.Depth, s.WattsPerMetre = 76.2, 25.4, 10/0.3048
	hold(t, s.Assumptions(true)[3].String(),
		"cable full on at 10 W/ft, 3 in apart, 0.217 in thick, its middle 1 in below the surface")
	hold(t, s.Assumptions(true)[4].String(), "warm-up from a floor long off; real floors differ by ±50 %")
}

// A room's loss is said so that it can be redone: a cubic foot is 0.0283168 m³, air takes 0.018 Btu/(ft³ °F).
func TestLossInWords(t *testing.T) {
	l := Loss{Elements: []Element{{"wall", 9.290304, 0.5678263, -5}}, Volume: 28.316846592, Changes: Range{0.5, 1},
		Inside: 20, Outside: -5}
	for us, want := range map[bool][]string{
		false: {"wall: 9.29 m², 0.568 W/(m² K), -5 °C beyond",
			"air: 28.3 m³, 0.5 to 1 changes an hour, 0.34 Wh/(m³ K) (EN 12831)",
			"±15 % for what is simplified: steady, without sun, people or what walls store"},
		true: {"wall: 100 ft², 0.1 Btu/(h ft² °F), 23 °F beyond",
			"air: 1000 ft³, 0.5 to 1 changes an hour, 0.0183 Btu/(ft³ °F) (EN 12831)",
			"±15 % for what is simplified: steady, without sun, people or what walls store"},
	} {
		if got := l.Words(us); !slices.Equal(language.In(language.English, got), want) {
			t.Errorf("%q\nwant %q", got, want)
		}
	}
	hold(t, Range{293.07, 586.14}.Power(false, language.English), "290 to 590 W")
	hold(t, Range{293.07107, 586.14214}.Power(true, language.English), "290 to 590 W (1000 to 2000 Btu/h)")
}

// A warmer day than the room takes nothing from it; half a watt lost is a loss.
func TestLossAtItsEnds(t *testing.T) {
	l := Loss{Elements: []Element{{"wall", 10, 1, 25}}, Volume: 20, Changes: Range{0.5, 1}, Inside: 20, Outside: 25}
	if got := l.Watts(); got != (Range{}) {
		t.Errorf("%v", got)
	}
	if got := Covered(Range{1, 2}, Range{0.5, 0.8}); got != (Range{1.25, 4}) {
		t.Errorf("%v", got)
	}
	for r, want := range map[Range]string{
		{2, 2}: "covers the loss more than twice", {1.5, 2}: "covers 150 to 200 % of the loss",
		{1.99, 2.01}: "covers 199 % of the loss at least", {0, 0.5}: "covers 0 to 50 % of the loss",
	} {
		hold(t, CoveredWords(r, language.English), want)
	}
	for want, change := range map[string]func(*Loss){
		"the room's volume": func(l *Loss) { l.Volume = -1 }, "the air changes": func(l *Loss) { l.Changes.Low = -0.1 },
		"the most air changes": func(l *Loss) { l.Changes.High = 0.4 },
		"the area of wall":     func(l *Loss) { l.Elements[0].Area = -1 },
		"the U-value of wall":  func(l *Loss) { l.Elements[0].U = 11 },
	} {
		bad := l
		bad.Elements = []Element{l.Elements[0]}
		change(&bad)
		if err := bad.Check(); err == nil || !strings.Contains(err.Error(), want+" is") {
			t.Errorf("%v, want %s", err, want)
		}
	}
	for _, edge := range []Loss{{Volume: 0}, {Volume: 1e5, Changes: Range{20, 20}, Elements: []Element{{"wall", 1e5,
		10, 0}}},
		{Elements: []Element{{"wall", 0, 0, 0}}}} {
		if err := edge.Check(); err != nil {
			t.Error(err)
		}
	}
}

func TestVerdictInWords(t *testing.T) {
	v := Steady{OverCable: 12.5}.Against(20, BathroomLimit)[0]
	hold(t, v.Words(false).String(), "left on without a thermostat, the surface over a cable would reach 32.5 °C, "+
		"12.5 °C "+
		"over the air, 3.5 °C above the limit of bathroom, 33 °C, 9 °C over air at 24 °C (EN 1264-2): the floor "+
		"thermostat must hold it down")
	hold(t, v.Words(true).String(), "left on without a thermostat, the surface over a cable would reach 90.5 °F, "+
		"22.5 °F over "+
		"the air, 6.3 °F above the limit of bathroom, 91.4 °F, 16.2 °F over air at 75.2 °F (EN 1264-2): the floor "+
		"thermostat must hold it down")
	v = Steady{OverCable: 5}.Against(20, CoveringLimit("oak", 27, "job file"))[0]
	hold(t, v.Words(true).String(), "left on without a thermostat, the surface over a cable would reach 77 °F, 9 °F "+
		"over "+
		"the air, 3.6 °F below the limit of oak, 80.6 °F (job file)")
}

func TestOffersInWords(t *testing.T) {
	for _, c := range []struct {
		o    Offer
		us   bool
		want string
	}{
		{Offer{Reached: true, Low: 1200, High: 3600}, false, "20 min to 1 h"}, {Offer{Never: true, Settles: 6.94},
			false, "never: settles at +6.9 °C"},
		{Offer{Never: true, Settles: 5}, true, "never: settles at +9.0 °F"},
		{Offer{Settles: 9}, false, "not within 2.5 h"},
	} {
		hold(t, c.o.Range(2.5, c.us).String(), c.want)
	}
	for seconds, want := range map[float64]string{59 * 60: "59 min", 60 * 60: "1 h", 64 * 60: "1 h",
		65 * 60: "1 h 10 min", 354 * 60: "5 h 50 min", 355 * 60: "6 h", 360 * 60: "6 h", 389 * 60: "6 h",
		390 * 60: "7 h"} {
		hold(t, FormatTime(seconds), want)
	}
}

// Between its points a curve is straight, before and after them level: by hand.
func TestCurveByHand(t *testing.T) {
	c := Curve{Start: 1, Points: []Moment{{0, 1}, {100, 3}, {300, 4}}}
	for at, want := range map[float64]float64{-5: 1, 0: 1, 50: 2, 100: 3, 200: 3.5, 300: 4, 900: 4} {
		near(t, "rise", c.At(at), want, 1e-12)
	}
	for rise, want := range map[float64]float64{-1: 0, 0: 0, 1: 50, 2: 100, 2.5: 200, 3: 300} {
		got, ok := c.TimeTo(rise)
		near(t, "time", got, want, 1e-12)
		if !ok {
			t.Errorf("%g K are never gained", rise)
		}
	}
	if _, ok := c.TimeTo(3.001); ok {
		t.Error("more is gained than there is")
	}
	for after, want := range map[float64]float64{0: 1, 39: 1, 80: 2, 4000: 100, 12000: 300, 90000: 300} {
		near(t, "step", timeStep(after), want, 1e-12)
	}
}

// Uses at the ends of what is asked for pass: 0 hours, 24, all of them on, one day, 31.
func TestUsesAtTheirEnds(t *testing.T) {
	for _, u := range []Use{
		{Watts: 0, Hours: Range{0, 0}, Duty: Range{0, 0}, Days: 1}, {Watts: 1e6, Hours: Range{24, 24},
			Duty: Range{1, 1}, Days: 31, Tariff: 1e6}, {Watts: 600, Hours: Range{5, 5}, Duty: Range{0.5, 0.5}},
	} {
		e, err := u.Energy()
		days := u.Days
		if days == 0 {
			days = 30
		}
		if want := u.Watts / 1000 * u.Hours.High * u.Duty.High * days; err != nil ||
			math.Abs(e.Month.High-want) > 0.05*want || e.Month.Low != e.Month.High {
			t.Errorf("%+v: %+v, %v", u, e.Month, err)
		}
		near(t, "always", e.AlwaysPrice.High, e.AlwaysOn.High*u.Tariff, 1e-6*e.AlwaysPrice.High)
		near(t, "always on", e.AlwaysOn.High, u.Watts/1000*24*days*u.Duty.High, 0.05*e.AlwaysOn.High)
		near(t, "a day", e.DayPrice.High, e.Day.High*u.Tariff, 1e-6*e.DayPrice.High)
	}
	for want, u := range map[string]Use{
		"hours a day: -1 to 4 is not a range within 0 to 24": {Hours: Range{-1, 4}},
		"share of time with the current on: 0 to 1.5 is not": {Duty: Range{0, 1.5}},
		"hours a day: 5 to 4":                                {Hours: Range{5, 4}},
		"the days a month is 0.5":                            {Days: 0.5},
	} {
		if _, err := u.Energy(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	hold(t, twoFigures(-1), "0")
	hold(t, Range{0.96, 6}.Words().String(), "0.96 to 6.0")
}

// Boards go above any layer, the topmost and below the lowest too, and nowhere else; a rise of
// a tenth can be waited for.
func TestBoardGoesWhereThereAreLayers(t *testing.T) {
	m, _ := DefaultMaterial("board")
	for above, ok := range map[int]bool{-1: false, 3: true, 4: true, 5: false} {
		offers, err := slab().Offers([]float64{90}, &Board{m.Layer(10), above}, 0.1, 1)
		if (err == nil) != ok || ok && len(offers) != 2 {
			t.Errorf("above layer %d: %v", above, err)
		}
	}
	s := slab().WithLayer(4, Layer{Name: "last"})
	if n := len(s.Layers); n != 5 || s.Layers[4].Name != "last" || s.Layers[3].Name != "concrete" ||
		len(slab().Layers) != 4 {
		t.Errorf("%+v", s.Layers)
	}
}
