package sheets

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/plane"
	"oxturn/layout/route"
)

// bubbles returns where the bubbles of a sheet stand, by the number in them, and what they say
// the sheet is.
func bubbles(s *drawing.Sheet) map[int][]string {
	out := map[int][]string{}
	for _, it := range s.Items {
		p, ok := it.(*drawing.Path)
		if !ok || !strings.HasPrefix(p.Title, "detail ") {
			continue
		}
		n, err := strconv.Atoi(strings.TrimPrefix(p.Title, "detail "))
		for _, tx := range s.Texts() {
			if err == nil && p.Box().Contains(tx.Box()) && (tx.Box().Centre().Y > p.Box().Centre().Y ||
				strings.HasPrefix(tx.Text, strconv.Itoa(n)+"/")) {
				_, sheet, low := strings.Cut(tx.Text, "/")
				if !low {
					sheet = tx.Text
				}
				out[n] = append(out[n], sheet)
			}
		}
	}
	return out
}

// TestCalloutsNameTheirSheets: every bubble names the sheet whose detail has its number as its
// title, and every detail is called out on a plan, in the field or by a note.
func TestCalloutsNameTheirSheets(t *testing.T) {
	for _, name := range append(slices.Clone(examples), "bath on letter", "kitchen on A4") {
		d := example(t, name)
		of := map[int]string{}
		for i, pg := range d.pages {
			for _, n := range pg.Details {
				if of[n] != "" {
					t.Errorf("%s: detail %d stands on %s and on %s", name, n, of[n], d.set[i].Label)
				}
				of[n] = d.set[i].Label
			}
		}
		if want := len(detailsOf(d.plan)); len(of) != want || want < 4 {
			t.Errorf("%s: %d details of %d are drawn", name, len(of), want)
		}
		called, notes := map[int]int{}, ""
		for _, s := range d.set {
			notes += said(s)
			for n, sheets := range bubbles(s) {
				called[n] += len(sheets)
				for _, label := range sheets {
					if label != of[n] {
						t.Errorf("%s, %s: detail %d is said to be on %q, it is on %q", name, s.Label, n, label, of[n])
					}
				}
			}
		}
		for _, m := range regexp.MustCompile(`detail (\d+), (\w+-\d+)`).FindAllStringSubmatch(
			strings.ReplaceAll(notes, setting.NoBreak, " "), -1) {
			n, _ := strconv.Atoi(m[1])
			if called[n]++; m[2] != of[n] {
				t.Errorf("%s: a note says that detail %d is on %s, it is on %s", name, n, m[2], of[n])
			}
		}
		for _, x := range detailsOf(d.plan) {
			if called[x.number] < 2 {
				t.Errorf("%s: detail %d, %s, is called out nowhere", name, x.number, x.name)
			}
		}
	}
}

// TestPhases: what is bold in a picture is as long as the cable used there. By hand: a round
// corner of a quarter turn is shorter than a sharp one by (2 - pi/2) radii.
func TestPhases(t *testing.T) {
	d := example(t, "bath")
	r := &d.plan.Rooms[0]
	c := &r.Cables[0]
	var steps []phase
	for _, b := range phasesOf(roomView(d.plan, r)) {
		steps = b.(phases).steps
	}
	if len(steps) != 5 {
		t.Fatalf("%d pictures", len(steps))
	}
	for i, share := range []float64{0, 0.25, 0.5, 0.75, 1} {
		before, hand, after := cutAfter(c, steps[i].laid)
		corners := float64(max(0, len(before)-2))
		length := plane.PathLength(before) - corners*(2-math.Pi/2)*c.BendRadius
		if i > 0 && math.Abs(length-share*c.Label.Length) > 0.01*c.Label.Length {
			t.Errorf("picture %d: %.0f mm are bold, %.2f of %.0f are laid", i, length, share, c.Label.Length)
		}
		if before[len(before)-1] != hand || len(after) > 0 && after[0] != hand {
			t.Errorf("picture %d: cut at %v, %v begins elsewhere", i, hand, after[:1])
		}
	}
	if all := strings.Join(steps[2].words, " "); !strings.Contains(all, "Run 11, peg 26, 32.0 ft") ||
		!strings.Contains(all, "Half-way mark") {
		t.Errorf("at half of the cable: %s", all)
	}
}

// TestPicturesAreFew: a room has six pictures at most however many cables it has, in order.
func TestPicturesAreFew(t *testing.T) {
	for n, want := range map[int]int{1: 5, 2: 6, 3: 6, 4: 4, 5: 5, 6: 6, 7: 6, 12: 6} {
		got := 0
		for k := range n {
			got += phasesEach(k, n)
		}
		if got != want {
			t.Errorf("%d cables have %d pictures, want %d", n, got, want)
		}
	}
	p := example(t, "kitchen").plan
	var names []string
	for _, s := range phasesOf(roomView(p, &p.Rooms[0]))[0].(phases).steps {
		names = append(names, s.name)
	}
	if got := strings.Join(names, "; "); got != "H1 START; H1 1/2, check; H1 END; H2 START; H2 1/2, check; H2 END" {
		t.Errorf("pictures: %s", got)
	}
}

