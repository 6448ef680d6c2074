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

// testRecord sets the card of one cable, or of two of a room: their labels, the limits that follow
// from them, and a row to be filled in by hand at every stage. Nothing is ever
// filled in that was not measured.
//
// It goes round the site on a clipboard and then to the panel with the owner's
// map: a form.
func testRecord(p *layout.Plan, r *layout.Room, cs ...*layout.Cable) ([]*setting.Page, error) {
	papers := setting.FormPaper(p.Job)
	var ids []string
	for _, c := range cs {
		ids = append(ids, c.ID)
	}
	title := p.Job.Language.Textf("Test record - %s", strings.Join(ids, ", "))
	if r.Job.Name != "" {
		title += ", " + r.Job.Name
	}
	return tallestRows(papers, func(papers []drawing.Paper, w writing) ([]*setting.Page, error) {
		return setting.ListSheets(p, papers, recordID+"-"+setting.Slug(strings.Join(ids, "-")), title,
			p.Job.Language.Text("Test record"),
			recordBlocks(p, r, cs, w))
	})
}

// recordID is the kind of the test records.
const recordID = "test-record"

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
func recordBlocks(p *layout.Plan, r *layout.Room, cs []*layout.Cable, w writing) []setting.Block {
	f := p.Job.Figures()
	stages, found, sign := stageTable(f, cs), foundTable(cs, f, r), signTable(f)
	stages.Tall = w.readings
	found.Tall, sign.Tall = w.others, w.others
	blocks := append([]setting.Block{labelTable(cs, f), stages}, judged(f, cs)...)
	sensor, said := sensorTable(p.Job.Sensor, f, len(cs) > 1)
	notes := setting.List{Span: true, Number: 1, Paras: testNotes(p.Job.Region(), f)}
	if p.FullUse != nil {
		said = append(said, fullUse(f, p.FullUse))
	}
	last := []setting.Block{notes}
	if len(cs) > 1 { // what is looked up rather than kept to
		last = append(last, setting.List{Span: true, Number: len(notes.Paras) + 1, Paras: append(limitsFrom(cs, f),
			said...), Fine: true})
	} else {
		notes.Paras = append(notes.Paras, said...)
		last[0] = notes
	}
	return slices.Concat(blocks, []setting.Block{found, sign}, sensor, last)
}

// A whole block stays in one piece.
type whole struct{ setting.Block }

// fullUse says when the floor may be used in full: where that is open, the wait that decides it.
func fullUse(f say.Figures, use *layout.FullUse) string {
	if len(use.Open) == 0 || use.Screed != "" {
		return f.Textf("Earliest full use: %s.", use.Words(f.Language))
	}
	c, by := use.Longest(), ""
	if c.Days == 0 {
		by = f.Text(" (not stated, default)")
	}
	return f.Textf("Earliest full use: open; the longest wait is %d days, for the %s%s.", c.Wait(), f.Text(c.Layer), by)
}

// labelTable copies the labels and states the limits before anyone measures. Where those of several come from is
// said below their record.
func labelTable(cs []*layout.Cable, f say.Figures) setting.Table {
	if len(cs) > 1 {
		return labelsTable(cs, f)
	}
	c := cs[0]
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
		tolerance(c, f), f.Plain(l.Megohms), f.Plain(l.Volts), f.Text(l.MegohmsSource))}
	t.Rows[0][7].Strong, t.Rows[0][9].Strong = true, true
	return t
}

// tolerance is how far a cable's ohms may lie off, and by what.
func tolerance(c *layout.Cable, f say.Figures) string {
	l := c.Circuit.Limits
	return f.Tolerance(l.LowShare, l.HighShare) + ", " + f.Text(l.Source)
}

