package sheets

import (
	"cmp"
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
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/refit"
	"oxturn/layout/route"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// settingOut is the sheet an installer works from on the floor: where the pegs
// lie, and every run in pegs with the cable used at its end. It takes on what
// the room's cable plan left for it, unless that may as well go on notes that
// there are anyway.
func settingOut(r *layout.Room, taken []setting.Block, notes bool) floorplan.Scene {
	s := floorplan.OfRoom(kindNamed("setting-out"), r)
	s.Draw, s.Levels = drawSettingOut, func(v *floorplan.View) []setting.Level {
		return settingOutLevels(v, taken,
			notes)
	}
	return s
}

func drawSettingOut(v *floorplan.View) {
	v.Walls()
	v.DrawOpenings()
	v.Fixtures()
	v.Limit()
	v.LeftBare()
	v.Joints()
	strips(v)
	v.Cables()
	v.Marks()
	v.Thermostat()
	v.DrawDatums()
	pegs(v)
	if laidIn(v.Plan, v.Room) == nil { // else they are on the membrane plan, which is set out first
		diagonals(v)
	}
	callOut(v, ofCrossing)
	v.Strings(setOutAlong(v))
	v.WallLetters()
	clearances(v)
}

// settingOutLevels returns what stands beside the plan. The run list comes
// first: it is what the sheet is for.
func settingOutLevels(v *floorplan.View, taken []setting.Block, notes bool) []setting.Level {
	runs := runLists(v)
	head := []setting.Block{crossing(v), markList(v)}
	tail := append([]setting.Block{legendOf(v)}, layingNotes(v)...)
	enlarged := enlargedOf(v)
	full := slices.Concat(head, runs, tail, taken)
	apart := 1.4
	if notes {
		apart = 1.15
	}
	return []setting.Level{
		{Blocks: slices.Concat(full, enlarged)},
		{Blocks: full, Rest: enlarged, Gain: 1.15},
		{Blocks: slices.Concat(head, runs, tail), Rest: slices.Concat(enlarged, taken), Gain: apart},
		{Blocks: slices.Concat(head, runs, tail[:1]), Rest: slices.Concat(tail[1:], enlarged, taken), Gain: 1.4},
		{Blocks: slices.Concat(head, tail), Rest: slices.Concat(runs, enlarged, taken), Gain: 2},
		{Blocks: full, Rest: enlarged, Gain: 1.9, Overflow: true},
	}
}

// enlargedOf is what stands beside the plan by which a cable is laid: how, in pictures, and what
// the plans of the room call out.
func enlargedOf(v *floorplan.View) []setting.Block {
	kinds := []detailOf{ofRise, ofJoints, ofCaps}
	if laidIn(v.Plan, v.Room) == nil { // else it is on the membrane sheet, by which the first strip is set
		kinds = append(kinds, ofCrossing)
	}
	return append(phasesOf(v), detailBlocks(v.Plan, v.Room, kinds...)...)
}

// runLists returns a table of runs for every cable.
func runLists(v *floorplan.View) []setting.Block {
	var bs []setting.Block
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		t := setting.Table{Head: v.Fig.Textf("Runs of %s", c.ID), Cols: []setting.Column{
			{Head: v.Fig.Text("Run"), Align: setting.Decimal}, {Head: v.Fig.Text("To wall"), Wraps: true},
			{Head: countHead(v), Align: setting.Decimal}, {Head: v.Fig.Text("To next"), Align: setting.Decimal},
			{Head: v.Fig.Textf("Used, %s", v.Fig.LongUnit()), Align: setting.Decimal},
		}}
		for i := 0; i < len(c.Runs); {
			r := c.Runs[i]
			next := "-"
			if r.GapToNext > 0 {
				next = strconv.Itoa(r.GapToNext)
			}
			row := setting.Row(c.RunName(r.Number), wallAlone(v, r), strconv.Itoa(r.Pegs), next,
				v.Fig.LongFigure(r.RunningEnd))
			n := jogs(c.Runs[i:])
			if n > 1 {
				row = append(row, setting.Cell{Text: jogWords(v, c, c.Runs[i+1:i+n])})
			}
			t.Rows, i = append(t.Rows, row), i+n
		}
		bs = append(bs, t)
	}
	return bs
}

// shortRun is a run of so many pegs at most, and fewestJogs how many of them follow on one another where they
// are listed together: steps round something, which nobody measures one by one.
const (
	shortRun   = 4
	fewestJogs = 4
)

