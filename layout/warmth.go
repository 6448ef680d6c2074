package layout

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// Warmth is how warm the floor gets and how soon, worked out from the job's
// layers. Where they do not allow that, Problem says why and only Layers is
// there.
type Warmth struct {
	Layers      []heat.Layer // top to bottom, with the figures used
	Holds       int          // index of the layer that holds the cable
	Depth       float64      // mm from the surface to the cable's centre line
	Room        float64      // °C of the air above
	Runs        []Warm       // one for each cable that is warm in its own way
	Rise, Hours float64      // of the offers: K wanted, h waited for
	Offers      []heat.Offer // for every spacing on offer, without and with a board
	Board       float64      // mm of that board, 0: none compared
	Use         []RoomUse    // energy, room by room
	Problem     string
}

// Assumptions says in words what the figures rest on, lengths and temperatures
// in the given units.
func (w *Warmth) Assumptions(u plane.Units) []string {
	if len(w.Runs) == 0 {
		return nil
	}
	return append(w.Runs[0].Section.Assumptions(u == plane.Inches), "the cable lies at mid-height of the membrane, which is filled with mortar")
}

// A Warm is the steady state of a floor over cables laid alike.
type Warm struct {
	Cables   []string // H1, H2...
	Section  heat.Section
	Steady   heat.Steady
	Verdicts []heat.Verdict
}

// A RoomUse is what the heating of a room draws.
type RoomUse struct {
	Room string
	heat.Energy
}

// warm works out the job's warmth: nothing when it gives no layers, and a
// warning when they cannot be computed with.
func (p *Plan) warm() []job.Diagnostic {
	if len(p.Job.BuildUp) == 0 || p.firstCable() == nil {
		return nil
	}
	w := &Warmth{Room: p.Job.Warmth.Room, Rise: p.Job.Warmth.Rise, Hours: p.Job.Warmth.Hours, Holds: -1}
	p.Warmth = w
	w.layers(p.Job)
	err := w.compute(p)
	if err == nil {
		return w.tooWarm(p.Job)
	}
	w.Problem, w.Runs, w.Offers = err.Error(), nil, nil
	return []job.Diagnostic{{
		Severity: job.Warning, ID: "W121", Span: p.Job.Spans.At("layer"), Message: "the floor's warmth cannot be worked out: " + w.Problem,
		Hint: "give every [[layer]] from the tile down to what carries the floor, one of them of kind \"membrane\", with conductivity where its kind is \"other\"",
	}}
}

func (p *Plan) firstCable() *Cable {
	for i := range p.Rooms {
		if len(p.Rooms[i].Cables) > 0 {
			return &p.Rooms[i].Cables[0]
		}
	}
	return nil
}

// layers takes the job's layers over. A membrane without figures of its own is
// taken as filled with mortar to its void share.
func (w *Warmth) layers(j *job.Job) {
	for i, l := range j.BuildUp {
		layer := heat.Layer{Name: l.Name, Thickness: l.Thickness, Conductivity: l.Conductivity, Density: l.Density, HeatCapacity: l.HeatCapacity}
		if l.Kind == "membrane" {
			if w.Holds < 0 {
				w.Holds = i
			}
			if !l.Own {
				m := heat.FilledMembrane(j.Membrane.VoidShare)
				layer.Conductivity, layer.Density, layer.HeatCapacity = m.Conductivity, m.Density, m.HeatCapacity
			}
		}
		w.Layers = append(w.Layers, layer)
	}
}

// Cover is about how much lies over the cable in mm: the layers over the
// membrane, else the tile and its bed. It is a default as soon as one of these
// is.
func (p *Plan) Cover() (mm float64, from job.Source) {
	over := 0.0
	for _, l := range p.Job.BuildUp {
		if l.Kind == "membrane" {
			return over, job.FromJob
		}
		over += l.Thickness
	}
	return p.Job.Tile.Thickness + takeoff.Bed(p.Job.Materials), min(p.Job.Spans.Source("tile.thickness"), p.Job.Materials.BedSource)
}

// place finds how deep the cable lies.
func (w *Warmth) place() error {
	if w.Holds < 0 {
		return fmt.Errorf("no layer is of kind \"membrane\", so that it is not known how deep the cable lies")
	}
	for _, l := range w.Layers[:w.Holds] {
		w.Depth += l.Thickness
	}
	w.Depth += w.Layers[w.Holds].Thickness / 2
	if w.Holds == 0 {
		return fmt.Errorf("the membrane is the top layer: nothing covers the cable")
	}
	return nil
}

// compute fills in all that follows from the layers.
func (w *Warmth) compute(p *Plan) error {
	if err := w.place(); err != nil {
		return err
	}
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			if err := w.run(p, &p.Rooms[i].Cables[k]); err != nil {
				return err
			}
		}
	}
	if err := w.offers(p); err != nil {
		return err
	}
	return w.energy(p)
}

