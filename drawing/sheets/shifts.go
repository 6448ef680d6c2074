package sheets

import (
	"math"
	"strings"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// shiftBlocks say what an inch more or less of rooms does to the order: how
// risky it is to buy from these sizes. One room's are among the terms.
func shiftBlocks(p *layout.Plan) []setting.Block {
	if len(p.Shifts) == 0 || len(p.Rooms) == 1 {
		return nil
	}
	f := p.Job.Figures()
	t := setting.Table{Head: f.Text("If a room measures otherwise"), Span: true, Cols: []setting.Column{
		{Head: f.Text("Room"), Wraps: true}, {Head: f.Text("Other by")}, {Head: f.Text("Cable"), Wraps: true},
		{Head: f.Text("Also"), Wraps: true}}}
	last := ""
	for _, s := range p.Shifts {
		name := s.Room
		if name == last {
			name = ""
		}
		last = s.Room
		t.Rows = append(t.Rows, setting.Row(name, shiftWords(s, f), cableWords(s, f), alsoWords(f, s)))
	}
	said := f.Text(judgedByArea)
	if !p.Shifts[0].Counted {
		said += f.Text(" In a job of so many rooms, what else changes is not counted.")
	}
	return []setting.Block{t, setting.List{Span: true, Paras: []string{said}}}
}

const judgedByArea = "Cables judged by area."

// shiftTerms say the same of a job's only room.
func shiftTerms(p *layout.Plan) []string {
	if len(p.Rooms) != 1 {
		return nil
	}
	f, shifts := p.Job.Figures(), p.Shifts
	if within := staysWithin(shifts, f); within != "" {
		return []string{within + " " + f.Text(judgedByArea)}
	}
	var words []string
	for _, s := range shifts {
		said := shiftWords(s, f) + f.Joint(": ") + cableWords(s, f)
		if also := alsoWords(f, s); also != "-" {
			said += ", " + also
		}
		words = append(words, said)
	}
	if words == nil {
		return nil
	}
	return []string{f.Textf("If the room measures otherwise: %s. %s", strings.Join(words, f.Joint("; ")),
		f.Text(judgedByArea))}
}

// staysWithin says so where whatever shift leaves the cable and all that is bought as they
// are; else it is empty.
func staysWithin(shifts []layout.Shift, f say.Figures) string {
	if len(shifts) == 0 {
		return ""
	}
	least, most := shifts[0].Spacing, shifts[0].Spacing
	for _, s := range shifts {
		if !s.Keeps || s.Problem != "" || len(s.Changes) > 0 || math.Abs(s.By) != math.Abs(shifts[0].By) {
			return ""
		}
		least, most = min(least, s.Spacing), max(most, s.Spacing)
	}
	return f.Textf("If the room measures %s more or less either way, the cable and all packs stay, runs %s to %s "+
		"apart.", f.Figure(say.WholeUnits(math.Abs(shifts[0].By), f.Units)), f.Apart(least), f.Apart(most))
}

// shiftWords says which way a room is longer or shorter.
func shiftWords(s layout.Shift, f say.Figures) string {
	way := f.Text("north-south")
	if s.East {
		way = f.Text("east-west")
	}
	return f.Figure(say.WholeUnitsMore(s.By, f.Units)) + " " + way
}

func cableWords(s layout.Shift, f say.Figures) string {
	switch {
	case s.Problem != "":
		return f.Textf("not looked at: %s", s.Problem)
	case s.Keeps:
		return f.Textf("stays, runs %s apart", f.Apart(s.Spacing))
	}
	return f.Textf("no longer suits, its runs %s apart; instead: %s", f.Apart(s.Spacing), f.Text(s.Instead))
}

// mostChanges is how many changes are listed for one shift.
const mostChanges = 5

// alsoWords lists what is bought otherwise, by whole packs.
func alsoWords(f say.Figures, s layout.Shift) string {
	var out []string
	for i, c := range s.Changes {
		if i == mostChanges {
			out = append(out, f.Textf("and %d more", len(s.Changes)-i))
			break
		}
		out = append(out, changeWords(f, c))
	}
	if len(out) == 0 {
		return "-"
	}
	return strings.Join(out, f.Joint("; "))
}

// changeWords writes a change as "+1 box of tile", "-2 pieces of tile".
func changeWords(f say.Figures, c takeoff.Change) string {
	what := f.Within(c.Item.In(f.Language))
	if c.Code == "tile" { // there is one size of it in a job
		what = f.Text("tile")
	}
	pack := floorplan.Or(c.PackName, "piece")
	if c.Packs != -1 {
		pack = say.Plural(c.Packs, pack)
	}
	pack = f.Text(pack)
	return f.Textf("%+d %s of %s", c.Packs, pack, what)
}
