package photo_test

import (
	"errors"
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"oxturn/layout/internal/camera"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
)

// phone is a phone held up at the door of a bath of 1.5 by 2.4 m.
var phone = camera.Camera{At: plane.Pt(700, -500), Up: 1700, To: plane.Pt(760, 900), Roll: 0.04, Focal: 2900, W: 3000,
	H: 4000}

var phoneSize = image.Pt(3000, 4000)

// known are places of that floor in an order in which the first four do.
var known = []plane.Point{{X: 60, Y: 80}, {X: 1450, Y: 60}, {X: 1440, Y: 2300}, {X: 90, Y: 2250}, {X: 700, Y: 1150},
	{X: 1430, Y: 1100}, {X: 80, Y: 1250}, {X: 760, Y: 100}, {X: 800, Y: 2280}, {X: 400, Y: 600}}

func pairsOf(c camera.Camera, pts []plane.Point) (out []photo.Pair) {
	for _, p := range pts {
		out = append(out, photo.Pair{Image: c.Pixel(p, 0), Floor: p})
	}
	return out
}

func fit(t *testing.T, size image.Point, pairs []photo.Pair) *photo.Fit {
	t.Helper()
	f, err := photo.FitTo(size, pairs)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestAgainstAPublishedMatrix: the unit square onto four points, with the matrix that the
// unit test test_homography_p2p of camera_calib_matlab (J. Blaber) holds true. Its picture
// has y up; ours is turned over for that.
func TestAgainstAPublishedMatrix(t *testing.T) {
	h := [9]float64{0.486486486486487, 0.105405405405405, 0.1, -0.216216216216216, 0.521621621621622, 0.3,
		-0.162162162162162, 0.027027027027027, 1}
	const large = 1000.0 // px to its unit
	seen := func(x, y float64) photo.Pixel {
		w := h[6]*x + h[7]*y + h[8]
		return photo.Pixel{X: large * (h[0]*x + h[1]*y + h[2]) / w, Y: large * (1 - (h[3]*x+h[4]*y+h[5])/w)}
	}
	var pairs []photo.Pair
	for i, p := range []plane.Point{{X: 0, Y: 0}, {X: 0, Y: 1}, {X: 1, Y: 0}, {X: 1, Y: 1}} {
		to := [][2]float64{{0.1, 0.3}, {0.2, 0.8}, {0.7, 0.1}, {0.8, 0.7}}[i]
		pairs = append(pairs, photo.Pair{Image: photo.Pixel{X: large * to[0], Y: large * (1 - to[1])},
			Floor: p.Mul(large)})
	}
	f := fit(t, image.Pt(1000, 1000), pairs)
	for _, p := range []plane.Point{{X: 0.5, Y: 0.5}, {X: 0.2, Y: 0.9}, {X: 1.3, Y: -0.2}, {X: -0.4, Y: 0.1}} {
		got, ok := f.Image(p.Mul(large))
		if want := seen(p.X, p.Y); !ok || got.Dist(want) > 1e-9*large {
			t.Errorf("%v is seen at %v, want %v", p, got, want)
		}
	}
}

// TestAgainstTheClosedForm: the map of a unit square onto any four corners has a closed form
// (P. Heckbert, Fundamentals of texture mapping and image warping, 1989, 2.2.3; from memory).
func TestAgainstTheClosedForm(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 200 {
		q := [4]photo.Pixel{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}
		for i := range q {
			q[i] = photo.Pixel{X: 200 + 600*(q[i].X+0.5*(r.Float64()-0.5)), Y: 200 + 600*(q[i].Y+0.5*(r.Float64()-0.5))}
		}
		dx1, dx2, sx := q[1].X-q[2].X, q[3].X-q[2].X, q[0].X-q[1].X+q[2].X-q[3].X
		dy1, dy2, sy := q[1].Y-q[2].Y, q[3].Y-q[2].Y, q[0].Y-q[1].Y+q[2].Y-q[3].Y
		det := dx1*dy2 - dx2*dy1
		g, h := (sx*dy2-dx2*sy)/det, (dx1*sy-sx*dy1)/det
		seen := func(u, v float64) photo.Pixel {
			w := g*u + h*v + 1
			return photo.Pixel{
				X: ((q[1].X-q[0].X+g*q[1].X)*u + (q[3].X-q[0].X+h*q[3].X)*v + q[0].X) / w,
				Y: ((q[1].Y-q[0].Y+g*q[1].Y)*u + (q[3].Y-q[0].Y+h*q[3].Y)*v + q[0].Y) / w,
			}
		}
		var pairs []photo.Pair
		for i, uv := range [][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}} { // v runs down, as in the picture
			pairs = append(pairs, photo.Pair{Image: q[i], Floor: plane.Pt(1000*uv[0], -1000*uv[1])})
		}
		f := fit(t, image.Pt(1000, 1000), pairs)
		for range 5 {
			u, v := r.Float64(), r.Float64()
			p := plane.Pt(1000*u, -1000*v)
			got, ok := f.Image(p)
			if want := seen(u, v); !ok || got.Dist(want) > 1e-6 {
				t.Fatalf("square %d: %v is seen at %v, want %v", n, p, got, want)
			}
			if back, ok := f.Floor(got); !ok || back.Dist(p) > 1e-6 {
				t.Fatalf("square %d: %v is read back as %v", n, p, back)
			}
		}
	}
}

