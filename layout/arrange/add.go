package arrange

import (
	"fmt"
	"math"
	"slices"

	"oxturn/layout/job"
	"oxturn/layout/job/edit"
	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// An Addition is a new thing in a room.
type Addition struct {
	Room  string  `json:"room"`  // the way to it
	What  string  `json:"what"`  // "door", "opening", "window", "keep-out", "joint", or a kind of fixture
	Side  int     `json:"side"`  // that is nearest to where it was put
	Along float64 `json:"along"` // along that side
	At    XY      `json:"at"`    // where it was put
}

// Usual sizes of what has none by its kind, mm and inches: a doorway of 760 mm or 30 in is the
// trade's; the others are something to begin with.
var (
	doorway = size{760, 30 * plane.Inch}
	worktop = size{600, 24 * plane.Inch}
	block   = size{300, 12 * plane.Inch}
)

type size struct{ metric, inches float64 }

// An adder makes the edits of one addition.
type adder struct {
	Addition
	job  *job.Job
	room *job.Room
	side job.Side
}

// Added is the text of a job with a new thing, and the way to it. The job is read again by
// read, which tells how wide the thing is.
func Added(j *job.Job, text string, a Addition, read func(text string) *job.Job) (string, string, error) {
	rooms, err := Rooms(j, text)
	if err != nil {
		return text, "", err
	}
	if !slices.ContainsFunc(rooms, func(r Room) bool { return r.Table == a.Room }) {
		return text, "", fmt.Errorf("the walls of this room cannot be drawn yet")
	}
	root, err := tree.Parse([]byte(text))
	if err != nil {
		return text, "", err
	}
	v := adder{Addition: a, job: j, room: roomOf(j, found(root, a.Room))}
	sides := v.room.Sides()
	if a.Side < 0 || a.Side >= len(sides) {
		return text, "", fmt.Errorf("there is no such wall")
	}
	v.side = sides[a.Side]
	key, lines := v.lines()
	now, err := edit.Apply(text, []edit.Change{{Do: "add", Table: a.Room + "/" + key, Lines: lines}})
	if err != nil {
		return text, "", err
	}
	table := lastOf(now, a.Room+"/"+key)
	return centred(read(now), now, table, a), table, nil
}

// roomOf is the room that a table is of.
func roomOf(j *job.Job, table *tree.Node) *job.Room {
	return &j.Rooms[slices.IndexFunc(j.Rooms, func(r job.Room) bool { return r.Span.Start == table.Span.Start })]
}

// lastOf is the way to the last table of a list.
func lastOf(text, list string) string {
	tables, err := edit.Tables(text)
	n := 0
	for err == nil && slices.ContainsFunc(tables, func(t edit.Table) bool {
		return t.Table == fmt.Sprintf("%s/%d", list, n)
	}) {
		n++
	}
	return fmt.Sprintf("%s/%d", list, n-1)
}

// centred slides a new thing along its side to where it was put, now that it is known how
// wide it is. One that stands nowhere, its wall being too short, stays as it is: what is wrong
// with it is said.
func centred(j *job.Job, text, table string, a Addition) string {
	if j == nil {
		return text
	}
	rooms, err := Rooms(j, text)
	if err != nil {
		return text
	}
	for _, r := range rooms {
		for _, t := range r.Things {
			if t.Table != table || t.Way != OnSide || t.Side < 0 {
				continue
			}
			wide := t.High - t.Low
			low := math.Max(0, math.Min(a.Along-wide/2, r.Sides[t.Side].Length-wide))
			now, err := Moved(j, text, Move{Table: table, Way: OnSide, Side: t.Side, Low: low})
			if err == nil {
				return now
			}
		}
	}
	return text
}

// lines are the new table's.
func (a adder) lines() (key string, lines []edit.Field) {
	switch a.What {
	case "door", "opening", "window":
		return "opening", append(a.against("kind", a.What), a.length("width", doorway))
	case "keep-out":
		return "keep_out", append(a.against("", ""), a.length("width", block), a.length("depth", block))
	case "joint":
		from, to := a.across()
		return "joint", []edit.Field{{Key: "from", Value: a.point(from)}, {Key: "to", Value: a.point(to)}}
	case string(job.Drain):
		return "fixture", []edit.Field{{Key: "kind", Value: edit.Literal(a.What)},
			{Key: "at", Value: a.point(a.At.point())}}
	case string(job.Island), string(job.Column):
		s := block
		if a.What == string(job.Island) {
			s = worktop
		}
		return "fixture", []edit.Field{{Key: "kind", Value: edit.Literal(a.What)},
			{Key: "at", Value: a.point(a.At.point())}, a.length("width", s), a.length("depth", s)}
	case string(job.Hearth):
		return "fixture", append(a.against("kind", a.What), a.length("width", doorway), a.length("depth", block))
	}
	return "fixture", a.against("kind", a.What)
}

// against stands a thing at the start of its side.
func (a adder) against(key, kind string) (out []edit.Field) {
	if key != "" {
		out = append(out, edit.Field{Key: key, Value: edit.Literal(kind)})
	}
	out = append(out, edit.Field{Key: "wall", Value: edit.Literal(a.side.Name)})
	if a.side.Face != "" {
		out = append(out, edit.Field{Key: "face", Value: edit.Literal(a.side.Face)})
	}
	return append(out, edit.Field{Key: "from", Value: styleOf(nil, a.job.Units).value(0)})
}

func (a adder) length(key string, s size) edit.Field {
	mm := s.metric
	if a.job.Units == plane.Inches {
		mm = s.inches
	}
	return edit.Field{Key: key, Value: styleOf(nil, a.job.Units).value(mm)}
}

func (a adder) point(p plane.Point) string {
	st := styleOf(nil, a.job.Units)
	return "[" + st.value(p.X) + ", " + st.value(p.Y) + "]"
}

// across are the ends of a joint through where it was put, the shorter way over the room.
func (a adder) across() (from, to plane.Point) {
	b, at := a.room.Outline.Bounds(), a.At.point()
	if b.W() >= b.H() {
		return plane.Pt(at.X, b.Min.Y), plane.Pt(at.X, b.Max.Y)
	}
	return plane.Pt(b.Min.X, at.Y), plane.Pt(b.Max.X, at.Y)
}
