// Package arrange tells what of a room can be taken by a finger on its plan, and which
// edits of the job file put it elsewhere. Each keeps the way in which the file says where a
// thing stands, unless it stands in another way from then on.
package arrange

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// An XY is a place on the floor, mm.
type XY [2]float64

func xy(p plane.Point) XY { return XY{p.X, p.Y} }

func (p XY) point() plane.Point { return plane.Pt(p[0], p[1]) }

// A Room is one with what can be moved in it.
type Room struct {
	Table   string  `json:"table"` // the way to it in the file
	Name    string  `json:"name"`
	Outline []XY    `json:"outline"`
	Sides   []Side  `json:"sides"`
	Things  []Thing `json:"things"`
}

// A Side is what things may stand against.
type Side struct {
	Name   string  `json:"name"` // of a wall its letter
	Face   string  `json:"face"` // of a partition
	Line   []XY    `json:"line"`
	Out    XY      `json:"out"` // to where things stand, at its middle
	Length float64 `json:"length"`
}

// The ways in which a thing stands on the plan.
const (
	OnSide   = "side"   // against a side, and slides along it
	InCorner = "corner" // in a corner
	Free     = "free"   // anywhere
	ByEnds   = "ends"   // from one end to another, each of which moves by itself
)

// A Thing can be moved.
type Thing struct {
	Table   string  `json:"table"`
	Kind    string  `json:"kind"` // the last key of its header, of a fixture its kind
	Name    string  `json:"name"`
	Shape   []XY    `json:"shape"` // its outline, or a line of one or two places
	Way     string  `json:"way"`
	Side    int     `json:"side"` // that it stands against; -1: none
	Low     float64 `json:"low"`  // along that side
	High    float64 `json:"high"`
	Corner  string  `json:"corner"`  // that it stands in, by its letter
	Convert bool    `json:"convert"` // it may stand in another way: a box or a round
}

// Rooms are those of a job whose walls can be drawn.
func Rooms(j *job.Job, text string) ([]Room, error) {
	root, err := tree.Parse([]byte(text))
	if err != nil {
		return nil, err
	}
	var out []Room
	for i := range j.Rooms {
		r := &j.Rooms[i]
		node, table := at(root.Get("room"), r.Span, "room")
		if node == nil || len(r.Outline) < 3 {
			continue // its slips are said elsewhere
		}
		l := lister{room: r, node: node, text: text, table: table}
		out = append(out, l.list())
	}
	return out, nil
}

// at finds the item of a list that a span is of, and the way to it.
func at(list *tree.Node, s job.Span, way string) (*tree.Node, string) {
	if list == nil {
		return nil, ""
	}
	for i, n := range list.Items {
		if n.Span.Start == s.Start {
			return n, fmt.Sprintf("%s/%d", way, i)
		}
	}
	return nil, ""
}

// A lister lists what a room has.
type lister struct {
	room  *job.Room
	node  *tree.Node
	text  string
	table string
	sides []job.Side
	out   Room
}

func (l *lister) list() Room {
	r := l.room
	l.sides = r.Sides()
	l.out = Room{Table: l.table, Name: r.Name, Outline: xys(r.Outline), Things: []Thing{}}
	for _, s := range l.sides {
		l.out.Sides = append(l.out.Sides, Side{s.Name, s.Face, xys(s.Line()), xy(s.Out(s.Length() / 2)), s.Length()})
	}
	for i := range r.Partitions {
		p := &r.Partitions[i]
		l.add("partition", p.Span, p.Name, []plane.Point{p.A, p.B})
	}
	for i := range r.Openings {
		o := &r.Openings[i]
		l.add("opening", o.Span, o.Name, []plane.Point{r.Walls[o.Wall].At(o.From), r.Walls[o.Wall].At(o.To)})
	}
	for i := range r.KeepOuts {
		l.keepOut(&r.KeepOuts[i])
	}
	for i := range r.Fixtures {
		l.add("fixture", r.Fixtures[i].Span, r.Fixtures[i].Name, r.Fixtures[i].Outline)
	}
	for i := range r.Joints {
		l.add("joint", r.Joints[i].Span, r.Joints[i].Name, []plane.Point{r.Joints[i].A, r.Joints[i].B})
	}
	for i := range r.Fixings {
		if f := &r.Fixings[i]; f.Of == "" { // a threshold goes with its opening
			l.add("fixing", f.Span, f.Name, f.Line)
		}
	}
	for i := range r.Zones {
		l.add("zone", r.Zones[i].Span, r.Zones[i].Name, []plane.Point{r.Zones[i].At})
	}
	l.box()
	return l.out
}

