package figures

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/circuit"
	"oxturn/layout/heat"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
	"oxturn/layout/say"
)

func (p *page) room(r Room, s Supply) {
	p.head("Room %s", r.Name)
	p.put("areas", fmt.Sprintf("floor %s, tiled %s, heated %s", p.area(r.Floor), p.area(r.Tiled), p.area(r.Heated)),
		fmt.Sprintf("cable %s clear of walls (%s)", p.length(r.Wall.Value), r.Wall.Source))
	if corners := p.corners(r); len(corners) > 0 {
		p.put("corners", corners...)
	}
	p.put("heat", fmt.Sprintf("%s at even spacing, over %s: half a gap beyond the outer runs is counted in",
		p.density(r.Density), p.area(r.AtEven)),
		fmt.Sprintf("%s over the heated %s", p.density(r.OverHeated), p.area(r.Heated)), fmt.Sprintf(
			"%s over the tiled %s", p.density(r.OverTile), p.area(r.Tiled)))
	for _, z := range r.Zones {
		p.zone(z)
	}
	for _, c := range r.Cables {
		p.b.WriteByte('\n')
		p.cable(c, s)
	}
	p.b.WriteByte('\n')
	p.thermostat(r.Thermostat)
	p.tiles(r.Tiles)
}

// corners lists where the walls start.
func (p *page) corners(r Room) []string {
	var out []string
	for _, c := range r.Corners {
		out = append(out, fmt.Sprintf("%s starts at (%s, %s)", c.Wall, p.length(c.X), p.length(c.Y)))
	}
	if r.Missed > 0 {
		out = append(out, fmt.Sprintf("the %s by which the walls as taped missed their start are spread over them",
			p.small(r.Missed)))
	}
	return out
}

func (p *page) cable(c Cable, s Supply) {
	p.put("cable "+c.ID, fmt.Sprintf("%s: %s, %s, %s", c.Label, say.Volts(c.Volts), say.Watts(c.Watts),
		say.Amps(c.Amps)),
		fmt.Sprintf("%s, %s", p.long(c.Length), p.perLength(c.WattsPerMetre)))
	o := c.Ohms
	gap := ""
	if math.Abs(o.LabelGap) >= 0.05 {
		gap = say.PercentMore(o.LabelGap/100) + " from volts²/watts"
	}
	p.put("resistance", fmt.Sprintf("%s at 20 °C (%s)", say.Ohms(o.Nominal), o.From), gap,
		fmt.Sprintf("limits %s, %s (%s)", say.OhmsRange(o.Low, o.High), say.Tolerance(o.Under/100, o.Over/100),
			o.Source), say.WattsRange(o.Least, o.Most)+" between them")
	p.spacing(c, s)
	if c.Start != nil {
		p.put("start", fmt.Sprintf("%s off corner %s, as near to it as was asked", p.length(c.Start.Off),
			c.Start.Corner))
	}
	p.put("runs", fmt.Sprintf("%d, half-way mark on run %s, %s into it", c.Runs, c.runName(c.HalfRun),
		p.length(c.HalfInto)))
	p.drift(c)
	l := c.Lead
	p.put("cold lead", fmt.Sprintf("%s less rise %s (%s), tail %s (%s), slack %s (%s)", p.long(l.Length),
		p.length(l.Rise.Value), l.Rise.Source, p.length(l.Tail.Value), l.Tail.Source, p.length(l.Slack.Value),
		l.Slack.Source),
		fmt.Sprintf("reaches %s over the floor, %s used, %s left", p.long(l.Reach), p.long(l.Used), p.long(l.Left)),
		leadEnds(l.Ends))
	if c.Worst == "" {
		return
	}
	p.put("readings", "held against "+c.HeldAgainst)
	for _, v := range c.Readings {
		if v.Item == "stage" { // its words name the stage and say what is the matter
			p.put("", v.Words)
			continue
		}
		p.put("", fmt.Sprintf("%s, %s: %s. %s", v.Stage, v.Item, v.Grade, v.Words))
	}
}

// drift says what drift the plan takes.
func (p *page) drift(c Cable) {
	switch {
	case c.recorded:
	case len(c.Drift) == 0:
		p.put("drift", "not known how much the plan takes")
	default:
		p.put("drift", fmt.Sprintf("takes at least %s at mark %s", c.Drift[0].words, c.Drift[0].Mark),
			fmt.Sprintf("%s at mark %s", c.Drift[1].words, c.Drift[1].Mark),
			fmt.Sprintf("cable used against drawn, before laid cable must be lifted or over %s of its floor "+
				"stays cold", say.Percent(refit.ReserveCold)))
	}
}

