package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/plane"
)

// warmthBlocks returns what the build-up sheet says of the floor's warmth:
// charts, their figures, and what they rest on.
func warmthBlocks(p *layout.Plan) []block {
	w, f := p.Warmth, figuresOf(p.Job)
	switch {
	case w == nil:
		return []block{list{head: "Warmth", paras: []string{
			"Not worked out: the job gives no [[layer]] tables. With every layer from the tile down to what carries the floor, this sheet shows surface temperature and warm-up.",
		}}}
	case w.Problem != "":
		return []block{list{head: "Warmth", paras: []string{"Not worked out: " + w.Problem + "."}}}
	}
	out := append([]block{surfaceChart(w, f)}, surfaceTables(w, f)...)
	out = append(out, warmUpCharts(w, f)...)
	return append(out, warmUpTable(w, f), energyTable(w, p.Job.Energy.Currency), layerFigures(w), warmthNotes(w, f))
}

// temperature turns °C into the sheet's own scale.
func (f figures) temperature(c float64) float64 {
	if f.units == plane.Inches {
		return c*1.8 + 32
	}
	return c
}

func (f figures) degree() string {
	if f.units == plane.Inches {
		return "°F"
	}
	return "°C"
}

// degrees writes a temperature, its other scale in brackets.
func (f figures) degrees(c float64) string {
	if f.units == plane.Inches {
		return fmt.Sprintf("%.0f °F (%.0f °C)", f.temperature(c), c)
	}
	return fmt.Sprintf("%.0f °C (%.0f °F)", c, c*1.8+32)
}

// difference writes a difference of temperatures in the sheet's own scale.
func (f figures) difference(k float64) string {
	if f.units == plane.Inches {
		return fmt.Sprintf("%.0f °F", k*1.8)
	}
	return fmt.Sprintf("%g °C", k)
}

// small turns mm into what a chart's axis counts.
func (f figures) small(mm float64) float64 {
	if f.units == plane.Inches {
		return mm / plane.Inch
	}
	return mm
}

func (f figures) smallUnit() string {
	if f.units == plane.Inches {
		return "in"
	}
	return "mm"
}

// mostCurves is how many curves a chart can hold and still be read.
const mostCurves = 6

// surfaceChart shows the surface across two runs, at most and at least as warm.
func surfaceChart(w *layout.Warmth, f figures) block {
	c := chart{
		head: "Surface temperature across two runs", across: "across the runs, " + f.smallUnit(),
		up: f.degree() + ", left on without a thermostat in a room at " + f.airs(w),
	}
	for _, r := range w.Runs {
		if len(c.curves)+2 > mostCurves {
			break
		}
		if r.Alike() && w.Room == w.Warmest {
			c.curves = append(c.curves, curve{name: runName(r, f), pts: acrossTwo(r.Hot, w.Warmest, f)})
			continue
		}
		c.curves = append(c.curves, curve{name: runName(r, f) + ", at most", pts: acrossTwo(r.Hot, w.Warmest, f)},
			curve{name: strings.Join(r.Cables, ", ") + ", at least", pts: acrossTwo(r.Cold, w.Room, f)})
	}
	if len(w.Runs) > 0 {
		for _, v := range w.Runs[0].Verdicts {
			if l := v.Limit; l != heat.EdgeLimit { // a strip along walls, not the floor
				c.limits = append(c.limits, limitLine{limitName(l, f), f.temperature(l.Celsius)})
			}
		}
	}
	return c
}

// airs writes the room's temperature, and at its warmest where that differs.
func (f figures) airs(w *layout.Warmth) string {
	if w.Room == w.Warmest {
		return f.degrees(w.Room)
	}
	return f.degrees(w.Room) + ", " + f.degrees(w.Warmest) + " at its warmest"
}

// limitName names a limit for the chart: of one for other air than an occupied
// room's it says for which.
func limitName(l heat.Limit, f figures) string {
	name := "limit, " + l.Name + ": " + f.degrees(l.Celsius)
	if l.Air != 0 && l.Air != heat.OccupiedLimit.Air {
		name += " in air at " + f.degrees(l.Air)
	}
	return name
}

func runName(r layout.Warm, f figures) string {
	return fmt.Sprintf("%s: %s apart, %s", strings.Join(r.Cables, ", "), f.spacing(r.Cold.Section.Spacing), flux(r.Cold.Section.Flux(), f))
}

