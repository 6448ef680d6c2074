package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
)

// membranePlan draws how the membrane of a room is cut and laid: its pieces by
// number, the seams, and from which roll or sheet each piece comes.
func membranePlan(p *layout.Plan, r *layout.Room) ([]*page, error) {
	laid := laidIn(p, r)
	if laid == nil {
		return nil, nil // the plan has none, and has said why
	}
	s := roomScene(kindNamed("membrane"), withoutBox(r))
	s.draw = func(v *roomView) { v.drawMembrane(laid) }
	s.levels = func(v *roomView) []level {
		bs := slices.Concat([]block{v.pieceTable(laid)}, v.notchTable(laid), []block{v.seamTable(laid)}, v.crossingDetails(), []block{legendOf(v.used), v.membraneNotes(laid)})
		bs = append(bs, cutDiagrams(p.Membrane, laid, v.fig)...)
		return []level{{blocks: bs}, {blocks: bs, gain: 1.9, overflow: true}}
	}
	return s.pages(p)
}

// withoutBox returns a room of which the thermostat box is not drawn, so that
// nothing is dimensioned to it.
func withoutBox(r *layout.Room) *layout.Room {
	room, bare := *r, *r.Job
	bare.Thermostat.Wall = -1
	room.Job = &bare
	return &room
}

// laidIn returns the membrane of a room, nil when there is none. The plan cuts
// membrane for the rooms that have cable, in order.
func laidIn(p *layout.Plan, r *layout.Room) *membrane.Laid {
	if p.Membrane == nil || len(r.Cables) == 0 {
		return nil
	}
	k := 0
	for i := range p.Rooms {
		if &p.Rooms[i] == r {
			break
		}
		if len(p.Rooms[i].Cables) > 0 {
			k++
		}
	}
	if k >= len(p.Membrane.Rooms) || len(p.Membrane.Rooms[k].Pieces) == 0 {
		return nil
	}
	return &p.Membrane.Rooms[k]
}

func (v *roomView) drawMembrane(laid *membrane.Laid) {
	v.walls()
	v.drawOpenings()
	v.fixtures()
	v.joints()
	v.pegs()
	for _, p := range laid.Pieces {
		v.piece(p)
	}
	for i, s := range laid.Seams {
		a, b := v.view.Pt(s.A), v.view.Pt(s.B)
		v.sign(signSeam, drawing.LayerMembrane, "seam "+seamName(i), drawing.Polyline(a, b), drawing.SeamLine(), nil)
		v.ink.line([]drawing.Pt{a, b}, cableInk)
		l := &label{text: seamName(i), height: drawing.H25, rank: 3, subject: a.Lerp(b, 0.5), note: "seam " + seamName(i)}
		for _, t := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			l.spots = append(l.spots, tagSpots(a.Lerp(b, t), 0.3, l.text)...)
		}
		v.letters.add(l)
	}
	v.drawDatums()
	short := v.dimensions(v.room.Job)
	v.wallLetters()
	if short > 0 {
		v.remark(v.shortWords(short) + " neither letter nor dimension here: see the cable plan.")
	}
}

// seamName letters the seams of a room: a, b, c... z, then with figures.
func seamName(i int) string {
	name := string(rune('a' + i%26))
	if i >= 26 {
		name += itoa(i / 26)
	}
	return name
}

// piece asks for the number of a piece of membrane; its edges are walls, joints
// and seams, which are drawn as such.
func (v *roomView) piece(p membrane.Piece) {
	rings := v.view.Rings(p.Shape)
	l := &label{text: "M" + itoa(p.Number), face: fonts.LetteringBold, height: drawing.H35, rank: 1, note: "membrane piece M" + itoa(p.Number)}
	size := l.sample(spot{}).Box()
	for _, ring := range rings {
		v.ink.line(append(ring, ring[0]), thinInk)
		box := drawing.BoxOf(ring...)
		for _, c := range gridIn(box, size.W(), size.H()) {
			if !holdsBox(rings, c, size.W(), size.H()) {
				continue
			}
			s := spot{at: centredOn(c, size), cost: 0.05 * c.Dist(box.Centre())}
			if !holdsBox(rings, c, size.W()+2*pieceRoom, size.H()+2*pieceRoom) || v.onFixture(size.Moved(s.at)) {
				s.cost += 2.5 // less than for a leader
			}
			l.spots = append(l.spots, s)
		}
	}
	l.subject = v.view.Pt(deepest(p.Shape))
	l.spots = append(l.spots, leaderSpots(l.subject, 0, size, 40)...)
	v.letters.add(l)
}

// deepest returns a point well inside a region, where a leader can end: of a
// frame round something its middle lies outside.
func deepest(r plane.Region) plane.Point {
	const n = 24
	b := r.Bounds()
	best, depth := b.Centre(), 0.0
	for i := range n {
		for j := range n {
			p := plane.Pt(b.Min.X+b.W()*(float64(i)+0.5)/n, b.Min.Y+b.H()*(float64(j)+0.5)/n)
			if d := r.Depth(p); d > depth+1 {
				best, depth = p, d
			}
		}
	}
	return best
}

// pieceRoom is the white that the number of a piece has round it where there
// is room, mm.
const pieceRoom = 1.5

// onFixture reports whether lettering in b would stand on something drawn in the
// room.
func (v *roomView) onFixture(b drawing.Box) bool {
	for _, f := range v.room.Job.Fixtures {
		if drawing.BoxOf(v.view.Pts(f.Outline)...).Meets(b) {
			return true
		}
	}
	return false
}

