package drawing

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"image/jpeg"
	"math"
)

// farthestPoint is the largest number in mm that a sheet may hold: 100 m, far off
// any paper, and far from where figures lose their micrometres.
const farthestPoint = 1e5

// Check reports the first thing of s that no writer could draw: a number that
// is not finite or absurdly large, a paper without size, a line of negative
// width. The error names the item.
func (s *Sheet) Check() error {
	if !sound(s.Paper.W, s.Paper.H) || s.Paper.W <= 0 || s.Paper.H <= 0 {
		return fmt.Errorf("sheet %q: paper of %v x %v mm", s.ID, s.Paper.W, s.Paper.H)
	}
	for i, it := range s.Items {
		if err := checkItem(it); err != nil {
			return fmt.Errorf("sheet %q: item %d: %w", s.ID, i, err)
		}
	}
	return nil
}

func checkItem(it Item) error {
	switch it := it.(type) {
	case *Path:
		return it.check()
	case *Text:
		return it.check()
	case *Image:
		return it.check()
	}
	return fmt.Errorf("neither a path nor a text nor an image, but %T", it)
}

func (p *Path) check() error {
	for _, s := range p.Segs {
		if !sound(s.To.X, s.To.Y, s.C1.X, s.C1.Y, s.C2.X, s.C2.Y) {
			return fmt.Errorf("path %q on layer %s: bad place %v", p.Title, p.Layer, s)
		}
	}
	if p.Stroke == nil {
		return nil
	}
	length := 0.0
	for _, d := range append([]float64{p.Stroke.Width}, p.Stroke.Dash...) {
		if !sound(d) || d < 0 {
			return fmt.Errorf("path %q on layer %s: bad line %v", p.Title, p.Layer, *p.Stroke)
		}
		length += d
	}
	if len(p.Stroke.Dash) > 0 && length == p.Stroke.Width {
		return fmt.Errorf("path %q on layer %s: dashes without length", p.Title, p.Layer)
	}
	return nil
}

func (t *Text) check() error {
	if !sound(t.At.X, t.At.Y, t.Height, t.Angle, t.Knockout) || t.Height <= 0 || t.Anchor < Start || t.Anchor > End {
		return fmt.Errorf("text %q on layer %s: bad place, size or anchor: %v", t.Text, t.Layer, *t)
	}
	return nil
}

func (m *Image) check() error {
	if b := m.Box; !sound(b.X0, b.Y0, b.X1, b.Y1) || b.W() <= 0 || b.H() <= 0 {
		return fmt.Errorf("image %q on layer %s: bad box %v", m.Title, m.Layer, b)
	}
	if c, err := jpeg.DecodeConfig(bytes.NewReader(m.JPEG)); err != nil || c.ColorModel == color.CMYKModel {
		return fmt.Errorf("image %q on layer %s is no JPEG that can be drawn: %w", m.Title, m.Layer, errors.Join(err))
	}
	return nil
}

func sound(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.Abs(v) > farthestPoint {
			return false
		}
	}
	return true
}
