package sheets

import (
	"fmt"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/refit"
)

// RefitPlans draws a cable whose rest was planned anew: what is laid, what is
// still as planned and what is not, each marked unlike the others, with the new
// list of runs. p is the plan with the refit in its place, moves are
// the sensors that move by it.
func RefitPlans(p *layout.Plan, f *refit.Refit, moves []refit.SensorMove) ([]*drawing.Sheet, error) {
	var room *layout.Room
	for i := range p.Rooms {
		if p.Rooms[i].Job == f.Room.Job {
			room = &p.Rooms[i]
		}
	}
	if room == nil {
		return nil, fmt.Errorf("the plan has no room %q", f.Room.Job.Name)
	}
	s := floorplan.OfRoom(kindNamed("refit"), room)
	s.Partly = true
	s.ID, s.Title = s.ID+"-"+f.New.ID, p.Job.Language.Text(s.Title)+" "+f.New.ID
	if len(f.Laid) < 2 {
		s.Form = p.Job.Language.Text("Refit plan, real pegs")
	}
	s.Draw = func(v *floorplan.View) { drawRefit(v, f) }
	s.Levels = func(v *floorplan.View) []setting.Level { return refitLevels(v, f, moves) }
	pages, err := s.Pages(p)
	if err != nil {
		return nil, err
	}
	return numbered(pages), nil
}

func drawRefit(v *floorplan.View, f *refit.Refit) {
	v.Walls()
	v.DrawOpenings()
	v.RiseInWall()
	v.Fixtures()
	v.Joints()
	plannedLine(v, f.Before(), f.New.Path, 2*plannedStep)
	if len(f.Laid) > 1 {
		band(v, f.New, v.Fig.Text("laid"), 0, f.Way, signs.LaidBand(), signs.Laid)
	}
	if n := f.Change.From; n > 0 {
		band(v, f.New, v.Fig.Text("planned anew"), max(f.WayBefore(n), f.Way), f.New.Routed, signs.MistakenBand(),
			signs.Anew)
	}
	v.Cables()
	v.Marks()
	v.Sensors()
	v.Thermostat()
	v.DrawDatums()
	v.Dimensions(v.Room.Job)
	v.WallLetters()
}

// band marks a cable from one length along its path to another.
func band(v *floorplan.View, c *layout.Cable, title string, from, to float64, st *drawing.Stroke, s signs.Sign) {
	line := stretchOf(c.Path, c.BendRadius, from, to)
	if len(line) < 2 {
		return
	}
	v.Sign(s, drawing.LayerHatch, title, drawing.Rounded(v.Paper.Pts(line), v.Paper.Len(c.BendRadius)), st, nil)
}

func refitLevels(v *floorplan.View, f *refit.Refit, moves []refit.SensorMove) []setting.Level {
	stands := setting.List{Head: v.Fig.Text("Where laying stands")}
	for _, s := range f.Summary(v.Fig.Units) {
		stands.Paras = append(stands.Paras, capital(s)+".")
	}
	for _, m := range moves {
		stands.Paras = append(stands.Paras, v.Fig.Textf("Sensor %s.", m.Words(layout.NewTape(v.Room.Job, v.Fig.Units))))
	}
	runs := refitRuns(v, f)
	signs, notes, revised := legendOf(v), notes(v), revisions(v.Plan)
	return []setting.Level{
		{Blocks: []setting.Block{stands, v.Locations(), refitMarks(v, f), runs, signs, notes, revised}},
		{Blocks: []setting.Block{stands, v.Locations(), refitMarks(v, f), signs, notes},
			Rest: []setting.Block{runs, revised}, Gain: 1.15},
		{Blocks: []setting.Block{stands, refitMarks(v, f), signs, v.Locations(), notes, runs, revised}, Gain: 1.15,
			Overflow: true},
	}
}

// refitRuns lists all runs, what is laid and what is new among them.
func refitRuns(v *floorplan.View, f *refit.Refit) setting.Block {
	t := setting.Table{Head: v.Fig.Textf("Runs of %s", f.New.ID), Cols: []setting.Column{
		{Head: v.Fig.Text("Run"), Align: setting.Decimal}, {Head: v.Fig.Text("To wall"), Wraps: true},
		{Head: countHead(v), Align: setting.Decimal},
		{Head: nextHead(v), Align: setting.Decimal}, {Head: v.Fig.Textf("Used, %s", v.Fig.LongUnit()),
			Align: setting.Decimal},
		{Head: v.Fig.Text("State")},
	}}
	for _, r := range f.New.Runs {
		next, state := "-", v.Fig.Text("as planned")
		if r.GapToNext > 0 {
			next = strconv.Itoa(r.GapToNext)
		}
		switch {
		case f.Change.From > 0 && r.Number >= f.Change.From:
			state = v.Fig.Text("new")
		case f.InPart(r):
			state = v.Fig.Text("laid in part")
		case r.Number <= f.Runs:
			state = v.Fig.Text("laid")
		}
		t.Rows = append(t.Rows, setting.Row(f.New.RunName(r.Number),
			wallAlone(v, r),
			strconv.Itoa(r.Pegs), next, v.Fig.LongFigure(r.RunningEnd), state))
	}
	return t
}

// nextHead is what the way to the next run is counted in.
func nextHead(v *floorplan.View) string {
	if v.Plan.Job.Strips != nil {
		return v.Fig.Text("To next, clips")
	}
	return v.Fig.Text("To next, pegs")
}

// refitMarks says on which run the marks and the end are to come.
func refitMarks(v *floorplan.View, f *refit.Refit) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Where the marks will come"), Cols: []setting.Column{
		{Head: v.Fig.Text("Mark"), Wraps: true}, {Head: v.Fig.Textf("Used, %s", v.Fig.LongUnit()),
			Align: setting.Decimal},
		{Head: v.Fig.Text("On run"), Align: setting.Decimal}, {Head: intoHead(v), Align: setting.Decimal},
	}}
	for _, m := range f.New.Marks {
		n, _ := f.New.InPegs(m)
		t.Rows = append(t.Rows, setting.Row(m.Name, v.Fig.LongFigure(m.Along), f.New.RunName(m.Run),
			fmt.Sprintf("%.0f", n)))
	}
	t.Rows = append(t.Rows, setting.Row(v.Fig.Text("END"), v.Fig.LongFigure(f.New.Label.Length),
		f.New.RunName(len(f.New.Runs)),
		"-"))
	return t
}
