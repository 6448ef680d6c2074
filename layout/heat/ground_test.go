package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// U-values of bare slabs on clay, 1.5 W/(m K), by the perimeter in m for each
// m² of floor, as building regulations print them from the standard (from
// memory): no table knows them better than its last digit.
func TestSlabOnClay(t *testing.T) {
	for _, c := range []struct{ ratio, u float64 }{
		{0.05, 0.13}, {0.10, 0.22}, {0.15, 0.30}, {0.20, 0.37}, {0.25, 0.44}, {0.30, 0.49}, {0.35, 0.55}, {0.40, 0.60},
		{0.45, 0.65}, {0.50, 0.70},
		{0.55, 0.74}, {0.60, 0.78}, {0.65, 0.82}, {0.70, 0.86}, {0.75, 0.89}, {0.80, 0.93}, {0.85, 0.96}, {0.90, 0.99},
		{0.95, 1.02}, {1.00, 1.05},
	} {
		s := Soil{1.5, CharacteristicDimension(100, 100*c.ratio)}
		near(t, "U", s.Transmittance(0), c.u, 0.0051)
	}
}

// Solid floors with four edges on soil of 1.4 W/(m K), IHVE Guide A3, as a
// national handbook on passive solar design prints them. It is an older method
// of its own: the two stay within an eighth where the floor is a room's or more.
func TestSolidFloorsOfAHandbook(t *testing.T) {
	for _, c := range []struct{ long, broad, u float64 }{
		{150, 60, 0.11}, {60, 60, 0.15}, {60, 30, 0.21}, {60, 15, 0.32}, {30, 30, 0.26}, {30, 15, 0.36},
		{30, 7.5, 0.55}, {15, 15, 0.45}, {15, 7.5, 0.62}, {7.5, 7.5, 0.76},
	} {
		s := Soil{1.4, CharacteristicDimension(c.long*c.broad, 2*(c.long+c.broad))}
		near(t, "U", s.Transmittance(0)/c.u, 1, 0.125)
	}
}

// A long strip of building on soil, cut across, by finite differences: half
// the strip and its wall, then open ground, out and down to 25 times its half
// width. ISO 13370 says its formula fits such computations closely, not exactly:
// for B' = the width it lies 3 to 5 % under them, so that the floor comes out a
// little warmer, which is the side that limits are held from.
func TestSoilAgainstFiniteDifferences(t *testing.T) {
	for _, c := range []struct{ k, b, floor float64 }{{2, 4, 0}, {2, 4, 0.1}, {1.5, 4, 0.1}, {2, 8, 0.1},
		{3.5, 6, 0.3}} {
		got := Soil{c.k, c.b}.Transmittance(c.floor)
		near(t, "U over finite differences", got/stripOnSoil(c.k, c.b, c.floor), 0.96, 0.01)
	}
}

// stripOnSoil returns the U-value of a strip of floor b m broad, from the room
// to the outside air, by finite volumes and overrelaxation.
func stripOnSoil(k, b, floor float64) float64 {
	widths := graded(b/2, b/2+0.3, 25*b/2)
	depths := graded(0, 0, 25*b/2)
	nx, nz := len(widths), len(depths)
	inside, outside := 1/(0.17+floor), 1/0.04
	film := make([]float64, nx) // W/(m² K) from the ground's surface
	x := 0.0
	for i, w := range widths {
		switch at := x + w/2; {
		case at < b/2:
			film[i] = inside
		case at > b/2+0.3:
			film[i] = outside
		}
		x += w
	}
	rise := make([]float64, nx*nz) // over the outside air, the room being at 1
	for range 4000 {
		most := 0.0
		for j := range nz {
			for i := range nx {
				sum, g := 0.0, 0.0
				add := func(conductance, neighbour float64) { sum, g = sum+conductance*neighbour, g+conductance }
				if i > 0 {
					add(k*depths[j]/((widths[i]+widths[i-1])/2), rise[j*nx+i-1])
				}
				if i < nx-1 {
					add(k*depths[j]/((widths[i]+widths[i+1])/2), rise[j*nx+i+1])
				}
				if j < nz-1 {
					add(k*widths[i]/((depths[j]+depths[j+1])/2), rise[(j+1)*nx+i])
				}
				switch {
				case j > 0:
					add(k*widths[i]/((depths[j]+depths[j-1])/2), rise[(j-1)*nx+i])
				case film[i] > 0:
					air := 0.0
					if film[i] == inside {
						air = 1
					}
					add(widths[i]/(1/film[i]+depths[0]/2/k), air)
				}
				change := 1.9 * (sum/g - rise[j*nx+i])
				rise[j*nx+i] += change
				most = math.Max(most, math.Abs(change))
			}
		}
		if most < 1e-9 {
			break
		}
	}
	loss := 0.0
	for i, w := range widths {
		if film[i] == inside {
			loss += w / (1/inside + depths[0]/2/k) * (1 - rise[i])
		}
	}
	return loss / (b / 2)
}

