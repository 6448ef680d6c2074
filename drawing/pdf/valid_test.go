package pdf_test

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"oxturn/drawing"
	"oxturn/drawing/internal/specimen"
	"oxturn/drawing/pdf"
)

// validate asks twice: by the letter of ISO 32000-1, which does not know what a file
// is to its document (ISO 19005-3 adds that), without that word; and as it is.
func validate(t *testing.T, data []byte) error {
	t.Helper()
	api.DisableConfigDir()
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationRelaxed
	if err := api.Validate(bytes.NewReader(data), conf); err != nil {
		return err
	}
	const word = "/AFRelationship/Source"
	conf.ValidationMode = model.ValidationStrict
	data = bytes.ReplaceAll(data, []byte(word), bytes.Repeat([]byte(" "), len(word)))
	return api.Validate(bytes.NewReader(data), conf)
}

func written(t *testing.T, sheets ...*drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	info := pdf.Info{Title: "Specimen – Ω", Author: "A (b) \\ c", Subject: "🛁", Creator: "oxturn", Language: "en",
		Files: []pdf.File{{Name: "Ω (1).toml", Type: "application/toml", Relation: "Source", Data: []byte("a = 1")}}}
	if err := pdf.Write(&b, sheets, info); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestStrictlyValid(t *testing.T) {
	small := &drawing.Sheet{ID: "small", Title: "Small (1) – Ω", Label: "SM-1 (Ω)", Paper: drawing.Paper{W: 100, H: 50}}
	for name, sheets := range map[string][]*drawing.Sheet{
		"specimen":            {specimen.Sheet()},
		"a sheet of nothing":  {small},
		"three, of two sizes": {small, specimen.Sheet(), small},
		"text beyond the face": {{Title: "浴", Paper: small.Paper,
			Items: []drawing.Item{&drawing.Text{Text: "浴 Ω \x00", Height: 5}}}},
	} {
		if err := validate(t, written(t, sheets...)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The validator must see a fault, or it proves nothing.
func TestValidatorSeesAFault(t *testing.T) {
	good := written(t, specimen.Sheet())
	bad := bytes.Replace(good, []byte("/Subtype /Type0"), []byte("/Subtype /TypeX"), 1)
	if bytes.Equal(good, bad) {
		t.Fatal("nothing was broken")
	}
	if err := validate(t, bad); err == nil {
		t.Error("a font of no kind passed")
	}
}
