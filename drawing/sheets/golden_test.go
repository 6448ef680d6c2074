package sheets

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/drawing/svg"
	"oxturn/layout"
	"oxturn/layout/golden"
)

// wholeSheet is the one kind that is kept with its title block, as it is drawn for a job.
const wholeSheet = "cable-plan"

// goldenTitle is what all else keeps for the block, mm², about what that takes: a field more in it would
// move the blocks above it, and change every file.
const goldenTitle = 10000

// wordsOnly is the kind of which no picture is kept: it has no drawing, and sets its
// blocks as the take-off does.
const wordsOnly = "notes"

// TestGolden: of every sheet of the examples the words are kept, block for block, and a
// sum of the drawing in its field; of every kind one sheet as a picture; and the title
// block alone; of small paper what other sets have not, and likewise of other ways to hold cable. So a change
// touches what shows it and little else.
func TestGolden(t *testing.T) {
	g := goldens{map[string][]byte{}, map[string]string{}}
	for _, name := range examples {
		d := example(t, name)
		if name == examples[0] {
			g.files["title-block.svg"] = picture(t, titleBlocks(t, d.plan))
			g.files[wholeSheet+".svg"] = picture(t, rounded(d.only(t, wholeSheet).set[0]))
		}
		g.keep(t, name, untitled(t, d))
	}
	small := untitled(t, example(t, "bath on letter"))
	for _, kind := range []string{"field-sheet", "covering", wordsOnly} {
		g.keep(t, "bath on letter", small.only(t, kind))
	}
	for _, way := range []struct {
		name  string
		kinds []string
	}{{"strips", []string{"setting-out", "build-up"}}, {"uneven", []string{"setting-out", "membrane"}}} {
		p, err := plannedFile("testdata/" + way.name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		set := untitled(t, drawnSet{plan: p})
		for _, kind := range way.kinds {
			g.keep(t, way.name, set.only(t, kind))
		}
	}
	golden.Files(t, "testdata/golden", g.files)
}

// goldens are the files that are kept.
type goldens struct {
	files map[string][]byte
	said  map[string]string // where each block was written down first
}

// keep adds the pages of an example to the files: the first that has a kind of sheet
// shows it.
func (g goldens) keep(t *testing.T, name string, d drawnSet) {
	t.Helper()
	for i, s := range d.set {
		kind := kindIDOf(t, s.ID)
		g.files[kind+".txt"] = append(g.files[kind+".txt"], g.inWords(name, d.pages[i])...)
		if g.files[kind+".svg"] != nil || kind == wordsOnly {
			continue
		}
		g.files[kind+".svg"] = picture(t, rounded(d.bare[i]))
	}
}

// untitled draws a set anew over title blocks of a fixed size.
func untitled(t *testing.T, d drawnSet) drawnSet {
	t.Helper()
	p, j := *d.plan, *d.plan.Job
	j.Sheet.TitleArea, p.Job = goldenTitle, &j
	return must(t, func() (drawnSet, error) { return draw(&p) })
}

// kindIDOf returns the ID of a sheet's kind.
func kindIDOf(t *testing.T, id string) string {
	t.Helper()
	for _, k := range Kinds() {
		if k.Has(id) {
			return k.ID
		}
	}
	t.Fatalf("%s is of no kind", id)
	return ""
}

func picture(t *testing.T, s *drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// rounded copies a sheet to the tenth of a millimetre: what moves by less than can be
// seen changes no picture.
func rounded(s *drawing.Sheet) *drawing.Sheet {
	out := *s
	out.Items = roundedFrom(drawing.Pt{}, s.Items)
	return &out
}

// roundedFrom copies items as they lie from a corner.
func roundedFrom(corner drawing.Pt, items []drawing.Item) (out []drawing.Item) {
	const parts = 10
	at := func(p drawing.Pt) drawing.Pt {
		d := p.Sub(corner)
		return drawing.Pt{X: drawing.Round(d.X, parts), Y: drawing.Round(d.Y, parts)}
	}
	for _, it := range items {
		switch it := it.(type) {
		case *drawing.Path:
			p := *it
			p.Segs = drawing.Mapped(p.Segs, at)
			out = append(out, &p)
		case *drawing.Text:
			x := *it
			x.At = at(x.At)
			out = append(out, &x)
		}
	}
	return out
}

// titleBlocks draws a title block of a plan with all that a job can say in it, as wide as it
// may be, as narrow, and compact.
func titleBlocks(t *testing.T, p *layout.Plan) *drawing.Sheet {
	t.Helper()
	filled, err := readJob("../../layout/job/testdata/good/every-key.toml")
	if err != nil {
		t.Fatal(err)
	}
	const gap = 10.0
	pg := setting.NewPage(p, drawing.Paper{Name: "golden", W: setting.TitleMax + 2*gap, H: 240})
	pg.Sheet.ID, pg.Sheet.Title = "title-block", "Title block: wide, narrow, compact"
	b := setting.TitleFor(p, "Cable plan - Bath", "Cable plan")
	b.Info = filled.Info
	b.Label, b.N, b.Of, b.Scale, b.Paper = "CP-1", 1, 9, "1:20", "A3"
	y := gap
	for _, w := range []float64{setting.TitleMax, setting.TitleMin, setting.TitleMax} {
		b.Set(pg, drawing.Pt{X: gap, Y: y}, w)
		y += b.Height(pg.Ty, w) + gap
		b.Compact = w == setting.TitleMin
	}
	return rounded(pg.Sheet)
}

// inWords writes what a sheet says: its paper and scale, the drawing in its field, and
// its blocks. What another sheet says word for word is not written again.
func (g goldens) inWords(name string, pg *setting.Page) []byte {
	here := name + ": " + pg.Sheet.Title
	out := fmt.Appendf(nil, "==== %s, on %s, scale %s\n%s", here, pg.Sheet.Paper.Name, pg.Title.Scale,
		fieldWords(pg.Sheet))
	for _, block := range pg.Blocks {
		words := blockWords(pg.Plan, block)
		head, _, more := strings.Cut(words, "\n")
		if at := g.said[words]; more && at != "" {
			words = head + ", as on " + at
		}
		if g.said[words] == "" {
			g.said[words] = here
		}
		out = fmt.Appendf(out, "--\n%s\n", words)
	}
	return append(out, '\n')
}

// fieldWords says what is lettered in the field, after a sum of all that is drawn there.
func fieldWords(s *drawing.Sheet) string {
	items := inField(s)
	if len(items) == 0 {
		return ""
	}
	var words []string
	for _, it := range items {
		if x, ok := it.(*drawing.Text); ok {
			words = append(words, "  "+x.Text+"\n")
		}
	}
	slices.Sort(words)
	sum := sha256.Sum256(fmt.Append(nil, plain(items)...))
	return fmt.Sprintf("field %x\n%s", sum[:6], strings.Join(words, ""))
}

// plain are items without their pointers, as they can be printed.
func plain(items []drawing.Item) []any {
	var out []any
	for _, it := range items {
		switch it := it.(type) {
		case *drawing.Path:
			out = append(out, it.Layer, it.Title, it.Segs)
			if it.Stroke != nil {
				out = append(out, *it.Stroke)
			}
			if it.Fill != nil {
				out = append(out, *it.Fill)
			}
		case *drawing.Text:
			out = append(out, *it)
		}
	}
	return out
}

// inField returns what of a sheet stands in its field: all that is drawn before the
// frame, as it lies from its own corner, wherever on the sheet that is.
func inField(s *drawing.Sheet) []drawing.Item {
	frame := slices.IndexFunc(s.Items, func(it drawing.Item) bool {
		p, ok := it.(*drawing.Path)
		return ok && p.Title == "frame"
	})
	items := s.Items[:max(0, frame)]
	box := drawing.BoxOfItems(items)
	return roundedFrom(drawing.Pt{X: box.X0, Y: box.Y0}, items)
}

// blockWords are the lines of a block that is set so wide that none is broken. What
// stands in one line is parted by bars.
func blockWords(p *layout.Plan, block setting.Block) string {
	const wide = 1000.0
	pg := setting.NewPage(p, drawing.Paper{W: wide, H: wide})
	block.Set(pg, drawing.Pt{}, wide)
	texts := pg.Sheet.Texts()
	slices.SortStableFunc(texts, func(a, b *drawing.Text) int {
		return cmp.Or(cmp.Compare(math.Round(a.At.Y), math.Round(b.At.Y)), cmp.Compare(a.Start().X, b.Start().X))
	})
	var b strings.Builder
	for i, x := range texts {
		switch {
		case i == 0:
		case math.Round(x.At.Y) == math.Round(texts[i-1].At.Y):
			b.WriteString(" | ")
		default:
			b.WriteString("\n")
		}
		b.WriteString(x.Text)
	}
	return b.String()
}
