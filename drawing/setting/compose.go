package setting

import (
	"iter"
	"math"
	"slices"

	"oxturn/drawing"
)

// mostTrials bounds the search for places of whole blocks, counted and not
// timed so that it ends alike everywhere.
const mostTrials = 5000

// compose is flow with the order of the blocks given up where fewer of them are
// then broken: a legend in three parts is read worse than one after the notes.
func compose(ty *Typesetter, blocks []Block, slots []drawing.Box) (out []placed, rest []Block) {
	blocks = measure(blocks)
	out, rest = Flow(ty, blocks, slots)
	here, most := setOf(blocks, out), len(out)
	if len(rest) > 0 {
		if all := fewest(ty, blocks, slots, math.MaxInt); all != nil {
			return all, nil
		}
		for i := range rest { // on another sheet it is measured anew
			rest[i] = Unmeasured(rest[i])
		}
		if len(here)+len(rest) > len(blocks) { // one goes on elsewhere
			return out, rest
		}
	}
	if found := fewest(ty, here, slots, most); found != nil {
		out = found
	}
	return out, rest
}

// fewest sets all blocks in fewer pieces than most, two of them broken at most.
// It returns nil where it finds no way.
func fewest(ty *Typesetter, blocks []Block, slots []drawing.Box, most int) []placed {
	slots = tallEnough(slots)
	p := packing{ty: ty, blocks: measure(blocks), most: most}
	p.least = leastHeights(ty, p.blocks, slots)
	var best []placed
	for p.broken = range someOf(len(blocks), 2) {
		if len(blocks)+len(p.broken) >= p.most {
			break
		}
		if found := p.search(0, slots); found != nil {
			best, p.most = found, len(found)
		}
	}
	return best
}

// setOf returns the blocks that are set, or begun, in order.
func setOf(blocks []Block, out []placed) []Block {
	var here []Block
	for i, b := range blocks {
		if slices.ContainsFunc(out, func(p placed) bool { return p.of == i }) {
			here = append(here, b)
		}
	}
	return here
}

// someOf yields the choices of up to most of n things, small ones first.
func someOf(n, most int) iter.Seq[[]int] {
	return func(yield func([]int) bool) {
		now := [][]int{nil}
		for range most + 1 {
			var next [][]int
			for _, s := range now {
				if !yield(s) {
					return
				}
				first := 0
				if len(s) > 0 {
					first = s[len(s)-1] + 1
				}
				for i := first; i < n; i++ {
					next = append(next, append(slices.Clone(s), i))
				}
			}
			now = next
		}
	}
}

// A packing looks for places in which all blocks but some stay whole.
type packing struct {
	ty     *Typesetter
	blocks []Block
	least  []float64 // of each block, its height where it is lowest, mm
	most   int       // pieces, at which an answer is no better
	broken []int     // which may be broken
	tried  int
	out    []placed
}

// search places the blocks from i on in what is free of the slots: the first
// slot that leads to an end is taken. It returns nil where there is none.
func (p *packing) search(i int, free []drawing.Box) []placed {
	for ; i < len(p.blocks) && slices.Contains(p.broken, i); i++ {
	}
	if i == len(p.blocks) {
		return p.fill(free)
	}
	if p.hopeless(i, free) {
		return nil
	}
	for k, s := range free {
		if p.tried++; p.tried > mostTrials {
			return nil
		}
		h := p.blocks[i].Height(p.ty, s.W())
		if h > s.H()+sumSlack {
			continue
		}
		left := slices.Clone(free)
		left[k].Y0 += h + BlockGap
		p.out = append(p.out, placed{p.blocks[i], drawing.Pt{X: s.X0, Y: s.Y0}, s.W(), i})
		found := p.search(i+1, left)
		p.out = p.out[:len(p.out)-1]
		if found != nil {
			return found
		}
	}
	return nil
}

// hopeless reports whether the blocks from i on are more than all that is free.
func (p *packing) hopeless(i int, free []drawing.Box) bool {
	room := 0.0
	for _, s := range free {
		room += max(0, s.H())
	}
	for ; i < len(p.blocks); i++ {
		if !slices.Contains(p.broken, i) {
			room -= p.least[i]
		}
	}
	return room < -sumSlack
}

// leastHeights returns how high each block is in the slot where it is lowest.
func leastHeights(ty *Typesetter, blocks []Block, slots []drawing.Box) []float64 {
	least := make([]float64, len(blocks))
	for i, b := range blocks {
		least[i] = math.Inf(1)
		for _, s := range slots {
			least[i] = min(least[i], b.Height(ty, s.W()))
		}
	}
	return least
}

// fill sets the blocks that may be broken in what the whole ones left.
func (p *packing) fill(free []drawing.Box) []placed {
	var blocks []Block
	for _, i := range p.broken {
		blocks = append(blocks, p.blocks[i])
	}
	set, rest := Pour(p.ty, blocks, free, false)
	if len(rest) > 0 || len(p.out)+len(set) >= p.most {
		return nil
	}
	out := slices.Clone(p.out)
	for _, s := range set {
		s.of = p.broken[s.of]
		out = append(out, s)
	}
	return out
}
