package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"unicode/utf16"

	"oxturn/drawing"
)

// What the library ends and begins a document with. Its catalogue, object 1,
// holds no dictionary but itself.
var (
	catalogue = regexp.MustCompile(`(?s)\n1 0 obj\n<<\n(.*?)>>\nendobj\n`)
	trailer   = regexp.MustCompile(`(?s)\ntrailer\n<<\n(/Size (\d+)\n.*)>>\nstartxref\n(\d+)\n%%EOF\n$`)
)

// labelled makes a reader's window call every page by its sheet's label. The
// library cannot write page labels, so they are added as an incremental update
// (ISO 32000-1, 7.5.6): the catalogue once more with the labels, a table that
// says where it is, and a trailer that points to the table before. Where no
// sheet has a label, doc is returned as it is.
func labelled(doc []byte, sheets []*drawing.Sheet) ([]byte, error) {
	labels := pageLabels(sheets)
	if labels == "" {
		return doc, nil
	}
	root, end := catalogue.FindSubmatch(doc), trailer.FindSubmatch(doc[max(0, bytes.LastIndex(doc, []byte("\ntrailer\n"))):])
	if root == nil || end == nil {
		return nil, errors.New("the library's catalogue or trailer is not written as expected, so that pages cannot be labelled")
	}
	b := bytes.NewBuffer(doc)
	at := b.Len()
	fmt.Fprintf(b, "1 0 obj\n<<\n%s%s>>\nendobj\n", root[1], labels)
	table := b.Len()
	fmt.Fprintf(b, "xref\n1 1\n%010d 00000 n \n", at)
	fmt.Fprintf(b, "trailer\n<<\n%s/Prev %s\n>>\nstartxref\n%d\n%%%%EOF\n", end[1], end[3], table)
	return b.Bytes(), nil
}

// pageLabels returns the catalogue's entry: for each page a label that is all
// prefix, with no number after it (12.4.2). A sheet without a label keeps the
// number of its page.
func pageLabels(sheets []*drawing.Sheet) string {
	var b bytes.Buffer
	any := false
	for i, s := range sheets {
		any = any || s.Label != ""
		if s.Label == "" {
			fmt.Fprintf(&b, "%d <</S /D /St %d>>\n", i, i+1)
			continue
		}
		fmt.Fprintf(&b, "%d <</P %s>>\n", i, textString(clean(s.Label)))
	}
	if !any {
		return ""
	}
	return "/PageLabels <</Nums [\n" + b.String() + "]>>\n"
}

// textString writes a text string in UTF-16, as 7.9.2.2 has it.
func textString(s string) string {
	out := "<FEFF"
	for _, u := range utf16.Encode([]rune(s)) {
		out += fmt.Sprintf("%04X", u)
	}
	return out + ">"
}
