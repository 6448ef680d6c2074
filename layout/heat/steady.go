package heat

import "fmt"

// A Steady is a floor that has been on for so long that nothing changes any
// more, without any thermostat. Rises in K over the room above.
type Steady struct {
	Mean      float64 // of the surface
	OverCable float64 // surface straight above a run
	Midway    float64 // surface midway between runs
	Cable     float64 // at the cable's own surface, mean round it
	Hottest   float64 // at the hottest point of the cable's surface
	Underside float64 // mean of the floor's lower face
	Up, Down  float64 // W/m² given to the room and lost below
	UpShare   float64 // share of the cable's power that goes up
	Film      float64 // coefficient at the surface, W/(m² K)
	Imbalance float64 // (Up + Down - power) / power of the solved field; rounding
	Profile   []Sample
}

// Swing returns how much warmer the surface is over a cable than midway, in K.
func (s Steady) Swing() float64 { return s.OverCable - s.Midway }

// A Sample is the surface's rise in K at X mm.
type Sample struct{ X, Rise float64 }

// Solve returns the steady state of s by finite volumes over half a spacing,
// between the vertical through a run and the one midway, across which no heat
// flows. The error says which figure of the section cannot be computed with.
func (s Section) Solve() (Steady, error) {
	if err := s.Check(); err != nil {
		return Steady{}, err
	}
	s = s.defaults()
	mean := s.balanced(s.Flux())
	f := s.newField(s.Top.At(mean.surface))
	if err := f.solve(); err != nil {
		return Steady{}, fmt.Errorf("floor section: %w", err)
	}
	st := f.steady()
	st.Cable, st.Hottest = s.atCable(f.film, mean)
	return st, nil
}

// A field is the temperature rise in every cell of half a spacing.
type field struct {
	Section
	mesh
	nx   int
	dx   float64 // m
	film float64
	rise []float64
}

func (s Section) newField(film float64) *field {
	nx := s.columns()
	return &field{Section: s, mesh: s.mesh(), nx: nx, dx: s.Spacing / 2000 / float64(nx), film: film}
}

// solve fills in the rises. Only half of each run's power belongs to the half
// spacing that is computed.
func (f *field) solve() error {
	nz := len(f.height)
	east, south, outside := make([]float64, nz), make([]float64, nz), make([]float64, nz)
	for j := range nz {
		east[j] = f.k[j] * f.height[j] / f.dx
		if j < nz-1 {
			south[j] = f.between(j) * f.dx
		}
	}
	bottom := f.bottom(f.Below) * f.dx
	outside[0] += f.top(f.film) * f.dx
	outside[nz-1] += bottom
	b := make([]float64, f.nx*nz)
	for i := range f.nx {
		b[(nz-1)*f.nx+i] = bottom * f.Below.Rise
	}
	above, below := f.shares()
	b[(f.cable-1)*f.nx] += above * f.WattsPerMetre / 2
	b[f.cable*f.nx] += below * f.WattsPerMetre / 2
	var err error
	f.rise, err = newMatrix(f.nx, east, south, outside).solve(b)
	return err
}

func (f *field) steady() Steady {
	last := len(f.height) - 1
	surface, under := make([]float64, f.nx), make([]float64, f.nx)
	gTop, gBottom := f.half(0), f.half(last)
	leaving := f.bottom(f.Below)
	for i := range f.nx {
		t, b := f.rise[i], f.rise[last*f.nx+i]
		surface[i] = t * gTop / (gTop + f.film)
		under[i] = b - leaving*(b-f.Below.Rise)/gBottom
	}
	st := Steady{
		Mean:      mean(surface),
		OverCable: onSymmetry(surface[0], surface[1]),
		Midway:    onSymmetry(surface[f.nx-1], surface[f.nx-2]),
		Underside: mean(under),
		Film:      f.film,
		Profile:   f.profile(surface),
	}
	st.Up = f.film * st.Mean
	st.Down = leaving * (mean(f.rise[last*f.nx:]) - f.Below.Rise)
	q := f.Flux()
	st.UpShare = st.Up / q
	st.Imbalance = (st.Up + st.Down - q) / q
	return st
}

// onSymmetry returns the value on a line of symmetry from those of the nearest
// two columns, half a column and one and a half away: a + b x² through both.
func onSymmetry(near, next float64) float64 { return near + (near-next)/8 }

// profile mirrors the surface of half a spacing to two whole ones: X runs from
// 0 to 2 Spacing, with runs under X = Spacing/2 and 3/2 Spacing.
func (f *field) profile(surface []float64) []Sample {
	out := make([]Sample, 0, 4*f.nx)
	step := f.dx * 1000
	for c := range 4 * f.nx {
		i := c % (2 * f.nx)
		if i < f.nx {
			i = f.nx - 1 - i
		} else {
			i -= f.nx
		}
		out = append(out, Sample{(float64(c) + 0.5) * step, surface[i]})
	}
	return out
}

func mean(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}
