package sheets

import (
	"oxturn/drawing"
	"oxturn/symbols"
)

// A sign is something a legend explains. Whoever draws one does so with a function
// that is told which, so that it is in the legend of its sheet: page.sign,
// roomView.mark and hatched, or a label's sign. Words alone need no entry.
type sign int

// The signs, in the order of a legend.
const (
	wordsOnly sign = iota // no sign: words say what it is
	signCable
	signSecond
	signThird
	signArrow
	signRun
	signHalf
	signQuarter
	signJoint
	signEnd
	signColdLead
	signThermostat
	signSensor
	signSpare
	signSensorLead
	signLimit
	signFixture
	signUndecided
	signFixing
	signRise
	signJointStrip
	signUnheated
	signMovement
	signStand
	signToFix
	signWall
	signDoor
	signSliding
	signCased
	signThreshold
	signWindow
	signDatum
	signNote
	signSeam
	signPeg
	signCrossing
	signFault
	signMistaken
	signTile
	signCloud
	signLaid
	signAnew
	signPlanned
	signCount
)

// An entry is what a legend has for a sign.
type entry struct {
	words   string
	sample  func(b drawing.Box) []drawing.Item // drawn in the box at the left of the words
	pattern drawing.Pattern                    // of what it hatches, where hatches
	hatches bool
}

// entries has a line for every sign.
var entries = [signCount]entry{
	signCable:  {words: "heating cable", sample: cableSample(nil)},
	signSecond: {words: "heating cable, the second", sample: cableSample(drawing.CableCore())},
	signThird:  {words: "heating cable, the third", sample: cableSample(drawing.CableDashes())},
	signArrow: {words: "direction of laying", sample: over(cableSample(nil), func(c drawing.Pt) []drawing.Item {
		return symbols.DirectionArrow(c.Add(drawing.Pt{X: 1}), rightwards)
	})},
	signRun:        {words: "number of the run", sample: over(cableSample(nil), func(c drawing.Pt) []drawing.Item { return symbols.RunNumber(c, "5") })},
	signHalf:       {words: "half of the cable", sample: over(cableSample(nil), barOf(symbols.HalfwayBar))},
	signQuarter:    {words: "quarter, three quarters", sample: over(cableSample(nil), barOf(symbols.QuarterBar))},
	signJoint:      {words: "lead joint: heat begins", sample: jointSample},
	signEnd:        {words: "end cap", sample: endSample},
	signColdLead:   {words: "cold lead", sample: lineSample(drawing.LayerLeads, drawing.ColdLeadLine())},
	signThermostat: {words: "thermostat box, height above floor", sample: markSample(symbols.Thermostat)},
	signSensor:     {words: "floor sensor, wired", sample: markSample(func(c drawing.Pt) []drawing.Item { return symbols.Sensor(c, "") })},
	signSpare:      {words: "spare sensor, not wired", sample: markSample(func(c drawing.Pt) []drawing.Item { return symbols.SpareSensor(c, "") })},
	signSensorLead: {words: "sensor lead in its tube", sample: lineSample(drawing.LayerSensors, drawing.SensorLeadLine())},
	signLimit:      {words: "edge of heated area: no drilling", sample: lineSample(drawing.LayerFloor, drawing.ClearanceLine())},
	signFixture:    hatchedEntry("fixture: no cable", drawing.HatchFixture),
	signUndecided:  hatchedEntry("not decided: no cable", drawing.HatchUndecided),
	signFixing:     hatchedEntry("kept free for a fixing", drawing.HatchFixing),
	signRise:       hatchedEntry("lead rise: no nails up to the box", drawing.HatchRise),
	signJointStrip: hatchedEntry("kept free along a joint", drawing.HatchJoint),
	signUnheated:   hatchedEntry("floor without cable", drawing.HatchUnheated),
	signMovement:   {words: "movement joint", sample: lineSample(drawing.LayerFloor, drawing.JointLine())},
	signStand:      {words: "fixture, by its name", sample: standSample},
	signToFix:      {words: "fixing to come, by its name", sample: fixingSample},
	signWall:       {words: "wall (thickness not to scale)", sample: wallSample},
	signDoor:       {words: "door and its swing", sample: doorSample},
	signSliding:    {words: "sliding or pocket door", sample: openingSample(symbols.SlidingDoor)},
	signCased:      {words: "opening without a door", sample: openingSample(symbols.CasedOpening)},
	signThreshold:  {words: "threshold", sample: openingSample(symbols.Threshold)},
	signWindow:     {words: "window", sample: openingSample(symbols.Window)},
	signDatum: {words: "datum: face measured from", sample: markSample(func(c drawing.Pt) []drawing.Item {
		return symbols.Datum(c.Sub(drawing.Pt{X: 1.3}), rightwards, "")
	})},
	signNote:     {words: "see the numbered note", sample: markSample(func(c drawing.Pt) []drawing.Item { return noteMark(c, "1") })},
	signSeam:     {words: "seam of the membrane", sample: lineSample(drawing.LayerMembrane, drawing.SeamLine())},
	signPeg:      {words: "row of pegs", sample: pegSample},
	signCrossing: {words: "channel crossing P1", sample: markSample(symbols.ChannelCrossing)},
	signFault:    {words: "stretch with the fault, likeliest place barred", sample: faultSample},
	signMistaken: {words: "runs that could be taken for it", sample: bandSample(mistakenBand())},
	signTile:     {words: "tile over the stretch: row R, column C", sample: tileSample},
	signCloud:    {words: "changed; triangle: its revision", sample: cloudSample},
	signLaid:     {words: "laid: stays as it lies", sample: bandSample(laidBand())},
	signAnew:     {words: "new: not as planned", sample: bandSample(mistakenBand())},
	signPlanned:  {words: "where the plan had cable", sample: lineSample(drawing.LayerCable, drawing.HiddenLine())},
}

func hatchedEntry(words string, p drawing.Pattern) entry {
	return entry{words, hatchSample(p), p, true}
}

// words returns what a legend says of s.
func (s sign) words() string { return entries[s].words }

// sample returns a sample of s, drawn in b.
func (s sign) sample(b drawing.Box) []drawing.Item {
	if s == wordsOnly {
		return nil
	}
	return entries[s].sample(b)
}

// pattern returns the hatch of s.
func (s sign) pattern() (drawing.Pattern, bool) { return entries[s].pattern, entries[s].hatches }

// cableSign returns the sign of a room's cable i: up to three cables have lines of
// their own, which grey keeps apart; a fourth is drawn as the first again.
func cableSign(i int) sign { return signCable + sign(i%3) }

// core is the light line inside that of a second or third cable; nil: it has none.
func (s sign) core() *drawing.Stroke {
	switch s {
	case signSecond:
		return drawing.CableCore()
	case signThird:
		return drawing.CableDashes()
	}
	return nil
}
