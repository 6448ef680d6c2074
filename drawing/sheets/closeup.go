package sheets

import (
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/layout/say"
)

// A closeup is one or more windows on a room's floor: pegs, cable, leads and tubes as the plan
// has them.
type closeup struct {
	plan    *layout.Plan
	room    *layout.Room
	of      detailOf
	name    string
	windows []closeWindow
	words   string
	drawn   map[windowAt][]drawing.Item // what windows show: a sheet is tried in several orders of its blocks
}

// A windowAt is a window by its number, with its place on paper.
type windowAt struct {
	window int
	box    drawing.Box
}

// A closeWindow is what is seen of the floor about a place.
type closeWindow struct {
	bounds plane.Rect // of the floor as it lies on paper
	name   string     // over it; empty: it has none
}

// closeSize is how much of the floor a window shows about a joint or a cap, mm.
const (
	closeWide = 150.0
	closeHigh = 110.0
)

// closeScale is what close-ups are drawn at.
func closeScale(u plane.Units) drawing.Scale {
	ratio := 5.0
	if u == plane.Inches {
		ratio = 4
	}
	s, _ := drawing.ScaleOf(ratio, u)
	return s
}

// alikeCables is how many cables of a room have their joints and caps shown: those of further
// ones are alike.
const alikeCables = 2

// closeupsOf returns the close-ups of a room: where the leads rise, joints, caps.
func closeupsOf(p *layout.Plan, r *layout.Room) (out []closeup) {
	if hasBox(r.Job) {
		out = append(out, closeup{plan: p, room: apartAtBox(r), of: ofRise, name: p.Job.Language.Text("Lead rise"),
			windows: []closeWindow{{bounds: riseBounds(r, p.Job.Printed())}},
			words:   p.Job.Language.Text("Leads and tubes rise apart."), drawn: map[windowAt][]drawing.Item{}})
	}
	for k, e := range []struct {
		of        detailOf
		name, all string // of one, of several
	}{{ofJoints, "Lead joint", "Lead joints"}, {ofCaps, "End cap", "End caps"}} {
		c := closeup{plan: p, room: r, of: e.of, name: e.name, drawn: map[windowAt][]drawing.Item{}}
		for i := range r.Cables {
			if end := r.Cables[i].Ends()[k]; len(c.windows) < alikeCables && len(r.Cables[i].Runs) > 0 {
				at := floorplan.PaperOf(r.Job).Turned(end.At)
				c.windows = append(c.windows, closeWindow{about(at), windowName(p.Job.Figures(), &r.Cables[i], k)})
				if k == 1 && !end.Capped() {
					c.name, e.all = "Second lead joint", "Second lead joints"
				}
			}
		}
		switch c.words = p.Job.Language.Text("Straight, bedded in full."); {
		case len(c.windows) == 0:
			continue
		case len(r.Cables) > alikeCables:
			c.words += p.Job.Language.Text(" Other cables alike.")
		}
		if len(c.windows) > 1 {
			c.name = e.all
		}
		c.name = p.Job.Language.Text(c.name)
		out = append(out, c)
	}
	return out
}

// windowName says which cable a window shows, on which run.
func windowName(f say.Figures, c *layout.Cable, end int) string {
	run := c.Runs[0]
	if end == 1 {
		run = c.Runs[len(c.Runs)-1]
	}
	return f.Textf("%s, run %s", c.ID, c.RunName(run.Number))
}

func about(p plane.Point) plane.Rect {
	half := plane.Pt(closeWide/2, closeHigh/2)
	return plane.Rect{Min: p.Sub(half), Max: p.Add(half)}
}

// riseDeep is how far into the room the floor before the box is shown, and riseWide how far
// along its wall to either side, mm.
const (
	riseDeep = 130.0
	riseWide = 110.0
)

// riseBounds is the floor before the box, with its wall.
func riseBounds(r *layout.Room, u plane.Units) plane.Rect {
	t := r.Job.Thermostat
	w, _ := r.Job.BoxWall()
	out, along := w.In.Mul(-1), w.In.Left().Mul(riseWide)
	wall := out.Mul(math.Max(w.Thickness, floorplan.Poche*closeScale(u).Ratio))
	on := floorplan.PaperOf(r.Job).Turned
	return plane.Bounds([]plane.Point{on(t.At.Add(along).Add(wall)), on(t.At.Sub(along).Add(wall)),
		on(t.At.Add(along).Sub(out.Mul(riseDeep))), on(t.At.Sub(along).Sub(out.Mul(riseDeep)))})
}

