package sheets

import (
	"strings"
	"testing"
	"time"

	"oxturn/drawing"
	"oxturn/layout/job"
)

// TestTitleBlockLengths: the fields of ISO 7200:2004, as long as its table lets
// them be (number 16 characters, date 10, sheet 4, title 25, approval and
// creator 20, document type 30; from a reproduction of the table), are set in
// full and inside the block, wide, narrow and compact.
func TestTitleBlockLengths(t *testing.T) {
	filled := func(n int) string { return strings.Repeat("Mn 7", n)[:n] }
	b := titleBlock{
		title: filled(25), kind: filled(30), scale: longest, paper: "tabloid", label: "MB-88", n: 88, of: 88, revision: "AB", units: "mm (ft-in)",
		info: job.Info{Number: filled(16), DrawnBy: filled(20), CheckedBy: filled(20), ApprovedBy: filled(20), Contractor: filled(60), Date: time.Date(2026, 11, 24, 0, 0, 0, 0, time.UTC)},
	}
	for _, w := range []float64{titleMin, 120, titleMax} {
		for _, b.compact = range []bool{false, true} {
			pg := newPage(nil, drawing.Paper{W: 420, H: 297})
			b.set(pg, drawing.Pt{X: 100, Y: 100}, w)
			box := drawing.Box{X0: 100, Y0: 100, X1: 100 + w, Y1: 100 + b.height(pg.ty, w)}
			said := ""
			for _, x := range pg.sheet.Texts() {
				said += strings.ReplaceAll(x.Text, " ", "")
				if !box.Contains(x.Box()) {
					t.Errorf("%v mm wide: %q leaves the block", w, x.Text)
				}
			}
			for _, f := range b.fields() {
				if !strings.Contains(said, strings.ReplaceAll(f.value, " ", "")) {
					t.Errorf("%v mm wide: %s %q is not set in full", w, f.name, f.value)
				}
			}
			checkLettering(t, pg.sheet)
		}
	}
}

// TestLastRow: "Approved" does not stand alone in a row as wide as the block, at
// any width that a column may have.
func TestLastRow(t *testing.T) {
	b := titleBlock{title: "Cable plan", kind: "Cable plan", scale: longest, paper: "tabloid", label: "CP-1", n: 1, of: 8, revision: "-", units: "mm"}
	for w := 100.0; w <= titleMax; w += 2 {
		rows := b.rows(w)
		if last := rows[len(rows)-1]; len(last) < 2 {
			t.Errorf("%g mm wide: %q is alone in the last row", w, last[0].name)
		}
	}
}
