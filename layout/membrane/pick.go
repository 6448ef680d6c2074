package membrane

// mostCombinations is up to how many ways of turning the rooms' strips all are
// tried.
const mostCombinations = 64

// pick chooses each room's direction so that the whole job takes the fewest
// rolls, and then the least membrane and the best seams: all combinations are
// tried for a few rooms, else one room after the other is turned. A room's own
// cheaper direction is kept where it makes no difference.
func (c cutter) pick(choices [][]arrangement) []int {
	best := make([]int, len(choices))
	if c.across > 0 { // there is one direction
		return best
	}
	packs, cost := c.weigh(choices, best)
	try := func(picked []int) {
		if p, v := c.weigh(choices, picked); p < packs || p == packs && v < cost-1 {
			packs, cost = p, v
			copy(best, picked)
		}
	}
	picked := make([]int, len(choices))
	if 1<<min(len(choices), 30) <= mostCombinations {
		for n := 1; n < 1<<len(choices); n++ {
			for i := range picked {
				picked[i] = n >> i & 1
			}
			try(picked)
		}
		return best
	}
	for i := range choices {
		copy(picked, best)
		picked[i] = 1
		try(picked)
	}
	return best
}

// weigh returns how many rolls a choice of directions takes, by a quick
// packing, and what it costs: membrane taken, and its seams.
func (c cutter) weigh(choices [][]arrangement, picked []int) (packs int, cost float64) {
	var items []item
	for i, both := range choices {
		cost += both[picked[i]].extra
		for _, s := range both[picked[i]].strips {
			for _, sp := range s.pieces {
				rows := span{s.low, s.high}.pitches(c.row())
				items = append(items, item{0, min(c.rows, rows), min(c.cells, sp.pitches(c.pitch))})
			}
		}
	}
	s := shelver{items: items, rows: c.rows}
	sortItems(s.items)
	shelves := s.fit()
	lengths := make([]int, len(shelves))
	order := make([]int, len(shelves)) // they come by falling length
	for i, sh := range shelves {
		lengths[i], order[i] = sh.cells, i
	}
	cost += float64(sumCells(shelves)*c.rows) * c.pitch * c.row()
	return len(firstFit(lengths, order, c.cells)), cost
}