// TestTrueCamera: without noise the fit is the camera that took the picture, its lens too.
func TestTrueCamera(t *testing.T) {
	for _, lens := range []float64{0, -0.04, 0.03} {
		c := phone
		c.Lens = lens
		f := fit(t, phoneSize, pairsOf(c, known))
		if math.Abs(f.Lens-lens) > 1e-9 || !f.LensKnown || f.Sigma > 1e-6 || f.Free != 2*len(known)-9 {
			t.Errorf("lens %g: k %g, sigma %g, %d left over", lens, f.Lens, f.Sigma, f.Free)
		}
		for _, p := range []plane.Point{{X: 300, Y: 1700}, {X: 1200, Y: 400}, {X: 20, Y: 20}} {
			got, ok := f.Floor(c.Pixel(p, 0))
			if !ok || got.Dist(p) > 1e-4 {
				t.Errorf("lens %g: %v is read as %v", lens, p, got)
			}
		}
	}
}

// TestStatedErrorHolds: with noise of a known size on every known point and on the one that
// is read, 95 in 100 of the places lie within what is stated, and not all of them.
func TestStatedErrorHolds(t *testing.T) {
	means := map[int]float64{}
	for _, c := range []struct {
		points int
		lens   float64
		noise  float64 // px
	}{{5, 0, 3}, {6, 0, 3}, {7, 0, 2}, {8, -0.03, 4}, {10, 0.02, 6}, {10, -0.05, 1.5}} {
		t.Run(fmt.Sprintf("%d points, lens %g", c.points, c.lens), func(t *testing.T) {
			share, mean := held(c.points, c.lens, c.noise)
			means[c.points] = mean / c.noise
			t.Logf("%.4f of places within what is stated, %.1f mm on the mean", share, mean)
			if share < 0.935 || share > 0.97 {
				t.Errorf("%.4f of places lie within the stated error, want 0.95", share)
			}
		})
	}
	if means[10] > means[5]/1.8 {
		t.Errorf("of ten points %.2f mm are stated for a pixel of noise, of five %.2f", means[10], means[5])
	}
}

// held returns the share of places within their stated error, and the mean of that.
func held(points int, lens, noise float64) (share, mean float64) {
	const trials, reads = 400, 5
	r := rand.New(rand.NewPCG(uint64(points), 7))
	within, all := 0, 0
	for range trials {
		c := phone
		c.Lens = lens
		c.At = c.At.Add(plane.Pt(200*(r.Float64()-0.5), 200*(r.Float64()-0.5)))
		c.Roll += 0.1 * (r.Float64() - 0.5)
		shake := func(p photo.Pixel) photo.Pixel {
			return p.Add(photo.Pixel{X: noise * r.NormFloat64(), Y: noise * r.NormFloat64()})
		}
		pairs := pairsOf(c, known[:points])
		for i := range pairs {
			pairs[i].Image = shake(pairs[i].Image)
		}
		f, err := photo.FitTo(phoneSize, pairs)
		if err != nil {
			continue
		}
		for range reads {
			p := plane.Pt(100+1300*r.Float64(), 100+2100*r.Float64())
			at := shake(c.Pixel(p, 0))
			got, ok := f.Floor(at)
			bound, sure := f.Error(at)
			if all++; ok && sure && got.Dist(p) <= bound {
				within++
			}
			mean += bound
		}
	}
	return float64(within) / float64(all), mean / float64(all)
}

