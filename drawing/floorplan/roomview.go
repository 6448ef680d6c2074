// Package floorplan draws a room in plan at a scale, with its openings, cables,
// dimensions and datums.
package floorplan

import (
	"math"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// Poche is the thickness in which cut walls are drawn, mm on paper. What lies
// behind the finished face is not known, so that it is not to scale.
const Poche = 6.0

// A View draws one room's floor in the field of a page.
type View struct {
	*setting.Page
	Room  *layout.Room
	Paper drawing.View
	Fig   say.Figures
	Ink   *lettering.Ink
	Out   float64 // +1 when the outline runs counter-clockwise, so that outside is at its right

	words []string // what is written in its field
}

// NewView returns the view of a scene in the field that an arrangement gives it.
func NewView(pg *setting.Page, s Scene, a setting.Arrangement) *View {
	left, right, top, bottom := s.Border(a.Scale.Ratio)
	inner := drawing.Box{X0: a.Field.X0 + left, Y0: a.Field.Y0 + top, X1: a.Field.X1 - right, Y1: a.Field.Y1 - bottom}
	v := &View{Page: pg, Room: s.Room, Paper: drawing.NewTurnedView(s.Bounds, inner, a.Scale.Ratio, s.Right),
		Fig: pg.Plan.Job.Figures(), Out: 1}
	if s.Room != nil && s.Room.Job.Outline.SignedArea() < 0 {
		v.Out = -1
	}
	pg.Letters = lettering.New(a.Field)
	v.Ink = pg.Letters.Ink
	return v
}

// Outward returns the unit vector square to a wall that leaves the room, on
// the floor.
func (v *View) Outward(s plane.Segment) plane.Point {
	return v.Room.Job.Outline.Outward(s)
}

// Walls draws the cut walls: poché outside the finished face, left open where
// there are doorways.
func (v *View) Walls() {
	t := Poche * v.Paper.Ratio
	shell := v.shell(t)
	if cut, err := shell.Less(v.openings(t)); err == nil {
		shell = cut
	}
	v.Sign(signs.Wall, drawing.LayerFloor, "walls", v.Paper.Outline(shell), nil, drawing.Filled(drawing.Poche))
	for _, ring := range v.Paper.Rings(shell) {
		v.Ink.Line(append(ring, ring[0]), lettering.ThinInk)
	}
	for i, w := range v.Room.Job.Walls {
		v.wall(i, w.Segment)
	}
	for _, k := range v.Room.Job.KeepOuts {
		if k.Partition {
			v.partition(k)
		}
	}
}

// partition draws a solid piece of a wall in the room, as thick as it is.
func (v *View) partition(k job.KeepOut) {
	pts := v.Paper.Pts(k.Outline)
	v.Sign(signs.Wall, drawing.LayerWalls, k.Name, drawing.Polygon(pts...), drawing.WallLine(),
		drawing.Filled(drawing.Poche))
	v.Ink.Line(append(pts, pts[0]), lettering.SolidInk)
}

// shell is the band of thickness t round the room, mitred at the corners where
// the outline allows.
func (v *View) shell(t float64) plane.Region {
	floor := plane.FromRing(v.Room.Job.Outline)
	if ring := mitred(v.Room.Job.Outline.CCW(), t); ring != nil {
		if shell, err := plane.FromRing(ring).Less(floor); err == nil {
			return shell
		}
	}
	grown, err := floor.Grow(t)
	if err != nil {
		return nil
	}
	shell, err := grown.Less(floor)
	if err != nil {
		return nil
	}
	return shell
}

// mitred returns a counter-clockwise ring moved outwards by t, its corners
// kept sharp; nil where that crosses itself.
func mitred(r plane.Ring, t float64) plane.Ring {
	var out plane.Ring
	for i := range r {
		prev, next := r.Edge((i+len(r)-1)%len(r)), r.Edge(i)
		n1 := prev.B.Sub(prev.A).Unit().Left().Mul(-1)
		n2 := next.B.Sub(next.A).Unit().Left().Mul(-1)
		k := 1 + n1.Dot(n2)
		if k < 0.3 { // a corner so sharp that its mitre would be a spike
			out = append(out, r[i].Add(n1.Mul(t)), r[i].Add(n2.Mul(t)))
			continue
		}
		out = append(out, r[i].Add(n1.Add(n2).Mul(t/k)))
	}
	if _, clash := out.SelfClash(); clash || out.SignedArea() <= 0 {
		return nil
	}
	return out
}

// openings is what doorways and windows take of the walls' band.
func (v *View) openings(t float64) plane.Region {
	var rs []plane.Region
	for _, o := range v.Room.Job.Openings {
		if o.Wall < 0 || o.Wall >= len(v.Room.Job.Walls) {
			continue
		}
		w := v.Room.Job.Walls[o.Wall].Segment
		out := v.Outward(w).Mul(t * 1.01)
		a, b := w.At(o.From), w.At(o.To)
		rs = append(rs, plane.FromRing(plane.Ring{a, b, b.Add(out), a.Add(out)}))
	}
	all, err := plane.Union(rs...)
	if err != nil {
		return nil
	}
	return all
}

// wall draws the finished face of wall i, its doorways left out.
func (v *View) wall(i int, w plane.Segment) {
	from := 0.0
	draw := func(to float64) {
		if to-from > 1e-6 {
			line := v.Paper.Pts([]plane.Point{w.At(from), w.At(to)})
			v.Sign(signs.Wall, drawing.LayerWalls, "wall "+v.Room.Job.Walls[i].Letter, drawing.Polyline(line...),
				drawing.WallLine(), nil)
		}
	}
	for _, g := range v.Gaps(i) {
		draw(g[0])
		from = math.Max(from, g[1])
	}
	draw(w.Length())
	v.Ink.Line(v.Paper.Pts([]plane.Point{w.A, w.B}), lettering.SolidInk)
}

// Gaps returns the openings of wall i along it, in order.
func (v *View) Gaps(i int) [][2]float64 {
	var gs [][2]float64
	for _, o := range v.Room.Job.Openings {
		if o.Wall == i {
			gs = append(gs, [2]float64{math.Min(o.From, o.To), math.Max(o.From, o.To)})
		}
	}
	for i := 1; i < len(gs); i++ {
		for k := i; k > 0 && gs[k][0] < gs[k-1][0]; k-- {
			gs[k], gs[k-1] = gs[k-1], gs[k]
		}
	}
	return gs
}

// LetterLeast is the least length on paper of a wall that gets its letter, mm.
const LetterLeast = 9.0

// WallLetters asks for a letter in the poché of every wall that is long enough
// on paper, and returns how many are not.
func (v *View) WallLetters() (left int) {
	for i, w := range v.Room.Job.Walls {
		if !v.lettered(i) {
			if w.Arc == nil {
				left++
			}
			continue
		}
		l := &lettering.Label{Text: w.Letter, Face: fonts.LetteringBold, Height: drawing.H35, Rank: 2,
			Note: v.Fig.Textf("wall %s", w.Letter), Shy: 8}
		size := l.Sample(lettering.Spot{}).Box()
		out := v.Outward(w.Segment).Mul(Poche / 2 * v.Paper.Ratio)
		w, from, ok := v.seen(w.Segment)
		if !ok || v.Paper.Len(w.Length()) < LetterLeast {
			continue
		}
		mid := w.At(w.Length() / 2).Add(out)
		l.Subject = v.Paper.Pt(mid)
		for k := -12; k <= 12; k++ {
			along := w.Length() / 2 * (1 + 0.9*float64(k)/12)
			if v.inGap(i, from+along) {
				continue
			}
			// in the middle of the wall, or where ticks of pegs leave room
			for n, off := range []float64{Poche / 2, Poche - 2.1} {
				c := v.Paper.Pt(w.At(along).Add(out.Mul(off / (Poche / 2))))
				l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(c, size),
					Cost: math.Abs(float64(k))*0.5 + 0.2*float64(n)})
			}
		}
		for _, beyond := range []float64{3.2, 6, 9} {
			far := v.Outward(w).Mul((Poche + beyond) * v.Paper.Ratio)
			for _, t := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				c := v.Paper.Pt(w.At(w.Length() * t).Add(far))
				s := lettering.Spot{At: lettering.CentredOn(c, size), Cost: 8 + beyond + 4*math.Abs(t-0.5)}
				if beyond > 4 { // too far off to be taken for this wall's
					foot := v.Paper.Pt(w.At(w.Length() * t).Add(out.Mul(2)))
					letter := drawing.BoxOf(c.Add(drawing.Pt{X: size.W() / 2, Y: size.H() / 2}),
						c.Sub(drawing.Pt{X: size.W() / 2, Y: size.H() / 2}))
					end, _, _ := letter.Grow(0.8).Clip(foot, c)
					s.Leader = []drawing.Pt{foot, end}
				}
				l.Spots = append(l.Spots, s)
			}
		}
		v.Letters.Add(l)
	}
	return left
}

