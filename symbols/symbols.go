// Package symbols holds the drafting marks, the same size on every sheet, and
// the outlines of what stands on a floor or opens in a wall, in floor
// millimetres.
//
// A mark takes its place on paper, and a direction where it lies on a line:
// any vector along the line, x right and y down.
package symbols

import (
	"oxturn/drawing"
	"oxturn/fonts"
)

// Sizes of the marks on paper, mm.
const (
	ThermostatSize = 5.0
	JointSize      = 2.5
	HalfwayBar     = 4.0
	QuarterBar     = 2.5
	EndBar         = 3.0
	SensorSize     = 2.0
	RunCircle      = 4.0
	CalloutSize    = 12.0
	ArrowLength    = 2.5 // of a dimension's arrowhead, three times as long as wide
	tagGap         = 0.8 // between a mark and its tag
)

// letters returns a tag whose capitals are centred on p, on a white patch.
func letters(layer drawing.Layer, p drawing.Pt, text string) *drawing.Text {
	return &drawing.Text{
		Layer: layer, At: p.Add(drawing.Pt{Y: drawing.H25 / 2}), Text: text,
		Height: drawing.H25, Face: fonts.Lettering, Anchor: drawing.Middle,
	}
}

// tag returns a tag beside at, so far away along dir that both its box and
// the mark's reach stay clear of each other; nothing for an empty text.
func tag(layer drawing.Layer, at, dir drawing.Pt, reach float64, text string) []drawing.Item {
	if text == "" {
		return nil
	}
	u := dir.Unit()
	half := fonts.Width(fonts.Lettering, text, drawing.H25) / 2
	out := reach + tagGap + abs(u.X)*half + abs(u.Y)*drawing.H25/2
	t := letters(layer, at.Add(u.Mul(out)), text)
	t.Knockout = 0.5
	return []drawing.Item{t}
}

func abs(v float64) float64 { return max(v, -v) }

// side returns the vector square to dir, to the right of one who goes along it
// as the reader sees it.
func side(dir drawing.Pt) drawing.Pt {
	u := dir.Unit()
	return drawing.Pt{X: -u.Y, Y: u.X}
}

// stroked returns a path of one line.
func stroked(layer drawing.Layer, s *drawing.Stroke, pts ...drawing.Pt) *drawing.Path {
	return &drawing.Path{Layer: layer, Segs: drawing.Polyline(pts...), Stroke: s}
}

// solid returns a filled polygon.
func solid(layer drawing.Layer, c drawing.Colour, pts ...drawing.Pt) *drawing.Path {
	return &drawing.Path{Layer: layer, Segs: drawing.Polygon(pts...), Fill: drawing.Filled(c)}
}
