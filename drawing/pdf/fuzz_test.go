package pdf

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"oxturn/drawing"
)

var (
	hexString = regexp.MustCompile(`<[0-9A-Fa-f]*>`)
	literal   = regexp.MustCompile(`\([^()\\]*\)`)
	anyName   = regexp.MustCompile(`/[^\s/<>\[\]()]+`)
	xrefRow   = regexp.MustCompile(`(?m)^(\d{10}) 00000 n`)
	label     = regexp.MustCompile(`/P <FEFF([0-9A-F]*)>`)
	titles    = regexp.MustCompile(`/Title <FEFF([0-9A-F]*)>`)
)

// operators are those that a page may have.
var operators = strings.Fields("q Q n m l c h re S f* B* w j J d rg RG BT ET Tf Td TD Tj TJ cm Tc Tw Tz Tr g G gs")

// FuzzText puts any text in every place where text goes: no name and no
// operator is in the document that is not in one without it, every object is
// where the table says, and the bookmark can be read back.
func FuzzText(f *testing.F) {
	for _, s := range []string{"Bath", ") /S /JavaScript /JS (app.alert(1)) /OpenAction (", "> /AA <",
		"endstream\nendobj", "a\x00b\xff", "\\", "((", "浴🛁", "ET Q /F1 9 Tf"} {
		f.Add(s)
	}
	allowed := anyName.FindAllString(structure(f, fuzzed(f, "x")), -1)
	f.Fuzz(func(t *testing.T, s string) {
		data := fuzzed(t, s)
		for _, name := range anyName.FindAllString(structure(t, data), -1) {
			if !slices.Contains(allowed, name) {
				t.Errorf("%q: the document has %s", s, name)
			}
		}
		for _, word := range strings.Fields(hexString.ReplaceAllString(content(t, data), "")) {
			_, notNumber := strconv.ParseFloat(word, 64)
			if notNumber != nil && !slices.Contains(operators, strings.Trim(word, "[]")) &&
				!slices.Contains([]string{"[", "]", "[]", "/F1", "/F2"}, word) {
				t.Errorf("%q: the page has the operator %q", s, word)
			}
		}
		if m := label.FindSubmatch(data); m == nil || decoded(t, string(m[1])) != clean(s+"Ω") {
			t.Errorf("the label %q reads %q", clean(s+"Ω"), m)
		}
		for _, m := range titles.FindAllSubmatch(data, -1) {
			if got, want := decoded(t, string(m[1])), clean(s); got != want {
				t.Errorf("the title %q reads %q", want, got)
			}
		}
	})
}

// fuzzed is a document with a text in every place where text goes.
func fuzzed(t testing.TB, s string) []byte {
	t.Helper()
	sheet := sheetOf(
		&drawing.Path{Layer: drawing.Layer(s), Title: s, Segs: drawing.Polyline(drawing.Pt{}, drawing.Pt{X: 1}),
			Stroke: drawing.ThinLine()},
		&drawing.Text{Layer: drawing.LayerText, Text: s + "x", At: drawing.Pt{X: 1, Y: 1}, Height: 2.5, Knockout: 1},
	)
	sheet.ID, sheet.Title, sheet.Label, sheet.Description = s, s, s+"Ω", s
	var b bytes.Buffer
	about := Info{s, s, s, s, "en", []File{{s, "text/plain", s, "Source", []byte(s)}}}
	if err := Write(&b, []*drawing.Sheet{sheet}, about); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// structure is a document without its streams and strings. It fails when an
// object is not where the cross-reference table has it.
func structure(t testing.TB, data []byte) string {
	t.Helper()
	_, table, found := bytes.Cut(data, []byte("\nxref\n"))
	if !found {
		t.Fatal("there is no cross-reference table")
	}
	for i, m := range xrefRow.FindAllSubmatch(table, -1) {
		at, _ := strconv.Atoi(string(m[1]))
		if want := fmt.Sprintf("%d 0 obj", i+1); !bytes.HasPrefix(data[min(at, len(data)):], []byte(want)) {
			t.Fatalf("object %d is not at %d", i+1, at)
		}
	}
	plain := regexp.MustCompile(`(?s)stream\r?\n.*?\nendstream`).ReplaceAll(data, nil)
	return hexString.ReplaceAllString(literal.ReplaceAllString(string(plain), ""), "")
}

// decoded reads a hexadecimal string of UTF-16, high byte first.
func decoded(t testing.TB, digits string) string {
	t.Helper()
	var units []uint16
	for i := 0; i+4 <= len(digits); i += 4 {
		v, err := strconv.ParseUint(digits[i:i+4], 16, 16)
		if err != nil {
			t.Fatal(err)
		}
		units = append(units, uint16(v))
	}
	return string(utf16.Decode(units))
}