// apartAtBox returns a room whose leads and tubes come to the foot of the box side by side:
// cold leads at one side of it, those of sensors at the other. Over apartOver they lie as
// planned.
func apartAtBox(r *layout.Room) *layout.Room {
	room := *r
	w, _ := r.Job.BoxWall()
	along := w.Line.B.Sub(w.Line.A).Unit()
	apart := func(lead []plane.Point, k float64) []plane.Point {
		return spreadAt(lead, r.Job.Thermostat.At, along.Mul(k*leadGap))
	}
	side := 1.0
	for _, s := range r.Sensors { // they keep the side that they come from
		if len(s.Lead) > 1 && along.Dot(s.Lead[len(s.Lead)-1].Sub(s.Lead[0])) > 0 {
			side = -1
		}
	}
	room.Cables, room.Sensors = slices.Clone(r.Cables), slices.Clone(r.Sensors)
	k := 0.5
	for i := range room.Cables {
		c := &room.Cables[i]
		c.ColdLead, k = apart(c.ColdLead, k*side), k+1
		if c.Return != nil {
			c.Return, k = slices.Clone(c.Return), k+1
			slices.Reverse(c.Return)
			c.Return = apart(c.Return, (k-1)*side)
			slices.Reverse(c.Return)
		}
	}
	for i := range room.Sensors {
		room.Sensors[i].Lead = apart(room.Sensors[i].Lead, -(float64(i)+0.5)*side)
	}
	return &room
}

// apartOver is from the foot of the box to where leads lie as planned again, mm.
const apartOver = 120.0

// spreadAt moves what of a lead lies near its foot by so much, the less the farther off it is.
func spreadAt(lead []plane.Point, foot, by plane.Point) []plane.Point {
	var out []plane.Point
	for _, s := range route.Samples(lead, 0, 15) {
		share := 1 - s.At.Dist(foot)/apartOver
		out = append(out, s.At.Add(by.Mul(math.Max(0, share))))
	}
	if n := len(lead); n > 0 {
		out = append(out, lead[n-1])
	}
	return out
}

func (c closeup) scaleName(float64) string { return closeScale(c.plan.Job.Figures().Units).Name }

// size is that of window i on paper.
func (c closeup) size(i int) (w, h float64) {
	ratio := closeScale(c.plan.Job.Figures().Units).Ratio
	return c.windows[i].bounds.W() / ratio, c.windows[i].bounds.H() / ratio
}

// closeGap is between two windows, and closeName the height of a window's name, mm on paper.
const (
	closeGap  = 5.0
	closeName = 4.6
)

// named reports whether windows have names over them.
func (c closeup) named() bool {
	return slices.ContainsFunc(c.windows, func(w closeWindow) bool { return w.name != "" })
}

// places returns where the windows stand below each other and beside, in a block so wide.
func (c closeup) places(w float64) (at []drawing.Pt, high float64) {
	x, y, row := 0.0, 0.0, 0.0
	name := 0.0
	if c.named() {
		name = closeName
	}
	for i := range c.windows {
		wide, tall := c.size(i)
		if x > 0 && x+wide > w {
			x, y = 0, y+row+closeGap
		}
		at = append(at, drawing.Pt{X: x, Y: y + name})
		x, row = x+wide+closeGap, math.Max(row, tall+name)
	}
	return at, y + row
}

// Height is what the close-ups with their words takes at a width of w, both mm of paper.
func (c closeup) Height(ty *setting.Typesetter, w float64) float64 {
	_, high := c.places(w)
	return high + 1.5 + float64(ty.Lines(fonts.Lettering, ty.Both(c.words), setting.Note, w))*setting.Leading
}

// Set draws the close-ups side by side from at, w mm wide, their words below.
func (c closeup) Set(pg *setting.Page, at drawing.Pt, w float64) {
	places, high := c.places(w)
	for i, p := range places {
		wide, tall := c.size(i)
		wide = math.Min(wide, w)
		box := drawing.Box{X0: at.X + p.X, Y0: at.Y + p.Y, X1: at.X + p.X + wide, Y1: at.Y + p.Y + tall}
		pg.Write(drawing.Pt{X: box.X0, Y: box.Y0 - 1.6}, c.windows[i].name, setting.Note, drawing.Start)
		seen := windowAt{i, box}
		if _, known := c.drawn[seen]; !known {
			c.drawn[seen] = c.window(pg, box, c.windows[i])
		}
		pg.Add(c.drawn[seen]...)
		pg.Path(drawing.LayerDims, "", drawing.Rectangle(box), drawing.ThinLine(), nil)
	}
	for i, l := range pg.Ty.Wrap(pg.Ty.Both(c.words), w) {
		pg.Write(drawing.Pt{X: at.X, Y: at.Y + high + 1.5 + setting.Note + float64(i)*setting.Leading}, l, setting.Note,
			drawing.Start)
	}
}

