package sheets

import (
	"fmt"
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

const photosID = "photos"

// photoSheets shows what was photographed before it was covered: how much of every cable,
// each picture as it was taken, and the same in the floor's plane with the cable over it. A
// job without photos has none.
func photoSheets(p *layout.Plan) ([]*setting.Page, error) {
	seen := setting.Table{Head: p.Job.Language.Text("Seen in the photos"), Span: true,
		Cols: []setting.Column{{Head: p.Job.Language.Text("Cable")},
			{Head: p.Job.Language.Text("Photos"), Align: setting.Decimal}, {Head: p.Job.Language.Text("Of its length")},
			{Head: p.Job.Language.Text("Runs in none"), Wraps: true,
				Least: 40}}}
	var shown []setting.Block
	tallest := photoTallest
	if p.Photos() == 1 {
		tallest = photoAlone
	}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		photos := p.PhotosOf(r)
		if len(photos) == 0 {
			continue
		}
		for k := range r.Cables {
			s := r.Cables[k].SeenIn(photos)
			seen.Rows = append(seen.Rows, setting.Row(s.Cable.ID, fmt.Sprint(len(photos)), shareWords(p.Job.Figures(),
				s.Share),
				strings.Join(s.Unseen, ", ")))
		}
		for _, ph := range photos {
			b, err := photoOf(p, r, ph, len(shown)+1)
			if err != nil {
				return nil, err
			}
			b.tallest = tallest
			shown = append(shown, b)
		}
	}
	if len(shown) == 0 {
		return nil, nil
	}
	k := kindNamed(photosID)
	blocks := append([]setting.Block{seen}, shown...)
	blocks = append(blocks, setting.List{Span: true, Paras: []string{p.Job.Language.Text("A photo shows where " +
		"cable lies, not that it is sound: that is for the readings of the test record.")}})
	return setting.ListSheets(p, setting.FormPaper(p.Job), k.ID, k.Title, k.Form, blocks)
}

// shareWords says a share that is all only where nothing is left.
func shareWords(f say.Figures, share float64) string {
	if share < 1 && share > 0.99 {
		share = 0.99
	}
	return f.Percent(share)
}

// A photoBlock is one photo: as it was taken, and in the floor's plane.
type photoBlock struct {
	fig         say.Figures
	head, words string
	tallest     float64 // of its pictures, mm
	taken       []byte
	wide        float64 // width of the picture as taken to its height
	flat        *photo.Rectified
	file        string
	lines       []overLine
	marks       []plane.Point // the known points
	numbers     []overNumber
}

// An overLine is a line of the floor that is drawn over a photo.
type overLine struct {
	title   string
	path    []plane.Point
	bend    float64
	planned bool // where the plan had cable that lies elsewhere
}

// An overNumber is the number of a run that does not lie as planned.
type overNumber struct {
	at   plane.Point
	text string
}

// previewEdge is the longer edge of a photo as it was taken, px.
const previewEdge = 800

func photoOf(p *layout.Plan, r *layout.Room, ph *job.Photo, number int) (b photoBlock, err error) {
	if b.flat, err = ph.Flat(); err == nil {
		b.taken, err = ph.Preview(previewEdge)
	}
	if err != nil {
		return b, err
	}
	b.file, b.wide = ph.File, float64(ph.Picture.Size.X)/float64(ph.Picture.Size.Y)
	b.head = fmt.Sprintf("%d %s", number, ph.Name())
	if r.Job.Name != "" {
		b.head += ", " + r.Job.Name
	}
	b.fig, b.words = p.Job.Figures(), photoWords(p, r, ph)
	for _, x := range ph.Fit.Pairs {
		b.marks = append(b.marks, x.Floor)
	}
	for i := range r.Cables {
		c := &r.Cables[i]
		b.lines = append(b.lines, overLine{p.Job.Language.Textf("cable %s", c.ID), c.Path, c.BendRadius, false})
		b.differing(c)
	}
	return b, nil
}

// differing adds what does not lie as planned.
func (b *photoBlock) differing(c *layout.Cable) {
	if c.Laid == nil || len(c.Laid.Differ) == 0 {
		return
	}
	if !c.Laid.Recorded() {
		b.lines[len(b.lines)-1].path = c.Laid.Path
	}
	for _, away := range astray(c.Laid.Planned, c.Laid.Path, c.Laid.Error) {
		b.lines = append(b.lines, overLine{b.fig.Textf("where the plan had cable %s", c.ID), away, 0, true})
	}
	for _, d := range c.Laid.Differ {
		if name, ok := strings.CutPrefix(d.What.String(), "run "); ok {
			b.numbers = append(b.numbers, overNumber{d.Laid, name})
		}
	}
}

// photoWords says how well a photo tells places.
func photoWords(p *layout.Plan, r *layout.Room, ph *job.Photo) string {
	f, fit := p.Job.Figures(), ph.Fit
	words := f.Textf("SHA-256 %s. %d %s", ph.ShortSum(), len(ph.Points), f.Text(say.Plural(len(ph.Points),
		"known point")))
	if fit.Free == 0 {
		words += f.Text(", none to spare to check them by")
	} else {
		worst := 0
		for i, off := range fit.OffFloor {
			if off > fit.OffFloor[worst] {
				worst = i
			}
		}
		words += f.Textf(", %s off on the mean, %s at most (%s)", f.Spacing(fit.RMS()), f.Spacing(
			fit.OffFloor[worst]), ph.Points[worst])
	}
	if fit.LensKnown {
		words += f.Textf("; lens %s at the corners", f.PercentMore(fit.Lens))
	}
	if most := r.WorstIn(ph); most > 0 {
		words += f.Textf(". A place of cable read off it is within %s, 95 in 100 of them, where it tells least.",
			f.Spacing(most))
	} else {
		words += f.Text(". It shows no cable closely enough to be told.")
	}
	return words
}

