package heat

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout/language"

	"pgregory.net/rapid"
)

// use is 4 to 10 hours a day with the current on for 40 to 100 % of them.
func use(watts, tariff float64, currency string) Use {
	return Use{Watts: watts, Hours: Range{4, 10}, Duty: Range{0.4, 1}, Tariff: tariff, Currency: currency}
}

// By hand: 600 W, 4 to 10 h a day, on for 40 to 100 %: 0.96 to 6 kWh a day;
// 30 days are 28.8 to 180 kWh, printed 29 and 180, at 0.20 5.80 to 36.00 a month; always on
// 172.8 to 432, printed 170 and 430.
func TestEnergyByHand(t *testing.T) {
	e, err := use(600, 0.20, "EUR").Energy()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"kWh an hour", e.PerHour, 0.6}, {"price an hour", e.PerHourPrice, 0.12},
		{"day low", e.Day.Low, 0.96}, {"day high", e.Day.High, 6},
		{"month low", e.MonthPrice.Low, 5.8}, {"month high", e.MonthPrice.High, 36},
		{"always on low", e.AlwaysOn.Low, 170}, {"always on high", e.AlwaysPrice.High, 86},
	} {
		near(t, c.name, c.got, c.want, 1e-9)
	}
	words := strings.Join(language.In(language.English, e.Assumptions), "\n")
	for _, want := range []string{"4 to 10 hours", "40 to 100 %", "0.2 EUR a kWh", "power cut"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in\n%s", want, words)
		}
	}
}

// Whoever multiplies a printed range by the printed tariff comes to the printed price:
// 310 kWh at 0.31 are 96, not 97.
func TestPrintedEnergyTimesTariffIsThePrintedPrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents := rapid.IntRange(1, 90).Draw(t, "cents")
		u := use(float64(rapid.IntRange(20, 8000).Draw(t, "watts")), float64(cents)/100, "EUR")
		e, err := u.Energy()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range [][2]Range{{e.Month, e.MonthPrice}, {e.AlwaysOn, e.AlwaysPrice}, {e.Day, e.DayPrice}} {
			var low, high float64
			if _, err := fmt.Sscanf(r[0].Words().String(), "%g to %g", &low, &high); err != nil {
				t.Fatal(err)
			}
			if want := (Range{low * u.Tariff, high * u.Tariff}).Words().String(); r[1].Words().String() != want {
				t.Fatalf("%s kWh at %g are %s, printed %s", r[0].Words(), u.Tariff, want, r[1].Words())
			}
		}
	})
}

func TestEnergyWithoutTariff(t *testing.T) {
	e, err := use(600, 0, "").Energy()
	if err != nil || e.MonthPrice != (Range{}) || e.Month.High == 0 {
		t.Errorf("%+v, %v", e, err)
	}
	if !strings.Contains(strings.Join(language.In(language.English, e.Assumptions), "\n"), "no tariff given") {
		t.Error(e.Assumptions)
	}
}

func TestEnergyNamesTheFigure(t *testing.T) {
	for want, change := range map[string]func(*Use){
		"hours a day":   func(u *Use) { u.Hours = Range{4, 25} },
		"share of time": func(u *Use) { u.Duty = Range{0.8, 0.4} },
		"the power":     func(u *Use) { u.Watts = math.NaN() },
		"days a month":  func(u *Use) { u.Days = 40 },
		"the tariff":    func(u *Use) { u.Tariff = -1 },
	} {
		u := use(600, 0.2, "EUR")
		change(&u)
		if _, err := u.Energy(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

func TestRangesToTwoFigures(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 0.0123: "0.012", 0.24: "0.24", 1.49: "1.5", 9.96: "10", 71.4: "71",
		448: "450", 1071: "1100"} {
		if got := twoFigures(v); got != want {
			t.Errorf("%g: %s, want %s", v, got, want)
		}
	}
}
