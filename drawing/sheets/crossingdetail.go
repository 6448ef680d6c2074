package sheets

import (
	"math"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// A crossingDetail is the corner of the two datums enlarged: the channels between
// the pegs, and how far the crossing P1 lies from either face. It is turned like
// the plan beside it, but square to the paper.
type crossingDetail struct {
	from1, from2     float64    // mm of floor, from the faces of D1 and D2 to P1
	figure1, figure2 string     // the same as printed
	in1, in2         drawing.Pt // from either face into the room, on paper: right, left, up or down
	pitch1, pitch2   float64    // from channel to channel, from either face on
	// whether a peg stands in a field, counted in channels from D1 and from D2, the one before P1 being 0, 0
	has func(i, j int) bool
	fig say.Figures
}

// crossingWords are set below the detail.
const crossingWords = "Channels, no peg."

// Sizes of the detail, mm on paper: its height at most, what dimensions take
// above it, and the wall that is shown.
const (
	crossingTall  = 49.0
	crossingAbove = 8.0
	crossingWall  = 3.0
)

// beyondCrossing is how much floor is shown past P1, in pegs.
const beyondCrossing = 1.2

// farCrossing is up to where the detail is worth drawing, in pegs from a face.
const farCrossing = 12.0

// crossingDetailOf returns the detail, where P1 stands before both faces and the
// rows of pegs run along them.
func crossingDetailOf(v *floorplan.View) *crossingDetail {
	p, ok := first(v)
	l, known := lattice(v)
	if !ok || !known {
		return nil
	}
	tape := layout.NewTape(v.Room.Job, v.Fig.Units)
	i, j := tape.Datums()
	d1, d2 := tape.Walls[i], tape.Walls[j]
	d := crossingDetail{fig: v.Fig, pitch1: l.Pegs(d1.In), pitch2: l.Pegs(d2.In), from1: d1.FromWall(p),
		from2: d2.FromWall(p)}
	d.has = standing(v.Plan.Job.Membrane.Staggered, l, p.Sub(d1.In.Mul(d.pitch1/2)).Sub(d2.In.Mul(d.pitch2/2)))
	d.figure1, d.figure2 = v.Fig.Length(d.from1), v.Fig.Length(d.from2)
	d.in1, d.in2 = squared(v.Paper.Dir(d1.In)), squared(v.Paper.Dir(d2.In))
	along := plane.Pt(1, 0).Rotate(l.Angle)
	u := d1.B.Sub(d1.A).Unit()
	skew := math.Min(math.Abs(along.Cross(u)), math.Abs(along.Dot(u)))
	far := d.from1 > farCrossing*d.pitch1 || d.from2 > farCrossing*d.pitch2
	if math.Min(d.from1, d.from2) <= 0 || far || skew > 0.02 || d.in1.Dot(d.in2) != 0 {
		return nil
	}
	return &d
}

// standing tells the fields in which pegs stand, counted from the one at a place: all of them, or every second one
// where rows are staggered.
func standing(staggered bool, l route.Lattice, at plane.Point) func(i, j int) bool {
	if !staggered {
		return func(int, int) bool { return true }
	}
	x, y := l.ToPegs(at)
	odd := int(math.Floor(x)) + int(math.Floor(y))
	return func(i, j int) bool { return (odd+i+j)%2 == 0 }
}

// squared turns a direction to the nearest of right, left, up and down.
func squared(d drawing.Pt) drawing.Pt {
	if math.Abs(d.X) >= math.Abs(d.Y) {
		return drawing.Pt{X: math.Copysign(1, d.X)}
	}
	return drawing.Pt{Y: math.Copysign(1, d.Y)}
}

// beside is what the level figure takes beside the floor, mm.
func (d crossingDetail) beside() float64 {
	text := "D1: " + d.figure1
	if d.in1.X != 0 {
		text = "D2: " + d.figure2
	}
	return (&drawing.Text{Text: text, Height: setting.Note}).Box().W() + 6
}

// shows is the floor shown from the faces on, mm: across and up the paper.
func (d crossingDetail) shows() (wide, high float64) {
	to1, to2 := d.ends()
	if d.in2.X != 0 {
		return to2, to1
	}
	return to1, to2
}

// drawnAt is the scale of the other details, or the largest that has room in a block so wide; where
// there is none, whatever fits.
func (d crossingDetail) drawnAt(w float64) drawing.Scale {
	wide, high := d.shows()
	least := math.Max(wide/(w-d.beside()-crossingWall), high/(crossingTall-crossingAbove-crossingWall))
	for _, s := range drawing.ScalesFor(d.fig.Units) {
		if s.Ratio >= math.Max(least, closeScale(d.fig.Units).Ratio) && s.Ratio <= 12 {
			return s
		}
	}
	return drawing.Scale{Ratio: least, Name: d.fig.Text("not to scale")}
}

func (d crossingDetail) scale(w float64) float64 { return 1 / d.drawnAt(w).Ratio }

func (d crossingDetail) scaleName(w float64) string { return d.drawnAt(w).Name }

// Height is what the section takes at a width of w, both mm of paper.
func (d crossingDetail) Height(ty *setting.Typesetter, w float64) float64 {
	_, high := d.shows()
	drawn := high*d.scale(w) + crossingWall + crossingAbove
	return drawn + float64(ty.Lines(fonts.Lettering, ty.Said(crossingWords), setting.Note,
		w))*setting.Leading + 3
}

// Set draws the section from at, the upper left corner, w mm wide.
func (d crossingDetail) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y
	k := d.scale(w)
	wide, high := d.shows()
	above, below := crossingAbove, 0.0
	if d.upright().Y > 0 { // the corner is at the top, and the level figure below the floor
		above, below = crossingWall, crossingAbove-crossingWall
	}
	box := drawing.Box{X0: at.X, Y0: y + above, X1: at.X + wide*k, Y1: y + above + high*k}
	side := d.sideways()
	if side.X > 0 {
		box.X0, box.X1 = box.X0+crossingWall, box.X1+crossingWall
	} else {
		box.X0, box.X1 = box.X0+d.beside(), box.X1+d.beside()
	}
	v := crossingView{crossingDetail: d, pg: pg, box: box, right: at.X + w, k: k}
	v.walls()
	v.channels()
	v.sizes()
	for i, l := range pg.Ty.Wrap(pg.Ty.Said(crossingWords), w) {
		pg.Write(drawing.Pt{X: at.X, Y: box.Y1 + below + crossingWall + 4.6 + float64(i)*setting.Leading}, l,
			setting.Note,
			drawing.Start)
	}
}

