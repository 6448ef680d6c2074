package sheets

import (
	"fmt"
	"strings"

	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// shiftBlocks say what an inch more or less of room does to the order: how
// risky it is to buy from these sizes.
func shiftBlocks(p *layout.Plan) []setting.Block {
	if len(p.Shifts) == 0 {
		return nil
	}
	f := p.Job.Figures()
	t := setting.Table{Head: "Changes by room", Cols: []setting.Column{{Head: "Room", Wraps: true}, {Head: "By"},
		{Head: "Cable", Wraps: true}, {Head: "Also", Wraps: true}}}
	first := 0
	if len(p.Rooms) == 1 { // which room needs not be said
		first = 1
		t.Head, t.Cols = "What would change", t.Cols[1:]
	}
	last := ""
	for _, s := range p.Shifts {
		name := s.Room
		if name == last {
			name = ""
		}
		last = s.Room
		t.Rows = append(t.Rows, setting.Row(name, shiftWords(s, f), cableWords(s, f), alsoWords(s))[first:])
	}
	said := "Cables are judged here by the area they would serve, not laid again. A cable is ordered only after the " +
		"finished walls are measured."
	if !p.Shifts[0].Counted {
		said += " In a job of so many rooms, what else changes is not counted."
	}
	return []setting.Block{setting.List{Head: "If a room measures otherwise", Paras: []string{said}}, t}
}

// shiftWords says which way a room is longer or shorter.
func shiftWords(s layout.Shift, f say.Figures) string {
	way := "north-south"
	if s.East {
		way = "east-west"
	}
	by := fmt.Sprintf("%+.0f mm", s.By)
	if f.Units == plane.Inches {
		by = fmt.Sprintf("%+.0f in", s.By/plane.Inch)
	}
	return by + " " + way
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
