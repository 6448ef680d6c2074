package sheets

import (
	"os"
	"path/filepath"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/pdf"
	"oxturn/layout/plane"
)

// write leaves the sheets as a PDF in the directory that OXTURN_SHEETS names,
// for looking at.
func write(t *testing.T, name string, sheets []*drawing.Sheet) {
	t.Helper()
	dir := os.Getenv("OXTURN_SHEETS")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".pdf"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := pdf.Write(f, sheets, pdf.Info{Title: name}); err != nil {
		t.Fatal(err)
	}
}

func TestSetOfSample(t *testing.T) {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		sheets, err := Set(samplePlan(t, u))
		if err != nil {
			t.Fatal(err)
		}
		write(t, "sample-"+u.String(), sheets)
		checkSheets(t, sheets)
	}
}
