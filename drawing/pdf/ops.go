package pdf

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"github.com/signintech/gopdf"

	"oxturn/drawing"
)

// perMM is how many points of 1/72 inch make a millimetre.
const perMM = 72 / 25.4

// raw puts operators of a PDF content stream on the page, between q and Q.
// The library has no call for line caps, joins, open lines or the even-odd
// rule, but writes the paint style of a rectangle as it is given: so this is
// an empty rectangle, dropped by n, and then our operators. It leans on how
// gopdf v0.33.0 writes rectangles; a test reads the stream back.
func (d *document) raw(ops string) error {
	return d.pdf.RectFromLowerLeftWithOpts(gopdf.DrawableRectOptions{
		Rect: gopdf.Rect{}, PaintStyle: gopdf.PaintStyle("n\n" + ops),
	})
}

func (d *document) path(p *drawing.Path) error {
	paint := painting(p)
	if len(p.Segs) == 0 || paint == "" {
		return nil
	}
	var b strings.Builder
	b.WriteString(look(p))
	for i, s := range p.Segs {
		d.seg(&b, s, i == 0)
	}
	b.WriteString(paint)
	return d.raw(b.String())
}

// painting returns the operator that fills and strokes, "" for a path that
// does neither.
func painting(p *drawing.Path) string {
	switch {
	case p.Fill != nil && p.Stroke != nil:
		return "B*"
	case p.Fill != nil:
		return "f*"
	case p.Stroke != nil:
		return "S"
	}
	return ""
}

// look returns the operators that set colours and the line.
func look(p *drawing.Path) string {
	ops := ""
	if p.Fill != nil {
		ops += colour(*p.Fill, "g", "rg") + "\n"
	}
	s := p.Stroke
	if s == nil {
		return ops
	}
	if s.Colour != drawing.Black { // which a page begins with, and every path is put back to
		ops += colour(s.Colour, "G", "RG") + "\n"
	}
	ops += fmt.Sprintf("%s w 1 j %d J\n", num(s.Width*perMM), lineCap(s))
	if len(s.Dash) > 0 {
		parts := make([]string, len(s.Dash))
		for i, d := range s.Dash {
			parts[i] = num(d * perMM)
		}
		ops += "[" + strings.Join(parts, " ") + "] 0 d\n"
	}
	return ops
}

func lineCap(s *drawing.Stroke) int {
	if s.Butt {
		return 0
	}
	return 1
}

// colour sets a colour, by the operator for greys where it is one.
func colour(c drawing.Colour, grey, rgb string) string {
	if c.R == c.G && c.G == c.B {
		return num(float64(c.R)/255) + " " + grey
	}
	return num(float64(c.R)/255) + " " + num(float64(c.G)/255) + " " + num(float64(c.B)/255) + " " + rgb
}

// seg writes one step. A path must begin with a place to start from.
func (d *document) seg(b *strings.Builder, s drawing.Seg, first bool) {
	switch {
	case s.Op == drawing.Close:
		b.WriteString("h\n")
	case s.Op == drawing.Move || first:
		b.WriteString(d.place(s.To) + " m\n")
	case s.Op == drawing.Curve:
		b.WriteString(d.place(s.C1) + " " + d.place(s.C2) + " " + d.place(s.To) + " c\n")
	default:
		b.WriteString(d.place(s.To) + " l\n")
	}
}

// place writes a place in points, y up from the foot of the page, to a
// hundredth: 3.5 µm of paper.
func (d *document) place(p drawing.Pt) string {
	return rounded(p.X*perMM, 100) + " " + rounded((d.page.H-p.Y)*perMM, 100)
}

// num writes a number to a thousandth, without trailing zeros.
func num(v float64) string { return rounded(v, 1000) }

// rounded writes a number to one part of so many.
func rounded(v, parts float64) string {
	return strconv.FormatFloat(drawing.Round(v, parts), 'f', -1, 64)
}

// clean makes text fit for bookmarks and document information: a control
// character becomes a space, and a character beyond U+FFFF, which the library
// writes wrongly there, the replacement character.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r):
			return ' '
		case r > 0xFFFF:
			return unicode.ReplacementChar
		}
		return r
	}, s)
}
