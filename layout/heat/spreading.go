package heat

import "math"

// A Spreading is how the surface of a floor answers heat that is given off unevenly at the
// cable's depth, q(x, y) W/m². Where all layers end at the same upright edge, across which
// no heat flows, the surface's rise is, whatever the edge's shape in plan,
//
//	Base + sum of Gain a, with a - Reach² (d²a/dx² + d²a/dy²) = q and no slope at the edge
//
// one term for each of the slowest ways in which a floor of these layers evens out across
// its thickness (Carslaw & Jaeger, Conduction of Heat in Solids: separation of variables).
type Spreading struct {
	Base  float64 // K, what is below the floor alone makes of it
	Modes []Mode  // longest reach first
}

// A Mode is one such way.
type Mode struct {
	Reach float64 // mm over which it falls to 1/e
	Gain  float64 // K of surface a W/m² given off evenly
}

// Limits of the modes that are kept one by one: how many, their least gain as a share of the
// floor's, and their least reach, mm.
const (
	mostModes  = 20
	leastGain  = 2e-4
	leastReach = 3.2
)

// Spreading returns how heat at the cable's depth reaches the surface, its film held at
// what it is where the runs are even. The many short ways that are left out are one mode
// together, of the same gain and mean square reach: even heat gives exactly the mean of
// Solve. The error is that of Check.
func (s Section) Spreading() (Spreading, error) {
	if err := s.Check(); err != nil {
		return Spreading{}, err
	}
	c := s.defaults().stack()
	even := c.solved(c.source)
	out := Spreading{Base: c.surface(c.solved(c.below))}
	whole := c.surface(even)
	for j := range even {
		even[j] *= c.side[j]
	}
	rest, square := whole, c.surface(c.solved(even)) // K m²/W, and times m²
	root := 0.0
	for n := 0; n < mostModes && n < len(c.diag); n++ {
		root = c.root(n, root)
		m := Mode{Reach: 1000 / math.Sqrt(root), Gain: c.gain(root)}
		if n > 0 && m.Reach < leastReach {
			break
		}
		if n == 0 || math.Abs(m.Gain) > leastGain*whole {
			out.Modes = append(out.Modes, m)
			rest, square = rest-m.Gain, square-m.Gain/root
		}
	}
	short := Mode{Gain: rest}
	if ratio := square / rest; ratio > 0 {
		short.Reach = min(1000*math.Sqrt(ratio), out.Modes[len(out.Modes)-1].Reach)
	}
	out.Modes = append(out.Modes, short)
	return out, nil
}

// A stack is a floor cut into rows from top to bottom: what each loses to its neighbours
// and to outside, W/(m² K), and how well it conducts sideways, W/K.
type stack struct {
	diag, off     []float64 // off[j]: to row j+1
	side          []float64
	source, below []float64 // W/m²: a W/m² of the cable, and what lies below
	out           float64   // the surface's rise a K of the first row
}

func (s Section) stack() stack {
	m, film := s.mesh(), s.Top.At(s.balanced(s.Flux()).surface)
	n := len(m.height)
	c := stack{make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n),
		m.half(0) / (m.half(0) + film)}
	for j := range n {
		c.side[j] = m.k[j] * m.height[j]
		if j < n-1 {
			c.off[j] = m.between(j)
			c.diag[j] += c.off[j]
			c.diag[j+1] += c.off[j]
		}
	}
	c.diag[0] += m.top(film)
	c.diag[n-1] += m.bottom(s.Below)
	c.below[n-1] = m.bottom(s.Below) * s.Below.Rise
	c.source[m.cable-1], c.source[m.cable] = m.shares()
	return c
}

func (c stack) surface(rise []float64) float64 { return c.out * rise[0] }

// solved returns the rise of every row with heat b, by elimination.
func (c stack) solved(b []float64) []float64 { return c.shifted(0, b) }

// shifted solves for the rows' rises with root times their sideways conduction taken off
// what they lose.
func (c stack) shifted(root float64, b []float64) []float64 {
	n := len(b)
	pivot, x := make([]float64, n), make([]float64, n)
	for j := range n {
		pivot[j], x[j] = c.diag[j]-root*c.side[j], b[j]
		if j > 0 {
			pivot[j] -= c.off[j-1] * c.off[j-1] / pivot[j-1]
			x[j] += c.off[j-1] / pivot[j-1] * x[j-1]
		}
		if pivot[j] == 0 {
			pivot[j] = math.SmallestNonzeroFloat32
		}
	}
	for j := n - 1; j >= 0; j-- {
		if j < n-1 {
			x[j] += c.off[j] * x[j+1]
		}
		x[j] /= pivot[j]
	}
	return x
}

// rootsBelow returns how many roots lie below a value: the signs of the pivots (Sturm).
func (c stack) rootsBelow(v float64) int {
	count, pivot := 0, 0.0
	for j := range c.diag {
		p := c.diag[j] - v*c.side[j]
		if j > 0 {
			p -= c.off[j-1] * c.off[j-1] / pivot
		}
		if p == 0 {
			p = -math.SmallestNonzeroFloat32
		}
		if p < 0 {
			count++
		}
		pivot = p
	}
	return count
}

// root returns the n-th value, from 0 on, at which a floor without heat has a rise that
// falls as e^(-x sqrt(root)) to the side, 1/m²; none lies below least. By halving.
func (c stack) root(n int, least float64) float64 {
	high := max(1, 2*least)
	for c.rootsBelow(high) <= n {
		high *= 2
	}
	low := least
	for range 100 {
		mid := (low + high) / 2
		if c.rootsBelow(mid) <= n {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// gain returns what the mode of a root adds to the surface where heat is even. Its shape
// across the floor comes by inverse iteration.
func (c stack) gain(root float64) float64 {
	v := make([]float64, len(c.diag))
	for j := range v {
		v[j] = 1 + 0.1*float64(j%7) // not square to any shape
	}
	for range 4 {
		for j := range v {
			v[j] *= c.side[j]
		}
		v = c.shifted(root*(1+1e-9), v)
		size := 0.0
		for _, x := range v {
			size = max(size, math.Abs(x))
		}
		for j := range v {
			v[j] /= size
		}
	}
	given, weight := 0.0, 0.0
	for j, x := range v {
		given += x * c.source[j]
		weight += c.side[j] * x * x
	}
	return c.surface(v) * given / (weight * root)
}