func (v *roomView) pieceTable(laid *membrane.Laid) block {
	t := table{head: "Pieces", cols: []column{{head: "Piece", wraps: true}, {head: "Length, trimmed", align: decimal}, {head: "Width, trimmed", align: decimal}, {head: "Pegs, long x wide", align: centred}}}
	for _, p := range laid.Pieces {
		t.rows = append(t.rows, row("M"+itoa(p.Number), v.fig.length(p.Length), v.fig.length(p.Width), fmt.Sprintf("%d x %d", p.Cells, p.Rows)))
	}
	return t
}

// notchTable says what is cut out of the pieces round what stands on the floor: at
// which edge, how far along it, and how large.
func (v *roomView) notchTable(laid *membrane.Laid) []block {
	t := table{head: "Notches", cols: []column{{head: "Piece"}, {head: "Cut out of", wraps: true}, {head: "Along length", align: decimal}, {head: "Along width", align: decimal}}}
	for _, p := range laid.Pieces {
		for _, n := range p.Notches {
			t.rows = append(t.rows, row("M"+itoa(p.Number), v.notchPlace(p, n, laid.Along), v.fig.length(n.To-n.From), v.fig.length(n.High-n.Low)))
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	return []block{t}
}

// notchPlace says where in a piece a notch is: in a corner, at an edge so far from
// one of its ends, or inside.
func (v *roomView) notchPlace(p membrane.Piece, n membrane.Notch, along float64) string {
	const touch = 0.5
	b := plane.Bounds(p.Strip)
	side := func(turn float64) string {
		return layout.Towards(v.room.Job, b.Min.Lerp(b.Max, 0.5), plane.Pt(1, 0).Rotate(along+turn*math.Pi/180))
	}
	end, edge := "", ""
	switch {
	case n.From < touch:
		end = side(180)
	case n.To > p.Length-touch:
		end = side(0)
	}
	switch {
	case n.Low < touch:
		edge = side(-90)
	case n.High > p.Width-touch:
		edge = side(90)
	}
	length, width := v.fig.length(n.From)+" from the end towards "+side(180), v.fig.length(n.Low)+" from the edge towards "+side(-90)
	switch {
	case end != "" && edge != "":
		return "corner towards " + edge + " and " + end
	case edge != "":
		return "edge towards " + edge + ", " + length
	case end != "":
		return "end towards " + end + ", " + width
	}
	return "inside, " + length + ", " + width
}

// seamTable places the seams: each from the datum it runs along, or with both
// ends where it runs along neither.
func (v *roomView) seamTable(laid *membrane.Laid) block {
	if len(laid.Seams) == 0 {
		return list{head: "Seams", paras: []string{"None."}}
	}
	ws := v.wallSegments()
	d1, d2 := layout.Datums(v.room.Job)
	t := table{head: "Seams", cols: []column{{head: "Seam"}, {head: "Where", wraps: true}, {head: "Length", align: decimal}}}
	for i, s := range laid.Seams {
		where := ""
		for k, d := range []int{d1, d2} {
			if d >= 0 && math.Abs(ws[d].B.Sub(ws[d].A).Unit().Cross(s.B.Sub(s.A).Unit())) < 0.01 {
				where = fmt.Sprintf("%s from D%d (wall %s)", v.fig.length(offset(ws[d], s.A.Lerp(s.B, 0.5), v.out)), k+1, v.room.Job.Walls[d].Letter)
			}
		}
		if where == "" {
			where = v.placeWords(s.A) + ", to " + v.placeWords(s.B)
		}
		if s.Doorway {
			where += "; in a doorway"
		}
		t.rows = append(t.rows, row(seamName(i), where, v.fig.length(s.Length())))
	}
	return t
}

func (v *roomView) membraneNotes(laid *membrane.Laid) block {
	m := v.plan.Membrane
	unit := "roll"
	if m.Stock.Sheets {
		unit = "sheet"
	}
	if len(m.Packs) > 1 {
		unit += "s"
	}
	l := list{head: "Notes", number: 1}
	l.paras = append(l.paras, v.noted...)
	l.paras = append(l.paras, v.remarks...)
	bound := fmt.Sprintf("%d is the fewest from which these pieces can be cut.", m.Bound)
	if !m.Fewest() {
		bound = fmt.Sprintf("No plan could do with fewer than %d.", m.Bound)
	}
	l.paras = append(l.paras,
		fmt.Sprintf("Whole job: %d %s of %s x %s. %s", len(m.Packs), unit, v.fig.length(m.Stock.Width), v.fig.length(m.Stock.Length), bound),
		fmt.Sprintf("Covered %s, cut %s, waste %s.", plane.FormatArea(m.Covered, v.fig.units), plane.FormatArea(m.Taken, v.fig.units), plane.FormatArea(m.Taken-m.Covered, v.fig.units)),
		fmt.Sprintf("Cut the %s between pegs, at the lengths from the start that are given with each; then trim the pieces to their sizes.", unit),
		fmt.Sprintf("Strips butt with pegs in step, trimmed %s short of walls. Nothing laps; no strip crosses a movement joint.", v.fig.fine().length(membrane.Trim)),
		"Set the first strip by the channel crossing P1: every other row follows from it.",
	)
	var traced []string
	for _, p := range laid.Pieces {
		if p.Traced {
			traced = append(traced, "M"+itoa(p.Number))
		}
	}
	if len(traced) > 0 {
		l.paras = append(l.paras, "Slanting or round edges, traced on the floor and cut: "+strings.Join(traced, ", ")+".")
	}
	return l
}
