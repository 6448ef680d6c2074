package route

// A pathEnd knows what it costs to begin the path, or to end it, where a run
// may: at the ends of a row's spans.
type pathEnd struct {
	costs []float32 // of pegs, negative where not yet known
	least []float32 // the least from row y on
	cost  func(g *grid, x, y int) float32
}

func newPathEnd(g *grid, cost func(g *grid, x, y int) float32) pathEnd {
	e := pathEnd{make([]float32, g.nx*g.ny), make([]float32, g.ny+1), cost}
	for i := range e.costs {
		e.costs[i] = -1
	}
	e.least[g.ny] = inf32
	for y := g.ny - 1; y >= 0; y-- {
		e.least[y] = e.least[y+1]
		for _, s := range g.rows[y] {
			e.least[y] = min(e.least[y], e.at(g, s.a, y), e.at(g, s.b, y))
		}
	}
	return e
}

// at is the cost at peg (x, y), worked out once.
func (e *pathEnd) at(g *grid, x, y int) float32 {
	c := &e.costs[y*g.nx+x]
	if *c < 0 {
		*c = e.cost(g, x, y)
	}
	return *c
}