// labelsTable has the labels and limits of several cables, a row each.
func labelsTable(cs []*layout.Cable, f say.Figures) setting.Table {
	t := setting.Table{Span: true, Cols: []setting.Column{{Head: f.Text("Label"), Wraps: true}}}
	for i, head := range []string{f.Text("Volts"), f.Text("Watts"), f.Text("Amps"), f.Text("Length"),
		f.Text("Ohms at 20 °C"), f.Text("Ω, least to most"), f.Text("Least MΩ"), f.Text("at V dc")} {
		t.Cols = append(t.Cols, setting.Column{Head: head, Align: setting.Decimal, Group: i == 4 || i == 6})
	}
	t.Cols[6].Align = setting.Left
	for _, c := range cs {
		o, l := c.Circuit, c.RecordLimits()
		row := setting.Row(c.ID+" "+c.Label.ID, f.Plain(c.Label.Volts), f.Plain(c.Label.Watts),
			orDash(o.Amps, f.AmpsFigure), f.Long(c.Label.Length), orDash(o.Nominal, f.OhmsFigure),
			f.OhmsFigures(o.Limits.Low, o.Limits.High), f.Plain(l.Megohms), f.Plain(l.Volts))
		row[6].Strong, row[7].Strong = true, true
		t.Rows = append(t.Rows, row)
	}
	return t
}

// limitsFrom says where the labels' figures and limits come from, those of cables alike together.
func limitsFrom(cs []*layout.Cable, f say.Figures) (out []string) {
	var of [][]string
	for _, c := range cs {
		said := f.Textf("ohms %s; their limits %s; insulation %s.", f.Text(c.Circuit.OhmsFrom), tolerance(c, f),
			f.Text(c.RecordLimits().MegohmsSource))
		if i := slices.Index(out, said); i >= 0 {
			of[i] = append(of[i], c.ID)
			continue
		}
		out, of = append(out, said), append(of, []string{c.ID})
	}
	for i := range out {
		out[i] = strings.Join(of[i], ", ") + f.Joint(": ") + out[i]
	}
	return out
}

// stages are the moments at which a cable is measured, in order.
func stages(f say.Figures) []string {
	return []string{
		f.Text("0 on the spool"), f.Text("1 laid, before cover"), f.Text("HOLD: inspection"),
		f.Text("2 after fill and cover"), f.Text("3 after tile"),
		f.Text("4 after grout"), f.Text("5 hook-up"), f.Text("6 later service"),
	}
}

// holdStage is which of the stages is no measurement: nothing is covered before it.
const holdStage = 2

// stageTable is the record itself: every box empty but for the readings that
// the job has. Two cables have a row each, but for the hold of both.
func stageTable(f say.Figures, cs []*layout.Cable) setting.Table {
	t := setting.Table{Span: true, Cols: []setting.Column{{Head: f.Text("Stage"), Wraps: true, Least: 33}}}
	several, date, ohms, alarm, signed, unit := len(cs) > 1, 19.0, 15.0, 13.0, 17.0, ""
	if several { // a row must be no taller than a hand needs
		t.Cols = []setting.Column{{Head: f.Text("Stage"), Wraps: true, Least: 34}, {Least: 7.5}}
		date, ohms, alarm, signed, unit = 17, 14, 14, 15, " Ω"
	}
	for _, h := range []struct {
		head  string
		least float64
	}{
		{f.Text("Date, time, by"), date}, {f.Text("Floor °C/°F"), 12}, {ohmsHead(f, cs), ohms},
		{strings.TrimSuffix(f.Text("L to braid Ω"), unit), 12}, {strings.TrimSuffix(f.Text("N to braid Ω"), unit), 12},
		{megohmsHead(f, cs), 15},
		{"S1 kΩ", 9}, {"S2 kΩ", 9}, {f.Text("Alarm, photo"), alarm}, {f.Text("OK, signed"), signed},
	} {
		t.Cols = append(t.Cols, setting.Column{Head: h.head, Wraps: true, Least: h.least, Group: true})
	}
	for n, s := range stages(f) {
		hold := n == holdStage
		for i, c := range cs {
			if i > 0 && hold {
				break
			}
			for _, boxes := range withReadings(f, s, c) {
				row := []setting.Cell{{Text: s, Strong: hold}}
				if i > 0 {
					row[0].Text = ""
				}
				switch {
				case several && hold:
					row = append(row, setting.Cell{})
				case several:
					row = append(row, setting.Cell{Text: c.ID})
				}
				t.Rows = append(t.Rows, append(row, boxes...))
			}
		}
	}
	return t
}

// ohmsHead is over the ohms of a cable, with its limits; those of several are with their labels.
func ohmsHead(f say.Figures, cs []*layout.Cable) string {
	if l := cs[0].Circuit.Limits; len(cs) == 1 {
		return "L-N Ω (" + f.OhmsFigures(l.Low, l.High) + ")"
	}
	return "L-N Ω"
}

