package sheets

import (
	"math"
	"strconv"

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

// phases are small pictures of a room as its cable is laid: what lies is bold, what is to
// come faint, and an arrow is where the hand is.
type phases struct {
	room   *layout.Room
	fig    say.Figures
	unit   string // that runs are counted in
	head   string
	steps  []phase
	bounds plane.Rect
}

// A phase is one of the pictures.
type phase struct {
	cable int     // which of the room's is being laid; those before it lie
	laid  float64 // mm of it that lie
	name  string
	words []string // what is reached, and what is to be compared there
}

// mostPhases is how many pictures a room has at most.
const mostPhases = 6

// phasesOf returns the pictures of a room, none where nothing is to be laid any more.
func phasesOf(v *floorplan.View) []setting.Block {
	p := phases{room: v.Room, fig: v.Fig, unit: v.Plan.Job.RunUnit(), bounds: floorplan.TurnedBounds(v.Room.Job)}
	var todo []int
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; c.Laid == nil && len(c.Runs) > 0 && len(c.Marks) == 3 {
			todo = append(todo, i)
		}
	}
	for k, i := range todo {
		p.steps = append(p.steps, p.cablePhases(i, phasesEach(k, len(todo)))...)
	}
	if len(p.steps) == 0 {
		return nil
	}
	p.head = v.Fig.Text("Laying, step by step")
	if len(v.Plan.Rooms) > 1 {
		p.head += v.Fig.Joint(": ") + v.Room.Job.Name
	}
	return []setting.Block{p}
}

// phasesEach is how many pictures cable k of so many gets: five of one cable alone, and where
// there are more cables than pictures, some have none of their own.
func phasesEach(k, of int) int {
	if of <= mostPhases {
		return min(mostPhases/of, 5)
	}
	return (k+1)*mostPhases/of - k*mostPhases/of
}

// cablePhases returns so many pictures of cable i: its end first of all, then the half-way
// check, then the start, then the quarters.
func (p phases) cablePhases(i, n int) (out []phase) {
	c := &p.room.Cables[i]
	pre := ""
	if c.Several {
		pre = c.ID + " "
	}
	first, last := c.Runs[0], c.Runs[len(c.Runs)-1]
	if n >= 3 {
		out = append(out, phase{i, first.RunningEnd - 2*c.BendRadius, p.fig.Textf("%sSTART", pre),
			[]string{p.fig.Textf("Lead joint, run %s", c.RunName(1))}})
	}
	for k, m := range c.Marks {
		if n < 2 || k != 1 && n < 5 {
			continue
		}
		s := phase{i, m.Along, pre + m.Name, []string{p.reached(c, m)}}
		if k == 1 {
			s.name += p.fig.Text(", check")
			s.words = append(s.words, p.fig.Text("Half-way mark here? Else stop"))
		}
		out = append(out, s)
	}
	if n < 1 {
		return nil
	}
	return append(out, phase{i, c.Routed, p.fig.Textf("%sEND", pre), []string{p.fig.Textf("Run %s, %s",
		c.RunName(last.Number),
		p.fig.Long(c.Routed))}})
}

// reached says how far a mark is, on the floor and along the cable.
func (p phases) reached(c *layout.Cable, m layout.Mark) string {
	on := p.fig.Textf("Run %s", c.RunName(m.Run))
	if n, ok := c.InPegs(m); ok && c.Lattice.Loose {
		on += p.fig.Textf(", %s into it", strconv.Itoa(int(math.Round(n)))+" "+p.unit)
	} else if ok {
		on += p.fig.Textf(", peg %.0f", n)
	}
	return on + ", " + p.fig.Long(m.Along)
}

// Sizes of the pictures, mm on paper.
const (
	phaseGap   = 5.0  // between pictures
	phasesTall = 72.0 // all rows together at most, in a block as wide as phasesWide or wider
	phasesWide = 120.0
	phasesSlim = 145.0 // the same in a narrower one
	phaseHead  = 5.2   // a picture's name
)

