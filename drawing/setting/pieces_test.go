package setting

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"oxturn/drawing/signs"
	"oxturn/layout/language"
)

// TestPiecesAreAsCutAnew: a block that was parted at many heights and widths before is parted as
// one that never was, and its pieces, with heading or without, are as high.
func TestPiecesAreAsCutAnew(t *testing.T) {
	words := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,12}`), 1, 9)
	rapid.Check(t, func(t *rapid.T) {
		ty, paras := NewTypesetter(language.English), rapid.SliceOfN(words, 5, 30).Draw(t, "paragraphs")
		list := List{Head: "Notes", Number: rapid.IntRange(0, 3).Draw(t, "first number")}
		table := Table{Head: "Runs", Cols: []Column{{Head: "Run", Wraps: true}, {Head: "Ways", Wraps: true}}}
		legend := Legend{Head: "Legend", Signs: make([]signs.Sign, rapid.IntRange(5, 12).Draw(t, "signs"))}
		for _, p := range paras {
			list.Paras = append(list.Paras, strings.Join(p, " "))
			table.Rows = append(table.Rows, Row(p[0], strings.Join(p, " ")))
		}
		for i := range legend.Signs {
			legend.Signs[i] = signs.Cable + signs.Sign(i)
		}
		blocks := measure([]Block{list, table, legend})
		for range 12 {
			w, h := rapid.Float64Range(45, 160).Draw(t, "wide"), rapid.Float64Range(10, 150).Draw(t, "high")
			for i, plain := range []Block{list, table, legend} {
				fits, rest := blocks[i].(Measured).Split(ty, w, h)
				newFits, newRest := measure([]Block{plain})[0].(Measured).Split(ty, w, h)
				for _, k := range [][2]Block{{fits, newFits}, {rest, newRest}} {
					if got, want := shown(ty, k[0], w), shown(ty, k[1], w); !cmp.Equal(got, want) {
						t.Fatalf("%.1f wide and high %.1f: %v, cut anew %v", w, h, got, want)
					}
				}
			}
		}
	})
}

// shown is how much a piece has, how it begins, and its heights; nil for none.
func shown(ty *Typesetter, b Block, w float64) []any {
	if b == nil {
		return nil
	}
	s := b.(splitter)
	return []any{s.extent(), headOf(Unmeasured(b)), b.Height(ty, w), b.Height(ty, w+7), unheaded(b).Height(ty, w)}
}

// headOf is a block's heading.
func headOf(b Block) string {
	switch b := b.(type) {
	case List:
		return b.Head
	case Table:
		return b.Head
	case Legend:
		return b.Head
	}
	return ""
}
