package sheets

import (
	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
)

// plainCorners reports which corners of a room the dimensions along its sides
// give already: those between walls along the sheet that are long enough on
// paper. Corner i is where wall i begins.
func plainCorners(r *job.Room, ratio float64) []bool {
	n := len(r.Walls)
	plain := make([]bool, n)
	for i := range r.Walls {
		plain[i] = true
		for _, k := range []int{i, (i + n - 1) % n} {
			w := r.Walls[k]
			plain[i] = plain[i] && w.Length()/ratio >= letterLeast && !askew(w.Segment)
		}
	}
	return plain
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
	for i, plain := range plainCorners(v.room.Job, v.view.Ratio) {
		name, own := v.cornerName(i)
		if plain || !own {
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
	if d1, d2 := layout.Datums(v.wallSegments()); d1 < 0 || d2 < 0 {
		return nil
	}
	t := v.datumTable("Corners of the room", "Corner")
	for i, plain := range plainCorners(v.room.Job, v.view.Ratio) {
		if plain {
			continue
		}
		name, _ := v.cornerName(i)
		a, b := v.offsets(v.room.Job.Walls[i].A)
		t.rows = append(t.rows, row(name, a, b))
	}
	if len(t.rows) == 0 {
		return nil
	}
	return []block{signed(t)}
}
