package sheets

import (
	"fmt"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// cablePlan draws the plan of one room's cable, and a sheet for the notes that
// found no room beside it.
func cablePlan(p *layout.Plan, r *layout.Room) ([]*page, error) {
	return roomSheet(p, r, roomKind{
		id: "cable-plan", title: "Cable plan", kind: "Cable plan",
		about:  "Where the heating cable, its leads and the sensors lie, with the dimensions to find them again",
		draw:   drawCablePlan,
		levels: cablePlanLevels,
	})
}

func drawCablePlan(v *roomView) {
	v.walls()
	v.drawOpenings()
	v.zones()
	v.riseInWall()
	v.fixtures()
	v.limit()
	v.joints()
	v.cables()
	v.marks()
	v.sensors()
	v.thermostat()
	v.drawDatums()
	short := v.dimensions()
	v.wallLetters()
	if short > 0 {
		v.remark(fmt.Sprintf("%d short walls (under %s) are neither lettered nor dimensioned one by one.", short, v.fig.length(letterLeast*v.view.Ratio)))
	}
}

// cablePlanLevels returns what stands beside a cable plan. What a drawing
// cannot do without is how to find the points again, the legend, and the
// cautions whose breach destroys the cable at once.
func cablePlanLevels(v *roomView) []level {
	tables := append(schedule(v.room, v.fig), areas(v.room, v.fig.units))
	all := cautionList("Cautions", "", layingCautions()...)
	few := cautionList("Cautions", "All cautions are on the sheet of notes.", neverCut, neverCoiled, ratedVoltage, inspectFirst)
	signs, rev := legendOf(v.used), revisions(v.plan)
	full := []block{v.locations()}
	full = append(append(full, tables...), signs, v.notes(), rev, all)
	short := []block{v.locations()}
	short = append(append(short, tables...), signs, few, v.notes())
	return []level{
		{blocks: full},
		{blocks: short, rest: []block{all, rev}, gain: 1.3},
		{blocks: []block{v.locations(), signs, few, v.notes()}, rest: append(tables, all, rev), gain: 1.9},
		{blocks: append([]block{v.locations(), few, signs, v.notes()}, tables...), rest: []block{all, rev}, gain: 1.9, overflow: true},
	}
}

// notes returns the notes of a room's sheet: its own remarks, those of the
// job, and what is true of every plan.
func (v *roomView) notes() block {
	l := list{head: "Notes", number: 1}
	l.paras = append(l.paras, v.noted...)
	if v.room.Job.MeasuredTo == "stud" {
		l.paras = append(l.paras, "Measured to the studs: the walls' finish is still to be taken off.")
	}
	l.paras = append(l.paras, v.remarks...)
	if t := v.room.Job.Thermostat; t.Wall >= 0 && t.Wall < len(v.room.Job.Walls) {
		l.paras = append(l.paras, fmt.Sprintf("Lead rise in wall %s: no nail or screw within %s of it to either side, floor and wall, up to the box.", v.room.Job.Walls[t.Wall].Letter, riseWords(v.fig.units)))
	}
	if v.room.Chosen != nil && v.room.Chosen.Why != "" {
		l.paras = append(l.paras, "Cable chosen: "+v.room.Chosen.Why)
	}
	l.paras = append(l.paras, v.plan.Job.Notes...)
	l.paras = append(l.paras, "Floor warming; no heat-loss calculation has been made.")
	return l
}

// A roomKind is a kind of sheet that shows a room's floor to scale.
type roomKind struct {
	id, title, kind, about string
	draw                   func(v *roomView)
	levels                 func(v *roomView) []level // what stands beside it
}

// roomSheet draws a room on the sheet that the job asks for, or on the one
// that gives the largest scale. What a legend has to say and which labels
// become notes is only known once the floor is drawn, and takes room itself:
// so the sheet is drawn again until neither changes.
func roomSheet(p *layout.Plan, r *layout.Room, k roomKind) ([]*page, error) {
	name := k.title
	if r.Job.Name != "" {
		name += " - " + r.Job.Name
	}
	title := titleFor(p, name, k.kind)
	// the title block is measured with the longest scale and paper names, so that its height does not hang on them
	title.scale, title.paper = `1 1/2" = 1'-0"`, "tabloid"
	shared := roomNeed(p, r, title)
	var last *roomView
	var a arrangement
	for range 6 {
		trial := last
		if trial == nil {
			trial = &roomView{page: newPage(p, drawing.Paper{}), room: r, fig: figuresOf(p.Job)}
			trial.used = allSigns()
		}
		n := shared
		n.levels = k.levels(trial)
		next, err := arrangeFor(n, p.Job, r)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		v := drawRoom(p, r, next, k)
		settled := last != nil && next.scale == a.scale && next.paper == a.paper && next.field == a.field && same(last.used, v.used) && same(last.noted, v.noted)
		last, a = v, next
		if settled {
			break
		}
	}
	last.sheet.ID = k.id
	if s := slug(r.Job.Name); s != "" {
		last.sheet.ID += "-" + s
	}
	last.sheet.Title, last.sheet.Description, last.sheet.Ratio = name, k.about, a.scale.Ratio
	last.title = title
	last.title.scale, last.title.paper = a.scale.Name, a.paper.Name
	return last.finish(a)
}

func allSigns() []sign {
	var all []sign
	for s := sign(0); s < signCount; s++ {
		all = append(all, s)
	}
	return all
}

func same[T comparable](a, b []T) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// drawRoom draws the field of an arrangement.
func drawRoom(p *layout.Plan, r *layout.Room, a arrangement, k roomKind) *roomView {
	pg := newPage(p, a.paper)
	v := newRoomView(pg, r, a)
	v.north()
	k.draw(v)
	v.settle()
	return v
}

// settle places the lettering of the field. A label without a place becomes a
// numbered note, its number standing by its subject where that is possible.
func (v *roomView) settle() {
	v.letters.place()
	var numbers []*label
	for i, l := range v.letters.homeless() {
		n := itoa(i + 1)
		v.noted = append(v.noted, l.note)
		m := &label{text: n, height: drawing.H25, rank: 9, subject: l.subject, mark: noteMark, option: true}
		m.spots = append([]spot{{at: l.subject, cost: 1}}, tagSpots(l.subject, 1.5, "00")...)
		numbers = append(numbers, m)
	}
	for _, m := range numbers {
		v.letters.add(m)
		v.letters.put(m, v.letters.cheapest(m))
		v.uses(signNote)
	}
	v.letters.draw(v.page)
}

// roomNeed returns what a room takes of a sheet.
func roomNeed(p *layout.Plan, r *layout.Room, t titleBlock) need {
	return need{
		bounds: r.Job.Outline.Bounds(), title: t,
		border: func(ratio float64) (left, right, top, bottom float64) { return border(r.Job, ratio) },
		proof:  proof{units: figuresOf(p.Job).units},
		ty:     newTypesetter(), titles: map[float64]float64{},
	}
}

// arrangeFor arranges a sheet on the paper and at the scale that the job asks
// for; when it leaves them open, on the paper usual on a site, or on the next
// larger one where runs would lie too close to be counted, at the largest scale
// that fits.
func arrangeFor(n need, j *job.Job, r *layout.Room) (arrangement, error) {
	var err error
	if n.scales, err = scalesFor(j); err != nil {
		return arrangement{}, err
	}
	u, sheet := figuresOf(j).units, j.Sheet
	if n.papers, err = papersFor(sheet, u); err != nil {
		return arrangement{}, err
	}
	a, err := arrange(n)
	if sheet.Size != "" || err == nil && !narrow(r, a.scale.Ratio) {
		return a, err
	}
	sheet.Size = widePaper(u)
	if n.papers, err = papersFor(sheet, u); err != nil {
		return a, err
	}
	if wide, err := arrange(n); err == nil && (a.scale.Ratio == 0 || wide.scale.Ratio < a.scale.Ratio) {
		return wide, nil
	}
	return a, err
}

// papersFor returns the papers a sheet may use, each way up that is allowed.
func papersFor(s job.Sheet, u plane.Units) ([]drawing.Paper, error) {
	name := s.Size
	if name == "" {
		name = sitePaper(u)
	}
	p, ok := drawing.PaperNamed(name)
	if !ok {
		return nil, fmt.Errorf("%q is not a sheet size; use A4, A3, A2, letter, tabloid or arch C", s.Size)
	}
	switch s.Orientation {
	case "portrait":
		return []drawing.Paper{p.Portrait()}, nil
	case "landscape":
		return []drawing.Paper{p.Landscape()}, nil
	}
	return []drawing.Paper{p.Landscape(), p.Portrait()}, nil
}

// sitePaper is the sheet usual on a site, where the job asks for none.
func sitePaper(u plane.Units) string {
	if u == plane.Inches {
		return "tabloid"
	}
	return "A3"
}

// widePaper is the next larger sheet.
func widePaper(u plane.Units) string {
	if u == plane.Inches {
		return "arch C"
	}
	return "A2"
}

// crowded is the distance between runs, mm on paper, below which they are hard
// to count.
const crowded = 2.5

// narrow reports whether the runs of a room lie too close on paper to be
// counted.
func narrow(r *layout.Room, ratio float64) bool {
	for _, c := range r.Cables {
		if c.Spacing > 0 && c.Spacing/ratio < crowded {
			return true
		}
	}
	return false
}

// largest is the largest scale that a floor is drawn at when the job asks for
// none: beyond it the sheet gains nothing.
const largest = 5

func scalesFor(j *job.Job) ([]drawing.Scale, error) {
	u := figuresOf(j).units
	if j.Sheet.Ratio != 0 {
		s, ok := drawing.ScaleOf(j.Sheet.Ratio, u)
		if !ok {
			return nil, fmt.Errorf("%s is not a standard scale", j.Sheet.Scale)
		}
		return []drawing.Scale{s}, nil
	}
	var out []drawing.Scale
	for _, s := range drawing.ScalesFor(u) {
		if s.Ratio >= largest {
			out = append(out, s)
		}
	}
	return out, nil
}

// titleFor returns the title block of a sheet of the job.
func titleFor(p *layout.Plan, title, kind string) titleBlock {
	return titleBlock{
		title: title, kind: kind, revision: lastRevision(p), info: p.Job.Info, n: 88, of: 88,
		units: unitsWords(p.Job.Sheet, figuresOf(p.Job).units), letter: p.Job.Sheet.Letterhead, scale: "-",
	}
}
