package symbols

import (
	"math"

	"oxturn/drawing"
	"oxturn/fonts"
)

// Thermostat is a circle with a T.
func Thermostat(at drawing.Pt) []drawing.Item {
	return []drawing.Item{
		&drawing.Path{
			Layer: drawing.LayerMarks, Title: "thermostat", Segs: drawing.Circle(at, ThermostatSize/2),
			Stroke: drawing.MediumLine(), Fill: drawing.Filled(drawing.White),
		},
		letters(drawing.LayerMarks, at, "T"),
	}
}

// LeadJoint is a filled square on the line, where the cold lead meets the
// heating cable.
func LeadJoint(at drawing.Pt) []drawing.Item {
	h := JointSize / 2
	p := solid(drawing.LayerMarks, drawing.Black, drawing.Box{X0: at.X - h, Y0: at.Y - h, X1: at.X + h,
		Y1: at.Y + h}.Corners()...)
	p.Title = "lead joint"
	return []drawing.Item{p}
}

// Bar is a line of the given length square across the direction dir, its
// middle at at.
func Bar(at, dir drawing.Pt, length float64) []drawing.Item {
	h := side(dir).Mul(length / 2)
	return []drawing.Item{stroked(drawing.LayerMarks, &drawing.Stroke{Width: drawing.W050}, at.Sub(h), at.Add(h))}
}

// Sensor is a filled dot at the sensor's tip with its tag to the right.
func Sensor(at drawing.Pt, name string) []drawing.Item {
	return sensor(at, name, drawing.SensorBlue)
}

// SpareSensor is a hollow dot: a second sensor laid, never wired.
func SpareSensor(at drawing.Pt, name string) []drawing.Item {
	return sensor(at, name, drawing.White)
}

func sensor(at drawing.Pt, name string, fill drawing.Colour) []drawing.Item {
	line := &drawing.Stroke{Width: drawing.W035, Colour: drawing.SensorBlue}
	dot := &drawing.Path{
		Layer: drawing.LayerSensors, Title: "sensor " + name, Stroke: line, Fill: drawing.Filled(fill),
		Segs: drawing.Circle(at, (SensorSize-line.Width)/2),
	}
	return append([]drawing.Item{dot}, tag(drawing.LayerSensors, at, drawing.Pt{X: 1}, SensorSize/2, name)...)
}

// DirectionArrow is an open arrowhead on the cable, its tip at at.
func DirectionArrow(at, dir drawing.Pt) []drawing.Item {
	back, wing := dir.Unit().Mul(-2), side(dir).Mul(1)
	line := &drawing.Stroke{Width: drawing.W050}
	return []drawing.Item{stroked(drawing.LayerMarks, line, at.Add(back).Add(wing), at, at.Add(back).Sub(wing))}
}

// RunNumber is the run's number in a circle. From two figures on the circle
// grows sideways: 2.5 mm figures would not fit in it.
func RunNumber(at drawing.Pt, number string) []drawing.Item {
	r := RunCircle / 2
	half := max(0, fonts.Width(fonts.Lettering, number, drawing.H25)/2+0.9-r)
	return []drawing.Item{
		&drawing.Path{
			Layer: drawing.LayerMarks, Segs: pill(at, r, half),
			Stroke: drawing.MarkLine(), Fill: drawing.Filled(drawing.White),
		},
		letters(drawing.LayerMarks, at, number),
	}
}

// Datum is a filled triangle whose tip stands on the face that is measured
// from, with its name behind it. dir points from the tip away from the face.
func Datum(at, dir drawing.Pt, name string) []drawing.Item {
	const long, wide = 2.6, 3.0
	back, wing := at.Add(dir.Unit().Mul(long)), side(dir).Mul(wide/2)
	p := solid(drawing.LayerDims, drawing.Black, at, back.Add(wing), back.Sub(wing))
	p.Title = "datum " + name
	return append([]drawing.Item{p}, tag(drawing.LayerDims, at, dir, long, name)...)
}

// ChannelCrossing is a cross in a ring: the crossing of channels that all others are
// counted from.
func ChannelCrossing(at drawing.Pt) []drawing.Item {
	const ring, arm = 1.2, 1.8
	return []drawing.Item{
		&drawing.Path{Layer: drawing.LayerMembrane, Title: "channel crossing", Segs: drawing.Circle(at, ring),
			Stroke: drawing.FixtureLine()},
		cross(drawing.LayerMembrane, at, arm),
	}
}

// besideLetters mm of white stand between letters and the line round them.
const besideLetters = 0.2

