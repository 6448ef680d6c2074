package setting

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout/language"
	"oxturn/layout/pattern"
)

// NoBreak is a space at which no line ends.
const NoBreak = "\u00a0"

func breakable(r rune) bool { return unicode.IsSpace(r) && string(r) != NoBreak }

// unitWords are the units that stay on the line of their figure.
var unitWords = strings.Fields("mm m m² in ft ft² V W A W/m W/ft W/m² W/ft² Ω kΩ MΩ mA nF kg lb L mL gal kWh h min K " +
	"% °C °F")

// Fields returns the words of a text, which are never broken: a figure and its
// unit are one, as are whole inches and the fraction after them, and a wall and
// its letter.
func Fields(text string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(text, breakable) {
		if n := len(out); n > 0 && belongs(out[n-1], w) {
			out[n-1] += NoBreak + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// inchFraction matches what follows whole inches: 3/4". letter matches what follows
// a wall.
var (
	inchFraction = pattern.Of(`^\d+/\d+"`)
	wallLetter   = pattern.Of(`^[A-Z]{1,2}[,;:.)]*$`)
)

// belongs reports whether a word stays on the line of the one before it.
func belongs(before, w string) bool {
	if figured(before) {
		return slices.Contains(unitWords, strings.TrimRight(w, ",;:.)")) || inchFraction().MatchString(w)
	}
	return wallLetter().MatchString(w) && strings.HasSuffix(before, "wall")
}

// figured reports whether a word is a figure, such as 12, (0.5 or 3/8.
func figured(w string) bool {
	digit := func(c byte) bool { return c >= '0' && c <= '9' }
	w = strings.TrimLeft(w, "(+-±")
	return w != "" && digit(w[0]) && digit(w[len(w)-1])
}

// A phrase is a text taken apart into words, their widths measured once.
type phrase struct {
	words  []string
	widths []float64       // mm
	space  float64         // mm between two words
	whole  float64         // mm of all in one line
	broken map[float64]int // lines at widths at which a word has to be broken
}

// A style is a face at a height, with the texts measured in it.
type style struct {
	face    fonts.Face
	height  float64
	phrases map[string]*phrase
}

// A Typesetter breaks text into lines. It remembers the texts it has measured:
// finding an arrangement sets the same text to many widths.
type Typesetter struct {
	language.Language                     // of the words that every sheet has
	also              []language.Language // the second of two
	styles            []style
}

// NewTypesetter returns a typesetter that has measured nothing yet, for one language or two.
func NewTypesetter(l language.Language, also ...language.Language) *Typesetter {
	return &Typesetter{Language: l, also: also}
}

// Said is a message that takes no values, in both languages where there are two.
func (ty *Typesetter) Said(message string) string {
	out := ty.Text(message)
	for _, l := range ty.also {
		if said := l.Text(message); said != out {
			out += " / " + said
		}
	}
	return out
}

// Both adds to a text what it is in the second language, where it is a message and does not stand in both already.
func (ty *Typesetter) Both(text string) string {
	if len(ty.also) == 0 || ty.twice(text) {
		return text
	}
	if said := ty.second(text); said != "" {
		return text + betweenBoth + said
	}
	return text
}

// betweenBoth stands between a text and the same in a second language.
const betweenBoth = " / "

// twice reports whether a text stands in both languages.
func (ty *Typesetter) twice(text string) bool {
	for at := strings.Index(text, betweenBoth); at >= 0; {
		after := text[at+len(betweenBoth):]
		for _, l := range ty.also {
			if ty.Also(text[:at], l) == after || l.Also(after, ty.Language) != "" && ty.Also(text[:at], l) != "" {
				return true
			}
		}
		next := strings.Index(after, betweenBoth)
		if next < 0 {
			return false
		}
		at += len(betweenBoth) + next
	}
	return false
}

// style returns the style of a face and a height; there are few.
func (ty *Typesetter) style(f fonts.Face, height float64) style {
	for _, s := range ty.styles {
		if s.face == f && s.height == height {
			return s
		}
	}
	s := style{f, height, map[string]*phrase{}}
	ty.styles = append(ty.styles, s)
	return s
}

func (ty *Typesetter) phrase(f fonts.Face, text string, height float64) *phrase {
	s := ty.style(f, height)
	if p, ok := s.phrases[text]; ok {
		return p
	}
	p := &phrase{words: Fields(text), space: fonts.Width(f, " ", height)}
	for i, w := range p.words {
		p.words[i] = strings.ReplaceAll(w, NoBreak, " ")
		own := fonts.Width(f, p.words[i], height)
		if p.widths = append(p.widths, own); i > 0 {
			p.whole += p.space
		}
		p.whole += own
	}
	s.phrases[text] = p
	return p
}

// Lines returns how many lines a text takes at width w, one at least.
func (ty *Typesetter) Lines(f fonts.Face, text string, height, w float64) int {
	p := ty.phrase(f, text, height)
	if p.whole <= w {
		return 1
	}
	n, used := 1, 0.0
	for i, own := range p.widths {
		if own > w { // has to be broken
			return ty.brokenLines(p, f, text, height, w)
		}
		switch {
		case i == 0:
			used = own
		case used+p.space+own > w:
			n, used = n+1, own
		default:
			used += p.space + own
		}
	}
	return n
}

// brokenLines is lines where a word is wider than w.
func (ty *Typesetter) brokenLines(p *phrase, f fonts.Face, text string, height, w float64) int {
	n, ok := p.broken[w]
	if !ok {
		n = len(ty.WrapIn(f, text, height, w))
		if p.broken == nil {
			p.broken = map[float64]int{}
		}
		p.broken[w] = n
	}
	return n
}

// Wrap breaks a text of note lettering into lines no wider than w.
func (ty *Typesetter) Wrap(text string, w float64) []string {
	return ty.WrapIn(fonts.Lettering, text, Note, w)
}

// WrapIn breaks text into lines no wider than w. A word that is wider than w
// is broken too, so that nothing ever runs off its column. The faces have no
// kerning, so that the width of a line is the sum of its words.
func (ty *Typesetter) WrapIn(f fonts.Face, text string, height, w float64) []string {
	p := ty.phrase(f, text, height)
	var lines []string
	line, used := "", 0.0
	for i, word := range p.words {
		for _, piece := range breakWord(f, word, height, w, p.widths[i]) {
			own := p.widths[i]
			if len(piece) < len(word) {
				own = fonts.Width(f, piece, height)
			}
			switch {
			case line == "":
				line, used = piece, own
			case used+p.space+own > w:
				lines = append(lines, line)
				line, used = piece, own
			default:
				line, used = line+" "+piece, used+p.space+own
			}
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// breakWord cuts a word of the given width into pieces no wider than w, each of
// one character at least: a figure from its unit first.
func breakWord(f fonts.Face, word string, height, w, own float64) []string {
	if own <= w {
		return []string{word}
	}
	var pieces []string
	start, used := 0, 0.0
	for i := range word {
		_, n := utf8.DecodeRuneInString(word[i:])
		width := fonts.Width(f, word[i:i+n], height)
		if i > start && used+width > w {
			end, next := i, i
			if k := strings.LastIndexByte(word[start:i], ' '); k > 0 {
				end, next = start+k, start+k+1
			}
			pieces = append(pieces, word[start:end])
			start, used = next, fonts.Width(f, word[next:i], height)
		}
		used += width
	}
	return append(pieces, word[start:])
}

// headLeading is from line to line of a heading, in heights of its capitals.
const headLeading = 1.6

// heading puts the mark of what goes on into the reader's language, and the rest of it into the
// second.
func (ty *Typesetter) heading(text string) string {
	if head, on := strings.CutSuffix(text, continued); on {
		return ty.Both(head) + " " + ty.Text(continuedMark)
	}
	return ty.Both(text)
}

// HeadingHeight returns what a heading takes with the space below it.
func (ty *Typesetter) HeadingHeight(text string, w float64) float64 {
	if text == "" {
		return 0
	}
	size := ty.headingSize(text, w)
	n := ty.Lines(fonts.LetteringBold, ty.heading(text), size, w)
	return HeadRow + float64(n-1)*size*headLeading
}

// headingSize is how large a heading is set: as a note where a word of it would be broken else.
func (ty *Typesetter) headingSize(text string, w float64) float64 {
	for _, own := range ty.phrase(fonts.LetteringBold, ty.heading(text), Heading).widths {
		if own > w {
			return Note
		}
	}
	return Heading
}

// SetHeading writes a heading and returns its height.
func SetHeading(pg *Page, at drawing.Pt, text string, w float64) float64 {
	if text == "" {
		return 0
	}
	y, size := at.Y+Heading, pg.Ty.headingSize(text, w)
	for _, l := range pg.Ty.WrapIn(fonts.LetteringBold, pg.Ty.heading(text), size, w) {
		pg.WriteIn(fonts.LetteringBold, drawing.Pt{X: at.X, Y: y}, l, size, drawing.Start)
		y += size * headLeading
	}
	return pg.Ty.HeadingHeight(text, w)
}
