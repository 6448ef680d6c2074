package sheets

import (
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/symbols"
)

// A wiring is the diagram of supply, thermostat, cables and sensors: cables
// side by side, never end to end.
type wiring struct {
	from    string // what the circuit starts from
	cables  []string
	sensors int
}

const (
	wireRow     = 7.0
	wireBelow   = 2.0 // from the heading to the diagram
	longestWire = 34.0
	wordRow     = 5.0 // from word to word in the panel
)

func (d wiring) rows() float64 { return float64(max(len(d.cables)+d.sensors, 3)) }

// Height is what the diagram takes at a width of w, both mm of paper.
func (d wiring) Height(ty *setting.Typesetter, w float64) float64 {
	return ty.HeadingHeight(ty.Text(wiringHead), w) + wireBelow + d.rows()*wireRow + 2
}

const wiringHead = "Wiring diagram"

// Set draws the diagram from at, the upper left corner, w mm wide.
func (d wiring) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, pg.Ty.Text(wiringHead), w) + wireBelow
	mid := y + d.rows()*wireRow/2
	box := func(x, y0, y1, wide float64) {
		pg.Path(drawing.LayerFixtures, "", drawing.Rectangle(drawing.Box{X0: x, Y0: y0, X1: x + wide, Y1: y1}),
			drawing.FixtureLine(), drawing.Filled(drawing.White))
	}
	line := func(st *drawing.Stroke, l drawing.Layer, pts ...drawing.Pt) {
		pg.Path(l, "", drawing.Polyline(pts...), st, nil)
	}
	words := append(strings.Fields(d.from), "____ A")
	panelWide, panelHigh := 17.0, max(8, wordRow*float64(len(words))/2+1)
	for _, word := range words {
		panelWide = max(panelWide, fonts.Width(fonts.Lettering, word, setting.Note)+4)
	}
	panel, stat := at.X, at.X+max(panelWide+7, w*0.36)
	box(panel, mid-panelHigh, mid+panelHigh, panelWide)
	line(drawing.FixtureLine(), drawing.LayerLeads, drawing.Pt{X: panel + panelWide, Y: mid},
		drawing.Pt{X: stat - 4, Y: mid})
	for i, line := range words {
		row := float64(i) - float64(len(words)-2)/2
		pg.Write(drawing.Pt{X: panel + panelWide/2, Y: mid + 1.5 + wordRow*(row-0.5)}, line, setting.Note,
			drawing.Middle)
	}
	box(stat-4, y, y+d.rows()*wireRow, 10)
	pg.Add(symbols.Thermostat(drawing.Pt{X: stat + 1, Y: mid})...)
	from, to := stat+6, min(at.X+w-2, stat+6+longestWire)
	for i, id := range d.cables {
		d.branch(pg, from, to, y+(float64(i)+0.5)*wireRow, id)
	}
	for i := range d.sensors {
		p := drawing.Pt{X: from, Y: y + (float64(len(d.cables)+i)+0.5)*wireRow}
		end := drawing.Pt{X: to, Y: p.Y}
		if i == 0 {
			line(drawing.SensorLeadLine(), drawing.LayerSensors, p, end)
			pg.Add(symbols.Sensor(end, "")...)
			nameWire(pg, p, pg.Ty.Text("S1, wired"), at.X+w)
			continue
		}
		line(drawing.SensorLeadLine(), drawing.LayerSensors, p.Add(drawing.Pt{X: 4}), end)
		pg.Add(symbols.SpareSensor(end, "")...)
		nameWire(pg, p, pg.Ty.Text("S2, capped"), at.X+w)
	}
}

// branch draws one cable on its own pair of terminals.
func (d wiring) branch(pg *setting.Page, from, to, y float64, id string) {
	p, end := drawing.Pt{X: from, Y: y}, drawing.Pt{X: to, Y: y}
	joint := p.Lerp(end, 0.6)
	pg.Path(drawing.LayerLeads, "", drawing.Polyline(p, joint), drawing.ColdLeadLine(), nil)
	pg.Path(drawing.LayerCable, "", drawing.Polyline(joint, end), drawing.CableLine(), nil)
	pg.Add(symbols.LeadJoint(joint)...)
	nameWire(pg, p, id, to)
}

// nameWire writes a name over the wire that begins at p: without what it says after a comma,
// which the signs at the wires' ends show too, where that would pass x = most.
func nameWire(pg *setting.Page, p drawing.Pt, name string, most float64) {
	if p.X+1+fonts.Width(fonts.Lettering, name, setting.Note) > most {
		name, _, _ = strings.Cut(name, ",")
	}
	pg.Write(p.Add(drawing.Pt{X: 1, Y: -1.4}), name, setting.Note, drawing.Start)
}