func (l *lister) keepOut(k *job.KeepOut) {
	switch {
	case k.Partition: // it goes with its partition
	case k.Cold:
		l.add("cold", k.Span, k.Name, k.Outline)
	default:
		l.add("keep_out", k.Span, k.Name, k.Outline)
	}
}

// box lists the thermostat's.
func (l *lister) box() {
	n := l.node.Get("thermostat")
	if _, hangs := l.room.BoxWall(); n != nil && hangs {
		l.thing(n, l.table+"/thermostat", "thermostat", "box", []plane.Point{l.room.Thermostat.At})
	}
}

func (l *lister) add(key string, s job.Span, name string, shape []plane.Point) {
	if n, table := at(l.node.Get(key), s, l.table+"/"+key); n != nil && l.text[n.Span.Start] == '[' {
		l.thing(n, table, key, name, shape)
	}
}

func (l *lister) thing(n *tree.Node, table, kind, name string, shape []plane.Point) {
	t := Thing{Table: table, Kind: kind, Name: name, Shape: xys(shape), Side: -1, Way: wayOf(n)}
	if k := textOf(n, "kind"); kind == "fixture" {
		t.Kind = k
	}
	t.Convert = len(shape) > 2 && n.Get("outline") == nil && n.Get("shape") == nil
	t.Corner = strings.ToUpper(strings.TrimSpace(textOf(n, "corner")))
	if name := textOf(n, "wall"); name != "" {
		t.Side = sideNamed(l.sides, name, textOf(n, "face"))
	} else if t.Way == OnSide {
		t.Side = touched(l.sides, shape)
	}
	if t.Side >= 0 {
		t.Low, t.High = stretch(l.sides[t.Side], n, shape)
	} else if t.Way == OnSide {
		t.Way = Free
	}
	l.out.Things = append(l.out.Things, t)
}

// wayOf is the way in which a table says where its thing stands.
func wayOf(n *tree.Node) string {
	switch {
	case n.Get("corner") != nil:
		return InCorner
	case n.Get("to") != nil:
		return ByEnds
	case n.Get("wall") != nil || n.Get("beside") != nil || n.Name == "thermostat":
		return OnSide
	}
	return Free
}

func textOf(n *tree.Node, key string) string {
	if f := n.Get(key); f != nil {
		s, _ := f.Value.(string)
		return s
	}
	return ""
}

func sideNamed(all []job.Side, name, face string) int {
	for i, s := range all {
		if strings.EqualFold(s.Name, strings.TrimSpace(name)) && (s.Face == "" || s.Face == or(face, "left")) {
			return i
		}
	}
	return -1
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// touching mm is how near a side a thing stands that was not said to stand against it.
const touching = 25

// touched is the side that most of a shape's places touch; -1: it touches none.
func touched(all []job.Side, shape []plane.Point) int {
	best, most := -1, 0
	for i, s := range all {
		n := 0
		for _, p := range shape {
			if along, off := s.Off(p); math.Abs(off) <= touching && along >= -touching && along <= s.Length()+touching {
				n++
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	return best
}

// stretch is from where to where a thing lies along a side. A round one is told by corners that
// lie without it: it reaches to the middles between them.
func stretch(s job.Side, n *tree.Node, shape []plane.Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range shape {
		along, _ := s.Off(p)
		low, high = min(low, along), max(high, along)
	}
	if len(shape) > 4 && n.Get("width") == nil {
		c := plane.Ring(shape).Bounds().Centre()
		along, _ := s.Off(c)
		r := c.Dist(shape[0].Lerp(shape[1], 0.5))
		low, high = along-r, along+r
	}
	return low, high
}

func xys(all []plane.Point) []XY {
	out := []XY{}
	for _, p := range all {
		out = append(out, xy(p))
	}
	return out
}
