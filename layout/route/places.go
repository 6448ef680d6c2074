package route

import "slices"

// placesFor returns the columns where runs of row y may end when the next
// row is gap pegs on (0: no next row), in order.
func (w *sweep) placesFor(y, gap int) []place {
	key := y*(w.rule.y.widest+1) + gap
	if p := w.t.places[key]; p != nil {
		return p
	}
	var out []place
	strips := w.g.strip(y, gap)
	w.t.strips[key] = strips
	for i, sp := range w.g.rows[y] {
		xs := w.columns(sp, strips, gap)
		for k, x := range xs {
			p := place{x: int16(x), link: -1, span: int8(i), first: k == 0, last: k == len(xs)-1}
			p.down = gap > 0 && spanEnd(strips, x) >= 0
			p.rim = x == sp.a || x == sp.b
			out = append(out, p)
		}
	}
	w.t.places[key] = out
	return out
}

// columns returns the span's ends, the ends of the strips below it, places a
// lane further in for a return lane, and the columns where the zone changes
// shape elsewhere.
func (w *sweep) columns(sp span, strips []span, gap int) []int {
	xs := []int{sp.a, sp.b}
	for _, st := range strips {
		a, b := max(st.a, sp.a), min(st.b, sp.b)
		if a > b {
			continue
		}
		xs = append(xs, a, b)
		for d := w.lanes; d <= w.lanes*4 && gap > 0; d += w.lanes {
			if d > w.lanes && b-a > 6*w.lanes {
				break // only a narrow neck is worth lanes along it
			}
			if a+d <= b-w.rule.x.closest {
				xs = append(xs, a+d)
			}
			if b-d >= a+w.rule.x.closest {
				xs = append(xs, b-d)
			}
		}
	}
	if gap > 0 {
		for _, e := range w.t.events {
			if e >= sp.a+w.lanes && e <= sp.b-w.lanes {
				xs = append(xs, e)
			}
		}
	}
	slices.Sort(xs)
	return slices.Compact(xs)
}

// events returns the columns where the zone changes shape: the ends of a
// strip that is narrower than a row beside it, and a lane to the open side; those a step apart are one.
func (g *grid) events(lane, step int) []int {
	count := make([]int, g.nx)
	for y := range g.ny - 1 {
		for _, st := range g.strip(y, 1) {
			for _, row := range [][]span{g.rows[y], g.rows[y+1]} {
				for _, sp := range row {
					if st.a < sp.a || st.b > sp.b {
						continue
					}
					if st.a-sp.a > lane {
						count[st.a]++
						count[st.a-lane]++
					}
					if sp.b-st.b > lane {
						count[st.b]++
						count[st.b+lane]++
					}
				}
			}
		}
	}
	var out []int
	for x, n := range count {
		if n > 0 && (len(out) == 0 || x-out[len(out)-1] >= 2*step) {
			out = append(out, x)
		}
	}
	return out[:min(len(out), 12)]
}
