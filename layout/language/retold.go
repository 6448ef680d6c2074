package language

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"oxturn/layout/pattern"
)

// Retold puts a text that was put together in English into the language: what the command says, which goes to
// programs in English as well. Its catalogue is command-TAG.toml; a text is held against the messages there, and
// its values, in turn, against them and those of the sheets. What is no message stays English.
func (l Language) Retold(text string) string {
	if l == English {
		return text
	}
	if said, is := l.retold(text, 0); is {
		return said
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i], _ = l.retold(line, 0)
	}
	return strings.Join(lines, "\n")
}

// deepest is how often a value may be a message with values.
const deepest = 4

// retold also tells whether any of the text is a message.
func (l Language) retold(text string, depth int) (string, bool) {
	bare := strings.TrimSpace(text)
	if bare == "" {
		return text, false
	}
	if said, ok := l.word(text); ok {
		return said, true
	}
	if said, ok := l.word(bare); ok {
		before, after, _ := strings.Cut(text, bare)
		return before + said + after, true
	}
	if depth > deepest {
		return text, false
	}
	for _, p := range templates[l]() {
		if values := p.values(text); values != nil {
			return p.said(l, values, depth), true
		}
	}
	return l.retoldInParts(text, depth)
}

// retoldInParts tells a text that marks join of messages, part by part; with a no-break space before the marks
// that French sets apart.
func (l Language) retoldInParts(text string, depth int) (string, bool) {
	for _, mark := range []string{"; ", ": "} {
		first, rest, found := strings.Cut(text, mark)
		if !found {
			continue
		}
		a, is := l.retold(first, depth+1)
		b, also := l.retold(rest, depth+1)
		if is || also {
			return a + l.spaced(mark) + b, true
		}
	}
	if before, in, found := strings.Cut(strings.TrimSuffix(text, ")"), " ("); found && strings.HasSuffix(text, ")") {
		a, is := l.retold(before, depth+1)
		b, also := l.retold(in, depth+1)
		return a + " (" + b + ")", is || also
	}
	return text, false
}

func (l Language) spaced(mark string) string {
	if l == French {
		return "\u00a0" + mark
	}
	return mark
}

// word is a text that is a message without values. A word alone is none of the sheets': it may be a key of the
// job, or a unit.
func (l Language) word(text string) (string, bool) {
	if said, ok := spoken[l]().entries[text]; ok {
		return said.counted(l, nil), true
	}
	said, ok := l.catalogue().entries[text]
	if !ok || !strings.Contains(text, " ") {
		return "", false
	}
	return said.counted(l, nil), true
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
	piece, at := "", 0
	for _, m := range verbIn().FindAllStringSubmatchIndex(message, -1) {
		piece += message[at:m[0]]
		at = m[1]
		if message[m[0]:m[1]] == "%%" {
			piece += "%"
			continue
		}
		t.pieces, t.verbs, piece = append(t.pieces, piece), append(t.verbs, message[m[0]:m[1]]), ""
	}
	t.pieces = append(t.pieces, piece+message[at:])
	if len(t.verbs) == 0 || t.own() < t.fewest() {
		return nil
	}
	t.form = sync.OnceValue(t.compiled)
	return t
}

// own counts what the message says itself, blanks apart.
func (t *template) own() (n int) {
	for _, p := range t.pieces {
		n += utf8.RuneCountInString(strings.ReplaceAll(p, " ", ""))
	}
	return n
}

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
func (t *template) said(l Language, values []string, depth int) string {
	next := 0
	form := t.entry.counted(l, []any{count(values[0])})
	return verbIn().ReplaceAllStringFunc(form, func(verb string) string {
		if verb == "%%" {
			return "%"
		}
		next = numbered(verb, next) + 1
		said, _ := l.retold(values[next-1], depth+1)
		return said
	})
}

// count is the figure that decides between singular and plural; 0 for what is none.
func count(value string) int {
	n, _ := strconv.Atoi(value) // what is no figure decides nothing
	return n
}
