package job

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// A Price is what one pack of something costs, or one unit where it is not
// sold by the pack.
type Price struct {
	Code  string // of the take-off's line
	Price float64
	Span  Span
}

// maxPrices is far above any price list of one trade.
const maxPrices = 10000

// readPrices reads the price file that the job names: CSV with a row of heads,
// of which "code" and "price" are read and all others left alone. The take-off
// that was written beside the drawings has these codes.
func (j *Job) readPrices(top table, open func(string) ([]byte, error)) {
	named := top.text("prices")
	if j.PriceFile = named; named == "" {
		return
	}
	if open == nil {
		top.errorf("prices", "leave it out", "the price file %q cannot be read here", named)
		return
	}
	data, err := open(named)
	if err != nil {
		top.errorf("prices", fileHint(named), "cannot read the price file %q: %v", named, reason(err))
		return
	}
	if len(data) > maxFile {
		top.errorf("prices", "look whether this is the right file",
			"the price file %q has %d bytes; it may have %d at most", named, len(data), maxFile)
		return
	}
	p := priceFile{top: top, file: besides(j.File, named), seen: map[string]Span{}}
	top.rd.report.AddSource(p.file, data)
	j.Prices = p.read(data)
}

// A priceFile is a price file while it is read.
type priceFile struct {
	top         table
	file        string
	code, price int // columns
	seen        map[string]Span
}

// span returns the place of n bytes at a line and column, both from 1.
func (p *priceFile) span(line, column, n int) Span {
	return p.top.rd.report.spanAt(p.file, line, column, n)
}

func (p *priceFile) read(data []byte) []Price {
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	r.Comment = '#'
	var out []Price
	for n := 0; ; n++ {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			if n == 0 {
				p.errorf(Span{File: p.file}, "the first row is: code,price", "the price file is empty")
			}
			return out
		}
		if err != nil {
			p.syntax(err)
			return out
		}
		line, column := r.FieldPos(0)
		if n == 0 {
			if !p.heads(row, p.span(line, column, len(row[0]))) {
				return nil
			}
			continue
		}
		if len(out) == maxPrices {
			p.errorf(p.span(line, column, len(row[0])), "leave out what the job does not use",
				"the price file has more than %d prices", maxPrices)
			return out
		}
		if one, ok := p.row(row, r); ok {
			out = append(out, one)
		}
	}
}

func (p *priceFile) errorf(at Span, hint, format string, args ...any) {
	p.top.rd.report.Errorf(at, hint, format, args...)
}

func (p *priceFile) syntax(err error) {
	at := Span{File: p.file}
	var pe *csv.ParseError
	if errors.As(err, &pe) {
		at, err = p.span(pe.Line, pe.Column, 0), pe.Err
	}
	p.errorf(at, "quotes belong round a whole field, and a quote inside is written twice",
		"the price file is not CSV: %v", err)
}

// heads finds the two columns.
func (p *priceFile) heads(row []string, at Span) bool {
	p.code, p.price = -1, -1
	for i, h := range row {
		switch strings.ToLower(strings.TrimSpace(strings.TrimPrefix(h, "\ufeff"))) {
		case "code":
			p.code = i
		case "price":
			p.price = i
		}
	}
	if p.code >= 0 && p.price >= 0 {
		return true
	}
	p.errorf(at, "the first row is: code,price", "the price file's first row has no columns \"code\" and \"price\"")
	return false
}

// dearest is beyond any price.
const dearest = 1e9

// row reads one price; a row without one is passed over, so that a list may be
// filled in bit by bit.
func (p *priceFile) row(row []string, r *csv.Reader) (Price, bool) {
	cell := func(i int) string {
		if i >= len(row) {
			return ""
		}
		return strings.TrimSpace(row[i])
	}
	code, text := cell(p.code), cell(p.price)
	if text == "" {
		return Price{}, false
	}
	line, column := r.FieldPos(p.price)
	at := p.span(line, column, len(row[p.price]))
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil || math.IsNaN(v) || v < 0 || v > dearest:
		p.errorf(at, "write a plain number with a decimal point, without a currency", "%q is not a price", text)
		return Price{}, false
	case code == "":
		p.errorf(at, "codes are those of the take-off", "a price of %s has no code", text)
		return Price{}, false
	}
	if first, ok := p.seen[code]; ok {
		p.top.rd.report.Add(Diagnostic{Span: at, Hint: "keep one of them", Notes: []Note{{first, "the first is here"}},
			Message: fmt.Sprintf("two prices for %q", code)})
		return Price{}, false
	}
	p.seen[code] = at
	return Price{code, v, at}, true
}
