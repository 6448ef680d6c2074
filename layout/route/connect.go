package route

// connect works out which leaving links are joined to each other once the
// row's runs are laid: plugs 0 and 1 are the ends of a run, 2 and 3, and so
// on. It reports false when a ring would close or a part would be cut off.
func (w *sweep) connect(ns *state) bool {
	var arrives [maxLinks]int8
	downs := int8(0)
	for i, p := range w.plugs {
		if p.kind == plugUp {
			arrives[p.link] = int8(i)
		}
	}
	if w.ring && w.gap == 0 {
		ns.flags |= hasAll
		return w.oneRing(&arrives)
	}
	seen := uint32(0)
	whole := false
	for i, p := range w.plugs {
		if p.kind == plugUp && w.st.mate[p.link] >= 0 {
			continue // inner joint, passed through below
		}
		from := int8(0)
		switch p.kind {
		case plugDown:
			from = downs
			downs++
		case plugStart:
			from = mateStart
		case plugEnd:
			from = mateEnd
		case plugUp:
			from = w.st.mate[p.link]
		}
		to := w.follow(i, &arrives, &seen)
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
func (w *sweep) follow(i int, arrives *[maxLinks]int8, seen *uint32) int8 {
	for {
		*seen |= 1 << i
		j := i ^ 1
		*seen |= 1 << j
		switch p := w.plugs[j]; p.kind {
		case plugDown:
			return w.downIndex(j)
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

func (w *sweep) downIndex(j int) int8 {
	n := int8(0)
	for _, p := range w.plugs[:j] {
		if p.kind == plugDown {
			n++
		}
	}
	return n
}
