package main

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"oxturn/drawing/svg"
	"oxturn/drawing/web/preview"
	"oxturn/layout"
	"oxturn/layout/job"
)

// pageState is what the preview shows of a work; without a plan it has the
// problems alone.
func pageState(w *work) (preview.State, error) {
	st, err := pageWords(w)
	if err != nil || w.plan == nil {
		return st, err
	}
	for i, s := range w.sheets {
		var b bytes.Buffer
		if err := svg.Write(&b, s); err != nil {
			return st, err
		}
		st.Sheets[i].SVG = b.Bytes()
	}
	var b bytes.Buffer
	if err := w.writePDF(&b, w.sheets); err != nil {
		return st, err
	}
	st.PDF, st.PDFName = b.Bytes(), w.source.base+".pdf"
	return st, nil
}

// pageWords is the same without the drawings themselves.
func pageWords(w *work) (preview.State, error) {
	st := preview.State{Job: w.source.name}
	for _, d := range w.report.Diagnostics() {
		st.Problems = append(st.Problems, problem(w, d))
	}
	if w.plan == nil {
		return st, nil
	}
	for _, s := range w.sheets {
		st.Sheets = append(st.Sheets, preview.Sheet{ID: s.ID, Title: s.Title, Ratio: s.Ratio})
	}
	st.Units = w.job.Units.String()
	st.Summary = summaryLines(w.plan)
	st.Cables = pageCables(w.plan)
	report, err := reportTable(w.plan)
	if err != nil {
		return st, err
	}
	st.Tables = []preview.Table{report, takeOffTable(w.plan.TakeOff, w.job.Units), runTable(w.plan)}
	return st, nil
}

// problem words a diagnostic for the page, with the file's line where it is
// one of the job's own.
func problem(w *work, d job.Diagnostic) preview.Problem {
	p := preview.Problem{Severity: d.Severity.String(), ID: d.ID, Place: placeOf(w.report, d.Span), Message: d.Message,
		Hint: d.Hint}
	for _, n := range d.Notes {
		p.Notes = append(p.Notes, strings.TrimPrefix(placeOf(w.report, n.Span)+": "+n.Message, ": "))
	}
	if d.Span.File == w.source.name && d.Span.End > 0 && d.Span.End <= len(w.source.data) {
		p.Line, p.Start, p.Length = lineOf(string(w.source.data), d.Span)
	}
	return p
}

func placeOf(r *job.Report, s job.Span) string {
	if s.End == 0 {
		return s.File
	}
	at := r.Position(s.File, s.Start)
	return fmt.Sprintf("%s:%d:%d", s.File, at.Line, at.Column)
}

// lineOf returns the line a span begins in, and the span in characters of it.
func lineOf(text string, s job.Span) (line string, start, length int) {
	from := strings.LastIndexByte(text[:s.Start], '\n') + 1
	to := len(text)
	if i := strings.IndexByte(text[s.Start:], '\n'); i >= 0 {
		to = s.Start + i
	}
	meant := text[s.Start:max(s.Start, min(s.End, to))]
	line = strings.TrimPrefix(strings.TrimRight(text[from:to], "\r"), "\ufeff")
	start = utf8.RuneCountInString(strings.TrimPrefix(text[from:s.Start], "\ufeff"))
	return line, start, max(1, utf8.RuneCountInString(meant))
}

func pageCables(p *layout.Plan) []preview.Cable {
	var out []preview.Cable
	for _, r := range p.Rooms {
		for _, c := range r.Cables {
			pc := preview.Cable{ID: c.ID, Label: c.Label.ID, Length: c.Routed}
			for _, run := range c.Runs {
				pc.Runs = append(pc.Runs, preview.Run{Number: run.Number, End: run.RunningEnd})
			}
			out = append(out, pc)
		}
	}
	return out
}
