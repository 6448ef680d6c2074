package sheets

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// membraneAndTile draws the two plans that a room's floor is covered by: on one sheet where
// that is small and they are not read worse on it.
func membraneAndTile(p *layout.Plan, r *layout.Room) ([]*setting.Page, error) {
	laid, tiled := laidIn(p, r), len(r.Tiles) > 0 // where there is none, the plan or its take-off says why
	var scenes []floorplan.Scene
	if laid != nil {
		scenes = append(scenes, membranePlan(p, r, laid))
	}
	if tiled {
		scenes = append(scenes, tilePlan(r, p.Job.Language))
	}
	if len(scenes) == 2 {
		both, err := floorplan.Pair(p, kindNamed("covering"), scenes[0], scenes[1])
		if len(both) > 0 || err != nil {
			return both, err
		}
	}
	var out []*setting.Page
	for _, s := range scenes {
		pages, err := s.Alone(p)
		if err != nil {
			return nil, err
		}
		out = append(out, pages...)
	}
	return out, nil
}

// membranePlan shows how the membrane of a room is cut and laid: its pieces by
// number, the seams, and from which roll or sheet each piece comes.
func membranePlan(p *layout.Plan, r *layout.Room, laid *membrane.Laid) floorplan.Scene {
	s := floorplan.OfRoom(kindNamed("membrane"), withoutBox(r))
	s.Draw = func(v *floorplan.View) { drawMembrane(v, laid) }
	s.Levels = func(v *floorplan.View) []setting.Level {
		bs := slices.Concat([]setting.Block{pieceTable(v, laid)}, notchTable(v, laid),
			[]setting.Block{seamTable(v, laid)})
		crossing := detailBlocks(p, r, ofCrossing)
		legend, rest := legendApart(p, legendOf(v))
		if onSmall(p) {
			rest = append(rest, crossing...)
		} else {
			bs = append(bs, crossing...)
		}
		bs = append(append(bs, legend...), membraneNotes(v, laid))
		bs = append(bs, cutDiagrams(p.Membrane, laid, v.Fig, onSmall(p))...)
		return []setting.Level{{Blocks: bs, Rest: rest}, {Blocks: bs, Rest: rest, Gain: 1.9, Overflow: true}}
	}
	return s
}

// withoutBox returns a room of which the thermostat box is not drawn, so that
// nothing is dimensioned to it.
func withoutBox(r *layout.Room) *layout.Room {
	room := *r
	room.Job = r.Job.WithoutBox()
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

func drawMembrane(v *floorplan.View, laid *membrane.Laid) {
	v.Walls()
	v.DrawOpenings()
	v.Fixtures()
	v.Joints()
	pegs(v)
	diagonals(v)
	for _, p := range laid.Pieces {
		piece(v, p)
	}
	for i, s := range laid.Seams {
		a, b := v.Paper.Pt(s.A), v.Paper.Pt(s.B)
		v.Sign(signs.Seam, drawing.LayerMembrane, "seam "+seamName(i), drawing.Polyline(a, b), drawing.SeamLine(), nil)
		v.Ink.Line([]drawing.Pt{a, b}, lettering.CableInk)
		l := &lettering.Label{Text: seamName(i), Height: drawing.H25, Rank: 3, Subject: a.Lerp(b, 0.5),
			Note: v.Fig.Textf("seam %s", seamName(i))}
		for _, t := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			l.Spots = append(l.Spots, floorplan.TagSpots(a.Lerp(b, t), 0.3, l.Text)...)
		}
		v.Letters.Add(l)
	}
	callOut(v, ofCrossing)
	v.DrawDatums()
	short := v.Dimensions(v.Room.Job)
	v.WallLetters()
	if short > 0 {
		v.Remark(v.Fig.Textf("%s neither letter nor dimension here: see %s.", shortWords(v, short),
			planLabel(v.Plan, v.Room)))
	}
}

