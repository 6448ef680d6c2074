package sheets

import (
	"fmt"
	"slices"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// orDash writes a figure, a dash for one that is not known.
func orDash(v float64, write func(float64) string) string {
	if v == 0 {
		return "-"
	}
	return write(v)
}

// perTable is how many cables stand side by side in one schedule.
const perTable = 3

// electrical are the rows of the schedule that an electrician needs.
var electrical = []string{"Label", "Supply", "Ohms", "Lead", "Cold ends"}

// onField are the rows that stand with a field sheet: what is read off the label and tested, length, volts, amps and
// ohms, is on the test record, which goes on site with it.
var onField = []string{"Even spacing; gaps", "Heat, at even spacing",
	"Heat, over heated area", "Densest, three runs", "Most heat allowed", "Lead", "Cold ends"}

// schedule returns the tables of a room's cables: what the label says, what
// the plan makes of it, and where limits come from. Rows names those wanted;
// nil: all. It may be set in fine print: it is read at a desk.
func schedule(r *layout.Room, f say.Figures, rows []string, small bool) []setting.Block {
	var bs []setting.Block
	for i := 0; i < len(r.Cables); i += perTable {
		cs := r.Cables[i:min(i+perTable, len(r.Cables))]
		head := f.Text("Cable schedule")
		if i > 0 {
			head = setting.Continued(head)
		}
		t := scheduleTable(head, cs, f, rows)
		t.Fine = small
		bs = append(bs, t)
	}
	return bs
}

// A property is one row of the schedule.
type property struct {
	name string
	of   func(c *layout.Cable) string
}

func scheduleTable(head string, cs []layout.Cable, f say.Figures, rows []string) setting.Table {
	t := setting.Table{Head: head, Cols: []setting.Column{{Head: f.Text("Cable"), Wraps: true}}}
	for i := range cs {
		t.Cols = append(t.Cols, setting.Column{Head: cs[i].ID, Wraps: true, Group: i > 0})
	}
	for _, p := range properties(f) {
		if rows != nil && !slices.Contains(rows, p.name) {
			continue
		}
		r, said := setting.Row(f.Text(p.name)), false
		for i := range cs {
			text := p.of(&cs[i])
			r, said = append(r, setting.Cell{Text: text}), said || text != ""
		}
		if said {
			t.Rows = append(t.Rows, r)
		}
	}
	return t
}

func properties(f say.Figures) []property {
	return []property{
		{"Label", func(c *layout.Cable) string { return c.Label.ID }},
		{"Supply", func(c *layout.Cable) string {
			return fmt.Sprintf("%s, %s, %s", f.Volts(c.Label.Volts), f.Watts(c.Label.Watts),
				orDash(c.Circuit.Amps, f.Amps))
		}},
		{"Ohms", func(c *layout.Cable) string {
			o, l := c.Circuit, c.Circuit.Limits
			return f.Textf("%s at 20 °C, %s; %s, %s, %s", orDash(o.Nominal, f.Ohms), f.Text(o.OhmsFrom),
				f.OhmsRange(l.Low, l.High), f.Tolerance(l.LowShare, l.HighShare), f.Text(l.Source))
		}},
		{"Heating length", func(c *layout.Cable) string {
			return f.Long(c.Label.Length) + ", " + perLength(c.Label, f)
		}},
		{"Even spacing; gaps", func(c *layout.Cable) string {
			return f.Apart(c.Spacing) + f.Joint("; ") + gapRange(c.Gaps, f)
		}},
		{"Heat, at even spacing", func(c *layout.Cable) string {
			return f.Textf("%s, half a gap more around", densityOver(c.Density, c.AtEven(), f))
		}},
		{"Heat, over heated area", func(c *layout.Cable) string {
			return densityOver(c.OverServed(), c.Share.Area(), f)
		}},
		{"Densest, three runs", func(c *layout.Cable) string { return densest(c, f) }},
		{"Most heat allowed", func(c *layout.Cable) string { return allowed(c, f) }},
		{"Lead", func(c *layout.Cable) string {
			return f.Textf("%s, reaches %s, on the floor %s", f.Long(c.Label.Lead), f.Long(c.LeadReach),
				f.Long(plane.PathLength(c.ColdLead)))
		}},
		{"Cold ends", func(c *layout.Cable) string {
			if len(c.Joined()) > 1 {
				return f.Text("two, both to the box")
			}
			return "" // as a cable has where nothing is said
		}},
	}
}

// perLength writes what a cable gives per length of itself.
func perLength(c job.Cable, f say.Figures) string {
	return f.Figure(say.PerLength(1000*c.Watts/c.Length, f.Units))
}

func gapRange(g layout.Gaps, f say.Figures) string {
	if g.Closest == 0 {
		return "-"
	}
	if f.Apart(g.Closest) == f.Apart(g.Widest) {
		return f.Apart(g.Widest)
	}
	return f.Textf("%s to %s", f.Apart(g.Closest), f.Apart(g.Widest))
}

func densest(c *layout.Cable, f say.Figures) string {
	g := c.Gaps
	if g.Run == 0 {
		return "-"
	}
	return f.Textf("%s, round run %s", f.Figure(say.Density(g.Densest, f.Units)), c.RunName(g.Run))
}

// allowed is the limit, what it is over, and whether it is kept.
func allowed(c *layout.Cable, f say.Figures) string {
	g := c.Gaps
	if g.Most == 0 {
		return f.Text("not given")
	}
	kept := f.Text("kept")
	if !c.Keeps() {
		kept = f.Text("NOT kept")
	}
	return fmt.Sprintf("%s %s, %s: %s", density(g.Most, f), f.Text(layout.LimitOver(g.MostOver)),
		f.Text(g.MostFrom.String()), kept)
}

// densityOver writes a power per area with the area that it is over.
func densityOver(w, mm2 float64, f say.Figures) string {
	if w == 0 {
		return "-"
	}
	return f.Textf("%s over %s", f.Figure(say.Density(w, f.Units)), f.Figure(say.Area(mm2, f.Units)))
}

// density writes W/m², a dash for none.
func density(w float64, f say.Figures) string {
	if w == 0 {
		return "-"
	}
	return f.Density(w)
}

// areas returns the three areas side by side.
func areas(r *layout.Room, f say.Figures) setting.Block {
	t := setting.Table{Head: f.Text("Areas"), Cols: []setting.Column{
		{Wraps: true}, {Head: "m²", Align: setting.Decimal}, {Head: f.Text("ft²"), Align: setting.Decimal},
		{Head: f.Textf("of%sfloor", setting.NoBreak), Align: setting.Decimal},
	}}
	whole := r.Floor.Area()
	for _, a := range []struct {
		name string
		mm2  float64
	}{{f.Text("Floor"), whole}, {f.Text("Tiled"), r.Tiled.Area()}, {f.Text("Heated"), r.Heated.Area()}} {
		share := "-"
		if whole > 0 {
			share = f.Percent(a.mm2 / whole)
		}
		t.Rows = append(t.Rows, setting.Row(a.name, f.Figure(say.AreaFigure(a.mm2, plane.Millimetres)),
			f.Figure(say.AreaFigure(a.mm2, plane.Inches)), share))
	}
	return t
}

// revisions returns the revision table, empty rows left for changes by hand.
func revisions(p *layout.Plan) setting.Block {
	t := setting.Table{Head: p.Job.Language.Text("Revisions"),
		Cols: []setting.Column{{Head: p.Job.Language.Text("Rev.")}, {Head: p.Job.Language.Text("Date")},
			{Head: p.Job.Language.Text("What changed"), Wraps: true}, {Head: p.Job.Language.Text("By")}}}
	for _, r := range p.Job.Revisions {
		date := ""
		if !r.Date.IsZero() {
			date = r.Date.Format("2006-01-02")
		}
		t.Rows = append(t.Rows, setting.Row(r.Letter, date, r.Text, r.By))
	}
	if len(t.Rows) == 0 {
		t.Rows = append(t.Rows, setting.Row("-", "", p.Job.Language.Text("first issue"), ""))
	}
	t.Rows = append(t.Rows, setting.Row("", "", "", ""))
	return t
}
