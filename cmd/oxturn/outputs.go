package main

import (
	"bytes"
	"io"
	"slices"

	"oxturn/drawing/pdf"
	"oxturn/drawing/svg"
	"oxturn/drawing/web/ownersmap"
	"oxturn/layout/takeoff"
)

// An output is a kind of file that draw makes, by the word --only takes.
type output struct {
	kind   string
	single bool // one file a job, so that it may go to the standard output
	make   func(w *work, add adder) error
}

// An adder takes one file: what its name has after NAME, and its writer.
type adder func(suffix string, write func(io.Writer) error) error

// allOutputs are the kinds in the order in which files are listed.
func allOutputs() []output {
	return []output{
		{"layout", true, func(w *work, add adder) error { return add(".layout.json", w.plan.WriteFile) }},
		{"pdf", true, func(w *work, add adder) error {
			return add(".pdf", func(to io.Writer) error { return pdf.Write(to, w.sheets, w.info()) })
		}},
		{"svg", false, makeSVG},
		{"takeoff", false, makeTakeOff},
		{"map", true, func(w *work, add adder) error {
			return add("-map.html", func(to io.Writer) error { return ownersmap.Write(to, w.plan) })
		}},
	}
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

// outputs makes every file that is wanted, in memory.
func outputs(w *work, only []string) ([]file, error) {
	var out []file
	add := func(suffix string, write func(io.Writer) error) error {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		out = append(out, file{w.source.base + suffix, b.Bytes()})
		return nil
	}
	for _, o := range allOutputs() {
		if !slices.Contains(only, o.kind) {
			continue
		}
		if err := o.make(w, add); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// info is what a reader's window says about the PDF.
func (w *work) info() pdf.Info {
	return pdf.Info{Title: w.job.Info.Title, Author: w.job.Info.Contractor, Subject: subject(w.job.Info.Number, w.plan.Code), Creator: "oxturn"}
}

// subject names drawing and plan.
func subject(number, code string) string {
	if number == "" {
		return "plan " + code
	}
	return number + ", plan " + code
}

func makeSVG(w *work, add adder) error {
	for _, s := range w.sheets {
		if err := add("-"+s.ID+".svg", func(to io.Writer) error { return svg.Write(to, s) }); err != nil {
			return err
		}
	}
	return nil
}

func makeTakeOff(w *work, add adder) error {
	if err := add("-takeoff.csv", func(to io.Writer) error { return takeoff.WriteCSV(to, w.plan.TakeOff) }); err != nil {
		return err
	}
	return add("-takeoff.json", func(to io.Writer) error { return takeoff.WriteJSON(to, w.plan.TakeOff) })
}
