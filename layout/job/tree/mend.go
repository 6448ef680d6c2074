package tree

import (
	"fmt"
	"sort"
	"strings"
)

// Bounds on how far a broken file is looked through.
const (
	maxSlips      = 100
	maxRepeats    = 20     // of reading a file whole again
	maxStatements = 20_000 // beyond them only the first slip is said
)

// Mend reads a file that Parse refuses: it says everything that is wrong with
// its syntax, and returns what can be read round that, nil where too little is
// left to say anything true of. Nodes that stand for what could not be read
// have Gap set. brackets tells with how many brackets on each side a header is
// written, 0 for one that is not known.
func Mend(data []byte, brackets func(path string) int) (*Node, []*SyntaxError) {
	text, err := readable(data)
	if err != nil {
		return nil, []*SyntaxError{err.(*SyntaxError)}
	}
	m := &mender{text: text, all: statements(text), brackets: brackets, patches: map[int]patch{}}
	if len(m.all) > maxStatements {
		m.lost = true
	} else {
		m.judgeAll()
	}
	root := m.whole()
	sort.SliceStable(m.slips, func(i, j int) bool { return m.slips[i].Range.Start < m.slips[j].Range.Start })
	return root, m.slips
}

// A mender finds the slips of one file and writes something readable in their
// place.
type mender struct {
	text     string
	all      []statement
	brackets func(path string) int
	patches  map[int]patch // by the statement's place in all
	slips    []*SyntaxError
	lost     bool // a header could not be read: what is below it belongs nowhere
}

// A patch stands for a statement in the mended text.
type patch struct {
	text string
	gap  bool // nothing of the statement is left
}

// slip notes what is wrong with a statement, and what is read in its place.
func (m *mender) slip(i int, e *SyntaxError, p patch) {
	if _, done := m.patches[i]; !done && len(m.slips) < maxSlips {
		m.slips = append(m.slips, e)
	}
	m.patches[i] = p
}

// judgeAll looks at every statement by itself.
func (m *mender) judgeAll() {
	table := ""
	seen, early := map[string]bool{}, m.early()
	for i, s := range m.all {
		if s.header {
			table = m.header(i, early, seen)
			continue
		}
		m.pair(i, table)
	}
}

// gap is a patch that keeps no key; as a header or as a pair.
func (m *mender) gap(i int) patch {
	name := fmt.Sprintf("%q", fmt.Sprintf("gap %d", i))
	if m.all[i].header {
		return patch{"[" + name + "]", true}
	}
	return patch{name + " = 0", true}
}

// early returns, by the table they belong to, the headers that come before
// that table's first one.
func (m *mender) early() map[int]string {
	out, at := map[int]string{}, map[string][]int{}
	opened := map[string]bool{}
	for i, s := range m.all {
		if !s.header {
			continue
		}
		name, _, _ := headerName(m.text[s.at.Start:s.at.End])
		opened[name] = true
		for _, k := range at[name] {
			out[k] = name
		}
		at[name] = nil
		if parent, _, deeper := cutLast(name); deeper && m.brackets(parent) == 2 && !opened[parent] {
			at[parent] = append(at[parent], i)
		}
	}
	return out
}

func cutLast(path string) (parent, name string, found bool) {
	i := strings.LastIndexByte(path, '.')
	if i < 0 {
		return "", path, false
	}
	return path[:i], path[i+1:], true
}

// header judges one header and returns the path of the table it opens.
func (m *mender) header(i int, early map[int]string, seen map[string]bool) string {
	s := m.all[i]
	whole := m.text[s.at.Start:s.at.End]
	name, before, after := headerName(whole)
	if name == "" {
		if good, path := m.joined(whole); good != "" {
			m.slip(i, &SyntaxError{Range: s.at, Message: "the words of a header are joined by points",
				Hint: "write " + good}, patch{text: good})
			return path
		}
		if err := m.alone(s); err != nil {
			m.lost = true
			m.slip(i, err, m.gap(i))
		}
		return ""
	}
	right := m.brackets(name)
	proper := right
	if right == 0 {
		proper = min(2, max(before, after))
	}
	good := strings.Repeat("[", proper) + name + strings.Repeat("]", proper)
	switch parent, late := early[i]; {
	case late:
		e := &SyntaxError{Range: s.at, Message: fmt.Sprintf("%s stands before the [[%s]] it belongs to", good, parent),
			Hint: fmt.Sprintf("move [[%s]] with its keys up, above this line: what follows it is part of it", parent)}
		if seen[parent] {
			m.patches[i] = m.gap(i) // moving the one mends them all
			break
		}
		seen[parent] = true
		m.slip(i, e, m.gap(i))
	case before != after || before > 2:
		e := &SyntaxError{Range: s.at, Message: fmt.Sprintf("a header with %s before its name and %s behind",
			bracketsOf(before), bracketsOf(after)), Hint: "write " + good}
		m.slip(i, e, patch{text: good})
	case right != 0 && right != before:
		why := "there is one of it at most"
		if right == 2 {
			why = "there may be several"
		}
		m.slip(i, &SyntaxError{Range: s.at, Message: fmt.Sprintf("%s is written %s: %s", name, good, why),
			Hint: "write " + good}, patch{text: good})
	}
	return name
}

