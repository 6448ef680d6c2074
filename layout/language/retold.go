package language

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"oxturn/layout/pattern"
)

// Retold puts a text that was put together in English into the language, as Teller.Retold does, where no names
// are known.
func (l Language) Retold(text string) string { return l.Keeping(nil).Retold(text) }

// A Teller tells in a language what was put together in English: what the command says, which goes to
// programs in English as well. Names that a user gave stay as they are, whatever they say.
type Teller struct {
	Language
	names []string        // the longest first
	known map[string]told // what was found of one text and its parts
}

// A told is a text as it is told, and how many letters of it are no message, name or figure.
type told struct {
	text string
	left int
}

// Keeping tells in the language and keeps some names.
func (l Language) Keeping(names []string) Teller {
	t := Teller{Language: l}
	for _, name := range names {
		if strings.TrimSpace(name) != "" {
			t.names = append(t.names, name)
		}
	}
	slices.SortFunc(t.names, func(a, b string) int { return cmp.Or(len(b)-len(a), strings.Compare(a, b)) })
	t.names = slices.Compact(t.names)
	t.names = t.names[:min(len(t.names), mostNames)]
	return t
}

// Retold puts a text that was put together in English into the language. Its catalogue is command-TAG.toml; a
// text is held against the messages there, and its values, in turn, against them and those of the sheets. What is
// no message stays English, but for its decimal signs.
func (t Teller) Retold(text string) string {
	if t.Language == English || strings.ContainsFunc(text, isHidden) {
		return text
	}
	t.known = map[string]told{}
	return t.shown(t.figures(t.retold(t.hide(text), 0).text))
}

// deepest is how often a value may be a message with values.
const deepest = 8

// retold tells a text in which names are hidden.
func (t Teller) retold(text string, depth int) told {
	bare := strings.TrimSpace(text)
	if bare == "" || depth > deepest {
		return told{text, letters(bare)}
	}
	if first, size := utf8.DecodeRuneInString(bare); isHidden(first) && size == len(bare) {
		return told{text, 0} // a name
	}
	found, ok := t.known[text]
	switch {
	case ok:
	case bare != text:
		before, after, _ := strings.Cut(text, bare)
		if m := t.best(text); m != nil {
			found = m.said(t, depth)
		} else {
			found = t.retold(bare, depth)
			found.text = before + found.text + after
		}
	default:
		found = t.retoldAnew(text, depth)
	}
	t.known[text] = found
	return found
}

// retoldAnew takes the message that a text is, or its parts, whichever leaves less of it untold.
func (t Teller) retoldAnew(text string, depth int) told {
	found := told{text, letters(text)}
	if m := t.best(text); m != nil && (depth == 0 || !isKey(text)) {
		if found = m.said(t, depth); found.left == 0 {
			return found
		}
	}
	if parts := t.retoldInParts(text, depth); parts.left < found.left && parts.text != text {
		return parts
	}
	return found
}

// letters counts those of a text that are to be told: none of what is typed as it stands.
func letters(text string) (n int) {
	for _, r := range typed().ReplaceAllString(text, "") {
		if unicode.IsLetter(r) && !isHidden(r) {
			n++
		}
	}
	return n
}

// best is the message that a text is: with its names hidden, or read as words where that explains so much more
// of it that it is no name there ("the rest of it" in a job with a room called "the rest"). In quotes it is one.
func (t Teller) best(text string) *match {
	m := t.match(text)
	shown := t.shownWhere(text, false)
	if shown == text {
		return m
	}
	other := t.match(shown)
	if other == nil || m != nil && other.own <= m.own+inked(shown)-inked(text) {
		return m
	}
	for i, v := range other.values {
		other.values[i] = t.hide(v)
	}
	return other
}

// A match is a text as a message with its values.
type match struct {
	own    int // how much of the text the message says itself
	entry  entry
	values []string
	of     *template // nil: a message without values
}

func (t Teller) match(text string) *match {
	if e, ok := t.word(text); ok {
		return &match{own: inked(text), entry: e}
	}
	for _, p := range templates[t.Language]() {
		if values := p.values(text); values != nil {
			return &match{p.own(), p.entry, values, p}
		}
	}
	return nil
}

func (m *match) said(t Teller, depth int) told {
	if m.of == nil {
		return told{m.entry.counted(t.Language, nil), 0}
	}
	return m.of.said(t, m.values, depth)
}

