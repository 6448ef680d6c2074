package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"unicode/utf16"

	"github.com/sourcegraph/conc/iter"

	"oxturn/drawing"
	"oxturn/layout/pattern"
)

var errForm = errors.New("the library's document is not written as expected, so that nothing can be added to it")

// A rawDocument is one as the library writes it, taken apart.
type rawDocument struct {
	head    []byte   // what is before the first object
	objects [][]byte // from "1 0 obj" to "endobj\n", in the order of their numbers
	trailer []byte   // its dictionary
}

// completed writes a document of the library's once more with what the library
// cannot write: page labels, so that a reader's window calls every page by its
// sheet's label (ISO 32000-1, 12.4.2), metadata and the files it carries; and with
// those streams packed that it leaves plain.
func completed(doc []byte, sheets []*drawing.Sheet, info Info) ([]byte, error) {
	p, err := takeApart(doc)
	if err != nil {
		return nil, err
	}
	catalogue, end := p.objects[0], []byte(">>\nendobj\n")
	if !bytes.Contains(catalogue, []byte("/Type /Catalog")) || !bytes.HasSuffix(catalogue, end) {
		return nil, errForm
	}
	p.pack()
	more := pageLabels(sheets) + p.describeAll(info) + p.carry(info.Files)
	p.objects[0] = slices.Concat(bytes.TrimSuffix(catalogue, end), []byte(more), end)
	if err := p.retrailed(); err != nil {
		return nil, err
	}
	return p.join(), nil
}

var (
	tableEnd = pattern.Of(`(?s)^xref\n0 (\d+)\n(.*?)trailer\n(.*)startxref\n\d+\n%%EOF\n$`)
	tableAt  = pattern.Of(`startxref\n(\d+)\n%%EOF\n$`)
)

// rowBytes is the size of a row of the cross-reference table (7.5.4).
const rowBytes = 20

// takeApart takes a document apart by its cross-reference table.
func takeApart(doc []byte) (p rawDocument, err error) {
	m := tableAt().FindSubmatch(doc)
	if m == nil {
		return p, errForm
	}
	at, err := strconv.Atoi(string(m[1]))
	if err != nil || at > len(doc) {
		return p, errForm
	}
	m = tableEnd().FindSubmatch(doc[at:])
	if m == nil || len(m[2])%rowBytes != 0 || len(m[2]) < 2*rowBytes {
		return p, errForm
	}
	p.trailer = m[3]
	last := at
	for row := len(m[2]) - rowBytes; row > 0; row -= rowBytes { // the first row is of no object
		from, err := strconv.Atoi(string(m[2][row : row+10]))
		if err != nil || from > last || !bytes.HasPrefix(doc[from:], fmt.Appendf(nil, "%d 0 obj\n", row/rowBytes)) {
			return p, errForm
		}
		object := slices.Concat(bytes.TrimRight(doc[from:last], "\n"), []byte("\n"))
		p.objects = append([][]byte{object}, p.objects...)
		last = from
	}
	p.head = doc[:last]
	return p, nil
}

// join puts a document together, with a table of where its objects are now.
func (p rawDocument) join() []byte {
	b := bytes.NewBuffer(slices.Clone(p.head))
	table := fmt.Appendf(nil, "xref\n0 %d\n0000000000 65535 f \n", len(p.objects)+1)
	for _, o := range p.objects {
		table = fmt.Appendf(table, "%010d 00000 n \n", b.Len())
		b.Write(o)
	}
	at := b.Len()
	b.Write(table)
	fmt.Fprintf(b, "trailer\n%sstartxref\n%d\n%%%%EOF\n", p.trailer, at)
	return b.Bytes()
}

// pack packs all streams that are plain, side by side: that is half of what a document costs.
func (p rawDocument) pack() {
	iter.ForEach(p.objects, func(o *[]byte) { *o = packed(*o) })
}

// plainHead is what stands before the bytes of a stream without a filter.
var plainHead = pattern.Of(`^((?:\d+ 0 obj\n)?<<\n)/Length \d+\n$`)

// packed packs an object's stream, where it is plain.
func packed(object []byte) []byte {
	head, stream, _ := bytes.Cut(object, []byte(">>\nstream\n"))
	m := plainHead().FindSubmatch(head)
	stream, whole := bytes.CutSuffix(stream, []byte("endstream\nendobj\n"))
	if m == nil || !whole {
		return object
	}
	var b bytes.Buffer
	z := zlib.NewWriter(&b) // the best level saves 0.3 % more
	z.Write(stream)         // to a writer that cannot fail
	z.Close()
	return fmt.Appendf(nil, "%s/Length %d\n/Filter /FlateDecode\n>>\nstream\n%s\nendstream\nendobj\n", m[1], b.Len(),
		b.Bytes())
}

// pageLabels returns the catalogue's entry: for each page a label that is all
// prefix, with no number after it. A sheet without a label keeps the number of
// its page. It is empty where no sheet has a label.
func pageLabels(sheets []*drawing.Sheet) string {
	var b bytes.Buffer
	any := false
	for i, s := range sheets {
		if s.Label == "" {
			fmt.Fprintf(&b, "%d<</S/D/St %d>>\n", i, i+1)
			continue
		}
		any = true
		fmt.Fprintf(&b, "%d<</P %s>>\n", i, textString(clean(s.Label)))
	}
	if !any {
		return ""
	}
	return "/PageLabels<</Nums[\n" + b.String() + "]>>\n"
}

// plainText is a text that its characters' own codes write, with nothing to escape.
var plainText = pattern.Of(`^[ -'*-\[\]-~]*$`)

// textString writes a text string (7.9.2.2): as it is, or in UTF-16.
func textString(s string) string {
	if plainText().MatchString(s) {
		return "(" + s + ")"
	}
	out := "<FEFF"
	for _, u := range utf16.Encode([]rune(s)) {
		out += fmt.Sprintf("%04X", u)
	}
	return out + ">"
}
