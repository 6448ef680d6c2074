package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/load"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// testRecord sets the card of one cable: its label, the limits that follow
// from it, and a row to be filled in by hand at every stage. Nothing is ever
// filled in that was not measured.
//
// It goes round the site on a clipboard and then to the panel with the owner's
// map: a form.
func testRecord(p *layout.Plan, r *layout.Room, c *layout.Cable) ([]*setting.Page, error) {
	papers := setting.FormPaper(p.Job)
	title := p.Job.Language.Textf("Test record - %s", c.ID)
	if r.Job.Name != "" {
		title += ", " + r.Job.Name
	}
	return tallestRows(papers, func(papers []drawing.Paper, w writing) ([]*setting.Page, error) {
		return setting.ListSheets(p, papers, "test-record-"+setting.Slug(c.ID), title,
			p.Job.Language.Text("Test record"),
			recordBlocks(p, r, c, w))
	})
}

// writing is how tall the rows are that are written in by hand, mm: those of
// the readings and the others.
type writing struct{ readings, others float64 }

// Rows are no lower than can be written in, and no taller than leaves room to
// write on a print at half size.
const (
	rowLowest  = 7.0
	rowTallest = 16.0
)

// tallestRows sets a record on the first of the papers that takes the fewest
// sheets, with rows as tall as they can be without a further one.
func tallestRows(papers []drawing.Paper, set func([]drawing.Paper, writing) ([]*setting.Page,
	error)) (best []*setting.Page, err error) {
	rows := writing{rowLowest, rowLowest}
	if best, err = set(papers, rows); err != nil {
		return nil, err
	}
	fits := func(pages []*setting.Page, err error) bool {
		return err == nil && len(pages) <= len(best) && stagesOn(pages[0]) >= stagesOn(best[0])
	}
	for _, step := range []writing{{1, 1}, {1, 0}, {0, 1}} {
		for {
			next := writing{rows.readings + step.readings, rows.others + step.others}
			if max(next.readings, next.others) > rowTallest {
				break
			}
			pages, err := set([]drawing.Paper{best[0].Sheet.Paper}, next)
			if !fits(pages, err) {
				if pages, err = set(papers, next); !fits(pages, err) {
					break
				}
			}
			best, rows = pages, next
		}
	}
	return best, nil
}

// stagesOn counts the stages that have their row on a page.
func stagesOn(pg *setting.Page) int {
	n := 0
	for _, it := range pg.Sheet.Items {
		if t, ok := it.(*drawing.Text); ok && slices.Contains(stages(pg.Plan.Job.Figures()), t.Text) {
			n++
		}
	}
	return n
}

// recordBlocks are the parts of a test record.
func recordBlocks(p *layout.Plan, r *layout.Room, c *layout.Cable, w writing) []setting.Block {
	f := p.Job.Figures()
	stages, found, sign := stageTable(f, c), foundTable(c, f, r), signTable(f)
	stages.Tall = w.readings
	found.Tall, sign.Tall = w.others, w.others
	blocks := append([]setting.Block{labelTable(c, f), stages}, judged(f, c)...)
	sensor, said := sensorTable(p.Job.Sensor, f)
	notes := setting.List{Span: true, Number: 1, Paras: append(testNotes(p.Job.Region(), f), said...)}
	if p.FullUse != nil {
		notes.Paras = append(notes.Paras, f.Textf("Earliest full use: %s.", p.FullUse.Words(f.Language)))
	}
	return slices.Concat(blocks, []setting.Block{found, sign}, sensor, []setting.Block{notes})
}

// A whole block stays in one piece.
type whole struct{ setting.Block }