// flux writes W/m² in both systems so that no line ends within a figure.
func flux(w float64, f figures) string {
	return strings.ReplaceAll(density(w, f.units), " W", noBreak+"W")
}

// acrossTwo returns the surface over two runs in the chart's units.
func acrossTwo(b layout.Bound, room float64, f figures) []drawing.Pt {
	var pts []drawing.Pt
	for _, s := range b.Steady.Profile {
		pts = append(pts, drawing.Pt{X: f.small(s.X), Y: f.temperature(room + s.Rise)})
	}
	return pts
}

// runsAbreast is how many cables stand side by side in one table.
const runsAbreast = 3

// surfaceTables give the figures of the steady state, at most and at least.
func surfaceTables(w *layout.Warmth, f figures) []block {
	var out []block
	most := func(r layout.Warm) heat.Steady { return r.Hot.Steady }
	least := func(r layout.Warm) heat.Steady { return r.Cold.Steady }
	for i := 0; i < len(w.Runs); i += runsAbreast {
		runs := w.Runs[i:min(i+runsAbreast, len(w.Runs))]
		out = append(out, surfaceTable("Surface, settled, at most, "+f.degree(), runs, most, w.Warmest, f),
			surfaceTable("Surface, settled, at least, "+f.degree(), runs, least, w.Room, f))
	}
	return out
}

func surfaceTable(head string, runs []layout.Warm, bound func(layout.Warm) heat.Steady, room float64, f figures) block {
	t := table{head: head, cols: []column{{head: "Cable", wraps: true}}}
	rows := []struct {
		name string
		of   func(heat.Steady) float64
	}{
		{"mean", func(s heat.Steady) float64 { return s.Mean }},
		{"over a cable", func(s heat.Steady) float64 { return s.OverCable }},
		{"midway", func(s heat.Steady) float64 { return s.Midway }},
		{"at the cable itself", func(s heat.Steady) float64 { return s.Hottest }},
	}
	for _, r := range rows {
		cells := row(r.name)
		for _, run := range runs {
			cells = append(cells, cell{text: fmt.Sprintf("%.1f", f.temperature(room+r.of(bound(run))))})
		}
		t.rows = append(t.rows, cells)
	}
	up := row("heat that goes up, %")
	for _, run := range runs {
		t.cols = append(t.cols, column{head: someNames(run.Cables), align: decimal})
		share := fmt.Sprintf("%.0f", 100*bound(run).UpShare)
		if bound(run).UpShare < 0 { // colder ground takes more than the cable gives
			share = "none"
		}
		up = append(up, cell{text: share})
	}
	t.rows = append(t.rows, up)
	return t
}

