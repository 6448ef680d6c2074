// Package svg writes a sheet as an SVG picture in millimetres: a group a
// layer, a title on every titled object, and text that stays text.
package svg

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"io"

	svgo "github.com/ajstarks/svgo/float"

	"oxturn/drawing"
	"oxturn/fonts"
)

// Write writes s. A sheet that does not pass its Check is an error, and
// nothing of it is written. The bytes depend on s alone.
func Write(w io.Writer, s *drawing.Sheet) error {
	if err := s.Check(); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	// the canvas drops errors of its writer, which a buffer has none of
	var buf bytes.Buffer
	p := &page{canvas: svgo.New(&buf)}
	p.sheet(s)
	_, err := w.Write(buf.Bytes())
	return err
}

// A page is one picture being written.
type page struct {
	canvas *svgo.SVG
}

func (p *page) sheet(s *drawing.Sheet) {
	p.canvas.Startraw(root(s)...)
	p.canvas.Title(s.Title)
	if s.Description != "" {
		p.canvas.Desc(s.Description)
	}
	p.canvas.Path(data(drawing.Rectangle(s.Paper.Box())), attr("class", "paper"), attr("fill", "#fff"))
	for _, g := range s.Groups() {
		p.group(g)
	}
	p.canvas.End()
}

// root returns the attributes of the svg element. What most items share is
// said here once and inherited.
func root(s *drawing.Sheet) []string {
	w, h := num(s.Paper.W), num(s.Paper.H)
	out := []string{
		attr("width", w+"mm"), attr("height", h+"mm"), attr("viewBox", "0 0 "+w+" "+h), attr("role", "img"),
		attr("fill", "none"), attr("fill-rule", "evenodd"), attr("stroke-linejoin", "round"),
		attr("stroke-linecap", "round"),
		attr("font-family", family),
	}
	if s.Language != "" {
		out = append(out, attr("lang", s.Language))
	}
	return out
}

const family = "Go, 'Liberation Sans', Arial, sans-serif"

func (p *page) group(g drawing.Group) {
	name := identifier(string(g.Layer))
	p.canvas.Group(attr("id", "layer-"+name), attr("class", "layer "+name))
	for _, it := range g.Items {
		switch it := it.(type) {
		case *drawing.Path:
			p.path(it)
		case *drawing.Text:
			p.text(it)
		case *drawing.Image:
			p.image(it)
		}
	}
	p.canvas.Gend()
}

// path writes a path; a titled one in a group of its own, where its title is.
func (p *page) path(it *drawing.Path) {
	if len(it.Segs) == 0 {
		return
	}
	if it.Title != "" {
		p.canvas.Group(attr("class", "object"))
		p.canvas.Title(it.Title)
		defer p.canvas.Gend()
	}
	p.canvas.Path(data(it.Segs), look(it)...)
}

func look(it *drawing.Path) []string {
	var as []string
	if it.Fill != nil {
		as = append(as, attr("fill", hex(*it.Fill)))
	}
	if it.Stroke == nil {
		return as
	}
	as = append(as, attr("stroke", hex(it.Stroke.Colour)), attr("stroke-width", num(it.Stroke.Width)))
	if len(it.Stroke.Dash) > 0 {
		as = append(as, attr("stroke-dasharray", nums(it.Stroke.Dash...)))
	}
	if it.Stroke.Butt {
		as = append(as, attr("stroke-linecap", "butt"))
	}
	return as
}

// image writes a picture into the file itself.
func (p *page) image(it *drawing.Image) {
	p.canvas.Group(attr("class", "object"))
	defer p.canvas.Gend()
	p.canvas.Title(it.Title)
	b := it.Box
	fmt.Fprintf(p.canvas.Writer, "<image %s %s %s %s %s %s/>\n", attr("x", num(b.X0)), attr("y", num(b.Y0)),
		attr("width", num(b.W())), attr("height", num(b.H())), attr("preserveAspectRatio", "none"),
		attr("href", "data:image/jpeg;base64,"+base64.StdEncoding.EncodeToString(it.JPEG)))
}

// text writes a line of lettering. Its length is stated, so that it keeps to
// its box whatever face a viewer has.
func (p *page) text(it *drawing.Text) {
	if it.Text == "" {
		return
	}
	if patch := it.Backing(); patch != nil {
		p.path(patch)
	}
	as := []string{
		attr("font-size", num(fonts.EmSize(it.Face, it.Height))),
		attr("fill", hex(it.Colour)),
		attr("textLength", num(it.Width())), attr("lengthAdjust", "spacingAndGlyphs"),
		// a viewer would fold spaces that follow each other
		attr("xml:space", "preserve"),
	}
	if it.Face.Bold() {
		as = append(as, attr("font-weight", "bold"))
	}
	if it.Anchor != drawing.Start {
		as = append(as, attr("text-anchor", [...]string{"start", "middle", "end"}[it.Anchor]))
	}
	x, y := num(it.At.X), num(it.At.Y)
	if it.Angle != 0 {
		as = append(as, attr("transform", "rotate("+num(-it.Angle)+" "+x+" "+y+")"))
	}
	p.canvas.Decimals = max(places(x), places(y))
	p.canvas.Text(round(it.At.X), round(it.At.Y), it.Text, as...)
}