// seamName letters the seams of a room: a, b, c... z, then with figures.
func seamName(i int) string {
	name := string(rune('a' + i%26))
	if i >= 26 {
		name += strconv.Itoa(i / 26)
	}
	return name
}

// piece asks for the number of a piece of membrane; its edges are walls, joints
// and seams, which are drawn as such.
func piece(v *floorplan.View, p membrane.Piece) {
	rings := v.Paper.Rings(p.Shape)
	l := &lettering.Label{Text: "M" + strconv.Itoa(p.Number), Face: fonts.LetteringBold, Height: drawing.H35, Rank: 1,
		Note: v.Fig.Textf("membrane piece M%s", strconv.Itoa(p.Number))}
	size := l.Sample(lettering.Spot{}).Box()
	for _, ring := range rings {
		v.Ink.Line(append(ring, ring[0]), lettering.ThinInk)
		box := drawing.BoxOf(ring...)
		for _, c := range floorplan.GridIn(box, size.W(), size.H()) {
			if !floorplan.HoldsBox(rings, c, size.W(), size.H()) {
				continue
			}
			s := lettering.Spot{At: lettering.CentredOn(c, size), Cost: 0.05 * c.Dist(box.Centre())}
			if !floorplan.HoldsBox(rings, c, size.W()+2*pieceRoom, size.H()+2*pieceRoom) ||
				onFixture(v, size.Moved(s.At)) {
				s.Cost += 2.5 // less than for a leader
			}
			l.Spots = append(l.Spots, s)
		}
	}
	l.Subject = v.Paper.Pt(deepest(p.Shape))
	l.Spots = append(l.Spots, floorplan.LeaderSpots(l.Subject, 0, size, 40)...)
	v.Letters.Add(l)
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
func onFixture(v *floorplan.View, b drawing.Box) bool {
	for _, f := range v.Room.Job.Fixtures {
		if drawing.BoxOf(v.Paper.Pts(f.Outline)...).Meets(b) {
			return true
		}
	}
	return false
}

func pieceTable(v *floorplan.View, laid *membrane.Laid) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Pieces"), MayBeFine: true, Cols: []setting.Column{
		{Head: v.Fig.Text("Piece"), Wraps: true},
		{Head: v.Fig.Text("Length, trimmed"), Align: setting.Decimal}, {Head: v.Fig.Text("Width, trimmed"),
			Align: setting.Decimal},
		{Head: v.Fig.Text("Pegs, long x wide"), Align: setting.Centred}}}
	for _, p := range laid.Pieces {
		cells := p.Cells
		if v.Plan.Job.Membrane.Staggered { // two of which make a peg
			cells = (cells + 1) / 2
		}
		t.Rows = append(t.Rows, setting.Row("M"+strconv.Itoa(p.Number), v.Fig.Length(p.Length), v.Fig.Length(p.Width),
			fmt.Sprintf(v.Fig.Text("%d x %d"), cells, p.Rows)))
	}
	return t
}

