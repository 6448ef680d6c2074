package sheets

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing/setting"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// Every piece of a room is said to be cut from one roll or sheet, once: in the
// words of a diagram, or in the table of sheets that give one piece. The length
// it is cut at is one that can be measured: not past the end of the stock.
func TestEveryPieceIsCutOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock := membrane.Stock{Width: 1000, Length: 10000}
		if rapid.Bool().Draw(t, "sheets") {
			stock = membrane.Stock{Width: 800, Length: 1000, Sheets: true}
		}
		w, h := rapid.Float64Range(600, 4500).Draw(t, "w"), rapid.Float64Range(600, 4000).Draw(t, "h")
		m, err := membrane.Cut(membrane.Input{Pitch: 30, Stock: stock,
			Rooms: []membrane.Room{{Name: "R",
				Tiled: plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(w, h)))}}})
		if err != nil {
			t.Fatal(err)
		}
		said := map[string]int{}
		for _, b := range cutDiagrams(m, &m.Rooms[0], say.Figures{Units: plane.Millimetres}, false) {
			switch b := b.(type) {
			case setting.Table:
				for _, r := range b.Rows {
					said[r[1].Text]++
				}
			case cutDiagram:
				for _, word := range strings.FieldsFunc(b.order(),
					func(r rune) bool { return strings.ContainsRune(" ,;+", r) || string(r) == setting.NoBreak }) {
					said[word]++
				}
				if used(b.pack) > stock.Length+1e-6 {
					t.Errorf("%s: cut to %.0f of %.0f mm", b.head(), used(b.pack), stock.Length)
				}
			}
		}
		for _, p := range m.Pieces() {
			if n := said["M"+strconv.Itoa(p.Number)]; n != 1 {
				t.Errorf("M%d is said to be cut %d times", p.Number, n)
			}
		}
	})
}
