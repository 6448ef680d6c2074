package membrane

import (
	"testing"

	"oxturn/layout/plane"
)

// What is left all round a floor a little smaller than its piece has a hole as large as the
// floor: it is no notch.
func TestFrameIsNoNotch(t *testing.T) {
	out := plane.Region{{Outer: plane.Rectangle(plane.Pt(0, 0), plane.Pt(500, 975)),
		Holes: []plane.Ring{plane.Rectangle(plane.Pt(1, 1), plane.Pt(499, 974))}}}
	var p Piece
	if rest := p.squareCuts(frame{}, out, span{0, 500}, span{0, 975}); len(p.Notches) > 0 || len(rest) != 1 {
		t.Errorf("notches %+v, rest of %d", p.Notches, len(rest))
	}
}
