package sheets

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

// FaultPlan draws where on the floor a fault must lie: the stretch of cable,
// the tiles over it, and the runs it could be taken for.
func FaultPlan(p *layout.Plan, f *probe.Fault) ([]*drawing.Sheet, error) {
	s := roomScene(kindNamed("fault"), f.Room)
	s.ID, s.Title = s.ID+"-"+f.Cable.ID, s.Title+" "+f.Cable.ID
	s.draw = func(v *roomView) { v.drawFault(f) }
	s.levels = func(v *roomView) []level { return faultLevels(v, f) }
	pages, err := s.pages(p)
	if err != nil {
		return nil, err
	}
	return numbered(pages), nil
}

func (v *roomView) drawFault(f *probe.Fault) {
	v.walls()
	v.drawOpenings()
	v.riseInWall()
	v.fixtures()
	v.joints()
	v.faultTiles(f)
	v.stretch(f)
	v.cables()
	for i := range v.room.Cables {
		if c := &v.room.Cables[i]; len(c.Path) > 1 {
			v.cableEnds(c)
			v.runNumbers(c)
		}
	}
	v.mistaken(f)
	v.sensors()
	v.thermostat()
	v.drawDatums()
	v.dimensions(v.room.Job)
	v.wallLetters()
}

// bestBar is how long the bar at a fault's likeliest place is, mm on paper.
const bestBar = 6.0

// stretch marks the cable within which the fault must lie by a broad grey
// band, its likeliest place by a bar across it.
func (v *roomView) stretch(f *probe.Fault) {
	segs := drawing.Polyline(v.view.Pts(f.Line)...)
	v.sign(signFault, drawing.LayerHatch, "stretch with the fault", segs, stretchBand(), nil)
	v.ink.segs(segs, cableInk)
	at, dir := v.view.Pt(f.Best), v.heading(f.Cable, f.Best)
	across := drawing.Pt{X: -dir.Y, Y: dir.X}.Mul(bestBar / 2)
	v.sign(signFault, drawing.LayerMarks, "likeliest place", drawing.Polyline(at.Sub(across), at.Add(across)), drawing.WallLine(), nil)
	v.ink.mark(drawing.BoxOf(at.Sub(across), at.Add(across)).Grow(0.5))
	v.tag(at, bestBar/2, "LIKELIEST", "likeliest place: "+v.placeWords(f.Best), 1)
	for i, p := range []plane.Point{f.Line[0], f.Line[len(f.Line)-1]} {
		name := [...]string{"FROM", "TO"}[i]
		v.tag(v.view.Pt(p), bandWidth/2, name, name+": "+v.placeWords(p), 1)
	}
}

// faultTiles outlines the tiles over the stretch with their row and column.
func (v *roomView) faultTiles(f *probe.Fault) {
	for _, t := range f.Tiles {
		ring, _ := f.Map.Tiling.Outline(t)
		inside, err := plane.FromRing(ring.CCW()).Meet(v.room.Tiled)
		if err != nil || inside.Empty() {
			continue
		}
		v.sign(signTile, drawing.LayerFloor, fmt.Sprintf("tile, row %d, column %d", t.Row, t.Column), v.view.Outline(inside), drawing.MarkLine(), nil)
		for _, r := range v.view.Rings(inside) {
			v.ink.line(append(r, r[0]), thinInk)
		}
		for _, poly := range inside {
			v.nameArea(fmt.Sprintf("R%d C%d", t.Row, t.Column), poly.Outer, 3)
			break // a tile in pieces is named once
		}
	}
}

// mistaken marks the pieces of other runs that could be taken for the stretch
// by dashes beside the cable.
func (v *roomView) mistaken(f *probe.Fault) {
	for _, n := range f.Neighbours {
		segs := drawing.Polyline(v.view.Pts(n.Line)...)
		v.sign(signMistaken, drawing.LayerHatch, "run "+f.Cable.RunName(n.Run)+", which could be taken for it", segs, mistakenBand(), nil)
	}
}

func faultLevels(v *roomView, f *probe.Fault) []level {
	found := list{head: "Where the fault must lie"}
	for _, l := range f.Facts() {
		about := ""
		if l.About == "tile" || l.About == "assumed" || l.About == "record" {
			about = l.About + ": "
		}
		found.paras = append(found.paras, capital(about+l.Words))
	}
	cautions := list{head: "Before a tile is lifted", number: 1}
	for _, c := range f.Cautions() {
		cautions.paras = append(cautions.paras, capital(c)+".")
	}
	bs := []block{v.faultPlaces(f), found, cautions, legendOf(v.used)}
	if notes := append(append([]string{}, v.noted...), v.remarks...); len(notes) > 0 {
		bs = append(bs, list{head: "Notes", number: 1, paras: notes})
	}
	return []level{{blocks: bs}, {blocks: bs, gain: never, overflow: true}}
}

// faultPlaces is the table that finds the stretch on the floor.
func (v *roomView) faultPlaces(f *probe.Fault) block {
	t := v.datumTable("Measured out on the floor", "Point")
	t.cols = slices.Insert(t.cols, 1, column{head: "Along cable", align: decimal})
	for i, p := range []plane.Point{f.Line[0], f.Best, f.Line[len(f.Line)-1]} {
		a, b := v.offsets(p)
		if v.fig.units == plane.Millimetres && !v.fig.both {
			a, b = a+" mm", b+" mm"
		}
		along := []float64{f.Stretch.From, f.Stretch.Best, f.Stretch.To}[i]
		t.rows = append(t.rows, row([...]string{"From", "Likeliest", "To"}[i], v.fig.long(along), unbrokenWords(a), unbrokenWords(b)))
	}
	return t
}

// capital begins a sentence.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
