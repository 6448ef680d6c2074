package sheets

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
	"oxturn/symbols"
)

// tilePlan shows how the tile of a room is set out over the cable: joints, cut tiles with
// their sizes, the start lines from two datums, and which tiles lie over what must be found
// again.
func tilePlan(r *layout.Room, l language.Language) floorplan.Scene {
	tiles, s := newTileView(r, l), floorplan.OfRoom(kindNamed("tile-plan"), withoutBox(r))
	s.Border = func(ratio float64) (left, right, top, bottom float64) { return floorplan.OverallBorder(r.Job, ratio) }
	s.Draw, s.Levels = tiles.draw, tiles.levels
	return s
}

// A tileView is what a tile plan draws, worked out once for all trials.
type tileView struct {
	tiling.Layout
	room   *layout.Room // with its box, which the plan goes without
	pieces []tiling.Piece
	joints []plane.Segment
	start  tiling.Start
	begun  bool // there is a start
	over   []covered
}

// A covered thing lies under a tile.
type covered struct {
	what  string
	at    plane.Point
	place tiling.Place
	named bool // place is known
	tile  plane.Ring
}

func newTileView(r *layout.Room, l language.Language) tileView {
	t := tileView{Layout: r.Tiles[0], room: r}
	t.pieces, t.joints = t.Pieces(), t.Joints()
	t.start, t.begun = t.Start()
	for _, s := range r.Sensors {
		t.cover(s.Name, s.Tip)
	}
	for i := range r.Cables {
		c := &r.Cables[i]
		if len(c.Path) < 2 {
			continue
		}
		for _, end := range c.Ends() {
			name := l.Text(end.Tag)
			if len(r.Cables) > 1 {
				name = c.ID + " " + name
			}
			t.cover(name, end.At)
		}
	}
	return t
}

// cover finds the tile over a point.
func (t *tileView) cover(what string, at plane.Point) {
	c := covered{what: what, at: at}
	if t.Numbers != nil {
		c.place, c.named = t.Numbers.At(at)
	}
	near := math.Inf(1)
	for _, p := range t.pieces {
		d := p.Tile.Distance(at)
		if p.Tile.Contains(at) {
			d = 0
		}
		if d < near {
			near, c.tile = d, p.Tile
		}
	}
	t.over = append(t.over, c)
}

// leastTile is how wide a tile is on paper at least to be drawn, mm.
const leastTile = 1.6

// large reports whether the tiles are large enough on paper to be drawn one by one.
func (t tileView) large(v *floorplan.View) bool { return v.Paper.Len(t.Width) >= leastTile }

func (t tileView) draw(v *floorplan.View) {
	v.Walls()
	if t.large(v) {
		t.drawCuts(v)
	}
	v.DrawOpenings()
	t.drawCable(v)
	v.Fixtures()
	v.Joints()
	if t.large(v) {
		t.drawJoints(v)
		t.drawCovering(v)
	} else {
		v.Remark(v.Fig.Text("Tile too small to be drawn at this scale."))
	}
	t.drawStart(v)
	v.DrawDatums()
	t.dimension(v)
	if t.large(v) {
		t.nameSizes(v)
		t.nameRows(v)
	}
	if short := v.WallLetters(); short > 0 {
		v.Remark(v.Fig.Textf("%s no letter here.", shortWords(v, short)))
	}
}

// drawCuts fills the tiles that are cut.
func (t tileView) drawCuts(v *floorplan.View) {
	var segs []drawing.Seg
	for _, p := range t.pieces {
		for _, ring := range p.Floor {
			if p.Cut {
				segs = append(segs, drawing.Polygon(v.Paper.Pts(ring)...)...)
			}
		}
	}
	if len(segs) > 0 {
		v.Sign(signs.CutTile, drawing.LayerHatch, "cut tiles", segs, nil, drawing.Filled(signs.CutGrey))
	}
}

func (t tileView) drawCable(v *floorplan.View) {
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; len(c.Path) > 1 {
			segs := drawing.Rounded(v.Paper.Pts(c.Path), v.Paper.Len(c.BendRadius))
			v.Sign(signs.Below, drawing.LayerHatch, "heating cable "+c.ID+", below", segs, signs.BelowLine(), nil)
			v.Ink.Segs(segs, lettering.ThinInk)
		}
	}
}

func (t tileView) drawJoints(v *floorplan.View) {
	var segs []drawing.Seg
	for _, s := range t.joints {
		pts := v.Paper.Pts([]plane.Point{s.A, s.B})
		segs = append(segs, drawing.Polyline(pts...)...)
		v.Ink.Line(pts, lettering.ThinInk)
	}
	v.Path(drawing.LayerFloor, "joints of the tile", segs, drawing.MarkLine(), nil)
}

