package sheets

import (
	"strings"
	"testing"
	"time"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/job"
)

// TestTitleBlockLengths: the fields of ISO 7200:2004, as long as its table lets
// them be (number 16 characters, date 10, sheet 4, title 25, approval and
// creator 20, document type 30; from a reproduction of the table), are set in
// full and inside the block, wide, narrow and compact.
func TestTitleBlockLengths(t *testing.T) {
	filled := func(n int) string { return strings.Repeat("Mn 7", n)[:n] }
	b := setting.TitleBlock{
		Title: filled(25), Kind: filled(30), Scale: floorplan.Longest, Paper: "tabloid", Label: "MB-88", N: 88, Of: 88,
		Revision: "AB", Units: "mm (ft-in)",
		Info: job.Info{Number: filled(16), DrawnBy: filled(20), CheckedBy: filled(20), ApprovedBy: filled(20),
			Contractor: filled(60), Permit: filled(20), Date: time.Date(2026, 11, 24, 0, 0, 0, 0, time.UTC)},
	}
	for _, w := range []float64{setting.TitleMin, 120, setting.TitleMax} {
		for _, b.Compact = range []bool{false, true} {
			pg := setting.NewPage(&layout.Plan{Job: &job.Job{}}, drawing.Paper{W: 420, H: 297})
			b.Set(pg, drawing.Pt{X: 100, Y: 100}, w)
			box := drawing.Box{X0: 100, Y0: 100, X1: 100 + w, Y1: 100 + b.Height(pg.Ty, w)}
			said := ""
			for _, x := range pg.Sheet.Texts() {
				said += strings.ReplaceAll(x.Text, " ", "")
				if !box.Contains(x.Box()) {
					t.Errorf("%v mm wide: %q leaves the block", w, x.Text)
				}
			}
			for _, f := range b.Fields() {
				if !strings.Contains(said, strings.ReplaceAll(f.Value, " ", "")) {
					t.Errorf("%v mm wide: %s %q is not set in full", w, f.Name, f.Value)
				}
			}
			checkLettering(t, pg.Sheet)
		}
	}
}

// TestLastRow: "Approved" does not stand alone in a row as wide as the block, at
// any width that a column may have.
func TestLastRow(t *testing.T) {
	b := setting.TitleBlock{Title: "Cable plan", Kind: "Cable plan", Scale: floorplan.Longest, Paper: "tabloid",
		Label: "CP-1", N: 1, Of: 8, Revision: "-", Units: "mm"}
	for w := 100.0; w <= setting.TitleMax; w += 2 {
		rows := b.Rows(w)
		if last := rows[len(rows)-1]; len(last) < 2 {
			t.Errorf("%g mm wide: %q is alone in the last row", w, last[0].Name)
		}
	}
}
