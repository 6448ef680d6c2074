package figures

import (
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// Warmth is how warm the floor gets and how soon.
type Warmth struct {
	Problem     string    `json:"problem"` // why it cannot be worked out; empty where it is
	Room        float64   `json:"room_c"`
	Warmest     float64   `json:"room_at_warmest_c"`
	Surfaces    []Surface `json:"surfaces"`
	Floors      []Floor   `json:"floors"`
	Rise        float64   `json:"rise_k"`
	Hours       float64   `json:"waited_h"`
	WarmUps     []WarmUp  `json:"warm_up"`
	Board       float64   `json:"board_mm"` // of the board compared with, 0 for none
	Assumptions []string  `json:"assumptions"`
	assumptions []language.Message
}

// A Surface is the settled floor over cables laid alike, left on without a
// thermostat: at least as warm as State says, at most as Hot does. Limits are
// held against Hot.
type Surface struct {
	Cables []string `json:"cables"`
	State
	Hot    State       `json:"at_most"`
	Limits []HeatLimit `json:"limits"`
}

// A Floor is the settled surface of a room over its cables as they lie: at least as warm as
// FloorState says, at most as Hot does.
type Floor struct {
	Room    string  `json:"room"`
	Problem string  `json:"problem"`           // why it cannot be worked out; empty where it is
	Spot    float64 `json:"spot_mm" round:"0"` // across: what a spot is the mean of
	FloorState
	Hot FloorState `json:"at_most"`
}

// A FloorState is one of the two: the surface over the heated floor, and the spots where a
// foot stands coldest and warmest on the whole; null where none has room for it.
type FloorState struct {
	Mean    float64 `json:"heated_mean_c" round:"2"`
	Spread  float64 `json:"heated_standard_deviation_k" round:"2"`
	Coldest *Spot   `json:"coldest_spot"`
	Warmest *Spot   `json:"warmest_spot"`
}

// A Spot is a place on the floor.
type Spot struct {
	Celsius float64 `json:"spot_c" round:"2"`
	X       float64 `json:"x_mm" round:"0"`
	Y       float64 `json:"y_mm" round:"0"`
	Where   string  `json:"where"`
}

// A State is a settled floor.
type State struct {
	Mean    float64 `json:"mean_c" round:"2"`
	Over    float64 `json:"over_cable_c" round:"2"`
	Midway  float64 `json:"midway_c" round:"2"`
	Hottest float64 `json:"at_cable_c" round:"2"`
	Up      float64 `json:"up_percent" round:"1"`
	Down    float64 `json:"down_w_m2" round:"1"`
}

// A HeatLimit is a highest surface temperature, and how far the floor over a
// cable stays below it: in temperature, or in its rise over the air that the
// limit is for, whichever is less.
type HeatLimit struct {
	Name   string  `json:"name"`
	Limit  float64 `json:"limit_c" round:"2"`
	Air    float64 `json:"for_air_at_c"` // 0: whatever the air
	Source string  `json:"source"`
	Margin float64 `json:"margin_k" round:"2"` // negative: above

	words, margin string
}

// A WarmUp is how soon a spacing gains the rise.
type WarmUp struct {
	Spacing float64 `json:"spacing_mm" round:"1"`
	Density float64 `json:"w_m2" round:"1"`
	Board   bool    `json:"over_board"`
	Reached bool    `json:"reached"`
	Settles float64 `json:"settles_k" round:"2"` // gained in the end
	Low     float64 `json:"least_min" round:"1"`
	High    float64 `json:"most_min" round:"1"`
	words   string
}

// Energy is what a room draws, as ranges.
type Energy struct {
	Room     string     `json:"room"`
	PerHour  float64    `json:"hour_on_kwh" round:"3"`
	Month    [2]float64 `json:"month_kwh" round:"1"`
	AlwaysOn [2]float64 `json:"month_always_on_kwh" round:"1"`
	// what it costs; null: the job gives no tariff
	Price      *float64    `json:"hour_on_price" round:"3"`
	MonthCost  *[2]float64 `json:"month_price" round:"2"`
	AlwaysCost *[2]float64 `json:"month_always_on_price" round:"2"`
	Currency   string      `json:"currency"`
	Basis      []string    `json:"assumptions"`
	basis      []language.Message
}

func warmth(w *layout.Warmth, u plane.Units) *Warmth {
	if w == nil {
		return nil
	}
	out := &Warmth{Problem: w.Problem, Room: w.Room, Warmest: w.Warmest, Surfaces: []Surface{}, Rise: w.Rise,
		Floors: []Floor{}, Hours: w.Hours, WarmUps: []WarmUp{}, Board: w.Board,
		Assumptions: language.In(language.English, w.Assumptions(u)), assumptions: w.Assumptions(u)}
	us := u == plane.Inches
	for _, r := range w.Runs {
		s := Surface{Cables: r.Cables, State: state(r.Cold.Steady, w.Room), Hot: state(r.Hot.Steady, w.Warmest)}
		for _, v := range r.Verdicts {
			s.Limits = append(s.Limits, HeatLimit{v.Limit.Name, v.Limit.Celsius, v.Limit.Air, v.Limit.Source, v.Margin,
				v.Limit.Words(us).String(), v.MarginWords(us).String()})
		}
		out.Surfaces = append(out.Surfaces, s)
	}
	for _, o := range w.Offers {
		out.WarmUps = append(out.WarmUps, WarmUp{o.Spacing, o.Flux, o.Board, o.Reached, o.Settles, o.Low / 60,
			o.High / 60, o.Range(w.Hours, us).String()})
	}
	return out
}

// floors gathers the rooms of which the warmth is known place by place.
func floors(p *layout.Plan) []Floor {
	out := []Floor{}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		if r.Warm == nil {
			continue
		}
		tape := layout.NewTape(r.Job, p.Job.Units)
		out = append(out, Floor{r.Job.Name, r.Warm.Problem, r.Warm.Spot, floorState(r.Warm.Cold, tape),
			floorState(r.Warm.Hot, tape)})
	}
	return out
}

func floorState(s layout.FloorState, tape layout.Tape) FloorState {
	spot := func(at *layout.FloorSpot) *Spot {
		if at == nil {
			return nil
		}
		return &Spot{at.Celsius, at.At.X, at.At.Y, tape.Place(at.At)}
	}
	return FloorState{s.Mean, s.Spread, spot(s.Coldest), spot(s.Warmest)}
}

func state(st heat.Steady, room float64) State {
	return State{room + st.Mean, room + st.OverCable, room + st.Midway, room + st.Hottest, 100 * st.UpShare, st.Down}
}

func energy(w *layout.Warmth, currency string) []Energy {
	out := []Energy{}
	if w == nil {
		return out
	}
	both := func(r heat.Range) [2]float64 { return [2]float64{r.Low, r.High} }
	for _, u := range w.Use {
		e := Energy{Room: u.Room, PerHour: u.PerHour, Month: both(u.Month), AlwaysOn: both(u.AlwaysOn),
			Currency: currency, Basis: language.In(language.English, u.Assumptions), basis: u.Assumptions}
		if u.PerHourPrice > 0 {
			month, always := both(u.MonthPrice), both(u.AlwaysPrice)
			e.Price, e.MonthCost, e.AlwaysCost = &u.PerHourPrice, &month, &always
		}
		out = append(out, e)
	}
	return out
}
