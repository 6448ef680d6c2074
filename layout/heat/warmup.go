package heat

import (
	"fmt"
	"math"
)

// A Curve is the mean rise of the surface over the room from the moment the
// cable is switched on, with the floor settled before.
//
// It is computed in one dimension, with the power spread over the cable's
// depth. For the mean of the surface that is exact, not a simplification: the
// layers and the film are alike all along, so in the average over a spacing
// the sideways flow cancels.
type Curve struct {
	Start  float64 // mean rise before, K: 0 unless it is colder or warmer below
	Steady float64 // mean rise it tends to, K
	Points []Moment
}

// A Moment is the mean rise of the surface in K at a time in seconds.
type Moment struct{ Seconds, Rise float64 }

// maxHours is the longest warm-up computed: ten days.
const maxHours = 240

// endSlack s are left over by adding up steps.
const endSlack = 1e-6

// WarmUp returns the curve of s over the given hours. The error says which
// figure of the section cannot be computed with.
func (s Section) WarmUp(hours float64) (Curve, error) {
	if err := s.checkWarmUp(); err != nil {
		return Curve{}, err
	}
	b := bound{"the time computed", hours, 1e-3, maxHours, "h"}
	if err := b.check(); err != nil {
		return Curve{}, err
	}
	c := s.defaults().newColumn()
	curve := Curve{Start: c.surface, Steady: s.balanced(s.Flux()).surface}
	curve.Points = []Moment{{0, c.surface}}
	for t, end := 0.0, hours*3600; t < end; {
		step := math.Min(timeStep(t), end-t)
		c.advance(step)
		t += step
		if end-t < endSlack {
			t = end
		}
		curve.Points = append(curve.Points, Moment{t, c.surface})
	}
	return curve, nil
}

// timeStep returns the step in seconds to take after t seconds: fine while the
// curve is steep, coarser as it flattens. At a fortieth of the time passed,
// halving it changes no time by more than a few seconds.
func timeStep(t float64) float64 { return math.Min(longestStep, math.Max(1, t/stepsPassed)) }

// The longest step in seconds, and how many of the next size the time passed has.
const (
	longestStep = 300
	stepsPassed = 40
)

// TimeTo returns the seconds until the mean of the surface has risen by that
// many K from the start; ok is false when the curve does not get there.
func (c Curve) TimeTo(rise float64) (seconds float64, ok bool) {
	goal := c.Start + rise
	for i, p := range c.Points {
		switch {
		case p.Rise < goal:
			continue
		case i == 0:
			return 0, true
		}
		a := c.Points[i-1]
		return a.Seconds + (p.Seconds-a.Seconds)*(goal-a.Rise)/(p.Rise-a.Rise), true
	}
	return 0, false
}

// At returns the rise at a time in seconds, along a straight line between the
// points; before the first and after the last it stays as there.
func (c Curve) At(seconds float64) float64 {
	for i, p := range c.Points {
		switch {
		case p.Seconds < seconds:
			continue
		case i == 0:
			return p.Rise
		}
		a := c.Points[i-1]
		return a.Rise + (p.Rise-a.Rise)*(seconds-a.Seconds)/(p.Seconds-a.Seconds)
	}
	return c.Points[len(c.Points)-1].Rise
}

// A column is the floor averaged along its width: one cell a row.
type column struct {
	Section
	mesh
	rise     []float64 // K, per row
	store    []float64 // J/(m² K), per row
	south    []float64 // W/(m² K), from row j to j+1
	power    []float64 // W/m², per row
	surface  float64   // mean rise of the surface, K
	lower    float64   // W/(m² K), from the last row to what lies below
	rate     []float64 // room for W/m² into each row
	tri, rhs []float64 // room for the tridiagonal solution
}

