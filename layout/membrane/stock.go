package membrane

import "slices"

// A Pack is one roll or sheet as it is cut.
type Pack struct {
	Cuts []Crosscut
	Left float64 // length left over, mm
}

// A Crosscut is a length cut straight off a roll or sheet. Its pieces lie side
// by side in it.
type Crosscut struct {
	At, Length float64 // from the start of the roll, mm
	Places     []Place
}

// A Place is where a piece is cut from a crosscut.
type Place struct {
	Piece         int     // its number
	At            float64 // across the roll, mm
	Length, Width float64 // in whole pitches, mm
}

// An item is a piece in pitches.
type item struct{ number, rows, cells int }

// A shelf is a crosscut in pitches: items side by side, the longest first.
type shelf struct {
	cells, free int // length; width that is left
	items       []item
}

// pack cuts the pieces of p from rolls or sheets. First pieces that are narrow
// enough are put side by side, then the lengths are packed; both are solved
// exactly as long as that takes few steps, and else by the best of several
// rules. Bound says how far from the best the outcome can be at most.
func (p *Plan) pack(c cutter) {
	var items []item
	for _, piece := range p.Pieces() {
		items = append(items, item{piece.Number, piece.Rows, piece.Cells})
	}
	shelves := shelve(items, c.rows)
	lengths := make([]int, len(shelves))
	for i, s := range shelves {
		lengths[i] = s.cells
	}
	p.Bound = bound(items, c)
	for _, bin := range packed(lengths, c.cells, p.Bound) {
		p.Packs = append(p.Packs, p.packOf(bin, shelves, c))
	}
	full := p.Stock.Width
	for _, s := range shelves {
		p.Taken += float64(s.cells) * p.Pitch * full
	}
	p.Bought = float64(len(p.Packs)) * full * p.Stock.Length
}

// packOf lays shelves out along one roll.
func (p *Plan) packOf(bin []int, shelves []shelf, c cutter) Pack {
	var out Pack
	at := 0.0
	for _, i := range bin {
		cut := Crosscut{At: at, Length: float64(shelves[i].cells) * p.Pitch}
		across := 0.0
		for _, it := range shelves[i].items {
			place := Place{it.number, across, float64(it.cells) * p.Pitch, float64(it.rows) * c.row()}
			cut.Places = append(cut.Places, place)
			across += place.Width
		}
		out.Cuts = append(out.Cuts, cut)
		at += cut.Length
	}
	out.Left = max(0, p.Stock.Length-at)
	return out
}

// bound returns a number of rolls below which no plan cuts the items: their
// area, and the lengths of those of more than half the width, of which no two
// lie side by side.
func bound(items []item, c cutter) int {
	area := 0
	var wide []int
	for _, it := range items {
		area += it.rows * it.cells
		if 2*it.rows > c.rows {
			wide = append(wide, it.cells)
		}
	}
	return max(ceilDiv(area, c.rows*c.cells), lowerBound(wide, c.cells))
}

func ceilDiv(a, b int) int { return (a + b - 1) / b }

// shelve puts items side by side so that the crosscuts are short in all. In
// the order of falling length an item either begins a crosscut, which is then
// as long as the item, or joins one at no cost.
func shelve(items []item, rows int) []shelf {
	sorted := slices.Clone(items)
	sortItems(sorted)
	s := shelver{items: sorted, rows: rows, steps: searchSteps}
	s.best = s.fit()
	s.least = sumCells(s.best)
	s.search(0, 0, nil)
	return s.best
}

// sortItems puts items in the order of falling length, then width.
func sortItems(items []item) {
	slices.SortStableFunc(items, func(a, b item) int {
		if a.cells != b.cells {
			return b.cells - a.cells
		}
		return b.rows - a.rows
	})
}

func sumCells(shelves []shelf) int {
	n := 0
	for _, s := range shelves {
		n += s.cells
	}
	return n
}

// searchSteps is after how many steps a search makes do with the best it has.
const searchSteps = 100_000

type shelver struct {
	items []item
	rows  int
	best  []shelf
	least int // sum of lengths of best
	steps int
}

// fit puts every item into the crosscut in which it leaves least width.
func (s *shelver) fit() []shelf {
	var out []shelf
	for _, it := range s.items {
		at := -1
		for i := range out {
			if out[i].free >= it.rows && (at < 0 || out[i].free < out[at].free) {
				at = i
			}
		}
		out = put(out, at, it, s.rows)
	}
	return out
}

// put adds an item to shelf at, to a new one when at is negative.
func put(shelves []shelf, at int, it item, rows int) []shelf {
	if at < 0 {
		return append(shelves, shelf{it.cells, rows - it.rows, []item{it}})
	}
	shelves[at].free -= it.rows
	shelves[at].items = append(shelves[at].items, it)
	return shelves
}

// search places items from the k-th on, used being the length so far.
func (s *shelver) search(k, used int, shelves []shelf) {
	if s.steps--; s.steps < 0 || used >= s.least {
		return
	}
	if k == len(s.items) {
		s.best, s.least = copied(shelves), used
		return
	}
	it := s.items[k]
	tried := map[int]bool{}
	for i := range shelves {
		free := shelves[i].free
		if free < it.rows || tried[free] {
			continue
		}
		tried[free] = true
		put(shelves, i, it, s.rows)
		s.search(k+1, used, shelves)
		shelves[i].free, shelves[i].items = free, shelves[i].items[:len(shelves[i].items)-1]
	}
	s.search(k+1, used+it.cells, put(shelves, -1, it, s.rows))
}

func copied(shelves []shelf) []shelf {
	out := slices.Clone(shelves)
	for i := range out {
		out[i].items = slices.Clone(out[i].items)
	}
	return out
}
