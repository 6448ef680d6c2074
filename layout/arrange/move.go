package arrange

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/job/edit"
	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// A Move puts a thing elsewhere, in one of these ways.
type Move struct {
	Table string `json:"table"`
	Way   string `json:"way"`

	Side int     `json:"side"` // OnSide: against this one
	Low  float64 `json:"low"`  // with its near end so far along it

	Corner string `json:"corner"` // InCorner

	By  XY     `json:"by"`  // Free, and ByEnds as a whole: by how much it is moved
	End string `json:"end"` // ByEnds: the key of the end that is moved alone
	To  XY     `json:"to"`  // to here
}

// A mover makes the edits of one move.
type mover struct {
	Move
	job   *job.Job
	room  *job.Room
	sides []job.Side
	thing Thing
	node  *tree.Node
	text  string
	out   []edit.Change
}

// Moved is the text of a job with a thing elsewhere.
func Moved(j *job.Job, text string, m Move) (string, error) {
	rooms, err := Rooms(j, text)
	if err != nil {
		return text, err
	}
	root, err := tree.Parse([]byte(text))
	if err != nil {
		return text, err
	}
	for _, r := range rooms {
		for _, t := range r.Things {
			if t.Table != m.Table {
				continue
			}
			v := mover{Move: m, job: j, thing: t, node: found(root, m.Table), text: text}
			v.room = roomOf(j, found(root, r.Table))
			v.sides = v.room.Sides()
			if err := v.move(); err != nil {
				return text, err
			}
			return edit.Apply(text, v.out)
		}
	}
	return text, fmt.Errorf("%s is nowhere on the plan", m.Table)
}

// found is the table that a way leads to, which Rooms has gone before.
func found(root *tree.Node, way string) *tree.Node {
	n := root
	for _, step := range strings.Split(way, "/") {
		if n.Kind == tree.Array {
			var i int
			fmt.Sscan(step, &i)
			n = n.Items[i]
			continue
		}
		n = n.Get(step)
	}
	return n
}

func (m *mover) move() error {
	if m.Way != m.thing.Way && !m.thing.Convert {
		return fmt.Errorf("%s cannot stand so", m.thing.Name)
	}
	switch m.Way {
	case OnSide:
		return m.toSide()
	case InCorner:
		return m.toCorner()
	case ByEnds:
		return m.ends()
	case Free:
		return m.free()
	}
	return fmt.Errorf("%q is no way to stand", m.Way)
}

// set writes a length for a key in the style that it has.
func (m *mover) set(key string, mm float64) {
	m.setText(key, styleOf(m.node.Get(key), m.job.Units).value(mm))
}

func (m *mover) setText(key, value string) {
	m.out = append(m.out, edit.Change{Do: "set", Table: m.Table, Key: key, Value: value})
}

// unset takes keys out that say nothing any more.
func (m *mover) unset(keys ...string) {
	for _, k := range keys {
		if m.node.Get(k) != nil {
			m.out = append(m.out, edit.Change{Do: "unset", Table: m.Table, Key: k})
		}
	}
}

// toSide stands a thing against a side.
func (m *mover) toSide() error {
	if m.Side < 0 || m.Side >= len(m.sides) {
		return fmt.Errorf("there is no such wall")
	}
	s := m.sides[m.Side]
	if m.node.Get("at") != nil && m.node.Name == "thermostat" {
		m.place("at", s.Place(m.Low, 0), m.Side)
		return nil
	}
	m.unset("at", "angle", "corner", "shape", "cut", "beside", "side", "gap")
	if was := m.node.Get("wall"); was == nil || m.thing.Side != m.Side {
		m.setText("wall", edit.Literal(s.Name))
		m.face(s)
	}
	m.along(m.Low, m.Low+m.thing.High-m.thing.Low, s.Length())
	return nil
}

// face says on which side of a partition a thing stands.
func (m *mover) face(s job.Side) {
	if s.Face == "" {
		m.unset("face")
	} else if s.Face != or(textOf(m.node, "face"), "left") {
		m.setText("face", edit.Literal(s.Face))
	}
}

// along says where along its side a thing stands, by the keys that have said so. What has stood
// against none had none of these.
func (m *mover) along(low, high, length float64) {
	m.filled()
	m.unset("between")
	if m.node.Get("centre") != nil {
		m.set("centre", (low+high)/2)
		return
	}
	from, end := m.node.Get("from"), m.node.Get("to_end")
	if end != nil {
		m.set("to_end", max(0, length-high))
	}
	if from != nil || end == nil {
		m.set("from", max(0, low))
	}
}

// filled writes the width of what has filled a gap so far.
func (m *mover) filled() {
	if m.node.Get("between") != nil && m.node.Get("width") == nil {
		m.set("width", m.thing.High-m.thing.Low)
	}
}

// toCorner stands a thing in a corner.
func (m *mover) toCorner() error {
	if !slices.ContainsFunc(m.room.Walls, func(w job.Wall) bool { return w.Letter == m.Corner }) {
		return fmt.Errorf("there is no corner %q", m.Corner)
	}
	if m.thing.Way != InCorner {
		m.filled()
		m.unset("wall", "from", "to_end", "centre", "between", "off", "at", "angle", "face", "beside", "side", "gap")
	}
	m.setText("corner", edit.Literal(m.Corner))
	return nil
}

// free moves a thing that stands on the floor as it was told to.
func (m *mover) free() error {
	by := m.By.point()
	switch {
	case m.node.Get("outline") != nil:
		m.setText("outline", m.shifted(m.node.Get("outline"), by))
	case m.node.Get("line") != nil:
		m.setText("line", m.shifted(m.node.Get("line"), by))
	default:
		c := plane.Bounds(points(m.thing.Shape)).Centre()
		if m.thing.Way != Free {
			m.standFree()
		}
		m.place("at", c.Add(by), -1)
	}
	return nil
}

// leastTurn is less than is worth writing of a thing that stands square, in degrees.
const leastTurn = 0.05

// standFree has a thing stand on the floor by its centre, turned as it stands.
func (m *mover) standFree() {
	m.filled()
	m.unset("wall", "from", "to_end", "centre", "between", "off", "face", "corner", "shape", "cut", "beside", "side",
		"gap")
	p := points(m.thing.Shape)
	if len(p) != 4 {
		return // a round thing stands no other way when it is turned
	}
	way := p[1].Sub(p[0])
	if angle := plane.Degrees(plane.Atan2(way.Y, way.X)); math.Abs(angle) >= leastTurn {
		m.setText("angle", styleOf(nil, plane.Millimetres).value(angle))
	}
}

// ends moves a thing from one end to the other, or one of them.
func (m *mover) ends() error {
	switch m.End {
	case "":
		m.slide("from", m.thing.Shape[0].point())
		m.slide("to", m.thing.Shape[1].point())
	case "from", "to":
		m.place(m.End, m.To.point(), m.Side)
	default:
		return fmt.Errorf("%q is no end", m.End)
	}
	return nil
}

// slide moves an end with the other. One that is told along a wall stays on it.
func (m *mover) slide(key string, p plane.Point) {
	to, old := p.Add(m.By.point()), textOf(m.node, key)
	name, _, _ := strings.Cut(strings.TrimSpace(old), " ")
	if side := sideNamed(m.sides, name, ""); side >= 0 {
		if _, off := m.sides[side].Off(p); off < touching {
			along, _ := m.sides[side].Off(to)
			to = m.sides[side].Place(along, off)
		}
	}
	m.place(key, to, -1)
}