// megohmsHead is over the insulation, with the least that all are held to.
func megohmsHead(f say.Figures, cs []*layout.Cable) string {
	least := cs[0].RecordLimits().Megohms
	if slices.ContainsFunc(cs, func(c *layout.Cable) bool { return c.RecordLimits().Megohms != least }) {
		return "MΩ"
	}
	return f.Textf("MΩ (%s least)", f.Plain(least))
}

// stageRows are the rows of the test record, by the stage of a reading.
func stageRows(f say.Figures) map[record.Stage]string {
	s := stages(f)
	return map[record.Stage]string{record.OnSpool: s[0], record.Laid: s[1], record.Covered: s[3], record.Tiled: s[4],
		record.Grouted: s[5], record.HookUp: s[6], record.Service: s[7]}
}

// stageBoxes is how many boxes a stage has to be filled in.
const stageBoxes = 10

// withReadings returns a stage's boxes once for each reading of a cable taken at it, or empty
// where there is none yet. OK and signature stay empty: they are a person's.
func withReadings(f say.Figures, stage string, c *layout.Cable) [][]setting.Cell {
	readings, _, err := c.Readings()
	var out [][]setting.Cell
	for _, x := range readings {
		if err != nil || stageRows(f)[x.Stage] != stage {
			continue
		}
		boxes := make([]setting.Cell, stageBoxes)
		for i, text := range readingTexts(f, x) {
			boxes[i].Text = text
		}
		out = append(out, boxes)
	}
	if len(out) > 0 {
		return out
	}
	boxes := make([]setting.Cell, stageBoxes)
	for _, s := range load.SkippedStages(c) {
		if stageRows(f)[s] == stage {
			boxes[0] = setting.Cell{Text: f.Text(notTested), Strong: true}
		}
	}
	return [][]setting.Cell{boxes}
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
func judged(f say.Figures, cs []*layout.Cable) []setting.Block {
	t := setting.Table{Head: f.Text("Held against the limits"), Span: true,
		Cols: []setting.Column{{Head: f.Text("Stage"), Wraps: true},
			{Head: f.Text("Reading"), Wraps: true, Group: true}, {Head: f.Text("Result"), Wraps: true, Group: true},
			{Head: f.Text("Why"),
				Wraps: true, Group: true}}}
	for _, c := range cs {
		_, verdicts, err := c.Readings()
		for _, v := range verdicts {
			if err == nil && (v.Grade == record.Outside || v.Grade == record.Look) {
				stage := stageRows(f)[v.Stage]
				if len(cs) > 1 {
					stage = c.ID + ", " + stage
				}
				r := setting.Row(stage, f.Text(v.Item), f.Text(v.Grade.String()), v.Words.In(f.Language))
				r[2].Strong = v.Grade == record.Outside
				t.Rows = append(t.Rows, r)
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []setting.Block{t}
}

// A plannedFound is what is compared of a cable: as planned, and as found where that is recorded.
type plannedFound struct{ planned, found string }

// compared are a cable's half-way mark, runs and lead, volts and amps, and capacitance, in that order.
func compared(c *layout.Cable, f say.Figures) []plannedFound {
	half := "-"
	if len(c.Marks) > 1 {
		m := c.Halfway()
		half = f.Textf("run %s, %s into it", c.RunName(m.Run), floorplan.UnbrokenWords(withUnit(f, m.Into)))
	}
	return []plannedFound{
		{half, ""},
		{strconv.Itoa(len(c.Runs)) + f.Joint("; ") + f.Long(plane.PathLength(c.ColdLead)), leadCut(f, recorded(c))},
		{f.Volts(c.Label.Volts) + ", " + orDash(c.Circuit.Amps, f.Amps), atHookUp(f, recorded(c))},
		{f.Text("to braid"), capacitance(f, c)},
	}
}

// foundTable compares what was planned with what was found, beside what only the site knows.
func foundTable(cs []*layout.Cable, f say.Figures, r *layout.Room) setting.Table {
	if len(cs) > 1 {
		return foundOfSeveral(cs, f, r)
	}
	c := cs[0]
	of := compared(c, f)
	row := func(i int, what, site, known string) []setting.Cell {
		return setting.Row(what, of[i].planned, of[i].found, site, known)
	}
	return setting.Table{Span: true, Cols: []setting.Column{{Wraps: true, Least: 32},
		{Head: f.Text("Planned"), Wraps: true, Least: 26}, {Head: f.Text("Found"), Wraps: true, Least: 30, Group: true},
		{Wraps: true, Least: 42, Group: true}, {Wraps: true, Least: 38, Group: true}},
		Rows: [][]setting.Cell{
			row(0, f.Text("Half-way mark"), f.Text("Lot, date of the label"), recorded(c).Lot),
			row(1, f.Text("Runs; lead on floor"), f.Text("Insulation tester, volts"), recorded(c).Tester),
			setting.Row(f.Text("Middle of box over finished floor"), withUnit(f, r.Job.Thermostat.Height), "",
				f.Text("Trip test"),
				recorded(c).TripTest),
			row(2, f.Text("At hook-up"), f.Text("Changed from the plan"), ""),
			row(3, f.Text("Capacitance"), f.Text("Photographs kept where"), ""),
		}}
}

// foundOfSeveral is the same of cables side by side, with its words in fine print: the room is for a hand's.
func foundOfSeveral(cs []*layout.Cable, f say.Figures, r *layout.Room) setting.Table {
	t := setting.Table{Span: true, Fine: true, Cols: []setting.Column{{Wraps: true, Least: 22}}}
	rows := [][]setting.Cell{setting.Row(f.Text("Half-way mark")), setting.Row(f.Text("Runs; lead on floor")),
		setting.Row(f.Text("At hook-up")), setting.Row(f.Text("Capacitance")),
		setting.Row(f.Text("Lot, date of the label"))}
	var testers, trips []string
	add := func(to []string, text string) []string {
		if text == "" || slices.Contains(to, text) {
			return to
		}
		return append(to, text)
	}
	for _, c := range cs {
		t.Cols = append(t.Cols, setting.Column{Head: f.Textf("%s planned", c.ID), Wraps: true, Least: 26, Group: true},
			setting.Column{Head: f.Textf("%s found", c.ID), Wraps: true, Least: 20, Group: true})
		for i, of := range append(compared(c, f), plannedFound{"", recorded(c).Lot}) {
			rows[i] = append(rows[i], setting.Row(of.planned, of.found)...)
		}
		testers, trips = add(testers, recorded(c).Tester), add(trips, recorded(c).TripTest)
	}
	t.Cols = append(t.Cols, setting.Column{Wraps: true, Least: 31, Group: true},
		setting.Column{Wraps: true, Least: 18, Group: true})
	box := f.Text("Middle of box over finished floor") + f.Joint(": ") +
		floorplan.UnbrokenWords(withUnit(f, r.Job.Thermostat.Height))
	for i, site := range [][]setting.Cell{setting.Row(f.Text("Insulation tester, volts"), strings.Join(testers, ", ")),
		setting.Row(box, ""), setting.Row(f.Text("Trip test"), strings.Join(trips, ", ")),
		setting.Row(f.Text("Changed from the plan"), ""), setting.Row(f.Text("Photographs kept where"), "")} {
		t.Rows = append(t.Rows, append(rows[i], site...))
	}
	return t
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
const holdHead = "HOLD: cover nothing before this is passed and signed"

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
		f.Text("Write values, not \"OK\": open on a hand meter is no insulation test. A fall to a tenth of the " +
			"first matters even above the least."),
	}
}

// allRecords returns the cards of every cable of the plan: of two of a room on one sheet where they fit.
func allRecords(p *layout.Plan) ([]*setting.Page, error) {
	var out []*setting.Page
	for i := range p.Rooms {
		r := &p.Rooms[i]
		var cs []*layout.Cable
		for k := range r.Cables {
			cs = append(cs, &r.Cables[k])
		}
		for two := range slices.Chunk(cs, 2) {
			pages, err := recordsOf(p, r, two)
			if err != nil {
				return nil, err
			}
			out = append(out, pages...)
		}
	}
	return out, nil
}

// recordsOf is the card of one cable or of two, or a card each where one sheet does not hold both.
func recordsOf(p *layout.Plan, r *layout.Room, cs []*layout.Cable) ([]*setting.Page, error) {
	if both, err := testRecord(p, r, cs...); len(cs) == 1 || err == nil && len(both) == 1 {
		return both, err
	}
	var out []*setting.Page
	for _, c := range cs {
		pages, err := testRecord(p, r, c)
		if err != nil {
			return nil, err
		}
		out = append(out, pages...)
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
