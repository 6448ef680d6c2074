package drawing

import "oxturn/fonts"

// Width returns the length of the line of lettering.
func (t *Text) Width() float64 { return fonts.Width(t.Face, t.Text, t.Height) }

// Box returns what the lettering covers: its whole length, and as far up and
// down as its ink reaches, at its angle. Knockout is not in it.
func (t *Text) Box() Box {
	e := fonts.Ink(t.Face, t.Text, t.Height)
	return BoxOf(t.corners(min(0, e.Left), max(t.Width(), e.Right), e.Bottom, e.Top)...)
}

// corners returns the corners of a rectangle given along and up from the
// start of the baseline, where they lie on the sheet.
func (t *Text) corners(left, right, bottom, top float64) []Pt {
	start := t.Start()
	at := func(x, y float64) Pt { return start.Add(Turned(Pt{X: x, Y: -y}, t.Angle)) }
	return []Pt{at(left, top), at(right, top), at(right, bottom), at(left, bottom)}
}

// Start returns where the baseline begins, whatever the anchor.
func (t *Text) Start() Pt {
	back := 0.0
	switch t.Anchor {
	case Middle:
		back = t.Width() / 2
	case End:
		back = t.Width()
	}
	return t.At.Sub(Turned(Pt{X: back, Y: 0}, t.Angle))
}

// Backing returns the white patch that a knock-out puts under the lettering,
// nil when there is none. It turns with the lettering.
func (t *Text) Backing() *Path {
	if t.Knockout <= 0 {
		return nil
	}
	e, k := fonts.Ink(t.Face, t.Text, t.Height), t.Knockout
	pts := t.corners(min(0, e.Left)-k, max(t.Width(), e.Right)+k, e.Bottom-k, e.Top+k)
	return &Path{Layer: t.Layer, Segs: Polygon(pts...), Fill: Filled(White)}
}
