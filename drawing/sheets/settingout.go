package sheets

import (
	"fmt"
	"math"
	"slices"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/route"
	"oxturn/symbols"
)

// settingOut is the sheet an installer works from on the floor: where the pegs
// lie, and every run in pegs with the cable used at its end. It takes on what
// the room's cable plan left for it, unless that may as well go on notes that
// there are anyway.
func settingOut(r *layout.Room, taken []block, notes bool) scene {
	s := roomScene(kindNamed("setting-out"), r)
	s.draw, s.levels = drawSettingOut, func(v *roomView) []level { return settingOutLevels(v, taken, notes) }
	return s
}

func drawSettingOut(v *roomView) {
	v.walls()
	v.drawOpenings()
	v.fixtures()
	v.limit()
	v.leftBare()
	v.joints()
	v.cables()
	v.marks()
	v.thermostat()
	v.drawDatums()
	v.pegs()
	v.wallLetters()
}

// settingOutLevels returns what stands beside the plan. The run list comes
// first: it is what the sheet is for.
func settingOutLevels(v *roomView, taken []block, notes bool) []level {
	runs := v.runLists()
	head := []block{v.crossing(), v.markList()}
	tail := append([]block{legendOf(v.used)}, v.layingNotes()...)
	if laidIn(v.plan, v.room) == nil { // else it is on the membrane sheet, by which the first strip is set
		tail = append(tail, v.crossingDetails()...)
	}
	full := slices.Concat(head, runs, tail, taken)
	apart := 1.9
	if notes {
		apart = 1.3
	}
	return []level{
		{blocks: full},
		{blocks: slices.Concat(head, runs, tail), rest: taken, gain: apart},
		{blocks: slices.Concat(head, runs, tail[:1]), rest: slices.Concat(tail[1:], taken), gain: 1.9},
		{blocks: slices.Concat(head, tail), rest: slices.Concat(runs, taken), gain: 1.9},
		{blocks: full, gain: 1.9, overflow: true},
	}
}

// runLists returns a table of runs for every cable.
func (v *roomView) runLists() []block {
	var bs []block
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		t := table{head: "Runs of " + c.ID, cols: []column{
			{head: "Run", align: decimal}, {head: "Towards", wraps: true}, {head: "Pegs", align: decimal}, {head: "To next, pegs", align: decimal}, {head: "Used, " + v.fig.longUnit(), align: decimal},
		}}
		for _, r := range c.Runs {
			next := "-"
			if r.GapToNext > 0 {
				next = itoa(r.GapToNext)
			}
			t.rows = append(t.rows, row(c.RunName(r.Number), layout.Towards(v.room.Job, r.To, r.To.Sub(r.From)), itoa(r.Pegs), next, v.fig.longFigure(r.RunningEnd)))
		}
		bs = append(bs, t)
	}
	return bs
}

// markList says where start, marks and end fall, in runs and pegs.
func (v *roomView) markList() block {
	t := table{head: "Where the marks fall", cols: []column{
		{head: "Mark", wraps: true}, {head: "Used, " + v.fig.longUnit(), align: decimal}, {head: "On run", align: decimal}, {head: "Pegs into it", align: decimal}, {head: "Drift taken, at least"},
	}}
	if !v.tellsDrift() {
		t.cols = t.cols[:len(t.cols)-1]
	}
	pitch := v.plan.Job.Membrane.Pitch
	for i := range v.room.Cables {
		c := &v.room.Cables[i]
		pre := v.prefix(c.ID)
		t.rows = append(t.rows, row(pre+"START", "0", c.RunName(1), "0", "-"))
		for _, m := range c.Marks {
			pegs := "-"
			if pitch > 0 {
				pegs = fmt.Sprintf("%.0f", m.Into/pitch)
			}
			t.rows = append(t.rows, row(pre+m.Name, v.fig.longFigure(m.Along), c.RunName(m.Run), pegs, driftTaken(c, m.Name)))
		}
		last := "-"
		if n := len(c.Runs); n > 0 {
			last = c.RunName(c.Runs[n-1].Number)
		}
		t.rows = append(t.rows, row(pre+"END", v.fig.longFigure(c.Routed), last, "-", "-"))
	}
	for i := range t.rows {
		t.rows[i] = t.rows[i][:len(t.cols)]
	}
	return t
}

