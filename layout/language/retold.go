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

// A told is a text as it is told, and whether it is a message.
type told struct {
	text string
	is   bool
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
	hidden := t.hide(text)
	said, is := t.retold(hidden, 0)
	if !is {
		lines := strings.Split(hidden, "\n")
		for i, line := range lines {
			lines[i], _ = t.retold(line, 0)
		}
		said = strings.Join(lines, "\n")
	}
	return t.shown(t.figures(said))
}

// deepest is how often a value may be a message with values.
const deepest = 6

// retold also tells whether any of the text is a message. Names are hidden in it.
func (t Teller) retold(text string, depth int) (string, bool) {
	bare := strings.TrimSpace(text)
	if bare == "" || depth > deepest {
		return text, false
	}
	if first, size := utf8.DecodeRuneInString(bare); isHidden(first) && size == len(bare) {
		return text, true // a name
	}
	if found, ok := t.known[text]; ok {
		return found.text, found.is
	}
	said, is := t.retoldAnew(text, bare, depth)
	t.known[text] = told{said, is}
	return said, is
}

func (t Teller) retoldAnew(text, bare string, depth int) (string, bool) {
	if m := t.best(text); m != nil && (depth == 0 || !isKey(text)) {
		return m.said(t, depth), true
	}
	if bare == text {
		return t.retoldInParts(text, depth)
	}
	before, after, _ := strings.Cut(text, bare)
	said, is := t.retold(bare, depth)
	return before + said + after, is
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

func (m *match) said(t Teller, depth int) string {
	if m.of == nil {
		return m.entry.counted(t.Language, nil)
	}
	return m.of.said(t, m.values, depth)
}

// retoldInParts tells a text that marks join of messages, part by part; with a no-break space before the marks
// that French sets apart. Parts that all are messages come before those of which only one is.
func (t Teller) retoldInParts(text string, depth int) (string, bool) {
	some := ""
	for _, mark := range []string{"; ", ": ", ", "} {
		for at := strings.Index(text, mark); at >= 0; {
			a, is := t.retold(text[:at], depth+1)
			b, also := t.retold(text[at+len(mark):], depth+1)
			if is && also {
				return t.join(a, mark, b), true
			}
			if (is || also) && some == "" {
				some = t.join(a, mark, b)
			}
			next := strings.Index(text[at+len(mark):], mark)
			if next < 0 {
				break
			}
			at += len(mark) + next
		}
	}
	if some != "" {
		return some, true
	}
	if before, in, found := strings.Cut(strings.TrimSuffix(text, ")"), " ("); found && strings.HasSuffix(text, ")") {
		a, is := t.retold(before, depth+1)
		b, also := t.retold(in, depth+1)
		return a + " (" + b + ")", is || also
	}
	return text, false
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
var valueWords = []string{"default", "kept", "label", "never", "open"}

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

// templateOf is nil for a message without values, and for one that says too little of its own.
func templateOf(message string, e entry) *template {
	t := &template{message: message, entry: e}
	t.pieces, t.verbs = piecesOf(message)
	if len(t.verbs) == 0 || t.own() < t.fewest() {
		return nil
	}
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

// numbered is which value a verb takes, counted from 0: the one after the last, or the one it names.
func numbered(verb string, next int) int {
	if strings.HasPrefix(verb, "%[") {
		return int(verb[2]-'0') - 1
	}
	return next
}

// said is the message in the language with its values.
func (t *template) said(in Teller, values []string, depth int) string {
	next := 0
	form := t.entry.counted(in.Language, []any{count(values[0])})
	return verbIn().ReplaceAllStringFunc(form, func(verb string) string {
		if verb == "%%" {
			return "%"
		}
		next = numbered(verb, next) + 1
		said, _ := in.retold(values[next-1], depth+1)
		return said
	})
}

// count is the figure that decides between singular and plural; 0 for what is none.
func count(value string) int {
	n, _ := strconv.Atoi(value) // what is no figure decides nothing
	return n
}
