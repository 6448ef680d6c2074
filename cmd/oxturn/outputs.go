package main

import (
	"io"
	"slices"

	"github.com/sourcegraph/conc/iter"

	"oxturn/drawing"
	"oxturn/drawing/dxf"
	"oxturn/drawing/pdf"
	"oxturn/drawing/web/ownersmap"
	"oxturn/layout"
	"oxturn/layout/calendar"
	"oxturn/layout/passport"
	"oxturn/layout/takeoff"
)

// An output is a kind of file that draw makes, by the word --only takes.
type output struct {
	kind   string
	single bool // one file a job, so that it may go to the standard output
	make   func(w *work, to *fileSet)
	asked  bool // made where --only names it, and else not
	laid   bool // made of what is laid, without quantities
}

// allOutputs are the kinds in the order in which files are listed.
func allOutputs() []output {
	return []output{
		{kind: "layout", single: true, laid: true, make: func(w *work, to *fileSet) {
			to.add(".layout.json",
				w.plan.WriteFile)
		}},
		{kind: "pdf", single: true, make: func(w *work, to *fileSet) { to.pdf(w.sheets, w) }},
		{kind: "svg", make: func(w *work, to *fileSet) {
			for _, s := range w.sheets {
				to.svg("-"+s.ID, s)
			}
		}},
		{kind: "takeoff", make: func(w *work, to *fileSet) {
			to.add("-takeoff.csv", func(out io.Writer) error { return takeoff.WriteCSV(out, w.plan.TakeOff) })
			to.add("-takeoff.json", func(out io.Writer) error { return takeoff.WriteJSON(out, w.plan.TakeOff) })
		}},
		{kind: "map", single: true, laid: true, make: func(w *work, to *fileSet) {
			to.add("-map.html", func(out io.Writer) error { return ownersmap.Write(out, w.plan) })
		}},
		{kind: "ics", single: true, asked: true, laid: true, make: func(w *work, to *fileSet) {
			to.add(".ics", func(out io.Writer) error { return calendar.Write(out, w.plan) })
		}},
		{kind: "dxf", single: true, asked: true, laid: true, make: func(w *work, to *fileSet) {
			to.add(".dxf", func(out io.Writer) error { return dxf.Write(out, w.plan) })
		}},
		{kind: "label", asked: true, laid: true, make: func(w *work, to *fileSet) { to.labels(w.plan) }},
	}
}

// labels makes the texts that the codes on the panel's labels hold.
func (s *fileSet) labels(p *layout.Plan) {
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			r, c := &p.Rooms[i], &p.Rooms[i].Cables[k]
			s.add("-label-"+c.ID+".txt", func(out io.Writer) error {
				_, err := io.WriteString(out, passport.Of(p, r, c))
				return err
			})
		}
	}
}

// usual are the outputs that are made where --only is not given.
func usual() []string {
	var out []string
	for _, o := range allOutputs() {
		if !o.asked {
			out = append(out, o.kind)
		}
	}
	return out
}

func kinds() []string {
	var out []string
	for _, o := range allOutputs() {
		out = append(out, o.kind)
	}
	return out
}

func outputNamed(kind string) output {
	for _, o := range allOutputs() {
		if o.kind == kind {
			return o
		}
	}
	return output{}
}

// areLaid reports whether all of the outputs are made of what is laid.
func areLaid(only []string) bool {
	return !slices.ContainsFunc(only, func(kind string) bool { return !outputNamed(kind).laid })
}

// outputs makes every file that is wanted, in memory.
func outputs(w *work, only []string) ([]file, error) {
	all := allOutputs()
	sets := iter.Map(all, func(o *output) *fileSet { // they only read the work
		s := &fileSet{base: w.source.base}
		if slices.Contains(only, o.kind) {
			o.make(w, s)
		}
		return s
	})
	var files []file
	for _, s := range sets {
		if s.err != nil {
			return nil, s.err
		}
		files = append(files, s.files...)
	}
	return files, nil
}

// writePDF writes sheets as a PDF that carries the job they were drawn from.
func (w *work) writePDF(to io.Writer, set []*drawing.Sheet) error {
	files, err := w.carried()
	if err != nil {
		return err
	}
	return pdf.Write(to, set, pdf.Info{Title: w.job.Info.Title, Author: w.job.Info.Contractor,
		Subject: subject(w.job.Info.Number, w.plan.Code), Creator: "oxturn", Language: w.job.Language.Tag(),
		Files: files})
}

// subject names drawing and plan.
func subject(number, code string) string {
	if number == "" {
		return "plan " + code
	}
	return number + ", plan " + code
}
