package sheets

import (
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
)

// chainedCorners reports which corners of a room the chains along its sides give
// already, both ways. Corner i is where wall i begins.
func chainedCorners(r *job.Room, ratio float64) []bool {
	ls := ladders(r, ratio)
	east, north := givenCorners(r, ls, south, ratio), givenCorners(r, ls, west, ratio)
	for i := range east {
		east[i] = east[i] && north[i]
	}
	return east
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
		given[i] = given[i] || chained && slices.ContainsFunc(ls, func(l ladder) bool { return l.side%2 == s%2 && l.has(at, sameLength) })
	}
	for i := range r.Walls {
		chained := chainedAt(r, i, s, ratio) || chainedAt(r, i, (s+2)%4, ratio)
		give(i, chained)
		give((i+1)%n, chained)
	}
	for range r.Walls {
		for i, w := range r.Walls {
			if k := (i + 1) % n; w.Length()/ratio >= letterLeast && math.Abs(s.along(w.A)-s.along(w.B)) < sameLength {
				given[i] = given[i] || given[k]
				given[k] = given[i]
			}
		}
	}
	return given
}

// cornerName names corner i by its walls where both have their letters on the
// drawing, else by a number of its own.
func (v *roomView) cornerName(i int) (name string, own bool) {
	ws := v.room.Job.Walls
	last := ws[(i+len(ws)-1)%len(ws)]
	if v.view.Len(ws[i].Length()) >= letterLeast && v.view.Len(last.Length()) >= letterLeast {
		return last.Letter + " - " + ws[i].Letter, false
	}
	return "c" + itoa(i+1), true
}

// cornerTags asks for the numbers of the corners that the walls' letters do not
// name, every fifth before the others.
func (v *roomView) cornerTags() {
	ws := v.room.Job.Walls
	for i, chained := range chainedCorners(wallsAlone(v.room.Job), v.view.Ratio) {
		name, own := v.cornerName(i)
		if chained || !own {
			continue
		}
		before := ws[(i+len(ws)-1)%len(ws)].Segment
		out := paperDir(v.outward(before).Add(v.outward(ws[i].Segment)).Unit())
		at := v.view.Pt(ws[i].A)
		l := &label{text: name, height: drawing.H25, rank: 8, subject: at, option: true}
		if i%5 == 0 {
			l.rank = 7
		}
		size := l.sample(spot{}).Box()
		for _, far := range []float64{poche / 2, poche + 2.5} {
			l.spots = append(l.spots, spot{at: centredOn(at.Add(out.Mul(far)), size), cost: far})
		}
		v.letters.add(l)
	}
}

// corners is the table from which a room with round or slanting walls can be
// set out: every corner that no dimension gives.
func (v *roomView) corners() []block {
	if d1, d2 := layout.Datums(v.room.Job); d1 < 0 || d2 < 0 {
		return nil
	}
	zero := v.fig.length(0)
	t := v.datumTable("Corners of the room", "Corner")
	for i, chained := range chainedCorners(wallsAlone(v.room.Job), v.view.Ratio) {
		if chained {
			continue
		}
		name, _ := v.cornerName(i)
		a, b := v.offsets(v.room.Job.Walls[i].A)
		if a == zero && b == zero {
			continue // where the datums meet
		}
		t.rows = append(t.rows, row(name, a, b))
	}
	if len(t.rows) == 0 {
		return nil
	}
	return []block{signed(t)}
}