// Spans makes the block as wide as the sheet.
func (b photoBlock) Spans() bool { return true }

// Sizes of a photo's pictures on paper, mm.
const (
	photoTallest = 78.0  // two on a page
	photoAlone   = 130.0 // where there is no other
	photoGap     = 4.0
)

// panes returns where the two pictures stand in a block so wide.
func (b photoBlock) panes(w float64) (taken, flat drawing.Box) {
	across := b.wide
	if b.flat != nil {
		across += b.flat.Bounds.W() / b.flat.Bounds.H()
		w -= photoGap
	}
	h := math.Min(b.tallest, w/across)
	taken = drawing.Box{X1: h * b.wide, Y1: h}
	if b.flat != nil {
		x := taken.X1 + photoGap
		flat = drawing.Box{X0: x, X1: x + h*b.flat.Bounds.W()/b.flat.Bounds.H(), Y1: h}
	}
	return taken, flat
}

func (b photoBlock) Height(ty *setting.Typesetter, w float64) float64 {
	taken, _ := b.panes(w)
	return ty.HeadingHeight(b.head, w) + taken.H() + 1.5 +
		float64(ty.Lines(fonts.Lettering, ty.Both(b.words), setting.Note, w))*setting.Leading
}

func (b photoBlock) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, b.head, w)
	taken, flat := b.panes(w)
	taken, flat = taken.Moved(drawing.Pt{X: at.X, Y: y}), flat.Moved(drawing.Pt{X: at.X, Y: y})
	pg.Add(&drawing.Image{Layer: drawing.LayerPhoto, Title: "photo " + b.file + " as taken", Box: taken, JPEG: b.taken})
	if b.flat != nil {
		pg.Add(&drawing.Image{Layer: drawing.LayerPhoto, Title: "photo " + b.file + " in the floor's plane", Box: flat,
			JPEG: b.flat.JPEG})
		b.over(pg, flat)
	}
	for i, l := range pg.Ty.Wrap(pg.Ty.Both(b.words), w) {
		pg.Write(drawing.Pt{X: at.X, Y: taken.Y1 + 1.5 + setting.Note + float64(i)*setting.Leading}, l, setting.Note,
			drawing.Start)
	}
}

// over draws the cable over a picture in the floor's plane.
func (b photoBlock) over(pg *setting.Page, box drawing.Box) {
	at := func(p plane.Point) drawing.Pt {
		f := b.flat.Bounds
		return drawing.Pt{X: box.X0 + (p.X-f.Min.X)/f.W()*box.W(), Y: box.Y1 - (p.Y-f.Min.Y)/f.H()*box.H()}
	}
	scale := box.W() / b.flat.Bounds.W()
	for _, l := range b.lines {
		var pts []drawing.Pt
		for _, p := range l.path {
			pts = append(pts, at(p))
		}
		for _, line := range drawing.Flatten(drawing.Rounded(pts, l.bend*scale), 0.02) {
			for _, piece := range box.Pieces(line) {
				for _, stroke := range overStrokes(l.planned) {
					pg.Path(drawing.LayerMarks, l.title, drawing.Polyline(piece...), stroke, nil)
				}
			}
		}
	}
	for _, m := range b.marks {
		if c := at(m); box.Grow(-1).Holds(c) {
			b.cross(pg, c)
		}
	}
	for _, n := range b.numbers {
		if c := at(n.at); box.Grow(-3).Holds(c) {
			pg.Add(&drawing.Text{Layer: drawing.LayerText, At: c.Add(drawing.Pt{Y: setting.Note / 2}), Text: n.text,
				Height: setting.Note, Face: fonts.LetteringBold, Anchor: drawing.Middle, Knockout: 0.5})
		}
	}
}

// overStrokes are the lines by which a path shows on a picture of any colour: a dark one in a
// light one; where the plan had it, dashes.
func overStrokes(planned bool) []*drawing.Stroke {
	if planned {
		return []*drawing.Stroke{{Width: drawing.W035, Colour: drawing.White}, drawing.HiddenLine()}
	}
	return []*drawing.Stroke{{Width: drawing.W050, Colour: drawing.White},
		{Width: drawing.W025, Colour: drawing.HeatRed}}
}

// cross marks a known point.
func (b photoBlock) cross(pg *setting.Page, c drawing.Pt) {
	const arm = 1.6
	segs := append(drawing.Polyline(c.Sub(drawing.Pt{X: arm}), c.Add(drawing.Pt{X: arm})),
		drawing.Polyline(c.Sub(drawing.Pt{Y: arm}), c.Add(drawing.Pt{Y: arm}))...)
	for _, s := range []*drawing.Stroke{{Width: drawing.W070, Colour: drawing.White}, drawing.MarkLine()} {
		pg.Path(drawing.LayerMarks, "known point", segs, s, nil)
	}
}
