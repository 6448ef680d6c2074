package drawing

import (
	"math"
	"strings"
	"testing"
)

func TestCheckNamesTheItem(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	line := Polyline(Pt{X: 0, Y: 0}, Pt{X: 1, Y: 1})
	good := &Path{Layer: LayerFloor, Segs: line, Stroke: ThinLine()}
	for name, it := range map[string]Item{
		"NaN place":           &Path{Title: "it", Segs: Polyline(Pt{X: nan, Y: 0})},
		"infinite handle":     &Path{Title: "it", Segs: []Seg{{Op: Curve, C1: Pt{X: 0, Y: inf}}}},
		"far away":            &Path{Title: "it", Segs: Polyline(Pt{X: 1e300, Y: 0})},
		"NaN width":           &Path{Title: "it", Segs: line, Stroke: &Stroke{Width: nan}},
		"negative width":      &Path{Title: "it", Segs: line, Stroke: &Stroke{Width: -1}},
		"negative dash":       &Path{Title: "it", Segs: line, Stroke: &Stroke{Width: 1, Dash: []float64{3, -1}}},
		"empty dash":          &Path{Title: "it", Segs: line, Stroke: &Stroke{Width: 1, Dash: []float64{0, 0}}},
		"text nowhere":        &Text{Text: "it", At: Pt{X: inf, Y: 0}, Height: 2.5},
		"text without height": &Text{Text: "it"},
		"unknown anchor":      &Text{Text: "it", Height: 2.5, Anchor: 7},
	} {
		s := &Sheet{ID: "plan", Paper: Paper{"A4", 210, 297}, Items: []Item{good, it}}
		err := s.Check()
		if err == nil || !strings.Contains(err.Error(), "plan") || !strings.Contains(err.Error(), "item 1") ||
			!strings.Contains(err.Error(), `"it"`) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := (&Sheet{Items: []Item{good}}).Check(); err == nil {
		t.Error("a sheet without paper passed")
	}
	if err := (&Sheet{Paper: Paper{"A4", 210, 297}, Items: []Item{nil}}).Check(); err == nil {
		t.Error("an item that is nothing passed")
	}
	if err := (&Sheet{Paper: Paper{"A4", 210, 297}, Items: []Item{good}}).Check(); err != nil {
		t.Error(err)
	}
}

func TestGroupsKeepOrder(t *testing.T) {
	text := func(l Layer, s string) *Text { return &Text{Layer: l, Text: s} }
	s := &Sheet{Items: []Item{
		text(LayerFrame, "f"), text(LayerCable, "c1"), text("new", "n"), text(LayerFloor, "a"), text(LayerCable, "c2"),
	}}
	got := ""
	for _, g := range s.Groups() {
		for _, it := range g.Items {
			if it.layer() != g.Layer {
				t.Errorf("%v is in group %s", it, g.Layer)
			}
			got += it.(*Text).Text + " "
		}
	}
	if want := "a c1 c2 f n "; got != want {
		t.Errorf("order %q, want %q", got, want)
	}
}
