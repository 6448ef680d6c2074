package drawing

import (
	"math"
	"testing"

	"oxturn/fonts"
)

func near(a, b Box, eps float64) bool {
	return math.Abs(a.X0-b.X0) < eps && math.Abs(a.Y0-b.Y0) < eps && math.Abs(a.X1-b.X1) < eps &&
		math.Abs(a.Y1-b.Y1) < eps
}

func TestTextBox(t *testing.T) {
	w := fonts.Width(fonts.Lettering, "HHH", 2.5)
	for _, c := range []struct {
		name string
		text Text
		want Box
	}{
		{"capitals", Text{Text: "HHH"}, Box{100, 47.5, 100 + w, 50}},
		{"middle", Text{Text: "HHH", Anchor: Middle}, Box{100 - w/2, 47.5, 100 + w/2, 50}},
		{"end", Text{Text: "HHH", Anchor: End}, Box{100 - w, 47.5, 100, 50}},
		{"turned up", Text{Text: "HHH", Angle: 90}, Box{97.5, 50 - w, 100, 50}},
		{"turned up, end", Text{Text: "HHH", Angle: 90, Anchor: End}, Box{97.5, 50, 100, 50 + w}},
		{"turned down", Text{Text: "HHH", Angle: -90}, Box{100, 50, 102.5, 50 + w}},
		{"upside down", Text{Text: "HHH", Angle: 180}, Box{100 - w, 50, 100, 52.5}},
	} {
		c.text.At, c.text.Height = Pt{X: 100, Y: 50}, 2.5
		if got := c.text.Box(); !near(got, c.want, 1e-9) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestTextBoxFollowsInk(t *testing.T) {
	at := func(s string) Box { return (&Text{At: Pt{X: 0, Y: 0}, Height: 2.5, Text: s}).Box() }
	if b := at("gjq"); b.Y1 < 0.4 {
		t.Errorf("descenders of gjq end at %v", b.Y1)
	}
	if b := at("Å"); b.Y0 > -2.9 {
		t.Errorf("the ring of Å ends at %v", b.Y0)
	}
	if b := at("  "); b.H() != 0 || b.W() <= 0 {
		t.Errorf("spaces cover %v", b)
	}
}

func TestBackingTurnsWithTheText(t *testing.T) {
	text := Text{At: Pt{X: 100, Y: 50}, Height: 2.5, Text: "HHH", Layer: LayerDims, Knockout: 0.5}
	for _, angle := range []float64{0, 90, 180} {
		text.Angle = angle
		patch := text.Backing()
		if patch.Layer != LayerDims || *patch.Fill != White || patch.Stroke != nil {
			t.Fatalf("patch %+v", patch)
		}
		if got, want := PathBox(patch.Segs), text.Box().Grow(0.5); !near(got, want, 1e-9) {
			t.Errorf("at %v degrees: %v, want %v", angle, got, want)
		}
	}
	text.Knockout = 0
	if text.Backing() != nil {
		t.Error("a patch without a knock-out")
	}
}

func TestBoxes(t *testing.T) {
	b := Box{0, 0, 10, 5}
	for _, c := range []struct {
		name           string
		other          Box
		meets, contain bool
	}{
		{"inside", Box{1, 1, 2, 2}, true, true},
		{"itself", b, true, true},
		{"touching", Box{10, 0, 12, 5}, false, false},
		{"across", Box{-1, 2, 11, 3}, true, false},
		{"apart", Box{20, 20, 21, 21}, false, false},
	} {
		if b.Meets(c.other) != c.meets || c.other.Meets(b) != c.meets || b.Contains(c.other) != c.contain {
			t.Errorf("%s: meets %v, contains %v", c.name, b.Meets(c.other), b.Contains(c.other))
		}
	}
	if got := b.Union(Box{-1, 2, 3, 9}); got != (Box{-1, 0, 10, 9}) {
		t.Errorf("union %v", got)
	}
	if got := b.Grow(1).Moved(Pt{X: 2, Y: 3}); got != (Box{1, 2, 13, 9}) {
		t.Errorf("grown and moved %v", got)
	}
	if !b.Holds(Pt{X: 10, Y: 5}) || b.Holds(Pt{X: 10.1, Y: 5}) || b.Centre() != (Pt{X: 5, Y: 2.5}) {
		t.Error("edge or centre wrong")
	}
}

func TestUnsettableNamesWhatIsMissing(t *testing.T) {
	s := &Sheet{ID: "plan", Items: []Item{
		&Text{Text: "Bath"}, &Text{Text: "浴室 1"}, &Text{Text: "浴室 1"}, &Path{}, &Text{Text: "tab\there"},
	}}
	got := Unsettable(s)
	if len(got) != 2 || got[0].Sheet != "plan" || string(got[0].Runes) != "浴室" || string(got[1].Runes) != "\t" {
		t.Errorf("%+v", got)
	}
}