// labelTable copies the label and states the limits before anyone measures.
func labelTable(c *layout.Cable, f say.Figures) setting.Table {
	o, l := c.Circuit, c.RecordLimits()
	t := setting.Table{Span: true, Cols: []setting.Column{
		{Head: f.Textf("%s, label", c.ID), Wraps: true}, {Head: f.Text("Volts"), Align: setting.Decimal},
		{Head: f.Text("Watts"), Align: setting.Decimal}, {Head: f.Text("Amps"), Align: setting.Decimal},
		{Head: f.Text("Length"), Align: setting.Decimal}, {Head: f.Text("Ohms at 20 °C"), Group: true,
			Align: setting.Decimal},
		{Head: f.Text("from"), Wraps: true}, {Head: f.Text("Ω, least to most"), Wraps: true, Group: true},
		{Head: f.Text("by"), Wraps: true}, {Head: f.Text("Least MΩ"), Align: setting.Decimal, Group: true},
		{Head: f.Text("at V dc"), Align: setting.Decimal}, {Head: f.Text("from"), Wraps: true},
	}}
	t.Rows = [][]setting.Cell{setting.Row(c.Label.ID, f.Plain(c.Label.Volts),
		f.Plain(c.Label.Watts), orDash(o.Amps, f.AmpsFigure), f.Long(c.Label.Length),
		orDash(o.Nominal, f.OhmsFigure), f.Text(o.OhmsFrom), f.OhmsFigures(o.Limits.Low, o.Limits.High),
		f.Tolerance(o.Limits.LowShare, o.Limits.HighShare)+", "+f.Text(o.Limits.Source),
		f.Plain(l.Megohms), f.Plain(l.Volts), f.Text(l.MegohmsSource))}
	t.Rows[0][7].Strong, t.Rows[0][9].Strong = true, true
	return t
}

// stages are the moments at which a cable is measured, in order.
func stages(f say.Figures) []string {
	return []string{
		f.Text("0 on the spool"), f.Text("1 laid, before cover"), f.Text("HOLD: inspection"),
		f.Text("2 after fill and cover"), f.Text("3 after tile"),
		f.Text("4 after grout"), f.Text("5 hook-up"), f.Text("6 later service"),
	}
}

// stageTable is the record itself: every box empty but for the readings that
// the job has.
func stageTable(f say.Figures, c *layout.Cable) setting.Table {
	l := c.Circuit.Limits
	t := setting.Table{Span: true, Cols: []setting.Column{{Head: f.Text("Stage"), Wraps: true, Least: 33}}}
	for _, h := range []struct {
		head  string
		least float64
	}{
		{f.Text("Date, time, by"), 19}, {f.Text("Floor °C/°F"), 12}, {"L-N Ω (" + f.OhmsFigures(l.Low, l.High) + ")",
			15},
		{f.Text("L to braid Ω"), 12}, {f.Text("N to braid Ω"), 12}, {f.Textf("MΩ (%s least)",
			f.Plain(c.RecordLimits().Megohms)), 15},
		{"S1 kΩ", 9}, {"S2 kΩ", 9}, {f.Text("Alarm, photo"), 13}, {f.Text("OK, signed"), 17},
	} {
		t.Cols = append(t.Cols, setting.Column{Head: h.head, Wraps: true, Least: h.least, Group: true})
	}
	for _, s := range stages(f) {
		r := make([]setting.Cell, len(t.Cols))
		r[0] = setting.Cell{Text: s, Strong: s[0] == 'H'}
		t.Rows = append(t.Rows, withReadings(f, r, c)...)
	}
	return t
}

// stageRows are the rows of the test record, by the stage of a reading.
func stageRows(f say.Figures) map[record.Stage]string {
	s := stages(f)
	return map[record.Stage]string{record.OnSpool: s[0], record.Laid: s[1], record.Covered: s[3], record.Tiled: s[4],
		record.Grouted: s[5], record.HookUp: s[6], record.Service: s[7]}
}

// withReadings returns a stage's row once for each reading taken at it, or as
// it is where there is none yet. OK and signature stay empty: they are a person's.
func withReadings(f say.Figures, r []setting.Cell, c *layout.Cable) [][]setting.Cell {
	readings, _, err := c.Readings()
	var out [][]setting.Cell
	for _, x := range readings {
		if err != nil || stageRows(f)[x.Stage] != r[0].Text {
			continue
		}
		n := append([]setting.Cell{}, r...)
		for i, text := range readingTexts(f, x) {
			n[i+1].Text = text
		}
		out = append(out, n)
	}
	if len(out) > 0 {
		return out
	}
	for _, s := range load.SkippedStages(c) {
		if stageRows(f)[s] == r[0].Text {
			r[1] = setting.Cell{Text: f.Text(notTested), Strong: true}
		}
	}
	return [][]setting.Cell{r}
}