// newColumn returns the floor of s, settled with the cable off.
func (s Section) newColumn() *column {
	m := s.mesh()
	n := len(m.height)
	c := &column{Section: s, mesh: m, lower: m.bottom(s.Below)}
	for _, v := range []*[]float64{&c.rise, &c.store, &c.south, &c.power, &c.rate, &c.tri, &c.rhs} {
		*v = make([]float64, n)
	}
	off := s.balanced(0)
	c.surface = off.surface
	depth := 0.0 // resistance from the surface to the middle of the row
	for j, h := range m.height {
		depth += h / 2 / m.k[j]
		c.rise[j] = off.surface + off.up*depth
		depth += h / 2 / m.k[j]
		c.store[j] = m.heat[j] * h
		if j < n-1 {
			c.south[j] = m.between(j)
		}
	}
	above, below := m.shares()
	c.power[m.cable-1] += above * s.Flux()
	c.power[m.cable] += below * s.Flux()
	return c
}

// advance moves the column on by dt seconds by TR-BDF2 (Bank et al. 1985): a
// trapezium over the part gamma of the step, then backward differences over
// all of it. It is of second order, and damps what the switching-on leaves.
func (c *column) advance(dt float64) {
	const gamma = 2 - math.Sqrt2
	const implicit = gamma / 2 // the same in both halves for this gamma
	const w = 1 / (gamma * (2 - gamma))
	before := append([]float64(nil), c.rise...)
	c.flows()
	for j := range c.rhs {
		c.rhs[j] = c.store[j]*before[j] + implicit*dt*c.rate[j]
	}
	c.settle(implicit * dt)
	for j := range c.rhs {
		c.rhs[j] = c.store[j] * (w*c.rise[j] - (w-1)*before[j])
	}
	c.settle(implicit * dt)
}

// flows fills in rate, the heat now flowing into each row.
func (c *column) flows() {
	last := len(c.rise) - 1
	copy(c.rate, c.power)
	c.rate[0] -= c.top(c.Top.At(c.surface)) * c.rise[0]
	c.rate[last] -= c.lower * (c.rise[last] - c.Below.Rise)
	for j := range last {
		q := c.south[j] * (c.rise[j] - c.rise[j+1])
		c.rate[j] -= q
		c.rate[j+1] += q
	}
}

// closings halve a step until its moment is known.
const closings = 50

// settle solves store*rise - step*flows(rise) = rhs for rise. Only the film
// is not linear; its coefficient is put in again until the surface stays.
func (c *column) settle(step float64) {
	const still = 1e-9 // K
	for range closings {
		film := c.Top.At(c.surface)
		c.linear(step, c.top(film))
		g := c.half(0)
		was := c.surface
		c.surface = c.rise[0] * g / (g + film)
		if c.Top.Coefficient != 0 || math.Abs(c.surface-was) < still {
			return
		}
	}
}

// linear is one tridiagonal solution (Thomas), with the conductance from row 0
// to the room given. rhs is left as it is.
func (c *column) linear(step, upper float64) {
	n := len(c.rise)
	for j := range n {
		b := c.rhs[j] + step*c.power[j]
		out := c.south[j]
		if j == 0 {
			out += upper
		} else {
			out += c.south[j-1]
		}
		if j == n-1 {
			out += c.lower
			b += step * c.lower * c.Below.Rise
		}
		d := c.store[j] + step*out
		if j > 0 {
			off := step * c.south[j-1]
			d -= off * c.tri[j-1]
			b += off * c.rise[j-1]
		}
		c.tri[j] = step * c.south[j] / d
		c.rise[j] = b / d
	}
	for j := n - 2; j >= 0; j-- {
		c.rise[j] += c.tri[j] * c.rise[j+1]
	}
}

// Time is said in steps of ten minutes, from so many hours on in whole ones.
const (
	tenMinutes = 10
	inHours    = 6
)

// FormatTime writes seconds as a reader says them: "35 min", "1 h 50 min",
// "11 h". Ten minutes is the step above an hour, for no floor is known better.
func FormatTime(seconds float64) string {
	minutes := int(math.Round(seconds / 60))
	switch {
	case minutes < 60:
		return fmt.Sprintf("%d min", minutes)
	case minutes < inHours*60:
		minutes = (minutes + tenMinutes/2) / tenMinutes * tenMinutes
		if minutes%60 == 0 {
			return fmt.Sprintf("%d h", minutes/60)
		}
		return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
	}
	return fmt.Sprintf("%d h", (minutes+30)/60)
}
