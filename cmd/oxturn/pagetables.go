package main

import (
	"fmt"

	"oxturn/drawing/web/preview"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// reportTable has the figures of a plan by room and cable.
func reportTable(p *layout.Plan) preview.Table {
	t := preview.Table{ID: "table:report", Title: "Report", Columns: []string{"room", "of", "what", "figure"}, Right: make([]bool, 4)}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		add := func(of, what, format string, args ...any) {
			t.Rows = append(t.Rows, []string{r.Job.Name, of, what, fmt.Sprintf(format, args...)})
		}
		for _, a := range []struct {
			what string
			area plane.Region
		}{{"floor", r.Floor}, {"tiled", r.Tiled}, {"heated", r.Heated}} {
			add("area", a.what, "%s", plane.FormatArea(a.area.Area(), p.Job.Units))
		}
		for k := range r.Cables {
			reportCable(&r.Cables[k], p.Job.Units, add)
		}
		for _, l := range p.Load {
			if l.Room == r.Job.Name {
				add("load", "at the thermostat", "%.0f W, %.2f A at %.0f V; %.2f A as a continuous load", l.Watts, l.Amps, l.Volts, l.Continuous)
			}
		}
	}
	return t
}

func reportCable(c *layout.Cable, u plane.Units, add func(of, what, format string, args ...any)) {
	half := c.Halfway()
	add(c.ID, "label", "%s, %s, %.0f W at %.0f V", c.Label.ID, cableLength(c.Label.Length, u), c.Label.Watts, c.Label.Volts)
	add(c.ID, "drawn length", "%s in %d runs", cableLength(c.Routed, u), len(c.Runs))
	add(c.ID, "mean spacing", "%s, %.1f pegs", withUnit(c.Spacing, u), c.Spacing/c.Lattice.Pitch)
	add(c.ID, "heat", "%s", density(c.Density, u))
	add(c.ID, "resistance", "%.1f Ω, from %.1f to %.1f Ω", c.Circuit.Nominal, c.Circuit.Limits.Low, c.Circuit.Limits.High)
	add(c.ID, "half-way mark", "run %d, %s into it", half.Run, withUnit(half.Into, u))
	add(c.ID, "cold lead there is for the floor", "%s", cableLength(c.LeadReach, u))
}

// takeOffTable is the take-off in the job's units.
func takeOffTable(l takeoff.List, u plane.Units) preview.Table {
	t := preview.Table{ID: "table:take-off", Title: "Take-off figures", Columns: []string{"item", "basis", "net", "waste", "gross", "unit", "packs", "note"},
		Right: []bool{false, false, true, true, true, false, true, false}}
	for _, line := range l.Lines {
		net, gross, unit := line.Net, line.Gross, line.Unit
		if u == plane.Inches {
			net, unit = takeoff.US(line.Net, line.Unit)
			gross, _ = takeoff.US(line.Gross, line.Unit)
		}
		packs := ""
		if line.Pack > 0 {
			packs = fmt.Sprintf("%d %s", line.Packs, line.PackName)
		}
		t.Rows = append(t.Rows, []string{line.Item, line.Basis, takeoff.Figure(net, unit), fmt.Sprintf("%.0f %%", 100*line.Waste),
			takeoff.Figure(gross, unit), unit, packs, line.Note})
	}
	return t
}

// runTable lists every run of every cable.
func runTable(p *layout.Plan) preview.Table {
	t := preview.Table{ID: "table:runs", Title: "Runs", Columns: []string{"room", "cable", "run", "direction", "pegs", "pegs to the next", "cable used"},
		Right: []bool{false, false, true, false, true, true, true}}
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			t.Rows = append(t.Rows, runRows(r.Job.Name, c, p.Job.Units)...)
		}
	}
	return t
}

func runRows(room string, c layout.Cable, u plane.Units) [][]string {
	var out [][]string
	for _, run := range c.Runs {
		out = append(out, []string{room, c.ID, fmt.Sprint(run.Number), run.Direction, fmt.Sprint(run.Pegs), fmt.Sprint(run.GapToNext), cableLength(run.RunningEnd, u)})
	}
	return out
}
