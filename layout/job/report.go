package job

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"oxturn/layout/language"
	"oxturn/layout/say"
)

// A Report gathers what there is to say about a job, over all its files, from
// every phase. The zero value is ready to use.
type Report struct {
	diagnostics []Diagnostic
	sources     map[string]*source
	files       []string // in the order first read
	allowed     map[string]*allowance
	allowedIDs  []string // in the order written

	Language language.Language // what there is to say is told in; the zero value is English
	names    []string          // that the files give to things and people, which are told as they stand
}

// A source is the text of one file with the offsets at which its lines begin.
type source struct {
	text  string
	lines []int
}

// AddSource makes a file's text known, so that its lines can be shown.
func (r *Report) AddSource(name string, data []byte) {
	if r.sources == nil {
		r.sources = map[string]*source{}
	}
	if r.sources[name] == nil {
		r.files = append(r.files, name)
	}
	s := &source{text: string(data), lines: []int{0}}
	for i := range len(s.text) {
		if s.text[i] == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	r.sources[name] = s
}

// Add puts in one diagnostic, but for a warning that the job allows. Any phase
// may call it.
func (r *Report) Add(d Diagnostic) {
	if a := r.allowed[d.ID]; a != nil && d.Severity == Warning {
		a.used = true
		return
	}
	r.diagnostics = append(r.diagnostics, d)
}

// Errorf adds an error at a place, with a hint that may be empty.
func (r *Report) Errorf(at Span, hint, format string, args ...any) {
	r.Add(Diagnostic{Severity: Error, Span: at, Hint: hint, Message: fmt.Sprintf(format, args...)})
}

// Warnf adds a warning with its ID, such as W003.
func (r *Report) Warnf(id string, at Span, hint, format string, args ...any) {
	r.Add(Diagnostic{Severity: Warning, ID: id, Span: at, Hint: hint, Message: fmt.Sprintf(format, args...)})
}

// Teller tells in the report's language, and keeps the names that its files give.
func (r *Report) Teller() language.Teller { return r.Language.Keeping(r.names) }

// Errors returns the number of errors.
func (r *Report) Errors() int { return r.count(Error) }

// Warnings returns the number of warnings.
func (r *Report) Warnings() int { return r.count(Warning) }

func (r *Report) count(s Severity) int {
	n := 0
	for _, d := range r.diagnostics {
		if d.Severity == s {
			n++
		}
	}
	return n
}

// Diagnostics returns all diagnostics by file, in the order read, and place;
// those without a place come last.
func (r *Report) Diagnostics() []Diagnostic {
	out := slices.Clone(r.diagnostics)
	rank := map[string]int{}
	for i, f := range r.files {
		rank[f] = i + 1
	}
	order := func(d Diagnostic) int {
		if n := rank[d.Span.File]; n > 0 {
			return n
		}
		return len(r.files) + 1
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i], out[j]
		if x, y := order(a), order(b); x != y {
			return x < y
		}
		return a.Span.Start < b.Span.Start
	})
	return out
}

// Summary returns a line such as "3 errors, 1 warning".
func (r *Report) Summary() string {
	t := r.Teller()
	return t.Retold(say.Counted(r.Errors(), "error")) + ", " + t.Retold(say.Counted(r.Warnings(), "warning"))
}

// A Position is a place in a file as an editor counts: line and column from 1,
// columns in runes.
type Position struct{ Line, Column int }

// Position returns where an offset of a file lies, the zero Position when the
// file is not known.
func (r *Report) Position(file string, offset int) Position {
	s := r.sources[file]
	if s == nil {
		return Position{}
	}
	offset = min(max(offset, 0), len(s.text))
	line := sort.Search(len(s.lines), func(i int) bool { return s.lines[i] > offset })
	before := strings.TrimPrefix(s.text[s.lines[line-1]:offset], byteOrderMark)
	return Position{line, utf8.RuneCountInString(before) + 1}
}

// byteOrderMark is no part of a file's first line to an editor.
const byteOrderMark = "\ufeff"

// spanAt is the place of n bytes of a file at a line and column, both in bytes from 1; the
// file where it has no such line.
func (r *Report) spanAt(file string, line, column, n int) Span {
	s := r.sources[file]
	if s == nil || line < 1 || line > len(s.lines) {
		return Span{File: file}
	}
	at := s.lines[line-1] + column - 1
	return Span{file, at, at + n}
}

// lineSpan is the place of a whole line of a file, from 1, without its end; of the last one
// where there are not so many.
func (r *Report) lineSpan(file string, n int) Span {
	s := r.sources[file]
	if s == nil {
		return Span{File: file}
	}
	n = min(max(n, 1), len(s.lines))
	return Span{file, s.lines[n-1], s.end(n)}
}

// end is where a line ends, counted from 1.
func (s *source) end(n int) int {
	if n < len(s.lines) {
		return s.lines[n] - 1
	}
	return len(s.text)
}

// line returns a line's text, counted from 1, without its end.
func (s *source) line(n int) string {
	text := strings.TrimSuffix(s.text[s.lines[n-1]:s.end(n)], "\r")
	return strings.TrimPrefix(text, byteOrderMark)
}
