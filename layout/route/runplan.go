package route

import "slices"

// A node is a place in a grid, in pegs.
type node struct{ x, y int }

// A runPlan is a path over whole pegs: its corner points, start of heat first.
type runPlan struct {
	g     *grid
	nodes []node
	cost  float64
}

// rowRuns is one row of a finished sweep.
type rowRuns struct {
	y     int16
	plugs []plug
}

// trace rebuilds the path from the sweep's states.
func (w *sweep) trace(id int32) *runPlan {
	var rows []rowRuns
	for k := id; w.arena[k].parent >= 0; k = w.arena[k].parent {
		rows = append(rows, rowOf(w.arena[w.arena[k].parent], w.arena[k]))
	}
	slices.Reverse(rows)
	return &runPlan{g: w.g, nodes: walkRows(rows), cost: float64(w.arena[id].cost)}
}

// rowOf lists the plugs of the row between two states, from the left.
func rowOf(above, below state) rowRuns {
	r := rowRuns{y: above.y}
	for i := range above.n {
		r.plugs = append(r.plugs, plug{above.pos[i], plugUp, i})
	}
	for i := range below.n {
		r.plugs = append(r.plugs, plug{below.pos[i], plugDown, i})
	}
	if below.sx >= 0 {
		r.plugs = append(r.plugs, plug{below.sx, plugStart, 0})
	}
	if below.ex >= 0 {
		r.plugs = append(r.plugs, plug{below.ex, plugEnd, 0})
	}
	slices.SortStableFunc(r.plugs, func(a, b plug) int { return int(a.x) - int(b.x) })
	return r
}

// walkRows follows the path from its start to its end, a closed line once round from its
// first corner.
func walkRows(rows []rowRuns) []node {
	i, j := findStart(rows)
	if i < 0 {
		i, j = 0, 0
	}
	from, at := i, j
	nodes := []node{{int(rows[i].plugs[j].x), int(rows[i].y)}}
	for {
		j ^= 1
		p := rows[i].plugs[j]
		nodes = appendNode(nodes, node{int(p.x), int(rows[i].y)})
		step, want := 1, plugUp
		switch p.kind {
		case plugEnd:
			return nodes
		case plugUp:
			step, want = -1, plugDown
		}
		i += step
		j = slices.IndexFunc(rows[i].plugs, func(q plug) bool { return q.kind == want && q.link == p.link })
		if i == from && j == at {
			return nodes
		}
		nodes = appendNode(nodes, node{int(p.x), int(rows[i].y)})
	}
}

func findStart(rows []rowRuns) (row, plug int) {
	for i, r := range rows {
		for j, p := range r.plugs {
			if p.kind == plugStart {
				return i, j
			}
		}
	}
	return -1, -1
}

// appendNode adds a corner point, leaving out repeats and points on a
// straight line.
func appendNode(nodes []node, n node) []node {
	k := len(nodes)
	if nodes[k-1] == n {
		return nodes
	}
	if k >= 2 {
		a, b := nodes[k-2], nodes[k-1]
		if a.x == b.x && b.x == n.x || a.y == b.y && b.y == n.y {
			nodes[k-1] = n
			return nodes
		}
	}
	return append(nodes, n)
}
