package sheets

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

// FaultPlan draws where on the floor a fault must lie: the stretch of cable,
// the tiles over it, and the runs it could be taken for. It speaks the job's language,
// whatever the fault was traced in.
func FaultPlan(p *layout.Plan, f *probe.Fault) ([]*drawing.Sheet, error) {
	f, err := probe.TraceIn(p, f.Cable.ID, f.Stretch, p.Job.Language)
	if err != nil {
		return nil, err
	}
	s := floorplan.OfRoom(kindNamed("fault"), f.Room)
	s.ID, s.Title = s.ID+"-"+f.Cable.ID, p.Job.Language.Text(s.Title)+" "+f.Cable.ID
	s.Draw = func(v *floorplan.View) { drawFault(v, f) }
	s.Levels = func(v *floorplan.View) []setting.Level { return faultLevels(v, f) }
	pages, err := s.Pages(p)
	if err != nil {
		return nil, err
	}
	return numbered(pages), nil
}

func drawFault(v *floorplan.View, f *probe.Fault) {
	v.Walls()
	v.DrawOpenings()
	v.RiseInWall()
	v.Fixtures()
	v.Joints()
	faultTiles(v, f)
	stretch(v, f)
	v.Cables()
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; len(c.Path) > 1 {
			v.CableEnds(c)
			v.RunNumbers(c)
		}
	}
	mistaken(v, f)
	v.Sensors()
	v.Thermostat()
	v.DrawDatums()
	v.Dimensions(v.Room.Job)
	v.WallLetters()
}

// bestBar is how long the bar at a fault's likeliest place is, mm on paper.
const bestBar = 6.0

// stretch marks the cable within which the fault must lie by a broad grey
// band, its likeliest place by a bar across it.
func stretch(v *floorplan.View, f *probe.Fault) {
	segs := drawing.Polyline(v.Paper.Pts(f.Line)...)
	v.Sign(signs.Fault, drawing.LayerHatch, "stretch with the fault", segs, signs.StretchBand(), nil)
	v.Ink.Segs(segs, lettering.CableInk)
	at, dir := v.Paper.Pt(f.Best), v.Heading(f.Cable, f.Best)
	across := drawing.Pt{X: -dir.Y, Y: dir.X}.Mul(bestBar / 2)
	v.Sign(signs.Fault, drawing.LayerMarks, "likeliest place", drawing.Polyline(at.Sub(across), at.Add(across)),
		drawing.WallLine(), nil)
	v.Ink.Mark(drawing.BoxOf(at.Sub(across), at.Add(across)).Grow(0.5))
	v.Tag(at, bestBar/2, v.Fig.Text("LIKELIEST"), v.Fig.Textf("likeliest place: %s", v.PlaceWords(f.Best)), 1)
	for i, p := range []plane.Point{f.Line[0], f.Line[len(f.Line)-1]} {
		name := [...]string{v.Fig.Text("FROM"), v.Fig.Text("TO")}[i]
		v.Tag(v.Paper.Pt(p), signs.BandWidth/2, name, name+v.Fig.Joint(": ")+v.PlaceWords(p), 1)
	}
}

// faultTiles outlines the tiles over the stretch with their row and column.
func faultTiles(v *floorplan.View, f *probe.Fault) {
	for _, t := range f.Tiles {
		ring, _ := f.Map.Tiling.Outline(t)
		inside, err := plane.FromRing(ring.CCW()).Meet(v.Room.Tiled)
		if err != nil || inside.Empty() {
			continue
		}
		v.Sign(signs.Tile, drawing.LayerFloor, fmt.Sprintf("tile, row %d, column %d", t.Row, t.Column),
			v.Paper.Outline(inside), drawing.MarkLine(), nil)
		for _, r := range v.Paper.Rings(inside) {
			v.Ink.Line(append(r, r[0]), lettering.ThinInk)
		}
		for _, poly := range inside {
			v.NameArea(v.Fig.Textf("R%d C%d", t.Row, t.Column), poly.Outer, 3)
			break // a tile in pieces is named once
		}
	}
}

// mistaken marks the pieces of other runs that could be taken for the stretch
// by dashes beside the cable.
func mistaken(v *floorplan.View, f *probe.Fault) {
	for _, n := range f.Neighbours {
		segs := drawing.Polyline(v.Paper.Pts(n.Line)...)
		v.Sign(signs.Mistaken, drawing.LayerHatch, "run "+f.Cable.RunName(n.Run)+", which could be taken for it", segs,
			signs.MistakenBand(), nil)
	}
}

func faultLevels(v *floorplan.View, f *probe.Fault) []setting.Level {
	found := setting.List{Head: v.Fig.Text("Where the fault must lie")}
	about := map[string]string{"tile": v.Fig.Text("Tile: "), "assumed": v.Fig.Text("Assumed: "),
		"record": v.Fig.Text("Record: ")} // the others say themselves what they are about
	// how the stretch was found came with it, in English
	tell := v.Fig.Language.Keeping([]string{f.Room.Job.Name, f.Cable.ID})
	for _, l := range f.Facts() {
		if l.About == "by" || l.About == "core" || l.About == "assumed" {
			l.Words = tell.Retold(l.Words)
		}
		found.Paras = append(found.Paras, capital(about[l.About]+l.Words))
	}
	cautions := setting.List{Head: v.Fig.Text("Before a tile is lifted"), Number: 1}
	for _, c := range f.Cautions() {
		cautions.Paras = append(cautions.Paras, capital(tell.Retold(c))+".")
	}
	bs := []setting.Block{faultPlaces(v, f), found, cautions, legendOf(v)}
	if notes := append(append([]string{}, v.Noted...), v.Remarks...); len(notes) > 0 {
		bs = append(bs, setting.List{Head: v.Fig.Text("Notes"), Number: 1, Paras: notes})
	}
	return []setting.Level{{Blocks: bs}, {Blocks: bs, Gain: setting.Never, Overflow: true}}
}

// faultPlaces is the table that finds the stretch on the floor.
func faultPlaces(v *floorplan.View, f *probe.Fault) setting.Block {
	t := v.DatumTable(v.Fig.Textf("Measured out on the floor%s", unitAlone(v)), v.Fig.Text("Point"))
	t.Cols = slices.Insert(t.Cols, 1, setting.Column{Head: v.Fig.Text("Along cable"), Align: setting.Decimal})
	for i, p := range []plane.Point{f.Line[0], f.Best, f.Line[len(f.Line)-1]} {
		a, b := v.Offsets(p)
		along := []float64{f.Stretch.From, f.Stretch.Best, f.Stretch.To}[i]
		t.Rows = append(t.Rows, setting.Row([...]string{v.Fig.Text("From"), v.Fig.Text("Likeliest"),
			v.Fig.Text("To")}[i], v.Fig.Long(along),
			floorplan.UnbrokenWords(a), floorplan.UnbrokenWords(b)))
	}
	return t
}

// unitAlone is the unit of figures that stand without one, for the head of their table.
func unitAlone(v *floorplan.View) string {
	if v.Fig.Units == plane.Millimetres && !v.Fig.Both {
		return v.Fig.Text(", mm")
	}
	return ""
}

// capital begins a sentence.
func capital(s string) string {
	_, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:n]) + s[n:]
}