// notchTable says what is cut out of the pieces round what stands on the floor: at
// which edge, how far along it, and how large.
func notchTable(v *floorplan.View, laid *membrane.Laid) []setting.Block {
	t := setting.Table{Head: v.Fig.Text("Notches"), MayBeFine: true, Cols: []setting.Column{{Head: v.Fig.Text("Piece")},
		{Head: v.Fig.Text("Cut out of"), Wraps: true},
		{Head: v.Fig.Text("Length x width"), Wraps: true}}}
	for _, p := range laid.Pieces {
		for _, n := range p.Notches {
			t.Rows = append(t.Rows, setting.Row("M"+strconv.Itoa(p.Number), notchPlace(v, p, n, laid.Along),
				v.Fig.Length(n.To-n.From)+" x "+v.Fig.Length(n.High-n.Low)))
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []setting.Block{t}
}

// notchPlace says where in a piece a notch is: in a corner, at an edge so far from
// one of its ends, or inside.
func notchPlace(v *floorplan.View, p membrane.Piece, n membrane.Notch, along float64) string {
	const touch = 0.5
	b := plane.Bounds(p.Strip)
	side := func(turn float64) string {
		return layout.Towards(v.Room.Job, b.Min.Lerp(b.Max, 0.5),
			plane.Pt(1, 0).Rotate(along+plane.Radians(turn))).In(v.Fig.Language)
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
	length, width := v.Fig.Textf("%s from the end towards %s", v.Fig.Length(n.From), side(180)),
		v.Fig.Textf("%s from the edge towards %s", v.Fig.Length(n.Low), side(-90))
	switch {
	case end != "" && edge != "":
		return v.Fig.Textf("corner towards %s and %s", edge, end)
	case edge != "":
		return v.Fig.Textf("edge towards %s, %s", edge, length)
	case end != "":
		return v.Fig.Textf("end towards %s, %s", end, width)
	}
	return v.Fig.Textf("inside, %s, %s", length, width)
}

// seamTable places the seams: each from the datum it runs along, or with both
// ends where it runs along neither.
func seamTable(v *floorplan.View, laid *membrane.Laid) setting.Block {
	if len(laid.Seams) == 0 {
		return setting.List{Head: v.Fig.Text("Seams"), Paras: []string{v.Fig.Text("None.")}}
	}
	t := setting.Table{Head: v.Fig.Text("Seams"), MayBeFine: true, Cols: []setting.Column{{Head: v.Fig.Text("Seam")},
		{Head: v.Fig.Text("Where"), Wraps: true},
		{Head: v.Fig.Text("Length"), Align: setting.Decimal}}}
	for i, s := range laid.Seams {
		where := ""
		for _, d := range v.Datums().There() {
			if math.Abs(d.B.Sub(d.A).Unit().Cross(s.B.Sub(s.A).Unit())) < 0.01 {
				where = v.Fig.Textf("%s from %s (wall %s)", v.Fig.Length(d.FromWall(s.A.Lerp(s.B, 0.5))), d.Name,
					d.Letter)
			}
		}
		if where == "" {
			where = v.Fig.Textf("%s, to %s", v.PlaceWords(s.A), v.PlaceWords(s.B))
		}
		if s.Doorway {
			where += v.Fig.Text("; in a doorway")
		}
		t.Rows = append(t.Rows, setting.Row(seamName(i), where, v.Fig.Length(s.Length())))
	}
	return t
}

func membraneNotes(v *floorplan.View, laid *membrane.Laid) setting.Block {
	m := v.Plan.Membrane
	unit := say.Plural(len(m.Packs), "roll")
	if m.Stock.Sheets {
		unit = say.Plural(len(m.Packs), "sheet")
	}
	unit = v.Fig.Text(unit)
	l := setting.List{Head: v.Fig.Text("Notes"), Number: 1}
	l.Paras = append(l.Paras, v.Noted...)
	l.Paras = append(l.Paras, v.Remarks...)
	bound := ""
	if !m.Fewest() {
		bound = v.Fig.Textf(", where no plan could do with fewer than %d", m.Bound)
	}
	l.Paras = append(l.Paras,
		v.Fig.Textf("Whole job: %d %s of %s x %s%s; %s covered, %s waste.", len(m.Packs), unit,
			v.Fig.Length(m.Stock.Width), v.Fig.Length(m.Stock.Length), bound, v.Fig.Area(m.Covered),
			v.Fig.Area(m.Taken-m.Covered)),
		v.Fig.Textf("Cut the %s between pegs, then trim.", unit),
		v.Fig.Textf("Strips butt, pegs in step, %s short of walls, the first set by P1. None laps or crosses a "+
			"movement joint.", v.Fig.Fine().Length(membrane.Trim)),
	)
	var traced []string
	for _, p := range laid.Pieces {
		if p.Traced {
			traced = append(traced, "M"+strconv.Itoa(p.Number))
		}
	}
	if len(traced) > 0 {
		l.Paras = append(l.Paras, v.Fig.Textf("Edges traced on the floor and cut: %s.", strings.Join(traced, ", ")))
	}
	return l
}