// Spans lets the pictures take the whole width of a sheet without a drawing.
func (p phases) Spans() bool { return true }

// A grid is how the pictures are set.
type grid struct {
	cols, rows int
	wide       float64   // of a picture's place
	scale      float64   // mm of paper a mm of floor
	words      []float64 // height of the words of each row
}

// grid finds the columns in which the pictures are largest.
func (p phases) grid(ty *setting.Typesetter, w float64) (best grid) {
	for cols := 1; cols <= len(p.steps); cols++ {
		g := grid{cols: cols, rows: (len(p.steps) + cols - 1) / cols,
			wide: (w - float64(cols-1)*phaseGap) / float64(cols)}
		left := phasesSlim
		if w >= phasesWide {
			left = phasesTall
		}
		for row := range g.rows {
			h := phaseHead
			for _, s := range p.steps[row*cols : min(len(p.steps), (row+1)*cols)] {
				h = math.Max(h, phaseHead+p.wordsHigh(ty, s, g.wide))
			}
			g.words, left = append(g.words, h), left-h-phaseGap
		}
		high := left / float64(g.rows) / p.bounds.H()
		if w >= phasesWide { // however long the words below are
			high = math.Max(high, leastPicture/math.Max(p.bounds.W(), p.bounds.H()))
		}
		g.scale = math.Min(g.wide/p.bounds.W(), high)
		if g.wide >= leastPhase && (best.cols == 0 || g.scale > best.scale*1.02 ||
			g.scale >= best.scale && g.rows < best.rows) {
			best = g
		}
	}
	return best
}

// leastPhase is the narrowest place of a picture whose words are not broken, mm.
const leastPhase = 24.0

func (p phases) wordsHigh(ty *setting.Typesetter, s phase, w float64) float64 {
	n := 0
	for _, words := range s.words {
		n += ty.Lines(fonts.Lettering, ty.Both(words), setting.Note, w)
	}
	return float64(n) * setting.Leading
}

// leastPicture is the longer side of the smallest picture that tells anything, no more than its
// place is wide, so that six square ones have room across A4; noRoom is the height of a block
// that has none in a column, mm.
const (
	leastPicture = leastPhase
	noRoom       = 1e6
)

// Height is what the pictures take at a width of w, both mm of paper; more than any page where they get
// too small.
func (p phases) Height(ty *setting.Typesetter, w float64) float64 {
	g := p.grid(ty, w)
	if math.Max(p.bounds.W(), p.bounds.H())*g.scale < leastPicture {
		return noRoom
	}
	h := ty.HeadingHeight(p.head, w) + float64(g.rows)*(p.bounds.H()*g.scale+phaseGap)
	for _, words := range g.words {
		h += words
	}
	return h - phaseGap + 1
}

// Set draws the pictures, row by row from at, the upper left corner, w mm wide.
func (p phases) Set(pg *setting.Page, at drawing.Pt, w float64) {
	g := p.grid(pg.Ty, w)
	y := at.Y + setting.SetHeading(pg, at, p.head, w)
	high := p.bounds.H() * g.scale
	for i, s := range p.steps {
		row, col := i/g.cols, i%g.cols
		if col == 0 && row > 0 {
			y += high + g.words[row-1] + phaseGap
		}
		x := at.X + float64(col)*(g.wide+phaseGap)
		pg.WriteIn(fonts.LetteringBold, drawing.Pt{X: x, Y: y + setting.Note}, s.name, setting.Note, drawing.Start)
		box := drawing.Box{X0: x, Y0: y + phaseHead, X1: x + p.bounds.W()*g.scale, Y1: y + phaseHead + high}
		p.picture(pg, drawing.NewTurnedView(p.bounds, box, 1/g.scale, floorplan.Right(p.room.Job)), s)
		foot := box.Y1 + 1.2 + setting.Note
		for _, words := range s.words {
			for _, line := range pg.Ty.Wrap(pg.Ty.Both(words), g.wide) {
				pg.Write(drawing.Pt{X: x, Y: foot}, line, setting.Note, drawing.Start)
				foot += setting.Leading
			}
		}
	}
}

