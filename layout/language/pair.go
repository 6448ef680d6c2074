package language

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/feature/plural"

	"oxturn/layout/pattern"
)

// A pair is how texts of one language read in another: by the messages that they are, found again with their
// values, since a sheet is put together in its first language alone.
type pair struct {
	from, to Language
	forms    func() []pairForm

	lock  sync.Mutex
	whole map[string]string // what was asked for already; empty: no message
	found map[string]string // the parts of the text that is asked for now
}

// mostFound is how many answers are kept: far more than a set asks for, and few for a browser that draws all day.
const mostFound = 8192

// mostParts is how many parts of one text are looked for, several times what the longest that is a message takes: of
// one in which a clause is no message every way to part the rest would be tried, for minutes.
const mostParts = 4000

// A pairForm recognizes a text of the one language, and has its message in the other.
type pairForm struct {
	*template
	own int
}

// pairs are all of them, each worked out when it is first asked for.
var pairs = sync.OnceValue(func() (out [len(tags)][len(tags)]*pair) {
	for from := range out {
		for to := range out[from] {
			p := &pair{from: Language(from), to: Language(to), whole: map[string]string{}, found: map[string]string{}}
			p.forms = sync.OnceValue(p.work)
			out[from][to] = p
		}
	}
	return out
})

// work lists the messages that take values, those first that say most of their own.
func (p *pair) work() []pairForm {
	var out []pairForm
	for key := range Spanish.catalogue().entries { // every language has the same
		for _, form := range p.from.entryOf(key) {
			out = p.add(out, plainBlanks(form), p.to.entryOf(key))
		}
	}
	slices.SortFunc(out, func(a, b pairForm) int {
		return cmp.Or(cmp.Compare(b.own, a.own), strings.Compare(a.message, b.message),
			strings.Compare(a.entry[plural.Other], b.entry[plural.Other]))
	})
	return out
}

// add adds a message, and the same without what may stand before its first word, which is often nothing.
func (p *pair) add(forms []pairForm, form string, e entry) []pairForm {
	t := &template{message: form, entry: e}
	t.pieces, t.verbs = piecesOf(form)
	if own := t.own(); len(t.verbs) > 0 && own >= fewestOfPair {
		t.form = sync.OnceValue(t.spread)
		forms = append(forms, pairForm{t, own})
	}
	bare, prefixed := strings.CutPrefix(form, "%s")
	also, alike := strings.CutPrefix(e[plural.Other], "%s")
	if first, _ := utf8.DecodeRuneInString(bare); prefixed && alike && (unicode.IsLetter(first) || first == '%') {
		return p.add(forms, bare, entry{plural.Other: also})
	}
	return forms
}

// spread is the message as an expression of which any value may be a list.
func (t *template) spread() *regexp.Regexp {
	return regexp.MustCompile(strings.ReplaceAll(t.compiled().String(), `((?:[^;]|;\S)+?)`, `(.*?)`))
}

// fewestOfPair is how many marks of its own a message has by which a text is found to be it; one with muchOwn is
// looked for before the text is taken apart.
const fewestOfPair, muchOwn = 2, 6

// entryOf is what a language has for an English message; English has the message.
func (l Language) entryOf(key string) entry {
	if l == English {
		return entry{plural.Other: key}
	}
	return l.catalogue().entries[key]
}

// in is a text of the one language in the other; empty where it is no message.
func (p *pair) in(text string) string {
	p.lock.Lock()
	defer p.lock.Unlock()
	said, known := p.whole[text]
	if !known {
		if len(p.whole) > mostFound {
			clear(p.whole)
		}
		clear(p.found) // else what is found would hang on what was asked for before
		said, _ = p.said(plainBlanks(text))
		p.whole[text] = said
	}
	return said
}

