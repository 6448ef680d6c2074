package sheets

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/plane"
	"oxturn/layout/record"
)

// testRecord sets the card of one cable: its label, the limits that follow
// from it, and a row to be filled in by hand at every stage. Nothing is ever
// filled in that was not measured.
//
// It goes round the site on a clipboard and then to the panel with the owner's
// map: on the paper that is handed over, unless the job asks for another.
func testRecord(p *layout.Plan, r *layout.Room, c *layout.Cable) ([]*page, error) {
	sheet, u := p.Job.Sheet, figuresOf(p.Job).units
	if sheet.Size == "" {
		sheet.Size = handOverPaper(u)
	}
	papers, err := papersFor(sheet, u)
	if err != nil {
		return nil, err
	}
	title := "Test record - " + c.ID
	if r.Job.Name != "" {
		title += ", " + r.Job.Name
	}
	var best []*page
	var room float64
	for _, split := range []bool{false, true} { // the notes in one piece, if that takes no further sheet and leaves room to write
		out, rows, err := tallestRows(papers, func(papers []drawing.Paper, w writing) ([]*page, error) {
			return listSheets(p, papers, "test-record-"+slug(c.ID), title, "Test record", recordBlocks(p, r, c, w, split))
		})
		if err != nil {
			return nil, err
		}
		if best == nil || len(out) < len(best) || len(out) == len(best) && room < rowRoomy && rows.readings > room {
			best, room = out, rows.readings
		}
		if len(best) == 1 && room >= rowRoomy {
			break
		}
	}
	return best, nil
}

// writing is how tall the rows are that are written in by hand, mm: those of
// the readings and the others.
type writing struct{ readings, others float64 }

// Rows are no lower than can be written in, and no taller than leaves room to
// write on a print at half size.
const (
	rowLowest  = 7.0
	rowRoomy   = 10.0 // beyond it nothing else gives way
	rowTallest = 16.0
)

// tallestRows sets a record on the first of the papers that takes the fewest
// sheets, with rows as tall as they can be without a further one, and returns
// how tall they are.
func tallestRows(papers []drawing.Paper, set func([]drawing.Paper, writing) ([]*page, error)) (best []*page, rows writing, err error) {
	rows = writing{rowLowest, rowLowest}
	if best, err = set(papers, rows); err != nil {
		return nil, rows, err
	}
	fits := func(pages []*page, err error) bool {
		return err == nil && len(pages) <= len(best) && goOn(pages) <= goOn(best)
	}
	for _, step := range []writing{{1, 1}, {1, 0}, {0, 1}} {
		for {
			next := writing{rows.readings + step.readings, rows.others + step.others}
			if max(next.readings, next.others) > rowTallest {
				break
			}
			pages, err := set([]drawing.Paper{best[0].sheet.Paper}, next)
			if !fits(pages, err) {
				if pages, err = set(papers, next); !fits(pages, err) {
					break
				}
			}
			best, rows = pages, next
		}
	}
	return best, rows, nil
}

// goOn counts the tables that go on in another column or sheet.
func goOn(pages []*page) int {
	n := 0
	for _, pg := range pages {
		for _, it := range pg.sheet.Items {
			if t, ok := it.(*drawing.Text); ok && strings.HasSuffix(t.Text, continued("")) && t.Text != continued(notesHead) {
				n++
			}
		}
	}
	return n
}

// notesHead stands over the notes of a test record.
const notesHead = "Testing"

// recordBlocks are the parts of a test record; split lets its notes go on in
// another column.
func recordBlocks(p *layout.Plan, r *layout.Room, c *layout.Cable, w writing, split bool) []block {
	f := figuresOf(p.Job)
	label, stages, found, sign := labelTable(c, f), stageTable(c), foundTable(p, c, f, r), signTable()
	stages.tall = w.readings
	label.tall, found.tall, sign.tall = w.others, w.others, w.others
	blocks := append([]block{label, stages}, judged(c)...)
	blocks = append(append(blocks, found, sign), sensorTable(p.Job.Sensor, f)...)
	notes := list{head: notesHead, number: 1, paras: testNotes(p.Job.Region())}
	if split {
		return append(blocks, notes)
	}
	return append(blocks, whole{notes})
}

// A whole block stays in one piece.
type whole struct{ block }

