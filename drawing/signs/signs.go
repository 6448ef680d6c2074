// Package signs has what the legends of sheets explain: words, samples and hatches.
package signs

import (
	"oxturn/drawing"
	"oxturn/symbols"
)

// A Sign is something a legend explains. Whoever draws one does so with a function
// that is told which, so that it is in the legend of its sheet: Page.Sign of
// package setting, View.Mark and Hatched of floorplan, or a label's sign. Words alone need no entry.
type Sign int

// The signs, in the order of a legend.
const (
	WordsOnly Sign = iota // no sign: words say what it is
	Cable
	Second
	Third
	Arrow
	Run
	Half
	Quarter
	Joint
	End
	ColdLead
	Thermostat
	Sensor
	Spare
	SensorLead
	Limit
	Fixture
	Undecided
	Fixing
	Rise
	JointStrip
	Unheated
	Movement
	Stand
	ToFix
	Wall
	Door
	Sliding
	Cased
	Threshold
	Window
	Datum
	Note
	Revised
	Seam
	Peg
	Strip
	Crossing
	Fault
	Mistaken
	Tile
	Cloud
	Laid
	Anew
	Planned
	CutTile
	Covering
	StartLine
	Below
	Count
)

// An entry is what a legend has for a sign.
type entry struct {
	words   string
	sample  func(b drawing.Box) []drawing.Item // drawn in the box at the left of the words
	pattern drawing.Pattern                    // of what it hatches, where hatches
	hatches bool
}

// entries has a line for every sign.
var entries = [Count]entry{
	Cable:  {words: "heating cable", sample: cableSample(nil)},
	Second: {words: "heating cable, the second", sample: cableSample(drawing.CableCore())},
	Third:  {words: "heating cable, the third", sample: cableSample(drawing.CableDashes())},
	Arrow: {words: "direction of laying", sample: over(cableSample(nil), func(c drawing.Pt) []drawing.Item {
		return symbols.DirectionArrow(c.Add(drawing.Pt{X: 1}), rightwards)
	})},
	Run: {words: "number of the run", sample: over(cableSample(nil),
		func(c drawing.Pt) []drawing.Item { return symbols.RunNumber(c, "5") })},
	Half:       {words: "half of the cable", sample: over(cableSample(nil), barOf(symbols.HalfwayBar))},
	Quarter:    {words: "quarter, three quarters", sample: over(cableSample(nil), barOf(symbols.QuarterBar))},
	Joint:      {words: "lead joint", sample: jointSample},
	End:        {words: "end cap", sample: endSample},
	ColdLead:   {words: "cold lead", sample: lineSample(drawing.LayerLeads, drawing.ColdLeadLine())},
	Thermostat: {words: "thermostat, middle over finished floor", sample: markSample(symbols.Thermostat)},
	Sensor: {words: "floor sensor, wired",
		sample: markSample(func(c drawing.Pt) []drawing.Item { return symbols.Sensor(c, "") })},
	Spare: {words: "spare sensor, not wired",
		sample: markSample(func(c drawing.Pt) []drawing.Item { return symbols.SpareSensor(c, "") })},
	SensorLead: {words: "sensor lead in its tube", sample: lineSample(drawing.LayerSensors, drawing.SensorLeadLine())},
	Limit: {words: "edge of heated area: no drilling", sample: lineSample(drawing.LayerFloor,
		drawing.ClearanceLine())},
	Fixture:    hatchedEntry("fixture: no cable", drawing.HatchFixture),
	Undecided:  hatchedEntry("not decided: no cable", drawing.HatchUndecided),
	Fixing:     hatchedEntry("kept free for a fixing", drawing.HatchFixing),
	Rise:       hatchedEntry("lead rise: no nails", drawing.HatchRise),
	JointStrip: hatchedEntry("kept free along a joint", drawing.HatchJoint),
	Unheated:   hatchedEntry("floor without cable", drawing.HatchUnheated),
	Movement:   {words: "movement joint", sample: lineSample(drawing.LayerFloor, drawing.JointLine())},
	Stand:      {words: "fixture, by its name", sample: standSample},
	ToFix:      {words: "fixing to come, by its name", sample: fixingSample},
	Wall:       {words: "wall (thickness not to scale)", sample: wallSample},
	Door:       {words: "door and its swing", sample: doorSample},
	Sliding:    {words: "sliding or pocket door", sample: openingSample(symbols.SlidingDoor)},
	Cased:      {words: "opening without a door", sample: openingSample(symbols.CasedOpening)},
	Threshold:  {words: "threshold", sample: openingSample(symbols.Threshold)},
	Window:     {words: "window", sample: openingSample(symbols.Window)},
	Datum: {words: "datum, on a finished face", sample: markSample(func(c drawing.Pt) []drawing.Item {
		return symbols.Datum(c.Sub(drawing.Pt{X: 1.3}), rightwards, "")
	})},
	Note: {words: "numbered note",
		sample: markSample(func(c drawing.Pt) []drawing.Item { return NoteMark(c, "1") })},
	Revised:  {words: "changed by that revision", sample: revisedSample},
	Seam:     {words: "seam of the membrane", sample: lineSample(drawing.LayerMembrane, drawing.SeamLine())},
	Peg:      {words: "row of pegs", sample: pegSample},
	Strip:    {words: "strip, the cable clipped to it", sample: lineSample(drawing.LayerMembrane, drawing.StripLine())},
	Crossing: {words: "channel crossing P1, P2", sample: markSample(symbols.ChannelCrossing)},
	Fault:    {words: "stretch with the fault, likeliest place barred", sample: faultSample},
	Mistaken: {words: "runs that could be taken for it", sample: bandSample(MistakenBand())},
	Tile:     {words: "tile over the stretch: row R, column C", sample: tileSample},
	Cloud:    {words: "changed; triangle: its revision", sample: cloudSample},
	Laid:     {words: "laid: stays as it lies", sample: bandSample(LaidBand())},
	Anew:     {words: "new: not as planned", sample: bandSample(MistakenBand())},
	Planned:  {words: "where the plan had cable", sample: lineSample(drawing.LayerCable, drawing.HiddenLine())},
	CutTile:  {words: "tile to cut, its size", sample: cutTileSample},
	Covering: {words: "tile over a sensor, joint or end cap", sample: coveringSample},
	StartLine: {words: "start line, its points",
		sample: over(lineSample(drawing.LayerMarks, drawing.JointLine()), symbols.ChannelCrossing)},
	Below: {words: "heating cable below", sample: lineSample(drawing.LayerHatch, BelowLine())},
}

func hatchedEntry(words string, p drawing.Pattern) entry {
	return entry{words, hatchSample(p), p, true}
}

// Words returns what a legend says of s.
func (s Sign) Words() string { return entries[s].words }

// Sample returns a sample of s, drawn in b.
func (s Sign) Sample(b drawing.Box) []drawing.Item {
	if s == WordsOnly {
		return nil
	}
	return entries[s].sample(b)
}

// Pattern returns the hatch of s.
func (s Sign) Pattern() (drawing.Pattern, bool) { return entries[s].pattern, entries[s].hatches }

// OfCable returns the sign of a room's cable i: up to three cables have lines of
// their own, which grey keeps apart; a fourth is drawn as the first again.
func OfCable(i int) Sign { return Cable + Sign(i%3) }

// Core is the light line inside that of a second or third cable; nil: it has none.
func (s Sign) Core() *drawing.Stroke {
	switch s {
	case Second:
		return drawing.CableCore()
	case Third:
		return drawing.CableDashes()
	}
	return nil
}
