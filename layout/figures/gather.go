package figures

import (
	"bytes"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// A Sensor is the job's kind of sensor and what it should read.
type Sensor struct {
	Kind      string     `json:"kind"`
	About     string     `json:"about"`
	Curve     string     `json:"curve_from"`
	Source    string     `json:"source"`
	Tolerance float64    `json:"tolerance_k"`
	Expected  []Expected `json:"expected"`
}

// Expected is what a sensor reads at a floor temperature.
type Expected struct {
	Celsius float64 `json:"floor_c"`
	Ohms    float64 `json:"ohms" round:"1"`
	Lowest  float64 `json:"least_ohms" round:"1"`
	Highest float64 `json:"most_ohms" round:"1"`
}

// FullUse is when the floor's layers have hardened.
type FullUse struct {
	Words  string   `json:"words"`
	Date   string   `json:"date"` // empty: open
	By     string   `json:"decided_by"`
	Layers []Cure   `json:"layers"`
	Open   []string `json:"days_not_written_down"`
}

// A Cure is one layer's wait.
type Cure struct {
	Layer  string `json:"layer"`
	Days   int    `json:"days"`
	Source string `json:"source"`
	Placed string `json:"placed"`
}

// A Shift is what becomes of the order in a room that measures otherwise.
type Shift struct {
	Room    string   `json:"room"`
	East    float64  `json:"east_mm" round:"1"`
	North   float64  `json:"north_mm" round:"1"`
	How     string   `json:"how"` // by area, or laid anew
	Keeps   bool     `json:"cable_stays"`
	Spacing float64  `json:"spacing_mm" round:"1"` // 0: laid anew, and it does not go in
	Instead string   `json:"instead"`
	Changes []Change `json:"bought_otherwise"`
	Problem string   `json:"problem"`
}

// A Change is one item bought otherwise.
type Change struct {
	Code  string `json:"code"`
	Packs int    `json:"packs"`
}

// bought is a line of the take-off, for the text.
type bought struct {
	item                       language.Message
	words, packs, spare, price string
}

// Of gathers the figures of a plan that has no errors.
func Of(p *layout.Plan) *Report {
	r := &Report{
		Schema: Schema, Job: p.Job.Info.Title, Status: p.Job.Info.Status.String(), Plan: p.Code, Supply: supply(p.Job),
		Rooms:    []Room{},
		Circuits: circuits(p), ToLookUp: lookUps(p.ToLookUp), Sensor: sensor(p.Job.Sensor),
		Warmth: warmth(p.Warmth, p.Job.Units), Losses: losses(p), Energy: energy(p.Warmth, p.Job.Energy.Currency),
		FullUse: fullUse(p.FullUse),
		Shifts:  shifts(p.Shifts), units: p.Job.Units, bought: lines(p.TakeOff, p.Job.Units),
	}
	if r.Warmth != nil {
		r.Warmth.Floors = floors(p)
	}
	var b bytes.Buffer
	if takeoff.WriteJSON(&b, p.TakeOff) == nil { // a buffer takes all
		r.TakeOff = b.Bytes()
	}
	for i := range p.Rooms {
		r.Rooms = append(r.Rooms, room(p, &p.Rooms[i]))
	}
	return r
}

func supply(j *job.Job) Supply {
	in := j.Region()
	s := Supply{
		Region: in.Name, Continuous: Limit(in.Continuous), RegionFrom: regionSource(j),
		Pitch: limit(j.Membrane.PegPitch(), j.Spans, "membrane.pitch"),
	}
	if j.Uneven() {
		s.Across, s.Strips = limit(j.Membrane.Across, j.Spans, "membrane.pitch_across"), j.Strips != nil
		if s.Strips {
			s.Across = limit(j.Membrane.Across, j.Spans, "strips.clips")
		}
		s.Least, s.Most = limit(j.Near(), j.Spans, "spacing.closest_gap"), limit(j.Far(), j.Spans, "spacing.widest_gap")
	} else {
		s.Closest = limit(float64(j.Spacing.Closest), j.Spans, "spacing.closest")
		s.Widest = limit(float64(j.Spacing.Widest), j.Spans, "spacing.widest")
	}
	if j.Supply.Volts > 0 {
		s.Volts = &Limit{j.Supply.Volts, job.FromJob.String()}
	}
	if j.Supply.MaxDensity > 0 {
		s.MaxDensity = &Limit{j.Supply.MaxDensity, j.Supply.MaxDensitySource.String()}
		s.MostOver = layout.LimitOver(j.Supply.MaxDensityOver)
	}
	return s
}

// regionSource is where the region comes from.
func regionSource(j *job.Job) string {
	if j.Supply.Region == "" {
		return "the job's units"
	}
	return job.FromJob.String()
}

func room(p *layout.Plan, r *layout.Room) Room {
	out := Room{
		Name: r.Job.Name, Floor: squareMetres(r.Floor.Area()), Tiled: squareMetres(r.Tiled.Area()),
		Heated: squareMetres(r.Heated.Area()),
		Wall:   limit(p.Job.Clearance.Wall, p.Job.Spans, "clearance.wall"), Cables: []Cable{},
	}
	out.Missed = r.Job.Closure.Gap
	for _, w := range r.Job.Walls {
		out.Corners = append(out.Corners, Corner{w.Letter, w.A.X, w.A.Y})
	}
	watts := 0.0
	for i := range r.Cables {
		watts += r.Cables[i].Label.Watts
		one := cable(&r.Cables[i], r.Job.Thermostat)
		one.Start = startOf(r, &r.Cables[i])
		out.Cables = append(out.Cables, one)
	}
	out.Zones = zones(r)
	out.AtEven = squareMetres(r.Warmed())
	out.Density, out.OverHeated, out.OverTile = density(watts, r.Warmed()), density(watts, r.Heated.Area()),
		density(watts, r.Tiled.Area())
	out.Thermostat, out.Tiles = thermostat(p, r), tileLayouts(r, p.Job.Tile)
	return out
}

// density is 0 where there is no floor.
func density(watts, mm2 float64) float64 {
	d, err := circuit.Density(watts, mm2)
	if err != nil {
		return 0
	}
	return d
}

func thermostat(p *layout.Plan, r *layout.Room) Thermostat {
	t := Thermostat{Height: limit(r.Job.Thermostat.Height, r.Job.Thermostat.Spans, "height"), Sensors: len(r.Sensors)}
	if set := r.Job.Thermostat.Limit; set > 0 {
		t.FloorLimit = &Limit{set, job.FromJob.String()}
	}
	if v := p.Warmth.Comfort(r); v != nil && v.Over() {
		t.FloorMost = &Limit{v.Limit.Celsius, v.Limit.Name + ", " + v.Limit.Source}
	}
	if c := p.Job.Circuit(r.Job.Thermostat); c != nil {
		t.Circuit = c.Name
	}
	for _, c := range r.Cables {
		t.ColdLeads += len(c.Joined())
	}
	if l := p.LoadOf(r.Job.Name); l != nil {
		t.Volts, t.Watts, t.Amps, t.Continuous = l.Volts, l.Watts, l.Amps, l.Continuous
		t.Ohms, t.Margin, t.Needs = l.Ohms, l.Margin, l.Needs
		t.Contacts = limit(l.Contacts, p.Job.Spans, "supply.thermostat_amps")
	}
	return t
}

func sensor(s job.Sensor) *Sensor {
	if s.Family.Curve == nil {
		return nil
	}
	out := &Sensor{Kind: s.Family.Name, About: s.Family.About, Curve: s.Family.Source, Source: s.Source.String(),
		Tolerance: s.Tolerance, Expected: []Expected{}}
	for _, o := range layout.ExpectedSensor(s) {
		out.Expected = append(out.Expected, Expected{o.Celsius, o.Ohms, o.Lowest, o.Highest})
	}
	return out
}

func fullUse(f *layout.FullUse) *FullUse {
	if f == nil {
		return nil
	}
	const day = "2006-01-02"
	out := &FullUse{Words: f.Words(language.English), By: f.By, Open: append([]string{}, f.Open...)}
	if !f.Date.IsZero() {
		out.Date = f.Date.Format(day)
	}
	for _, c := range f.Cures {
		one := Cure{Layer: c.Layer, Days: c.Wait(), Source: job.FromJob.String()}
		if c.Days == 0 {
			one.Source = job.FromDefault.String()
		}
		if !c.Placed.IsZero() {
			one.Placed = c.Placed.Format(day)
		}
		out.Layers = append(out.Layers, one)
	}
	return out
}

func shifts(all []layout.Shift) []Shift {
	out := []Shift{}
	for _, s := range all {
		one := Shift{Room: s.Room, How: "by area", Keeps: s.Keeps, Spacing: s.Spacing, Instead: s.Instead,
			Problem: s.Problem, Changes: []Change{}}
		if s.Laid {
			one.How = "laid anew"
		}
		if s.East {
			one.East = s.By
		} else {
			one.North = s.By
		}
		for _, c := range s.Changes {
			one.Changes = append(one.Changes, Change{c.Code, c.Packs})
		}
		out = append(out, one)
	}
	return out
}

// limit is a value with where it comes from, by the key it stands under.
func limit(v float64, spans job.Spans, key string) Limit {
	return Limit{v, spans.Source(key).String()}
}

func squareMetres(mm2 float64) float64 { return plane.Millimetres.Area(mm2) }

// lookUps words what the region's rules remind of.
func lookUps(rules []circuit.Warning) []string {
	out := []string{}
	for _, w := range rules {
		out = append(out, w.String())
	}
	return out
}