// plainBlanks are a text's blanks as all others: where a line may end is said anew in each language.
func plainBlanks(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// said also tells whether the text is a message, or a figure.
func (p *pair) said(text string) (string, bool) {
	said, known := p.found[text]
	if !known && len(p.found) < mostParts {
		p.found[text] = "" // no message by itself
		said = p.search(text)
		p.found[text] = said
	}
	return said, said != ""
}

// search looks for the message that a text is: sentence by sentence, lest a value is taken to end in the next; for one
// that says much itself, then in its other parts.
func (p *pair) search(text string) string {
	for _, look := range []func(string) string{
		p.word, p.figure, p.words, p.sentences,
		func(text string) string { return p.form(text, true) },
		p.inParts, p.clear,
		func(text string) string { return p.form(text, false) },
		p.besides,
	} {
		if said := look(text); said != "" {
			return said
		}
	}
	return ""
}

// clear is a text without the mark at its end that a table or a sentence has.
func (p *pair) clear(text string) string {
	for _, mark := range []string{"*", "."} {
		if bare, has := strings.CutSuffix(text, mark); has && !strings.HasSuffix(bare, ".") {
			if said, is := p.said(bare); is {
				return said + mark
			}
		}
	}
	return ""
}

// form looks for a message that takes values, one that says much itself or one that says little; it may begin with a
// capital that it has from its place.
func (p *pair) form(text string, much bool) string {
	first, size := utf8.DecodeRuneInString(text)
	small := string(unicode.ToLower(first)) + text[size:]
	for _, f := range p.forms() {
		if (f.own >= muchOwn) != much {
			continue
		}
		if said := p.with(f, f.values(text)); said != "" {
			return said
		}
		if small != text {
			if said := p.with(f, f.values(small)); said != "" {
				return capital(said)
			}
		}
	}
	return ""
}

// capital is a text with a capital at its beginning.
func capital(text string) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// word is a message without values, whatever blanks stand round it.
func (p *pair) word(text string) string {
	if len(text) <= mostLetter {
		return ""
	}
	if said := p.from.alsoWord(text, p.to); said != "" {
		return said
	}
	bare := strings.TrimSpace(text)
	if said := p.from.alsoWord(bare, p.to); bare != "" && said != "" {
		before, after, _ := strings.Cut(text, bare)
		return before + said + after
	}
	first, size := utf8.DecodeRuneInString(text)
	if unicode.IsLower(first) { // a heading within a sentence
		return p.to.Within(p.from.alsoWord(capital(text), p.to))
	}
	return capital(p.from.alsoWord(string(unicode.ToLower(first))+text[size:], p.to))
}

// with is a message with its values, of which a name stays as it is; empty where one is neither.
func (p *pair) with(f pairForm, values []string) string {
	if values == nil {
		return ""
	}
	said := make([]string, len(values))
	for i, v := range values {
		own, ok := p.said(v)
		switch {
		case len(v) <= mostLetter || !ok && name().MatchString(strings.TrimSpace(v)):
			own = v
		case !ok:
			return ""
		}
		said[i] = own
	}
	next, last := 0, len(f.verbs)-1
	out := verbIn().ReplaceAllStringFunc(f.entry.counted(p.to, []any{count(values[0])}), func(verb string) string {
		if verb == "%%" {
			return "%"
		}
		next = numbered(verb, next) + 1
		return said[next-1]
	})
	if strings.HasSuffix(said[last], ".") && f.pieces[last+1] == "" && !strings.HasSuffix(out, said[last]) {
		return "" // the stop is the sentence's, not the value's
	}
	return out
}

// mostLetter is the length of a letter of a wall, which is none of the words that are one letter.
const mostLetter = 1

// name matches what stays in every language: nothing, a label, a unit, words with capitals.
var name = pattern.Of(`^(?:[\p{Lu}\d][^\s:;,]*(?: [\p{Lu}\d][^\s:;,]*)*|\p{L}{1,3}[²³]?|°[CF])?$`)

// sentences is a text of several messages, one after the other.
func (p *pair) sentences(text string) string { return p.partedAt(text, ". ") }

// inParts is a text of several messages joined by marks.
func (p *pair) inParts(text string) string { return p.partedAt(text, "; ", ": ", ", ") }

func (p *pair) partedAt(text string, marks ...string) string {
	for _, mark := range marks {
		for at := strings.LastIndex(text, mark); at > 0; at = strings.LastIndex(text[:at], mark) {
			if said := p.parted(text, at, mark); said != "" {
				return said
			}
		}
	}
	return ""
}

// besides is a message with a figure before or behind it, or with more in brackets.
func (p *pair) besides(text string) string {
	for _, m := range [][]string{behind().FindStringSubmatch(text), before().FindStringSubmatch(text),
		bracketed().FindStringSubmatch(text)} {
		if m == nil {
			continue
		}
		if said := p.joined(m[1], m[2], m[3]); said != "" && m[4] == "" {
			return said
		}
		first, is := p.said(m[1])
		rest, also := p.said(m[3])
		if (!also || m[4] != "" && numeral().MatchString(m[3])) && name().MatchString(m[3]) { // a clause is no figure
			rest, also = m[3], true
		}
		if is && also {
			return first + m[2] + rest + m[4]
		}
	}
	return ""
}

// behind matches a message with a figure behind it, before with one before it, bracketed with more in brackets.
var (
	behind    = pattern.Of(`^(.*[^\d\s])( )([-+±]?\d[^ ]*(?: [^\s\d]{1,5})?)()$`)
	before    = pattern.Of(`^([-+±]?\d[^ ]*(?: [^\s\d]{1,5})?)( )(\D.*)()$`)
	bracketed = pattern.Of(`^(.*?)( \()(.*)(\))$`)
)

// parted is a text with a mark at a place, both sides of it messages, or one a name.
func (p *pair) parted(text string, at int, mark string) string {
	before, after := text[:at], text[at+len(mark):]
	if mark == ". " {
		return p.after(before+".", after)
	}
	if said := p.joined(before, mark, after); said != "" {
		return said
	}
	before = strings.TrimSuffix(before, " ") // as French sets a colon apart
	first, is := p.said(before)
	rest, also := p.said(after)
	switch {
	case !is && (!also || !name().MatchString(before)):
		return ""
	case !also && (!is || !name().MatchString(after)):
		return ""
	case !is:
		first = before
	case !also:
		rest = after
	}
	return first + p.to.Joint(mark) + rest
}

// after is a text of two sentences, or one and more; the full stop belongs to the first.
func (p *pair) after(before, after string) string {
	if first, is := p.said(before); is {
		if rest, also := p.said(after); also {
			return begun(before, first) + " " + begun(after, rest)
		}
	}
	return p.joined(before, " ", after)
}

// begun is what a sentence is in the other language, with a capital where it has one.
func begun(sentence, said string) string {
	if first, _ := utf8.DecodeRuneInString(sentence); unicode.IsUpper(first) {
		return capital(said)
	}
	return said
}

// joined is a text of two messages of which one has the mark between them.
func (p *pair) joined(before, mark, after string) string {
	for _, both := range [][2]string{{before, mark + after}, {before + mark, after}} {
		first, is := p.said(both[0])
		if !is {
			continue
		}
		if rest, also := p.said(both[1]); also {
			return first + rest
		}
	}
	return ""
}

// words are two messages without values, with a comma between them.
func (p *pair) words(text string) string {
	first, second, two := strings.Cut(text, ", ")
	first, second = p.word(first), p.word(second)
	if !two || first == "" || second == "" {
		return ""
	}
	return first + ", " + second
}

// figure is figures with their units, with the decimal sign of the other language; empty for what has more than those.
func (p *pair) figure(text string) string {
	found := false
	for _, token := range strings.Fields(text) {
		is := numeral().MatchString(token)
		if found = found || is; !is && !slices.Contains(units, strings.Trim(token, "()")) {
			return ""
		}
	}
	if !found {
		return ""
	}
	sign := ","
	if p.to == English {
		sign = "."
	}
	return decimalSign().ReplaceAllString(text, "${1}"+sign+"${2}")
}

// units are what stands behind figures, and between two of them.
var units = strings.Fields("mm m cm m² m³ in ft ft² ft³ V W A W/m W/ft W/m² W/ft² Ω kΩ MΩ mA nF kg kg/L lb L mL gal " +
	"oz kWh h min K % °C °F ° / x W/(m W/(m² m²K/W Btu/(h")

// numeral matches a figure; decimalSign what stands between two of its digits.
var (
	numeral     = pattern.Of(`^\(?[-+±]?\d[\d.,/'"°+-]*[%*]?\)?$`)
	decimalSign = pattern.Of(`(\d)[.,](\d)`)
)