// window draws what is seen of the floor.
func (c closeup) window(pg *setting.Page, box drawing.Box, w closeWindow) []drawing.Item {
	s := floorplan.Scene{Room: c.room, Bounds: w.bounds, Right: floorplan.Right(c.room.Job),
		Border: func(float64) (left, right, top, bottom float64) { return 0, 0, 0, 0 }}
	scratch := setting.NewPage(pg.Plan, pg.Sheet.Paper)
	v := floorplan.NewView(scratch, s, setting.Arrangement{Field: box,
		Scale: closeScale(pg.Plan.Job.Figures().Units)})
	v.Walls()
	v.DrawOpenings()
	for _, st := range c.room.Job.Stands() {
		edge := slices.Concat(st.Outline, st.Outline[:1])
		v.LineOn(drawing.LayerFixtures, st.Name, drawing.FixtureLine(), edge...)
		v.Ink.Line(v.Paper.Pts(edge), lettering.SolidInk)
	}
	v.Joints()
	if c.of == ofRise {
		v.RiseInWall()
	}
	holdingAround(v, box)
	v.Cables()
	v.Sensors()
	v.EndsIn(box)
	if c.of == ofRise {
		v.Thermostat()
		nameLeads(v, box)
	}
	v.Letters.Place()
	items, _ := v.Letters.Drawn()
	return drawing.Within(append(thickened(v.Sheet.Items), items...), box)
}

// nameLeads names the leads and tubes that come to the box.
func nameLeads(v *floorplan.View, b drawing.Box) {
	name := func(text string, lead []plane.Point) {
		l := &lettering.Label{Text: text, Height: drawing.H25, Rank: 1, Option: true}
		for _, s := range lead {
			if l.Subject = v.Paper.Pt(s); b.Holds(l.Subject) {
				for _, spot := range floorplan.TagSpots(l.Subject, 0.4, text) {
					if v.Room.Floor.Contains(v.Paper.Floor(l.Box(spot).Centre())) { // rather than in the wall
						l.Spots = append(l.Spots, spot)
					}
				}
			}
		}
		v.Letters.Add(l)
	}
	for _, c := range v.Room.Cables {
		for _, e := range c.Joined() {
			name(v.Prefix(c.ID)+v.Fig.Text(e.LeadName), e.Lead)
		}
	}
	for _, s := range v.Room.Sensors {
		name(s.Name, s.Lead)
	}
}

// thickCable is the line of heating cable in a close-up, mm: about its own thickness.
const thickCable = 1.0

// thickened draws heating cable about as thick as it is.
func thickened(items []drawing.Item) []drawing.Item {
	for _, it := range items {
		p, ok := it.(*drawing.Path)
		if ok && p.Layer == drawing.LayerCable && strings.HasPrefix(p.Title, "heating cable") {
			thick := *p.Stroke
			thick.Width = thickCable
			p.Stroke = &thick
		}
	}
	return items
}

// pegShare is the radius of a peg as drawn, as a share of the closer pitch.
const pegShare = 0.3

// holdingAround draws what holds the cable there: its strips, or pegs.
func holdingAround(v *floorplan.View, b drawing.Box) {
	if v.Plan.Job.Strips == nil {
		pegsAround(v, b)
		return
	}
	for _, s := range v.Room.Strips(v.Plan.Job) {
		v.LineOn(drawing.LayerMembrane, "strip", drawing.StripLine(), s.A, s.B)
		v.Ink.Line(v.Paper.Pts([]plane.Point{s.A, s.B}), lettering.ThinInk)
	}
}

// pegsAround draws the pegs of the membrane that lie in a piece of the drawing.
func pegsAround(v *floorplan.View, b drawing.Box) {
	l, ok := lattice(v)
	if !ok {
		return
	}
	far := math.Hypot(b.W(), b.H())*v.Paper.Ratio/l.Tight()/2 + 1
	u, w := l.ToPegs(v.Paper.Floor(b.Centre()))
	staggered := v.Plan.Job.Membrane.Staggered
	for j := math.Floor(w - far); j <= w+far; j++ {
		for i := math.Floor(u - far); i <= u+far; i++ {
			if staggered && math.Mod(i+j, 2) != 0 {
				continue
			}
			peg := l.ToWorld(i+0.5, j+0.5)
			if r := pegShare * l.Tight(); b.Holds(v.Paper.Pt(peg)) && v.Room.Tiled.Depth(peg) > r {
				ring := drawing.Circle(v.Paper.Pt(peg), v.Paper.Len(r))
				v.Path(drawing.LayerMembrane, "peg", ring, drawing.ThinLine(), nil)
				v.Ink.Segs(ring, lettering.ThinInk)
			}
		}
	}
}