// picture draws the room with what lies of its cables.
func (p phases) picture(pg *setting.Page, v drawing.View, s phase) {
	r := p.room.Job
	for _, f := range r.Stands() {
		pg.Thin(drawing.LayerFixtures, closed(v.Pts(f.Outline))...)
	}
	for i := range p.room.Cables {
		c := &p.room.Cables[i]
		laid := 0.0
		switch {
		case i < s.cable || c.Laid != nil:
			laid = c.Routed
		case i == s.cable:
			laid = s.laid
		}
		p.cable(pg, v, c, laid, i == s.cable)
	}
	for i, w := range r.Walls {
		for _, stands := range layout.Standing(r, i) {
			pg.Path(drawing.LayerWalls, "", drawing.Polyline(v.Pt(w.At(stands[0])), v.Pt(w.At(stands[1]))),
				drawing.FixtureLine(), nil)
		}
	}
}

func closed(ring []drawing.Pt) []drawing.Pt { return append(ring, ring[0]) }

// cable draws one cable: what lies of it as thick as its runs leave room for, the one in hand
// thicker than those before it.
func (p phases) cable(pg *setting.Page, v drawing.View, c *layout.Cable, laid float64, inHand bool) {
	before, hand, after := cutAfter(c, laid)
	gap := v.Len(c.Spacing)
	faint := &drawing.Stroke{Width: widthBeside(gap, faintShare, drawing.W018), Colour: drawing.Grey(0.4)}
	pg.Path(drawing.LayerCable, "still to lay", drawing.Polyline(v.Pts(after)...), faint, nil)
	if laid <= 0 {
		return
	}
	width := widthBeside(gap, laidShare, drawing.W035)
	if inHand {
		width = widthBeside(gap, handShare, drawing.W070)
	}
	pg.Path(drawing.LayerLeads, "cold lead", drawing.Polyline(v.Pts(c.ColdLead)...), drawing.SeamLine(), nil)
	pg.Path(drawing.LayerCable, "laid", drawing.Polyline(v.Pts(before)...), &drawing.Stroke{Width: width,
		Colour: drawing.HeatRed}, nil)
	if inHand {
		pg.Add(symbols.LeadJoint(v.Pt(c.Path[0]))...)
		pg.Add(symbols.DirectionArrow(v.Pt(hand), v.Dir(hand.Sub(before[len(before)-2])))...)
	}
}

// How thick lines of cable may be in a picture, as shares of what its runs lie apart.
const (
	handShare  = 0.5
	laidShare  = 0.35
	faintShare = 0.3
)

// widthBeside is the widest line, no wider than widest, that leaves white between runs so far apart on paper, mm.
func widthBeside(gap, share, widest float64) float64 {
	for _, w := range []float64{drawing.W070, drawing.W050, drawing.W035, drawing.W025, drawing.W018} {
		if w <= widest && w <= share*gap+plane.Hair {
			return w
		}
	}
	return drawing.W013
}

// cutAfter cuts a cable's path after so many mm: what lies, where it is cut, and the rest.
func cutAfter(c *layout.Cable, laid float64) (before []plane.Point, hand plane.Point, after []plane.Point) {
	if laid <= 0 {
		return nil, plane.Point{}, c.Path
	}
	if laid >= c.Routed {
		return c.Path, c.Path[len(c.Path)-1], nil
	}
	hand = route.Along(c.Path, c.BendRadius, laid)
	cum := route.Stations(c.Path, c.BendRadius)
	k := 1
	for k < len(cum)-1 && cum[k] <= laid {
		k++
	}
	before = append(append(before, c.Path[:k]...), hand)
	return before, hand, append([]plane.Point{hand}, c.Path[k:]...)
}