// tellsDrift reports whether a cable has no record yet, and so takes drift as planned.
func (v *roomView) tellsDrift() bool {
	return slices.ContainsFunc(v.room.Cables, func(c layout.Cable) bool { return c.Laid == nil })
}

// driftWords say what the drift taken means, after a sentence.
func (v *roomView) driftWords() string {
	if !v.tellsDrift() {
		return ""
	}
	return fmt.Sprintf(" Within the drift taken (- less, + more cable used than drawn) the rest is planned again and nothing laid comes up, %.0f %% of the floor at most going cold; beyond it, laid cable may have to.", 100*layout.ReserveCold)
}

// driftTaken says what drift a cable's plan takes at a mark; "-" where none is worked out.
func driftTaken(c *layout.Cable, mark string) string {
	for _, r := range c.Reserves {
		if r.Mark == mark {
			return r.Takes()
		}
	}
	if c.Laid == nil && c.Reserves == nil && mark != "1/4" {
		return "not known"
	}
	return "-"
}

// lattice returns the room's peg lattice.
func (v *roomView) lattice() (route.Lattice, bool) {
	for _, c := range v.room.Cables {
		if c.Lattice.Pitch > 0 {
			return c.Lattice, true
		}
	}
	return route.Lattice{}, false
}

// first returns the peg nearest to where the two datums meet that is laid, half a
// peg off the edges of the tile at least: the membrane is trimmed short of them.
func (v *roomView) first() (plane.Point, bool) {
	l, ok := v.lattice()
	ws := v.wallSegments()
	d1, d2 := layout.Datums(v.room.Job)
	if !ok || d1 < 0 || d2 < 0 {
		return plane.Point{}, false
	}
	corner, met := lineMeet(ws[d1], ws[d2])
	if !met {
		return plane.Point{}, false
	}
	local := corner.Sub(l.Origin).Rotate(-l.Angle).Mul(1 / l.Pitch)
	best, least := plane.Point{}, math.Inf(1)
	far := 0.0 // the corner may lie outside the room
	for _, w := range ws {
		far = math.Max(far, w.A.Dist(corner))
	}
	for reach := 12.0; reach*l.Pitch < 2*far && least > reach/2*l.Pitch; reach *= 2 {
		for j := -reach; j <= reach; j++ {
			for i := -reach; i <= reach; i++ {
				q := plane.Pt(math.Round(local.X)+i, math.Round(local.Y)+j).Mul(l.Pitch).Rotate(l.Angle).Add(l.Origin)
				if d := q.Dist(corner); d < least && v.room.Tiled.Depth(q) >= l.Pitch/2 {
					best, least = q, d
				}
			}
		}
	}
	return best, !math.IsInf(least, 1)
}

// lineMeet returns where the lines of two walls meet, on the walls or beyond.
func lineMeet(a, b plane.Segment) (plane.Point, bool) {
	u, w := a.B.Sub(a.A), b.B.Sub(b.A)
	x := u.Cross(w)
	if math.Abs(x) < 1e-9 {
		return plane.Point{}, false
	}
	return a.A.Add(u.Mul(b.A.Sub(a.A).Cross(w) / x)), true
}

// crossing says where the lattice begins.
func (v *roomView) crossing() block {
	l := list{head: "Pegs"}
	lat, ok := v.lattice()
	if !ok {
		l.paras = []string{"The rows of pegs are not known."}
		return l
	}
	l.paras = append(l.paras, fmt.Sprintf("%s from peg to peg.", v.pitchWords(lat.Pitch)))
	if p, ok := v.first(); ok {
		a, b := v.offsets(p)
		l.paras = append(l.paras, fmt.Sprintf("Channel crossing P1, no peg: %s from D1 (wall %s), %s from D2 (wall %s).", a, v.datumLetter(0), b, v.datumLetter(1)))
	}
	// rows lie both ways, so that a turn of nearly 90 degrees is a small one back
	letter, off := layout.Along(v.room.Job, plane.Pt(1, 0).Rotate(lat.Angle))
	if square, o := layout.Along(v.room.Job, plane.Pt(0, 1).Rotate(lat.Angle)); o < off-1 {
		letter, off = square, o
	}
	words := fmt.Sprintf("Rows lie along wall %s.", letter)
	if off > 0.05 {
		words = fmt.Sprintf("Rows lie %.1f° off wall %s.", off, letter)
	}
	l.paras = append(l.paras, words)
	l.paras = append(l.paras, v.brokenDatums()...)
	if v.plan.Job.Info.Status != job.AsLaid {
		l.paras = append(l.paras, "If the pegs land elsewhere when the membrane is down, plan again from P1 as it is before laying cable.")
	}
	return l
}