// jogs is how many runs from the first on stand in one row of the list.
func jogs(runs []layout.Run) int {
	n := 0
	for n < len(runs) && runs[n].Pegs <= shortRun && runs[n].GapToNext == 0 {
		n++
	}
	if n < fewestJogs {
		return 1
	}
	return n
}

// jogWords says of short runs that follow on another how each lies, and what is used at the end of the last.
func jogWords(v *floorplan.View, c *layout.Cable, runs []layout.Run) string {
	var steps []string
	for _, r := range runs {
		steps = append(steps, floorplan.UnbrokenWords(fmt.Sprintf("%s %d", wallAlone(v, r), r.Pegs)))
	}
	last := runs[len(runs)-1]
	return v.Fig.Textf("then %s; %s ends at %s", strings.Join(steps, ", "), c.RunName(last.Number),
		v.Fig.LongFigure(last.RunningEnd))
}

// wallAlone is where a run leads, under a head that says wall already.
func wallAlone(v *floorplan.View, r layout.Run) string {
	way := r.To.Sub(r.From)
	if letter := layout.WallTowards(v.Room.Job, r.To, way); letter != "" {
		return letter
	}
	return v.Fig.Text(layout.SideOfSheet(way.Unit()))
}

// markList says where start, marks and end fall, in runs and pegs.
func markList(v *floorplan.View) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Where the marks fall"), Cols: []setting.Column{
		{Head: v.Fig.Text("Mark"), Wraps: true}, {Head: v.Fig.Textf("Used, %s", v.Fig.LongUnit()),
			Align: setting.Decimal},
		{Head: v.Fig.Text("On run"), Align: setting.Decimal}, {Head: intoHead(v), Align: setting.Decimal},
	}}
	for i := range v.Room.Cables {
		for _, m := range laidMarks(v, &v.Room.Cables[i]) {
			t.Rows = append(t.Rows, setting.Row(m.name, m.used, m.run, m.pegs))
		}
	}
	return t
}

// A laidMark is a mark of a cable as it is looked for while laying.
type laidMark struct {
	name, used, run, pegs string
	at                    plane.Point
}

// laidMarks lists start, marks and end of a cable; none of one without a path.
func laidMarks(v *floorplan.View, c *layout.Cable) []laidMark {
	if len(c.Path) == 0 {
		return nil
	}
	ends := c.Ends()
	pre := v.Prefix(c.ID)
	out := []laidMark{{v.Fig.Textf("%sSTART", pre), "0", c.RunName(1), "0", ends[0].At}}
	for _, m := range c.Marks {
		pegs := "-"
		if n, ok := c.InPegs(m); ok {
			pegs = fmt.Sprintf("%.0f", n)
		}
		out = append(out, laidMark{pre + m.Name, v.Fig.LongFigure(m.Along), c.RunName(m.Run), pegs, m.At})
	}
	last := "-"
	if n := len(c.Runs); n > 0 {
		last = c.RunName(c.Runs[n-1].Number)
	}
	return append(out, laidMark{v.Fig.Textf("%sEND", pre), v.Fig.LongFigure(c.Routed), last, "-", ends[1].At})
}

// driftRule says what drift the plans take before laid cable must be lifted; nothing
// once all cables are recorded, which take none any more.
func driftRule(v *floorplan.View) []string {
	var takes []string
	for i := range v.Room.Cables {
		if c := &v.Room.Cables[i]; c.Laid == nil {
			takes = append(takes, driftTaken(v.Fig, c, v.Prefix(c.ID)))
		}
	}
	if takes == nil {
		return nil
	}
	return []string{v.Fig.Textf("Drift (- less, + more cable used than drawn) that it takes, nothing lifted, at most "+
		"%s of the floor cold: %s.", v.Fig.Percent(refit.ReserveCold), strings.Join(takes, v.Fig.Joint("; ")))}
}

// driftTaken says what drift a cable's plan takes at the marks, such as takes
// -1.8 % / +2.4 % at 1/2 and 3/4.
func driftTaken(f say.Figures, c *layout.Cable, name string) string {
	if len(c.Reserves) == 0 {
		return f.Textf("%snot known", name)
	}
	half, later := c.Reserves[0], c.Reserves[1]
	if refit.Takes(half, f.Language) == refit.Takes(later, f.Language) {
		return f.Textf("%s%s at %s and %s", name, refit.Takes(half, f.Language), half.Mark, later.Mark)
	}
	return f.Textf("%s%s at %s, %s at %s", name, refit.Takes(half, f.Language), half.Mark, refit.Takes(later,
		f.Language), later.Mark)
}

