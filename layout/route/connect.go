package route

// mostPlugs is more than a row can have: links that arrive, links that leave, and the path's ends.
const mostPlugs = 32

// connect works out which leaving links are joined to each other once the
// row's runs are laid: plugs 0 and 1 are the ends of a run, 2 and 3, and so
// on. It reports false when a ring would close or a part would be cut off.
func (w *sweep) connect(ns *state) bool {
	var arrives [maxLinks]int8 // plugs of the arriving links
	var leaves [mostPlugs]int8 // leaving links of the plugs
	downs := int8(0)
	for i := range w.plugs {
		switch p := &w.plugs[i]; p.kind {
		case plugUp:
			arrives[p.link] = int8(i)
		case plugDown:
			leaves[i&(mostPlugs-1)] = downs
			ns.pos[downs] = p.x
			downs++
		}
	}
	if w.ring && w.gap == 0 {
		ns.flags |= hasAll
		return w.oneRing(&arrives)
	}
	seen := uint32(0)
	whole := false
	for i := range w.plugs {
		p := &w.plugs[i]
		from := int8(0)
		switch p.kind {
		case plugDown:
			from = leaves[i&(mostPlugs-1)]
		case plugStart:
			from = mateStart
		case plugEnd:
			from = mateEnd
		case plugUp:
			if from = w.st.mate[p.link]; from >= 0 {
				continue // inner joint, passed through below
			}
		}
		to := w.follow(i, &arrives, &leaves, &seen)
		switch {
		case from >= 0:
			ns.mate[from] = to
		case to < 0:
			whole = true
		}
	}
	if seen != 1<<len(w.plugs)-1 {
		return false
	}
	if whole {
		ns.flags |= hasAll
		return ns.n == 0
	}
	return true
}

// oneRing reports whether the row's runs, all between arriving links, close one ring.
func (w *sweep) oneRing(arrives *[maxLinks]int8) bool {
	n, i := 0, 0
	for n == 0 || i != 0 {
		i = int(arrives[w.st.mate[w.plugs[i^1].link]])
		n += 2
	}
	return n == len(w.plugs)
}

// follow goes along the path from plug i until it leaves the rows above and
// returns the leaving link, or which end of the path it met.
func (w *sweep) follow(i int, arrives *[maxLinks]int8, leaves *[mostPlugs]int8, seen *uint32) int8 {
	for {
		j := i ^ 1
		*seen |= 1<<i | 1<<j
		switch p := &w.plugs[j]; p.kind {
		case plugDown:
			return leaves[j&(mostPlugs-1)]
		case plugStart:
			return mateStart
		case plugEnd:
			return mateEnd
		default:
			m := w.st.mate[p.link]
			if m < 0 {
				return m
			}
			i = int(arrives[m])
		}
	}
}
