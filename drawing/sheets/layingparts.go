package sheets

import (
	"fmt"
	"math"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// partsID is the kind of the sheets that show a floor again in parts.
const partsID = "parts"

// mostParts is how many sheets a floor is drawn on in parts at most: with more of them nobody finds
// his place, and larger paper is what helps.
const mostParts = 12

// partOverlap is how far the sheet of a part shows the floor beyond its match lines, mm on paper.
const partOverlap = 12.0

// layingParts draws a room again in parts between match lines, where its runs cannot be told apart on
// the sheet that shows all of it; that one has the lines too.
func layingParts(p *layout.Plan, r *layout.Room, whole *setting.Page) (pages []*setting.Page, parts partition) {
	if p.Job.Sheet.Ratio != 0 || !setting.Narrow(r, whole.Sheet.Ratio, setting.Legible) {
		return nil, parts
	}
	scale, ok := partScale(r, p.Job.Figures().Units)
	if !ok {
		return nil, parts
	}
	for n := 2; n <= mostParts; n++ {
		for _, g := range gridsOf(n, floorplan.TurnedBounds(r.Job)) {
			parts = partition{room: r, scale: scale, cells: g.cells(r), words: p.Job.Language}
			if pages = drawParts(p, parts); pages != nil {
				return pages, parts
			}
		}
	}
	whole.Over = append(whole.Over, setting.List{Head: whole.Ty.Text("Paper"),
		Paras: []string{whole.Ty.Textf("Its runs lie too close to tell them apart, and %d sheets of this size do "+
			"not show them larger: draw on larger paper.", mostParts)}})
	return nil, parts
}

// withParts adds to the drawing of all of a floor where its parts lie.
func withParts(draw func(*floorplan.View), parts partition) func(*floorplan.View) {
	return func(v *floorplan.View) {
		draw(v)
		parts.onWhole(v)
	}
}

// Of the lines between parts on the sheet of the whole floor, mm on paper.
const (
	partPast = 5.0 // past the walls as they are drawn
	partOff  = 3.0 // from there to a part's name
)

// onWhole draws the lines between the parts over all of the floor, and names the parts outside it or in it.
func (t partition) onWhole(v *floorplan.View) {
	b := floorplan.TurnedBounds(t.room.Job)
	past := (floorplan.Poche + partPast) * v.Paper.Ratio
	for i, c := range t.cells {
		for _, side := range []struct {
			on       bool
			from, to plane.Point
			end      plane.Point // how far it leads past the floor
		}{
			{c.right, plane.Pt(c.Max.X, c.Min.Y), plane.Pt(c.Max.X, c.Max.Y), plane.Pt(0, past)},
			{c.below, plane.Pt(c.Min.X, c.Min.Y), plane.Pt(c.Max.X, c.Min.Y), plane.Pt(past, 0)},
		} {
			if !side.on {
				continue
			}
			from, to := side.from, side.to
			if from.Y <= b.Min.Y+plane.Hair && side.end.Y > 0 || from.X <= b.Min.X+plane.Hair && side.end.X > 0 {
				from = from.Sub(side.end)
			}
			if to.Y >= b.Max.Y-plane.Hair && side.end.Y > 0 || to.X >= b.Max.X-plane.Hair && side.end.X > 0 {
				to = to.Add(side.end)
			}
			line := []drawing.Pt{v.Paper.TurnedPt(from), v.Paper.TurnedPt(to)}
			v.Path(drawing.LayerDims, "match line", drawing.Polyline(line...), drawing.MatchLine(), nil)
			v.Ink.Line(line, lettering.ThinInk)
		}
		t.nameOnWhole(v, i)
	}
}

// nameOnWhole names part i outside the walls where it reaches them, else in it.
func (t partition) nameOnWhole(v *floorplan.View, i int) {
	c := t.cells[i]
	box := drawing.BoxOf(v.Paper.TurnedPt(c.Min), v.Paper.TurnedPt(c.Max))
	words := v.Fig.Textf("part %d", i+1)
	l := &lettering.Label{Text: words, Height: drawing.H25, Rank: 1, Subject: box.Centre(), Note: words}
	out := floorplan.Poche + partOff
	const tries = 12
	for k := 1; k < tries; k++ {
		at := float64(k) / tries
		off := 0.3 * math.Abs(float64(k)-tries/2)
		x, y := box.X0+at*box.W(), box.Y0+at*box.H()
		for _, s := range []struct {
			goesOn bool
			lettering.Spot
		}{
			{c.above, lettering.Spot{At: drawing.Pt{X: x, Y: box.Y0 - out}}},
			{c.below, lettering.Spot{At: drawing.Pt{X: x, Y: box.Y1 + out + drawing.H25}}},
			{c.left, lettering.Spot{At: drawing.Pt{X: box.X0 - out, Y: y}, Angle: 90}},
			{c.right, lettering.Spot{At: drawing.Pt{X: box.X1 + out + drawing.H25, Y: y}, Angle: 90}},
		} {
			if !s.goesOn {
				s.Cost = off
				l.Spots = append(l.Spots, s.Spot)
			}
		}
		for j := 1; j < tries; j++ {
			l.Spots = append(l.Spots, lettering.Spot{At: drawing.Pt{X: x, Y: box.Y0 + float64(j)/tries*box.H()},
				Cost: 4})
		}
	}
	v.Letters.Add(l)
}

// partScale is the smallest scale at which a room's runs are told apart.
func partScale(r *layout.Room, u plane.Units) (found drawing.Scale, ok bool) {
	for _, s := range drawing.ScalesFor(u) {
		if !setting.Narrow(r, s.Ratio, setting.ToldApart) {
			found, ok = s, true
		}
	}
	return found, ok
}

// A partGrid cuts the bounds of a floor into columns and rows of one size.
type partGrid struct {
	bounds     plane.Rect
	cols, rows int
}

// gridsOf returns the grids of n cells.
func gridsOf(n int, bounds plane.Rect) (out []partGrid) {
	for cols := 1; cols <= n; cols++ {
		if n%cols == 0 {
			out = append(out, partGrid{bounds, cols, n / cols})
		}
	}
	return out
}

// leastPart is how much of the floor a cell must hold to be drawn, mm².
const leastPart = 1e4

// cells returns those that hold some of the floor, row by row from the top of the sheet.
func (g partGrid) cells(r *layout.Room) (out []partCell) {
	w, h := g.bounds.W()/float64(g.cols), g.bounds.H()/float64(g.rows)
	for row := range g.rows {
		for col := range g.cols {
			top := g.bounds.Max.Y - float64(row)*h
			left := g.bounds.Min.X + float64(col)*w
			c := partCell{Rect: plane.Rect{Min: plane.Pt(left, top-h), Max: plane.Pt(left+w, top)},
				left: col > 0, right: col < g.cols-1, above: row > 0, below: row < g.rows-1, col: col, row: row}
			if inCell(floorplan.PaperOf(r.Job), r, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// inCell reports whether a cell holds enough of a room's floor.
func inCell(paper drawing.View, r *layout.Room, c partCell) bool {
	turned := make(plane.Ring, len(r.Job.Outline))
	for i, p := range r.Job.Outline {
		turned[i] = paper.Turned(p)
	}
	for _, off := range []func(plane.Point) float64{
		func(p plane.Point) float64 { return p.X - c.Min.X }, func(p plane.Point) float64 { return c.Max.X - p.X },
		func(p plane.Point) float64 { return p.Y - c.Min.Y }, func(p plane.Point) float64 { return c.Max.Y - p.Y },
	} {
		turned = turned.Clip(off)
	}
	return math.Abs(turned.SignedArea()) > leastPart
}

// A partCell is what a part shows of the floor as it lies on paper, and at which sides it goes on.
type partCell struct {
	plane.Rect
	left, right, above, below bool
	col, row                  int
}

// A partition is a floor in parts at one scale.
type partition struct {
	room  *layout.Room
	scale drawing.Scale
	cells []partCell
	words language.Language
}

// drawParts draws every part on a sheet of its own; nil where one does not fit.
func drawParts(p *layout.Plan, parts partition) (out []*setting.Page) {
	if len(parts.cells) < 2 {
		return nil
	}
	for i := range parts.cells {
		pages, err := parts.scene(i).Alone(p)
		if err != nil {
			return nil
		}
		out = append(out, pages...)
	}
	return out
}

// scene is part i of a floor.
func (t partition) scene(i int) floorplan.Scene {
	c := t.cells[i]
	k := kindNamed(partsID)
	k.ID, k.Title = fmt.Sprintf("%s-%d", k.ID, i+1), t.words.Textf("%s %d of %d", t.words.Text(k.Title), i+1,
		len(t.cells))
	s := floorplan.OfRoom(k, t.room)
	s.North, s.Scales = false, []drawing.Scale{t.scale}
	s.Bounds = c.shown(partOverlap * t.scale.Ratio)
	s.Border = func(ratio float64) (left, right, top, bottom float64) {
		left, right, top, bottom = floorplan.Border(floorplan.WallsAlone(t.room.Job), ratio)
		return outer(c.left, left), outer(c.right, right), outer(c.above, top), outer(c.below, bottom)
	}
	s.Cut = true
	s.Draw = func(v *floorplan.View) {
		drawFieldSheet(v)
		t.matchLines(v, i)
	}
	s.Levels = func(v *floorplan.View) []setting.Level {
		bs := []setting.Block{partKey{t, i, v.Plan.Job.Sheet.North}}
		if len(v.Noted) > 0 {
			bs = append(bs, setting.List{Head: v.Fig.Text("Notes"), Number: 1, Paras: v.Noted})
		}
		here, on := legendApart(v.Plan, legendOf(v))
		return []setting.Level{{Blocks: append(bs, here...), Rest: on},
			{Blocks: bs, Rest: append(here, on...), Gain: setting.Never, Overflow: true}}
	}
	return s
}

// shown is a cell with so much more of the floor where that goes on.
func (c partCell) shown(more float64) plane.Rect {
	b := c.Rect
	for _, side := range []struct {
		on bool
		at *float64
		by float64
	}{{c.left, &b.Min.X, -more}, {c.right, &b.Max.X, more}, {c.below, &b.Min.Y, -more}, {c.above, &b.Max.Y, more}} {
		if side.on {
			*side.at += side.by
		}
	}
	return b
}

// outer is a border, none at a side at which the floor goes on.
func outer(goesOn bool, border float64) float64 {
	if goesOn {
		return 0
	}
	return border
}

// matchLines draws the lines at which part i meets those beside it, each with the number of that part
// and, along a datum, how far it lies from it.
func (t partition) matchLines(v *floorplan.View, i int) {
	c := t.cells[i]
	b := c.shown(partOverlap * t.scale.Ratio)
	for _, side := range []struct {
		on       bool
		from, to plane.Point
		col, row int
	}{
		{c.left, plane.Pt(c.Min.X, b.Min.Y), plane.Pt(c.Min.X, b.Max.Y), -1, 0},
		{c.right, plane.Pt(c.Max.X, b.Min.Y), plane.Pt(c.Max.X, b.Max.Y), 1, 0},
		{c.above, plane.Pt(b.Min.X, c.Max.Y), plane.Pt(b.Max.X, c.Max.Y), 0, -1},
		{c.below, plane.Pt(b.Min.X, c.Min.Y), plane.Pt(b.Max.X, c.Min.Y), 0, 1},
	} {
		if n := t.number(c.col+side.col, c.row+side.row); side.on && n > 0 {
			matchLine(v, v.Paper.TurnedPt(side.from), v.Paper.TurnedPt(side.to), n)
		}
	}
}

// number is that of the part in a column and a row, 0 where there is none.
func (t partition) number(col, row int) int {
	for i, c := range t.cells {
		if c.col == col && c.row == row {
			return i + 1
		}
	}
	return 0
}

// matchLine draws the line from a to b beyond which part n goes on.
func matchLine(v *floorplan.View, a, b drawing.Pt, n int) {
	v.Path(drawing.LayerDims, "match line", drawing.Polyline(a, b), drawing.MatchLine(), nil)
	v.Ink.Line([]drawing.Pt{a, b}, lettering.ThinInk)
	words := v.Fig.Textf("Match line, part %d%s", n, fromDatum(v, v.Paper.Floor(a), v.Paper.Floor(b)))
	angle := 0.0
	if math.Abs(b.X-a.X) < math.Abs(b.Y-a.Y) {
		angle = 90
	}
	l := &lettering.Label{Text: words, Height: drawing.H25, Rank: 0, Subject: a.Lerp(b, 0.5), Note: words}
	half := l.Sample(lettering.Spot{}).Box().W() / 2
	const tries = 20
	for k := range tries + 1 {
		at := a.Lerp(b, float64(k)/tries)
		back := drawing.Pt{X: -half}
		if angle != 0 {
			back = drawing.Pt{Y: half}
		}
		off := math.Abs(float64(k) - tries/2)
		for _, rise := range []float64{-1, drawing.H25 + 1} {
			beside := drawing.Pt{Y: rise}
			if angle != 0 {
				beside = drawing.Pt{X: rise}
			}
			l.Spots = append(l.Spots, lettering.Spot{At: at.Add(back).Add(beside), Angle: angle, Cost: 0.3 * off})
		}
	}
	v.Letters.Add(l)
}

// fromDatum says how far a line lies from the datum that it runs along, if it runs along one.
func fromDatum(v *floorplan.View, a, b plane.Point) string {
	const along = 2 // mm that both its ends may differ by
	for k, d := range v.Datums() {
		if d == nil || !v.Datums().Both() {
			continue
		}
		from, to := v.Datums().Offsets(a)[k], v.Datums().Offsets(b)[k]
		if math.Abs(from-to) < along {
			return v.Fig.Textf(": %s from D%d", v.Fig.Length(from), k+1)
		}
	}
	return ""
}

// A partKey is the room in small with its parts, the one that the sheet shows shaded.
type partKey struct {
	partition
	shown int
	north float64 // degrees from the right of the sheet, anticlockwise
}

// Sizes of the key, mm on paper.
const (
	keyLong  = 46.0 // the longer side of the room, at most
	keyNorth = 14.0 // beside it, for the arrow
)

func (k partKey) scale(w float64) float64 {
	b := floorplan.TurnedBounds(k.room.Job)
	return min(keyLong/max(b.W(), b.H()), (w-keyNorth)/b.W())
}

// Height is what the key takes at a width of w, both mm of paper.
func (k partKey) Height(ty *setting.Typesetter, w float64) float64 {
	return ty.HeadingHeight(k.head(), w) + max(keyNorth, floorplan.TurnedBounds(k.room.Job).H()*k.scale(w)) + 2
}

func (k partKey) head() string { return k.words.Textf("Part %d of %d", k.shown+1, len(k.cells)) }

// Set draws the key from at, the upper left corner, w mm wide.
func (k partKey) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, k.head(), w) + 1
	b := floorplan.TurnedBounds(k.room.Job)
	box := drawing.Box{X0: at.X + 1, Y0: y, X1: at.X + 1 + b.W()*k.scale(w), Y1: y + b.H()*k.scale(w)}
	view := drawing.NewTurnedView(b, box, 1/k.scale(w), floorplan.Right(k.room.Job))
	var numbers []drawing.Item // over all lines
	for i, c := range k.cells {
		cell := drawing.BoxOf(view.TurnedPt(c.Min), view.TurnedPt(c.Max))
		if i == k.shown {
			pg.Path(drawing.LayerFloor, "", drawing.Rectangle(cell), nil, drawing.Filled(drawing.Poche))
		}
		pg.Path(drawing.LayerDims, "", drawing.Rectangle(cell), drawing.ThinLine(), nil)
		numbers = append(numbers, &drawing.Text{Layer: drawing.LayerText, Text: strconv.Itoa(i + 1),
			At: cell.Centre().Add(drawing.Pt{Y: setting.Note / 2}), Height: setting.Note, Anchor: drawing.Middle,
			Face: fonts.Lettering, Knockout: 0.4})
	}
	pg.Path(drawing.LayerWalls, "", drawing.Polygon(view.Pts(k.room.Job.Outline)...), drawing.MediumLine(), nil)
	pg.Add(numbers...)
	north := k.north + plane.Degrees(plane.Atan2(view.Right.Y, view.Right.X))
	arrow := symbols.North(drawing.Pt{}, north)
	a := drawing.BoxOfItems(arrow)
	pg.Add(symbols.North(drawing.Pt{X: box.X1 + 3 - a.X0, Y: y - a.Y0}, north)...)
}
