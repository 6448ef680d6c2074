package job

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// Things at both faces of a partition from A at 1200 straight up, 100 mm thick, by hand; and
// in the middle between the wall and another thing, next to it, and turned the right way.
func TestThingsAtPartitions(t *testing.T) {
	thing := func(says string) string { return "[[room.fixture]]\nkind = \"vanity\"\n" + says + "\n" }
	r := roomOf(t, anticlockwise, "[[room.partition]]\nname = \"wing\"\nfrom = \"A 1200\"\nto = [1200, 1500]\n"+
		"thickness = 100\n"+
		thing("name = \"va\"\nwall = \"wing\"\nfrom = 200\nwidth = 500\ndepth = 400")+
		thing("name = \"vb\"\nwall = \"Wing\"\nface = \"right\"\nto_end = 100\nwidth = 500\ndepth = 400\noff = 20")+
		thing("name = \"vc\"\nbeside = \"va\"\ngap = 50\nwidth = 300\ndepth = 400")+
		thing("name = \"vd\"\nwall = \"wing\"\nface = \"right\"\nbetween = [\"A\", \"vb\"]\nwidth = 300\ndepth = 400")+
		"[[room.fixing]]\nkind = \"hook\"\nwall = \"wing\"\nface = \"right\"\nfrom = 300\n")
	for i, want := range []plane.Rect{
		{Min: plane.Pt(750, 200), Max: plane.Pt(1150, 700)}, // the left of the way up is west
		{Min: plane.Pt(1270, 900), Max: plane.Pt(1670, 1400)},
		{Min: plane.Pt(750, 750), Max: plane.Pt(1150, 1050)},
		{Min: plane.Pt(1250, 300), Max: plane.Pt(1650, 600)},
	} {
		f := r.Fixtures[i]
		b := f.Outline.Bounds()
		samePoints(t, f.Name, []plane.Point{b.Min, b.Max}, []plane.Point{want.Min, want.Max})
		if left := f.Back.B.Sub(f.Back.A).Left().Dot(b.Centre().Sub(f.Back.A)); left <= 0 {
			t.Errorf("%s stands on the right of its back", f.Name)
		}
	}
	samePoints(t, "hook", r.Fixings[0].Line, []plane.Point{{X: 1250, Y: 300}})
}

// Against a curve the ends of a thing's back are at the wall where it is hollow, its middle
// where it bulges in: radius and places by hand of a half circle over 2 m.
func TestThingsAtCurves(t *testing.T) {
	const arc = "[[room.arc]]\nwall = \"B\"\nrise = 1000\n" // round (3000, 1000), where anticlockwise is 3 by 2 m
	half := math.Pi * 1000 / 2
	at := func(says string) string {
		return "[[room.fixture]]\nkind = \"vanity\"\nwall = \"B\"\n" + says + "\nwidth = 800\ndepth = 300\n"
	}
	hollow := roomOf(t, anticlockwise, arc+at("centre = \""+fmt.Sprintf("%.6f", half)+" mm\"")).Fixtures[0]
	samePoints(t, "in a hollow curve", []plane.Point{hollow.Back.A, hollow.Back.B},
		[]plane.Point{{X: 3000 + math.Sqrt(1e6-400*400), Y: 600}, {X: 3000 + math.Sqrt(1e6-400*400), Y: 1400}})
	bulging := roomOf(t, anticlockwise, strings.Replace(arc, "1000", "1000\ninto = true", 1)+
		at("centre = \""+fmt.Sprintf("%.6f", half)+" mm\"")).Fixtures[0]
	samePoints(t, "at a bulging curve", []plane.Point{bulging.Back.A, bulging.Back.B},
		[]plane.Point{{X: 2000, Y: 600}, {X: 2000, Y: 1400}})
	along := roomOf(t, anticlockwise, arc+at("from = 300")+"[[room.fixture]]\nkind = \"vanity\"\nbeside = "+
		"\"vanity\"\n"+
		"gap = 100\nwidth = 400\ndepth = 300\n")
	// the front corners of the first lie nearest to the second: 400 mm off its middle, 300 in from its back
	front := 1000 * math.Atan(400/(math.Sqrt(1e6-400*400)-300))
	for i, f := range along.Fixtures {
		middle := f.Back.A.Lerp(f.Back.B, 0.5)
		want := -math.Pi/2 + []float64{700, 700 + front + 100 + 200}[i]/1000
		if got := plane.Atan2(middle.Y-1000, middle.X-3000); math.Abs(got-want) > 1e-3 {
			t.Errorf("%s stands at %.3f, want %.3f", f.Name, got, want)
		}
	}
}