// labelTable copies the label and states the limits before anyone measures.
func labelTable(c *layout.Cable, f figures) table {
	o, l := c.Circuit, c.RecordLimits()
	t := table{head: "Cable " + c.ID + ": label and limits", span: true, cols: []column{
		{head: "Label"}, {head: "Volts", align: decimal}, {head: "Watts", align: decimal}, {head: "Amps", align: decimal},
		{head: "Length", align: decimal}, {head: "Ohms at 20 °C", group: true, align: decimal}, {head: "from"},
		{head: "Least Ω", align: decimal, group: true}, {head: "Most Ω", align: decimal}, {head: "Limits from", wraps: true},
		{head: "Least MΩ", align: decimal, group: true}, {head: "at V dc", align: decimal}, {head: "from"},
		{head: "Lot, date of the label", least: 30, group: true}, {head: "Insulation tester, its volts", least: 36, group: true},
	}}
	t.rows = [][]cell{row(c.Label.ID, fmt.Sprintf("%g", c.Label.Volts), fmt.Sprintf("%g", c.Label.Watts), figureOf(o.Amps, 2),
		f.long(c.Label.Length), figureOf(o.Nominal, 1), o.OhmsFrom, fmt.Sprintf("%.1f", o.Limits.Low), fmt.Sprintf("%.1f", o.Limits.High),
		fmt.Sprintf("%+g/%+g %%, %s", 100*o.Limits.LowShare, 100*o.Limits.HighShare, o.Limits.Source),
		fmt.Sprintf("%g", l.Megohms), fmt.Sprintf("%g", l.Volts), l.MegohmsSource, "", "")}
	for _, limit := range []int{7, 8, 10} {
		t.rows[0][limit].strong = true
	}
	return t
}

// stages are the moments at which a cable is measured, in order.
func stages() []string {
	return []string{
		"0 on the spool", "1 laid, before cover", "HOLD: inspection", "2 after fill and cover", "3 after tile",
		"4 after grout, before hook-up", "5 hook-up", "6 later service",
	}
}

// stageTable is the record itself: every box empty but for the readings that
// the job has.
func stageTable(c *layout.Cable) table {
	l := c.Circuit.Limits
	t := table{head: "Readings", span: true, cols: []column{{head: "Stage", wraps: true, least: 26}}}
	for _, h := range []struct {
		head  string
		least float64
	}{
		{"Date, time", 16}, {"By", 12}, {"Floor °C / °F", 13}, {fmt.Sprintf("L-N Ω (%.1f to %.1f)", l.Low, l.High), 16}, {"L-braid Ω", 13}, {"N-braid Ω", 13},
		{fmt.Sprintf("MΩ at volts (%g least)", c.RecordLimits().Megohms), 15}, {"S1 kΩ", 11}, {"S2 kΩ", 11}, {"Alarm on?", 12}, {"Photo no.", 12}, {"OK, signed", 20},
	} {
		t.cols = append(t.cols, column{head: h.head, wraps: true, least: h.least, group: true})
	}
	for _, s := range stages() {
		r := make([]cell, len(t.cols))
		r[0] = cell{text: s, strong: s[0] == 'H'}
		t.rows = append(t.rows, withReadings(r, c)...)
	}
	return t
}

// stageRows are the rows of the test record, by the stage of a reading.
func stageRows() map[record.Stage]string {
	s := stages()
	return map[record.Stage]string{record.OnSpool: s[0], record.Laid: s[1], record.Covered: s[3], record.Tiled: s[4], record.Grouted: s[5], record.HookUp: s[6], record.Service: s[7]}
}

// withReadings returns a stage's row once for each reading taken at it, or as
// it is where there is none yet. OK and signature stay empty: they are a person's.
func withReadings(r []cell, c *layout.Cable) [][]cell {
	readings, _, err := c.Readings()
	var out [][]cell
	for _, x := range readings {
		if err != nil || stageRows()[x.Stage] != r[0].text {
			continue
		}
		n := append([]cell{}, r...)
		for i, text := range readingTexts(x) {
			n[i+1].text = text
		}
		out = append(out, n)
	}
	if len(out) > 0 {
		return out
	}
	for _, s := range c.SkippedStages() {
		if stageRows()[s] == r[0].text {
			r[1] = cell{text: notTested, strong: true}
		}
	}
	return [][]cell{r}
}

// notTested stands in the row of a stage that was gone over, as a later one has a
// reading.
const notTested = "NOT TESTED"

// readingTexts fills the boxes from the date to the spare sensor.
func readingTexts(x record.Reading) []string {
	figure := func(f record.Figure, scale float64, decimals int) string {
		if !f.Taken {
			return ""
		}
		s := fmt.Sprintf("%.*f", decimals, f.Value*scale)
		if f.Over {
			return "> " + s
		}
		return s
	}
	date, floor, insulation := "", "", figure(x.Insulation, 1, 0)
	if !x.Date.IsZero() {
		date = x.Date.Format("2006-01-02")
	}
	if x.Floor.Taken {
		floor = fmt.Sprintf("%.0f / %.0f", x.Floor.Value, x.Floor.Value*1.8+32)
	}
	if insulation != "" {
		insulation += fmt.Sprintf(" at %g V", x.Volts)
	}
	hand := [...]string{record.NotTried: "", record.Open: "open", record.Connected: "CONNECTED"}[x.Hand]
	return []string{date, x.By, floor, figure(x.Ohms, 1, 1), hand, hand, insulation, figure(x.Sensor, 0.001, 2), figure(x.Spare, 0.001, 2)}
}

