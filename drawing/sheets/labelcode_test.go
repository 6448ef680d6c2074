package sheets

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/pdf"
	"oxturn/layout/job"
	"oxturn/layout/passport"
	"oxturn/symbols"
)

// shot is a photograph of a code: so many pixels a module, turned, blurred and noisy.
type shot struct {
	perModule, turned, blur, noise float64
}

// of takes the photograph. Angles in degrees, blur as the standard deviation in pixels
// of a Gauss filter, noise as that of the grey of a pixel, of 255.
func (s shot) of(rows [][]bool) *image.Gray {
	n := len(rows) + 2*symbols.CodeQuiet
	size := int(float64(n)*s.perModule*1.5) + 8
	img, sin, cos := image.NewGray(image.Rect(0, 0, size, size)), math.Sin(s.turned*math.Pi/180),
		math.Cos(s.turned*math.Pi/180)
	const sub = 3
	for y := range size {
		for x := range size {
			light := 0.0
			for i := range sub * sub {
				dx := (float64(x) + (float64(i%sub)+0.5)/sub - float64(size)/2) / s.perModule
				dy := (float64(y) + (float64(i/sub)+0.5)/sub - float64(size)/2) / s.perModule
				u, v := dx*cos+dy*sin+float64(len(rows))/2, dy*cos-dx*sin+float64(len(rows))/2
				if !(u >= 0 && v >= 0 && u < float64(len(rows)) && v < float64(len(rows)) && rows[int(v)][int(u)]) {
					light++
				}
			}
			img.SetGray(x, y, color.Gray{Y: uint8(40 + 180*light/sub/sub)}) // ink and paper by a lamp
		}
	}
	return noisy(blurred(img, s.blur), s.noise)
}

func blurred(img *image.Gray, sigma float64) *image.Gray {
	if sigma == 0 {
		return img
	}
	reach := int(3*sigma) + 1
	bell := make([]float64, reach+1)
	for k := range bell {
		bell[k] = math.Exp(-float64(k*k) / (2 * sigma * sigma))
	}
	for _, step := range []image.Point{{X: 1}, {Y: 1}} {
		out := image.NewGray(img.Rect)
		for y := range img.Rect.Dy() {
			for x := range img.Rect.Dx() {
				sum, weight := 0.0, 0.0
				for k := -reach; k <= reach; k++ {
					p := image.Pt(x+k*step.X, y+k*step.Y)
					if p.In(img.Rect) {
						w := bell[max(k, -k)]
						sum, weight = sum+w*float64(img.GrayAt(p.X, p.Y).Y), weight+w
					}
				}
				out.SetGray(x, y, color.Gray{Y: uint8(sum / weight)})
			}
		}
		img = out
	}
	return img
}

func noisy(img *image.Gray, sigma float64) *image.Gray {
	r := rand.New(rand.NewPCG(1, 2))
	for i, v := range img.Pix {
		img.Pix[i] = uint8(max(0, min(255, float64(v)+sigma*r.NormFloat64())))
	}
	return img
}

// A code as large as any label's is read by another program off a photograph that is
// turned, out of focus and dark, letter by letter. (The reader asked here, zbar, gives up
// on grain where a code is turned by 30 to 60 degrees.)
func TestCodeIsReadOffAPhotograph(t *testing.T) {
	long := "OXTURN FLOOR 1\nroom Kuche\npath 75,75" + strings.Repeat(" N2250 E90 S2250 W61", 50) + "\ncheck 12AF\n"
	for _, text := range []string{long[:600], long} {
		rows, err := symbols.CodeRows(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range []shot{{4, 0, 0, 0}, {6, 15, 1, 10}, {6, 90, 1, 10}, {6, 37, 1, 0}, {5, 183, 1, 10}} {
			var b bytes.Buffer
			if err := png.Encode(&b, s.of(rows)); err != nil {
				t.Fatal(err)
			}
			got := string(outside.Run(t, "zbarimg", "-q", "--raw", "-Sdisable", "-Sqrcode.enable",
				outside.File(t, "code.png", b.Bytes())))
			if strings.TrimSpace(got) != strings.TrimSpace(text) {
				t.Errorf("%+v: read %q, want %q", s, got, text)
			}
		}
	}
}

// The code on the sheet, off a scan of the print at 150 dots an inch, says what the
// floor's passport says: of every cable of the room.
func TestCodesAreReadOffThePrint(t *testing.T) {
	for _, name := range []string{"../../testdata/laid/bath.toml", "../../testdata/jobs/entry.toml"} {
		p := readPlan(t, name)
		if p.Job.Info.Status == job.Proposal { // else there is no label
			p.Job = withStatus(p.Job, job.ForInstallation)
		}
		r := &p.Rooms[0]
		pages, err := ownerMap(p, r)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := pdf.Write(&b, []*drawing.Sheet{pages[0].Sheet}, pdf.Info{}); err != nil {
			t.Fatal(err)
		}
		var page bytes.Buffer
		if err := png.Encode(&page, outside.RasterPDF(t, b.Bytes(), "150")); err != nil {
			t.Fatal(err)
		}
		got := string(outside.Run(t, "zbarimg", "-q", "--raw", "-Sdisable", "-Sqrcode.enable",
			outside.File(t, "page.png", page.Bytes())))
		for i := range r.Cables {
			if want := passport.Of(p, r, &r.Cables[i]); !strings.Contains(got, strings.TrimSpace(want)) {
				t.Errorf("%s: off the print is read\n%s\nnot\n%s", name, got, want)
			}
		}
	}
}
