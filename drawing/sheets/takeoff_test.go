package sheets

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// The sheet and the CSV of a job say the same: every figure of a row, and the
// total as the sum of the prices above it. A dash stands for what does not
// apply: only prices and notes may be left empty, to be filled in by hand.
func TestTakeOffSheetAgreesWithItsFile(t *testing.T) {
	for _, name := range []string{"bath", "kitchen", "entry"} {
		p := readPlan(t, "../../testdata/jobs/"+name+".toml")
		var file bytes.Buffer
		if err := takeoff.WriteCSV(&file, p.TakeOff); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&file).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		us := ""
		if figuresOf(p.Job).units == plane.Inches {
			us = " (US)"
		}
		from := map[string]string{"Net": "net" + us, "Gross": "gross" + us, "Unit": "unit" + us, "Pack": "pack size" + us, "Packs": "whole packs", "of": "pack", "Spare": "spare" + us, "Item": "item"}
		at := map[string]int{}
		for i, h := range rows[0] {
			at[h] = i
		}
		sheet := takeOffTable(p)
		total := 0.0
		for n, r := range rows[1:] {
			for c, col := range sheet.cols {
				got := sheet.rows[n][c].text
				head, known := from[col.head]
				if want := r[at[head]]; known && got != want && !(got == "-" && (want == "" || r[at["whole packs"]] == "")) {
					t.Errorf("%s, %s: %s %q, in the file %q", name, r[at["item"]], col.head, got, want)
				}
				if got == "" && col.head != "Note" && !strings.HasPrefix(col.head, "Price") {
					t.Errorf("%s, %s: %s is empty", name, r[at["item"]], col.head)
				}
			}
			price, _ := strconv.ParseFloat(r[at["price"]], 64)
			total += price
		}
		if last := sheet.rows[len(sheet.rows)-1]; total > 0 && last[len(last)-2].text != fmt.Sprintf("%.2f", total) {
			t.Errorf("%s: total %s, the prices come to %.2f", name, last[len(last)-2].text, total)
		}
	}
}
