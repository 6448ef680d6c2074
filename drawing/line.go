package drawing

// Line widths in mm, of the series of ISO 128-2, each step the square root of
// two.
const (
	W013 = 0.13
	W018 = 0.18
	W025 = 0.25
	W035 = 0.35
	W050 = 0.5
	W070 = 0.7
)

// Lettering heights in mm, of the series of ISO 3098-1.
const (
	H18 = 1.8 // fine print
	H25 = 2.5 // notes, dimensions, run numbers
	H35 = 3.5 // headings, wall letters
	H50 = 5.0 // titles
	H70 = 7.0 // room name on a key plan
)

// Parts of a dashed line, in line widths, after ISO 128-2. The long dash is 18
// and not 24 widths, so that the short leads of a small room still show two
// dots, and a dot is as long as the line is wide, so that it survives a copier.
const (
	longDashWidths  = 18
	dashWidths      = 12
	shortDashWidths = 6
	gapWidths       = 3
	dotWidths       = 1
)

// dashed returns a line of the given parts. Its ends are cut square: round
// ends would close the gaps.
func dashed(width float64, c Colour, parts ...float64) *Stroke {
	d := make([]float64, len(parts))
	for i, p := range parts {
		d[i] = p * width
	}
	return &Stroke{Width: width, Dash: d, Colour: c, Butt: true}
}

// WallLine is for cut walls and the frame.
func WallLine() *Stroke { return &Stroke{Width: W070} }

// CableLine is for the heating cable.
func CableLine() *Stroke { return &Stroke{Width: W070, Colour: HeatRed} }

// CableCore is drawn inside the line of a room's second cable, which so becomes
// two lines.
func CableCore() *Stroke { return &Stroke{Width: W025, Colour: White} }

// CableDashes are drawn inside the line of a third cable, which so becomes a
// ladder.
func CableDashes() *Stroke { return dashed(W035, White, dashWidths, dashWidths) }

// ColdLeadLine is for the cold lead: long dash, dot.
func ColdLeadLine() *Stroke {
	return dashed(W050, Black, longDashWidths, gapWidths, dotWidths, gapWidths)
}

// SensorLeadLine is for a sensor's lead: dots, which nobody takes for the dashes of
// the heated floor's limit, in grey neither.
func SensorLeadLine() *Stroke { return dashed(W050, SensorBlue, dotWidths, gapWidths) }

// FixtureLine is for fixtures and openings.
func FixtureLine() *Stroke { return &Stroke{Width: W035} }

// StripLine is for strips that cable is clipped to: wide, pale dashes, as the cable is drawn over them.
func StripLine() *Stroke { return dashed(W070, Grey(0.3), longDashWidths, gapWidths) }

// SeamLine is for membrane seams: a chain line.
func SeamLine() *Stroke { return dashed(W035, Black, longDashWidths, gapWidths, dotWidths, gapWidths) }

// MatchLine is the line at which a drawing goes on on another sheet: a chain line, the widest there is, so that
// it is taken neither for a movement joint nor for a seam.
func MatchLine() *Stroke { return dashed(W070, Black, longDashWidths, gapWidths, dotWidths, gapWidths) }

// JointLine is for movement joints: long dash, two dots.
func JointLine() *Stroke {
	return dashed(W050, Black, longDashWidths, gapWidths, dotWidths, gapWidths, dotWidths, gapWidths)
}

// ClearanceLine is for the limit of the heated floor: dashes.
func ClearanceLine() *Stroke { return dashed(W018, Black, dashWidths, gapWidths) }

// HiddenLine is for edges that lie behind, below or above: short dashes.
func HiddenLine() *Stroke { return dashed(W018, Black, shortDashWidths, gapWidths) }

// ThinLine is for dimensions, extensions, leaders, hatching, pegs and the
// lines of a table.
func ThinLine() *Stroke { return &Stroke{Width: W018} }

// MediumLine is for table heads and edges.
func MediumLine() *Stroke { return &Stroke{Width: W035} }

// MarkLine is for symbols: the stroke of 2.5 mm lettering.
func MarkLine() *Stroke { return &Stroke{Width: W025} }
