package warmth

import (
	"fmt"
	"math"
	"testing"

	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/internal/hand"
	"oxturn/layout/internal/published"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

var near = published.Near

// thin and slab spread heat little and far. The film is a coefficient, so that what goes up
// can be added up.
var (
	thin = heat.Section{
		Layers: []heat.Layer{{Name: "tile", Thickness: 9, Conductivity: 1.3},
			{Name: "mortar", Thickness: 9, Conductivity: 1}, {Name: "wood", Thickness: 19, Conductivity: 0.13}},
		Depth: 15, WattsPerMetre: 12, Top: heat.Film{Coefficient: 10.8}, Below: heat.Below{Kind: heat.FilmBelow,
			Coefficient: 5.88},
	}
	slab = heat.Section{
		Layers: []heat.Layer{{Name: "tile", Thickness: 10, Conductivity: 1.3},
			{Name: "mortar", Thickness: 10, Conductivity: 1}, {Name: "concrete", Thickness: 150, Conductivity: 2}},
		Depth: 17, WattsPerMetre: 12, Top: heat.Film{Coefficient: 10.8},
	}
)

// open is a room of nothing but floor.
func open(ring plane.Ring) *layout.Room {
	floor := plane.FromRing(ring)
	return &layout.Room{Job: hand.Room(ring), Floor: floor, Tiled: floor, Heated: floor}
}

// Rows from wall to wall, the outer ones half a spacing off: by reflection at the walls an
// endless even floor. The section's own solution (by finite volumes in its depth, held to
// the exact series) has the same mean, crest and place midway.
func TestEvenRowsAreTheSection(t *testing.T) {
	for name, s := range map[string]heat.Section{"thin": thin, "slab": slab} {
		for _, spacing := range []float64{60, 91.7, 150} {
			s.Spacing = spacing
			want, err := s.Solve()
			if err != nil {
				t.Fatal(err)
			}
			wide := 12 * spacing
			g := groundOf(open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(wide, 700))), spacing)
			var rows []line
			for k := range 12 {
				x := (float64(k) + 0.5) * spacing
				rows = append(rows, line{hand.Points(x, 0, x, 700), s.WattsPerMetre / 1000})
			}
			g.deposit(rows)
			sp, err := s.Spreading()
			if err != nil {
				t.Fatal(err)
			}
			surface := g.surface(sp)
			what := fmt.Sprintf("%s at %g mm: ", name, spacing)
			mean, spread := g.over(plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(wide, 700))), surface)
			near(t, what+"mean", mean, want.Mean, 0.01*want.Mean)
			// the profile's own deviation
			square := 0.0
			for _, p := range want.Profile {
				square += (p.Rise - want.Mean) * (p.Rise - want.Mean)
			}
			even := math.Sqrt(square / float64(len(want.Profile)))
			near(t, what+"deviation", spread, even, 0.05*even)
			near(t, what+"crest", g.at(surface, plane.Pt(5.5*spacing, 350)), want.OverCable, 0.01*want.OverCable)
			near(t, what+"midway", g.at(surface, plane.Pt(5*spacing, 350)), want.Midway, 0.01*want.Midway)
		}
	}
}

// at is the surface at a place, between the four cells about it.
func (g *ground) at(surface []float64, p plane.Point) float64 {
	p = p.Sub(g.Origin).Mul(1 / g.Cell).Sub(plane.Pt(0.5, 0.5))
	x, y := int(math.Floor(p.X)), int(math.Floor(p.Y))
	u, v, c := p.X-float64(x), p.Y-float64(y), y*g.NX+x
	return (1-v)*((1-u)*surface[c]+u*surface[c+1]) + v*((1-u)*surface[c+g.NX]+u*surface[c+g.NX+1])
}

