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
	for i := 0; i < len(p.Segs); i++ {
		if r, ok := upright(p.Segs[i:]); ok {
			d.rectangle(&b, r)
			i += rectangleSegs - 1
			continue
		}
		d.seg(&b, p.Segs[i], i == 0)
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

// brightest is a channel without any black.
const brightest = 255

// colour sets a colour, by the operator for greys where it is one.
func colour(c drawing.Colour, grey, rgb string) string {
	if c.R == c.G && c.G == c.B {
		return num(float64(c.R)/brightest) + " " + grey
	}
	return num(float64(c.R)/brightest) + " " + num(float64(c.G)/brightest) + " " + num(float64(c.B)/brightest) + " " +
		rgb
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

// rectangleSegs is how many steps go round a rectangle.
const rectangleSegs = 5

// upright returns the box that the first steps of a path go round, if they go round one
// with level sides.
func upright(segs []drawing.Seg) (drawing.Box, bool) {
	if len(segs) < rectangleSegs || segs[0].Op != drawing.Move || segs[4].Op != drawing.Close {
		return drawing.Box{}, false
	}
	for _, s := range segs[1:4] {
		if s.Op != drawing.Line {
			return drawing.Box{}, false
		}
	}
	a, b, c, e := segs[0].To, segs[1].To, segs[2].To, segs[3].To
	level := a.Y == b.Y && b.X == c.X && c.Y == e.Y && e.X == a.X
	steep := a.X == b.X && b.Y == c.Y && c.X == e.X && e.Y == a.Y
	return drawing.BoxOf(a, c), level || steep
}

// rectangle writes a box in one operator, its sides where those of its corners would be:
// a label's code has thousands.
func (d *document) rectangle(b *strings.Builder, r drawing.Box) {
	x0, x1 := drawing.Round(r.X0*perMM, 100), drawing.Round(r.X1*perMM, 100)
	y0, y1 := drawing.Round((d.page.H-r.Y1)*perMM, 100), drawing.Round((d.page.H-r.Y0)*perMM, 100)
	b.WriteString(strings.Join([]string{rounded(x0, 100), rounded(y0, 100), rounded(x1-x0, 100),
		rounded(y1-y0, 100)}, " ") + " re\n")
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
		case r > '\uffff':
			return unicode.ReplacementChar
		}
		return r
	}, s)
}
