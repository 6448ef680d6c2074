// Package pdf writes a set of sheets as one PDF: a page a sheet, each of its
// own size, with bookmarks, page labels, subset faces and text that can be searched.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/signintech/gopdf"

	"oxturn/drawing"
	"oxturn/fonts"
)

// Info is what a reader's window says about the document. There is no date:
// the same sheets and files give the same bytes.
type Info struct {
	Title, Author, Subject string
	Creator                string // the program that made it
	Language               string // of its words, such as "en"
	Files                  []File // what it carries
}

// Write writes sheets, at least one. A sheet that does not pass its Check is
// an error, and nothing is written. Characters that no face can set come out
// as fonts.Substitute; drawing.Unsettable lists them.
func Write(w io.Writer, sheets []*drawing.Sheet, info Info) error {
	if len(sheets) == 0 {
		return errors.New("pdf: no sheet to write")
	}
	for _, s := range sheets {
		if err := s.Check(); err != nil {
			return fmt.Errorf("pdf: %w", err)
		}
	}
	d := &document{first: sheets[0].Paper}
	if err := d.write(sheets, info); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	// the library drops errors of its writer, which a buffer has none of
	var buf bytes.Buffer
	if _, err := d.pdf.WriteTo(&buf); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	out, err := completed(buf.Bytes(), sheets, info)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	_, err = w.Write(out)
	return err
}

// A document is one PDF being written.
type document struct {
	pdf   gopdf.GoPdf
	first drawing.Paper // the size that the library counts bookmarks from
	page  drawing.Paper
}

func (d *document) write(sheets []*drawing.Sheet, info Info) error {
	d.pdf.Start(gopdf.Config{Unit: gopdf.UnitMM, PageSize: gopdf.Rect{W: d.first.W, H: d.first.H}})
	d.pdf.SetNoCompression() // streams are packed when all are there
	d.pdf.SetInfo(gopdf.PdfInfo{
		Title: clean(info.Title), Author: clean(info.Author), Subject: clean(info.Subject),
		Creator: clean(info.Creator),
	})
	if err := d.addFaces(sheets); err != nil {
		return err
	}
	for _, s := range sheets {
		if err := d.sheet(s); err != nil {
			return fmt.Errorf("sheet %q: %w", s.ID, err)
		}
	}
	return nil
}

// addFaces registers the faces that are used, and no others.
func (d *document) addFaces(sheets []*drawing.Sheet) error {
	for _, f := range fonts.Faces() {
		if !uses(sheets, f) {
			continue
		}
		if err := d.pdf.AddTTFFontData(family(f), fonts.Data(f)); err != nil {
			return err
		}
	}
	return nil
}

// family is the name a face has in the document. The six letters before the
// plus sign mark it as a subset.
func family(f fonts.Face) string {
	if f.Bold() {
		return "OXTURB+Go-Bold"
	}
	return "OXTURA+Go-Regular"
}

func uses(sheets []*drawing.Sheet, f fonts.Face) bool {
	for _, s := range sheets {
		for _, it := range s.Items {
			if t, ok := it.(*drawing.Text); ok && t.Face.Bold() == f.Bold() {
				return true
			}
		}
	}
	return false
}

func (d *document) sheet(s *drawing.Sheet) error {
	d.page = s.Paper
	d.pdf.AddPageWithOption(gopdf.PageOption{PageSize: &gopdf.Rect{W: s.Paper.W, H: s.Paper.H}})
	d.bookmark(s.Title)
	if err := d.raw("n"); err != nil { // a page without content would be broken
		return err
	}
	for _, g := range s.Groups() {
		for _, it := range g.Items {
			if err := d.item(it); err != nil {
				return err
			}
		}
	}
	return nil
}

// bookmark points to the top of the page. The library takes the place from
// the first page's height, and adds 20 points.
func (d *document) bookmark(title string) {
	d.pdf.SetXY(0, d.first.H-d.page.H+20/perMM)
	d.pdf.AddOutlineWithPosition(clean(title))
}

func (d *document) item(it drawing.Item) error {
	switch it := it.(type) {
	case *drawing.Path:
		return d.path(it)
	case *drawing.Text:
		return d.text(it)
	case *drawing.Image:
		return d.image(it)
	}
	return nil
}

// image puts a JPEG on the page as it is: no reader of the document has another picture.
func (d *document) image(m *drawing.Image) error {
	holder, err := gopdf.ImageHolderByBytes(m.JPEG)
	if err != nil {
		return err
	}
	return d.pdf.ImageByHolder(holder, m.Box.X0, m.Box.Y0, &gopdf.Rect{W: m.Box.W(), H: m.Box.H()})
}

func (d *document) text(t *drawing.Text) error {
	if t.Text == "" {
		return nil
	}
	if patch := t.Backing(); patch != nil {
		if err := d.path(patch); err != nil {
			return err
		}
	}
	if err := d.pdf.SetFont(family(t.Face), "", fonts.EmSize(t.Face, t.Height)*perMM); err != nil {
		return err
	}
	d.pdf.SetTextColor(t.Colour.R, t.Colour.G, t.Colour.B)
	at := t.Start()
	if t.Angle != 0 {
		d.pdf.Rotate(t.Angle, at.X, at.Y)
		defer d.pdf.RotateReset()
	}
	d.pdf.SetXY(at.X, at.Y)
	return d.pdf.Text(fonts.Settable(t.Face, t.Text))
}
