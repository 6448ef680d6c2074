// Package figures gathers every figure of a plan, each limit with its origin,
// and writes them as a report to read and as JSON.
package figures

import (
	"encoding/json"
	"fmt"
	"io"
	"reflect"

	"oxturn/layout/asjson"
	"oxturn/layout/plane"
)

// Schema is the version of the JSON form. Keys may be added; these keep their
// meaning. Every key of a figure ends in its unit.
const Schema = 1

// A Report is all figures of one job. A pointer or list that is nil was not
// asked for by the job, or cannot be worked out. Figures are kept as exactly as
// they were computed, and rounded once: as text to what it shows, as JSON to the
// decimals in the tag round.
type Report struct {
	Schema   int             `json:"schema"`
	Job      string          `json:"job"`
	Status   string          `json:"status"`
	Plan     string          `json:"plan_code"`
	Supply   Supply          `json:"supply"`
	Rooms    []Room          `json:"rooms"`
	Circuits []Circuit       `json:"circuits"`
	ToLookUp []string        `json:"to_look_up"` // what the region's rules remind of
	Sensor   *Sensor         `json:"sensor"`
	Warmth   *Warmth         `json:"warmth"`
	Losses   []HeatLoss      `json:"heat_loss"`
	Energy   []Energy        `json:"energy"`
	FullUse  *FullUse        `json:"full_use"`
	TakeOff  json.RawMessage `json:"take_off"` // as it is written beside the sheets
	Shifts   []Shift         `json:"if_measured_otherwise"`

	units  plane.Units
	bought []bought
}

// A Limit is a bound with where it comes from: label, instructions, job file
// or default.
type Limit struct {
	Value  float64 `json:"value" round:"2"`
	Source string  `json:"source"`
}

// Supply is what holds for the whole job.
type Supply struct {
	Volts      *Limit `json:"volts"` // nil: the labels' own
	MaxDensity *Limit `json:"most_w_m2"`
	MostOver   string `json:"most_over"`              // what that limit is over, in words; empty where there is none
	Region     string `json:"region"`                 // whose ratings and words hold: as named, or by the units
	Continuous Limit  `json:"continuous_load_factor"` // 1: a load counts as it is
	RegionFrom string `json:"region_source"`
	Closest    Limit  `json:"closest_pegs,omitzero"` // none where the pegs are no distance
	Widest     Limit  `json:"widest_pegs,omitzero"`
	Least      Limit  `json:"closest_gap_mm,omitzero"` // only there
	Most       Limit  `json:"widest_gap_mm,omitzero"`
	Pitch      Limit  `json:"pitch_mm"`
	Across     Limit  `json:"pitch_across_mm,omitzero"`
	Strips     bool   `json:"strips,omitzero"` // the pitch across is that of their clips, the other a step
}

// A Room is one floor.
type Room struct {
	Name       string     `json:"name"`
	Floor      float64    `json:"floor_m2" round:"3"`
	Tiled      float64    `json:"tiled_m2" round:"3"`
	Heated     float64    `json:"heated_m2" round:"3"`
	Density    float64    `json:"heat_at_even_spacing_w_m2" round:"1"`
	AtEven     float64    `json:"at_even_spacing_m2" round:"3"` // what Density is over
	OverHeated float64    `json:"heat_over_heated_w_m2" round:"1"`
	OverTile   float64    `json:"heat_over_tiled_w_m2" round:"1"`
	Wall       Limit      `json:"clear_of_walls_mm"`
	Corners    []Corner   `json:"corners"`
	Missed     float64    `json:"walls_missed_by_mm" round:"1"` // spread over the corners
	Cables     []Cable    `json:"cables"`
	Zones      []Zone     `json:"zones,omitempty"` // parts of the floor that the job speaks of
	Thermostat Thermostat `json:"thermostat"`

	Tiles []TileLayout `json:"tile_layouts"` // the one taken first; none: not set out tile by tile
}

// A Corner is where a wall starts: walls as taped are adjusted until they close.
type Corner struct {
	Wall string  `json:"wall_starts"`
	X    float64 `json:"x_mm" round:"1"`
	Y    float64 `json:"y_mm" round:"1"`
}

// A Thermostat is what one box feeds.
type Thermostat struct {
	Circuit    string  `json:"circuit"`
	Volts      float64 `json:"volts"`
	Watts      float64 `json:"watts" round:"1"`
	Amps       float64 `json:"amps" round:"3"`
	Continuous float64 `json:"to_carry_a" round:"3"` // times the region's factor for a continuous load
	Ohms       float64 `json:"parallel_ohms" round:"2"`
	Contacts   Limit   `json:"contacts_a"`
	Margin     float64 `json:"margin_a" round:"3"`
	Needs      string  `json:"needs"` // empty: nothing more
	Height     Limit   `json:"height_mm"`
	FloorLimit *Limit  `json:"floor_limit_c"`   // what it keeps the floor below, nil: not given
	FloorMost  *Limit  `json:"floor_at_most_c"` // nil: left on, the floor stays comfortable, or its warmth is not known
	ColdLeads  int     `json:"cold_leads"`
	Sensors    int     `json:"sensor_leads"`
}

// WriteJSON writes a report as one indented JSON document.
func (r *Report) WriteJSON(w io.Writer) error {
	if err := asjson.Write(w, rounded(reflect.ValueOf(r), "").Interface()); err != nil {
		return fmt.Errorf("figures as JSON: %w", err)
	}
	return nil
}
