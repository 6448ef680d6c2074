package sheets

import (
	"fmt"

	"oxturn/drawing"
	"oxturn/layout"
)

// RefitPlans draws a cable whose rest was planned anew: what is laid, what is
// still as planned and what is not, each marked unlike the others, with the new
// list of runs. p is the plan with the refit in its place, moves are
// the sensors that move by it.
func RefitPlans(p *layout.Plan, f *layout.Refit, moves []layout.SensorMove) ([]*drawing.Sheet, error) {
	var room *layout.Room
	for i := range p.Rooms {
		if p.Rooms[i].Job == f.Room.Job {
			room = &p.Rooms[i]
		}
	}
	if room == nil {
		return nil, fmt.Errorf("the plan has no room %q", f.Room.Job.Name)
	}
	s := roomScene(kindNamed("refit"), room)
	s.partly = true
	s.ID, s.Title = s.ID+"-"+f.New.ID, s.Title+" "+f.New.ID
	if len(f.Laid) < 2 {
		s.Form += ", real pegs"
	}
	s.draw = func(v *roomView) { v.drawRefit(f) }
	s.levels = func(v *roomView) []level { return refitLevels(v, f, moves) }
	pages, err := s.pages(p)
	if err != nil {
		return nil, err
	}
	return numbered(pages), nil
}

func (v *roomView) drawRefit(f *layout.Refit) {
	v.walls()
	v.drawOpenings()
	v.riseInWall()
	v.fixtures()
	v.joints()
	v.plannedLine(f.Before(), f.New.Path, 2*plannedStep)
	if len(f.Laid) > 1 {
		v.band(f.New, "laid", 0, f.Way, laidBand(), signLaid)
	}
	if n := f.Change.From; n > 0 {
		v.band(f.New, "planned anew", max(f.WayBefore(n), f.Way), f.New.Routed, mistakenBand(), signAnew)
	}
	v.cables()
	v.marks()
	v.sensors()
	v.thermostat()
	v.drawDatums()
	v.dimensions(v.room.Job)
	v.wallLetters()
}

// band marks a cable from one length along its path to another.
func (v *roomView) band(c *layout.Cable, title string, from, to float64, st *drawing.Stroke, s sign) {
	line := stretchOf(c.Path, c.BendRadius, from, to)
	if len(line) < 2 {
		return
	}
	v.sign(s, drawing.LayerHatch, title, drawing.Rounded(v.view.Pts(line), v.view.Len(c.BendRadius)), st, nil)
}

func refitLevels(v *roomView, f *layout.Refit, moves []layout.SensorMove) []level {
	stands := list{head: "Where laying stands"}
	for _, s := range f.Summary(v.fig.units) {
		stands.paras = append(stands.paras, capital(s)+".")
	}
	for _, m := range moves {
		stands.paras = append(stands.paras, "Sensor "+m.Words(layout.NewTape(v.room.Job, v.fig.units))+".")
	}
	runs := v.refitRuns(f)
	signs, notes, revised := legendOf(v.used), v.notes(), revisions(v.plan)
	return []level{
		{blocks: []block{stands, v.locations(), v.refitMarks(f), runs, signs, notes, revised}},
		{blocks: []block{stands, v.locations(), v.refitMarks(f), signs, notes}, rest: []block{runs, revised}, gain: 1.3},
		{blocks: []block{stands, v.refitMarks(f), signs, v.locations(), notes, runs, revised}, gain: 1.3, overflow: true},
	}
}

// refitRuns lists all runs, what is laid and what is new among them.
func (v *roomView) refitRuns(f *layout.Refit) block {
	t := table{head: "Runs of " + f.New.ID, cols: []column{
		{head: "Run", align: decimal}, {head: "Towards", wraps: true}, {head: "Pegs", align: decimal}, {head: "To next, pegs", align: decimal}, {head: "Used, " + v.fig.longUnit(), align: decimal}, {head: "State"},
	}}
	for _, r := range f.New.Runs {
		next, state := "-", "as planned"
		if r.GapToNext > 0 {
			next = itoa(r.GapToNext)
		}
		switch {
		case f.Change.From > 0 && r.Number >= f.Change.From:
			state = "new"
		case f.InPart(r):
			state = "laid in part"
		case r.Number <= f.Runs:
			state = "laid"
		}
		t.rows = append(t.rows, row(f.New.RunName(r.Number), layout.Towards(v.room.Job, r.To, r.To.Sub(r.From)), itoa(r.Pegs), next, v.fig.longFigure(r.RunningEnd), state))
	}
	return t
}

// refitMarks says on which run the marks and the end are to come.
func (v *roomView) refitMarks(f *layout.Refit) block {
	t := table{head: "Where the marks will come", cols: []column{
		{head: "Mark", wraps: true}, {head: "Used, " + v.fig.longUnit(), align: decimal}, {head: "On run", align: decimal}, {head: "Pegs into it", align: decimal},
	}}
	for _, m := range f.New.Marks {
		t.rows = append(t.rows, row(m.Name, v.fig.longFigure(m.Along), f.New.RunName(m.Run), fmt.Sprintf("%.0f", m.Into/v.plan.Job.Membrane.Pitch)))
	}
	t.rows = append(t.rows, row("END", v.fig.longFigure(f.New.Label.Length), f.New.RunName(len(f.New.Runs)), "-"))
	return t
}
