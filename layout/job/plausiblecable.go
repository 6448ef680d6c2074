package job

import (
	"fmt"
	"math"
)

// checkPower holds a cable's power per length against that of floor cable, and
// then either alone. The slip is looked for where another reading mends it.
func (c *Cable) checkPower(t table) {
	if !t.readable("length") || !t.readable("watts") {
		return
	}
	length := held{plausible: powerPerLength, with: "with its " + measureUnits["W"].write(c.Watts, t.rd.drawingUnits()),
		also: &cableLength,
		of:   func(mm float64) float64 { return c.Watts / (mm / 1000) }}
	power := held{plausible: powerPerLength, with: "on its " + measureUnits["mm"].write(c.Length, t.rd.drawingUnits()),
		also: &cablePower, own: "W",
		of: func(watts float64) float64 { return watts / (c.Length / 1000) }}
	key, h := "length", length
	if !t.mends("length", length) && (t.mends("watts", power) || cablePower.judge(c.Watts) > cableLength.judge(
		c.Length)) {
		key, h = "watts", power
	}
	if t.hold(key, h) == usualFigure && t.hold("length", held{plausible: cableLength}) == usualFigure {
		t.hold("watts", held{plausible: cablePower})
	}
}

// hold holds a key's figure against a range; one that is refused is left out of
// what is said further on.
func (t table) hold(name string, h held) verdict {
	n := t.n.Get(name)
	what := t.rd.hold(n, t.key(name), t.num(name), h)
	if what == absurdFigure {
		delete(t.rd.values, n)
	}
	return what
}

// mends reports whether another reading of a key's figure is usual.
func (t table) mends(name string, h held) bool {
	for _, o := range t.rd.otherReadings(t.n.Get(name), t.key(name), h.figureUnit()) {
		if h.mendedBy(o) {
			return true
		}
	}
	return false
}

// mainsVolts are the voltages that floors are warmed with.
var mainsVolts = []float64{100, 110, 115, 120, 127, 208, 220, 230, 240, 277, 400}

// tooFar refuses ohms that are nowhere near those of volts and watts.
func (c *Cable) tooFar(t table) bool {
	want := c.Volts * c.Volts / c.Watts
	h := held{plausible: labelRatio, own: "Ω", of: func(ohms float64) float64 { return 100 * ohms / want }}
	if h.judge(h.made(c.Ohms)) != absurdFigure {
		return false
	}
	hint := "read volts, watts and ohms off the label again"
	if t.mends("ohms", h) {
		hint = t.rd.likely(t.n.Get("ohms"), t.key("ohms"), c.Ohms, h)
	} else if v := c.voltsThatFit(); v > 0 {
		hint = fmt.Sprintf("are the volts right? %s V would make %s ohms", figure(v), figure(v*v/c.Watts))
	}
	t.errorf("ohms", hint, "cable %q says %s ohms, but %s V and %s W make %s: no label is so far off its own figures",
		c.ID, figure(c.Ohms), figure(c.Volts), figure(c.Watts), figure(want))
	return true
}

// ohmsAgree is by what share ohms may differ from those of volts and watts and still be theirs.
const ohmsAgree = 0.03

// voltsThatFit is the usual voltage that the label's ohms and watts go with, 0
// for none.
func (c *Cable) voltsThatFit() float64 {
	for _, v := range mainsVolts {
		if r := c.Ohms * c.Watts / (v * v); math.Abs(r-1) < ohmsAgree {
			return v
		}
	}
	return 0
}
