package drawing

import (
	"math"
	"strings"
)

const inch = 25.4

// Papers returns the sheet sizes, upright, small to large: ISO 216 A4 to A0, and of
// ANSI/ASME Y14.1 letter, tabloid (11 x 17 in), ANSI C to E and arch C to E (24 x 36 and 36 x 48 in).
func Papers() []Paper {
	return []Paper{
		{"A4", 210, 297},
		{"letter", 8.5 * inch, 11 * inch},
		{"A3", 297, 420},
		{"tabloid", 11 * inch, 17 * inch},
		{"A2", 420, 594},
		{"ANSI C", 17 * inch, 22 * inch},
		{"arch C", 18 * inch, 24 * inch},
		{"A1", 594, 841},
		{"ANSI D", 22 * inch, 34 * inch},
		{"arch D", 24 * inch, 36 * inch},
		{"A0", 841, 1189},
		{"ANSI E", 34 * inch, 44 * inch},
		{"arch E", 36 * inch, 48 * inch},
	}
}

// ISO reports whether a sheet is of the A series of ISO 216: those are of whole millimetres.
func (p Paper) ISO() bool { return p.W == math.Trunc(p.W) && p.H == math.Trunc(p.H) }

// PaperNamed returns the upright sheet of that name; letter case does not
// matter.
func PaperNamed(name string) (Paper, bool) {
	for _, p := range Papers() {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Paper{}, false
}

// Landscape returns the sheet lying on its long side.
func (p Paper) Landscape() Paper {
	if p.W < p.H {
		p.W, p.H = p.H, p.W
	}
	return p
}

// Portrait returns the sheet standing on its short side.
func (p Paper) Portrait() Paper {
	if p.W > p.H {
		p.W, p.H = p.H, p.W
	}
	return p
}

// Box returns the whole sheet.
func (p Paper) Box() Box { return Box{0, 0, p.W, p.H} }

// Frame returns the box inside the margins: 20 mm at the left for filing, 10
// elsewhere, as ISO 5457 has it.
func (p Paper) Frame() Box { return Box{20, 10, p.W - 10, p.H - 10} }