// sentence is put for words that may be broken at their semicolons.
func (p *page) sentence(name, words string) { p.put(name, strings.Split(words, "; ")...) }

// first is a name that stands beside the first of several lines only.
func first(i int, name string) string {
	if i > 0 {
		return ""
	}
	return name
}

func leadEnds(n int) string {
	if n == 2 {
		return "both ends return to the box"
	}
	return ""
}

func (p *page) spacing(c Cable, s Supply) {
	g := c.Spacing
	pegs := func(mm float64) string { return p.small(mm) + " (" + say.Pegs(mm/s.Pitch.Value) + ")" }
	if s.Across.Value > 0 {
		pegs = p.small
	}
	if g.Closest == 0 {
		p.put("spacing", "even "+pegs(g.Even), "no two runs lie side by side for long")
		p.put("heat per area", append(p.perArea(c), p.densityLimit(s, g))...)
		return
	}
	p.put("spacing", "even "+pegs(g.Even), "closest "+pegs(g.Closest), "widest "+pegs(g.Widest))
	densest := fmt.Sprintf("densest %s over three neighbouring runs, round run %s", p.density(g.Densest),
		c.runName(g.DensestRun))
	p.put("heat per area", append(p.perArea(c), densest, p.densityLimit(s, g))...)
}

// perArea is a cable's heat over both floors that it may be divided by.
func (p *page) perArea(c Cable) []string {
	g := c.Spacing
	return []string{
		fmt.Sprintf("%s at even spacing, over %s", p.density(g.Density), p.area(g.AtEven)),
		fmt.Sprintf("%s over the heated %s that it serves", p.density(g.OverServed), p.area(c.Served)),
	}
}

// densityLimit says what is allowed, over which floor, and whether it is kept.
func (p *page) densityLimit(s Supply, g Spacing) string {
	m := s.MaxDensity
	if m == nil {
		return "no limit is given"
	}
	kept := "kept"
	if !g.Keeps {
		kept = "NOT kept"
	}
	return fmt.Sprintf("%s allowed %s (%s): %s", p.density(m.Value), s.MostOver, m.Source, kept)
}

func (p *page) thermostat(t Thermostat) {
	p.put("thermostat", fmt.Sprintf("%s, %s, %s; %s in parallel", say.Volts(t.Volts), say.Watts(t.Watts),
		p.amps(t.Amps, t.Continuous), say.Ohms(t.Ohms)))
	needs := "nothing more needed"
	if t.Needs != "" {
		needs = "needs " + t.Needs
	}
	p.put("its contacts", fmt.Sprintf("%s (%s), %s to spare", say.AmpsGiven(t.Contacts.Value), t.Contacts.Source,
		say.Amps(t.Margin)),
		needs)
	if limits := p.floorLimit(t); limits != nil {
		p.put("its floor limit", limits...)
	}
	p.put("its box", fmt.Sprintf("%s up (%s)", p.length(t.Height.Value), t.Height.Source),
		fmt.Sprintf("%s and %s come up", say.Counted(t.ColdLeads, "cold lead"), say.Counted(t.Sensors, "sensor lead")))
}

// floorLimit is what the thermostat is to keep the floor below; nil where nothing
// asks for it.
func (p *page) floorLimit(t Thermostat) []string {
	var out []string
	if l := t.FloorLimit; l != nil {
		out = append(out, fmt.Sprintf("%s (%s)", p.degrees(l.Value), l.Source))
	} else if t.FloorMost != nil {
		out = append(out, "NOT given")
	}
	if m := t.FloorMost; m != nil {
		out = append(out, fmt.Sprintf("%s at most for lasting contact (%s): left on, the floor would pass it",
			p.degrees(m.Value), m.Source))
	}
	return out
}

