package setting

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
	"oxturn/layout/language"
)

// tableOf returns a table of some rows under a heading.
func tableOf(rows int) Block {
	t := Table{Head: "Head", Cols: []Column{{Head: "No."}}}
	for i := range rows {
		t.Rows = append(t.Rows, Row(strconv.Itoa(i+1)))
	}
	return t
}

// TestComposeOutOfOrder: where blocks in their order have to be broken, another
// order that keeps them whole is taken.
func TestComposeOutOfOrder(t *testing.T) {
	ty := NewTypesetter(language.English)
	blocks := []Block{tableOf(5), tableOf(12), tableOf(9)}
	h := func(i int) float64 { return blocks[i].Height(ty, 60) }
	slots := []drawing.Box{{X1: 60, Y1: h(1)}, {X0: 70, X1: 130, Y1: h(0) + BlockGap + h(2)}}
	if out, rest := Flow(ty, blocks, slots); len(out) == 3 && len(rest) == 0 {
		t.Fatal("in their order the blocks stay whole too: nothing is tried here")
	}
	out, rest := compose(ty, blocks, slots)
	if len(out) != 3 || len(rest) > 0 {
		t.Errorf("%d pieces and %d left, 3 blocks fit whole", len(out), len(rest))
	}
}

// TestComposeKeepsAll: whatever the blocks and slots, every row is set once or
// handed back, nothing overlaps or leaves its slot, and no more pieces come of it
// than by flow.
func TestComposeKeepsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ty := NewTypesetter(language.English)
		var blocks []Block
		rows := 0
		for _, n := range rapid.SliceOfN(rapid.IntRange(1, 25), 1, 8).Draw(t, "rows") {
			blocks = append(blocks, tableOf(n))
			rows += n
		}
		var slots []drawing.Box
		for i, h := range rapid.SliceOfN(rapid.Float64Range(10, 140), 1, 5).Draw(t, "heights") {
			slots = append(slots, drawing.Box{X0: float64(i) * 70, X1: float64(i)*70 + 60, Y1: h})
		}
		plain, plainRest := Flow(ty, blocks, slots)
		out, rest := compose(ty, measure(blocks), slots)
		if len(rest) > len(plainRest) || len(rest) == len(plainRest) && len(out) > len(plain) {
			t.Fatalf("%d pieces and %d left, %d and %d by flow", len(out), len(rest), len(plain), len(plainRest))
		}
		count := func(b Block) int {
			if m, ok := b.(Measured); ok {
				b = m.Block
			}
			return len(b.(Table).Rows)
		}
		var boxes []drawing.Box
		for _, p := range out {
			rows -= count(p.Block)
			b := drawing.Box{X0: p.At.X, Y0: p.At.Y, X1: p.At.X + p.W, Y1: p.At.Y + p.Block.Height(ty, p.W)}
			within := false
			for _, s := range slots {
				within = within || s.Grow(1e-6).Contains(b)
			}
			if !within {
				t.Fatalf("%v leaves its slot", b)
			}
			for _, o := range boxes {
				if o.Meets(b) {
					t.Fatalf("%v and %v overlap", o, b)
				}
			}
			boxes = append(boxes, b)
		}
		for _, b := range rest {
			rows -= count(b)
		}
		if rows != 0 {
			t.Fatalf("%d rows lost", rows)
		}
	})
}
