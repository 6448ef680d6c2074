package sheets

import (
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing"
)

// tableOf returns a table of some rows under a heading.
func tableOf(rows int) block {
	t := table{head: "Head", cols: []column{{head: "No."}}}
	for i := range rows {
		t.rows = append(t.rows, row(itoa(i+1)))
	}
	return t
}

// TestComposeOutOfOrder: where blocks in their order have to be broken, another
// order that keeps them whole is taken.
func TestComposeOutOfOrder(t *testing.T) {
	ty := newTypesetter()
	blocks := []block{tableOf(5), tableOf(12), tableOf(9)}
	h := func(i int) float64 { return blocks[i].height(ty, 60) }
	slots := []drawing.Box{{X1: 60, Y1: h(1)}, {X0: 70, X1: 130, Y1: h(0) + blockGap + h(2)}}
	if out, rest := flow(ty, blocks, slots); len(out) == 3 && len(rest) == 0 {
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
		ty := newTypesetter()
		var blocks []block
		rows := 0
		for _, n := range rapid.SliceOfN(rapid.IntRange(1, 25), 1, 8).Draw(t, "rows") {
			blocks = append(blocks, tableOf(n))
			rows += n
		}
		var slots []drawing.Box
		for i, h := range rapid.SliceOfN(rapid.Float64Range(10, 140), 1, 5).Draw(t, "heights") {
			slots = append(slots, drawing.Box{X0: float64(i) * 70, X1: float64(i)*70 + 60, Y1: h})
		}
		plain, plainRest := flow(ty, blocks, slots)
		out, rest := compose(ty, measure(blocks), slots)
		if len(rest) > len(plainRest) || len(rest) == len(plainRest) && len(out) > len(plain) {
			t.Fatalf("%d pieces and %d left, %d and %d by flow", len(out), len(rest), len(plain), len(plainRest))
		}
		count := func(b block) int {
			if m, ok := b.(measured); ok {
				b = m.block
			}
			return len(b.(table).rows)
		}
		var boxes []drawing.Box
		for _, p := range out {
			rows -= count(p.block)
			b := drawing.Box{X0: p.at.X, Y0: p.at.Y, X1: p.at.X + p.w, Y1: p.at.Y + p.block.height(ty, p.w)}
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
