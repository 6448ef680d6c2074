package takeoff

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"oxturn/layout/say"
)

var csvHead = []string{
	"code", "item", "basis", "unit", "net", "waste (%)", "gross", "pack size", "pack", "whole packs", "spare", "price",
	"unit (US)", "net (US)", "gross (US)", "pack size (US)", "spare (US)", "note",
}

// WriteCSV writes the lines of a take-off as CSV by RFC 4180: a header row,
// UTF-8, decimal points, CRLF. Figures are in the row's unit. An empty cell
// means none given. Text that a spreadsheet would run as a formula gets a
// leading apostrophe.
func WriteCSV(w io.Writer, l List) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{csvHead}
	for _, line := range l.Lines {
		rows = append(rows, csvRow(line))
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("take-off as CSV: %w", err)
	}
	return nil
}

func csvRow(l Line) []string {
	_, us := US(0, l.Unit)
	figure := func(v float64) string { return Figure(v, l.Unit) }
	other := func(v float64) string { v, u := US(v, l.Unit); return Figure(v, u) }
	given := func(v float64, format func(float64) string) string {
		if v == 0 {
			return ""
		}
		return format(v)
	}
	packs := ""
	if l.Pack > 0 || l.Packs > 0 {
		packs = strconv.Itoa(l.Packs)
	}
	price := given(l.Price, say.Price)
	return []string{
		Defuse(l.Code), Defuse(l.Item.String()), Defuse(l.Basis.String()), l.Unit, figure(l.Net),
		strconv.FormatFloat(100*l.Waste, 'f', 1, 64), figure(l.Gross),
		given(l.Pack, figure), Defuse(l.PackName), packs, figure(l.Spare), price,
		us, other(l.Net), other(l.Gross), given(l.Pack, other), other(l.Spare), Defuse(l.Note.String()),
	}
}

// Defuse makes text fit for a cell. A spreadsheet would read text that begins
// like a formula as one: it gets a leading apostrophe. Wide signs count, as some
// take them for the plain ones. Every line ends in \n, since the writer would
// drop a lone \r.
func Defuse(text string) string {
	text = lineEnds.Replace(text)
	if strings.TrimLeft(text, "=+-@\t\n＝＋－＠") != text {
		return "'" + text
	}
	return text
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")
