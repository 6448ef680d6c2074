package main

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"oxturn/layout"
	"oxturn/layout/draft"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// fromFile writes a job with the rooms of a file from elsewhere.
func (o *newOrder) fromFile(ctx context.Context, c *commandLine) int {
	data, err := readFile(o.from)
	if err != nil {
		return c.fail(err)
	}
	found, bad := draft.Read(o.from, data, draft.Options{Unit: o.fileUnits, Layer: o.layer})
	if bad != nil && len(bad.Layers) > 0 && isTerminal(c.Err) {
		if o.layer = c.askLayer(bad); o.layer != "" {
			found, bad = draft.Read(o.from, data, draft.Options{Unit: o.fileUnits, Layer: o.layer})
		}
	}
	if bad != nil {
		return c.badDraft(o.from, bad)
	}
	return o.writeDraft(ctx, c, found, filepath.Base(o.from))
}

// askLayer asks a person at a terminal on which layer rooms are.
func (c *console) askLayer(bad *draft.Error) string {
	fmt.Fprintf(c.Err, "%s\nwhich? ", bad.Message)
	in := bufio.NewScanner(c.In)
	in.Scan()
	return strings.TrimSpace(in.Text())
}

// badDraft says what is wrong with a file from elsewhere, and where.
func (c *console) badDraft(name string, bad *draft.Error) int {
	at := name
	if bad.Line > 0 {
		at += fmt.Sprintf(":%d", bad.Line)
	}
	if bad.Column > 0 {
		at += fmt.Sprintf(":%d", bad.Column)
	}
	c.say("%s: error: %s", at, bad.Message)
	if bad.Hint != "" {
		c.say("hint: %s", bad.Hint)
	}
	return exitUsage
}

// writeDraft writes what was found as a job, says what was taken and left out, and what a
// tape should settle first. No file is named where the rooms were taped here.
func (o *newOrder) writeDraft(ctx context.Context, c *commandLine, found *draft.Found, from string) int {
	name := o.kind + ".toml"
	if from != "" {
		name = strings.TrimSuffix(from, filepath.Ext(from)) + ".toml"
	}
	if len(c.args) == 1 {
		name = c.args[0]
	}
	if code := writeStarterText(c, name, draftJob(found, from, o.kind, o.units)); code != exitOK {
		return code
	}
	c.say("%s: %s", name, drafted(len(found.Rooms), from))
	for _, t := range found.Took {
		c.say("  took     %s", t)
	}
	for _, d := range found.Dropped {
		c.say("  left     %s", d)
	}
	c.say("  guessed  where the box is: see [room.thermostat]")
	c.decisive(ctx, name)
	c.sayNext(name)
	return exitOK
}

// drafted says what a draft is of, and what it is good for.
func drafted(rooms int, from string) string {
	if from == "" {
		return "a draft of the room as taped"
	}
	return fmt.Sprintf("a draft of %s from %s: hold it against a tape before anything is ordered",
		say.Counted(rooms, "room"), from)
}

// decisive says on which lengths of a draft the choice of cable hangs.
func (c *commandLine) decisive(ctx context.Context, name string) {
	s, err := readSource(ctx, c.In, name, "")
	if err != nil {
		return
	}
	c.style, c.timeLimit = defaultStyle(), noLimit
	line := waiting(c.console, name+": looking on which lengths the cable hangs")
	w, err := do(ctx, s, workOptions{undrawn: true, timeLimit: noLimit})
	line.end()
	if err != nil || ctx.Err() != nil {
		return
	}
	printReport(c.console, w.report, c.style)
	if w.plan == nil {
		return
	}
	for _, sentence := range decisiveLengths(w.plan) {
		c.say("  measure  %s", sentence)
	}
}

// decisiveLengths are sentences on the walls whose lengths decide the cable, by the shifts
// of a plan.
func decisiveLengths(p *layout.Plan) (out []string) {
	for i := range p.Rooms {
		r, before := &p.Rooms[i], len(out)
		for _, east := range []bool{true, false} {
			for _, s := range p.Shifts {
				if s.Room != r.Job.Name || s.East != east || s.Keeps || s.Problem != "" {
					continue
				}
				out = append(out, fmt.Sprintf("%s first, in %s: with it %s %s the cable would be another%s",
					wallsAlong(r.Job, east), r.Job.Name, plane.FormatLength(math.Abs(s.By), p.Job.Units), longer(s.By),
					instead(s.Instead)))
			}
		}
		if len(out) == before && len(r.Cables) > 0 {
			out = append(out, fmt.Sprintf("all walls of %s; %s stays where they are an inch off", r.Job.Name,
				r.Cables[0].Label.ID))
		}
	}
	return out
}

func longer(by float64) string {
	if by < 0 {
		return "shorter"
	}
	return "longer"
}

func instead(other string) string {
	if other == "" {
		return ""
	}
	return " (" + other + ")"
}

// wallsAlong names a room's walls that run along one of the two ways.
func wallsAlong(r *job.Room, east bool) string {
	var letters []string
	for _, w := range r.Walls {
		way := w.B.Sub(w.A)
		if math.Abs(way.X) > math.Abs(way.Y) == east {
			letters = append(letters, w.Letter)
		}
	}
	switch len(letters) {
	case 0:
		return "the walls"
	case 1:
		return "wall " + letters[0]
	}
	return "walls " + strings.Join(letters[:len(letters)-1], ", ") + " and " + letters[len(letters)-1]
}

// draftJob is the text of a job with the rooms of a draft.
func draftJob(found *draft.Found, from, kind, units string) []byte {
	u := plane.Millimetres
	if units == "in" {
		u = plane.Inches
	}
	var head strings.Builder
	fmt.Fprintf(&head, "# %s.\n", strings.ToUpper(drafted(1, from)[:1])+drafted(len(found.Rooms), from)[1:])
	for _, list := range []struct {
		word string
		said []string
	}{{"Took", found.Took}, {"Left out", found.Dropped}} {
		for _, s := range list.said {
			fmt.Fprintf(&head, "# %s: %s\n", list.word, s)
		}
	}
	return starterWith("draft", kind, units, map[string]any{"Cables": draftCables(kind, units),
		"Head": oneLineEach(head.String()), "Rooms": found.Text(u)})
}

// draftCables are the starter's, with longer ones for rooms of any size.
func draftCables(kind, units string) []starterCable {
	out := starterCables(kind, units)
	if units == "mm" {
		for _, m := range []int{130, 170, 220} {
			out = append(out, labelled(starter230, "m", "4 m", m, volts230, wattsPerMetre*m))
		}
		return out
	}
	if kind == "bath" {
		return out // 120 V carries no more on one circuit
	}
	for _, ft := range []int{430, 560, 720} {
		out = append(out, labelled(starter240, "ft", "12 ft", ft, volts240, ft*wattsPer10ft/10))
	}
	return out
}

// oneLineEach keeps comments comments: no name out of a file begins a line of its own.
func oneLineEach(comments string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && r != '\t' && (r < ' ' || r == '\x7f') {
			return ' '
		}
		return r
	}, comments)
}
