package main

import (
	"bytes"
	"fmt"
	"strings"

	"oxturn/drawing/web/preview"
	"oxturn/layout"
	"oxturn/layout/figures"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// reportTable has the figures that check prints, each limit with its origin.
func reportTable(p *layout.Plan) (preview.Table, error) {
	t := preview.Table{ID: "table:report", Title: "Report", Columns: []string{"of", "what", "figures"},
		Right: make([]bool, 3)}
	var b bytes.Buffer
	if err := figures.Of(p).WriteText(&b); err != nil {
		return t, err
	}
	t.Rows = reportRows(b.String())
	return t, nil
}

// reportRows takes the text of a report apart: a line from the margin on names
// a part, an indented one begins with what it is of, and one that is indented
// more goes on with the line before.
func reportRows(text string) [][]string {
	var out [][]string
	for _, line := range strings.Split(text, "\n") {
		words := strings.TrimSpace(line)
		n := len(out)
		switch indent := len(line) - len(strings.TrimLeft(line, " ")); {
		case words == "":
		case indent == 0:
			out = append(out, []string{words, "", ""})
		case indent > 2 && n > 0:
			out[n-1][2] = strings.TrimSpace(out[n-1][2] + " " + words)
		default:
			what, figure, _ := strings.Cut(words, "  ")
			if n == 0 || out[n-1][1] != "" {
				out = append(out, []string{"", "", ""})
			}
			last := out[len(out)-1]
			last[1], last[2] = what, strings.TrimSpace(figure)
		}
	}
	return out
}

// takeOffTable is the take-off in the job's units.
func takeOffTable(l takeoff.List, u plane.Units) preview.Table {
	t := preview.Table{ID: "table:take-off", Title: "Take-off figures", Columns: []string{"item", "basis", "net",
		"waste", "gross", "unit", "packs", "note"},
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
		t.Rows = append(t.Rows, []string{line.Item.String(), line.Basis.String(), takeoff.Figure(net, unit),
			say.PercentGiven(line.Waste),
			takeoff.Figure(gross, unit), unit, packs, line.Note.String()})
	}
	return t
}

// runTable lists every run of every cable.
func runTable(p *layout.Plan) preview.Table {
	counted, next := p.Job.RunUnit(), "pegs to the next"
	if p.Job.Strips != nil {
		next = "clips to the next"
	}
	t := preview.Table{ID: "table:runs", Title: "Runs", Columns: []string{"room", "cable", "run", "towards", counted,
		next, "cable used"},
		Right: []bool{false, false, true, false, true, true, true}}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		for k := range r.Cables {
			t.Rows = append(t.Rows, runRows(r, &r.Cables[k], p.Job.Units)...)
		}
	}
	return t
}

func runRows(room *layout.Room, c *layout.Cable, u plane.Units) [][]string {
	var out [][]string
	for _, run := range c.Runs {
		next := "-" // it does not lie beside the next
		if run.GapToNext > 0 {
			next = fmt.Sprint(run.GapToNext)
		}
		out = append(out, []string{room.Job.Name, c.ID, c.RunName(run.Number), layout.Towards(room.Job, run.To,
			run.To.Sub(run.From)).String(), fmt.Sprint(run.Pegs), next, say.Long(run.RunningEnd, u)})
	}
	return out
}
