package main

import (
	"bufio"
	"context"
	"fmt"
	"strings"

	"oxturn/layout/draft"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

const tapeHelp = `Walk round the room with the wall on your right hand and type each wall, or let a
laser meter type it:  east 2.85 m   then   left 3ft 2in, right 600 mm, or a bare
length, which turns left; as the first it goes east.  C 2.86 m  gives wall C anew,
undo takes the last one back, done (or an empty line) ends, quit writes nothing.`

// A taping is a room's walls as they are being typed.
type taping struct {
	c     *commandLine
	units plane.Units
	walls []draft.Wall
}

// byTape asks for a room wall by wall and writes a job with it.
func (o *newOrder) byTape(ctx context.Context, c *commandLine) int {
	t := &taping{c: c, units: plane.Millimetres}
	if o.units == "in" {
		t.units = plane.Inches
	}
	c.say("%s", tapeHelp)
	if !t.ask() {
		c.say("oxturn new: nothing is written")
		return exitUsage
	}
	if len(c.args) == 0 {
		c.args = []string{o.kind + ".toml"}
	}
	found := &draft.Found{Rooms: []draft.Room{{Walls: t.walls}}}
	return o.writeDraft(ctx, c, found, "")
}

// ask reads walls until they are done; false where nothing is to be written.
func (t *taping) ask() bool {
	in := bufio.NewScanner(t.c.In)
	for t.prompt(); in.Scan(); t.prompt() {
		typed := strings.TrimSpace(in.Text())
		switch strings.ToLower(typed) {
		case "quit", "q":
			return false
		case "undo", "u":
			t.walls = t.walls[:max(0, len(t.walls)-1)]
			t.show()
		case "", "done":
			if t.whole() {
				return true
			}
		default:
			t.take(typed)
		}
	}
	t.c.say("")
	return t.whole()
}

func (t *taping) prompt() {
	fmt.Fprintf(t.c.Err, "wall %s: ", job.WallLetter(len(t.walls)))
}

// take reads one line: a wall, or one given anew by its letter.
func (t *taping) take(typed string) {
	if i, length, ok := t.anew(typed); ok {
		t.walls[i].Length = length
		t.show()
		return
	}
	before := draft.NoWall
	if n := len(t.walls); n > 0 {
		before = t.walls[n-1]
	} else if _, err := plane.ParseLength(typed, t.units); err == nil { // a meter types nothing else
		typed = "east " + typed
	}
	w, bad := draft.ReadWall(typed, before, false, t.units)
	if bad != nil {
		t.c.say("  %s", bad.Message)
		if bad.Hint != "" {
			t.c.say("  hint: %s", bad.Hint)
		}
		return
	}
	t.walls = append(t.walls, w)
	t.show()
}

// anew reads a letter and a length: a wall that is given again. A compass word's letter
// before a length is the wall's where there is such a wall.
func (t *taping) anew(typed string) (wall int, length float64, ok bool) {
	letter, rest, _ := strings.Cut(typed, " ")
	for i := range t.walls {
		if strings.EqualFold(letter, job.WallLetter(i)) {
			length, err := plane.ParseLength(rest, t.units)
			return i, length, err == nil && length > 0
		}
	}
	return 0, 0, false
}

// show draws the walls so far and says how far they are from closing.
func (t *taping) show() {
	tape := draft.TapeOf(t.walls)
	for _, row := range draft.Sketch(tape.Points) {
		t.c.say("    %s", row)
	}
	t.c.say("  %s round so far; %s from the end to where it began", t.length(t.around()), t.length(tape.Miss))
}

// around is how long the walls are together.
func (t *taping) around() (mm float64) {
	for _, w := range t.walls {
		mm += w.Length
	}
	return mm
}

func (t *taping) length(mm float64) string {
	if t.units == plane.Millimetres {
		return plane.FormatLength(mm, t.units) + " mm"
	}
	return plane.FormatLength(mm, t.units)
}

// whole reports whether the walls go round a room as a job takes them; else it says what to
// measure again.
func (t *taping) whole() bool {
	if len(t.walls) < 3 {
		t.c.say("  a room has three walls at least; there are %d", len(t.walls))
		return false
	}
	tape := draft.TapeOf(t.walls)
	if allowed := job.AllowedMiss(t.around()); tape.Miss > allowed {
		t.c.say("  the walls miss their start by %s; %s is allowed: %s", t.length(tape.Miss), t.length(allowed),
			again(tape.Along))
		return false
	}
	t.c.say("  the walls close within %s", t.length(tape.Miss))
	return true
}

// again says which walls to measure again, of those along which a miss lies.
func again(walls []int) string {
	var letters []string
	for _, i := range walls {
		letters = append(letters, job.WallLetter(i))
	}
	if len(letters) == 0 || len(letters) > 4 {
		return "measure them again, or is a wall missing?"
	}
	return fmt.Sprintf("if one wall is wrong it is %s; measure again and type  %s LENGTH",
		strings.Join(letters, " or "),
		letters[0])
}
