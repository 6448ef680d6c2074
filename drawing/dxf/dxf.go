// Package dxf writes a plan as a DXF drawing at true size, for those who draw the rest of
// the house: what is there, one layer a kind of thing, and the cables with their bends as
// arcs. The text form of release 12, which every reader of DXF takes.
package dxf

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"oxturn/layout"
	"oxturn/layout/plane"
)

// Layers in the order in which they are listed, each with a colour of the standard table
// (1 red, 2 yellow, 3 green, 4 cyan, 5 blue, 6 magenta, 7 black or white, 8 grey).
var layers = []struct {
	name   string
	colour int
}{
	{"WALLS", 7}, {"PARTITIONS", 7}, {"OPENINGS", 8}, {"FIXTURES", 8}, {"KEEP-OUTS", 8}, {"JOINTS", 6}, {"NO-GO", 2},
	{"HEATED", 4},
	{"CABLE", 1}, {"CABLE-2", 3}, {"LEADS", 5}, {"SENSORS", 5}, {"BOX", 7}, {"TEXT", 7},
}

// cableLayers are those of a room's first cable, its second, and so on in turn.
var cableLayers = []string{"CABLE", "CABLE-2"}

// roomsApart is how far apart rooms stand, mm: each has an origin of its own in a job.
const roomsApart = 1000

// textHigh is how high letters are, mm.
const textHigh = 60

// Write writes a plan's rooms side by side, in the job's units.
func Write(to io.Writer, p *layout.Plan) error {
	out := bufio.NewWriter(to)
	d := &document{to: out, unit: 1, insunits: 4}
	if p.Units() == plane.Inches {
		d.unit, d.insunits = plane.Inch, 1
	}
	d.begin()
	east := 0.0
	for i := range p.Rooms {
		r := &p.Rooms[i]
		box := r.Job.Outline.Bounds()
		d.by = plane.Pt(east-box.Min.X, -box.Min.Y)
		d.room(r, p.CodeNow())
		east += box.W() + roomsApart
	}
	d.end()
	return out.Flush()
}

// A document is a drawing as it is being written.
type document struct {
	to       *bufio.Writer
	unit     float64 // mm of one unit of the drawing
	insunits int     // what the format calls it
	by       plane.Point
}

// The group codes that are written, by what their values are (DXF reference).
const (
	lineType       = 6
	onLayer        = 8
	variable       = 9
	northCode      = 20
	heightCode     = 30
	sizeCode       = 40
	bulgeCode      = 42
	colourCode     = 62
	verticesFollow = 66
	flags          = 70
)

// put writes one pair: a group code and a value.
func (d *document) put(code int, value any) { fmt.Fprintf(d.to, "%3d\n%v\n", code, value) }

// number writes a length of the drawing to a ten-thousandth of its unit.
func (d *document) number(code int, mm float64) {
	v := math.Round(mm/d.unit*1e4) / 1e4
	if v == 0 {
		v = 0 // no minus
	}
	d.put(code, strconv.FormatFloat(v, 'f', -1, 64))
}

func (d *document) point(p plane.Point) {
	at := p.Add(d.by)
	d.number(10, at.X)
	d.number(northCode, at.Y)
}

func (d *document) begin() {
	d.put(0, "SECTION")
	d.put(2, "HEADER")
	d.put(variable, "$ACADVER")
	d.put(1, "AC1009")
	d.put(variable, "$INSUNITS")
	d.put(flags, d.insunits)
	d.put(0, "ENDSEC")
	d.put(0, "SECTION")
	d.put(2, "TABLES")
	d.put(0, "TABLE")
	d.put(2, "LAYER")
	d.put(flags, len(layers))
	for _, l := range layers {
		d.put(0, "LAYER")
		d.put(2, l.name)
		d.put(flags, 0)
		d.put(colourCode, l.colour)
		d.put(lineType, "CONTINUOUS")
	}
	d.put(0, "ENDTAB")
	d.put(0, "ENDSEC")
	d.put(0, "SECTION")
	d.put(2, "ENTITIES")
}

func (d *document) end() {
	d.put(0, "ENDSEC")
	d.put(0, "EOF")
}

// A vertex is a corner of a line, and how the stretch after it is bent: the tangent of a
// quarter of its angle, to the left above 0 (DXF reference, group code 42).
type vertex struct {
	at    plane.Point
	bulge float64
}

func (d *document) line(layer string, closed bool, line []vertex) {
	if len(line) < 2 {
		return
	}
	d.put(0, "POLYLINE")
	d.put(onLayer, layer)
	d.put(verticesFollow, 1)
	d.put(10, 0)
	d.put(northCode, 0)
	d.put(heightCode, 0)
	d.put(flags, map[bool]int{true: 1}[closed])
	for _, v := range line {
		d.put(0, "VERTEX")
		d.put(onLayer, layer)
		d.point(v.at)
		d.put(heightCode, 0)
		if v.bulge != 0 {
			d.put(bulgeCode, strconv.FormatFloat(v.bulge, 'f', 9, 64))
		}
	}
	d.put(0, "SEQEND")
	d.put(onLayer, layer)
}

func (d *document) straight(layer string, closed bool, line []plane.Point) {
	var out []vertex
	for _, p := range line {
		out = append(out, vertex{at: p})
	}
	d.line(layer, closed, out)
}

func (d *document) region(layer string, r plane.Region) {
	for _, ring := range r.Rings() {
		d.straight(layer, true, ring)
	}
}

func (d *document) circle(layer string, at plane.Point, radius float64) {
	d.put(0, "CIRCLE")
	d.put(onLayer, layer)
	d.point(at)
	d.put(heightCode, 0)
	d.number(sizeCode, radius)
}

func (d *document) text(at plane.Point, words string) {
	d.put(0, "TEXT")
	d.put(onLayer, "TEXT")
	d.point(at)
	d.put(heightCode, 0)
	d.number(sizeCode, textHigh)
	d.put(1, plain(words))
}

// plain writes a text in the letters of the format's release, others by their numbers, and
// on one line.
func plain(words string) string {
	var b strings.Builder
	for _, r := range words {
		switch {
		case r < ' ' || r == '\x7f':
			b.WriteByte(' ')
		case r > '~' && r <= '\uffff':
			fmt.Fprintf(&b, `\U+%04X`, r)
		case r > '\uffff':
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// rounded is a path with its corners bent, as cable lies.
func rounded(path []plane.Point, radius float64) (out []vertex) {
	for i, p := range path {
		if i == 0 || i == len(path)-1 {
			out = append(out, vertex{at: p})
			continue
		}
		in, on := p.Sub(path[i-1]), path[i+1].Sub(p)
		turn := plane.Atan2(in.Cross(on), in.Dot(on))
		off := radius * math.Abs(plane.Tan(turn/2))
		if turn == 0 || off == 0 {
			out = append(out, vertex{at: p})
			continue
		}
		out = append(out, vertex{p.Sub(in.Unit().Mul(off)), plane.Tan(turn / 4)}, vertex{at: p.Add(on.Unit().Mul(off))})
	}
	return out
}
