package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/internal/specimen"
	"oxturn/fonts"
)

// allowed is every element and attribute a picture may have.
var allowed = map[string][]string{
	"svg": {"width", "height", "viewBox", "role", "fill", "fill-rule", "stroke-linejoin", "stroke-linecap",
		"font-family", "xmlns", "xmlns:xlink"},
	"title": nil, "desc": nil,
	"g":    {"id", "class"},
	"path": {"class", "d", "fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap"},
	"text": {"x", "y", "font-size", "font-weight", "fill", "textLength", "lengthAdjust", "text-anchor", "transform",
		"xml:space"},
}

// An element is what a test needs of one.
type element struct {
	name  string
	attrs map[string]string
	text  string
}

// parse reads a picture strictly, and refuses what is not allowed.
func parse(t testing.TB, data []byte) []element {
	t.Helper()
	var all []element
	var open []int
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		tok, err := d.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, data)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			open = append(open, len(all))
			all = append(all, read(t, tok))
		case xml.EndElement:
			if len(open) == 0 || all[open[len(open)-1]].name != tok.Name.Local {
				t.Fatalf("%s closes nothing", tok.Name.Local)
			}
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(tok)
			}
		}
	}
	if len(open) > 0 {
		t.Fatal("elements are left open")
	}
	return all
}

func read(t testing.TB, tok xml.StartElement) element {
	t.Helper()
	names, ok := allowed[tok.Name.Local]
	if !ok || tok.Name.Space != "" {
		t.Fatalf("unexpected element %v", tok.Name)
	}
	e := element{name: tok.Name.Local, attrs: map[string]string{}}
	for _, a := range tok.Attr {
		name := a.Name.Local
		if a.Name.Space != "" {
			name = a.Name.Space + ":" + name
		}
		if !slices.Contains(names, name) {
			t.Fatalf("unexpected attribute %s of %s", name, e.name)
		}
		if _, twice := e.attrs[name]; twice {
			t.Fatalf("attribute %s of %s comes twice", name, e.name)
		}
		e.attrs[name] = a.Value
	}
	return e
}