// drawCovering outlines the tiles over what must be found again, and marks it.
func (t tileView) drawCovering(v *floorplan.View) {
	for _, c := range t.over {
		inside, err := plane.FromRing(c.tile.CCW()).Meet(t.Floor)
		if err != nil || inside.Empty() {
			continue
		}
		v.Sign(signs.Covering, drawing.LayerMarks, "tile over "+c.what, v.Paper.Outline(inside),
			drawing.WallLine(), nil)
		for _, ring := range v.Paper.Rings(inside) {
			v.Ink.Line(append(ring, ring[0]), lettering.ThinInk)
		}
	}
	v.Sensors()
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; len(c.Path) > 1 {
			v.CableEnds(c)
		}
	}
}

func (t tileView) drawStart(v *floorplan.View) {
	if !t.begun {
		return
	}
	for _, s := range []plane.Segment{t.start.Along, t.start.Across} {
		pts := v.Paper.Pts([]plane.Point{s.A, s.B})
		v.Sign(signs.StartLine, drawing.LayerMarks, "start line", drawing.Polyline(pts...), drawing.JointLine(), nil)
		v.Ink.Line(pts, lettering.CableInk)
	}
	for i, p := range t.startPoints() {
		at, name := v.Paper.Pt(p), "T"+strconv.Itoa(i+1)
		v.Mark(signs.StartLine, symbols.ChannelCrossing(at))
		v.Letters.Add(&lettering.Label{Text: name, Height: drawing.H25, Face: fonts.LetteringBold, Rank: 1, Subject: at,
			Note: name + v.Fig.Joint(": ") + v.PlaceWords(p), Spots: floorplan.TagSpots(at, 2, name)})
	}
}

func (t tileView) startPoints() []plane.Point { return []plane.Point{t.start.At, t.start.Second} }

// dimension gives the room's length and width, and the start lines on the way where they run
// square to the sheet.
func (t tileView) dimension(v *floorplan.View) {
	if floorplan.SlantingDatums(v.Room.Job) != nil {
		overall(v)
		return
	}
	turned := floorplan.PaperOf(v.Room.Job).Turned
	start := turned(t.start.At)
	way := turned(t.start.Along.B).Sub(turned(t.start.Along.A)).Unit()
	for i, l := range floorplan.OverallLadders(v.Room.Job) {
		at := start.X
		if i == 1 {
			at = start.Y
		}
		if n := len(l.Stations); t.begun && n > 1 && min(math.Abs(way.X), math.Abs(way.Y)) < 1e-6 {
			mid := l.Stations[0]
			mid.Along = at
			l.Stations = slices.Insert(l.Stations, 1, mid)
			l.Stations = floorplan.Spaced(l.Stations, floorplan.StationGap*v.Paper.Ratio)
		}
		v.Ladder(l, floorplan.TurnedBounds(v.Room.Job))
	}
}

// alikeSizes is within how many mm two sizes are lettered as one: walls are seldom straighter.
const alikeSizes = 4.0

// nameSizes letters how wide tiles are cut, once for every size along every side.
func (t tileView) nameSizes(v *floorplan.View) {
	type size struct {
		along bool // cut to a length of the row
		side  int
		steps float64
	}
	groups := map[size][]tiling.Piece{}
	var order []size
	mid := t.Floor.Bounds().Centre().Sub(t.Origin).Rotate(-t.Angle)
	for _, p := range t.pieces {
		along, across := p.Wide.X < t.Length-1.5, p.Wide.Y < t.Width-1.5
		if !p.Cut || along == across || t.Woven {
			continue // corners take both sizes
		}
		c := plane.FromRing(p.Tile).Bounds().Centre().Sub(t.Origin).Rotate(-t.Angle)
		k := size{along, int(math.Copysign(1, c.X-mid.X)), math.Round(p.Wide.X / alikeSizes)}
		if across {
			k = size{false, int(math.Copysign(1, c.Y-mid.Y)), math.Round(p.Wide.Y / alikeSizes)}
		}
		if groups[k] == nil {
			order = append(order, k)
		}
		groups[k] = append(groups[k], p)
	}
	slices.SortStableFunc(order, func(a, b size) int { return cmp.Compare(len(groups[b]), len(groups[a])) })
	for i, k := range order {
		if i < mostSizes {
			mm := groups[k][0].Wide.Y
			if k.along {
				mm = groups[k][0].Wide.X
			}
			t.nameSize(v, groups[k], v.Fig.Length(mm))
		}
	}
}