// retoldInParts tells a text that marks join of messages, part by part; with a no-break space before the marks
// that French sets apart. Of all ways to part it that one is taken which leaves the least untold.
func (t Teller) retoldInParts(text string, depth int) told {
	least := told{text, letters(text)}
	take := func(a told, mark string, b told, end string) {
		if a.left+b.left < least.left {
			least = told{t.join(a.text, mark, b.text) + end, a.left + b.left}
		}
	}
	for _, mark := range []string{"\n", "; ", ": ", ", "} {
		for at := strings.Index(text, mark); at >= 0 && least.left > 0; {
			take(t.retold(text[:at], depth+1), mark, t.retold(text[at+len(mark):], depth+1), "")
			next := strings.Index(text[at+len(mark):], mark)
			if next < 0 {
				break
			}
			at += len(mark) + next
		}
	}
	if before, in, found := strings.Cut(strings.TrimSuffix(text, ")"), " ("); found && strings.HasSuffix(text, ")") {
		take(t.retold(before, depth+1), " (", t.retold(in, depth+1), ")")
	}
	return least
}

func (t Teller) join(a, mark, b string) string {
	if strings.HasSuffix(a, "\u00a0") {
		return a + mark + b
	}
	return a + t.Joint(mark) + b
}

// word is the entry of a text that is a message without values. A word alone is none of the sheets': it may be a
// key of the job, or a unit.
func (l Language) word(text string) (entry, bool) {
	if e, ok := spoken[l]().entries[text]; ok && !takesValues(text) {
		return e, true
	}
	e, ok := l.catalogue().entries[text]
	return e, ok && strings.Contains(text, " ") && !takesValues(text)
}

// valueWords are the single words that are told as values of messages too: of the others most are keys of the job
// file, which stand in messages as they are typed.
var valueWords = []string{"bag", "bathroom", "box", "cartridge", "default", "grout", "instructions", "kept", "label",
	"never", "nothing", "offset", "open", "proposal", "roll", "straight"}

// isKey reports whether a value of a message may be a key of the job file.
func isKey(value string) bool {
	return !strings.ContainsFunc(value, func(r rune) bool { return r != '_' && !unicode.IsLower(r) }) &&
		!slices.Contains(valueWords, value)
}

// takesValues reports whether a message has verbs: as a text it is not that message.
func takesValues(message string) bool {
	return strings.Contains(message, "%s") || strings.Contains(message, "%d")
}

// spoken are the catalogues of what the command says.
var spoken = [...]func() *catalogue{
	Spanish: sync.OnceValue(func() *catalogue { return readFile("command-es.toml") }),
	French:  sync.OnceValue(func() *catalogue { return readFile("command-fr.toml") }),
	German:  sync.OnceValue(func() *catalogue { return readFile("command-de.toml") }),
}

// templates are a language's messages that take values, those that say most of their own first.
var templates = [...]func() []*template{
	Spanish: sync.OnceValue(func() []*template { return templatesOf(Spanish) }),
	French:  sync.OnceValue(func() []*template { return templatesOf(French) }),
	German:  sync.OnceValue(func() []*template { return templatesOf(German) }),
}

// A template recognizes a text as a message with its values put in.
type template struct {
	message string
	entry   entry
	pieces  []string // what the message says between its values
	verbs   []string // of its values, each with its number or none
	form    func() *regexp.Regexp
	brief   bool // it says so little that its first value has to be a figure
}

// verbIn finds what takes a value in a message, and what stands for a per cent sign.
var verbIn = pattern.Of(`%(?:%|(?:\[(\d)\])?[-+0-9.]*([a-z]))`)

// fewestOfSheets is how many marks of its own a message of a sheet has to be looked for in what the command says.
const fewestOfSheets = 12

func templatesOf(l Language) []*template {
	var out []*template
	for message, e := range spoken[l]().entries {
		if t := templateOf(message, e); t != nil {
			out = append(out, t)
		}
	}
	for message, e := range l.catalogue().entries {
		if t := templateOf(message, e); t != nil && t.own() >= fewestOfSheets {
			out = append(out, t)
		}
	}
	slices.SortFunc(out, func(a, b *template) int {
		if n := b.own() - a.own(); n != 0 {
			return n
		}
		return strings.Compare(a.message, b.message)
	})
	return out
}

// fewestOwn is how many marks a message says of its own at least, or as one that begins with its own or with a
// figure: any text would be taken for one that says less.
const fewestOwn, fewestFirst = 3, 2

