package sheets

import (
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// restHead is over what the figures of a floor's warmth rest on.
const restHead = "What these figures rest on"

// surfaceHead and energyHead are over the tables of the settled floor and of what it draws.
const (
	surfaceHead = "Surface, settled, %s"
	energyHead  = "Energy"
)

// warmthBlocks returns what the build-up sheet says of the floor's warmth beside its pictures:
// a chart, figures, and what they rest on.
func warmthBlocks(p *layout.Plan) []setting.Block {
	w, f := p.Warmth, p.Job.Figures()
	switch {
	case w == nil:
		return []setting.Block{setting.List{Head: f.Text("Warmth"), Paras: []string{
			f.Text("Not worked out: the job gives no [[layer]] tables. With every layer from the tile down to what " +
				"carries the floor, this sheet shows surface temperature and warm-up."),
		}}}
	case w.Problem != "":
		return []setting.Block{setting.List{Head: f.Text("Warmth"), Paras: []string{f.Textf("Not worked out: %s.",
			w.Problem)}}}
	}
	out := surfaceTables(p, f)
	if !onSmall(p) { // else the notes have to do
		out = append(append(out, warmUpChart(w, f)...), warmUpTable(w, f))
	}
	if p.Offer == nil { // else it is on its cover
		out = append(out, energyTable(f, w, p.Job.Energy.Currency, onSmall(p)))
	}
	return append(out, warmthNotes(p, f))
}

// temperature turns °C into the sheet's own scale.
func temperature(f say.Figures, c float64) float64 {
	if f.Units == plane.Inches {
		return say.Fahrenheit(c)
	}
	return c
}

func degree(f say.Figures) string {
	if f.Units == plane.Inches {
		return "°F"
	}
	return "°C"
}

// degrees writes a temperature.
func degrees(f say.Figures, c float64) string { return f.Degrees(c) }

// flux writes W/m² so that no line ends within a figure.
func flux(w float64, f say.Figures) string {
	return strings.ReplaceAll(density(w, f), " W", setting.NoBreak+"W")
}

// runsAbreast is how many cables stand side by side in one table.
const runsAbreast = 2

// surfaceTables give the figures of the steady state, at most and at least.
func surfaceTables(p *layout.Plan, f say.Figures) []setting.Block {
	var out []setting.Block
	w := p.Warmth
	means := !allPictured(p)
	for i := 0; i < len(w.Runs); i += runsAbreast {
		out = append(out, surfaceTable(w, w.Runs[i:min(i+runsAbreast, len(w.Runs))], means, onSmall(p), f))
	}
	return out
}

// surfaceTable gives the steady state over some cables: of each at most, at least. Means are
// left out where pictures give those of the floor as the cables lie on it.
func surfaceTable(w *layout.Warmth, runs []layout.Warm, means, small bool, f say.Figures) setting.Block {
	t := setting.Table{Head: f.Textf(surfaceHead, degree(f)), Fine: small, Cols: []setting.Column{{Wraps: true}}}
	rows := []struct {
		name string
		of   func(heat.Steady) float64
	}{
		{f.Text("mean"), func(s heat.Steady) float64 { return s.Mean }},
		{f.Text("over a cable"), func(s heat.Steady) float64 { return s.OverCable }},
		{f.Text("midway"), func(s heat.Steady) float64 { return s.Midway }},
		{f.Text("at the cable, hottest"), func(s heat.Steady) float64 { return s.Hottest }},
	}
	if !means {
		rows = rows[1:]
	}
	for _, r := range rows {
		cells := setting.Row(r.name)
		for _, run := range runs {
			for _, b := range bounds(f, w, run) {
				cells = append(cells, setting.Cell{Text: f.Tenths(temperature(f, b.air+r.of(b.steady)))})
			}
		}
		t.Rows = append(t.Rows, cells)
	}
	up := setting.Row(f.Text("heat that goes up, %"))
	for _, run := range runs {
		for _, b := range bounds(f, w, run) {
			t.Cols = append(t.Cols, setting.Column{Head: someNames(f, run.Cables) + ", " + b.name,
				Align: setting.Decimal})
			share := f.TrimFigure(100 * b.steady.UpShare)
			if b.steady.UpShare < 0 { // colder ground takes more than the cable gives
				share = f.Text("none")
			}
			up = append(up, setting.Cell{Text: share})
		}
	}
	t.Rows = append(t.Rows, up)
	return t
}

// A bounded is one of the two steady states of a floor, in its room's air.
type bounded struct {
	name   string
	steady heat.Steady
	air    float64 // °C
}

func bounds(f say.Figures, w *layout.Warmth, run layout.Warm) []bounded {
	return []bounded{{f.Text("at most"), run.Hot.Steady, w.Warmest}, {f.Text("at least"), run.Cold.Steady, w.Room}}
}

// someNames names the first of many; the chart's key has them all.
func someNames(f say.Figures, names []string) string {
	if len(names) < 3 {
		return strings.Join(names, ", ")
	}
	return f.Textf("%s and %d more", names[0], len(names)-1)
}

// warmUpChart shows the mean of the surface over time for every spacing on offer.
func warmUpChart(w *layout.Warmth, f say.Figures) []setting.Block {
	c := setting.Chart{
		Head: f.Text("Warm-up for each spacing"), Across: f.Text("hours from switching on"),
		Up: f.Textf("%s, mean of the surface, room at %s", degree(f), degrees(f, w.Room)),
	}
	for _, o := range w.Offers {
		if o.Board {
			continue // its times are in the table
		}
		c.Curves = append(c.Curves, setting.Curve{Name: f.Textf("%s apart, %s", f.Apart(o.Spacing), flux(o.Flux, f)),
			Pts: warming(o.Curve, w, f)})
		// the times are counted to it: the floor may start colder than the room
		goal := w.Room + o.Curve.Start + w.Rise
		c.Limits = []setting.LimitLine{{Name: f.Textf("%s gained: %s", f.Figure(say.Difference(w.Rise, f.Units)),
			degrees(f, goal)),
			At: temperature(f, goal)}}
	}
	if len(c.Curves) == 0 {
		return nil
	}
	return []setting.Block{c}
}

// warming returns a curve's points, enough for a smooth line.
func warming(c heat.Curve, w *layout.Warmth, f say.Figures) []drawing.Pt {
	const points = 60
	var pts []drawing.Pt
	for i := range points + 1 {
		h := w.Hours * float64(i) / points
		pts = append(pts, drawing.Pt{X: h, Y: temperature(f, w.Room+c.At(h*3600))})
	}
	return pts
}

// warmUpHead begins the head of the times that a floor takes to gain some degrees.
const warmUpHead = "Time to gain "

// A warmUp is how long a floor takes at one spacing, as ranges in words: as it is, and
// over the board, empty where none is compared.
type warmUp struct{ apart, floor, board string }

func warmUps(w *layout.Warmth, f say.Figures) (out []warmUp) {
	times := func(o heat.Offer) string { return wholeTimes(o.Range(w.Hours, f.Units == plane.Inches).In(f.Language)) }
	for _, o := range w.Offers {
		if last := len(out) - 1; o.Board {
			out[last].board = times(o)
			continue
		}
		out = append(out, warmUp{apart: f.Apart(o.Spacing), floor: times(o)})
	}
	return out
}

// warmUpTitle is the head of the times.
func warmUpTitle(w *layout.Warmth, f say.Figures) string {
	return f.Text(warmUpHead) + floorplan.UnbrokenWords(f.Figure(say.Difference(w.Rise, f.Units)))
}

// warmUpTable gives the times as ranges.
func warmUpTable(w *layout.Warmth, f say.Figures) setting.Table {
	t := setting.Table{Head: warmUpTitle(w, f),
		Cols: []setting.Column{{Head: f.Text("Spacing")}, {Head: f.Text("This floor"), Wraps: true, Group: true}}}
	if w.Board > 0 {
		t.Cols = append(t.Cols, setting.Column{
			Head: f.Textf("Over a board of %s", floorplan.UnbrokenWords(f.Thickness(w.Board))), Wraps: true})
	}
	for _, u := range warmUps(w, f) {
		r := setting.Row(u.apart, u.floor)
		if w.Board > 0 {
			r = append(r, setting.Cell{Text: u.board})
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

// warmUpWords says the times of the table in a sentence.
func warmUpWords(w *layout.Warmth, f say.Figures) string {
	var times []string
	for _, u := range warmUps(w, f) {
		words := f.Textf("%s apart %s", u.apart, u.floor)
		if u.board != "" {
			words += f.Textf(", over a board %s", u.board)
		}
		times = append(times, words)
	}
	board := ""
	if w.Board > 0 {
		board = f.Textf(" (board of %s)", floorplan.UnbrokenWords(f.Thickness(w.Board)))
	}
	return warmUpTitle(w, f) + board + f.Joint(": ") + strings.Join(times, f.Joint("; ")) + "."
}

// wholeTimes keeps hours and minutes on one line: 1 h 10 min.
func wholeTimes(s string) string {
	return strings.ReplaceAll(s, " h ", setting.NoBreak+"h"+setting.NoBreak)
}

// energyTable gives what each room draws, and what that costs where the job
// has a tariff: as ranges.
func energyTable(f say.Figures, w *layout.Warmth, currency string, small bool) setting.Table {
	priced := false
	for _, u := range w.Use {
		priced = priced || u.PerHourPrice > 0
	}
	t := setting.Table{Head: f.Text(energyHead), Fine: small, Cols: []setting.Column{
		{Wraps: true}, {Head: f.Text("kWh")}}}
	if len(w.Use) > 1 {
		t.Cols[0].Head = f.Text("Room")
	}
	if priced {
		cost := f.Text("Cost")
		if currency != "" {
			cost += ", " + currency
		}
		t.Cols = append(t.Cols, setting.Column{Head: cost})
	}
	add := func(cells ...setting.Cell) { t.Rows = append(t.Rows, cells[:len(t.Cols)]) }
	for _, u := range w.Use {
		if len(w.Use) > 1 {
			add(setting.Cell{Text: u.Room, Strong: true}, setting.Cell{}, setting.Cell{})
		}
		add(setting.Row(f.Text("an hour with the current on"), f.KilowattHours(u.PerHour),
			f.Price(u.PerHourPrice))...)
		add(setting.Row(f.Text("a month"), u.Month.Words().In(f.Language), u.MonthPrice.Words().In(f.Language))...)
		add(setting.Row(f.Text("a month, always on"), u.AlwaysOn.Words().In(f.Language),
			u.AlwaysPrice.Words().In(f.Language))...)
	}
	return t
}

// conducts are the figures of layer i that warmth is worked out from; empty where it is not.
func conducts(f say.Figures, w *layout.Warmth, i int) string {
	if w == nil || w.Problem != "" {
		return ""
	}
	return layerFigures(f, w.Layers[i])
}

// layerFigures writes what a layer's warmth hangs on, no line ending within a figure.
func layerFigures(f say.Figures, l heat.Layer) string {
	whole := floorplan.UnbrokenWords
	return whole(f.Textf("%s W/(m K),", f.Decimals(l.Conductivity, 4))) + " " + whole(f.Textf("%s kg/m³,",
		f.Decimals(l.Density, 1))) +
		" " + whole(f.Textf("%s J/(kg K)", f.Decimals(l.HeatCapacity, 0)))
}

// figureSources says where the figures of the layers come from, those alike together; empty
// where warmth is not worked out or nothing is known of them.
func figureSources(f say.Figures, w *layout.Warmth) string {
	if w == nil || w.Problem != "" {
		return ""
	}
	var sources []string
	of := map[string][]string{}
	add := func(source, layer string) {
		if source == "" {
			return
		}
		if of[source] == nil {
			sources = append(sources, source)
		}
		of[source] = append(of[source], layer)
	}
	for i, source := range w.Sources {
		add(source.In(f.Language), strconv.Itoa(i+1))
	}
	if m, ok := heat.DefaultMaterial("board"); ok && w.Board > 0 {
		add(f.Text(m.Source), f.Text("board"))
	}
	if len(sources) == 0 {
		return ""
	}
	for i, source := range sources {
		sources[i] = strings.Join(of[source], ", ") + f.Joint(": ") + wholeStandards(source)
	}
	return f.Textf("Heat figures, by layer: %s.", strings.Join(sources, f.Joint("; ")))
}

// overLimit is the verdict to speak of where a floor would get too warm: its
// covering's, which comes first, or that of comfort for the kind of room it lies
// in; nil where it keeps both.
func overLimit(p *layout.Plan, w layout.Warm) *heat.Verdict {
	if v := w.Verdicts[0]; v.Over() && v.Limit.Air == 0 {
		return &v
	}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		if !slices.ContainsFunc(r.Cables, func(c layout.Cable) bool { return slices.Contains(w.Cables, c.ID) }) {
			continue
		}
		limit := r.ComfortLimit()
		if v := w.Hot.Steady.Against(max(p.Warmth.Warmest, limit.Air), limit)[0]; v.Over() {
			return &v
		}
	}
	return nil
}

// warmthNotes says what the figures rest on.
func warmthNotes(p *layout.Plan, f say.Figures) setting.Block {
	l, w := setting.List{Head: p.Job.Language.Text(restHead), Number: 1, Fine: onSmall(p)}, p.Warmth
	for _, r := range w.Runs {
		if v := overLimit(p, r); v != nil {
			l.Paras = append(l.Paras, strings.Join(r.Cables,
				", ")+", "+v.Words(f.Units == plane.Inches).In(f.Language)+".")
		}
	}
	said := w.Assumptions(f.Units)
	if len(w.Use) > 0 {
		said = append(said, w.Use[0].Assumptions...)
	}
	if onSmall(p) {
		l.Paras = append(l.Paras, warmUpWords(w, f))
		if from := figureSources(f, w); from != "" && thickness(p.Job.BuildUp) > 0 {
			l.Paras = append(l.Paras, thicknessNote(f)+" "+from)
		}
	}
	taken := []string{f.Text("Estimates for comparing, not promises.")}
	for _, a := range said {
		taken = append(taken, sentence(wholeStandards(a.In(f.Language))))
	}
	l.Paras = append(l.Paras, strings.Join(taken, " "))
	if onBareConcrete(p.Job.BuildUp) && p.Job.Strips == nil {
		l.Paras = append(l.Paras, f.Text("Over concrete without insulation beneath, a board under the membrane "+
			"helps more than closer runs."))
	}
	return l
}

// onBareConcrete reports whether a floor lies on concrete without insulation.
func onBareConcrete(layers []job.Layer) bool {
	concrete := false
	for _, l := range layers {
		if l.Kind == "board" {
			return false
		}
		concrete = concrete || l.Kind == "concrete"
	}
	return concrete
}

// sentence gives words a capital and a full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	return capital(strings.TrimSuffix(s, ".")) + "."
}
