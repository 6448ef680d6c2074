package pdf

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strings"
	"testing"

	"oxturn/drawing"
)

var streams = regexp.MustCompile(`(?s)<<[^>]*?>>\s*stream\r?\n(.*?)\r?\nendstream`)

// content returns the drawing operators of a document, unpacked.
func content(t testing.TB, data []byte) string {
	t.Helper()
	var out strings.Builder
	for _, m := range streams.FindAllSubmatch(data, -1) {
		r, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue // not packed: not ours
		}
		text, err := io.ReadAll(r)
		if err != nil && err != io.ErrUnexpectedEOF {
			t.Fatal(err)
		}
		if bytes.Contains(text, []byte(" re n")) {
			out.Write(text)
		}
	}
	if out.Len() == 0 {
		t.Fatal("no page content found")
	}
	return out.String()
}

// tidy puts operators on one line, blanks folded.
func tidy(s string) string { return strings.Join(strings.Fields(s), " ") }

// What raw hands to the library must stand in the page as it is, between q and
// Q, after a rectangle that draws nothing. This breaks when the library
// changes how it writes rectangles.
func TestRawOperatorsReachThePage(t *testing.T) {
	red := drawing.HeatRed
	s := sheetOf(
		&drawing.Path{
			Layer: drawing.LayerCable, Stroke: &drawing.Stroke{Width: 25.4 / 72},
			Segs: drawing.Polyline(drawing.Pt{X: 0, Y: 0}, drawing.Pt{X: 25.4, Y: 0}, drawing.Pt{X: 25.4, Y: 25.4}),
		},
		&drawing.Path{
			Layer: drawing.LayerLeads, Stroke: &drawing.Stroke{Width: 2 * 25.4 / 72, Dash: []float64{25.4, 12.7},
				Butt: true},
			Segs: []drawing.Seg{{Op: drawing.Move}, {Op: drawing.Curve, C1: drawing.Pt{X: 25.4},
				C2: drawing.Pt{X: 25.4, Y: 25.4}, To: drawing.Pt{Y: 25.4}}},
		},
		&drawing.Path{Layer: drawing.LayerMarks, Fill: &red, Segs: drawing.Rectangle(drawing.Box{X1: 25.4, Y1: 25.4})},
		&drawing.Path{Layer: drawing.LayerFrame, Fill: &red, Stroke: &drawing.Stroke{Width: 25.4 / 72},
			Segs: drawing.Polyline(drawing.Pt{}, drawing.Pt{X: 25.4})},
	)
	got := tidy(content(t, write(t, s)))
	for _, want := range []string{
		"re n 1 w 1 j 1 J 0 144 m 72 144 l 72 72 l S Q",
		"re n 2 w 1 j 0 J [72 36] 0 d 0 144 m 72 144 72 72 0 72 c S Q",
		"re n 0.502 0 0 rg 0 72 72 72 re f* Q",
		"re n 0.502 0 0 rg 1 w 1 j 1 J 0 144 m 72 144 l B* Q",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the page lacks %q:\n%s", want, got)
		}
	}
	if open, closed := strings.Count(got, "q "), strings.Count(got+" ", "Q "); open != closed {
		t.Errorf("%d q and %d Q", open, closed)
	}
}

func TestPathsThatDrawNothingAreLeftOut(t *testing.T) {
	got := content(t, write(t, sheetOf(&drawing.Path{Segs: drawing.Circle(drawing.Pt{}, 5)},
		&drawing.Path{Stroke: drawing.ThinLine()})))
	if strings.Contains(got, " c\n") || strings.Contains(got, "S") {
		t.Errorf("something was drawn:\n%s", got)
	}
}

func TestClean(t *testing.T) {
	for in, want := range map[string]string{"Bath": "Bath", "a\nb\x00": "a b ", "Ω": "Ω", "🛁": "\uFFFD"} {
		if got := clean(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