// sideways is the one of the two directions into the room that is level.
func (d crossingDetail) sideways() drawing.Pt {
	if d.in1.X != 0 {
		return d.in1
	}
	return d.in2
}

// upright is the other.
func (d crossingDetail) upright() drawing.Pt {
	if d.in1.X != 0 {
		return d.in2
	}
	return d.in1
}

// A crossingView is the detail where it is being drawn.
type crossingView struct {
	crossingDetail
	pg    *setting.Page
	box   drawing.Box // the floor shown
	right float64     // how far lettering may reach
	k     float64     // mm of paper a mm of floor
}

// corner is where the two faces meet.
func (v crossingView) corner() drawing.Pt {
	c := drawing.Pt{X: v.box.X0, Y: v.box.Y0}
	if v.sideways().X < 0 {
		c.X = v.box.X1
	}
	if v.upright().Y < 0 {
		c.Y = v.box.Y1
	}
	return c
}

// at returns a place so far from the faces of D1 and D2.
func (v crossingView) at(from1, from2 float64) drawing.Pt {
	return v.corner().Add(v.in1.Mul(from1 * v.k)).Add(v.in2.Mul(from2 * v.k))
}

// ends are how far the floor shown reaches from D1 and from D2, mm of floor.
func (d crossingDetail) ends() (to1, to2 float64) {
	return d.from1 + beyondCrossing*d.pitch1, d.from2 + beyondCrossing*d.pitch2
}

