package job

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"

	"oxturn/layout/language"
)

// String returns the severity as it is printed.
func (s Severity) String() string { return [...]string{"error", "warning"}[s] }

// printLimit is how many diagnostics the human style prints.
const printLimit = 20

// Human writes the diagnostics for a person: place, message, source line with
// a caret, notes and hint, and a last line that counts them. At most 20 are
// written, errors before warnings when there are more. Nothing is written when
// there is nothing to say.
func (r *Report) Human(w io.Writer, colour bool) error {
	p := printer{r: r, told: r.Teller(), ink: plainInk}
	if colour {
		p.ink = colourInk
	}
	all := r.Diagnostics()
	if len(all) == 0 {
		return nil
	}
	for _, d := range first(all, printLimit) {
		p.diagnostic(d)
	}
	if n := len(all) - printLimit; n > 0 {
		p.b.WriteString(p.said(fmt.Sprintf("and %d more", n)) + "\n")
	}
	p.b.WriteString(r.Summary() + "\n")
	_, err := io.WriteString(w, p.b.String())
	return err
}

// first returns at most n diagnostics, dropping warnings before errors.
func first(all []Diagnostic, n int) []Diagnostic {
	if len(all) <= n {
		return all
	}
	var out []Diagnostic
	for _, s := range []Severity{Error, Warning} {
		for _, d := range all {
			if d.Severity == s && len(out) < n {
				out = append(out, d)
			}
		}
	}
	return out
}

// Short writes one line a diagnostic: file:line:col: severity: message. The severity is English in every language,
// as editors look for it.
func (r *Report) Short(w io.Writer) error {
	var b strings.Builder
	t := r.Teller()
	for _, d := range r.Diagnostics() {
		b.WriteString(r.place(d.Span) + label(d) + ": " + Clean(t.Retold(d.Message)) + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// label is "error", or "warning W003".
func label(d Diagnostic) string {
	if d.ID == "" {
		return d.Severity.String()
	}
	return d.Severity.String() + " " + d.ID
}

// place returns "file:line:col: ", or less where less is known.
func (r *Report) place(s Span) string {
	if s.File == "" {
		return ""
	}
	if s.End == 0 {
		return Clean(s.File) + ": "
	}
	p := r.Position(s.File, s.Start)
	return fmt.Sprintf("%s:%d:%d: ", Clean(s.File), p.Line, p.Column)
}

// jsonFormat is raised by a minor step when fields are added, by a major one
// when their meaning changes.
const jsonFormat = "1.0"

type jsonDiagnostic struct {
	Type      string     `json:"type"`
	File      string     `json:"file"`
	Line      int        `json:"line"`
	Column    int        `json:"column"`
	EndLine   int        `json:"end_line"`
	EndColumn int        `json:"end_column"`
	ByteStart int        `json:"byte_start"`
	ByteEnd   int        `json:"byte_end"`
	Severity  string     `json:"severity"`
	ID        string     `json:"id,omitempty"`
	Message   string     `json:"message"`
	Notes     []jsonNote `json:"notes,omitempty"`
	Hint      string     `json:"hint,omitempty"`
}

type jsonNote struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
}

// JSON writes JSON Lines: a version line, then one object a diagnostic. A line
// of 0 means that the place is not known. Messages and hints are in the report's language, all else is the same in
// every one.
func (r *Report) JSON(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	head := struct {
		Type   string `json:"type"`
		Format string `json:"format"`
	}{"version", jsonFormat}
	if err := enc.Encode(head); err != nil {
		return err
	}
	t := r.Teller()
	for _, d := range r.Diagnostics() {
		if err := enc.Encode(r.json(d, t)); err != nil {
			return err
		}
	}
	return nil
}

func (r *Report) json(d Diagnostic, t language.Teller) jsonDiagnostic {
	out := jsonDiagnostic{Type: "diagnostic", File: d.Span.File, ByteStart: d.Span.Start, ByteEnd: d.Span.End,
		Severity: d.Severity.String(), ID: d.ID, Message: t.Retold(d.Message), Hint: t.Retold(d.Hint)}
	if d.Span.End > 0 {
		a, b := r.Position(d.Span.File, d.Span.Start), r.Position(d.Span.File, d.Span.End)
		out.Line, out.Column, out.EndLine, out.EndColumn = a.Line, a.Column, b.Line, b.Column
	}
	for _, n := range d.Notes {
		p := r.Position(n.Span.File, n.Span.Start)
		out.Notes = append(out.Notes, jsonNote{n.Span.File, p.Line, p.Column, t.Retold(n.Message)})
	}
	return out
}

// An ink wraps a word in the codes of a colour.
type ink func(code, text string) string

func plainInk(_, text string) string     { return text }
func colourInk(code, text string) string { return "\x1b[" + code + "m" + text + "\x1b[0m" }

// Colours by what they are for, as terminal codes.
const (
	inkBold    = "1"
	inkError   = "1;31"
	inkWarning = "1;33"
	inkNote    = "1;36"
	inkHint    = "1;32"
)

type printer struct {
	r    *Report
	told language.Teller
	b    strings.Builder
	ink  ink
}

// said is a text in the report's language.
func (p *printer) said(text string) string { return p.told.Retold(text) }

func (p *printer) diagnostic(d Diagnostic) {
	code := inkError
	if d.Severity == Warning {
		code = inkWarning
	}
	place := p.r.place(d.Span)
	if place != "" {
		place = p.ink(inkBold, strings.TrimSuffix(place, " ")) + " "
	}
	p.b.WriteString(place + p.ink(code, p.said(label(d)+":")) + " " + Clean(p.said(d.Message)) + "\n")
	p.excerpt(d.Span, code)
	for _, n := range d.Notes {
		p.b.WriteString("  " + p.ink(inkNote, p.said("note:")) + " " + p.r.place(n.Span) +
			Clean(p.said(n.Message)) + "\n")
	}
	if d.Hint != "" {
		p.hint(d.Hint)
	}
}

// hint writes a hint; what it says to type may take several lines.
func (p *printer) hint(s string) {
	lead := "  " + p.ink(inkHint, p.said("hint:")) + " "
	for _, line := range strings.Split(p.said(s), "\n") {
		p.b.WriteString(lead + Clean(line) + "\n")
		lead = "        "
	}
}

// Clean keeps text of a file from steering the terminal.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Bidi_Control, r) {
			return '\ufffd'
		}
		return r
	}, s)
}
