// Package drawing holds sheets as data: a Sheet is a size and a list of a few
// kinds of item in paper millimetres, x right and y down from the sheet's
// upper left corner. Writers (svg, pdf) and tests read the same list.
package drawing

import (
	"oxturn/fonts"
	"oxturn/layout/plane"
)

// A Pt is a place on the paper, in mm, x right and y down.
type Pt = plane.Vec[paper]

type paper struct{}

// A Straight is a straight line on the paper.
type Straight = plane.Line[paper]

// A Box is an axis-parallel rectangle on the paper.
type Box struct{ X0, Y0, X1, Y1 float64 }

// A Sheet is one page of the set.
type Sheet struct {
	ID          string // file-name part: "cable-plan-bath"
	Title       string // bookmark and SVG title
	Label       string // what the sheet is called for short: "CP-1"; may be empty
	Description string // one sentence for a screen reader
	Language    string // of its words: a BCP 47 tag
	Paper       Paper
	Ratio       float64 // of the main view: 20 for 1:20; 0: not to scale
	Items       []Item
}

// Texts returns the lettering of a sheet in the order drawn.
func (s *Sheet) Texts() []*Text {
	var out []*Text
	for _, it := range s.Items {
		if t, ok := it.(*Text); ok {
			out = append(out, t)
		}
	}
	return out
}

// A Paper is a sheet size as it lies before the reader.
type Paper struct {
	Name string // "A3", "tabloid"
	W, H float64
}

// Layer names what an item belongs to, so that a reader can switch it off.
type Layer string

// The layers, in drawing order.
const (
	LayerPhoto    Layer = "photo"
	LayerFloor    Layer = "floor"
	LayerHatch    Layer = "hatch"
	LayerMembrane Layer = "membrane"
	LayerWalls    Layer = "walls"
	LayerFixtures Layer = "fixtures"
	LayerCable    Layer = "cable"
	LayerLeads    Layer = "leads"
	LayerSensors  Layer = "sensors"
	LayerMarks    Layer = "marks"
	LayerDims     Layer = "dimensions"
	LayerText     Layer = "text"
	LayerFrame    Layer = "frame"
)

// An Item is a *Path, a *Text or an *Image; nothing else.
type Item interface{ layer() Layer }

// A Path is lines and curves, stroked, filled or both.
type Path struct {
	Layer  Layer
	Title  string // what it is, for a tooltip and a screen reader; may be empty
	Segs   []Seg
	Stroke *Stroke // nil: no line
	Fill   *Colour // nil: not filled; the even-odd rule holds
}

// A Seg is one drawing step. Curve uses C1 and C2 as its control points.
type Seg struct {
	Op     Op
	To     Pt
	C1, C2 Pt
}

// Op is the kind of a Seg.
type Op byte

// The drawing steps.
const (
	Move Op = iota
	Line
	Curve
	Close
)

// A Stroke is a line's look. Joins are round; ends are round unless Butt.
type Stroke struct {
	Width  float64
	Dash   []float64 // mm on, mm off...; nil: continuous
	Colour Colour
	Butt   bool
}

// A Colour is sRGB.
type Colour struct{ R, G, B uint8 }

// Anchor says which part of a text stands at its point.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// A Text is one line of lettering.
type Text struct {
	Layer    Layer
	At       Pt // on the baseline
	Text     string
	Height   float64 // of a capital, mm
	Face     fonts.Face
	Anchor   Anchor
	Angle    float64 // degrees counter-clockwise: 0 or 90
	Colour   Colour
	Knockout float64 // mm of white round it, 0: none
}

// An Image is a picture that fills a box.
type Image struct {
	Layer Layer
	Title string // what it shows
	Box   Box
	JPEG  []byte
}

func (p *Path) layer() Layer  { return p.Layer }
func (t *Text) layer() Layer  { return t.Layer }
func (m *Image) layer() Layer { return m.Layer }
