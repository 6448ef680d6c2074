package aslaid_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/internal/camera"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// over is the camera over the floor of Hand.
var over = camera.Camera{At: plane.Pt(800, -600), Up: 1700, To: plane.Pt(800, 900), Focal: 2600, W: 3000, H: 4000}

// recordWith is a record of Hand's cable with a photo and its known points.
func recordWith(say string) string {
	text := strings.Replace(trial.Record, "measured by hand", "photo with tape", 1) + say +
		"[[as_laid.photo]]\nfile = \"over.jpg\"\n"
	for _, p := range []plane.Point{{X: 50, Y: 60}, {X: 1550, Y: 80}, {X: 1500, Y: 1600}, {X: 60, Y: 1580},
		{X: 800, Y: 900}, {X: 1540, Y: 800}, {X: 70, Y: 700}, {X: 700, Y: 100}} {
		px := over.Pixel(p, 0)
		text += fmt.Sprintf("[[as_laid.photo.point]]\nimage = [%.1f, %.1f]\nat = [%g, %g]\n", px.X, px.Y, p.X, p.Y)
	}
	return text
}

// follows writes a run as the photo shows it along some places.
func follows(run int, along ...plane.Point) string {
	var px []string
	for _, p := range along {
		at := over.Pixel(p, 0)
		px = append(px, fmt.Sprintf("[%.1f, %.1f]", at.X, at.Y))
	}
	return fmt.Sprintf("[[as_laid.photo.run]]\nrun = %d\nimage = [%s]\n", run, strings.Join(px, ", "))
}

func photographed(t *testing.T, status, say string) (*layout.Plan, string) {
	t.Helper()
	p, found := trial.HandPlanWith(t, status, say,
		map[string][]byte{"over.jpg": over.Blank(camera.Tag{Orientation: 1})})
	if p == nil {
		return nil, found[0].Message
	}
	return p, trial.Errors(found)
}

// TestRunThatAPhotoMoves: a run that a photo shows a hand's breadth off is drawn there; all
// others stay as they were held against the plan.
func TestRunThatAPhotoMoves(t *testing.T) {
	plain, _ := trial.HandPlan(t, "for installation", "")
	c := plain.Rooms[0].Cables[0]
	r, by := c.Runs[1], plane.Pt(20, 0)
	p, wrong := photographed(t, "as laid", recordWith("plan = \"issued.json\"\nas_planned = true\n")+
		follows(2, r.To.Add(by), r.From.Add(by))) // from its far end
	if wrong != "" {
		t.Fatal(wrong)
	}
	got := p.Rooms[0].Cables[0]
	for i, want := range c.Path {
		if i == r.Leg || i == r.Leg-1 {
			want = want.Add(by)
		}
		if got.Path[i].Dist(want) > 0.5 {
			t.Errorf("corner %d at %v, want %v", i, got.Path[i], want)
		}
	}
	if !got.Laid.Recorded() || got.Laid.PhotoError <= 0 || got.Laid.Error != math.Max(plane.Inch/2,
		got.Laid.PhotoError) {
		t.Errorf("recorded %v, within %g, by photo %g", got.Laid.Recorded(), got.Laid.Error, got.Laid.PhotoError)
	}
	i := slices.IndexFunc(got.Laid.Differ, func(d layout.Difference) bool { return d.What.String() == "run 2" })
	if i < 0 || math.Abs(got.Laid.Differ[i].Off-20) > 1 {
		t.Errorf("differences: %+v", got.Laid.Differ)
	}
}