// graded cuts a length into cells: 25 mm on either side of a wall between two
// places and at 0, growing by a fifth away from it.
func graded(from, to, end float64) []float64 {
	grow := func(length float64) []float64 {
		var out []float64
		for h, sum := 0.025, 0.0; sum < length-1e-9; h *= 1.2 {
			h := math.Min(h, length-sum)
			out, sum = append(out, h), sum+h
		}
		return out
	}
	var out []float64
	for _, h := range grow(from) {
		out = append([]float64{h}, out...)
	}
	for range int(math.Round((to - from) / 0.025)) {
		out = append(out, 0.025)
	}
	return append(out, grow(end-to)...)
}

// The bare 150 mm slab under a bath's cable by two resistances and the
// characteristic of EN 1264, worked apart from the code: 10.94 W/m at 69.5 mm,
// 10 °C outside, a room at 20 °C.
func TestFloorOnSettledSoil(t *testing.T) {
	s := Section{Layers: []Layer{layer("tile", 9.525, 1.3), layer("mortar", 3.175, 1), layer("membrane", 5.588, 0.844),
		layer("slab", 150, 2)},
		Depth: 15.494, Spacing: 76.2, WattsPerMetre: 10}
	hot := s.OnSoil(Soil{2, 4}, -10)
	up, down := 0.009525/1.3+0.003175+0.002794/0.844, 0.002794/0.844+0.150/2
	floor := up + down
	d := 0.3 + 2*(0.17+floor+0.04)
	soil := (math.Pi*4+d)/(4*math.Log(math.Pi*4/d+1)) - 0.17 - floor
	near(t, "soil's resistance", 1/hot.Below.Coefficient, soil, 1e-9)
	q, low, high := 10/0.0762, 0.0, 30.0
	for range 60 {
		mid := (low + high) / 2
		flux := 8.92 * math.Pow(mid, 1.1)
		if flux+(mid+flux*up+10)/(down+soil) < q {
			low = mid
		} else {
			high = mid
		}
	}
	st, err := hot.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", st.Mean, low, 1e-4)
	if e := newSeries(linearized(hot, st.Film)); math.Abs(st.OverCable-e.at(e.top, 0)+10*coldness(hot,
		st.Film)) > 0.02 {
		t.Errorf("over a cable %.3f, by the series %.3f", st.OverCable, e.at(e.top, 0)-10*coldness(hot, st.Film))
	}
}

// linearized is s with the film that it has settled at, for the series.
func linearized(s Section, film float64) Section {
	s.Top.Coefficient = film
	return s
}

// coldness is how much of the outside's coldness reaches the surface.
func coldness(s Section, film float64) float64 {
	r := s.resistanceBetween(0, s.Thickness()) + 1/s.Below.Coefficient
	return 1 / film / (1/film + r)
}

// More soil between floor and air never cools the floor; a wider building has
// more.
func TestSoilWarmsTheSlab(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, b, r := rapid.Float64Range(0.3, 4).Draw(t, "k"), rapid.Float64Range(0.5, 60).Draw(t,
			"b"), rapid.Float64Range(0, 3).Draw(t, "floor")
		under := Soil{k, b}.Resistance(r)
		wider, conducting := Soil{k, b * 1.1}, Soil{k * 1.1, b}
		if under <= 0 || wider.Resistance(r) < under || conducting.Resistance(r) > under {
			t.Fatalf("%g m²K/W", under)
		}
	})
}

func TestRoomWithoutOutsideWalls(t *testing.T) {
	near(t, "no edge", CharacteristicDimension(12, 0), mostDimension, 0)
	near(t, "6 of 14 m", CharacteristicDimension(12, 6), 4, 1e-12)
}
