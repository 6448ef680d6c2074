package job

import (
	"errors"
	"fmt"
	"image"
	"os"
	"strings"
	"testing"
	"time"

	"oxturn/layout/internal/camera"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
)

// hall is the camera that took the photo of these tests: of a floor of 2 by 1.5 m.
var hall = camera.Camera{At: plane.Pt(1000, -700), Up: 1600, To: plane.Pt(1000, 600), Focal: 280, W: 400, H: 300}

// hallPhoto is a photo of that size without a picture, of a day.
func hallPhoto() []byte {
	return hall.Blank(camera.Tag{Orientation: 1, Taken: time.Date(2026, 12, 2, 8, 0, 0, 0, time.UTC)})
}

// TestKeptPhoto: the photo of the file that has every key is of this size and day; -update
// writes it.
func TestKeptPhoto(t *testing.T) {
	const name = "testdata/good/every-key.jpg"
	if *update {
		if err := os.WriteFile(name, hallPhoto(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if p, err := photo.Read(data); err != nil || p.Size != image.Pt(400, 300) || p.Taken.Day() != 2 {
		t.Errorf("%+v, %v", p, err)
	}
}

const hallHead = head + "[[room]]\nname = \"Hall\"\ncorners = [[0, 0], [2000, 0], [2000, 1500], [0, 1500]]\n" + tail +
	"[[as_laid]]\nroom = \"Hall\"\nevidence = \"photo with tape\"\njoint = [400, 300]\nend_cap = [1500, 1200]\n"

// pointAt writes a known point, off by so many pixels to the right.
func pointAt(p plane.Point, off float64, words string) string {
	px := hall.Pixel(p, 0)
	return fmt.Sprintf("[[as_laid.photo.point]]\nimage = [%.2f, %.2f]\n%s\n", px.X+off, px.Y, words)
}

// hallPoints are points of that floor that may be told in every way.
func hallPoints() []string {
	return []string{
		pointAt(plane.Pt(0, 0), 0, `corner = "A"`), pointAt(plane.Pt(2000, 0), 0, `corner = "b"`),
		pointAt(plane.Pt(2000, 1500), 0, `corner = "C"`), pointAt(plane.Pt(600, 1500), 0, `at = "C 1400"`),
		pointAt(plane.Pt(400, 300), 0, `mark = "START"`), pointAt(plane.Pt(1500, 1200), 0, `mark = "END"`),
		pointAt(plane.Pt(1000, 900), 0, `at = [1000, 900]`), pointAt(plane.Pt(1900, 700), 0, `at = "B 700, 100"`),
	}
}

func readHall(points ...string) (*Job, *Report) {
	text := hallHead + "[[as_laid.photo]]\nfile = \"hall.jpg\"\n" + strings.Join(points, "")
	return Read("job.toml", []byte(text), func(name string) ([]byte, error) {
		switch name {
		case "hall.jpg":
			return hallPhoto(), nil
		case "text.jpg":
			return []byte("no picture"), nil
		}
		return nil, errors.New("there is no such file")
	})
}

func TestPhoto(t *testing.T) {
	j, report := readHall(append(hallPoints(), "[[as_laid.photo.run]]\nrun = 2\nimage = [[200, 200], [210, 150]]\n")...)
	if report.Errors() > 0 {
		t.Fatal(human(report))
	}
	p := j.Laid[0].Photos[0]
	if p.Taken.Format(time.DateOnly) != "2026-12-02" || p.Name() != "hall.jpg, 2026-12-02" {
		t.Errorf("taken %v, called %q", p.Taken, p.Name())
	}
	if want := "corner A|corner B|corner C|C 1400|START|END|1000, 900|B 700, 100"; strings.Join(p.Points,
		"|") != want {
		t.Errorf("points are called %s, want %s", strings.Join(p.Points, "|"), want)
	}
	if p.Fit.RMS() > 0.1 { // pixels were written to a hundredth, some 0.07 mm
		t.Errorf("the points are off by %v mm", p.Fit.RMS())
	}
	if at, ok := p.Fit.Floor(hall.Pixel(plane.Pt(1234, 567), 0)); !ok || at.Dist(plane.Pt(1234, 567)) > 1 {
		t.Errorf("(1234, 567) is read as %v", at)
	}
	if runs := j.Laid[0].PhotoRuns(); len(runs) != 1 || runs[0].Run != 2 || len(runs[0].Image) != 2 {
		t.Errorf("%+v", runs)
	}
	if flat, err := p.Flat(); err != nil || flat.Bounds.W() < 1500 || flat.Bounds.W() > 2000 {
		t.Errorf("%+v, %v", flat, err)
	}
}

// TestPhotoOffWalls: places are taped off the walls that datums names.
func TestPhotoOffWalls(t *testing.T) {
	text := strings.Replace(hallHead, "joint", "datums = [\"A\", \"D\"]\njoint", 1) + "[[as_laid.photo]]\nfile = " +
		"\"hall.jpg\"\n" + strings.Join(hallPoints()[:4], "") + pointAt(plane.Pt(1000, 900), 0, "at = [900, 1000]")
	j, report := Read("job.toml", []byte(text), func(string) ([]byte, error) { return hallPhoto(), nil })
	if report.Errors() > 0 {
		t.Fatal(human(report))
	}
	if rms := j.Laid[0].Photos[0].Fit.RMS(); rms > 0.1 {
		t.Errorf("off by %v mm", rms)
	}
}

// TestPhotoSlips: what is wrong with a photo is said at its place, with what to do.
func TestPhotoSlips(t *testing.T) {
	points := hallPoints()
	with := func(i int, other string) []string {
		out := append([]string(nil), points...)
		out[i] = other
		return out
	}
	swapped := append([]string(nil), points...)
	swapped[1], swapped[2] = pointAt(plane.Pt(2000, 0), 0, `corner = "C"`), pointAt(plane.Pt(2000, 1500), 0,
		`corner = "B"`)
	run := func(text string) []string { return append(append([]string(nil), points...), text) }
	for _, c := range []struct {
		points []string
		want   string
	}{
		{points[:3], `photo "hall.jpg" has 3 known points, and 4 at least settle how it shows the floor`},
		{append(append([]string(nil), points[:2]...), pointAt(plane.Pt(900, 0), 0, `at = "A 900"`), points[2]),
			"point 1 (corner A), point 2 (corner B) and point 3 (A 900) lie on a line"},
		{with(3, "[[as_laid.photo.point]]\nimage = [401, 20]\nat = \"C 1400\"\n"),
			"point 4 (C 1400), [401, 20], is outside the picture, which is 400 x 300 pixels"},
		{append(points[:4:4], points[1]), "point 2 (corner B) and point 5 (corner B) are at one place"},
		{swapped, "with point 2 (corner C) and point 3 (corner B) exchanged they do"},
		{with(6, pointAt(plane.Pt(1000, 900), 60, `at = [1000, 900]`)),
			`point 7 (1000, 900) is`},
		{with(0, "[[as_laid.photo.point]]\nimage = [10, 20]\n"), "the point is not said to be anywhere on the floor"},
		{with(0, pointAt(plane.Pt(0, 0), 0, "corner = \"A\"\nmark = \"END\"")), "the point has both corner and mark"},
		{with(0, pointAt(plane.Pt(0, 0), 0, `corner = "E"`)), `the point stands on wall "E"`},
		{with(0, pointAt(plane.Pt(0, 0), 0, `mark = "S1"`)), "S1 is known from the plan only"},
		{with(0, pointAt(plane.Pt(0, 0), 0, `at = [3000, 0]`)), "at: (3000, 0) mm is 1000 mm outside wall"},
		{append([]string{"file = \"no.jpg\"\n"}, points...), `there is no such file`},
		{append([]string{"file = \"text.jpg\"\n"}, points...), "it is neither a JPEG nor a PNG picture"},
		{append([]string{"sha256 = \"12345678\"\n"}, points...),
			"is not the file that was recorded: its sum begins with"},
		{append([]string{"sha256 = \"1234\"\n"}, points...), "sha256 is 8 or more hexadecimal digits"},
		{append([]string{"date = 2026-12-03\n"}, points...),
			"is said to be of 2026-12-03, but its camera wrote 2026-12-02"},
		{run("[[as_laid.photo.run]]\nrun = 1\nimage = [[10, 10], [500, 20]]\n"),
			"run 1, point 2, [500, 20], is outside the picture"},
		{run("[[as_laid.photo.run]]\nrun = 1\nimage = [[10, 10]]\n"), "image has 1 item and needs 2 at least"},
	} {
		_, report := readHall(c.points...)
		if strings.HasPrefix(c.points[0], "file") { // written instead of the usual one
			_, report = readHallAs(c.points...)
		}
		if said := human(report); !strings.Contains(said, c.want) || !strings.Contains(said, "hint:") {
			t.Errorf("want %s, got\n%s", c.want, said)
		}
	}
}

// readHallAs is readHall of a photo whose file the points name.
func readHallAs(points ...string) (*Job, *Report) {
	text := hallHead + "[[as_laid.photo]]\n" + strings.Join(points, "")
	return Read("job.toml", []byte(text), func(name string) ([]byte, error) {
		if name == "text.jpg" {
			return []byte("no picture"), nil
		}
		return nil, errors.New("there is no such file")
	})
}

// What was unpacked of a photo is not unpacked again while the job changes round it.
func TestPhotosAreUnpackedOnce(t *testing.T) {
	picture := camera.Encode(hall.Render(camera.Scene{}, 2), 80, camera.Tag{Orientation: 1})
	read := func(points []string) *Photo {
		t.Helper()
		text := hallHead + "[[as_laid.photo]]\nfile = \"hall.jpg\"\n" + strings.Join(points, "")
		j, r := Read("job.toml", []byte(text), func(string) ([]byte, error) { return picture, nil })
		if j == nil || len(j.Laid) != 1 || len(j.Laid[0].Photos) != 1 {
			t.Fatal(r.Diagnostics())
		}
		return &j.Laid[0].Photos[0]
	}
	of := func(p *Photo) *Job { return &Job{Laid: []Laid{{Photos: []Photo{*p}}}} }
	first := read(hallPoints())
	flat, err := first.Flat()
	if err != nil || flat == nil {
		t.Fatal(err)
	}
	preview, err := first.Preview(300)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		points []string
		same   bool
	}{{"as it was", hallPoints(), true}, {"another point", hallPoints()[:7], false}} {
		again := of(read(c.points))
		again.UnpackedBefore(of(first))
		p := &again.Laid[0].Photos[0]
		if now, err := p.Flat(); err != nil || (now == flat) != c.same {
			t.Errorf("%s: in the floor's plane the picture is the same: %v, %v", c.name, now == flat, err)
		}
		if now, err := p.Preview(300); err != nil || &now[0] != &preview[0] {
			t.Errorf("%s: it is made small anew: %v", c.name, err)
		}
	}
	again := of(read(hallPoints()))
	again.UnpackedBefore(nil)
	if now, err := again.Laid[0].Photos[0].Flat(); err != nil || now == flat || string(now.JPEG) != string(flat.JPEG) {
		t.Errorf("unpacked anew it is another picture: %v", err)
	}
}
