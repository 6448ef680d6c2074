package build

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// warm works out the job's warmth: nothing when it gives no layers, and a
// warning when they cannot be computed with.
func warm(p *layout.Plan) []job.Diagnostic {
	if len(p.Job.BuildUp) == 0 || firstCable(p) == nil {
		return nil
	}
	w := &layout.Warmth{Room: p.Job.Warmth.Room, Warmest: p.Job.Warmth.Warmest, Rise: p.Job.Warmth.Rise,
		Hours: p.Job.Warmth.Hours, Holds: -1}
	p.Warmth = w
	layers(w, p.Job)
	err := compute(w, p)
	if err == nil {
		return append(tooWarm(w, p.Job), tooHot(p)...)
	}
	w.Problem, w.Runs, w.Offers = err.Error(), nil, nil
	return []job.Diagnostic{{
		Severity: job.Warning, ID: "W121", Span: p.Job.Spans.At("layer"),
		Message: "the floor's warmth cannot be worked out: " + w.Problem,
		Hint: "give every [[layer]] from the tile down to what carries the floor, one of them of kind \"membrane\", " +
			"with conductivity where its kind is \"other\"",
	}}
}

func firstCable(p *layout.Plan) *layout.Cable {
	for i := range p.Rooms {
		if len(p.Rooms[i].Cables) > 0 {
			return &p.Rooms[i].Cables[0]
		}
	}
	return nil
}

// layers takes the job's layers over. A membrane without figures of its own is
// taken as filled with mortar to its void share.
func layers(w *layout.Warmth, j *job.Job) {
	w.Loose, w.Holds = j.Strips != nil, j.Holding()
	for _, l := range j.BuildUp {
		source := language.Say(l.Source)
		layer := heat.Layer{Name: l.Name, Thickness: l.Thickness, Conductivity: l.Conductivity, Density: l.Density,
			HeatCapacity: l.HeatCapacity}
		if l.Kind == "membrane" {
			if !l.Own {
				m := heat.FilledMembrane(j.Membrane.VoidShare)
				layer.Conductivity, layer.Density, layer.HeatCapacity = m.Conductivity, m.Density, m.HeatCapacity
				source = language.Say("%s mortar, %s polypropylene by volume (ISO 10456)",
					language.Figure(say.Percent(j.Membrane.VoidShare)),
					language.Figure(say.Percent(1-j.Membrane.VoidShare)))
			}
		}
		w.Layers, w.Sources = append(w.Layers, layer), append(w.Sources, source)
	}
}

// place finds how deep the cable lies.
func place(w *layout.Warmth) error {
	if w.Holds < 0 {
		if w.Loose {
			return fmt.Errorf("no layer is of kind \"mortar\" or \"screed\", so that it is not known how deep the " +
				"cable lies")
		}
		return fmt.Errorf("no layer is of kind \"membrane\", so that it is not known how deep the cable lies")
	}
	for _, l := range w.Layers[:w.Holds] {
		w.Depth += l.Thickness
	}
	if w.Loose { // on its strips, at the foot of what it is bedded in
		w.Depth += w.Layers[w.Holds].Thickness / 2
	}
	w.Depth += w.Layers[w.Holds].Thickness / 2
	if w.Holds == 0 {
		return fmt.Errorf("the membrane is the top layer: nothing covers the cable")
	}
	return nil
}

// compute fills in all that follows from the layers.
func compute(w *layout.Warmth, p *layout.Plan) error {
	if err := place(w); err != nil {
		return err
	}
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			if err := run(w, p, &p.Rooms[i], &p.Rooms[i].Cables[k]); err != nil {
				return err
			}
		}
	}
	if err := offers(w, p); err != nil {
		return err
	}
	return energy(w, p)
}