// notTested stands in the row of a stage that was gone over, as a later one has a
// reading.
const notTested = "NOT TESTED"

// readingTexts fills the boxes from the date to the spare sensor.
func readingTexts(f say.Figures, x record.Reading) []string {
	figure := func(f record.Figure, write func(float64) string) string {
		if !f.Taken {
			return ""
		}
		if f.Over {
			return "> " + write(f.Value)
		}
		return write(f.Value)
	}
	date, floor, insulation := "", "", figure(x.Insulation, f.Plain) // of a bad cable, less than a whole one
	if !x.Date.IsZero() {
		date = x.Date.Format("2006-01-02")
	}
	if x.Floor.Taken {
		floor = fmt.Sprintf("%.0f / %.0f", x.Floor.Value, say.Fahrenheit(x.Floor.Value))
	}
	if insulation != "" {
		insulation += f.Textf(" at %s", f.Volts(x.Volts))
	}
	hand := [...]string{record.NotTried: "", record.Open: f.Text("open"), record.Connected: f.Text("CONNECTED")}[x.Hand]
	return []string{strings.TrimSpace(date + " " + x.By), floor, figure(x.Ohms, f.OhmsFigure), hand, hand, insulation,
		figure(x.Sensor, f.Kilohms), figure(x.Spare, f.Kilohms)}
}