// lattice returns the room's peg lattice.
func lattice(v *floorplan.View) (route.Lattice, bool) {
	for _, c := range v.Room.Cables {
		if c.Lattice.Pitch > 0 && !c.Lattice.Loose {
			return c.Lattice, true
		}
	}
	return route.Lattice{}, false
}

// first returns the peg nearest to where the two datums meet that is laid, half a
// peg off the edges of the tile at least: the membrane is trimmed short of them.
func first(v *floorplan.View) (plane.Point, bool) {
	l, ok := lattice(v)
	ws := v.WallSegments()
	d := v.Datums()
	if !ok || !d.Both() {
		return plane.Point{}, false
	}
	corner, met := lineMeet(d[0].Segment, d[1].Segment)
	if !met {
		return plane.Point{}, false
	}
	cu, cv := l.ToPegs(corner)
	wide := max(l.Pitch, l.Across)
	best, least := plane.Point{}, math.Inf(1)
	far := 0.0 // the corner may lie outside the room
	for _, w := range ws {
		far = math.Max(far, w.A.Dist(corner))
	}
	for reach := 12.0; reach*l.Tight() < 2*far && least > reach/2*l.Tight(); reach *= 2 {
		for j := -reach; j <= reach; j++ {
			for i := -reach; i <= reach; i++ {
				q := l.ToWorld(math.Round(cu)+i, math.Round(cv)+j)
				if d := q.Dist(corner); d < least && v.Room.Tiled.Depth(q) >= wide/2 {
					best, least = q, d
				}
			}
		}
	}
	return best, !math.IsInf(least, 1)
}

// strips draws those that the cable is clipped to, below it.
func strips(v *floorplan.View) {
	for _, s := range v.Room.Strips(v.Plan.Job) {
		line := []drawing.Pt{v.Paper.Pt(s.A), v.Paper.Pt(s.B)}
		v.Sign(signs.Strip, drawing.LayerMembrane, v.Fig.Text("strip"), drawing.Polyline(line...),
			drawing.StripLine(), nil)
		v.Ink.Line(line, lettering.ThinInk)
	}
}

// stripList says where the strips lie that the cable is clipped to.
func stripList(v *floorplan.View) setting.Block {
	l, s := setting.List{Head: v.Fig.Text("Strips")}, v.Plan.Job.Strips
	lines, long := v.Room.Strips(v.Plan.Job), 0.0
	for _, one := range lines {
		long += one.Length()
	}
	l.Paras = append(l.Paras,
		v.Fig.Textf("%d strips across the runs, %s apart at most, the outer ones %s from the turns; %s in all.",
			len(lines), v.Fig.Apart(s.Apart), v.Fig.Apart(s.FromTurns), v.Fig.Long(long)),
		v.Fig.Textf("Clips %s apart: to the next run so many clips as listed.",
			v.Fig.Apart(v.Plan.Job.Membrane.Across)))
	if len(v.Room.Cables) > 0 {
		along := plane.Pt(1, 0).Rotate(v.Room.Cables[0].Lattice.Angle)
		letter, off := layout.Along(v.Room.Job, along)
		words := v.Fig.Textf("Runs lie along wall %s.", letter)
		if off > 0.05 {
			words = v.Fig.Textf("Runs lie %s off wall %s.", v.Fig.AngleFine(off), letter)
		}
		l.Paras = append(l.Paras, words)
	}
	l.Paras = append(append(l.Paras, keptClear(v)...), v.BrokenDatums()...)
	return l
}

// countHead is what runs are counted in, at the head of their list: pegs, or a length where there are none.
func countHead(v *floorplan.View) string {
	if v.Plan.Job.Strips != nil {
		return v.Plan.Job.RunUnit()
	}
	return v.Fig.Text("Pegs")
}

// intoHead is the same of how far a mark lies on its run.
func intoHead(v *floorplan.View) string {
	if v.Plan.Job.Strips != nil {
		return v.Fig.Textf("%s into it", v.Plan.Job.RunUnit())
	}
	return v.Fig.Text("Pegs into it")
}