// TestFourPoints: nothing is left over to tell their accuracy, so that one is assumed.
func TestFourPoints(t *testing.T) {
	f := fit(t, phoneSize, pairsOf(phone, known[:4]))
	if f.Free != 0 || f.Sigma != 0 || f.LensKnown {
		t.Errorf("%+v", f)
	}
	middle, _ := f.Error(phone.Pixel(plane.Pt(750, 1150), 0))
	beyond, _ := f.Error(phone.Pixel(plane.Pt(750, 3400), 0))
	if middle < 4 || middle > 15 || beyond < 2*middle {
		t.Errorf("in the middle of the points %.1f mm, far beyond them %.1f mm", middle, beyond)
	}
}

func TestSees(t *testing.T) {
	f := fit(t, phoneSize, pairsOf(phone, known))
	for _, c := range []struct {
		at   plane.Point
		want bool
	}{{plane.Pt(750, 1000), true}, {plane.Pt(750, -900), false}, {plane.Pt(4000, 1000), false},
		{plane.Pt(750, 30000), false}} {
		if got := f.Sees(c.at, plane.Pt(1, 0)); got != c.want {
			t.Errorf("%v is seen: %v", c.at, got)
		}
	}
	if _, ok := f.Floor(photo.Pixel{X: 1500, Y: -4000}); ok {
		t.Error("the sky is floor")
	}
	// 0.18 px a mm across and half of that lengthwise, where 6 mm must be a pixel
	small := phone
	small.Focal /= 5
	f = fit(t, phoneSize, pairsOf(small, known))
	if at := plane.Pt(750, 2200); !f.Sees(at, plane.Pt(1, 0)) || f.Sees(at, plane.Pt(0, 1)) {
		t.Errorf("lying to the camera %v, across %v", f.Sees(at, plane.Pt(1, 0)), f.Sees(at, plane.Pt(0, 1)))
	}
}

func TestFaults(t *testing.T) {
	with := func(n int, change func([]photo.Pair)) []photo.Pair {
		p := pairsOf(phone, known[:n])
		change(p)
		return p
	}
	swap := func(a, b int) func([]photo.Pair) {
		return func(p []photo.Pair) { p[a].Floor, p[b].Floor = p[b].Floor, p[a].Floor }
	}
	for _, c := range []struct {
		name    string
		pairs   []photo.Pair
		trouble photo.Trouble
		points  []int
	}{
		{"three", pairsOf(phone, known[:3]), photo.TooFew, nil},
		{"outside", with(5, func(p []photo.Pair) { p[3].Image.X = 3001 }), photo.Outside, []int{3}},
		{"twice", with(5, func(p []photo.Pair) { p[4] = p[1] }), photo.SamePlace, []int{1, 4}},
		{"on a line", pairsOf(phone, []plane.Point{{X: 60, Y: 80}, {X: 700, Y: 80}, {X: 1400, Y: 80},
			{X: 700, Y: 2000}}), photo.OnALine, []int{0, 1, 2}},
		{"on a line, last", pairsOf(phone, []plane.Point{{X: 700, Y: 2000}, {X: 60, Y: 80}, {X: 700, Y: 80},
			{X: 1400, Y: 80}}), photo.OnALine, []int{1, 2, 3}},
		{"neighbours of four", with(4, swap(1, 2)), photo.Exchanged, []int{1, 2}},
		{"two of six", with(6, swap(0, 4)), photo.Exchanged, []int{0, 4}},
		{"opposite of six", with(6, swap(0, 2)), photo.Exchanged, []int{0, 2}},
		{"two of ten", with(10, swap(7, 9)), photo.Exchanged, []int{7, 9}},
		{"misread", with(7, func(p []photo.Pair) { p[5].Floor.Y += 400 }), photo.Astray, []int{5}},
		{"mirror", with(7, func(p []photo.Pair) {
			for i := range p {
				p[i].Image.Y = 4000 - p[i].Image.Y
			}
		}), photo.Mirrored, nil},
		{"anything", with(5, func(p []photo.Pair) {
			for i := range p {
				p[i].Floor = plane.Pt(float64(i*i*997%1500), float64(i*773%2300))
			}
		}), photo.Scattered, nil},
	} {
		_, err := photo.FitTo(phoneSize, c.pairs)
		var f *photo.Fault
		if !errors.As(err, &f) || f.Trouble != c.trouble || fmt.Sprint(f.Points) != fmt.Sprint(c.points) {
			t.Errorf("%s: %v, want trouble %d with %v", c.name, err, c.trouble, c.points)
		}
	}
}