// section is the floor over a cable in the cold case.
func section(w *layout.Warmth, p *layout.Plan, c *layout.Cable) heat.Section {
	return heat.Section{
		Layers: w.Layers, Depth: w.Depth, Spacing: c.Spacing, Diameter: c.Label.Diameter,
		WattsPerMetre: c.Label.Watts / (c.Label.Length / 1000), Below: below(p.Job),
	}
}

// usualBelow is the temperature taken for ground and voids where the job gives
// none, °C: about the year's mean outdoors in a temperate place.
const usualBelow = 10

// belowKind says what lies under the floor: what the job says, or by its
// lowest layer.
func belowKind(j *job.Job) string {
	if kind := j.Warmth.Below; kind != "" {
		return kind
	}
	if last := j.BuildUp[len(j.BuildUp)-1].Kind; last == "concrete" || last == "screed" {
		return "ground"
	}
	return "room"
}

// belowAt is how warm it is down there, °C.
func belowAt(j *job.Job, kind string) float64 {
	switch {
	case j.Warmth.BelowGiven:
		return j.Warmth.BelowAt
	case kind == "room":
		return j.Warmth.Room
	}
	return usualBelow
}

// usualDimension is the characteristic dimension taken where the job does not
// say how much of a room's edge is an outside wall, m: ISO 13370 takes the
// whole building's, here that of a house of about 9 by 7 m.
const usualDimension = 4.0

// soil is the ground under a room. Its dimension is the usual house's, unless
// the room alone has more or the job says what its outside walls come to.
func soil(j *job.Job, r *layout.Room) (s heat.Soil, from string) {
	s.Conductivity = j.Warmth.Soil
	area := r.Floor.Area() / plane.SquareMetre
	if r.Job.ExposedGiven {
		s.Dimension = heat.CharacteristicDimension(area, r.Job.Exposed/1000)
		return s, "from the room's floor and its exposed edge"
	}
	own := heat.CharacteristicDimension(area, r.Job.Outline.Perimeter()/1000)
	if own > usualDimension {
		s.Dimension = own
		return s, "from the room, all its walls taken as outside walls: exposed is not given"
	}
	s.Dimension = usualDimension
	return s, "that of a house of about 9 by 7 m: exposed is not given"
}

// hot is the floor over a cable in the hot case: on soil that has settled, or with no
// heat lost below; or as in the cold case, where that gives the floor more heat, as a
// boiler's room below does, and ground in a hot place.
func hot(j *job.Job, cold heat.Section, on *heat.Soil) heat.Section {
	kept := cold
	kept.Below = heat.Below{}
	if on != nil {
		kept = cold.OnSoil(*on, belowAt(j, "ground")-j.Warmth.Warmest)
	}
	fed := cold
	fed.Below.Rise += j.Warmth.Room - j.Warmth.Warmest
	if fed.MeanRise() > kept.MeanRise() {
		return fed
	}
	return kept
}

// below says what lies under the floor in the cold case.
func below(j *job.Job) heat.Below {
	kind := belowKind(j)
	at := belowAt(j, kind)
	b := heat.Below{Kind: heat.FilmBelow, Coefficient: heat.FilmDown, Rise: at - j.Warmth.Room}
	switch kind {
	case "ground":
		b.Kind, b.Coefficient = heat.Ground, 0
	case "insulated":
		b = heat.Below{}
	}
	return b
}

// run adds the steady states over a cable, unless another is laid alike: at
// the same watts a metre, a spacing the same to a millimetre, and on the same
// ground.
func run(w *layout.Warmth, p *layout.Plan, r *layout.Room, c *layout.Cable) error {
	warm := layout.Warm{Cables: []string{c.ID}}
	warm.Cold.Section = section(w, p, c)
	if belowKind(p.Job) == "ground" {
		s, from := soil(p.Job, r)
		warm.Soil, warm.DimensionFrom = &s, from
	}
	warm.Hot.Section = hot(p.Job, warm.Cold.Section, warm.Soil)
	for i := range w.Runs {
		if like(w.Runs[i], warm) {
			w.Runs[i].Cables = append(w.Runs[i].Cables, c.ID)
			return nil
		}
	}
	if err := solve(&warm); err != nil {
		return err
	}
	warm.Verdicts = warm.Hot.Steady.Against(w.Warmest, limits(p.Job)...)
	w.Runs = append(w.Runs, warm)
	return nil
}

