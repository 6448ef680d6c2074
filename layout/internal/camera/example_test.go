package camera

import (
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"os"
	"testing"
	"time"

	"oxturn/layout/golden"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
)

// folder has the example with photos.
const folder = "../../../testdata/photos/"

// hallCameras took them: from the door, and from the other end of the hall.
var hallCameras = []Camera{
	{At: plane.Pt(-350, 740), Up: 1550, To: plane.Pt(900, 750), Roll: 0.03, Focal: 650, W: 750, H: 1000, Lens: -0.02},
	{At: plane.Pt(2700, 800), Up: 1600, To: plane.Pt(1450, 740), Roll: -0.02, Focal: 650, W: 750, H: 1000, Lens: -0.02},
}

// hallMarks are crosses on the membrane that were taped off the walls.
var hallMarks = []plane.Point{{X: 80, Y: 60}, {X: 2320, Y: 60}, {X: 2320, Y: 1440}, {X: 80, Y: 1440}, {X: 1245, Y: 60},
	{X: 1245, Y: 1440}, {X: 700, Y: 750}, {X: 1720, Y: 750}}

// movedRun is the leg of the cable that was laid a peg beside its plan.
const movedRun = 15

// hall is the floor with its cable, by the plan it was laid from.
func hall(t *testing.T) Scene {
	t.Helper()
	data, err := os.ReadFile(folder + "hall.layout.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Rooms []struct {
			Outline [][2]float64
			Cables  []struct{ Path [][2]float64 }
		}
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	points := func(pairs [][2]float64) (out []plane.Point) {
		for _, p := range pairs {
			out = append(out, plane.Pt(p[0], p[1]))
		}
		return out
	}
	path := points(file.Rooms[0].Cables[0].Path)
	path[movedRun-1].Y -= 30
	path[movedRun].Y -= 30
	return Scene{Outline: points(file.Rooms[0].Outline), Cables: [][]plane.Point{path}, Marks: hallMarks, Pitch: 30}
}

// TestPhotosOfTheExample: the photos of the example show what its cameras see; -update takes
// them anew, and -v prints what they have known points and the moved run at.
func TestPhotosOfTheExample(t *testing.T) {
	s := hall(t)
	for i, c := range hallCameras {
		name := fmt.Sprintf("%shall-%d.jpg", folder, i+1)
		m := c.Render(s, 1)
		if golden.Update() {
			tag := Tag{Orientation: 6, Taken: time.Date(2026, 12, 2, 16, 20, 0, 0, time.UTC), Place: true}
			if err := os.WriteFile(name, Encode(Stored(m, 6), 48, tag), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for _, p := range append(hallMarks, s.Outline...) {
			t.Logf("hall-%d: %v at %.0f", i+1, p, c.Pixel(p, 0))
		}
		t.Logf("hall-%d: run from %.0f to %.0f", i+1, c.Pixel(s.Cables[0][movedRun-1], 0),
			c.Pixel(s.Cables[0][movedRun], 0))
		kept, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := jpeg.Decode(kept)
		kept.Close()
		if err != nil {
			t.Fatal(err)
		}
		if off := meanOff(got, Stored(m, 6)); off > 12 {
			t.Errorf("%s is off by %.1f grey levels on the mean", name, off)
		}
	}
}

// meanOff is by how much two pictures differ.
func meanOff(a image.Image, b *image.RGBA) float64 {
	if a.Bounds().Size() != b.Bounds().Size() {
		return math.Inf(1)
	}
	sum := 0.0
	for y := range b.Rect.Dy() {
		for x := range b.Rect.Dx() {
			r, g, bl, _ := a.At(x, y).RGBA()
			w := b.RGBAAt(x, y)
			sum += math.Abs(float64(r>>8)-float64(w.R)) + math.Abs(float64(g>>8)-float64(w.G)) +
				math.Abs(float64(bl>>8)-float64(w.B))
		}
	}
	return sum / float64(3*b.Rect.Dx()*b.Rect.Dy())
}

// TestSeenAsItIsRead: the camera's own way back is that of its way there.
func TestSeenAsItIsRead(t *testing.T) {
	for _, c := range hallCameras {
		for _, p := range hallMarks {
			if got, ok := c.Floor(c.Pixel(p, 0)); !ok || got.Dist(p) > 1e-6 {
				t.Errorf("%v comes back as %v", p, got)
			}
		}
		if _, ok := c.Floor(photo.Pixel{X: 450, Y: -6000}); ok {
			t.Error("the sky is floor")
		}
	}
}
