package membrane

import "slices"

// packed puts lengths into as few bins of a size as it finds, the numbers of
// the lengths in each bin: by falling length into the first bin that holds it,
// by filling bin after bin as full as can be, both mended by refilling, and,
// when none meets the lower bound, by branch and bound. No length is more than
// size.
func packed(lengths []int, size, least int) [][]int {
	order := falling(lengths)
	least = max(least, lowerBound(lengths, size))
	best := firstFit(lengths, order, size)
	ways := [][][]int{best}
	if full := fullest(lengths, order, size); full != nil {
		ways = append(ways, full)
	}
	for _, bins := range ways {
		if len(best) <= least {
			break
		}
		if better := refill(lengths, bins, size, least); len(better) < len(best) {
			best = better
		}
	}
	if len(best) > least {
		s := binSearch{lengths: lengths, order: order, size: size, least: least, best: best, steps: searchSteps}
		s.place(0, nil)
		best = s.best
	}
	return best
}

// falling returns the numbers of the lengths, the longest first.
func falling(lengths []int) []int {
	order := make([]int, len(lengths))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return lengths[b] - lengths[a] })
	return order
}

// firstFit is first-fit decreasing.
func firstFit(lengths, order []int, size int) [][]int {
	var bins [][]int
	var left []int
	for _, i := range order {
		at := slices.IndexFunc(left, func(n int) bool { return n >= lengths[i] })
		if at < 0 {
			at = len(bins)
			bins, left = append(bins, nil), append(left, size)
		}
		bins[at] = append(bins[at], i)
		left[at] -= lengths[i]
	}
	return bins
}

// fillWork bounds the work of fullest.
const fillWork = 30_000_000

// fullest fills one bin after the other: the longest length left, and of the
// others those that together fill the bin best. It is nil for an instance that
// would take too long.
func fullest(lengths, order []int, size int) [][]int {
	rest := slices.Clone(order)
	work := 0
	var bins [][]int
	for len(rest) > 0 {
		if work += len(rest) * size; work > fillWork {
			return nil
		}
		bin := append([]int{rest[0]}, fill(lengths, rest[1:], size-lengths[rest[0]])...)
		bins = append(bins, bin)
		rest = without(rest, bin)
	}
	return bins
}

// fill chooses from the candidates those whose lengths come nearest to room
// without passing it: by dynamic programming over every sum that can be had,
// each with the candidate that reached it first.
func fill(lengths, candidates []int, room int) []int {
	last := make([]int, room+1) // last[n]: place in candidates+1 of what completed the sum n
	for k, i := range candidates {
		for n := room; n >= lengths[i]; n-- {
			if from := n - lengths[i]; last[n] == 0 && (from == 0 || last[from] > 0) {
				last[n] = k + 1
			}
		}
	}
	n := room
	for n > 0 && last[n] == 0 {
		n--
	}
	var out []int
	for n > 0 {
		i := candidates[last[n]-1]
		out = append(out, i)
		n -= lengths[i]
	}
	return out
}

// lowerBound is the bound L2 of Martello and Toth (Knapsack Problems, 1990,
// section 8.3.2): for every threshold a up to half a bin, lengths over size-a
// have a bin each, those over half of the rest too, and what of the lengths
// between a and half does not fit beside those needs bins by its sum.
func lowerBound(lengths []int, size int) int {
	best := 0
	for _, a := range append([]int{0}, lengths...) {
		if 2*a > size {
			continue
		}
		alone, half, big, small := 0, 0, 0, 0
		for _, n := range lengths {
			switch {
			case n > size-a:
				alone++
			case 2*n > size:
				half, big = half+1, big+n
			case n >= a:
				small += n
			}
		}
		over := max(0, small-(half*size-big))
		best = max(best, alone+half+ceilDiv(over, size))
	}
	return best
}

// A binSearch is a branch and bound over the lengths in falling order.
type binSearch struct {
	lengths, order []int
	size, least    int
	best           [][]int
	steps          int
}

// place puts the k-th length into each bin that holds it, bins with the same
// room left being alike, and into a new bin.
func (s *binSearch) place(k int, bins [][]int) {
	if s.steps--; s.steps < 0 || len(bins) >= len(s.best) || len(s.best) <= s.least {
		return
	}
	if k == len(s.order) {
		s.best = clone(bins)
		return
	}
	i := s.order[k]
	tried := map[int]bool{}
	for b := range bins {
		room := s.room(bins[b])
		if room < s.lengths[i] || tried[room] {
			continue
		}
		tried[room] = true
		bins[b] = append(bins[b], i)
		s.place(k+1, bins)
		bins[b] = bins[b][:len(bins[b])-1]
	}
	s.place(k+1, append(bins, []int{i}))
}

func (s *binSearch) room(bin []int) int { return s.size - sumOf(s.lengths, bin) }

func clone(bins [][]int) [][]int {
	out := slices.Clone(bins)
	for i := range out {
		out[i] = slices.Clone(out[i])
	}
	return out
}

func dropEmpty(bins [][]int) [][]int {
	return slices.DeleteFunc(bins, func(b []int) bool { return len(b) == 0 })
}

// without returns list without the entries of drop, in order.
func without(list, drop []int) []int {
	return slices.DeleteFunc(slices.Clone(list), func(i int) bool { return slices.Contains(drop, i) })
}