// TestCableFromPhotosAlone: every run followed in a photo says where the cable lies, to within
// what the known points tell.
func TestCableFromPhotosAlone(t *testing.T) {
	plain, _ := trial.HandPlan(t, "for installation", "")
	c := plain.Rooms[0].Cables[0]
	say := recordWith("")
	for i, r := range c.Runs {
		say += follows(i+1, r.From, r.From.Lerp(r.To, 0.4), r.To)
	}
	p, wrong := photographed(t, "as laid", say)
	if wrong != "" {
		t.Fatal(wrong)
	}
	got := p.Rooms[0].Cables[0]
	for _, q := range c.Path {
		if _, off, _, _ := plane.Nearest(got.Path, q); off > 1 {
			t.Errorf("nothing within %.1f mm of corner %v", off, q)
		}
	}
	// half a pixel takes 0.4 mm on the mean
	if l := got.Laid; !l.Recorded() || l.Error != l.PhotoError || l.Error < 0.5 || l.Error > 4 || len(l.Differ) > 0 {
		t.Errorf("recorded %v, within %g, by photo %g, %v", l.Recorded(), l.Error, l.PhotoError, l.Differ)
	}
	some := recordWith("") + follows(1, c.Runs[0].From, c.Runs[0].To) + follows(2, c.Runs[1].From, c.Runs[1].To)
	p, wrong = photographed(t, "for installation", some)
	if wrong != "" {
		t.Fatal(wrong)
	}
	if l := p.Rooms[0].Cables[0].Laid; l.Whole || len(l.Path) != c.Runs[1].Leg+1 {
		t.Errorf("two runs are %d corners, whole %v", len(l.Path), l.Whole)
	}
	if _, wrong = photographed(t, "as laid", some); !strings.Contains(wrong, "nothing says how cable H1") {
		t.Errorf("two runs pass for the whole cable: %s", wrong)
	}
}

func TestPhotoRunsRefused(t *testing.T) {
	a, b := plane.Pt(300, 300), plane.Pt(300, 900)
	for _, c := range []struct{ say, want string }{
		{follows(40, a, b), "run 40 is said to be in a photo, but cable H1 has"},
		{follows(3, a, b), "photos show where run 3 of cable H1 lies, and nothing says that of run 1"},
		{follows(1, a, b) + follows(1, b, a), "run 1 of cable H1 is followed in two places"},
	} {
		if _, wrong := photographed(t, "for installation", recordWith("")+c.say); !strings.Contains(wrong, c.want) {
			t.Errorf("want %q, got %q", c.want, wrong)
		}
	}
}

// TestSeenInPhotos: of a cable on a floor that a photo shows in part, the share of its length
// is what lies in the picture, and runs beyond are named.
func TestSeenInPhotos(t *testing.T) {
	p, wrong := photographed(t, "for installation", recordWith(""))
	if wrong != "" {
		t.Fatal(wrong)
	}
	r := &p.Rooms[0]
	photos := p.PhotosOf(r)
	if len(photos) != 1 || p.Photos() != 1 {
		t.Fatalf("%d photos", len(photos))
	}
	if s := r.Cables[0].SeenIn(photos); s.Share != 1 || s.Unseen != nil {
		t.Errorf("all is in the picture: %.3f, without %v", s.Share, s.Unseen)
	}
	if s := r.Cables[0].SeenIn(nil); s.Share != 0 || len(s.Unseen) != len(r.Cables[0].Runs) {
		t.Errorf("in no photo: %.3f, without %v", s.Share, s.Unseen)
	}
	far := *r // the same cable, so far to the east that some of its runs lie beyond the picture's edge
	far.Cables = slices.Clone(r.Cables)
	c := &far.Cables[0]
	c.Path = plane.Moved(c.Path, plane.Pt(900, 0))
	c.Runs = layout.Runs(c.Path, c.BendRadius, route.Lattice{Pitch: p.Job.Membrane.Pitch})
	in, all := 0.0, 0.0
	for i := 1; i < len(c.Path); i++ {
		n := math.Ceil(c.Path[i-1].Dist(c.Path[i]) / 5)
		for k := range int(n) {
			q := c.Path[i-1].Lerp(c.Path[i], (float64(k)+0.5)/n)
			step := c.Path[i-1].Dist(c.Path[i]) / n
			if px := over.Pixel(q, 0); px.X <= 3000 {
				in += step
			}
			all += step
		}
	}
	if s := c.SeenIn(photos); math.Abs(s.Share-in/all) > 0.02 || len(s.Unseen) == 0 || len(s.Unseen) == len(c.Runs) {
		t.Errorf("%.3f of its length, want %.3f; without %v of %d", s.Share, in/all, s.Unseen, len(c.Runs))
	}
	if most := r.WorstIn(photos[0]); most <= 0 || most > 5 {
		t.Errorf("a place is within %g mm", most)
	}
}