func (p *page) circuit(c Circuit) {
	name := "Circuit " + c.Name
	if c.Name == "" {
		name = "Circuit, not named by the job"
	}
	p.head("%s: %s", name, strings.Join(c.Rooms, ", "))
	p.put("load", fmt.Sprintf("%s, %s, %s, %s", say.Counted(c.Cables, "cable"), say.Volts(c.Volts), say.Watts(c.Watts),
		p.amps(c.Amps, c.Continuous)))
	for i, r := range c.Ratings {
		if i > 0 && c.Ratings[i-1].Carries && c.Ratings[i-1].Binds == "thermostat contacts" {
			break // larger ones say nothing new
		}
		if i >= 3 && c.Ratings[i-1].Carries {
			break
		}
		carries := "carries the load, and up to "
		if !r.Carries {
			carries = "LESS than the load: up to "
		}
		p.put(first(i, p.in.Breaker+"s"), fmt.Sprintf("%s (%s): %s%s at %s", say.AmpsGiven(r.Breaker), r.Source,
			p.usable(r),
			p.bound(r.Binds), say.AmpsGiven(r.Limit)),
			carries+p.areaAtMost(r.Most)+" of heated floor at this heat per area")
	}
	if d := c.Drop; d != nil {
		at := "copper at " + say.Degrees(d.Celsius, plane.Millimetres)
		if d.Convention != "" {
			at += " by " + d.Convention
		}
		p.put("feed", fmt.Sprintf("%s one way of %s (job file), %s; %s", p.long(d.Length), d.Conductor, d.Standard, at),
			"drop "+say.VoltageDrop(d.Volts, d.Percent/100))
	}
	if len(c.Ratings) == 0 {
		p.put(p.in.Breaker+"s", "no usual ratings are on file for the region")
	}
	p.put("fault to earth", p.fault(c))
	p.put("not chosen here", p.in.Breaker+", conductor, "+p.in.Fault+": the electrician's")
}

// amps is a load, with what a continuous one counts as where the region says.
func (p *page) amps(plain, carried float64) string {
	if !p.in.Derated() {
		return say.Amps(plain)
	}
	return fmt.Sprintf("%s; as a continuous load, %s: %s", say.Amps(plain), say.Percent(p.in.Continuous.Value),
		say.Amps(carried))
}

// usable is the share of a rating that a continuous load may use, where the
// region says.
func (p *page) usable(r Rating) string {
	if !p.in.Derated() {
		return ""
	}
	return say.Percent(1/p.in.Continuous.Value) + " is " + say.AmpsGiven(r.Usable) + "; "
}

func (p *page) bound(binds string) string {
	switch binds {
	case "both alike":
		return p.in.Breaker + " and contacts bind alike,"
	case "thermostat contacts":
		return "the thermostat's contacts bind"
	}
	return "the " + p.in.Breaker + " binds"
}

func (p *page) fault(c Circuit) string {
	if c.TripMA == 0 {
		return "not given"
	}
	at := "its place is not given"
	if c.TripAt != "" {
		at = "at the " + p.in.Called(c.TripAt)
	}
	return fmt.Sprintf("trips at %s, %s (job file)", say.Milliamps(c.TripMA), at)
}

func (p *page) region(r *Report) {
	if len(r.ToLookUp) == 0 {
		return
	}
	p.head("To look up, %s (what rules remind of; whether they are met is not judged here)",
		circuit.Titled(r.Supply.Region))
	for _, w := range r.ToLookUp {
		p.b.WriteString("  - " + p.told.Retold(w) + "\n")
	}
}

func (p *page) sensor(s *Sensor) {
	if s == nil {
		p.head("Sensor: its kind is not given, so that its readings cannot be judged")
		return
	}
	p.head("Sensor %s (%s): %s", s.Kind, s.Source, s.About)
	p.put("curve", s.Curve)
	for i, e := range s.Expected {
		p.put(first(i, "should read"), fmt.Sprintf("%s at %s; %s within %s", say.SensorOhms(e.Ohms),
			p.degrees(e.Celsius), say.SensorOhmsRange(e.Lowest, e.Highest), p.difference(s.Tolerance)))
	}
}

func (p *page) warmth(w *Warmth) {
	switch {
	case w == nil:
		p.head("Warmth: not worked out, the job gives no layers")
		return
	case w.Problem != "":
		p.head("Warmth: not worked out: %s", w.Problem)
		return
	}
	p.head("Warmth, estimated: left on without a thermostat in a room at %s", p.degrees(w.Room))
	for _, s := range w.Surfaces {
		p.surface(s, w)
	}
	for _, f := range w.Floors {
		p.floor(f)
	}
	p.warmUps(w)
	for i, a := range language.In(p.told.Language, w.assumptions) {
		p.sentence(first(i, "assumed"), a)
	}
}