// templateOf is nil for a message without values, and for one that says next to nothing of its own.
func templateOf(message string, e entry) *template {
	t := &template{message: message, entry: e}
	t.pieces, t.verbs = piecesOf(message)
	if len(t.verbs) == 0 || t.own() < fewestFirst {
		return nil
	}
	t.brief = t.own() < t.fewest()
	t.form = sync.OnceValue(t.compiled)
	return t
}

// piecesOf parts a message into what it says between its values, and the verbs of those.
func piecesOf(message string) (pieces, verbs []string) {
	piece, at := "", 0
	for _, m := range verbIn().FindAllStringSubmatchIndex(message, -1) {
		piece += message[at:m[0]]
		at = m[1]
		if message[m[0]:m[1]] == "%%" {
			piece += "%"
			continue
		}
		pieces, verbs, piece = append(pieces, piece), append(verbs, message[m[0]:m[1]]), ""
	}
	return append(pieces, piece+message[at:]), verbs
}

// own counts what the message says itself, blanks apart.
func (t *template) own() (n int) {
	for _, p := range t.pieces {
		n += inked(p)
	}
	return n
}

// inked counts the letters and signs of a text, blanks apart.
func inked(text string) int { return utf8.RuneCountInString(strings.ReplaceAll(text, " ", "")) }

func (t *template) fewest() int {
	if t.pieces[0] != "" || strings.ContainsAny(t.verbs[0], "dgf") {
		return fewestFirst
	}
	return fewestOwn
}

// compiled is the message as an expression: figures for %d, text in quotes for %q, any text for others; a value
// that was there already is found again by its number only in writing.
func (t *template) compiled() *regexp.Regexp {
	var b strings.Builder
	b.WriteString(`(?s)^`)
	for i, v := range t.verbs {
		b.WriteString(regexp.QuoteMeta(t.pieces[i]))
		switch v[len(v)-1] {
		case 'd':
			b.WriteString(`([-+]?\d+)`)
		case 'f', 'g':
			b.WriteString(`([-+]?[\d.,]+)`)
		case 'q':
			b.WriteString(`("(?:[^"\\]|\\.)*")`)
		case 'x':
			b.WriteString(`([0-9a-f]+)`)
		default:
			b.WriteString(`((?:[^;]|;\S)+?)`) // what stands beside a semicolon is told apart
		}
	}
	b.WriteString(regexp.QuoteMeta(t.pieces[len(t.pieces)-1]) + `$`)
	return regexp.MustCompile(b.String())
}

// values are what stands in a text where the message takes values, by their numbers; nil where the text is
// not this message.
func (t *template) values(text string) []string {
	if !strings.HasPrefix(text, t.pieces[0]) || !strings.HasSuffix(text, t.pieces[len(t.pieces)-1]) {
		return nil
	}
	for _, p := range t.pieces {
		if !strings.Contains(text, p) {
			return nil
		}
	}
	if t.brief && !beginsAsFigure(text) {
		return nil
	}
	m := t.form().FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	out, next := make([]string, len(t.verbs)+1), 0
	for i, v := range t.verbs {
		next = numbered(v, next)
		out[min(next, len(t.verbs))] = m[i+1]
		next++
	}
	return out
}

func beginsAsFigure(text string) bool {
	return startsFigure(strings.TrimLeft(text, "+-±(")) // as "-0.1 % to 0.2 %"
}

// numbered is which value a verb takes, counted from 0: the one after the last, or the one it names.
func numbered(verb string, next int) int {
	if strings.HasPrefix(verb, "%[") {
		return int(verb[2]-'0') - 1
	}
	return next
}

// said is the message in the language with its values.
func (t *template) said(in Teller, values []string, depth int) told {
	form := t.entry.counted(in.Language, []any{count(values[0])})
	out, next := told{}, 0
	for {
		at := verbIn().FindStringSubmatchIndex(form)
		if at == nil {
			out.text += form
			return out
		}
		verb := form[at[0]:at[1]]
		out.text += form[:at[0]]
		if verb == "%%" {
			out.text += "%"
		} else {
			next = numbered(verb, next) + 1
			said := told{text: values[next-1]}
			if !strings.HasSuffix(out.text, `"`) && !strings.HasSuffix(out.text, "--") { // else it is as typed
				said = in.retold(values[next-1], depth+1)
			}
			out.text, out.left = out.text+said.text, out.left+said.left
		}
		form = form[at[1]:]
	}
}

// count is the figure that decides between singular and plural; 0 for what is none.
func count(value string) int {
	n, _ := strconv.Atoi(value) // what is no figure decides nothing
	return n
}