// TestDetailsStayInTheirBoxes: at any width of a column.
func TestDetailsStayInTheirBoxes(t *testing.T) {
	for _, name := range []string{"bath", "kitchen"} {
		p := example(t, name).plan
		blocks := phasesOf(roomView(p, &p.Rooms[0]))
		for _, d := range detailsOf(p) {
			blocks = append(blocks, d)
		}
		for _, w := range []float64{64, 80, 118, 180} {
			for _, b := range blocks {
				pg := setting.NewPage(p, drawing.Paper{Name: "A2", W: 594, H: 420})
				h := b.Height(pg.Ty, w)
				if h >= noRoom {
					continue
				}
				b.Set(pg, drawing.Pt{X: 50, Y: 50}, w)
				box := drawing.Box{X0: 49.5, Y0: 49.5, X1: 50.5 + w, Y1: 50.5 + h}
				for _, it := range pg.Sheet.Items {
					if !box.Contains(drawing.BoxOfItem(it)) {
						t.Errorf("%s, %T, %g wide: %s reaches to %.1f of %.1f", name, b, w, describe(it),
							drawing.BoxOfItem(it), box)
					}
				}
				pg.Sheet.ID = "details"
				checkLettering(t, pg.Sheet)
				checkOverCable(t, pg.Sheet)
				checkDimensions(t, pg.Sheet)
			}
		}
	}
}

// TestLeadsComeApart: at the foot of the box every lead and tube has a place of its own, and
// where they are seen no more they lie as planned.
func TestLeadsComeApart(t *testing.T) {
	r := &example(t, "kitchen").plan.Rooms[0]
	var feet []plane.Point
	apart := apartAtBox(r)
	add := func(was, is []plane.Point) {
		feet = append(feet, is[0])
		if is[len(is)-1] != was[len(was)-1] {
			t.Errorf("a lead ends at %v, planned %v", is[len(is)-1], was[len(was)-1])
		}
	}
	for i := range apart.Cables {
		add(r.Cables[i].ColdLead, apart.Cables[i].ColdLead)
	}
	for i := range apart.Sensors {
		add(r.Sensors[i].Lead, apart.Sensors[i].Lead)
	}
	for i, p := range feet {
		for _, q := range feet[:i] {
			if p.Dist(q) < leadGap-1 {
				t.Errorf("feet %v apart", p.Dist(q))
			}
		}
	}
	if r.Cables[0].ColdLead[0] == apart.Cables[0].ColdLead[0] {
		t.Error("the plan itself was changed, or nothing was")
	}
}

// TestCrossingAtAnyCorner: whichever corner of the paper P1 is in, its figures stand off the
// words below, and all stays in the block.
func TestCrossingAtAnyCorner(t *testing.T) {
	p := example(t, "kitchen").plan
	level, upright := drawing.Pt{X: 1}, drawing.Pt{Y: 1}
	for _, in := range [][2]drawing.Pt{{level, upright}, {upright, level}, {level.Mul(-1), upright},
		{upright.Mul(-1), level}, {level, upright.Mul(-1)}, {upright.Mul(-1), level.Mul(-1)}} {
		d := crossingDetail{from1: 198, from2: 209, figure1: "198", figure2: "209", in1: in[0], in2: in[1],
			pitch1: 30, pitch2: 30, has: func(i, j int) bool { return true }}
		pg := setting.NewPage(p, drawing.Paper{Name: "A3", W: 420, H: 297})
		d.Set(pg, drawing.Pt{X: 50, Y: 50}, 80)
		pg.Sheet.ID = "crossing"
		checkLettering(t, pg.Sheet)
		checkDimensions(t, pg.Sheet)
		box := drawing.Box{X0: 49.5, Y0: 49.5, X1: 130.5, Y1: 50.5 + d.Height(pg.Ty, 80)}
		for _, it := range pg.Sheet.Items {
			if !box.Contains(drawing.BoxOfItem(it)) {
				t.Errorf("%v: %s reaches to %.1f of %.1f", in, describe(it), drawing.BoxOfItem(it), box)
			}
		}
	}
}

// Of staggered rows, pegs 60 mm apart in rows 40 mm apart stand in every second field between the channels, 15 mm off
// those on either side; each row lies half a pitch from the next.
func TestStaggeredPegsStandInEverySecondField(t *testing.T) {
	l := route.Lattice{Origin: plane.Pt(7, 9), Angle: 0.3, Pitch: 30, Across: 40}
	at := l.ToWorld(2.5, 3.5)
	if has := standing(false, l, at); !has(0, 0) || !has(0, 1) {
		t.Error("straight rows have gaps")
	}
	has := standing(true, l, at)
	for i := -3; i < 4; i++ {
		for j := -3; j < 4; j++ {
			if want := (2+3+i+j)%2 == 0; has(i, j) != want {
				t.Errorf("%d, %d: %v", i, j, !want)
			}
		}
	}
}
