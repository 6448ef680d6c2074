package figures

import (
	"oxturn/layout"
	"oxturn/layout/circuit"
)

// A Circuit is what one branch circuit feeds.
type Circuit struct {
	Name       string   `json:"name"` // empty: the job names none
	Rooms      []string `json:"rooms"`
	Cables     int      `json:"cables"`
	Volts      float64  `json:"volts"`
	Watts      float64  `json:"watts" round:"1"`
	Amps       float64  `json:"amps" round:"3"`
	Continuous float64  `json:"to_carry_a" round:"3"` // times the region's factor for a continuous load
	Ratings    []Rating `json:"breakers"`             // the job's own, or the usual ones: none is chosen
	Drop       *Drop    `json:"feed"`
	TripMA     float64  `json:"ground_fault_trip_ma"` // 0: not given
	TripAt     string   `json:"ground_fault_at"`
}

// A Rating says what a breaker of one rating carries.
type Rating struct {
	Breaker float64 `json:"breaker_a"`
	Source  string  `json:"source"`             // job file, or usual rating
	Usable  float64 `json:"usable_a" round:"3"` // of a continuous load, by the region's rules
	Limit   float64 `json:"limit_a" round:"3"`
	Binds   string  `json:"binds"`
	Carries bool    `json:"carries_the_load"`
	Most    float64 `json:"most_heated_m2" round:"3"` // of heated floor at this circuit's heat over its own
}

// A Drop is the voltage lost on the feed.
type Drop struct {
	Conductor  string  `json:"conductor"`
	Standard   string  `json:"standard"`
	Length     float64 `json:"one_way_mm" round:"1"`
	Celsius    float64 `json:"conductor_c"`
	Convention string  `json:"moved_by"` // empty: at the table's own temperature
	Volts      float64 `json:"drop_v" round:"3"`
	Percent    float64 `json:"drop_percent" round:"3"`
}

// circuits gathers the circuits.
func circuits(p *layout.Plan) []Circuit {
	floors := map[string]float64{}
	for i := range p.Rooms {
		floors[p.Rooms[i].Job.Name] = p.Rooms[i].Heated.Area()
	}
	out := []Circuit{}
	for _, c := range p.Circuits {
		floor := 0.0
		for _, r := range c.Rooms {
			floor += floors[r]
		}
		one := Circuit{Rooms: c.Rooms, Cables: c.Total.Cables, Volts: c.Total.Volts, Watts: c.Total.Watts,
			Amps: c.Total.Amps, Continuous: c.Total.Continuous}
		source := "usual rating"
		if c.Job != nil {
			one.Name, one.TripMA, one.TripAt = c.Job.Name, c.Job.GroundFault, c.Job.GroundFaultsAt
			if c.Job.Breaker > 0 {
				source = "job file"
			}
		}
		density, err := circuit.Density(c.Total.Watts, floor)
		for _, b := range c.Ratings {
			r := Rating{Breaker: b.Breaker, Source: source, Usable: b.Usable, Limit: b.Limit, Binds: b.Binds,
				Carries: b.Under}
			if err == nil {
				r.Most = squareMetres(b.AreaAt(density))
			}
			one.Ratings = append(one.Ratings, r)
		}
		if d := c.Drop; d != nil {
			one.Drop = &Drop{c.Job.Conductor, d.Standard, c.Job.Length, d.At, d.Convention, d.Volts, 100 * d.Share}
		}
		out = append(out, one)
	}
	return out
}
