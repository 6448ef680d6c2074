package arrange

import (
	"math"
	"strings"

	"oxturn/layout/job"
	"oxturn/layout/job/edit"
	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// place writes a place for a key in the way it is written: by its coordinates, or from a
// corner along a wall and out from it. Of the latter side tells which wall it lies on now, -1
// that it keeps its own.
func (m *mover) place(key string, p plane.Point, side int) {
	n := m.node.Get(key)
	if n == nil || n.Kind == tree.Array {
		m.setText(key, m.coordinates(n, p))
		return
	}
	old, _ := n.Value.(string)
	if side < 0 {
		name, _, _ := strings.Cut(strings.TrimSpace(old), " ")
		side = sideNamed(m.sides, name, textOf(m.node, "face"))
	}
	if side < 0 {
		m.setText(key, m.coordinates(nil, p))
		return
	}
	m.setText(key, edit.Literal(offSide(m.sides[side], p, styleOf(n, m.job.Units))))
}

// onSide mm is how far from a wall a place is that lies on it.
const onSide = 0.05

// offSide is a place from a side's start along and out.
func offSide(s job.Side, p plane.Point, st style) string {
	along, off := s.Off(p)
	out := s.Name + " " + st.text(math.Max(0, along))
	if off > onSide {
		out += ", " + st.text(off)
	}
	return out
}

// coordinates are a point's, each in the style of the one in its place.
func (m *mover) coordinates(n *tree.Node, p plane.Point) string {
	if n != nil && len(n.Items) == 2 {
		return m.with(n, map[*tree.Node]float64{n.Items[0]: p.X, n.Items[1]: p.Y})
	}
	st := styleOf(nil, m.job.Units)
	return "[" + st.value(p.X) + ", " + st.value(p.Y) + "]"
}

// shifted is a list of points, each moved; what is written between them stays.
func (m *mover) shifted(list *tree.Node, by plane.Point) string {
	now := map[*tree.Node]float64{}
	for _, n := range list.Items {
		for i, coordinate := range n.Items {
			now[coordinate] = m.read(coordinate) + []float64{by.X, by.Y}[min(i, 1)]
		}
	}
	return m.with(list, now)
}

// read is a coordinate that the job's reader has taken.
func (m *mover) read(n *tree.Node) float64 {
	unit := 1.0
	if m.job.Units == plane.Inches {
		unit = plane.Inch
	}
	switch v := n.Value.(type) {
	case int64:
		return float64(v) * unit
	case float64:
		return v * unit
	case string:
		sign := 1.0
		if rest, below := strings.CutPrefix(strings.TrimSpace(v), "-"); below {
			sign, v = -1, rest
		}
		mm, _ := plane.ParseLength(v, m.job.Units)
		return sign * mm
	}
	return 0
}

// with is a value as it is written, with other lengths in some places.
func (m *mover) with(n *tree.Node, now map[*tree.Node]float64) string {
	var b strings.Builder
	at := n.Span.Start
	var walk func(*tree.Node)
	walk = func(k *tree.Node) {
		if mm, ok := now[k]; ok {
			b.WriteString(m.text[at:k.Span.Start] + styleOf(k, m.job.Units).value(mm))
			at = k.Span.End
		}
		for _, item := range k.Items {
			walk(item)
		}
	}
	walk(n)
	return b.String() + m.text[at:n.Span.End]
}

func points(all []XY) []plane.Point {
	var out []plane.Point
	for _, p := range all {
		out = append(out, p.point())
	}
	return out
}
