package fonts

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/signintech/gopdf/fontmaker/core"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// opened returns a face read by the PDF library's own reader.
func opened(t *testing.T, f Face) *core.TTFParser {
	t.Helper()
	var p core.TTFParser
	if err := p.ParseFontData(Data(f)); err != nil {
		t.Fatal(err)
	}
	return &p
}

// The face's own statement of its capital height, in its OS/2 table, must
// agree with the H that sizes are taken from: 1480 of 2048 units.
func TestCapHeight(t *testing.T) {
	for _, f := range Faces() {
		parsed, err := sfnt.Parse(Data(f))
		if err != nil {
			t.Fatal(err)
		}
		m, err := parsed.Metrics(nil, fixed.I(2048), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(m.CapHeight) / 64; got != 1480 {
			t.Errorf("%s states a capital height of %v units", f.Name(), got)
		}
		if got, want := EmSize(f, 2.5), 2.5*2048/1480; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: em of 2.5 mm lettering is %v, want %v", f.Name(), got, want)
		}
		if e := Ink(f, "H", 2.5); math.Abs(e.Top-2.5) > 1e-9 || e.Bottom != 0 {
			t.Errorf("%s: an H of 2.5 mm reaches from %v to %v", f.Name(), e.Bottom, e.Top)
		}
	}
}

func TestWidthAgainstAnotherReader(t *testing.T) {
	for _, f := range Faces() {
		face := opened(t, f)
		for _, s := range []string{"", "H", "0123456789", `9'-4 1/2"`, "Bath 1: 60 m, 96.0 Ω", "ăâîșț ЖЮ αβγ",
			"Å½¼¾⅛±×°²→"} {
			want := 0.0
			for _, r := range s {
				i, ok := face.Chars()[int(r)]
				if !ok {
					t.Errorf("%s lacks %q", f.Name(), r)
				}
				want += float64(face.Widths()[i]) / float64(face.UnitsPerEm())
			}
			want *= EmSize(f, 2.5)
			if got := Width(f, s, 2.5); math.Abs(got-want) > 1e-3 {
				t.Errorf("%s: %q is %v mm, want %v", f.Name(), s, got, want)
			}
		}
	}
}

// Columns of figures line up only when all figures are as wide: 1139 units.
func TestFiguresAreTabular(t *testing.T) {
	for _, r := range "0123456789" {
		if got, want := Width(Lettering, string(r), 1480), 1139.0; math.Abs(got-want) > 1e-6 {
			t.Errorf("%c is %v units wide, want %v", r, got, want)
		}
	}
}

// What the sheets write must be in both faces.
func TestFacesCoverADrawing(t *testing.T) {
	const needed = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 " +
		".,:;!?'\"()[]/+-–—−=<>%&@#*_°±×·Ω²³½¼¾⅛⅜⅝⅞µ≤≥≈→←↑↓…“”‘’′″Øø□■●▲\u00a0" +
		"ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖÙÚÛÜÝßàáâãäåæçèéêëìíîïñòóôõöùúûüýÿĂăĄąĆćČčĎďĐđĘęĚěĞğİıŁłŃńŇňŐőŘřŚśŞşŠšȘșŢţȚțŮůŰűŹźŻżŽž"
	for _, f := range Faces() {
		if gone := Missing(f, needed); len(gone) > 0 {
			t.Errorf("%s lacks %q", f.Name(), string(gone))
		}
	}
}

func TestMissing(t *testing.T) {
	for s, want := range map[string]string{
		"Bath": "", "": "", "浴室 浴": "浴室", "a\tb\nc": "\t\n", "\x00": "\x00", "🛁": "🛁", "e\u0301": "\u0301", "\xff": "",
	} {
		if got := string(Missing(Lettering, s)); got != want {
			t.Errorf("%q lacks %q, want %q", s, got, want)
		}
	}
	if got := Settable(Lettering, "浴 1\t2"); got != "□ 1□2" {
		t.Errorf("settable %q", got)
	}
	if got, want := Width(Lettering, "浴1", 2.5), Width(Lettering, "□1", 2.5); got != want {
		t.Errorf("a missing character takes %v mm, its substitute %v", got, want)
	}
}

func TestInk(t *testing.T) {
	if e := Ink(Lettering, "gjq", 2.5); e.Bottom > -0.4 {
		t.Errorf("descenders end at %v", e.Bottom)
	}
	if e := Ink(Lettering, "Å", 2.5); e.Top < 2.9 {
		t.Errorf("a ring ends at %v", e.Top)
	}
	if e := Ink(Lettering, "  ", 2.5); e != (Extent{}) {
		t.Errorf("spaces leave ink: %v", e)
	}
	one, two := Ink(Lettering, "H", 2.5), Ink(Lettering, "HH", 2.5)
	if got, want := two.Right-one.Right, Width(Lettering, "H", 2.5); math.Abs(got-want) > 1e-9 {
		t.Errorf("a second H adds %v, want %v", got, want)
	}
}

func TestMeasuringAtOnce(t *testing.T) {
	want := Width(LetteringBold, "Ωψ Bath → 12", 3.5)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 200 {
				if got := Width(LetteringBold, "Ωψ Bath → 12", 3.5); got != want {
					t.Errorf("%v, want %v", got, want)
				}
			}
		})
	}
	all.Wait()
}

func TestLicences(t *testing.T) {
	for _, part := range []string{"Go Regular", "Redistribution and use", "DISCLAIMER"} {
		if !strings.Contains(Licences(), part) {
			t.Errorf("the licences do not say %q", part)
		}
	}
}

func FuzzMeasure(f *testing.F) {
	for _, s := range []string{"", "Bath 1", "\x00\xff", "浴室", "\u202e\u0301\U0001f6c1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, e := Width(Lettering, s, 2.5), Ink(Lettering, s, 2.5)
		if math.IsNaN(w) || w < 0 || math.IsInf(e.Right-e.Left+e.Top-e.Bottom, 0) || e.Top < e.Bottom ||
			e.Right < e.Left {
			t.Errorf("%q: width %v, ink %v", s, w, e)
		}
		set := Settable(Lettering, s)
		if !utf8.ValidString(set) || Missing(Lettering, set) != nil || Width(Lettering, set, 2.5) != w {
			t.Errorf("%q is set as %q", s, set)
		}
	})
}

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		Width(Lettering, `9'-4 1/2"`, 2.5)
	}
}

func ExampleWidth() {
	fmt.Printf("%.2f mm\n", Width(Lettering, "2850", 2.5))
	// Output: 7.70 mm
}
