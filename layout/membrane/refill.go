package membrane

// refill moves lengths between bins so that full ones grow fuller and the room
// left gathers in few: two bins at a time are emptied and the first filled
// again as full as can be. Bins that come out empty are dropped.
func refill(lengths []int, bins [][]int, size, least int) [][]int {
	bins = clone(bins)
	for moved := true; moved && len(bins) > least; {
		moved = false
		for a := range bins {
			for b := range bins {
				if a != b && pair(lengths, bins, a, b, size) {
					moved = true
				}
			}
		}
		bins = dropEmpty(bins)
	}
	return bins
}

// pair fills bin a from both and leaves the rest to b; it reports whether the
// fuller of the two is fuller than before.
func pair(lengths []int, bins [][]int, a, b, size int) bool {
	before := max(sumOf(lengths, bins[a]), sumOf(lengths, bins[b]))
	if before == size || len(bins[a])+len(bins[b]) == 0 {
		return false
	}
	both := append(append([]int{}, bins[a]...), bins[b]...)
	chosen := fill(lengths, both, size)
	if sumOf(lengths, chosen) <= before {
		return false
	}
	bins[a], bins[b] = chosen, without(both, chosen)
	return true
}

func sumOf(lengths, bin []int) int {
	n := 0
	for _, i := range bin {
		n += lengths[i]
	}
	return n
}