// A corner of a room with a bent cable in one layer of mortar, in three dimensions by finite
// differences, cell by cell (Gauss-Seidel), without any mode or series: the surface agrees
// to 2 % of its highest rise, beside an inner corner and in the cold end of the room too.
func TestSurfaceInThreeDimensions(t *testing.T) {
	const cell, deep = 5.0, 12 // mm; cells of 2.5 mm in depth, the cable between the sixth and the seventh
	ring := plane.Ring(hand.Points(0, 0, 600, 0, 600, 300, 300, 300, 300, 500, 0, 500))
	path := hand.Points(57.5, 450, 57.5, 57.5, 407.5, 57.5, 407.5, 157.5, 157.5, 157.5, 157.5, 400)
	s := heat.Section{Layers: []heat.Layer{{Name: "mortar", Thickness: 30, Conductivity: 1}}, Depth: 15, Spacing: 100,
		WattsPerMetre: 15, Top: heat.Film{Coefficient: 10}}
	sp, err := s.Spreading()
	if err != nil {
		t.Fatal(err)
	}
	g := groundOf(open(ring), 100)
	g.deposit([]line{{path, 0.015}})
	surface := g.surface(sp)

	const nx, ny = 122, 102 // a row of none round 120 by 100
	var floor [nx * ny]bool
	var rise, power [nx * ny * deep]float64
	for y := 1; y < ny-1; y++ {
		for x := 1; x < nx-1; x++ {
			floor[y*nx+x] = ring.Contains(plane.Pt((float64(x)-0.5)*cell, (float64(y)-0.5)*cell))
		}
	}
	for _, leg := range plane.Segments(path) {
		n := int(leg.Length())
		for k := range n {
			p := leg.A.Lerp(leg.B, (float64(k)+0.5)/float64(n))
			c := (int(p.Y/cell)+1)*nx + int(p.X/cell) + 1
			for _, z := range []int{5, 6} {
				power[z*nx*ny+c] += 0.015 * leg.Length() / float64(n) / 2
			}
		}
	}
	const wide, high = cell / 1000, 0.0025
	side, down := 1*high, 1*wide*wide/high // W/K between neighbours, at 1 W/(m K)
	top := wide * wide / (1/10.0 + high/2)
	for range 700 {
		for z := range deep {
			for y := 1; y < ny-1; y++ {
				for x := 1; x < nx-1; x++ {
					c := y*nx + x
					if !floor[c] {
						continue
					}
					i := z*nx*ny + c
					in, loss := power[i], 0.0
					for _, d := range []int{-1, 1, -nx, nx} {
						if floor[c+d] {
							in, loss = in+side*rise[i+d], loss+side
						}
					}
					for _, o := range []int{z - 1, z + 1} {
						if o >= 0 && o < deep {
							in, loss = in+down*rise[o*nx*ny+c], loss+down
						}
					}
					if z == 0 {
						loss += top
					}
					rise[i] = 1.93*in/loss - 0.93*rise[i]
				}
			}
		}
	}
	most, worst := 0.0, 0.0
	g.each(g.rows, func(c int) { // the middle of a cell is where four of the small ones meet
		p := g.Origin.Add(plane.Pt(float64(c%g.NX)+0.5, float64(c/g.NX)+0.5).Mul(g.Cell))
		o := int(math.Round(p.Y/cell))*nx + int(math.Round(p.X/cell))
		want := (rise[o] + rise[o+1] + rise[o+nx] + rise[o+nx+1]) / 4 * top / (wide * wide) / 10
		most, worst = max(most, want), max(worst, math.Abs(surface[c]-want))
	})
	if worst > 0.02*most {
		t.Errorf("off by %.3f K of %.3f K", worst, most)
	}
}

// Where nothing is lost below, what goes up through the film is what the cables give: mean
// rise times coefficient times floor, in a room of any outline, round an island, and with
// cells of any size.
func TestWhatGoesUpIsWhatIsGiven(t *testing.T) {
	s := slab
	for _, spacing := range []float64{50, 95} {
		s.Spacing = spacing
		sp, err := s.Spreading()
		if err != nil {
			t.Fatal(err)
		}
		r := open(hand.Points(0, 0, 2400, 200, 2600, 1800, 1300, 1500, 900, 2200, 100, 2100))
		island := plane.FromRing(plane.Rectangle(plane.Pt(900, 700), plane.Pt(1300, 1100)))
		if r.Tiled, err = r.Floor.Less(island); err != nil {
			t.Fatal(err)
		}
		g := groundOf(r, spacing)
		path := hand.Points(300, 400, 2200, 500, 2200, 600, 300, 500, 300, 1600, 400, 1600, 400, 700)
		g.deposit([]line{{path, 0.012}})
		mean, _ := g.over(r.Tiled, g.surface(sp))
		n := 0
		g.each(g.rows, func(int) { n++ })
		watts := mean * 10.8 * float64(n) * g.Cell * g.Cell / plane.SquareMetre
		near(t, "W", watts, 0.012*plane.PathLength(path), 0.002*0.012*plane.PathLength(path))
	}
}