// mostSizes is how many sizes of cut tiles are lettered on a plan: beyond that they help
// nobody, since every tile is measured.
const mostSizes = 8

// nameSize letters a size in one of the tiles that are cut to it, the middle one first.
func (t tileView) nameSize(v *floorplan.View, all []tiling.Piece, text string) {
	l := &lettering.Label{Text: text, Height: drawing.H25, Rank: 6, Option: true}
	box := l.Sample(lettering.Spot{}).Box()
	for i := range all {
		k := (len(all)/2 + i) % len(all)
		for _, ring := range all[k].Floor {
			pts := v.Paper.Pts(ring)
			in := drawing.BoxOf(pts...)
			if i == 0 {
				l.Subject = in.Centre()
			}
			for _, angle := range []float64{0, 90} {
				w, h := box.W(), box.H()
				if angle == 90 {
					w, h = h, w
				}
				for _, c := range floorplan.GridIn(in, w, h) {
					if !floorplan.HoldsBox([][]drawing.Pt{pts}, c, w, h) {
						continue
					}
					s := lettering.Spot{At: lettering.CentredOn(c, box), Angle: angle,
						Cost: 0.3*float64(min(i, 10)) + 0.1*c.Dist(in.Centre()) + angle/90}
					if angle == 90 {
						s.At = c.Sub(drawing.Pt{X: box.Centre().Y})
					}
					l.Spots = append(l.Spots, s)
				}
			}
		}
	}
	l.Spots = append(l.Spots, floorplan.LeaderSpots(l.Subject, 0, box, 20)...)
	v.Letters.Add(l)
}

// rowStep is how far rows are apart on paper at least that are all numbered, mm.
const rowStep = 5.0

// nameRows numbers the rows in their first tiles, or the next.
func (t tileView) nameRows(v *floorplan.View) {
	if t.Numbers == nil {
		return
	}
	every := 1
	if v.Paper.Len(t.Width+t.Joint) < rowStep {
		every = 5
	}
	for i := every - 1; i < len(t.Numbers.Rows); i += every {
		l := &lettering.Label{Text: "R" + strconv.Itoa(i+1), Height: drawing.H25, Face: fonts.LetteringBold, Rank: 7,
			Option: true}
		for column := 1; column <= 2 && l.Spots == nil; column++ { // a first tile may be cut too narrow
			t.nameAt(v, l, tiling.Place{Row: i + 1, Column: column})
		}
		if l.Spots != nil {
			v.Letters.Add(l)
		}
	}
}

// nameAt gives a row's number the spots that it has within a tile.
func (t tileView) nameAt(v *floorplan.View, l *lettering.Label, at tiling.Place) {
	ring, ok := t.Numbers.Outline(at)
	if !ok {
		return
	}
	tile, err := plane.FromRing(ring.CCW()).Meet(t.Floor)
	if err != nil || tile.Empty() {
		return
	}
	pts := v.Paper.Pts(tile[0].Outer)
	l.Subject = drawing.BoxOf(pts...).Centre()
	size := l.Sample(lettering.Spot{}).Box()
	corner := v.Paper.Pt(ring[0].Lerp(ring[3], 0.5))
	for _, c := range floorplan.GridIn(drawing.BoxOf(pts...), size.W(), size.H()) {
		if floorplan.HoldsBox([][]drawing.Pt{pts}, c, size.W(), size.H()) {
			l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(c, size), Cost: 0.1 * c.Dist(corner)})
		}
	}
}

// levels returns what stands beside the plan.
func (t tileView) levels(v *floorplan.View) []setting.Level {
	own := func(s signs.Sign) bool {
		return slices.Contains([]signs.Sign{signs.CutTile, signs.Covering, signs.StartLine, signs.Below}, s)
	}
	others := func(s signs.Sign) bool { return !own(s) }
	legend, rest := legendApart(v.Plan, legendOf(v))
	if len(legend) == 0 { // what is on this sheet alone stays with it
		legend = []setting.Block{setting.LegendOf(lettering.Without(told(v), others), v.Fig.Language)}
		rest = []setting.Block{setting.LegendOf(lettering.Without(told(v), own), v.Fig.Language)}
	}
	bs := slices.Concat(t.startTable(v), t.coverTable(v), []setting.Block{t.notes(v)}, legend)
	all := slices.Concat(bs, t.compared(v)) // which check lists too
	return []setting.Level{{Blocks: all, Rest: rest}, {Blocks: bs, Rest: rest, Gain: 1.15},
		{Blocks: bs, Rest: rest, Gain: 1.9, Overflow: true}}
}