// section is the floor over a cable.
func (w *Warmth) section(p *Plan, c *Cable) heat.Section {
	return heat.Section{
		Layers: w.Layers, Depth: w.Depth, Spacing: c.Spacing, Diameter: c.Label.Diameter,
		WattsPerMetre: c.Label.Watts / (c.Label.Length / 1000), Below: below(p.Job),
	}
}

// usualBelow is the temperature taken for ground and voids where the job gives
// none, °C: about the year's mean outdoors in a temperate place.
const usualBelow = 10

// below says what lies under the floor: what the job says, or by its lowest
// layer.
func below(j *job.Job) heat.Below {
	kind := j.Warmth.Below
	if kind == "" {
		kind = "room"
		if last := j.BuildUp[len(j.BuildUp)-1].Kind; last == "concrete" || last == "screed" {
			kind = "ground"
		}
	}
	at := float64(usualBelow)
	if kind == "room" {
		at = j.Warmth.Room
	}
	if j.Warmth.BelowGiven {
		at = j.Warmth.BelowAt
	}
	b := heat.Below{Kind: heat.FilmBelow, Coefficient: heat.FilmDown, Rise: at - j.Warmth.Room}
	switch kind {
	case "ground":
		b.Kind, b.Coefficient = heat.Ground, 0
	case "insulated":
		b = heat.Below{}
	}
	return b
}

// run adds the steady state over a cable, unless another is laid alike: at
// the same watts a metre, and a spacing the same to a millimetre.
func (w *Warmth) run(p *Plan, c *Cable) error {
	s := w.section(p, c)
	for i := range w.Runs {
		t := w.Runs[i].Section
		if math.Abs(t.WattsPerMetre-s.WattsPerMetre) < 0.05 && math.Abs(t.Spacing-s.Spacing) < 1 && t.Diameter == s.Diameter {
			w.Runs[i].Cables = append(w.Runs[i].Cables, c.ID)
			return nil
		}
	}
	steady, err := s.Solve()
	if err != nil {
		return err
	}
	w.Runs = append(w.Runs, Warm{
		Cables: []string{c.ID}, Section: s, Steady: steady,
		Verdicts: steady.Against(w.Room, limits(p.Job)...),
	})
	return nil
}

// limits are those that the surface is held against, a covering's own first.
func limits(j *job.Job) []heat.Limit {
	out := []heat.Limit{heat.OccupiedLimit, heat.BathroomLimit, heat.EdgeLimit}
	if c := j.Warmth.Covering; c.Given {
		out = append([]heat.Limit{heat.CoveringLimit(c.Name, c.Celsius, c.Source.String())}, out...)
	}
	return out
}

// tooWarm warns where a floor left on would pass its covering's own limit.
func (w *Warmth) tooWarm(j *job.Job) []job.Diagnostic {
	if !j.Warmth.Covering.Given {
		return nil
	}
	var out []job.Diagnostic
	for _, r := range w.Runs {
		if v := r.Verdicts[0]; v.Over() {
			out = append(out, job.Diagnostic{
				Severity: job.Warning, ID: "W122", Span: j.Warmth.Spans.At("covering_limit"), Message: strings.Join(r.Cables, ", ") + ": " + v.Words(j.Units == plane.Inches),
				Hint: "set the thermostat to stay below the covering's limit and measure at its hottest, or lay the runs wider",
			})
		}
	}
	return out
}

// mostOffers is how many spacings are compared at most.
const mostOffers = 5

// offers compares the spacings that the job allows, for the first cable, with
// and without an insulation board unless the floor has one.
func (w *Warmth) offers(p *Plan) error {
	s := w.section(p, p.firstCable())
	var spacings []float64
	for n := p.Job.Spacing.Closest; n <= p.Job.Spacing.Widest && len(spacings) < mostOffers; n++ {
		spacings = append(spacings, float64(n)*p.Job.Membrane.Pitch)
	}
	var board *heat.Board
	if t := p.Job.Warmth.Board; t > 0 && !hasBoard(p.Job) {
		m, _ := heat.DefaultMaterial("board")
		board = &heat.Board{Layer: m.Layer(t), Above: w.Holds + 1}
		w.Board = t
	}
	var err error
	w.Offers, err = s.Offers(spacings, board, w.Rise, w.Hours)
	return err
}

func hasBoard(j *job.Job) bool {
	for _, l := range j.BuildUp {
		if l.Kind == "board" {
			return true
		}
	}
	return false
}

// energy works out what every room's heating draws.
func (w *Warmth) energy(p *Plan) error {
	e := p.Job.Energy
	for _, l := range p.Load {
		use := heat.Use{
			Watts: l.Watts, Hours: heat.Range{Low: e.LeastHours, High: e.MostHours}, Duty: heat.Range{Low: e.LeastDuty, High: e.MostDuty},
			Tariff: e.Tariff, Currency: e.Currency,
		}
		out, err := use.Energy()
		if err != nil {
			return err
		}
		w.Use = append(w.Use, RoomUse{l.Room, out})
	}
	return nil
}