// joined returns the header that one with blanks between its words was meant to
// be, and its path; "" where there is none such.
func (m *mender) joined(header string) (good, path string) {
	path = strings.Join(strings.Fields(strings.Trim(header, "[] \t")), ".")
	n := m.brackets(path)
	if n == 0 {
		return "", ""
	}
	return strings.Repeat("[", n) + path + strings.Repeat("]", n), path
}

func bracketsOf(n int) string {
	if n == 1 {
		return "1 bracket"
	}
	return fmt.Sprintf("%d brackets", n)
}

// alone reads one statement by itself; nil when it is TOML.
func (m *mender) alone(s statement) *SyntaxError {
	_, _, err := decode(m.text[s.at.Start:s.at.End])
	if err == nil {
		return nil
	}
	e := err.(*SyntaxError)
	e.Range = Range{e.Range.Start + s.at.Start, min(e.Range.End+s.at.Start, max(s.at.End, s.at.Start+1))}
	return e
}

// pair judges one key and its value.
func (m *mender) pair(i int, table string) {
	s := m.all[i]
	err := m.alone(s)
	if err == nil {
		return
	}
	if name, value, ok := s.words(m.text); ok {
		e := &SyntaxError{Range: s.at, Message: "a key is one word, without blanks", Hint: "write " + name + " = …",
			Table: table, Key: name, Value: value}
		m.slip(i, e, patch{name + " = 0", true})
		return
	}
	name, between, value, at := s.keyAndValue(m.text)
	err.Table, err.Key, err.Value = table, name, value
	explainPair(err, s, m.text, between, at)
	if name == "" || between == "" {
		m.slip(i, err, m.gap(i))
		return
	}
	m.slip(i, err, patch{name + " = 0", true})
}

// whole reads the mended text, which finds what only goes wrong between
// statements: keys given twice.
func (m *mender) whole() *Node {
	for range maxRepeats {
		text, places := m.mended()
		values, _, err := decode(text)
		if err == nil {
			return m.tree(text, places, values)
		}
		e := err.(*SyntaxError)
		at := places.original(e.Range.Start, false)
		i := sort.Search(len(m.all), func(i int) bool { return m.all[i].at.End > at })
		if len(m.all) > maxStatements || i == len(m.all) || m.all[i].at.Start > at {
			e.Range = Range{at, min(at+1, len(m.text))}
			m.slips = append(m.slips, e)
			return nil
		}
		if m.lost {
			return nil // what a header lost brings with it is no news
		}
		if m.patches[i].gap && m.patches[i] == m.gap(i) {
			return nil
		}
		e.Range = m.all[i].at
		if !m.all[i].header {
			name, _, _, _ := m.all[i].keyAndValue(m.text)
			e.Range.End = e.Range.Start + max(1, len(name))
		} else if strings.Contains(e.Message, "already") {
			name, _, _ := headerName(m.text[e.Range.Start:e.Range.End])
			e.Hint = fmt.Sprintf("put the keys of both under one [%s]", name)
		}
		m.slip(i, e, m.gap(i))
	}
	return nil
}

// A place is a stretch of the mended text with where it comes from.
type place struct {
	start    int
	original Range
	patch    *patch // nil: taken over as it is
}

type places []place

// mended returns the text with its patches, and where each piece is from.
func (m *mender) mended() (string, places) {
	var b strings.Builder
	var out places
	add := func(text string, from Range, p *patch) {
		if from.End > from.Start {
			out = append(out, place{b.Len(), from, p})
			b.WriteString(text)
		}
	}
	at := 0
	for i, s := range m.all {
		if p, ok := m.patches[i]; ok {
			add(m.text[at:s.at.Start], Range{at, s.at.Start}, nil)
			add(p.text, s.at, &p)
			at = s.at.End
		}
	}
	add(m.text[at:], Range{at, len(m.text)}, nil)
	return b.String(), out
}

// at returns the piece that an offset lies in.
func (p places) at(offset int) (place, bool) {
	i := sort.Search(len(p), func(i int) bool { return p[i].start > offset })
	if i == 0 {
		return place{}, false
	}
	return p[i-1], true
}

// original turns an offset of the mended text into one of the file. Inside a
// patch it is the beginning, or the end, of what was there.
func (p places) original(offset int, end bool) int {
	if end {
		offset--
	}
	piece, ok := p.at(offset)
	switch {
	case !ok:
		return 0
	case piece.patch == nil && end:
		return piece.original.Start + offset - piece.start + 1
	case piece.patch == nil:
		return piece.original.Start + offset - piece.start
	case end:
		return piece.original.End
	}
	return piece.original.Start
}

// tree scans the mended text and puts every place back where it is in the file.
func (m *mender) tree(text string, from places, values map[string]any) *Node {
	if m.lost {
		return nil
	}
	root, _ := scan(text)
	fill(root, values)
	from.settle(root)
	return root
}

func (p places) settle(n *Node) {
	for _, r := range []*Range{&n.Key, &n.Span} {
		if *r == (Range{}) {
			continue
		}
		if piece, ok := p.at(r.Start); ok && piece.patch != nil && piece.patch.gap {
			n.Gap = true
		}
		*r = Range{p.original(r.Start, false), p.original(r.End, true)}
	}
	for _, f := range n.Fields {
		p.settle(f)
	}
	for _, it := range n.Items {
		p.settle(it)
	}
}