func write(t testing.TB, s *drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func sheetOf(items ...drawing.Item) *drawing.Sheet {
	return &drawing.Sheet{ID: "p", Title: "Page", Paper: drawing.Paper{Name: "small", W: 100, H: 50}, Items: items}
}

func TestSpecimenIsWellFormed(t *testing.T) {
	all := parse(t, write(t, specimen.Sheet()))
	root := all[0]
	for name, want := range map[string]string{"width": "420mm", "height": "297mm", "viewBox": "0 0 420 297",
		"role": "img"} {
		if root.attrs[name] != want {
			t.Errorf("%s is %q, want %q", name, root.attrs[name], want)
		}
	}
	if all[1].name != "title" || all[1].text != "Specimen" || all[2].name != "desc" {
		t.Errorf("the picture begins with %v", all[1:3])
	}
}

// Numbers are plain: no exponent, no minus zero, no more than three decimals.
func TestNumbersArePlain(t *testing.T) {
	number := regexp.MustCompile(`-?[0-9.]+(e[-+]?\d+)?`)
	plain := regexp.MustCompile(`^(0|-?[1-9]\d*|-?\d+\.\d{1,3})$`)
	for _, e := range parse(t, write(t, specimen.Sheet())) {
		for name, v := range e.attrs {
			if name == "class" || name == "id" || strings.HasPrefix(name, "xml") || strings.HasPrefix(v, "#") {
				continue
			}
			for _, n := range number.FindAllString(v, -1) {
				if !plain.MatchString(n) || strings.Trim(n, "-0.") == "" && n != "0" && !strings.HasPrefix(n, "0.") {
					t.Fatalf("%s of %s holds %q", name, e.name, n)
				}
			}
		}
	}
}

func TestLayersInOrder(t *testing.T) {
	var got, want []string
	for _, e := range parse(t, write(t, specimen.Sheet())) {
		if strings.HasPrefix(e.attrs["class"], "layer ") {
			got = append(got, strings.TrimPrefix(e.attrs["id"], "layer-"))
		}
	}
	for _, g := range specimen.Sheet().Groups() {
		want = append(want, string(g.Layer))
	}
	if !slices.Equal(got, want) || len(got) < 6 {
		t.Errorf("layers %v, want %v", got, want)
	}
}

func TestPath(t *testing.T) {
	fill := drawing.HeatRed
	p := &drawing.Path{
		Layer: drawing.LayerCable, Title: `cable <H1> & "co"`, Fill: &fill,
		Segs: append(drawing.Rounded([]drawing.Pt{{X: 0, Y: -0.0001}, {X: 10.12345, Y: 0}, {X: 10, Y: 10}}, 0),
			drawing.Seg{Op: drawing.Close}),
		Stroke: &drawing.Stroke{Width: 0.5, Dash: []float64{2, 1.5}, Butt: true},
	}
	all := parse(t, write(t, sheetOf(p)))
	group, title, path := all[4], all[5], all[6]
	if group.attrs["class"] != "object" || title.name != "title" || title.text != p.Title {
		t.Errorf("titled object is %v %v", group, title)
	}
	for name, want := range map[string]string{
		"d": "M0 0L10.123 0L10 10Z", "fill": "#800000", "stroke": "#000", "stroke-width": "0.5",
		"stroke-dasharray": "2 1.5", "stroke-linecap": "butt",
	} {
		if path.attrs[name] != want {
			t.Errorf("%s is %q, want %q", name, path.attrs[name], want)
		}
	}
}

func TestText(t *testing.T) {
	text := &drawing.Text{
		Layer: drawing.LayerDims, At: drawing.Pt{X: 50, Y: 25.5}, Text: "2850 <mm>", Height: 2.5,
		Face: fonts.LetteringBold, Anchor: drawing.Middle, Angle: 90, Knockout: 0.5,
	}
	all := parse(t, write(t, sheetOf(text)))
	patch, got := all[len(all)-2], all[len(all)-1]
	if patch.name != "path" || patch.attrs["fill"] != "#fff" {
		t.Errorf("no white under the text, but %v", patch)
	}
	if strings.TrimSpace(got.text) != text.Text {
		t.Errorf("text is %q", got.text)
	}
	for name, want := range map[string]string{
		"transform": "rotate(-90 50 25.5)", "text-anchor": "middle", "font-weight": "bold",
		"lengthAdjust": "spacingAndGlyphs",
		"font-size":    num(2.5 * 2048 / 1480), "textLength": num(fonts.Width(fonts.LetteringBold, text.Text, 2.5)),
	} {
		if got.attrs[name] != want {
			t.Errorf("%s is %q, want %q", name, got.attrs[name], want)
		}
	}
}

func TestNothingIsDrawnForNothing(t *testing.T) {
	all := parse(t, write(t, sheetOf(&drawing.Path{Title: "none", Layer: drawing.LayerCable},
		&drawing.Text{Height: 2.5, Layer: drawing.LayerText})))
	for _, e := range all[3:] {
		if e.name != "g" && e.attrs["class"] != "paper" {
			t.Errorf("unexpected %v", e)
		}
	}
}

func TestSameSheetSameBytes(t *testing.T) {
	if !bytes.Equal(write(t, specimen.Sheet()), write(t, specimen.Sheet())) {
		t.Error("two pictures of one sheet differ")
	}
}

func TestBadNumbersAreAnError(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), 1e308} {
		var b bytes.Buffer
		err := Write(&b, sheetOf(&drawing.Path{Segs: drawing.Polyline(drawing.Pt{X: v})}))
		if err == nil || b.Len() > 0 {
			t.Errorf("%v: error %v, %d bytes written", v, err, b.Len())
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteErrorComesBack(t *testing.T) {
	if err := Write(full{}, sheetOf()); err == nil || !strings.Contains(err.Error(), "disk full") {
		t.Errorf("error %v", err)
	}
}

// FuzzText puts any text in every place where text goes: what comes out is
// still XML, has nothing but what is allowed, and says the same.
func FuzzText(f *testing.F) {
	for _, s := range []string{"Bath", `"/><script>x</script>`, "]]>", "a\x00b\xff", "&amp;<>'\"", "-->", "\u202e浴室",
		"=", "  two  "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		sheet := sheetOf(
			&drawing.Path{Layer: drawing.Layer(s), Title: s, Segs: drawing.Polyline(drawing.Pt{}, drawing.Pt{X: 1}),
				Stroke: drawing.ThinLine()},
			&drawing.Text{Layer: drawing.LayerText, Text: s, At: drawing.Pt{X: 1, Y: 1}, Height: 2.5, Knockout: 1},
		)
		sheet.ID, sheet.Title, sheet.Description = s, s, s
		want := strings.Map(readable, s)
		seen := 0
		for _, e := range parse(t, write(t, sheet)) {
			switch e.name {
			case "title", "desc", "text":
				seen++
				if strings.TrimSuffix(e.text, "\n") != want && e.text != want {
					t.Errorf("%s says %q, want %q", e.name, e.text, want)
				}
			}
		}
		if full := len(s) > 0; full && seen != 4 || !full && seen != 1 {
			t.Errorf("%d texts for %q", seen, s)
		}
	})
}

// readable is what XML can hold; the rest becomes the replacement character.
func readable(r rune) rune {
	switch {
	case r == '\t', r == '\n', r == '\r', r >= 0x20 && r <= 0xD7FF, r >= 0xE000 && r <= 0xFFFD, r >= 0x10000:
		return r
	}
	return 0xFFFD
}

func TestRenderedByAnotherProgram(t *testing.T) {
	img := outside.RasterSVG(t, write(t, specimen.Sheet()), "72")
	if b := img.Bounds(); b.Dx() != 1191 || b.Dy() != 842 {
		t.Errorf("an A3 sheet at 72 dots an inch is %v", b)
	}
	// the frame, 20 mm from the left edge
	if d := outside.Dark(img, int(math.Round(20/25.4*72)), 400); d < 0.5 {
		t.Errorf("no frame where it belongs: darkness %v", d)
	}
}

func BenchmarkWrite(b *testing.B) {
	s := specimen.Sheet()
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, s); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleWrite() {
	s := &drawing.Sheet{ID: "square", Title: "Square", Paper: drawing.Paper{W: 20, H: 20}, Items: []drawing.Item{
		&drawing.Path{Layer: drawing.LayerWalls, Segs: drawing.Rectangle(drawing.Box{X0: 5, Y0: 5, X1: 15, Y1: 15}),
			Stroke: drawing.WallLine()},
	}}
	var b bytes.Buffer
	if err := Write(&b, s); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	lines := strings.Split(b.String(), "\n")
	fmt.Println(lines[len(lines)-4])
	// Output: <path d="M5 5L15 5L15 15L5 15Z" stroke="#000" stroke-width="0.7" />
}
