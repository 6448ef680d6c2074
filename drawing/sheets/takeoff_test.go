package sheets

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/takeoff"
)

// The sheet and the CSV of a job say the same: every figure of a row, and the
// total as the sum of the prices above it. A dash stands for what does not
// apply: only prices and notes may be left empty, to be filled in by hand.
func TestTakeOffSheetAgreesWithItsFile(t *testing.T) {
	for _, name := range examples {
		p := example(t, name).plan
		var file bytes.Buffer
		if err := takeoff.WriteCSV(&file, p.TakeOff); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&file).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		us := ""
		if p.Job.Figures().Units == plane.Inches {
			us = " (US)"
		}
		from := map[string]string{"Net": "net" + us, "Gross": "gross" + us, "Unit": "unit" + us,
			"Pack": "pack size" + us, "Packs": "whole packs", "of": "pack", "Spare": "spare" + us, "Item": "item"}
		at := map[string]int{}
		for i, h := range rows[0] {
			at[h] = i
		}
		sheet := takeOffTable(p)
		total := 0.0
		for n, r := range rows[1:] {
			for c, col := range sheet.Cols {
				got := sheet.Rows[n][c].Text
				head, known := from[col.Head]
				want := r[at[head]]
				if head == "item" { // with what it is worked out from, where that is short
					known = !strings.HasPrefix(got, want)
				}
				if known && got != want && !(head == "pack" && want != "" &&
					(got == want+"s" || got == want+"es")) &&
					!(got == "-" && (want == "" || r[at["whole packs"]] == "")) {
					t.Errorf("%s, %s: %s %q, in the file %q", name, r[at["item"]], col.Head, got, want)
				}
				if got == "" && !strings.HasPrefix(col.Head, "Price") {
					t.Errorf("%s, %s: %s is empty", name, r[at["item"]], col.Head)
				}
			}
			if under := sheet.Rows[n]; len(under) > len(sheet.Cols) && r[at["note"]] != "" &&
				under[len(sheet.Cols)].Text == "" {
				t.Errorf("%s, %s: no note below it", name, r[at["item"]])
			}
			price, _ := strconv.ParseFloat(r[at["price"]], 64)
			total += price
		}
		if last := sheet.Rows[len(sheet.Rows)-1]; total > 0 && last[len(sheet.Cols)-1].Text != fmt.Sprintf("%.2f",
			total) {
			t.Errorf("%s: total %s, the prices come to %.2f", name, last[len(sheet.Cols)-1].Text, total)
		}
	}
}

// Columns of lists are filled alike: none is longer than what any way to share
// out the same blocks in order needs, to the step they are tried in; what does
// not fit stays in full columns.
func TestColumnsAreLevelled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ty := setting.NewTypesetter(language.English)
		var blocks []setting.Block
		for i := range rapid.IntRange(1, 9).Draw(t, "blocks") {
			blocks = append(blocks, setting.List{Head: fmt.Sprintf("Block %d", i),
				Paras: slices.Repeat([]string{"A line."}, rapid.IntRange(1, 12).Draw(t, "lines"))})
		}
		cols := []drawing.Box{{X1: 100, Y1: 150}, {X0: 110, X1: 210, Y1: 150}, {X0: 220, X1: 320, Y1: 60}}
		short := setting.Levelled(ty, blocks, cols)
		placed, left := setting.Flow(ty, blocks, short)
		if fits, over := setting.Pour(ty, blocks, cols, true); len(over) == 0 && len(fits) == len(blocks) &&
			(len(left) > 0 || len(placed) != len(blocks)) {
			t.Fatalf("%d of %d blocks are set, %d are left", len(placed), len(blocks), len(left))
		}
		all, high := 0.0, 0.0
		for _, b := range blocks {
			all += b.Height(ty, 100)
			high = math.Max(high, b.Height(ty, 100))
		}
		bottom := 0.0
		for _, p := range placed {
			bottom = math.Max(bottom, p.At.Y+p.Block.Height(ty, p.W))
		}
		// filled in turn, no column is begun before the one before it holds more
		// than the bound less one block
		if bound := all/3 + high + float64(len(blocks))*setting.BlockGap + 5; bottom > bound && bound < 60 {
			t.Errorf("columns reach to %.0f, %.0f would do", bottom, bound)
		}
	})
}