// judged lists what is to be said of the readings the job has, beyond that they
// are within their limits; nothing where there are none.
func judged(f say.Figures, c *layout.Cable) []setting.Block {
	_, verdicts, err := c.Readings()
	t := setting.Table{Head: f.Text("Held against the limits"), Span: true,
		Cols: []setting.Column{{Head: f.Text("Stage"), Wraps: true},
			{Head: f.Text("Reading"), Wraps: true, Group: true}, {Head: f.Text("Result"), Wraps: true, Group: true},
			{Head: f.Text("Why"),
				Wraps: true, Group: true}}}
	for _, v := range verdicts {
		if err == nil && (v.Grade == record.Outside || v.Grade == record.Look) {
			r := setting.Row(stageRows(f)[v.Stage], f.Text(v.Item), f.Text(v.Grade.String()), v.Words.In(f.Language))
			r[2].Strong = v.Grade == record.Outside
			t.Rows = append(t.Rows, r)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []setting.Block{t}
}

// foundTable compares what was planned with what was found, beside what only the site knows.
func foundTable(c *layout.Cable, f say.Figures, r *layout.Room) setting.Table {
	half := "-"
	if len(c.Marks) > 1 {
		m := c.Halfway()
		half = f.Textf("run %s, %s into it", c.RunName(m.Run), floorplan.UnbrokenWords(withUnit(f, m.Into)))
	}
	return setting.Table{Span: true, Cols: []setting.Column{{Wraps: true, Least: 32},
		{Head: f.Text("Planned"), Wraps: true, Least: 26}, {Head: f.Text("Found"), Wraps: true, Least: 30, Group: true},
		{Wraps: true, Least: 42, Group: true}, {Wraps: true, Least: 38, Group: true}},
		Rows: [][]setting.Cell{
			setting.Row(f.Text("Half-way mark"), half, "", f.Text("Lot, date of the label"), recorded(c).Lot),
			setting.Row(f.Text("Runs; lead on floor"),
				strconv.Itoa(len(c.Runs))+f.Joint("; ")+f.Long(plane.PathLength(c.ColdLead)),
				leadCut(f, recorded(c)),
				f.Text("Insulation tester, volts"), recorded(c).Tester),
			setting.Row(f.Text("Middle of box over finished floor"), withUnit(f, r.Job.Thermostat.Height), "",
				f.Text("Trip test"),
				recorded(c).TripTest),
			setting.Row(f.Text("At hook-up"), f.Volts(c.Label.Volts)+", "+orDash(c.Circuit.Amps, f.Amps),
				atHookUp(f, recorded(c)), f.Text("Changed from the plan"), ""),
			setting.Row(f.Text("Capacitance"), f.Text("to braid"), capacitance(f, c),
				f.Text("Photographs kept where"), ""),
		}}
}

// recorded is what the job says of a cable as it lies; empty where it says nothing.
func recorded(c *layout.Cable) *job.Laid {
	if c.Laid == nil {
		return &job.Laid{}
	}
	return c.Laid.Job
}

// leadCut is what each cold lead was trimmed to, empty where that is not recorded.
func leadCut(f say.Figures, a *job.Laid) string {
	if a.Lead == 0 {
		return ""
	}
	return f.Textf("lead cut to %s", f.Long(a.Lead))
}

// atHookUp are the volts and amps that were read with the floor on.
func atHookUp(f say.Figures, a *job.Laid) string {
	var out []string
	if a.Volts > 0 {
		out = append(out, f.Volts(a.Volts))
	}
	if a.Amps > 0 {
		out = append(out, f.AmpsGiven(a.Amps))
	}
	return strings.Join(out, ", ")
}

// withUnit is length with mm behind millimetres.
func withUnit(f say.Figures, mm float64) string {
	if f.Units == plane.Millimetres && !f.Both {
		return f.Textf("%s mm", f.Length(mm))
	}
	return f.Length(mm)
}

// twoAbreast sets the second half of the rows beside the first, in a table as
// wide as the sheet.
func twoAbreast(head string, cols []setting.Column, rows [][]setting.Cell) setting.Table {
	half := (len(rows) + 1) / 2
	t := setting.Table{Head: head, Span: true, Cols: append(slices.Clone(cols), cols...)}
	t.Cols[len(cols)].Group = true
	for i := range half {
		other := make([]setting.Cell, len(cols))
		if half+i < len(rows) {
			other = rows[half+i]
		}
		t.Rows = append(t.Rows, append(slices.Clone(rows[i]), other...))
	}
	return t
}

// holdHead stands over the signatures that everything waits for.
const holdHead = "HOLD: cover nothing before it has passed and this is signed"

func signTable(f say.Figures) setting.Table {
	cols := []setting.Column{{Wraps: true, Least: 20}, {Head: f.Text("Name"), Wraps: true, Least: 22, Group: true},
		{Head: f.Text("Date"), Least: 15, Group: true}, {Head: f.Text("Signature"), Wraps: true, Least: 24,
			Group: true}}
	return twoAbreast(f.Text(holdHead), cols, [][]setting.Cell{setting.Row(f.Text("Installer"), "", "", ""),
		setting.Row(f.Text("Electrician"),
			"", "", ""), setting.Row(f.Text("Inspector"), "", "", ""), setting.Row(f.Text("Owner"), "", "", "")})
}

func testNotes(in circuit.Region, f say.Figures) []string {
	return []string{
		everyStage.text(in, f), dischargeMeter.text(in, f),
		f.Text("Write values, not \"OK\". An open circuit on a hand meter is no insulation test. A fall to a tenth " +
			"of the first reading matters even above the least."),
	}
}

// allRecords returns the cards of every cable of the plan.
func allRecords(p *layout.Plan) ([]*setting.Page, error) {
	var out []*setting.Page
	for i := range p.Rooms {
		r := &p.Rooms[i]
		for k := range r.Cables {
			pg, err := testRecord(p, r, &r.Cables[k])
			if err != nil {
				return nil, err
			}
			out = append(out, pg...)
		}
	}
	return out, nil
}

// capacitance returns the last one read, for a break that may come years later.
func capacitance(f say.Figures, c *layout.Cable) string {
	out := "nF"
	if c.Laid != nil {
		for _, r := range c.Laid.Job.Readings {
			if r.Capacitance.Taken {
				out = f.Nanofarads(r.Capacitance.Value)
			}
		}
	}
	return out
}
