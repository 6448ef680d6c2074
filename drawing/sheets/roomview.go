package sheets

import (
	"math"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// poche is the thickness in which cut walls are drawn, mm on paper. What lies
// behind the finished face is not known, so that it is not to scale.
const poche = 6.0

// A roomView draws one room's floor in the field of a page.
type roomView struct {
	*page
	room *layout.Room
	view drawing.View
	fig  figures
	ink  *ink
	out  float64 // +1 when the outline runs counter-clockwise, so that outside is at its right
}

func newView(pg *page, s scene, a arrangement) *roomView {
	left, right, top, bottom := s.border(a.scale.Ratio)
	inner := drawing.Box{X0: a.field.X0 + left, Y0: a.field.Y0 + top, X1: a.field.X1 - right, Y1: a.field.Y1 - bottom}
	v := &roomView{page: pg, room: s.room, view: drawing.NewView(s.bounds, inner, a.scale.Ratio), fig: figuresOf(pg.plan.Job), out: 1}
	if s.room != nil && s.room.Job.Outline.SignedArea() < 0 {
		v.out = -1
	}
	pg.letters = newLettering(a.field)
	v.ink = pg.letters.ink
	return v
}

// outward returns the unit vector square to a wall that leaves the room, on
// the floor.
func (v *roomView) outward(s plane.Segment) plane.Point {
	return s.B.Sub(s.A).Unit().Left().Mul(-v.out)
}

// paperDir turns a direction of the floor into one of the paper.
func paperDir(p plane.Point) drawing.Pt { return drawing.Pt{X: p.X, Y: -p.Y} }

// walls draws the cut walls: poché outside the finished face, left open where
// there are doorways.
func (v *roomView) walls() {
	t := poche * v.view.Ratio
	shell := v.shell(t)
	if cut, err := shell.Less(v.openings(t)); err == nil {
		shell = cut
	}
	v.sign(signWall, drawing.LayerFloor, "walls", v.view.Outline(shell), nil, drawing.Filled(drawing.Poche))
	for _, ring := range v.view.Rings(shell) {
		v.ink.line(append(ring, ring[0]), thinInk)
	}
	for i, w := range v.room.Job.Walls {
		v.wall(i, w.Segment)
	}
}

// shell is the band of thickness t round the room, mitred at the corners where
// the outline allows.
func (v *roomView) shell(t float64) plane.Region {
	floor := plane.FromRing(v.room.Job.Outline)
	if ring := mitred(v.room.Job.Outline.CCW(), t); ring != nil {
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
func (v *roomView) openings(t float64) plane.Region {
	var rs []plane.Region
	for _, o := range v.room.Job.Openings {
		if o.Wall < 0 || o.Wall >= len(v.room.Job.Walls) {
			continue
		}
		w := v.room.Job.Walls[o.Wall].Segment
		out := v.outward(w).Mul(t * 1.01)
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
func (v *roomView) wall(i int, w plane.Segment) {
	from := 0.0
	draw := func(to float64) {
		if to-from > 1e-6 {
			line := v.view.Pts([]plane.Point{w.At(from), w.At(to)})
			v.sign(signWall, drawing.LayerWalls, "wall "+v.room.Job.Walls[i].Letter, drawing.Polyline(line...), drawing.WallLine(), nil)
		}
	}
	for _, g := range v.gaps(i) {
		draw(g[0])
		from = math.Max(from, g[1])
	}
	draw(w.Length())
	v.ink.line(v.view.Pts([]plane.Point{w.A, w.B}), solidInk)
}

// gaps returns the openings of wall i along it, in order.
func (v *roomView) gaps(i int) [][2]float64 {
	var gs [][2]float64
	for _, o := range v.room.Job.Openings {
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

// letterLeast is the least length on paper of a wall that gets its letter, mm.
const letterLeast = 9.0

// wallLetters asks for a letter in the poché of every wall that is long enough
// on paper, and returns how many are not.
func (v *roomView) wallLetters() (left int) {
	for i, w := range v.room.Job.Walls {
		if v.view.Len(w.Length()) < letterLeast {
			left++
			continue
		}
		l := &label{text: w.Letter, face: fonts.LetteringBold, height: drawing.H35, rank: 2, note: "wall " + w.Letter, shy: 8}
		size := l.sample(spot{}).Box()
		out := v.outward(w.Segment).Mul(poche / 2 * v.view.Ratio)
		mid := w.At(w.Length() / 2).Add(out)
		l.subject = v.view.Pt(mid)
		for k := -12; k <= 12; k++ {
			along := w.Length() / 2 * (1 + 0.9*float64(k)/12)
			if v.inGap(i, along) {
				continue
			}
			// in the middle of the wall, or where ticks of pegs leave room
			for n, off := range []float64{poche / 2, poche - 2.1} {
				c := v.view.Pt(w.At(along).Add(out.Mul(off / (poche / 2))))
				l.spots = append(l.spots, spot{at: centredOn(c, size), cost: math.Abs(float64(k))*0.5 + 0.2*float64(n)})
			}
		}
		for _, beyond := range []float64{3.2, 6, 9} {
			far := v.outward(w.Segment).Mul((poche + beyond) * v.view.Ratio)
			for _, t := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
				c := v.view.Pt(w.At(w.Length() * t).Add(far))
				s := spot{at: centredOn(c, size), cost: 8 + beyond + 4*math.Abs(t-0.5)}
				if beyond > 4 { // too far off to be taken for this wall's
					foot := v.view.Pt(w.At(w.Length() * t).Add(out.Mul(2)))
					letter := drawing.BoxOf(c.Add(drawing.Pt{X: size.W() / 2, Y: size.H() / 2}), c.Sub(drawing.Pt{X: size.W() / 2, Y: size.H() / 2}))
					end, _, _ := clipPiece(foot, c, letter.Grow(0.8))
					s.leader = []drawing.Pt{foot, end}
				}
				l.spots = append(l.spots, s)
			}
		}
		v.letters.add(l)
	}
	return left
}

func (v *roomView) inGap(wall int, along float64) bool {
	for _, g := range v.gaps(wall) {
		if along > g[0]-3*v.view.Ratio && along < g[1]+3*v.view.Ratio {
			return true
		}
	}
	return false
}

// field is the part of the sheet that lettering may stand in.
func (v *roomView) field() drawing.Box { return v.letters.field }

// north puts the arrow into the upper left corner of the field, which walls
// and dimensions leave free.
func (v *roomView) north() {
	items := symbols.North(drawing.Pt{}, v.plan.Job.Sheet.North)
	b := drawing.BoxOfItems(items)
	at := drawing.Pt{X: v.letters.field.X0 - b.X0, Y: v.letters.field.Y0 - b.Y0}
	v.fixed(symbols.North(at, v.plan.Job.Sheet.North))
}

// viewTitle writes the title of a view at a place that its borders keep free.
func (v *roomView) viewTitle(at drawing.Pt, text string) {
	t := &drawing.Text{Layer: drawing.LayerText, At: at, Text: text, Height: heading, Face: fonts.LetteringBold}
	v.fixed([]drawing.Item{t})
}