// A door in a curve stands in a straight frame: one side takes the place of those it cuts.
func TestDoorInCurve(t *testing.T) {
	r := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"B\"\nrise = 1000\n"+
		"[[room.opening]]\nwall = \"C\"\nfrom = 100\nwidth = 700\n[[room.opening]]\nwall = \"B\"\nfrom = 400\nwidth "+
		"= 900\n")
	door, other := r.Openings[1], r.Openings[0]
	w := r.Walls[door.Wall]
	if want := 2 * 1000 * math.Sin(0.9/2); w.Letter != "B" || math.Abs(w.Length()-want) > 1 || door.To != w.Length() {
		t.Errorf("the door is in wall %s of %.1f mm, want %.1f", w.Letter, w.Length(), want)
	}
	two := roomOf(t, anticlockwise, "[[room.arc]]\nwall = \"B\"\nrise = 1000\n"+
		"[[room.opening]]\nwall = \"B\"\nto_end = 0\nwidth = 900\n[[room.opening]]\nwall = \"B\"\nfrom = 0\nwidth = "+
		"800\n")
	for i, width := range []float64{0.9, 0.8} {
		if got, want := two.Walls[two.Openings[i].Wall].Length(), 2000*math.Sin(width/2); math.Abs(got-want) > 1 {
			t.Errorf("door %d of two is in a wall of %.1f mm, want %.1f", i+1, got, want)
		}
	}
	if r.Walls[other.Wall].Letter != "C" {
		t.Errorf("the other door went to wall %s", r.Walls[other.Wall].Letter)
	}
	letters := 0
	for i := range r.Walls {
		if r.Walls[i].Letter == "B" && r.BearsLetter(i) {
			letters++
		}
	}
	if letters != 1 {
		t.Errorf("the curve bears its letter %d times", letters)
	}
}

// A niche of 900 by 400 mm adds its floor to a room of 3 by 2 m, keeps the places along its
// wall, and its sides are walls of their own.
func TestNiche(t *testing.T) {
	niche := "[[room.niche]]\nname = \"bed\"\nwall = \"A\"\nfrom = 1000\nwidth = 900\ndepth = 400\n"
	r := roomOf(t, anticlockwise, niche+
		"[[room.opening]]\nwall = \"A\"\nfrom = 2000\nwidth = 700\n"+
		"[[room.fixture]]\nkind = \"cabinet\"\nwall = \"A.2\"\nfrom = 0\nwidth = 900\ndepth = 300\n")
	if got := r.Outline.Area(); math.Abs(got-6.36e6) > 1 {
		t.Errorf("the floor has %.0f mm²", got)
	}
	if o := r.Openings[0]; r.Walls[o.Wall].Letter != "A.4" || math.Abs(o.From-100) > 1e-6 {
		t.Errorf("the door is at %.0f of wall %s", o.From, r.Walls[o.Wall].Letter)
	}
	b := r.Fixtures[0].Outline.Bounds()
	samePoints(t, "the bed", []plane.Point{b.Min, b.Max}, []plane.Point{{X: 1000, Y: -400}, {X: 1900, Y: -100}})
	for says, want := range map[string]KeepOut{"tiled = false\n": {Tiled: false}, "heated = false\n": {Tiled: true,
		Cold: true}} {
		k := roomOf(t, anticlockwise, niche+says).KeepOuts
		if len(k) != 1 || k[0].Tiled != want.Tiled || k[0].Cold != want.Cold || k[0].Name != "bed" {
			t.Errorf("%s: %+v", says, k)
		}
	}
}

func TestPlacesOnBasesRefused(t *testing.T) {
	const wing = "[[room.partition]]\nname = \"wing\"\nfrom = \"A 1200\"\nto = [1200, 900]\n"
	const niche = "[[room.niche]]\nwall = \"A\"\nfrom = 1000\nwidth = 900\ndepth = 400\n"
	for _, c := range []struct{ text, want string }{
		{wing + "[[room.fixture]]\nkind = \"vanity\"\nwall = \"wing\"\nfrom = 500\nwidth = 600\n",
			"beyond the end of wing"},
		{wing + "[[room.fixture]]\nkind = \"vanity\"\nwall = \"A\"\nface = \"left\"\nfrom = 0\n", "has one face"},
		{"[[room.arc]]\nwall = \"B\"\nrise = 1000\n" +
			strings.Repeat("[[room.opening]]\nwall = \"B\"\nfrom = 100\nwidth = 600\n", 2),
			"door overlaps door on wall B"},
		{wing + "[[room.opening]]\nwall = \"wing\"\nfrom = 0\nwidth = 600\n", "is in a partition, wing"},
		{niche + "[[room.opening]]\nwall = \"A\"\nfrom = 800\nwidth = 600\n", "lies in a niche of wall A"},
		{niche + niche, "lies in a niche of wall A"},
		{"[[room.niche]]\nwall = \"A\"\nfrom = 0\nwidth = 900\ndepth = 400\n", "in a corner of wall A"},
		{"[[room.niche]]\nwidth = 900\ndepth = 400\n", "is in no wall"},
	} {
		if said := saidOf(t, anticlockwise, c.text); !strings.Contains(said, c.want) {
			t.Errorf("%q: %s", c.text, said)
		}
	}
}