// judged lists what is to be said of the readings the job has, beyond that they
// are within their limits; nothing where there are none.
func judged(c *layout.Cable) []block {
	_, verdicts, err := c.Readings()
	t := table{head: "Held against the limits", span: true, cols: []column{{head: "Stage", wraps: true}, {head: "Reading", wraps: true, group: true}, {head: "Result", wraps: true, group: true}, {head: "Why", wraps: true, group: true}}}
	for _, v := range verdicts {
		if err == nil && (v.Grade == record.Outside || v.Grade == record.Look) {
			r := row(stageRows()[v.Stage], v.Item, v.Grade.String(), v.Words)
			r[2].strong = v.Grade == record.Outside
			t.rows = append(t.rows, r)
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	return []block{t}
}

// foundTable compares what was planned with what was found.
func foundTable(p *layout.Plan, c *layout.Cable, f figures, r *layout.Room) table {
	half := "-"
	if len(c.Marks) > 1 {
		m := c.Halfway()
		half = fmt.Sprintf("run %s, %s into it", c.RunName(m.Run), unbrokenWords(f.withUnit(m.Into)))
	}
	return twoAbreast("Found on the floor", []column{{wraps: true, least: 34}, {head: "Planned", wraps: true, least: 32}, {head: "Found", wraps: true, least: 42, group: true}}, [][]cell{
		row("Half-way mark", half, ""), row("Runs", itoa(len(c.Runs)), ""),
		row("Lead on the floor", f.long(plane.PathLength(c.ColdLead)), ""),
		row("Box above the floor", f.withUnit(r.Job.Thermostat.Height), ""),
		row("Capacitance, conductor to braid", "-", capacitance(c)),
		row("Volts, amps at hook-up", fmt.Sprintf("%g V, %s A", c.Label.Volts, figureOf(c.Circuit.Amps, 2)), ""), row("Trip test", "-", ""), row("Earliest full use", earliest(p), ""), row("Changed from the plan", "-", ""),
		row("Photographs kept where", "-", ""),
	})
}

// withUnit is length with mm behind millimetres.
func (f figures) withUnit(mm float64) string {
	if f.units == plane.Millimetres && !f.both {
		return f.length(mm) + " mm"
	}
	return f.length(mm)
}

// twoAbreast sets the second half of the rows beside the first, in a table as
// wide as the sheet.
func twoAbreast(head string, cols []column, rows [][]cell) table {
	half := (len(rows) + 1) / 2
	t := table{head: head, span: true, cols: append(slices.Clone(cols), cols...)}
	t.cols[len(cols)].group = true
	for i := range half {
		other := make([]cell, len(cols))
		if half+i < len(rows) {
			other = rows[half+i]
		}
		t.rows = append(t.rows, append(slices.Clone(rows[i]), other...))
	}
	return t
}

// earliest is when the layers have hardened, as far as the job says.
func earliest(p *layout.Plan) string {
	if p.FullUse == nil {
		return "-"
	}
	return p.FullUse.Words()
}

func signTable() table {
	cols := []column{{wraps: true, least: 20}, {head: "Name", wraps: true, least: 28, group: true}, {head: "Date", least: 20, group: true}, {head: "Signature", wraps: true, least: 30, group: true}}
	return twoAbreast("Signed", cols, [][]cell{row("Installer", "", "", ""), row("Electrician", "", "", ""), row("Inspector", "", "", ""), row("Owner", "", "", "")})
}

func testNotes(in circuit.Region) []string {
	return []string{
		everyStage.text(in), discharge.text(in), neverCoiled.text(in),
		"Write values, not only \"OK\". An open circuit on a hand meter is no insulation test. Compare with the first reading too: a fall to a tenth matters even above the least value.",
		"The next trade covers only what has passed.",
	}
}

// allRecords returns the cards of every cable of the plan.
func allRecords(p *layout.Plan) ([]*page, error) {
	var out []*page
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
func capacitance(c *layout.Cable) string {
	out := "nF"
	if c.Laid != nil {
		for _, r := range c.Laid.Job.Readings {
			if r.Capacitance.Taken {
				out = fmt.Sprintf("%g nF", r.Capacitance.Value)
			}
		}
	}
	return out
}
