package main

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/say"
)

// summaryLines tells plan code, areas, cable, spacing and load of a plan, one line each.
func summaryLines(p *layout.Plan) []string {
	u := p.Job.Units
	var floor, tiled, heated float64
	var cable, spacing []string
	for _, r := range p.Rooms {
		floor += r.Floor.Area()
		tiled += r.Tiled.Area()
		heated += r.Heated.Area()
		for _, c := range r.Cables {
			cable = append(cable, fmt.Sprintf("%s %s %s in %d runs", c.ID, printable(c.Label.ID),
				say.Long(c.Label.Length, u), len(c.Runs)))
			even := say.Apart(c.Spacing, u) + " even"
			if !p.Job.Uneven() {
				even += " (" + say.Pegs(c.Spacing/p.Job.Membrane.Pitch) + ")"
			}
			spacing = append(spacing, fmt.Sprintf("%s %s, %s at that, %s over the heated floor", c.ID, even,
				say.Density(c.Density, u), say.Density(c.OverServed(), u)))
		}
	}
	var load []string
	for _, l := range p.Load {
		load = append(load, fmt.Sprintf("%s %s, %s at %s", printable(l.Room), say.Watts(l.Watts), say.Amps(l.Amps),
			say.Volts(l.Volts)))
	}
	return []string{
		"plan     " + p.Code,
		fmt.Sprintf("areas    floor %s, tiled %s, heated %s", say.AreaBoth(floor, u), say.AreaBoth(tiled, u),
			say.AreaBoth(heated, u)),
		"cable    " + strings.Join(cable, "; "),
		"spacing  " + strings.Join(spacing, "; "),
		"load     " + strings.Join(load, "; "),
	}
}

// briefLine tells cable, load and code of a plan.
func briefLine(p *layout.Plan) string {
	var cable []string
	watts := 0.0
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			cable = append(cable, c.ID+" "+printable(c.Label.ID))
		}
	}
	for _, l := range p.Load {
		watts += l.Watts
	}
	return fmt.Sprintf("%s, %s, plan %s", strings.Join(cable, ", "), say.Watts(watts), p.Code)
}

// paperLine tells how many sheets there are and what paper they want.
func paperLine(set []*drawing.Sheet) string {
	var names []string
	for _, s := range set {
		if !slices.Contains(names, s.Paper.Name) {
			names = append(names, s.Paper.Name)
		}
	}
	return fmt.Sprintf("sheets   %d on %s: print at 100 %%, then measure the 100 mm line", len(set),
		strings.Join(names, ", "))
}
