package heat

import (
	"fmt"
	"math"

	"oxturn/layout/language"

	"oxturn/layout/say"
)

// A Range is a low and a high figure.
type Range struct{ Low, High float64 }

// Times returns the range with both ends multiplied.
func (r Range) Times(k float64) Range { return Range{r.Low * k, r.High * k} }

// tariffDecimals are more than a price of a kWh is quoted in.
const tariffDecimals = 5

// Words writes a range to two figures, for printing: no use is known better.
func (r Range) Words() language.Message {
	return language.Say("%s to %s", language.Figure(twoFigures(r.Low)), language.Figure(twoFigures(r.High)))
}

// rounded brings a range to what Words writes.
func (r Range) rounded() Range { return Range{toTwoFigures(r.Low), toTwoFigures(r.High)} }

func twoFigures(v float64) string {
	if v = toTwoFigures(v); v <= 0 {
		return "0"
	}
	return fmt.Sprintf("%.*f", max(0, 1-int(math.Floor(math.Log10(v)+1e-9))), v)
}

func toTwoFigures(v float64) float64 {
	if v <= 0 {
		return 0
	}
	n := int(math.Floor(math.Log10(v))) - 1
	if n < 0 { // a share like 0.1 is no exact number
		return math.Round(v*math.Pow10(-n)) / math.Pow10(-n)
	}
	return math.Round(v/math.Pow10(n)) * math.Pow10(n)
}

// A Use is how a floor is assumed to be used, to price its energy.
type Use struct {
	Watts    float64
	Hours    Range   // a day that the thermostat calls for warmth
	Duty     Range   // share of those hours with the current on, 0 to 1
	Days     float64 // a month; 0: 30
	Tariff   float64 // price of a kWh; 0: no price is worked out
	Currency string  // as it is to be printed
}

// An Energy is what a floor draws. Ranges are to two figures, as printed, and their
// prices those figures times the tariff, so that whoever redoes them from a sheet comes
// to the same. Prices are 0 where there is no tariff.
type Energy struct {
	PerHour      float64 // kWh in an hour with the current on
	PerHourPrice float64
	Day, Month   Range // kWh
	DayPrice     Range
	MonthPrice   Range
	AlwaysOn     Range // kWh a month if no schedule holds, for instance after a power cut
	AlwaysPrice  Range
	Assumptions  []language.Message
}

// usualDays days are a month where a job does not say.
const usualDays = 30

// Energy works out what the use draws and costs. The error names the figure
// that cannot be.
func (u Use) Energy() (Energy, error) {
	if u.Days == 0 {
		u.Days = usualDays
	}
	if err := u.check(); err != nil {
		return Energy{}, err
	}
	e := Energy{PerHour: u.Watts / 1000}
	e.Day = Range{u.Hours.Low * u.Duty.Low, u.Hours.High * u.Duty.High}.Times(e.PerHour)
	e.Month = e.Day.Times(u.Days).rounded()
	e.Day = e.Day.rounded()
	e.AlwaysOn = u.Duty.Times(24 * u.Days * e.PerHour).rounded()
	e.PerHourPrice = e.PerHour * u.Tariff
	e.DayPrice = e.Day.Times(u.Tariff)
	e.MonthPrice = e.Month.Times(u.Tariff)
	e.AlwaysPrice = e.AlwaysOn.Times(u.Tariff)
	e.Assumptions = u.assumptions()
	return e, nil
}

func (u Use) check() error {
	for _, r := range []struct {
		name string
		Range
		top float64
	}{{"hours a day", u.Hours, 24}, {"share of time with the current on", u.Duty, 1}} {
		if !(r.Low >= 0 && r.Low <= r.High && r.High <= r.top) {
			return fmt.Errorf("%s: %g to %g is not a range within 0 to %g", r.name, r.Low, r.High, r.top)
		}
	}
	return checkAll([]bound{
		{"the power", u.Watts, 0, 1e6, "W"},
		{"the days a month", u.Days, 1, 31, "days"},
		{"the tariff", u.Tariff, 0, 1e6, u.Currency + " a kWh"},
	})
}

func (u Use) assumptions() []language.Message {
	out := []language.Message{
		language.Say("%s to %s hours a day, %s days a month, the current on for %s of them",
			language.Figure(say.Plain(u.Hours.Low)), language.Figure(say.Plain(u.Hours.High)),
			language.Figure(say.Plain(u.Days)), language.Say("%s to %s",
				language.Figure(say.Decimals(100*u.Duty.Low, 0)), language.Figure(say.Percent(u.Duty.High)))),
	}
	if u.Tariff == 0 {
		out = append(out, language.Say("no tariff given"))
	} else {
		out = append(out, language.Say("tariff %s %s a kWh, without standing charges",
			language.Figure(say.Decimals(u.Tariff, tariffDecimals)), u.Currency))
	}
	return append(out, language.Say("always on: as after a power cut"))
}
