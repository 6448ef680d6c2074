package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"oxturn/drawing"
)

// attr writes one attribute. Every attribute goes through here, so that no
// value can end its quotes.
func attr(name, value string) string {
	var b bytes.Buffer
	b.WriteString(name)
	b.WriteString(`="`)
	xml.EscapeText(&b, []byte(value)) // a bytes.Buffer never fails
	b.WriteString(`"`)
	return b.String()
}

// identifier keeps what may stand in an id: letters, digits and hyphens.
func identifier(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-':
			return r
		}
		return '-'
	}, s)
}

// round gives a number to the micrometre, without a minus before zero.
func round(v float64) float64 { return drawing.Round(v, 1000) }

// num writes a number to the micrometre, without trailing zeros. Numbers that
// are not finite never come here: see drawing.Sheet.Check.
func num(v float64) string {
	return strconv.FormatFloat(round(v), 'f', -1, 64)
}

func nums(vs ...float64) string {
	out := make([]string, len(vs))
	for i, v := range vs {
		out[i] = num(v)
	}
	return strings.Join(out, " ")
}

// places counts the digits after the point of a number written by num.
func places(s string) int {
	_, decimals, _ := strings.Cut(s, ".")
	return len(decimals)
}

// data writes path data, absolute, and never a Z at the start, which readers
// refuse.
func data(segs []drawing.Seg) string {
	var b strings.Builder
	for i, s := range segs {
		switch {
		case s.Op == drawing.Close:
			b.WriteString("Z")
		case s.Op == drawing.Move || i == 0:
			b.WriteString("M" + nums(s.To.X, s.To.Y))
		case s.Op == drawing.Curve:
			b.WriteString("C" + nums(s.C1.X, s.C1.Y, s.C2.X, s.C2.Y, s.To.X, s.To.Y))
		default:
			b.WriteString("L" + nums(s.To.X, s.To.Y))
		}
	}
	return b.String()
}

// hex writes a colour as #rgb where that says it all, else as #rrggbb.
func hex(c drawing.Colour) string {
	s := fmt.Sprintf("%02x%02x%02x", c.R, c.G, c.B)
	if s[0] == s[1] && s[2] == s[3] && s[4] == s[5] {
		return "#" + string([]byte{s[0], s[2], s[4]})
	}
	return "#" + s
}
