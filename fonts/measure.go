package fonts

import (
	"math"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// A glyph is the measure of one character, in ems, y up from the baseline.
type glyph struct {
	known         bool
	advance       float64
	left, right   float64 // of the ink
	bottom, top   float64
	withoutAnyInk bool
}

// cachedRunes characters: Latin letters with every accent, and most of what a
// drawing says. Others are looked up each time.
const cachedRunes = 0x250

// A table is a parsed face. It is not changed once built, so that any number
// of goroutines may read it.
type table struct {
	font    *sfnt.Font
	ppem    fixed.Int26_6
	common  [cachedRunes]glyph
	advance [cachedRunes]float64 // advance of what is set for each of them, for Width
	capital float64              // height of an H, in ems
}

var (
	regularTable = sync.OnceValue(func() *table { return parse(Data(Lettering)) })
	boldTable    = sync.OnceValue(func() *table { return parse(Data(LetteringBold)) })
)

func tableOf(f Face) *table {
	if f == LetteringBold {
		return boldTable()
	}
	return regularTable()
}

// parse reads an embedded face. Its data is part of the program, so that a
// failure is a broken build; a test opens every face.
func parse(data []byte) *table {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("fonts: embedded face: " + err.Error())
	}
	// one unit of the face is one unit of the 26.6 result
	t := &table{font: f, ppem: fixed.Int26_6(f.UnitsPerEm())}
	var buf sfnt.Buffer
	for r := range t.common {
		t.common[r] = t.look(&buf, rune(r))
	}
	for r := range t.common {
		t.advance[r] = t.set(rune(r)).advance
	}
	t.capital = t.common['H'].top
	return t
}

func (t *table) look(buf *sfnt.Buffer, r rune) glyph {
	i, err := t.font.GlyphIndex(buf, r)
	if err != nil || i == 0 || unicode.IsControl(r) {
		return glyph{}
	}
	b, adv, err := t.font.GlyphBounds(buf, i, t.ppem, font.HintingNone)
	if err != nil {
		return glyph{}
	}
	em := float64(t.ppem)
	return glyph{
		known: true, advance: float64(adv) / em,
		left: float64(b.Min.X) / em, right: float64(b.Max.X) / em,
		bottom: -float64(b.Max.Y) / em, top: -float64(b.Min.Y) / em,
		withoutAnyInk: b.Empty(),
	}
}

func (t *table) glyph(r rune) glyph {
	if r >= 0 && r < cachedRunes {
		return t.common[r]
	}
	return t.look(nil, r)
}

// set returns the measure of the character that is set for r: of r, or of the
// Substitute.
func (t *table) set(r rune) glyph {
	if g := t.glyph(r); g.known {
		return g
	}
	return t.glyph(Substitute)
}

// EmSize returns the size of the em, in mm, at which a capital of f is
// capHeight mm tall.
func EmSize(f Face, capHeight float64) float64 {
	return capHeight / tableOf(f).capital
}

// Width returns the length of s in mm, from the advances of its characters.
// Faces are set without kerning.
func Width(f Face, s string, capHeight float64) float64 {
	t, w := tableOf(f), 0.0
	for _, r := range s {
		if r < cachedRunes {
			w += t.advance[r]
		} else {
			w += t.set(r).advance
		}
	}
	return w * EmSize(f, capHeight)
}

// An Extent is how far the ink of a line reaches, in mm: Left and Right from
// its start, Bottom and Top up from the baseline. Bottom is negative where
// something hangs below the line.
type Extent struct{ Left, Right, Bottom, Top float64 }

// Ink returns the extent of s; the zero Extent for text that leaves no mark.
func Ink(f Face, s string, capHeight float64) Extent {
	t, em := tableOf(f), EmSize(f, capHeight)
	x, e, any := 0.0, Extent{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}, false
	for _, r := range s {
		g := t.set(r)
		if !g.withoutAnyInk {
			any = true
			e.Left, e.Right = math.Min(e.Left, x+g.left), math.Max(e.Right, x+g.right)
			e.Bottom, e.Top = math.Min(e.Bottom, g.bottom), math.Max(e.Top, g.top)
		}
		x += g.advance
	}
	if !any {
		return Extent{}
	}
	return Extent{e.Left * em, e.Right * em, e.Bottom * em, e.Top * em}
}
