package route

// remains tells which spans of a row hang together through the rows below it.
// labels[y][i] is equal for two spans of row y that do.
func (g *grid) remains() [][]int16 {
	labels := make([][]int16, g.ny)
	var parent []int16
	find := func(a int16) int16 {
		for parent[a] != a {
			a = parent[a]
		}
		return a
	}
	var below []int16 // of the row just done
	for y := g.ny - 1; y >= 0; y-- {
		now := make([]int16, len(g.rows[y]))
		for i, sp := range g.rows[y] {
			now[i] = int16(len(parent))
			parent = append(parent, now[i])
			if y+1 < g.ny {
				for j, b := range g.rows[y+1] {
					if g.joined(y, max(sp.a, b.a), min(sp.b, b.b)) {
						parent[find(below[j])] = now[i]
						below[j] = now[i]
					}
				}
			}
		}
		labels[y] = make([]int16, len(now))
		for i := range now {
			labels[y][i] = find(now[i])
		}
		below = now
	}
	return labels
}

// joined reports whether a link can go from row y to the next between columns
// a and b.
func (g *grid) joined(y, a, b int) bool {
	for x := a; x <= b; x++ {
		if g.up[y][x] >= 1 {
			return true
		}
	}
	return false
}

// hopeless reports that the links of a state can't come together in what is
// left of the zone. Each remaining part needs an even number of links, but
// for the path's ends still to be placed, and the parts must hang together
// through the fragments above.
func (w *sweep) hopeless(ns *state) bool {
	y := int(ns.y)
	labels := w.remain[y]
	if len(labels) < 2 {
		return false
	}
	var of [maxLinks]int8 // part of each link, numbered by its first link
	var odd [maxLinks]bool
	for i := range ns.n {
		of[i] = i
		for j := range i {
			if w.partOf(ns.pos[j], y) == w.partOf(ns.pos[i], y) {
				of[i] = of[j]
				break
			}
		}
		odd[of[i]] = !odd[of[i]]
	}
	ends := 2
	if w.ring {
		ends = 0
	}
	if ns.flags&hasStart != 0 {
		ends--
	}
	if ns.flags&hasEnd != 0 {
		ends--
	}
	for i := range ns.n {
		if of[i] == i && odd[i] {
			ends--
		}
	}
	return ends < 0 || !meeting(ns, of)
}

func (w *sweep) partOf(x int16, y int) int16 { return w.remain[y][w.g.spanAt(int(x), y)] }

// meeting reports whether the parts that hold links are one through the
// fragments.
func meeting(ns *state, of [maxLinks]int8) bool {
	for changed := true; changed; {
		changed = false
		for i := range ns.n {
			m := ns.mate[i]
			if m < 0 || of[m] == of[i] {
				continue
			}
			lo, hi := min(of[m], of[i]), max(of[m], of[i])
			for k := range ns.n {
				if of[k] == hi {
					of[k] = lo
				}
			}
			changed = true
		}
	}
	for i := range ns.n {
		if of[i] != of[0] {
			// two loose parts can meet only as start and end fragment, and those are ends
			return false
		}
	}
	return true
}