// startTable places the points that the start lines are struck through.
func (t tileView) startTable(v *floorplan.View) []setting.Block {
	head := v.Fig.Text("Start lines, proposed")
	if t.Recorded {
		head = v.Fig.Text("Start lines, as recorded")
	}
	if !t.begun || !v.Datums().Both() {
		return nil
	}
	out := v.DatumTable(head, v.Fig.Text("Point"))
	for i, p := range t.startPoints() {
		a, b := v.Offsets(p)
		out.Rows = append(out.Rows, setting.Row("T"+strconv.Itoa(i+1), floorplan.UnbrokenWords(a),
			floorplan.UnbrokenWords(b)))
	}
	return []setting.Block{out}
}

// coverTable says which tile lies over what.
func (t tileView) coverTable(v *floorplan.View) []setting.Block {
	out := setting.Table{Head: v.Fig.Text("Under which tile"), Cols: []setting.Column{{Head: v.Fig.Text("What"),
		Wraps: true},
		{Head: v.Fig.Text("Row"), Align: setting.Decimal}, {Head: v.Fig.Text("Tile of it"), Align: setting.Decimal}}}
	for _, c := range t.over {
		if c.named {
			row, tile := "R"+strconv.Itoa(c.place.Row), strconv.Itoa(c.place.Column)
			out.Rows = append(out.Rows, setting.Row(c.what, row, tile))
		}
	}
	if len(out.Rows) == 0 {
		return nil
	}
	return []setting.Block{out}
}

func (t tileView) notes(v *floorplan.View) setting.Block {
	l := setting.List{Head: v.Fig.Text("Notes"), Number: 1}
	l.Paras = append(l.Paras, v.Noted...)
	l.Paras = append(l.Paras, v.Remarks...)
	job := v.Plan.Job
	switch {
	case t.Recorded:
		l.Paras = append(l.Paras, v.Fig.Text("As the tiler set it out."))
	default:
		l.Paras = append(l.Paras, v.Fig.Textf("PROPOSED: along the rows %s, across them %s.", t.Along, t.Across))
	}
	if t.Numbers != nil {
		way := plane.Pt(1, 0).Rotate(t.Angle)
		l.Paras = append(l.Paras, v.Fig.Textf("Rows count towards %s, tiles towards %s.",
			layout.Towards(v.Room.Job, t.start.At, way.Left()), layout.Towards(v.Room.Job, t.start.At, way)))
	}
	if job.Materials.SealantWidth > 0 && !t.Recorded {
		l.Paras = append(l.Paras, v.Fig.Textf("Cut sizes leave %s along the edge for sealant.",
			withUnit(v.Fig, job.Materials.SealantWidth)))
	}
	if t.AtJoints > 0 {
		l.Paras = append(l.Paras, v.Fig.Textf("Tiles cut at a movement joint: %d.", t.AtJoints))
	}
	if len(v.Plan.TakeOff.Lines) == 0 { // else it says so
		l.Paras = append(l.Paras, v.Fig.Textf("%d whole and %d cut tiles.", t.Whole, t.Cut))
	}
	return l
}

// compared lists the layouts that were weighed.
func (t tileView) compared(v *floorplan.View) []setting.Block {
	all := t.room.Tiles
	if len(all) < 2 {
		return nil
	}
	out := setting.Table{Head: v.Fig.Text("Layouts compared"),
		Cols: []setting.Column{{Head: v.Fig.Text("Along; across the rows"), Wraps: true},
			{Head: v.Fig.Text("Cut"), Align: setting.Decimal}, {Head: v.Fig.Text("Under half"), Align: setting.Decimal},
			{Head: v.Fig.Text("Least"), Align: setting.Decimal}, {Head: v.Fig.Text("Tiles"), Align: setting.Decimal}}}
	for i, l := range all {
		tiles, _ := l.Bought(v.Plan.Job.Tile)
		name := language.Joined("; ", l.Along, l.Across).In(v.Fig.Language)
		row := setting.Row(name, strconv.Itoa(l.Cut), strconv.Itoa(l.UnderHalf), "-", strconv.Itoa(tiles))
		if l.Narrowest > 0 {
			row[3].Text = floorplan.UnbrokenWords(v.Fig.Length(l.Narrowest))
		}
		for k := range row {
			row[k].Strong = i == 0
		}
		out.Rows = append(out.Rows, row)
	}
	return []setting.Block{out}
}
