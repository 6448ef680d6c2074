package floorplan

import (
	"math"
	"slices"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/layout/job"
)

// ChainedCorners reports which corners of a room the chains along its sides give
// already, both ways. Corner i is where wall i begins.
func ChainedCorners(r *job.Room, ratio float64) []bool {
	ls := Ladders(r, ratio)
	r = squared(r)
	east, north := givenCorners(r, ls, SouthSide, ratio), givenCorners(r, ls, westSide, ratio)
	for i := range east {
		east[i] = east[i] && north[i] || onCurve(r, i)
	}
	return east
}

// onCurve reports whether corner i lies between two sides of one curve.
func onCurve(r *job.Room, i int) bool {
	before := r.Walls[(i+len(r.Walls)-1)%len(r.Walls)]
	return r.Walls[i].Arc != nil && r.Walls[i].Arc == before.Arc
}

// givenCorners reports of which corners the chains of side s and of the one
// across give the place along them, as near as a tape shows: it is where a wall
// ends that is dimensioned there, or where the room does, or it is at the other
// end of a wall square to the side from such a corner.
func givenCorners(r *job.Room, ls []ladder, s side, ratio float64) []bool {
	n := len(r.Walls)
	given := make([]bool, n)
	b := r.Outline.Bounds()
	give := func(i int, chained bool) {
		at := s.along(r.Walls[i].A)
		chained = chained || at == s.along(b.Min) || at == s.along(b.Max)
		given[i] = given[i] || chained && slices.ContainsFunc(ls, func(l ladder) bool {
			return l.Side%2 == s%2 &&
				l.has(at, sameLength)
		})
	}
	for i := range r.Walls {
		chained := chainedAt(r, i, s, ratio) || chainedAt(r, i, (s+2)%4, ratio)
		give(i, chained)
		give((i+1)%n, chained)
	}
	for range r.Walls {
		for i, w := range r.Walls {
			if k := (i + 1) % n; w.Length()/ratio >= LetterLeast && math.Abs(s.along(w.A)-s.along(w.B)) < sameLength {
				given[i] = given[i] || given[k]
				given[k] = given[i]
			}
		}
	}
	return given
}

// arcs are the curved walls of a room.
func arcs(r *job.Room) (out []*job.Arc) {
	for _, w := range r.Walls {
		if w.Arc != nil && !slices.Contains(out, w.Arc) {
			out = append(out, w.Arc)
		}
	}
	return out
}

// lettered reports whether wall i is long enough on paper for its letter: of a curve, its
// middle side has it for all.
func (v *View) lettered(i int) bool {
	w := v.Room.Job.Walls[i]
	if w.Arc == nil {
		return v.Paper.Len(w.Length()) >= LetterLeast
	}
	return v.Room.Job.BearsLetter(i) && v.Paper.Len(w.Arc.Length) >= LetterLeast
}

// CornerName names corner i by its walls where both have their letters on the
// drawing, else by a number of its own.
func (v *View) CornerName(i int) (name string, own bool) {
	ws := v.Room.Job.Walls
	last := ws[(i+len(ws)-1)%len(ws)]
	long := func(w job.Wall) bool {
		return w.Arc != nil && v.Paper.Len(w.Arc.Length) >= LetterLeast || v.Paper.Len(w.Length()) >= LetterLeast
	}
	if long(ws[i]) && long(last) {
		return last.Letter + " - " + ws[i].Letter, false
	}
	return "c" + strconv.Itoa(i+1), true
}

// CornerTags asks for the numbers of the corners that the walls' letters do not
// name, every fifth before the others.
func (v *View) CornerTags() {
	ws := v.Room.Job.Walls
	for i, chained := range ChainedCorners(WallsAlone(v.Room.Job), v.Paper.Ratio) {
		name, own := v.CornerName(i)
		if chained || !own {
			continue
		}
		before := ws[(i+len(ws)-1)%len(ws)].Segment
		out := v.Paper.Dir(v.Outward(before).Add(v.Outward(ws[i].Segment)).Unit())
		at := v.Paper.Pt(ws[i].A)
		l := &lettering.Label{Text: name, Height: drawing.H25, Rank: 8, Subject: at, Option: true}
		if i%5 == 0 {
			l.Rank = 7
		}
		size := l.Sample(lettering.Spot{}).Box()
		for _, far := range []float64{Poche / 2, Poche + 2.5} {
			l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(at.Add(out.Mul(far)), size), Cost: far})
		}
		v.Letters.Add(l)
	}
}

// Corners is the table from which a room with round or slanting walls can be
// set out: every corner that no dimension gives.
func (v *View) Corners() []setting.Block {
	if !v.Datums().Both() {
		return nil
	}
	zero := v.Fig.Length(0)
	t := v.DatumTable(v.Fig.Text("Corners of the room"), v.Fig.Text("Corner"))
	for i, chained := range ChainedCorners(WallsAlone(v.Room.Job), v.Paper.Ratio) {
		if chained {
			continue
		}
		name, _ := v.CornerName(i)
		a, b := v.Offsets(v.Room.Job.Walls[i].A)
		if a == zero && b == zero {
			continue // where the datums meet
		}
		t.Rows = append(t.Rows, setting.Row(name, a, b))
	}
	for _, arc := range arcs(v.Room.Job) {
		a, b := v.Offsets(arc.Centre)
		t.Rows = append(t.Rows, setting.Row(v.Fig.Textf("centre of %s, radius %s", arc.Letter,
			UnbrokenWords(v.Fig.Length(arc.Radius))),
			a, b))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []setting.Block{v.Signed(t)}
}
