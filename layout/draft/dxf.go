package draft

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/plane"
)

// A dxf is what was read of a drawing in the text form of DXF: pairs of lines, a group
// code and a value each.
type dxf struct {
	insunits int
	shapes   []shape
	unread   map[string]int // by kind
}

// A shape is an outline, a line or a circle, whose line is its centre alone.
type shape struct {
	layer   string
	line    plane.Ring
	knots   []knot // the corners of the line alone, without the sides of what is bent
	radius  float64
	closed  bool
	at      int // line of the file
	dropped int // corners that were none
	used    bool
}

// A group is one pair of a drawing.
type group struct {
	code  int
	value string
	line  int
}

// roundTo is how far, as a share of its radius, a curve may stand off the sides drawn for
// it: 2 mm at a radius of 1 m.
const roundTo = 0.002

func readDXF(data []byte) (*dxf, *Error) {
	if head := data[:min(len(data), 4096)]; bytes.Contains(head[:min(len(head), 32)], []byte("Binary DXF")) ||
		bytes.ContainsRune(head, 0) {
		return nil, at(1, "this drawing is in a binary form").hint("save it as DXF in text (ASCII)")
	}
	groups, err := readGroups(data)
	if err != nil {
		return nil, err
	}
	d := &dxf{unread: map[string]int{}}
	section, variable := "", ""
	for i := 0; i < len(groups); {
		g := groups[i]
		n := i + 1
		switch {
		case g.code == 0 && g.value == "SECTION" && n < len(groups):
			section = groups[n].value
		case g.code == 0 && g.value == "ENDSEC":
			section = ""
		case section == "HEADER" && g.code == codeVariable:
			variable = g.value
		case section == "HEADER" && variable == "$INSUNITS" && g.code == codeWhole:
			d.insunits, _ = strconv.Atoi(g.value)
		case section == "ENTITIES" && g.code == 0:
			for n < len(groups) && groups[n].code != 0 {
				n++
			}
			if g.value == "POLYLINE" {
				n = d.polyline(groups, i, n)
				break
			}
			if err := d.entity(g, groups[i+1:n]); err != nil {
				return nil, err
			}
		}
		i = n
	}
	return d, nil
}

// dxfComment is the group code of a comment, which may stand before all else.
const dxfComment = 999

// readGroups reads the pairs of a drawing.
func readGroups(data []byte) (out []group, _ *Error) {
	lines := strings.Split(strings.ReplaceAll(string(bytes.TrimPrefix(data, []byte("\ufeff"))), "\r\n", "\n"), "\n")
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			if strings.TrimSpace(strings.Join(lines[i:], "")) == "" {
				break
			}
			return nil, at(i+1, "%q is no group code: a DXF file is pairs of lines, a whole number and a value",
				shortened(lines[i]))
		}
		out = append(out, group{code, strings.TrimSpace(lines[i+1]), i + 2})
	}
	if len(out) == 0 || out[0].code != 0 && out[0].code != dxfComment {
		return nil, at(1, "this is no DXF file: it does not begin with group code 0")
	}
	return out, nil
}

// shownLetters of what stands in a file are shown in a message.
const shownLetters = 30

// shortened is as much of a text as a message takes.
func shortened(s string) string {
	if r := []rune(strings.TrimSpace(s)); len(r) > shownLetters {
		return string(r[:shownLetters]) + "…"
	}
	return strings.TrimSpace(s)
}

// An entity is one thing of a drawing by its group codes.
type entity struct {
	groups []group
	bad    *Error
}

func (e *entity) num(code int) float64 {
	for _, g := range e.groups {
		if g.code == code {
			return e.float(g)
		}
	}
	return 0
}

func (e *entity) float(g group) float64 {
	v, err := strconv.ParseFloat(g.value, 64)
	if (err != nil || math.IsInf(v, 0) || math.IsNaN(v)) && e.bad == nil {
		e.bad = at(g.line, "%q is no number (group code %d)", shortened(g.value), g.code)
	}
	return v
}

func (e *entity) text(code int) string {
	for _, g := range e.groups {
		if g.code == code {
			return g.value
		}
	}
	return ""
}

// What group codes stand for (DXF reference, group codes by number).
const (
	codeLayer    = 8
	codeVariable = 9 // its name, in the header
	codeX        = 10
	codeY        = 20
	codeRadius   = 40
	codeBulge    = 42
	codeFrom     = 50 // degrees
	codeTo       = 51
	codePaper    = 67
	codeWhole    = 70 // flags, or the units of the header
)

// onPaper reports whether it belongs to a sheet and not to what is drawn.
func (e *entity) onPaper() bool { return e.text(codePaper) == "1" }

func (e *entity) flag(bit int) bool { return int(e.num(codeWhole))&bit != 0 }

