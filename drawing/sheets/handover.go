package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/language"
	"oxturn/layout/takeoff"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/handover"
	"oxturn/layout/job"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// handOver sets the page that goes first into the owner's hand: which papers there are, what
// lies in the floor, when it has hardened, who measured it, and how to live with it. A
// floor that is not recorded as laid has none: nothing but a plan could be handed over.
func handOver(p *layout.Plan) ([]*setting.Page, error) {
	if p.Job.Info.Status != job.AsLaid {
		return nil, nil
	}
	k := kindNamed("hand-over")
	set := func(lots float64) ([]*setting.Page, error) {
		return setting.ListSheets(p, setting.FormPaper(p.Job), k.ID, k.Title, k.Form, handOverBlocks(p, lots))
	}
	pages, err := set(lotsTall)
	if err != nil || len(pages) == 1 {
		return pages, err
	}
	if lower, err := set(0); err == nil && len(lower) < len(pages) {
		return lower, nil
	}
	return pages, nil
}

// lotsTall is the height of a row that a lot is written in, mm, where a sheet has room for it.
const lotsTall = 5.4

func handOverBlocks(p *layout.Plan, tall float64) []setting.Block {
	lots := lotsTable(p)
	lots.Tall = tall
	blocks := []setting.Block{papersTable(p, handover.Items(p)), lots}
	if p.FullUse != nil {
		blocks = append(blocks, cureTable(p.Job.Figures(), p.FullUse))
	}
	if t := measuredBy(p); len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	sign := signTable(p.Job.Figures())
	sign.Head, sign.Tall = p.Job.Language.Text("Handed over"), rowLowest
	return append(blocks, sign, setting.List{Span: true, Paras: []string{p.Job.Language.Text("Floor cold, or its " +
		"protection trips: leave it off, show an electrician this set. Before any hole: look at the map.")}})
}

// papersTable says what there is of everything that the job asks for; what only a
// person knows has a box to tick.
func papersTable(p *layout.Plan, items []handover.Item) setting.Table {
	t := setting.Table{Head: p.Job.Language.Text("Papers of this floor"), Span: true,
		Cols: []setting.Column{{Head: p.Job.Language.Text("What"), Wraps: true},
			{Head: p.Job.Language.Text("Of")}, {Head: p.Job.Language.Text("There"), Wraps: true, Least: 40,
				Group: true},
			{Head: p.Job.Language.Text("Missing"), Wraps: true, Least: 40, Group: true}}}
	for _, i := range items {
		there := i.There.In(p.Job.Language)
		if i.ByHand {
			there = p.Job.Language.Text("[   ] to be ticked")
		}
		r := setting.Row(p.Job.Language.Text(i.Name), i.Of, there, i.Lacks.In(p.Job.Language))
		r[3].Strong = true
		t.Rows = append(t.Rows, r)
	}
	return t
}

// packsOf is how many packs a line has, and of what.
func packsOf(l takeoff.Line, in language.Language) string {
	if l.PackName == "" {
		return strconv.Itoa(l.Packs)
	}
	return say.CountedMessage(l.Packs, l.PackName).In(in)
}

// lotsTable lists what is bought by the pack, with room for what its label says.
func lotsTable(p *layout.Plan) setting.Table {
	t := setting.Table{Head: p.Job.Language.Text("Materials in the floor"), Span: true,
		Cols: []setting.Column{
			{Head: p.Job.Language.Text("Material"), Wraps: true}, {Head: p.Job.Language.Text("Packs")},
			{Head: p.Job.Language.Text("Name on the label"), Wraps: true, Least: 40,
				Group: true},
			{Head: p.Job.Language.Text("Lot or batch"), Wraps: true, Least: 40, Group: true}}}
	lots := lotsOf(p)
	for _, l := range p.TakeOff.Lines {
		cable := strings.HasPrefix(l.Code, "cable ")
		if l.Packs == 0 || l.PackName == "" && !cable {
			continue
		}
		t.Rows = append(t.Rows, setting.Row(l.Item.In(p.Job.Language), packsOf(l, p.Job.Language), "",
			lots[l.Item.String()]))
	}
	return t
}

// lotsOf are the lots written down of the cables, by the take-off's name for them.
func lotsOf(p *layout.Plan) map[string]string {
	out := map[string]string{}
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := &p.Rooms[i].Cables[k]
			if lot := recorded(c).Lot; lot != "" {
				item := "Heating cable " + c.Label.ID
				if out[item] != "" {
					lot = out[item] + ", " + lot
				}
				out[item] = lot
			}
		}
	}
	return out
}

// cureTable says when every layer has hardened.
func cureTable(f say.Figures, use *layout.FullUse) setting.Table {
	t := setting.Table{Head: f.Text("Days of cure"), Span: true, Cols: []setting.Column{{Head: f.Text("Layer"),
		Wraps: true},
		{Head: f.Text("Placed"), Wraps: true, Least: 26, Group: true}, {Head: f.Text("Days"), Align: setting.Decimal,
			Group: true},
		{Head: f.Text("Full use from"), Wraps: true, Least: 26, Group: true}}}
	for _, c := range use.Cures {
		days := fmt.Sprintf("%d", c.Wait())
		if c.Placed.IsZero() {
			t.Rows = append(t.Rows, setting.Row(f.Text(c.Layer), "", days, ""))
			continue
		}
		t.Rows = append(t.Rows, setting.Row(f.Text(c.Layer), c.Placed.Format("2006-01-02"), days,
			c.Placed.AddDate(0, 0, c.Wait()).Format("2006-01-02")))
	}
	return t
}

// measuredBy lists who measured each cable at each stage.
func measuredBy(p *layout.Plan) setting.Table {
	t := setting.Table{Head: p.Job.Language.Text("Measured by"), Span: true,
		Cols: []setting.Column{{Head: p.Job.Language.Text("Cable")},
			{Head: p.Job.Language.Text("Stage"), Wraps: true}, {Head: p.Job.Language.Text("Date"), Group: true},
			{Head: p.Job.Language.Text("By"), Wraps: true, Least: 30},
			{Head: p.Job.Language.Text("Result"), Wraps: true, Group: true}}}
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			c := &p.Rooms[i].Cables[k]
			for n, r := range c.Tested {
				t.Rows = append(t.Rows, setting.Row(c.ID, p.Job.Language.Text(r.Stage.String()), day(r), r.By,
					p.Job.Language.Text(worstOf(c, n).String())))
			}
		}
	}
	return t
}

func day(r record.Reading) string {
	if r.Date.IsZero() {
		return ""
	}
	return r.Date.Format("2006-01-02")
}

// worstOf is the gravest verdict on one reading of a cable.
func worstOf(c *layout.Cable, reading int) record.Grade {
	var own []record.Verdict
	for _, v := range c.Verdicts {
		if v.Reading == reading && v.Grade != record.Missing {
			own = append(own, v)
		}
	}
	return record.Worst(own)
}