// turnRule is what a turn moved by little does.
func turnRule(v *floorplan.View) string {
	if v.Plan.Job.Strips != nil {
		return v.Fig.Text("Clip every run to every strip that it crosses. A turn moved takes twice as much cable. " +
			"Never move cable into a clearance.")
	}
	return v.Fig.Text("One peg at a turn is two of cable. Never move cable into a clearance.")
}

// second returns the crossing on a channel of P1 that is farthest from it: a line can be snapped
// between the two, all of it on tiled floor. Together they give the rows their direction.
func second(v *floorplan.View, p plane.Point) (plane.Point, bool) {
	l, ok := lattice(v)
	if !ok {
		return p, false
	}
	far, steps, most := p, 0, 0.0
	for k := range 4 {
		step := plane.Pt(1, 0).Rotate(l.Angle + float64(k)*math.Pi/2)
		step = step.Mul(l.Pegs(step))
		n := 0
		for v.Room.Tiled.Depth(p.Add(step.Mul(float64(n+1)))) >= max(l.Pitch, l.Across)/2 {
			n++
		}
		if d := float64(n) * step.Norm(); d > most+plane.Hair {
			far, steps, most = p.Add(step.Mul(float64(n))), n, d
		}
	}
	const least = 10 // pegs, over which a line tells a direction
	return far, steps >= least
}

// diagonals draws the two diagonals of a room of four walls or, of another, two lines between
// corners that lie far apart and see each other: each with its length, by which the corners are
// checked before anything is set out from them. They end in the corners themselves, without arrows.
func diagonals(v *floorplan.View) {
	for _, l := range crossLines(v.Room.Job) {
		from, to := v.Room.Job.Walls[l[0]].A, v.Room.Job.Walls[l[1]].A
		a, b := v.Paper.Pt(from), v.Paper.Pt(to)
		title := v.Fig.Textf("%s to %s", cornerName(v.Room.Job, l[0]), cornerName(v.Room.Job, l[1]))
		v.Path(drawing.LayerDims, title, drawing.Polyline(a, b), drawing.ThinLine(), nil)
		v.Ink.Line([]drawing.Pt{a, b}, lettering.ThinInk)
		long := v.Fig.Length(from.Dist(to))
		figure := &lettering.Label{Text: long, Height: drawing.H25, Rank: 5, Subject: a.Lerp(b, 0.5),
			Note: v.Fig.Textf("Corner to corner, %s: %s", title, long)}
		size := figure.Sample(lettering.Spot{}).Box()
		for _, t := range []float64{0.3, 0.7, 0.22, 0.78, 0.38, 0.62, 0.15, 0.85, 0.46, 0.54} {
			figure.Spots = append(figure.Spots, lettering.Spot{At: lettering.CentredOn(a.Lerp(b, t), size),
				Cost: math.Abs(math.Abs(t-0.5) - 0.2)})
		}
		v.Letters.Add(figure)
	}
}

// cornerName names the corner where wall i begins.
func cornerName(r *job.Room, i int) string {
	return r.Walls[(i+len(r.Walls)-1)%len(r.Walls)].Letter + floorplan.UnbrokenWords("-") + r.Walls[i].Letter
}

// crossLines returns up to two pairs of corners between which a tape crosses the room: the
// longest line, and the longest that has neither of its ends and lies well across it.
func crossLines(r *job.Room) (out [][2]int) {
	type pair struct {
		i, j int
		line plane.Segment
	}
	var all []pair
	for i, a := range r.Walls {
		for j := i + 2; j < len(r.Walls); j++ {
			line := plane.Segment{A: a.A, B: r.Walls[j].A}
			if (i+len(r.Walls)-j)%len(r.Walls) == 1 || a.Arc != nil || r.Walls[j].Arc != nil || !sees(r, line) {
				continue
			}
			all = append(all, pair{i, j, line})
		}
	}
	slices.SortStableFunc(all, func(a, b pair) int {
		return cmp.Compare(math.Round(b.line.Length()), math.Round(a.line.Length()))
	})
	for _, p := range all {
		if len(out) == 0 {
			out = append(out, [2]int{p.i, p.j})
			continue
		}
		first := all[0].line
		const across = 0.3 // sine of the least angle between the two
		if p.i != out[0][0] && p.j != out[0][1] && p.i != out[0][1] && p.j != out[0][0] &&
			math.Abs(first.B.Sub(first.A).Unit().Cross(p.line.B.Sub(p.line.A).Unit())) > across {
			return append(out, [2]int{p.i, p.j})
		}
	}
	return out
}