// entity reads what may be a wall or a thing in a room.
func (d *dxf) entity(g group, groups []group) *Error {
	e := &entity{groups: groups}
	s := shape{layer: e.text(codeLayer), at: g.line}
	switch {
	case e.onPaper():
		return nil
	case g.value == "LWPOLYLINE":
		s.closed = e.flag(1)
		corners := lightVertices(e)
		s.line, s.knots = vertices(corners, s.closed), knotsOf(corners, s.closed)
	case g.value == "LINE":
		s.line = plane.Ring{plane.Pt(e.num(codeX), e.num(codeY)), plane.Pt(e.num(codeX+1), e.num(codeY+1))}
		s.knots = []knot{{at: s.line[0]}, {at: s.line[1]}}
	case g.value == "CIRCLE":
		s.line, s.radius, s.closed = plane.Ring{plane.Pt(e.num(codeX), e.num(codeY))}, e.num(codeRadius), true
	case g.value == "ARC":
		from, to := plane.Radians(e.num(codeFrom)), plane.Radians(e.num(codeTo))
		s.line = arc(plane.Pt(e.num(codeX), e.num(codeY)), e.num(codeRadius), from, to)
		s.knots = knotsOf([]vertex{{s.line[0], plane.Tan(turnOf(from, to) / 4)}, {at: s.line[len(s.line)-1]}}, false)
	default:
		d.unread[shortened(g.value)]++
		return nil
	}
	if e.bad == nil && len(s.line) > 0 {
		d.shapes = append(d.shapes, s)
	}
	return e.bad
}

// A vertex is a corner of a polyline, and how the stretch after it is bent: the tangent of a
// quarter of its angle (DXF reference, group code 42).
type vertex struct {
	at    plane.Point
	bulge float64
}

func lightVertices(e *entity) (out []vertex) {
	for _, g := range e.groups {
		switch g.code {
		case codeX:
			out = append(out, vertex{at: plane.Pt(e.float(g), 0)})
		case codeY, codeBulge:
			if n := len(out); n > 0 && g.code == codeY {
				out[n-1].at.Y = e.float(g)
			} else if n > 0 {
				out[n-1].bulge = e.float(g)
			}
		}
	}
	return out
}

// polyline reads one whose corners follow as things of their own, and returns the place
// behind them.
func (d *dxf) polyline(groups []group, begin, body int) int {
	head := &entity{groups: groups[begin+1 : body]}
	s := shape{layer: head.text(8), at: groups[begin].line, closed: head.flag(1)}
	var corners []vertex
	i := body
	for i < len(groups) && groups[i].code == 0 && groups[i].value == "VERTEX" {
		end := i + 1
		for end < len(groups) && groups[end].code != 0 {
			end++
		}
		v := &entity{groups: groups[i+1 : end]}
		corners = append(corners, vertex{plane.Pt(v.num(10), v.num(20)), v.num(42)})
		if v.bad != nil {
			corners = corners[:len(corners)-1]
		}
		i = end
	}
	s.knots = knotsOf(corners, s.closed)
	if s.line = vertices(corners, s.closed); len(s.line) > 0 && !head.onPaper() {
		d.shapes = append(d.shapes, s)
	}
	return i
}

// vertices is the line through corners, with sides for what is bent.
func vertices(corners []vertex, closed bool) (out plane.Ring) {
	for i, v := range corners {
		out = append(out, v.at)
		last := i == len(corners)-1
		if v.bulge == 0 || last && !closed {
			continue
		}
		out = append(out, bent(v.at, corners[(i+1)%len(corners)].at, v.bulge)...)
	}
	return out
}

// bent is what lies between the ends of an arc.
func bent(a, b plane.Point, bulge float64) plane.Ring {
	chord := b.Sub(a)
	turn := 4 * plane.Atan2(bulge, 1)
	if chord.Norm() == 0 || math.Abs(turn) < 1e-6 {
		return nil
	}
	// From the middle of the chord to the centre, to the left of the way from a to b.
	out := chord.Norm() / 2 / plane.Tan(turn/2)
	centre := a.Lerp(b, 0.5).Add(chord.Unit().Left().Mul(out))
	from := a.Sub(centre)
	n := sides(math.Abs(turn))
	var ring plane.Ring
	for i := 1; i < n; i++ {
		ring = append(ring, centre.Add(from.Rotate(turn*float64(i)/float64(n))))
	}
	return ring
}

// sides is how many sides an arc is drawn with.
func sides(turn float64) int {
	each := 2 * math.Acos(1-roundTo)
	return max(1, int(math.Ceil(turn/each)))
}

// turnOf is the angle from one direction to another, counter-clockwise, radians.
func turnOf(from, to float64) float64 {
	if turn := math.Mod(to-from+4*math.Pi, 2*math.Pi); turn > 0 {
		return turn
	}
	return 2 * math.Pi
}

// arc is a line along part of a circle, counter-clockwise.
func arc(centre plane.Point, radius, from, to float64) (out plane.Ring) {
	turn := turnOf(from, to)
	n := sides(turn)
	for i := range n + 1 {
		s, c := plane.Sincos(from + turn*float64(i)/float64(n))
		out = append(out, centre.Add(plane.Pt(c, s).Mul(radius)))
	}
	return out
}
