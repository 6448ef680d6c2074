package sheets

import (
	"fmt"
	"math"
	"strings"

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
	t := setting.Table{Head: "If a room measures otherwise", Span: true, Cols: []setting.Column{
		{Head: "Room", Wraps: true}, {Head: "By"}, {Head: "Cable", Wraps: true}, {Head: "Also", Wraps: true}}}
	last := ""
	for _, s := range p.Shifts {
		name := s.Room
		if name == last {
			name = ""
		}
		last = s.Room
		t.Rows = append(t.Rows, setting.Row(name, shiftWords(s, f), cableWords(s, f), alsoWords(s)))
	}
	said := judgedByArea
	if !p.Shifts[0].Counted {
		said += " In a job of so many rooms, what else changes is not counted."
	}
	return []setting.Block{t, setting.List{Span: true, Paras: []string{said}}}
}

const judgedByArea = "Cables are judged by the area they would serve, not laid again."

// shiftTerms say the same of a job's only room.
func shiftTerms(p *layout.Plan) []string {
	if len(p.Rooms) != 1 {
		return nil
	}
	f, shifts := p.Job.Figures(), p.Shifts
	if within := staysWithin(shifts, f); within != "" {
		return []string{within + " " + judgedByArea}
	}
	var words []string
	for _, s := range shifts {
		said := shiftWords(s, f) + ": " + cableWords(s, f)
		if also := alsoWords(s); also != "-" {
			said += ", " + also
		}
		words = append(words, said)
	}
	if words == nil {
		return nil
	}
	return []string{"If the room measures otherwise: " + strings.Join(words, "; ") + ". " + judgedByArea}
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
	return fmt.Sprintf("If the room measures %s more or less either way, the cable and all packs stay, runs %s to %s "+
		"apart.", say.WholeUnits(math.Abs(shifts[0].By), f.Units), f.Apart(least), f.Apart(most))
}

// shiftWords says which way a room is longer or shorter.
func shiftWords(s layout.Shift, f say.Figures) string {
	way := "north-south"
	if s.East {
		way = "east-west"
	}
	return say.WholeUnitsMore(s.By, f.Units) + " " + way
}

func cableWords(s layout.Shift, f say.Figures) string {
	switch {
	case s.Problem != "":
		return "not looked at: " + s.Problem
	case s.Keeps:
		return "stays, runs " + f.Apart(s.Spacing) + " apart"
	}
	return "no longer suits, its runs " + f.Apart(s.Spacing) + " apart; instead: " + s.Instead
}

// mostChanges is how many changes are listed for one shift.
const mostChanges = 5

// alsoWords lists what is bought otherwise, by whole packs.
func alsoWords(s layout.Shift) string {
	var out []string
	for i, c := range s.Changes {
		if i == mostChanges {
			out = append(out, fmt.Sprintf("and %d more", len(s.Changes)-i))
			break
		}
		out = append(out, changeWords(c))
	}
	if len(out) == 0 {
		return "-"
	}
	return strings.Join(out, "; ")
}

// changeWords writes a change as "+1 box of tile", "-2 pieces of tile".
func changeWords(c takeoff.Change) string {
	what, _, _ := strings.Cut(strings.ToLower(c.Item), ",")
	if strings.HasPrefix(what, "tile ") { // there is one size of it in a job
		what = "tile"
	}
	pack := c.PackName
	if pack == "" {
		pack = "piece"
	}
	if c.Packs != 1 && c.Packs != -1 {
		if strings.HasSuffix(pack, "x") {
			pack += "e"
		}
		pack += "s"
	}
	return fmt.Sprintf("%+d %s of %s", c.Packs, pack, what)
}