// A floor without cable is as warm as what is below makes it, everywhere.
func TestColdFloor(t *testing.T) {
	s := thin
	s.Spacing, s.Below.Rise = 100, -8
	sp, err := s.Spreading()
	if err != nil {
		t.Fatal(err)
	}
	// resistances in series: 1/10.8, 9/1.3, 9/1 and 19/0.13 mm of layers, 1/5.88
	up := 1 / 10.8
	whole := up + 0.009/1.3 + 0.009 + 0.019/0.13 + 1/5.88
	r := open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(900, 600)))
	g := groundOf(r, 100)
	mean, spread := g.over(r.Floor, g.surface(sp))
	near(t, "rise", mean, -8*up/whole, 1e-3)
	near(t, "spread", spread, 0, 1e-6)
}

// Two bands of a floor, 2 K and 5 K over the air, and a stand in a corner: a spot in either
// band is as warm as it, one astride of their border is between, and none is on the stand or
// against a wall.
func TestSpots(t *testing.T) {
	r := open(plane.Rectangle(plane.Pt(0, 0), plane.Pt(1200, 600)))
	r.Job.Fixtures = []job.Fixture{{Name: "stool", Outline: plane.Rectangle(plane.Pt(0, 0), plane.Pt(500, 600))}}
	g := groundOf(r, 100)
	surface := make([]float64, len(g.power))
	g.each(g.rows, func(c int) {
		x := g.Origin.X + (float64(c%g.NX)+0.5)*g.Cell
		switch {
		case x < 500:
			surface[c] = 1
		case x < 900:
			surface[c] = 2
		default:
			surface[c] = 5
		}
	})
	out := layout.FloorState{Air: 20}
	g.spots(&out, surface, 120)
	// under the stand it is colder still, 1 K; 60 mm from it and from the walls a foot has room
	if c := out.Coldest; c == nil || math.Abs(c.Celsius-22) > 0.02 || c.At.X < 555 || c.At.X > 845 || c.At.Y < 50 ||
		c.At.Y > 550 {
		t.Errorf("coldest %+v", c)
	}
	if w := out.Warmest; w == nil || w.Celsius != 25 || w.At.X < 950 || w.At.X > 1145 {
		t.Errorf("warmest %+v", w)
	}
	at := func(x, y float64) float64 {
		p := plane.Pt(x, y).Sub(out.Raster.Origin).Mul(1 / out.Raster.Cell)
		return out.Spots[int(p.Y)*out.Raster.NX+int(p.X)]
	}
	near(t, "astride", at(900, 300), 23.5, 0.5)
	near(t, "beyond a wall", at(1180, 300), 25, 1e-9)
	if out.Raster.NX*out.Raster.NY != len(out.Spots) {
		t.Errorf("%d spots of %d by %d", len(out.Spots), out.Raster.NX, out.Raster.NY)
	}
}

// A bend of 30 mm in a right angle is 30 pi/2 long, its legs 30 shorter each; a corner
// without room for it takes half its legs.
func TestBent(t *testing.T) {
	near(t, "one bend", plane.PathLength(bent(hand.Points(0, 0, 100, 0, 100, 200), 30)), 70+170+30*math.Pi/2, 0.4)
	near(t, "a tight turn", plane.PathLength(bent(hand.Points(0, 0, 100, 0, 100, 20, 0, 20), 30)), 90+90+10*math.Pi,
		0.3)
	near(t, "straight on", plane.PathLength(bent(hand.Points(0, 0, 50, 0, 100, 0), 30)), 100, 1e-9)
}
