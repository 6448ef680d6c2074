package figures

import (
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/plane"
)

// Warmth is how warm the floor gets and how soon.
type Warmth struct {
	Problem     string    `json:"problem"` // why it cannot be worked out; empty where it is
	Room        float64   `json:"room_c"`
	Surfaces    []Surface `json:"surfaces"`
	Rise        float64   `json:"rise_k"`
	Hours       float64   `json:"waited_h"`
	WarmUps     []WarmUp  `json:"warm_up"`
	Board       float64   `json:"board_mm"` // of the board compared with, 0 for none
	Assumptions []string  `json:"assumptions"`
}

// A Surface is the settled floor over cables laid alike, left on without a
// thermostat.
type Surface struct {
	Cables  []string    `json:"cables"`
	Mean    float64     `json:"mean_c"`
	Over    float64     `json:"over_cable_c"`
	Midway  float64     `json:"midway_c"`
	Hottest float64     `json:"at_cable_c"`
	Up      float64     `json:"up_percent"`
	Down    float64     `json:"down_w_m2"`
	Limits  []HeatLimit `json:"limits"`
}

// A HeatLimit is a highest surface temperature, and how far the floor over a
// cable stays below it.
type HeatLimit struct {
	Name   string  `json:"name"`
	Limit  float64 `json:"limit_c"`
	Source string  `json:"source"`
	Margin float64 `json:"margin_k"` // negative: above
}

// A WarmUp is how soon a spacing gains the rise.
type WarmUp struct {
	Spacing float64 `json:"spacing_mm"`
	Density float64 `json:"w_m2"`
	Board   bool    `json:"over_board"`
	Reached bool    `json:"reached"`
	Low     float64 `json:"least_min"`
	High    float64 `json:"most_min"`
	words   string
}

// Energy is what a room draws, as ranges.
type Energy struct {
	Room      string     `json:"room"`
	PerHour   float64    `json:"hour_on_kwh"`
	Month     [2]float64 `json:"month_kwh"`
	AlwaysOn  [2]float64 `json:"month_always_on_kwh"`
	Price     float64    `json:"hour_on_price"`
	MonthCost [2]float64 `json:"month_price"`
	Currency  string     `json:"currency"`
	Basis     []string   `json:"assumptions"`
}

func warmth(w *layout.Warmth, u plane.Units) *Warmth {
	if w == nil {
		return nil
	}
	out := &Warmth{Problem: w.Problem, Room: w.Room, Surfaces: []Surface{}, Rise: w.Rise, Hours: w.Hours, WarmUps: []WarmUp{}, Board: w.Board, Assumptions: w.Assumptions(u)}
	for _, r := range w.Runs {
		st := r.Steady
		s := Surface{
			Cables: r.Cables, Mean: round(w.Room+st.Mean, 2), Over: round(w.Room+st.OverCable, 2), Midway: round(w.Room+st.Midway, 2),
			Hottest: round(w.Room+st.Hottest, 2), Up: round(100*st.UpShare, 1), Down: round(st.Down, 1),
		}
		for _, v := range r.Verdicts {
			s.Limits = append(s.Limits, HeatLimit{v.Limit.Name, round(v.Limit.Celsius, 2), v.Limit.Source, round(v.Margin, 2)})
		}
		out.Surfaces = append(out.Surfaces, s)
	}
	for _, o := range w.Offers {
		out.WarmUps = append(out.WarmUps, WarmUp{round(o.Spacing, 1), round(o.Flux, 1), o.Board, o.Reached, round(o.Low/60, 1), round(o.High/60, 1), o.Range(w.Hours)})
	}
	return out
}

func energy(w *layout.Warmth, currency string) []Energy {
	out := []Energy{}
	if w == nil {
		return out
	}
	both := func(r heat.Range, decimals int) [2]float64 {
		return [2]float64{round(r.Low, decimals), round(r.High, decimals)}
	}
	for _, u := range w.Use {
		out = append(out, Energy{
			Room: u.Room, PerHour: round(u.PerHour, 3), Month: both(u.Month, 1), AlwaysOn: both(u.AlwaysOn, 1),
			Price: round(u.PerHourPrice, 3), MonthCost: both(u.MonthPrice, 2), Currency: currency, Basis: u.Assumptions,
		})
	}
	return out
}
