package sheets

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// TestBetweenAddsUp: figures end to end make the figure over them all, in both
// systems, as anyone adds them up from the sheet.
func TestBetweenAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SliceOfN(rapid.Float64Range(-9000, 9000), 2, 8).Draw(t, "places")
		for _, f := range []say.Figures{{Units: plane.Millimetres}, {Units: plane.Inches}} {
			sum := 0.0
			for i := 1; i < len(at); i++ {
				sum += read(t, f.Between(at[i-1], at[i]))
			}
			if whole := read(t, f.Between(at[0], at[len(at)-1])); math.Abs(sum-whole) > 1e-6 {
				t.Fatalf("%v in %s: parts make %g, the whole is %g", at, f.Units, sum, whole)
			}
		}
	})
}

// read reads a figure back as a job file would.
func read(t tester, text string) float64 {
	t.Helper()
	own, _, _ := strings.Cut(text, " (")
	mm, err := plane.ParseLength(own, plane.Millimetres)
	if err != nil {
		t.Errorf("%q: %v", text, err)
	}
	return mm
}

// TestBetweenAgreesWithOffsets: a figure from the datum is the offset that a
// table gives. The others were worked out by hand: 1000.4 and 2000.8 mm lie at
// 1000 and 2001 mm, at 630 and 1260 sixteenths of an inch.
func TestBetweenAgreesWithOffsets(t *testing.T) {
	f := say.Figures{Units: plane.Millimetres, Both: true}
	for _, c := range []struct {
		from, to float64
		want     string
	}{{0, 1000.6, f.Length(1000.6)}, {0, -1000.6, f.Length(-1000.6)}, {1000.4, 2000.8, `1001 (3'-3 3/8")`}, {1000.4,
		3000.8, `2001 (6'-6 3/4")`}} {
		if got := f.Between(c.from, c.to); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.from, c.to, got, c.want)
		}
	}
}

// sums adds up the chains of a page by their sides.
func sums(t *testing.T, pg *setting.Page) map[string]float64 {
	out := map[string]float64{}
	for _, l := range pg.Letters.Labels {
		if name, _, ok := strings.Cut(l.Note, ", part "); ok {
			out[name] += read(t, l.Text)
		}
	}
	return out
}

// TestChainsAddUp: on every plan of a room, all chains that run one way make one
// length, the overall figure among them, and that is the room's.
func TestChainsAddUp(t *testing.T) {
	dirs := []string{"../../testdata/jobs"}
	if more := os.Getenv("OXTURN_JOBS"); more != "" {
		dirs = append(dirs, more)
	}
	chains := 0
	for _, dir := range dirs {
		files, err := filepath.Glob(filepath.Join(dir, "*.toml"))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if filepath.Base(f) == "cables.toml" {
				continue
			}
			chains += checkChains(t, filepath.Base(f), fileDrawn(t, f))
		}
	}
	if chains < 20 {
		t.Errorf("%d chains only", chains)
	}
}

func checkChains(t *testing.T, file string, d drawnSet) (chains int) {
	p := d.plan
	step := 1.0
	if p.Job.Figures().Units == plane.Inches {
		step = plane.Inch / 16
	}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		b := r.Job.Outline.Bounds()
		whole := map[bool]float64{}
		for _, pg := range d.pages {
			if kind, _ := kindOf(pg, r); !slices.Contains([]string{"cable-plan", "membrane", "owner-map"}, kind) {
				continue
			}
			for name, sum := range sums(t, pg) {
				level := strings.HasPrefix(name, "bottom of") || strings.HasPrefix(name, "top of")
				if !level && !strings.HasPrefix(name, "left of") && !strings.HasPrefix(name, "right of") {
					continue // a slanting wall
				}
				chains++
				size := b.H()
				if level {
					size = b.W()
				}
				if whole[level] == 0 {
					whole[level] = sum
				}
				if math.Abs(sum-size) >= step || math.Abs(sum-whole[level]) > 1e-6 {
					t.Errorf("%s, %s, %s: %g, elsewhere %g; the room measures %g", file, pg.Sheet.ID, name, sum,
						whole[level], size)
				}
			}
		}
	}
	return chains
}

// TestNearlyInLine: of two corners nearly in line it is that of the longer wall
// which is dimensioned, at every scale and whatever else stands near, and the
// room's ends always are.
func TestNearlyInLine(t *testing.T) {
	r := &job.Room{Outline: plane.Ring{{X: 0, Y: 0}, {X: 377, Y: 0}, {X: 391, Y: 380}, {X: 2000, Y: 380},
		{X: 2000, Y: 1500}, {X: 0, Y: 1500}}}
	for i, w := range edges(r.Outline) {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: w})
	}
	r.Thermostat = job.Thermostat{Wall: 2, At: plane.Pt(400, 380)}
	for _, ratio := range []float64{16, 20, 40, 50} {
		for _, l := range floorplan.Ladders(r, ratio) {
			if l.Side != floorplan.SouthSide {
				continue
			}
			if n := len(l.Stations); n != 3 || l.Stations[0].Along != 0 || l.Stations[1].Along != 391 ||
				l.Stations[2].Along != 2000 {
				t.Errorf("1:%g: %+v", ratio, l.Stations)
			}
		}
	}
	if listed := floorplan.ChainedCorners(r, 20); listed[1] || !listed[2] {
		t.Errorf("the corner that no chain gives is not listed: %v", listed)
	}
}

// TestHiddenCorners: the floor of a recess is dimensioned by no chain, as other
// parts of the room lie before it at either side: its corners are listed.
func TestHiddenCorners(t *testing.T) {
	r := &job.Room{Outline: plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 2000}, {X: 2000, Y: 2000},
		{X: 2000, Y: 800}, {X: 1000, Y: 800}, {X: 1000, Y: 2000}, {X: 0, Y: 2000}},
		Thermostat: job.Thermostat{Wall: -1}}
	for i, w := range edges(r.Outline) {
		r.Walls = append(r.Walls, job.Wall{Letter: string(rune('A' + i)), Segment: w})
	}
	for i, chained := range floorplan.ChainedCorners(r, 20) {
		if hidden := i == 4 || i == 5; chained == hidden {
			t.Errorf("corner %d: given %v", i, chained)
		}
	}
}