// Callout is a bubble about at that calls out a detail: its number over the sheet that it
// stands on. It grows sideways where its lettering is too wide for a circle.
func Callout(at drawing.Pt, number, sheet string) []drawing.Item {
	const rise = 2.05 // of either text's middle off the line between them
	r := CalloutSize / 2
	chord := math.Sqrt(r*r - (rise+drawing.H25/2+besideLetters)*(rise+drawing.H25/2+besideLetters))
	wide := max(fonts.Width(fonts.Lettering, number, drawing.H25), fonts.Width(fonts.Lettering, sheet, drawing.H25))
	half := max(0, wide/2+besideLetters-chord)
	return []drawing.Item{
		&drawing.Path{Layer: drawing.LayerDims, Title: "detail " + number, Segs: pill(at, r, half),
			Stroke: drawing.MarkLine(), Fill: drawing.Filled(drawing.White)},
		stroked(drawing.LayerDims, drawing.ThinLine(), at.Sub(drawing.Pt{X: r + half}),
			at.Add(drawing.Pt{X: r + half})),
		letters(drawing.LayerText, at.Sub(drawing.Pt{Y: rise}), number),
		letters(drawing.LayerText, at.Add(drawing.Pt{Y: rise}), sheet),
	}
}

// CalloutLow is the height of a bubble in one line, mm.
const CalloutLow = drawing.H25 + 1.6

// LowCallout is Callout in one line, for where a bubble has no room: the detail's number, a stroke, its sheet.
func LowCallout(at drawing.Pt, number, sheet string) []drawing.Item {
	words := number + "/" + sheet
	high := drawing.H25/2 + besideLetters
	chord := math.Sqrt(CalloutLow*CalloutLow/4 - high*high)
	half := max(0, fonts.Width(fonts.Lettering, words, drawing.H25)/2+besideLetters-chord)
	return []drawing.Item{
		&drawing.Path{Layer: drawing.LayerDims, Title: "detail " + number, Segs: pill(at, CalloutLow/2, half),
			Stroke: drawing.MarkLine(), Fill: drawing.Filled(drawing.White)},
		letters(drawing.LayerText, at, words),
	}
}

// pill is a circle of radius r drawn out by half to either side.
func pill(at drawing.Pt, r, half float64) []drawing.Seg {
	right := drawing.Arc(at.Add(drawing.Pt{X: half}), r, -90, 90)
	left := drawing.Arc(at.Sub(drawing.Pt{X: half}), r, 90, 270)
	left[0].Op = drawing.Line
	return append(append(right, left...), drawing.Seg{Op: drawing.Close})
}

// FixingPoint is a cross: something is fixed to the floor there later.
func FixingPoint(at drawing.Pt) []drawing.Item {
	const arm = 1.5
	return []drawing.Item{cross(drawing.LayerFixtures, at, arm)}
}

func cross(layer drawing.Layer, at drawing.Pt, arm float64) *drawing.Path {
	level, upright := drawing.Pt{X: arm}, drawing.Pt{Y: arm}
	segs := append(drawing.Polyline(at.Sub(level), at.Add(level)), drawing.Polyline(at.Sub(upright),
		at.Add(upright))...)
	return &drawing.Path{Layer: layer, Segs: segs, Stroke: drawing.FixtureLine()}
}

// RevisionTriangle is a triangle with the revision's letter, its centre at at.
func RevisionTriangle(at drawing.Pt, letter string) []drawing.Item {
	var pts []drawing.Pt
	for _, a := range []float64{90, 210, 330} {
		pts = append(pts, at.Add(drawing.Turned(drawing.Pt{X: 3.6}, a)))
	}
	return []drawing.Item{
		&drawing.Path{
			Layer: drawing.LayerMarks, Title: "revision " + letter, Segs: drawing.Polygon(pts...),
			Stroke: drawing.MarkLine(), Fill: drawing.Filled(drawing.White),
		},
		letters(drawing.LayerMarks, at.Add(drawing.Pt{Y: 0.2}), letter),
	}
}

// Arrowhead is the filled head of a dimension line or leader, its tip at tip,
// pointing along dir.
func Arrowhead(tip, dir drawing.Pt) []drawing.Item {
	back, wing := tip.Sub(dir.Unit().Mul(ArrowLength)), side(dir).Mul(ArrowLength/6)
	return []drawing.Item{solid(drawing.LayerDims, drawing.Black, tip, back.Add(wing), back.Sub(wing))}
}
