package sheets

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// pictureOf sets the picture of an example's first room on a page of its own.
func pictureOf(t *testing.T, name string, w float64) (warmFloor, *setting.Page) {
	t.Helper()
	p := example(t, name).plan
	m := warmFloors(p)[0].(warmFloor)
	pg := setting.NewPage(p, drawing.Paper{Name: "A3", W: 420, H: 297})
	m.Set(pg, drawing.Pt{X: 50, Y: 50}, w)
	return m, pg
}

// Each step is darker than the one before it on a grey printer, by what an eye tells apart
// (common practice: 4 % of black), and light enough for lettering on it; there is a figure
// where two steps meet on the scale, and all is within the width and height that it says.
func TestWarmFloorIsReadInGrey(t *testing.T) {
	for _, name := range []string{"bath", "kitchen"} {
		for _, w := range []float64{48, 66, 110} {
			m, pg := pictureOf(t, name, w)
			v := warmView{warmFloor: m, steps: m.steps()}
			if n := len(v.steps); n < 2 || n >= mostBands {
				t.Fatalf("%s: steps at %v", name, v.steps)
			}
			for i := range v.steps {
				if a, b := v.tint(i).Lightness(), v.tint(i+1).Lightness(); a-b < 0.04 || b < 0.6 {
					t.Errorf("%s: step %d has lightness %.2f after %.2f", name, i+1, b, a)
				}
			}
			box := drawing.BoxOfItems(pg.Sheet.Items)
			if h := m.Height(pg.Ty, w); box.X0 < 49.5 || box.X1 > 50+w+0.5 || box.Y0 < 49.5 || box.Y1 > 50+h {
				t.Errorf("%s at %g mm: %.1f, said to be %.1f high", name, w, box, h)
			}
			all := "\n"
			for _, tx := range pg.Sheet.Texts() {
				all += tx.Text + "\n"
			}
			wanted := []string{"\n" + degree(m.fig) + "\n",
				"coldest " + say.Tenths(temperature(m.fig, m.state.Coldest.Celsius)),
				"warmest " + say.Tenths(temperature(m.fig, m.state.Warmest.Celsius))}
			for _, s := range v.steps {
				wanted = append(wanted, fmt.Sprintf("\n%.0f\n", s))
			}
			for _, want := range wanted {
				if !strings.Contains(all, want) {
					t.Errorf("%s at %g mm: no %q in %s", name, w, want, all)
				}
			}
		}
	}
}

// Where the picture is painted darkest the floor is warmest: at places on the floor the step
// that lies on top is the one that the spot's temperature belongs to.
func TestWarmFloorIsPaintedAsWarmAsItIs(t *testing.T) {
	m, pg := pictureOf(t, "kitchen", 110)
	v := warmView{warmFloor: m, steps: m.steps()}
	k := m.ratio(110)
	var floor []*drawing.Path
	for _, it := range pg.Sheet.Items {
		if p, ok := it.(*drawing.Path); ok && p.Layer == drawing.LayerFloor {
			floor = append(floor, p)
		}
	}
	tried := 0
	field := drawing.BoxOf(floor[0].Segs[0].To)
	for _, s := range floor[0].Segs {
		if s.Op != drawing.Close {
			field = field.Union(drawing.BoxOf(s.To))
		}
	}
	// the tiled floor's lower left on paper and on the floor
	tiled := m.room.Tiled.Bounds()
	for i, celsius := range m.state.Spots {
		r := m.state.Raster
		at := r.Origin.Add(plane.Pt(float64(i%r.NX)+0.5, float64(i/r.NX)+0.5).Mul(r.Cell))
		if m.room.Tiled.Depth(at) < 50 || i%37 != 0 {
			continue
		}
		want, edge := 0, 99.0
		for n, s := range v.steps {
			if t := temperature(m.fig, celsius); t >= s {
				want = n + 1
			}
			edge = min(edge, max(temperature(m.fig, celsius)-s, s-temperature(m.fig, celsius)))
		}
		if edge < 0.3 { // the line itself
			continue
		}
		paper := drawing.Pt{X: field.X0 + (at.X-tiled.Min.X)/k, Y: field.Y1 - (at.Y-tiled.Min.Y)/k}
		var top drawing.Colour
		for _, p := range floor {
			if p.Fill != nil && drawing.Inside(drawing.Flatten(p.Segs, 0.1), paper) {
				top = *p.Fill
			}
		}
		tried++
		if top != v.tint(want) {
			t.Fatalf("%v at %.2f °C is painted %v, want step %d", at, celsius, top, want)
		}
	}
	if tried < 50 {
		t.Errorf("only %d places tried", tried)
	}
}

// Steps are whole degrees between the coldest and the warmest place, in either scale, and
// fewer than the bands that a picture may have, however far apart those are.
func TestStepsOfAWarmFloor(t *testing.T) {
	m := warmFloor{fig: say.Figures{Units: plane.Millimetres}}
	m.state = sampleFloor(20.4, 24.1)
	if got := fmt.Sprint(m.steps()); got != "[21 22 23 24]" {
		t.Error(got)
	}
	m.state = sampleFloor(18, 31)
	if got := fmt.Sprint(m.steps()); got != "[20 25 30]" {
		t.Error(got)
	}
	m.fig.Units = plane.Inches // 68.72 to 75.38 °F
	m.state = sampleFloor(20.4, 24.1)
	if got := fmt.Sprint(m.steps()); got != "[70 72 74]" {
		t.Error(got)
	}
}

func sampleFloor(coldest, warmest float64) layout.FloorState {
	return layout.FloorState{Coldest: &layout.FloorSpot{Celsius: coldest}, Warmest: &layout.FloorSpot{Celsius: warmest}}
}

// Home paper has the picture too, with the details, of which those in section number the layers; each layer's
// figures stand once, under its name. ISO 10456 table 3 by hand: ceramic tiles 1.3 W/(m K),
// 2300 kg/m³, 840 J/(kg K); cement mortar 1, 1800, 1000; plywood of 500 kg/m³ 0.13, 1600.
func TestHomePaperHasTheWarmFloor(t *testing.T) {
	for _, name := range []string{"bath on letter", "kitchen on A4"} {
		d := example(t, name)
		var all string
		for _, s := range d.set {
			if id := s.ID; strings.HasPrefix(id, "details") || strings.HasPrefix(id, "notes") ||
				strings.HasPrefix(id, takeOffID) || id == coverID {
				all += strings.ReplaceAll(said(s), setting.NoBreak, " ") + " "
			}
		}
		f, cold := d.plan.Job.Figures(), d.plan.Rooms[0].Warm.Cold
		wanted := []string{"Warm floor, settled", "coldest " + say.Tenths(temperature(f, cold.Coldest.Celsius)),
			"warmest " + say.Tenths(temperature(f, cold.Warmest.Celsius)), "1.3 W/(m K), 2300 kg/m³, 840 J/(kg K)",
			"1 W/(m K), 1800 kg/m³, 1000 J/(kg K)"}
		if name == "bath on letter" {
			wanted = append(wanted, "0.13 W/(m K), 500 kg/m³, 1600 J/(kg K)", "1, 2, 4: ISO 10456")
		}
		for _, want := range wanted {
			if n := strings.Count(all, want); n != 1 {
				t.Errorf("%s: %q stands %d times", name, want, n)
			}
		}
		if n := strings.Count(all, "porcelain tile"); n != 1 {
			t.Errorf("%s: the tile's name stands %d times", name, n)
		}
	}
}