// someNames names the first of many; the chart's key has them all.
func someNames(names []string) string {
	if len(names) < 3 {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", names[0], len(names)-1)
}

// warmUpCharts shows the mean of the surface over time for every spacing on
// offer, on its own and over an insulation board.
func warmUpCharts(w *layout.Warmth, f figures) []block {
	var out []block
	for _, board := range []bool{false, true} {
		c := chart{
			head: "Warm-up for each spacing", across: "hours from switching on",
			up: f.degree() + ", mean of the surface, room at " + f.degrees(w.Room),
		}
		if board {
			c.head = "Warm-up over an insulation board, " + unbrokenWords(f.thickness(w.Board))
		}
		for _, o := range w.Offers {
			if o.Board == board {
				c.curves = append(c.curves, curve{name: f.spacing(o.Spacing) + " apart, " + flux(o.Flux, f), pts: warming(o.Curve, w, f)})
				goal := w.Room + o.Curve.Start + w.Rise // the times are counted to it: the floor may start colder than the room
				c.limits = []limitLine{{f.difference(w.Rise) + " gained: " + f.degrees(goal), f.temperature(goal)}}
			}
		}
		if len(c.curves) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// warming returns a curve's points, enough for a smooth line.
func warming(c heat.Curve, w *layout.Warmth, f figures) []drawing.Pt {
	const points = 60
	var pts []drawing.Pt
	for i := range points + 1 {
		h := w.Hours * float64(i) / points
		pts = append(pts, drawing.Pt{X: h, Y: f.temperature(w.Room + c.At(h*3600))})
	}
	return pts
}

// warmUpTable gives the times as ranges.
func warmUpTable(w *layout.Warmth, f figures) block {
	t := table{head: "Time to gain " + unbrokenWords(f.difference(w.Rise)), cols: []column{{head: "Spacing"}, {head: "This floor", wraps: true, group: true}}}
	if w.Board > 0 {
		t.cols = append(t.cols, column{head: "Over a board", wraps: true})
	}
	for i := 0; i < len(w.Offers); i++ {
		o := w.Offers[i]
		r := row(f.spacing(o.Spacing), wholeTimes(o.Range(w.Hours, f.units == plane.Inches)))
		if w.Board > 0 && i+1 < len(w.Offers) {
			i++
			r = append(r, cell{text: wholeTimes(w.Offers[i].Range(w.Hours, f.units == plane.Inches))})
		}
		t.rows = append(t.rows, r)
	}
	return t
}

// wholeTimes keeps hours and minutes on one line: 1 h 10 min.
func wholeTimes(s string) string { return strings.ReplaceAll(s, " h ", noBreak+"h"+noBreak) }

// energyTable gives what each room draws, and what that costs where the job
// has a tariff: as ranges.
func energyTable(w *layout.Warmth, currency string) block {
	priced := false
	for _, u := range w.Use {
		priced = priced || u.PerHourPrice > 0
	}
	t := table{head: "Energy", cols: []column{{head: "Room", wraps: true}, {head: "kWh"}}}
	if priced {
		cost := "Cost"
		if currency != "" {
			cost += ", " + currency
		}
		t.cols = append(t.cols, column{head: cost})
	}
	add := func(cells ...cell) { t.rows = append(t.rows, cells[:len(t.cols)]) }
	for _, u := range w.Use {
		add(cell{text: u.Room, strong: true}, cell{}, cell{})
		add(row("an hour with the current on", fmt.Sprintf("%.2f", u.PerHour), fmt.Sprintf("%.2f", u.PerHourPrice))...)
		add(row("a month", u.Month.Words(), u.MonthPrice.Words())...)
		add(row("a month, always on", u.AlwaysOn.Words(), u.AlwaysPrice.Words())...)
	}
	return t
}

// layerFigures lists every figure of the layers that warmth is computed from,
// with its source, so that it can be redone from the sheet.
func layerFigures(w *layout.Warmth) block {
	out := list{head: "Figures of the layers used here", number: 1}
	add := func(l heat.Layer, source string) {
		figures := []string{trimmedFigure(l.Thickness, 3) + " mm", trimmedFigure(l.Conductivity, 4) + " W/(m K)", trimmedFigure(l.Density, 1) + " kg/m³", trimmedFigure(l.HeatCapacity, 0) + " J/(kg K)"}
		for i, f := range figures {
			figures[i] = strings.ReplaceAll(f, " ", noBreak)
		}
		out.paras = append(out.paras, sentence(fmt.Sprintf("%s: %s (%s)", l.Name, strings.Join(figures, ", "), strings.ReplaceAll(source, " table ", " table"+noBreak))))
	}
	for i, l := range w.Layers {
		add(l, w.Sources[i])
	}
	if m, ok := heat.DefaultMaterial("board"); ok && w.Board > 0 {
		l := m.Layer(w.Board)
		l.Name = "board compared with"
		add(l, m.Source)
	}
	return out
}

// trimmedFigure writes a figure to so many decimals, without those that are nothing.
func trimmedFigure(v float64, decimals int) string {
	k := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*k)/k, 'f', -1, 64)
}

// warmthNotes says what the figures rest on.
func warmthNotes(w *layout.Warmth, f figures) block {
	l := list{head: "What these figures rest on", number: 1}
	l.paras = append(l.paras, "Estimates for comparing, not promises: no room temperature is computed.")
	for _, r := range w.Runs {
		for _, v := range r.Verdicts {
			if v.Over() {
				l.paras = append(l.paras, strings.Join(r.Cables, ", ")+", "+v.Words(f.units == plane.Inches)+".")
				break // the lowest says it
			}
		}
	}
	said := w.Assumptions(f.units)
	if len(w.Use) > 0 {
		said = append(said, w.Use[0].Assumptions...)
	}
	for _, a := range said {
		l.paras = append(l.paras, sentence(wholeStandards(a)))
	}
	if shown := mostCurves / 2; len(w.Runs) > shown {
		l.paras = append(l.paras, fmt.Sprintf("The chart of the surface shows the first %d of %d; the tables have all.", shown, len(w.Runs)))
	}
	l.paras = append(l.paras, "Over concrete without insulation beneath, a board under the membrane helps more than closer runs.")
	return l
}

// sentence gives words a capital and a full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	_, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:n]) + strings.TrimSuffix(s[n:], ".") + "."
}