func (v *roomView) pitchWords(mm float64) string {
	if v.fig.units == plane.Inches {
		return fmt.Sprintf("%.2f in", mm/plane.Inch)
	}
	return trimFigure(mm) + " mm"
}

// layingNotes are the sheet's own remarks and, as long as there is cable to lay,
// how that is done.
func (v *roomView) layingNotes() []block {
	l := list{head: "Laying", number: 1}
	l.paras = append(l.paras, v.noted...)
	l.paras = append(l.paras, v.remarks...)
	if v.plan.Job.Info.Status == job.AsLaid {
		if l.head = "Notes"; len(l.paras) == 0 {
			return nil
		}
		return []block{l}
	}
	numbers := "A run's number stands where it begins or farther along it."
	if v.skipsRuns() {
		numbers = "A run's number stands where it begins or farther along it; a run without one follows the one before it."
	}
	l.paras = append(l.paras,
		"Begin at START with the lead joint in the membrane; follow the arrows. "+numbers,
		"Compare the length used at the end of every run with the list. When the half mark is off its place, stop: the end will miss by about twice as much."+v.driftWords(),
		"A whole run holds about one room's width of cable; one peg on one turn is two pegs of cable. Never move laid cable into a clearance.",
		"Lead joint, end cap and every run are bedded in full, without voids. Keep the continuity alarm on; walk on boards.",
	)
	return []block{l}
}

// pegs ticks the rows of pegs along the walls: a long tick every fifth, and
// only those where the rows would run together.
func (v *roomView) pegs() {
	l, ok := v.lattice()
	if !ok {
		return
	}
	step := 1
	if v.view.Len(l.Pitch) < 0.9 {
		step = 5
	}
	for _, w := range v.room.Job.Walls {
		v.ticks(w.Segment, l, step)
	}
	if p, ok := v.first(); ok {
		at := v.view.Pt(p)
		v.mark(signCrossing, symbols.ChannelCrossing(at))
		v.tag(at, 2, "P1", "channel crossing P1: "+v.placeWords(p), 2)
	}
}

// tickLong is the length of the tick at every fifth row, mm.
const tickLong = 1.7

// ticks draws the rows of one family along a wall: the one that meets it more
// squarely.
func (v *roomView) ticks(w plane.Segment, l route.Lattice, step int) {
	u := w.B.Sub(w.A).Unit()
	rows := plane.Pt(1, 0).Rotate(l.Angle)
	across := rows.Left()
	if math.Abs(u.Dot(rows)) > math.Abs(u.Dot(across)) {
		rows, across = across, rows
	}
	slope := u.Dot(across) // of the row number along the wall
	if math.Abs(slope) < 1e-6 {
		return
	}
	at := w.A.Sub(l.Origin).Dot(across)
	from, to := at, at+slope*w.Length()
	lo, hi := math.Ceil(math.Min(from, to)/l.Pitch), math.Floor(math.Max(from, to)/l.Pitch)
	out := paperDir(v.outward(w))
	for k := int(lo); k <= int(hi); k++ {
		if k%step != 0 {
			continue
		}
		p := v.view.Pt(w.A.Add(u.Mul((float64(k)*l.Pitch - at) / slope)))
		long := 0.9
		if k%5 == 0 {
			long = tickLong
		}
		tick := []drawing.Pt{p, p.Add(out.Mul(long))}
		v.sign(signPeg, drawing.LayerMembrane, "", drawing.Polyline(tick...), drawing.ThinLine(), nil)
		v.ink.line(tick, thinInk)
	}
}