// seen is the part of a line of the floor that lies in the field, and how far along the line it begins, mm: all of
// it but on a sheet that shows a part of the floor. ok is false where none does.
func (v *View) seen(s plane.Segment) (part plane.Segment, from float64, ok bool) {
	a, b := v.Paper.Pt(s.A), v.Paper.Pt(s.B)
	if v.field().Holds(a) && v.field().Holds(b) {
		return s, 0, true
	}
	p, q, ok := v.field().Clip(a, b)
	part = plane.Segment{A: v.Paper.Floor(p), B: v.Paper.Floor(q)}
	return part, s.A.Dist(part.A), ok
}

func (v *View) inGap(wall int, along float64) bool {
	for _, g := range v.Gaps(wall) {
		if along > g[0]-3*v.Paper.Ratio && along < g[1]+3*v.Paper.Ratio {
			return true
		}
	}
	return false
}

// StandsAt reports whether a wall stands at a place along it, clear of its openings.
func (v *View) StandsAt(wall int, along float64) bool { return !v.inGap(wall, along) }

// field is the part of the sheet that lettering may stand in.
func (v *View) field() drawing.Box { return v.Letters.Field }

// north puts the arrow into the upper left corner of the field, or below its caption: walls
// and dimensions leave that free.
func (v *View) north(corner drawing.Pt) {
	north := v.Plan.Job.Sheet.North + plane.Degrees(plane.Atan2(v.Paper.Right.Y, v.Paper.Right.X))
	items := symbols.North(drawing.Pt{}, north)
	b := drawing.BoxOfItems(items)
	at := corner.Sub(drawing.Pt{X: b.X0, Y: b.Y0})
	v.Fixed(symbols.North(at, north))
}

// Says has the key explain what is written in the field in more than one piece.
func (v *View) Says(text string) { v.words = append(v.words, text) }

// ViewTitle writes the title of a view at a place that its borders keep free.
func (v *View) ViewTitle(at drawing.Pt, text string) {
	if both := v.Ty.Both(text); fonts.Width(fonts.LetteringBold, both, setting.Heading) <= v.field().X1-at.X {
		text = both
	}
	t := &drawing.Text{Layer: drawing.LayerText, At: at, Text: text, Height: setting.Heading, Face: fonts.LetteringBold}
	v.Fixed([]drawing.Item{t})
}
