package pdf

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
)

// labelsRead returns the page labels as qpdf reads them: the page that a range
// begins at, from 0, and the range's dictionary.
func labelsRead(t *testing.T, doc []byte) (out []any) {
	t.Helper()
	var read struct {
		Labels []struct {
			Index int
			Label map[string]any
		} `json:"pagelabels"`
	}
	if err := json.Unmarshal(outside.Run(t, "qpdf", "--json", "--json-key=pagelabels", outside.File(t, "in.pdf", doc)),
		&read); err != nil {
		t.Fatal(err)
	}
	for i, l := range read.Labels {
		if l.Index != i {
			t.Errorf("label %d is of page %d", i, l.Index)
		}
		out = append(out, l.Label)
	}
	return out
}

// TestPageLabels: another program reads the labels, sees nothing wrong with the
// document, and finds in it what it finds in one without labels.
func TestPageLabels(t *testing.T) {
	named := func(label string) *drawing.Sheet {
		s := sheetOf(&drawing.Text{Text: "x", Height: 5})
		s.Label = label
		return s
	}
	doc := write(t, named("CP-1"), named(""), named("Ω (2) – x"))
	want := []any{ // qpdf writes out the standard's first number, 1, where a document leaves it out
		map[string]any{"/P": "u:CP-1", "/St": 1.0},
		map[string]any{"/S": "/D", "/St": 2.0},
		map[string]any{"/P": "u:Ω (2) – x", "/St": 1.0},
	}
	if d := cmp.Diff(want, labelsRead(t, doc)); d != "" {
		t.Error(d)
	}
	outside.Run(t, "qpdf", "--check", outside.File(t, "in.pdf", doc))
	plain := write(t, named(""), named(""), named(""))
	if got := labelsRead(t, plain); got != nil {
		t.Errorf("sheets without labels have %v", got)
	}
	if n := len(doc) - len(plain); n > 200 {
		t.Errorf("labels of three pages take %d bytes", n)
	}
	for _, program := range []string{"pdfinfo", "pdffonts"} {
		a, b := outside.Run(t, program, outside.File(t, "a.pdf", doc)), outside.Run(t, program,
			outside.File(t, "b.pdf", plain))
		if program == "pdffonts" && !bytes.Equal(a, b) || !bytes.Contains(a, []byte("yes")) && !bytes.Contains(a,
			[]byte("Pages:           3")) {
			t.Errorf("%s reads\n%s\nwhere it read\n%s", program, a, b)
		}
	}
}

// A library that writes otherwise must be noticed, not labelled by guess.
func TestLabelsNeedTheLibrarysForm(t *testing.T) {
	s := sheetOf()
	s.Label = "CP-1"
	for _, doc := range []string{"", "%PDF-1.7\n1 0 obj\n<<\n/Type /Catalog\n>>\nendobj\n",
		"%PDF-1.7\nxref\ntrailer\n<<\n/Size 2\n/Root 1 0 R\n>>\nstartxref\n9\n%%EOF\n"} {
		if out, err := completed([]byte(doc), []*drawing.Sheet{s}, info); err == nil {
			t.Errorf("%q became %q", doc, out)
		}
	}
}
