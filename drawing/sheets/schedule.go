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

// schedule returns the tables of a room's cables: what the label says, what
// the plan makes of it, and where limits come from. Rows names those wanted;
// nil: all. It may be set in fine print: it is read at a desk.
func schedule(r *layout.Room, f say.Figures, rows []string, small bool) []setting.Block {
	var bs []setting.Block
	for i := 0; i < len(r.Cables); i += perTable {
		cs := r.Cables[i:min(i+perTable, len(r.Cables))]
		head := "Cable schedule"
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
	t := setting.Table{Head: head, Cols: []setting.Column{{Head: "Cable", Wraps: true}}}
	for i := range cs {
		t.Cols = append(t.Cols, setting.Column{Head: cs[i].ID, Wraps: true, Group: i > 0})
	}
	for _, p := range properties(f) {
		if rows != nil && !slices.Contains(rows, p.name) {
			continue
		}
		r, said := setting.Row(p.name), false
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
			return fmt.Sprintf("%s, %s, %s", say.Volts(c.Label.Volts), say.Watts(c.Label.Watts),
				orDash(c.Circuit.Amps, say.Amps))
		}},
		{"Ohms", func(c *layout.Cable) string {
			o, l := c.Circuit, c.Circuit.Limits
			return fmt.Sprintf("%s at 20 °C, %s; %s, %s, %s", orDash(o.Nominal, say.Ohms), o.OhmsFrom,
				say.OhmsRange(l.Low, l.High), say.Tolerance(l.LowShare, l.HighShare), l.Source)
		}},
		{"Heating length", func(c *layout.Cable) string {
			return f.Long(c.Label.Length) + ", " + perLength(c.Label, f.Units)
		}},
		{"Even spacing; gaps", func(c *layout.Cable) string {
			return f.Apart(c.Spacing) + "; " + gapRange(c.Gaps, f)
		}},
		{"Heat, at even spacing", func(c *layout.Cable) string {
			return densityOver(c.Density, c.AtEven(), f.Units) + ", half a gap beyond the heated area"
		}},
		{"Heat, over heated area", func(c *layout.Cable) string {
			return densityOver(c.OverServed(), c.Share.Area(),
				f.Units)
		}},
		{"Densest, three runs", func(c *layout.Cable) string { return densest(c, f) }},
		{"Most heat allowed", func(c *layout.Cable) string { return allowed(c, f) }},
		{"Lead", func(c *layout.Cable) string {
			return f.Long(c.Label.Lead) + ", reaches " + f.Long(c.LeadReach) + ", on the floor " +
				f.Long(plane.PathLength(c.ColdLead))
		}},
		{"Cold ends", func(c *layout.Cable) string {
			if len(c.Joined()) > 1 {
				return "two, both to the box"
			}
			return "" // as a cable has where nothing is said
		}},
	}
}

// perLength writes what a cable gives per length of itself.
func perLength(c job.Cable, u plane.Units) string {
	return say.PerLength(1000*c.Watts/c.Length, u)
}

func gapRange(g layout.Gaps, f say.Figures) string {
	if g.Closest == 0 {
		return "-"
	}
	if f.Apart(g.Closest) == f.Apart(g.Widest) {
		return f.Apart(g.Widest)
	}
	return f.Apart(g.Closest) + " to " + f.Apart(g.Widest)
}

func densest(c *layout.Cable, f say.Figures) string {
	g := c.Gaps
	if g.Run == 0 {
		return "-"
	}
	return fmt.Sprintf("%s, round run %s", say.Density(g.Densest, f.Units), c.RunName(g.Run))
}

// allowed is the limit, what it is over, and whether it is kept.
func allowed(c *layout.Cable, f say.Figures) string {
	g := c.Gaps
	if g.Most == 0 {
		return "not given"
	}
	kept := "kept"
	if !c.Keeps() {
		kept = "NOT kept"
	}
	return fmt.Sprintf("%s %s, %s: %s", density(g.Most, f), layout.LimitOver(g.MostOver), g.MostFrom, kept)
}

// densityOver writes a power per area with the area that it is over.
func densityOver(w, mm2 float64, u plane.Units) string {
	if w == 0 {
		return "-"
	}
	return say.Density(w, u) + " over " + say.Area(mm2, u)
}

// density writes W/m², a dash for none.
func density(w float64, f say.Figures) string {
	if w == 0 {
		return "-"
	}
	return f.Density(w)
}

// areas returns the three areas side by side.
func areas(r *layout.Room, u plane.Units) setting.Block {
	t := setting.Table{Head: "Areas", Cols: []setting.Column{
		{Wraps: true}, {Head: "m²", Align: setting.Decimal}, {Head: "ft²", Align: setting.Decimal},
		{Head: "of" + setting.NoBreak + "floor", Align: setting.Decimal},
	}}
	whole := r.Floor.Area()
	for _, a := range []struct {
		name string
		mm2  float64
	}{{"Floor", whole}, {"Tiled", r.Tiled.Area()}, {"Heated", r.Heated.Area()}} {
		share := "-"
		if whole > 0 {
			share = say.Percent(a.mm2 / whole)
		}
		t.Rows = append(t.Rows, setting.Row(a.name, say.AreaFigure(a.mm2, plane.Millimetres),
			say.AreaFigure(a.mm2, plane.Inches), share))
	}
	return t
}

// revisions returns the revision table, empty rows left for changes by hand.
func revisions(p *layout.Plan) setting.Block {
	t := setting.Table{Head: "Revisions", Cols: []setting.Column{{Head: "Rev."}, {Head: "Date"},
		{Head: "What changed", Wraps: true}, {Head: "By"}}}
	for _, r := range p.Job.Revisions {
		date := ""
		if !r.Date.IsZero() {
			date = r.Date.Format("2006-01-02")
		}
		t.Rows = append(t.Rows, setting.Row(r.Letter, date, r.Text, r.By))
	}
	if len(t.Rows) == 0 {
		t.Rows = append(t.Rows, setting.Row("-", "", "first issue", ""))
	}
	t.Rows = append(t.Rows, setting.Row("", "", "", ""))
	return t
}