func (v crossingView) walls() {
	to1, to2 := v.ends()
	thick := crossingWall / v.k
	for _, ring := range [][]drawing.Pt{
		{v.at(0, -thick), v.at(0, to2), v.at(-thick, to2), v.at(-thick, -thick)},
		{v.at(0, -thick), v.at(to1, -thick), v.at(to1, 0), v.at(0, 0)},
	} {
		v.pg.Path(drawing.LayerFloor, "", drawing.Polygon(ring...), nil, drawing.Filled(drawing.Poche))
	}
	v.pg.Path(drawing.LayerWalls, "", drawing.Polyline(v.at(0, to2), v.at(0, 0), v.at(to1, 0)), drawing.WallLine(), nil)
}

// channels draws the channels as thin lines and the pegs between them as rings.
func (v crossingView) channels() {
	to1, to2 := v.ends()
	first1, first2 := math.Mod(v.from1, v.pitch1), math.Mod(v.from2, v.pitch2)
	for a := first1; a < to1; a += v.pitch1 {
		v.pg.Thin(drawing.LayerMembrane, v.at(a, 0), v.at(a, to2))
	}
	for b := first2; b < to2; b += v.pitch2 {
		v.pg.Thin(drawing.LayerMembrane, v.at(0, b), v.at(to1, b))
	}
	ring := pegShare * math.Min(v.pitch1, v.pitch2)
	for a := first1 - v.pitch1/2; a < to1-ring; a += v.pitch1 {
		i := int(math.Round((a-v.from1)/v.pitch1 + 0.5))
		for b := first2 - v.pitch2/2; b < to2-ring; b += v.pitch2 {
			if j := int(math.Round((b-v.from2)/v.pitch2 + 0.5)); math.Min(a, b) > ring && v.has(i, j) {
				v.pg.Path(drawing.LayerMembrane, "", drawing.Circle(v.at(a, b), ring*v.k), drawing.ThinLine(), nil)
			}
		}
	}
	v.pg.Add(symbols.ChannelCrossing(v.at(v.from1, v.from2))...)
}

// sizes draws both distances of P1 beyond the floor shown.
func (v crossingView) sizes() {
	to1, to2 := v.ends()
	level1 := v.in1.X != 0
	v.size(v.at(0, to2), v.at(v.from1, to2), v.in2, "D1: "+v.figure1, level1)
	v.size(v.at(to1, 0), v.at(to1, v.from2), v.in1, "D2: "+v.figure2, !level1)
}

// size draws one distance beside the floor, away from it by out.
func (v crossingView) size(a, b, out drawing.Pt, text string, level bool) {
	const off = 2.4
	p, q := a.Add(out.Mul(off)), b.Add(out.Mul(off))
	v.pg.Thin(drawing.LayerDims, p, q)
	u := q.Sub(p).Unit()
	v.pg.Add(symbols.Arrowhead(p, u.Mul(-1))...)
	v.pg.Add(symbols.Arrowhead(q, u)...)
	for _, foot := range []drawing.Pt{a, b} {
		v.pg.Thin(drawing.LayerDims, foot.Add(out.Mul(0.4)), foot.Add(out.Mul(off+0.8)))
	}
	mid := p.Lerp(q, 0.5)
	left := math.Min(v.box.X0, v.right-fonts.Width(fonts.Lettering, text, setting.Note))
	switch {
	case level && out.Y < 0:
		v.pg.Write(drawing.Pt{X: left, Y: mid.Y - 2.2}, text, setting.Note, drawing.Start)
	case level:
		v.pg.Write(drawing.Pt{X: left, Y: mid.Y + 2.2 + setting.Note}, text, setting.Note, drawing.Start)
	case out.X > 0:
		v.pg.Write(drawing.Pt{X: mid.X + 2, Y: mid.Y + setting.Note/2}, text, setting.Note, drawing.Start)
	default:
		v.pg.Write(drawing.Pt{X: mid.X - 2, Y: mid.Y + setting.Note/2}, text, setting.Note, drawing.End)
	}
}