// sees reports whether a line between two corners stays in the room.
func sees(r *job.Room, line plane.Segment) bool {
	const parts = 40
	for k := 1; k < parts; k++ {
		if !r.Outline.Contains(line.A.Lerp(line.B, float64(k)/parts)) {
			return false
		}
	}
	return true
}

// keptClear says what the dashed edge of the heated floor keeps off walls, and off what has a
// clearance of its own.
func keptClear(v *floorplan.View) []string {
	c := v.Plan.Job.Clearance
	words := v.Fig.Textf("Dashed edge: %s off walls", v.Fig.Fine().Length(c.Wall))
	var off []float64
	for _, f := range v.Room.Job.Fixtures {
		off = append(off, f.Clear)
	}
	if len(off) > 0 {
		words += v.Fig.Textf(", %s off fixtures", fromTo(v, off))
	}
	off = nil
	for _, j := range v.Room.Job.Joints {
		off = append(off, j.Clear)
	}
	if len(off) > 0 {
		words += v.Fig.Textf(", %s off joints", fromTo(v, off))
	}
	return []string{words + "."}
}

// fromTo writes the least and the greatest of some lengths, one where they are the same.
func fromTo(v *floorplan.View, mm []float64) string {
	least, most := v.Fig.Fine().Length(slices.Min(mm)), v.Fig.Fine().Length(slices.Max(mm))
	if least == most {
		return least
	}
	return v.Fig.Textf("%s to %s", least, most)
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
func crossing(v *floorplan.View) setting.Block {
	if v.Plan.Job.Strips != nil {
		return stripList(v)
	}
	l := setting.List{Head: v.Fig.Text("Pegs")}
	lat, ok := lattice(v)
	if !ok {
		l.Paras = []string{v.Fig.Text("The rows of pegs are not known.")}
		return l
	}
	if lat.Across > 0 {
		wall, _ := layout.Along(v.Room.Job, plane.Pt(1, 0).Rotate(lat.Angle))
		l.Paras = append(l.Paras, v.Fig.Textf("Roll out along wall %s: %s from peg to peg that way, %s across it.",
			wall, v.Fig.Apart(v.Plan.Job.Membrane.PegPitch()), v.Fig.Apart(lat.Across)))
		if v.Plan.Job.Membrane.Staggered {
			l.Paras = append(l.Paras, v.Fig.Text("Every second row of pegs lies half a pitch on: along a row "+
				"count those on both sides of the cable."))
		}
	} else {
		l.Paras = append(l.Paras, v.Fig.Textf("%s from peg to peg.", v.Fig.Apart(lat.Pitch)))
	}
	if p, ok := first(v); ok {
		a, b := v.Offsets(p)
		words := v.Fig.Textf("P1: %s from D1 (wall %s), %s from D2 (wall %s).", a,
			v.DatumLetter(0), b, v.DatumLetter(1))
		if q, ok := second(v, p); ok {
			a, b := v.Offsets(q)
			words += v.Fig.Textf(" P2, on its channel: %s from D1, %s from D2.", a, b)
		}
		l.Paras = append(l.Paras, words)
	}
	// rows lie both ways, so that a turn of nearly 90 degrees is a small one back
	letter, off := layout.Along(v.Room.Job, plane.Pt(1, 0).Rotate(lat.Angle))
	if square, o := layout.Along(v.Room.Job, plane.Pt(0, 1).Rotate(lat.Angle)); o < off-1 {
		letter, off = square, o
	}
	words := v.Fig.Textf("Rows lie along wall %s.", letter)
	if off > 0.05 {
		words = v.Fig.Textf("Rows lie %s off wall %s.", v.Fig.AngleFine(off), letter)
	}
	l.Paras = append(append(append(l.Paras, words), keptClear(v)...), v.BrokenDatums()...)
	if v.Plan.Job.Info.Status != job.AsLaid {
		l.Paras = append(l.Paras,
			v.Fig.Text("Pegs elsewhere: plan again from P1 as it is."))
	}
	return l
}

// layingNotes are the sheet's own remarks and, as long as there is cable to lay,
// how that is done.
func layingNotes(v *floorplan.View) []setting.Block {
	l := setting.List{Head: v.Fig.Text("Laying"), Number: 1, Paras: slices.Concat(v.Noted, v.Remarks, layingRules(v))}
	if v.Plan.Job.Info.Status == job.AsLaid {
		l.Head = v.Fig.Text("Notes")
	}
	if len(l.Paras) == 0 {
		return nil
	}
	return []setting.Block{l}
}

// layingRules are how cable is laid; none where all of it is.
func layingRules(v *floorplan.View) []string {
	if v.Plan.Job.Info.Status == job.AsLaid {
		return nil
	}
	numbers := ""
	if v.SkipsRuns() {
		numbers = v.Fig.Text(" Runs without a number follow the one before.")
	}
	return slices.Concat([]string{
		v.Fig.Textf("Check the length used at every run's end. Half mark off its place: the end misses by about "+
			"twice that.%s", numbers),
	}, driftRule(v), []string{
		turnRule(v),
		v.Fig.Text("Bed every run without voids. Keep the continuity alarm on; walk on boards."),
	})
}

// setOutAlong is what is set out from the walls: the channel crossings, the first run and the
// last of each cable.
func setOutAlong(v *floorplan.View) (out []floorplan.Named) {
	if p, ok := first(v); ok {
		out = append(out, floorplan.Named{Name: "P1", A: p, B: p})
		if q, ok := second(v, p); ok {
			out = append(out, floorplan.Named{Name: "P2", A: q, B: q})
		}
	}
	for i := range v.Room.Cables {
		c := &v.Room.Cables[i]
		for _, k := range []int{0, len(c.Runs) - 1} {
			if k >= 0 {
				r := c.Runs[k]
				out = append(out, floorplan.Named{Name: v.Fig.Textf("run %s", c.RunName(r.Number)), A: r.From, B: r.To})
			}
		}
	}
	return out
}

// pegs ticks the rows of pegs along the walls: a long tick every fifth, and
// only those where the rows would run together.
func pegs(v *floorplan.View) {
	l, ok := lattice(v)
	if !ok {
		return
	}
	step := 1
	if v.Paper.Len(l.Tight()) < 0.9 {
		step = 5
	}
	for _, w := range v.Room.Job.Walls {
		ticks(v, w.Segment, l, step)
	}
	if p, ok := first(v); ok {
		at := v.Paper.Pt(p)
		v.Mark(signs.Crossing, symbols.ChannelCrossing(at))
		v.Tag(at, 2, "P1", v.Fig.Textf("channel crossing P1: %s", v.PlaceWords(p)), 2)
		if q, ok := second(v, p); ok {
			v.Mark(signs.Crossing, symbols.ChannelCrossing(v.Paper.Pt(q)))
			v.Tag(v.Paper.Pt(q), 2, "P2", v.Fig.Textf("channel crossing P2: %s", v.PlaceWords(q)), 2)
		}
	}
}

// tickLong is the length of the tick at every fifth row, mm.
const tickLong = 1.7

// ticks draws the rows of one family along a wall: the one that meets it more
// squarely.
func ticks(v *floorplan.View, w plane.Segment, l route.Lattice, step int) {
	u := w.B.Sub(w.A).Unit()
	rows := plane.Pt(1, 0).Rotate(l.Angle)
	across := rows.Left()
	if math.Abs(u.Dot(rows)) > math.Abs(u.Dot(across)) {
		rows, across = across, rows
	}
	pitch := l.Pegs(across)
	slope := u.Dot(across) // of the row number along the wall
	if math.Abs(slope) < 1e-6 {
		return
	}
	at := w.A.Sub(l.Origin).Dot(across)
	from, to := at, at+slope*w.Length()
	lo, hi := math.Ceil(math.Min(from, to)/pitch), math.Floor(math.Max(from, to)/pitch)
	out := v.Paper.Dir(v.Outward(w))
	for k := int(lo); k <= int(hi); k++ {
		if k%step != 0 {
			continue
		}
		p := v.Paper.Pt(w.A.Add(u.Mul((float64(k)*pitch - at) / slope)))
		long := 0.9
		if k%5 == 0 {
			long = tickLong
		}
		tick := []drawing.Pt{p, p.Add(out.Mul(long))}
		v.Sign(signs.Peg, drawing.LayerMembrane, "", drawing.Polyline(tick...), drawing.ThinLine(), nil)
		v.Ink.Line(tick, lettering.ThinInk)
	}
}