// floor writes the surface of a room as its cables lie, once where both cases are the same.
func (p *page) floor(f Floor) {
	state := func(what string, s FloorState) []string {
		out := []string{what + fmt.Sprintf("heated floor %s mean, standard deviation %s", p.degrees(s.Mean),
			p.difference(s.Spread))}
		for _, at := range []struct {
			name string
			*Spot
		}{{"coldest", s.Coldest}, {"warmest", s.Warmest}} {
			if at.Spot != nil {
				out = append(out, fmt.Sprintf("%s place to stand %s over %s of floor, %s", at.name,
					p.degrees(at.Celsius), p.small(f.Spot), at.Where))
			}
		}
		return out
	}
	name := "floor of " + f.Room
	if f.Problem != "" {
		p.put(name, "place by place not worked out: "+f.Problem)
		return
	}
	if f.Mean == f.Hot.Mean && f.Spread == f.Hot.Spread {
		p.put(name, state("as laid: ", f.FloorState)...)
		return
	}
	p.put(name, state("as laid, at least: ", f.FloorState)...)
	p.put("", state("at most: ", f.Hot)...)
}

func (p *page) warmUps(w *Warmth) {
	for i, o := range w.WarmUps {
		board := "this floor"
		if o.Board {
			board = "over a board of " + p.small(w.Board)
		}
		p.put(first(i, "to gain "+p.difference(w.Rise)), fmt.Sprintf("%s apart, %s at that gap, %s: %s",
			p.small(o.Spacing), p.density(o.Density), board, o.words))
	}
}

// surface writes both bounds of a floor, once where they are the same, and how
// far the warmer one stays from its limits.
func (p *page) surface(s Surface, w *Warmth) {
	state := func(what string, st State) []string {
		return []string{what + fmt.Sprintf("surface %s mean, %s over a cable, %s midway; %s at the hottest of the "+
			"cable",
			p.degrees(st.Mean), p.degrees(st.Over), p.degrees(st.Midway), p.degrees(st.Hottest)), upWords(st.Up)}
	}
	name := strings.Join(s.Cables, ", ")
	if s.State == s.Hot {
		p.put(name, state("", s.State)...)
	} else {
		p.put(name, state("at least: ", s.State)...)
		air := ""
		if w.Warmest != w.Room {
			air = " in a room at " + p.degrees(w.Warmest)
		}
		p.put("", state("at most"+air+": ", s.Hot)...)
	}
	for _, l := range s.Limits {
		p.put("", fmt.Sprintf("at its warmest %s the limit of %s, %s (%s)", strings.Replace(l.margin, "above", "ABOVE",
			1), l.words, l.Name, l.Source))
	}
}

// upWords says how much of the heat goes up: colder ground may take more than
// the cable gives, and what is warmer below gives some too.
func upWords(percent float64) string {
	switch {
	case percent < 0:
		return "none of the heat goes up"
	case percent >= 100.05:
		return "all of the heat goes up, and " + say.TrimFigure(percent-100) + " % as much comes from below"
	}
	return say.TrimFigure(percent) + " % of the heat goes up"
}

func (p *page) energy(all []Energy) {
	for _, e := range all {
		p.head("Energy, %s", e.Room)
		price := func(cost *[2]float64) string {
			if cost == nil {
				return ""
			}
			return strings.TrimRight(", "+between(*cost)+" "+e.Currency, " ")
		}
		p.put("an hour on", say.KilowattHours(e.PerHour)+" kWh")
		p.put("a month", between(e.Month)+" kWh"+price(e.MonthCost))
		p.put("always on", between(e.AlwaysOn)+" kWh a month"+price(e.AlwaysCost))
	}
	if len(all) > 0 {
		for i, a := range language.In(p.told.Language, all[0].basis) {
			p.put(first(i, "assumed"), a)
		}
	}
}

func between(r [2]float64) string { return heat.Range{Low: r[0], High: r[1]}.Words().String() }

func (p *page) fullUse(f *FullUse) {
	if f == nil {
		return
	}
	p.head("Earliest full use: %s", f.Words)
	for _, c := range f.Layers {
		placed := "not yet placed, or its day is not written down"
		if c.Placed != "" {
			placed = "placed " + c.Placed
		}
		p.put(c.Layer, fmt.Sprintf("%d days (%s), %s", c.Days, c.Source, placed))
	}
}
