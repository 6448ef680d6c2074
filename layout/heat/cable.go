package heat

import "math"

// atCable returns the rise at the cable's surface: its mean, and its hottest
// point.
//
// The field has a logarithm in it that no grid follows near the cable. It is
// known, though: a row of line sources in a body without ends gives
//
//	T = -q/(4 pi k) ln 2(cosh 2pi(z-d)/s - cos 2pi x/s)
//
// (Carslaw & Jaeger, Conduction of Heat in Solids, images). What is left when
// that is taken off is smooth, so it is read a few cells beside the cable,
// brought to the cable along a parabola, and the logarithm put back at the
// cable's radius. k is the mean of the conductivities above and below. The
// slope of the smooth part up or down gives the hottest point. The cable
// counts as having the floor's conductivity all round and no layer ending
// within its radius.
func (f *field) atCable() (mean, hottest float64) {
	const near, far = 3, 5 // columns: clear of the grid's own error, still close
	k := (f.k[f.cable-1] + f.k[f.cable]) / 2
	a, b := f.smooth(near, k), f.smooth(far, k)
	u, v := square(near+0.5), square(far+0.5)
	smooth := (a*v - b*u) / (v - u)
	radius := f.Diameter / 2 / 1000
	strength := f.WattsPerMetre / (2 * math.Pi * k)
	mean = smooth - strength*math.Log(2*math.Pi*radius/(f.Spacing/1000))
	return mean, mean + radius*math.Abs(f.slope(near, k))
}

// smooth is the field less the logarithm on the cable's depth in column i.
func (f *field) smooth(i int, k float64) float64 {
	a, b := f.half(f.cable-1), f.half(f.cable)
	t := (a*f.rise[(f.cable-1)*f.nx+i] + b*f.rise[f.cable*f.nx+i]) / (a + b)
	return t - f.row(i, 0, k)
}

// slope is the change of the smooth part with depth beside the cable, K/m.
func (f *field) slope(i int, k float64) float64 {
	up, down := f.height[f.cable-1]/2, f.height[f.cable]/2
	a := f.rise[(f.cable-1)*f.nx+i] - f.row(i, up, k)
	b := f.rise[f.cable*f.nx+i] - f.row(i, down, k)
	return (b - a) / (up + down)
}

// row is the field of the row of line sources in column i, dz m above or below them.
func (f *field) row(i int, dz, k float64) float64 {
	w := 2 * math.Pi / (f.Spacing / 1000)
	x := (float64(i) + 0.5) * f.dx
	return -f.WattsPerMetre / (4 * math.Pi * k) * math.Log(2*(math.Cosh(w*dz)-math.Cos(w*x)))
}

func square(x float64) float64 { return x * x }