// samePerMetre W/m: runs that differ by less share a section.
const samePerMetre = 0.05

// like reports whether two floors are laid alike, on the same ground.
func like(w layout.Warm, o layout.Warm) bool {
	s, t := w.Hot.Section, o.Hot.Section
	return math.Abs(t.WattsPerMetre-s.WattsPerMetre) < samePerMetre && math.Abs(t.Spacing-s.Spacing) < 1 &&
		t.Diameter == s.Diameter && t.Below == s.Below
}

func solve(w *layout.Warm) (err error) {
	if w.Cold.Steady, err = w.Cold.Section.Solve(); err != nil {
		return err
	}
	w.Hot.Steady, err = w.Hot.Section.Solve()
	return err
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
func tooWarm(w *layout.Warmth, j *job.Job) []job.Diagnostic {
	if !j.Warmth.Covering.Given {
		return nil
	}
	var out []job.Diagnostic
	for _, r := range w.Runs {
		if v := r.Verdicts[0]; v.Over() {
			out = append(out, job.Diagnostic{
				Severity: job.Warning, ID: "W122", Span: j.Warmth.Spans.At("covering_limit"),
				Message: strings.Join(r.Cables, ", ") + ": " + v.Words(j.Units == plane.Inches).String(),
				Hint: "set the thermostat to stay below the covering's limit and measure at its hottest, or lay the " +
					"runs wider",
			})
		}
	}
	return out
}

// mostOffers is how many spacings are compared at most.
const mostOffers = 5

// offers compares the spacings that the job allows, for the first cable, with
// and without an insulation board unless the floor has one.
func offers(w *layout.Warmth, p *layout.Plan) error {
	s := section(w, p, firstCable(p))
	spacings := offered(p.Job, s.WattsPerMetre)
	if len(spacings) == 0 { // then as it is laid
		spacings = []float64{s.Spacing}
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

// sumsSlack W/m² a limit may be passed by that rounds to it.
const sumsSlack = 1e-6

// gaps are those that whole pegs make between the closest and the widest, either way, mm.
func gaps(j *job.Job) (out []float64) {
	for _, pitch := range []float64{j.Membrane.Pitch, cmp.Or(j.Membrane.Across, j.Membrane.Pitch)} {
		for n := int(math.Ceil(j.Near()/pitch - plane.Whit)); float64(n)*pitch <= j.Far()+plane.Hair; n++ {
			out = append(out, float64(n)*pitch)
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < plane.Hair })
}

// offered are the spacings in mm that the job allows a cable of so many W/m.
func offered(j *job.Job, perMetre float64) (out []float64) {
	for _, mm := range gaps(j) {
		if len(out) == mostOffers {
			break
		}
		if most := j.Supply.MaxDensity; most > 0 && perMetre/(mm/1000) > most+sumsSlack {
			continue // the job's own limit forbids it
		}
		out = append(out, mm)
	}
	return out
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
func energy(w *layout.Warmth, p *layout.Plan) error {
	e := p.Job.Energy
	for _, l := range p.Load {
		use := heat.Use{
			Watts: l.Watts, Hours: heat.Range{Low: e.LeastHours, High: e.MostHours}, Duty: heat.Range{Low: e.LeastDuty,
				High: e.MostDuty},
			Tariff: e.Tariff, Currency: e.Currency,
		}
		out, err := use.Energy()
		if err != nil {
			return err
		}
		w.Use = append(w.Use, layout.RoomUse{Room: l.Room, Energy: out})
	}
	return nil
}
