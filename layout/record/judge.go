package record

import (
	"math"

	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// Grade ranks a verdict.
type Grade int

// Within: measured and inside its limit. Look: nothing is outside a limit, but
// somebody should look. Outside: measured and outside. Missing: not measured
// though later work has gone on. Awaited: not measured yet.
const (
	Within Grade = iota
	Look
	Outside
	Missing
	Awaited
)

// String returns the grade as it is printed.
func (g Grade) String() string {
	return [...]string{"within limits", "look at this", "outside limits", "missing", "not yet taken"}[g]
}

// A Verdict is one thing said about a test record.
type Verdict struct {
	Stage   Stage
	Reading int // index of the reading, -1 when the stage has none
	Item    string
	Grade   Grade
	Words   language.Message // what was measured against what
	Before  int              // of OfStage and OfDate: index of the reading that it goes back behind
}

// The items of a reading that is written out of order.
const (
	OfStage = "order of stages"
	OfDate  = "order of dates"
)

// Judge holds readings, in the order they were taken, against limits and
// against the first of their kind. Verdicts come in the order of the readings,
// then one for every stage without a reading. The error says what is wrong
// with the limits.
func Judge(l Limits, readings []Reading) ([]Verdict, error) {
	if err := l.Check(); err != nil {
		return nil, err
	}
	j := judge{limits: l}
	for i, r := range readings {
		j.at, j.index = r, i
		if !j.plausible() {
			continue
		}
		j.order()
		j.conductor()
		j.insulation()
		j.hand()
		j.sensor("sensor", r.Sensor, r.SensorOther)
		j.sensor("spare sensor", r.Spare, r.SpareOther)
		j.before, j.written = append(j.before, r), append(j.written, i)
	}
	j.stages(readings)
	return j.out, nil
}

// A judge works through one record; at is the reading in front of it.
type judge struct {
	limits          Limits
	at              Reading
	index           int
	before          []Reading
	written         []int // where those stand among all
	firstOhms       *Reading
	firstInsulation *Reading
	out             []Verdict
}

func (j *judge) say(item string, g Grade, format string, args ...any) {
	j.out = append(j.out, j.verdict(item, g, language.Say(format, args...)))
}

func (j *judge) verdict(item string, g Grade, words language.Message) Verdict {
	return Verdict{Stage: j.at.Stage, Reading: j.index, Item: item, Grade: g, Words: words}
}

// figure is a figure as say writes it, for whoever reads it.
func figure(v float64, write func(float64) string) language.Figure { return language.Figure(write(v)) }

func celsius(v float64) string { return say.Degrees(v, plane.Millimetres) }

func ohmsRange(low, high float64) language.Message {
	return language.Say("%s to %s", figure(low, say.OhmsFigure), figure(high, say.Ohms))
}

// plausible reports whether the figures can have come off an instrument, and
// says so when not.
func (j *judge) plausible() bool {
	good := true
	if !j.at.Stage.valid() {
		j.at.Stage = Service
		j.say("stage", Outside, "the reading names no stage there is; it was left out of the comparison")
		good = false
	}
	for _, f := range []struct {
		item string
		Figure
	}{{"conductor", j.at.Ohms}, {"insulation", j.at.Insulation}, {"sensor", j.at.Sensor}, {"spare sensor",
		j.at.Spare}} {
		if !f.valid() {
			j.say(f.item, Outside, "%g is not a figure an instrument shows; the reading was left out of the "+
				"comparison",
				f.Value)
			good = false
		}
	}
	return good
}

// order says when a reading goes back behind one that is written above it.
func (j *judge) order() {
	stage, date := -1, -1
	for i, r := range j.before {
		if stage < 0 || r.Stage > j.before[stage].Stage {
			stage = i
		}
		if !r.Date.IsZero() && (date < 0 || r.Date.After(j.before[date].Date)) {
			date = i
		}
	}
	if stage >= 0 && j.at.Stage < j.before[stage].Stage {
		j.say(OfStage, Look, "stage %q is written after stage %q", j.at.Stage, j.before[stage].Stage)
		j.out[len(j.out)-1].Before = j.written[stage]
	}
	if date >= 0 && !j.at.Date.IsZero() && j.at.Date.Before(j.before[date].Date) {
		last := j.before[date]
		j.say(OfDate, Look, "dated %s, yet stage %q written before it is dated %s", j.at.Date.Format("2006-01-02"),
			last.Stage, last.Date.Format("2006-01-02"))
		j.out[len(j.out)-1].Before = j.written[date]
	}
}

func (j *judge) conductor() {
	f, item := j.at.Ohms, "conductor"
	if !f.Taken {
		j.say(item, Missing, "no conductor ohms read at stage %q", j.at.Stage)
		return
	}
	low, high := j.limits.OhmsRange()
	against := language.Say("%s (ohms: %s; tolerance: %s)", ohmsRange(low, high), language.Say(j.limits.OhmsSource),
		language.Say(j.limits.ToleranceSource))
	switch {
	case f.Over:
		j.say(item, Outside, "%s: the conductor reads as broken, against %s", f.in(say.Ohms), against)
	case f.Value < low*(1-limitSlack) || f.Value > high*(1+limitSlack):
		j.say(item, Outside, "%s read, against %s", f.in(say.Ohms), against)
	default:
		j.say(item, Within, "%s read, against %s", f.in(say.Ohms), against)
	}
	j.drift()
	if !f.Over {
		keepFirst(&j.firstOhms, j.at)
	}
}

// keepFirst notes a reading where none is noted yet.
func keepFirst(first **Reading, at Reading) {
	if *first == nil {
		*first = &at
	}
}

// drift holds the conductor against the first reading of it.
func (j *judge) drift() {
	if j.firstOhms == nil || j.at.Ohms.Over || j.firstOhms.Ohms.Value == 0 {
		return
	}
	first, now := j.firstOhms.Ohms.Value, j.at.Ohms.Value
	moved := now/first - 1
	g := Within
	if math.Abs(moved) > j.limits.Drift*(1+limitSlack) {
		g = Look
	}
	j.say("conductor against the first", g, "%s, %s from the first %s, against %s%s", figure(now, say.Ohms),
		figure(moved, say.PercentMore), figure(first, say.Ohms), figure(j.limits.Drift,
			say.PercentGiven), j.temperatures())
}

// temperatures says when the floor's temperature differs from that at the
// first reading by so much that ohms may have moved for that reason alone.
func (j *judge) temperatures() language.Message {
	const apart = 5 // K
	a, b := j.firstOhms.Floor, j.at.Floor
	if !a.Taken || !b.Taken || math.Abs(a.Value-b.Value) < apart {
		return language.Message{}
	}
	return language.Say(" (floor %s, at the first %s; not corrected, the conductor's coefficient is not known)",
		figure(b.Value, celsius), figure(a.Value, celsius))
}

func (j *judge) insulation() {
	f, item := j.at.Insulation, "insulation"
	if !f.Taken {
		j.say(item, Missing, "no insulation test at stage %q", j.at.Stage)
		return
	}
	read := language.Say("%s at %s", f.in(say.Megohms), j.testVolts())
	least, volts := figure(j.limits.Megohms, say.Megohms), figure(j.limits.Volts, say.Volts)
	from := language.Say(j.limits.MegohmsSource)
	switch {
	case f.Value < j.limits.Megohms*(1-limitSlack) && f.Over:
		j.say(item, Look, "%s: the meter's range ends below the limit of %s", read, least)
	case f.Value < j.limits.Megohms*(1-limitSlack):
		j.say(item, Outside, "%s, against at least %s (%s)", read, least, from)
	case j.at.Volts < j.limits.Volts*(1-limitSlack):
		j.say(item, Look, "%s, against at least %s at %s (%s): the test voltage is lower than asked for, or not "+
			"written down", read, least, volts, from)
	default:
		j.say(item, Within, "%s, against at least %s at %s (%s)", read, least, volts, from)
	}
	j.fall()
	keepFirst(&j.firstInsulation, j.at)
}

func (j *judge) testVolts() language.Message {
	if j.at.Volts == 0 {
		return language.Say("a voltage not written down")
	}
	return figure(j.at.Volts, say.Volts).Message()
}

// fall holds the insulation against the first reading of it: a fall counts
// even where the limit is still met.
func (j *judge) fall() {
	if j.firstInsulation == nil {
		return
	}
	item := "insulation against the first"
	first, now := j.firstInsulation.Insulation, j.at.Insulation
	words := language.Say("%s, the first was %s", now.in(say.Megohms), first.in(say.Megohms))
	if j.firstInsulation.Volts != j.at.Volts {
		words = language.Say("%s (at %s now, %s then)", words, figure(j.at.Volts, say.Volts),
			figure(j.firstInsulation.Volts, say.Volts))
	}
	fallen := now.Value <= first.Value/j.limits.Fall*(1+limitSlack)
	switch {
	case fallen && now.Over:
		j.say(item, Look, "%s: the meter's range ends too low to compare", words)
	case fallen:
		j.say(item, Outside, "%s: fallen to a %s part or less", words, ordinal(j.limits.Fall))
	default:
		j.out = append(j.out, j.verdict(item, Within, words))
	}
}

func ordinal(n float64) language.Message {
	if n == 10 {
		return language.Say("tenth")
	}
	return language.Figure("1/" + say.Plain(n)).Message()
}

func (j *judge) hand() {
	switch {
	case j.at.Hand == Connected:
		j.say("hand meter", Outside, "a hand meter shows a connection between conductor and braid")
	case j.at.Hand == Open && !j.at.Insulation.Taken:
		j.say("hand meter", Look, "open on a hand meter; that is not an insulation test, which was not made")
	}
}

// sensor holds a sensor's ohms against those that fit its kind at the floor's
// temperature; other says which kind fits them better.
func (j *judge) sensor(item string, f Figure, other string) {
	if !f.Taken {
		return
	}
	low, high := j.at.SensorBand[0], j.at.SensorBand[1]
	against := language.Say("%s, against %s for a sensor %s at %s", f.in(say.SensorOhms), language.Say("%s to %s",
		language.Figure(say.Decimals(low, 0)), figure(high,
			say.SensorOhms)), j.at.SensorKind, figure(j.at.Floor.Value, celsius))
	switch {
	case f.Over:
		j.say(item, Outside, "%s: reads as broken", f.in(say.SensorOhms))
	case low <= 0 || high < low:
		j.say(item, Look,
			"%s; no figure to hold it against: the kind of sensor or the floor's temperature is not given",
			f.in(say.SensorOhms))
	case f.Value >= low*(1-limitSlack) && f.Value <= high*(1+limitSlack):
		j.out = append(j.out, j.verdict(item, Within, against))
	case other != "":
		j.say(item, Outside, "%s; it fits another kind better: %s", against, other)
	default:
		j.out = append(j.out, j.verdict(item, Outside, against))
	}
}

// stages says which stages have no reading: missing where a later one has,
// awaited otherwise. Service may never come.
func (j *judge) stages(readings []Reading) {
	has, last := map[Stage]bool{}, Stage(-1)
	for _, r := range readings {
		if r.Stage.valid() {
			has[r.Stage] = true
			last = max(last, r.Stage)
		}
	}
	for _, s := range Stages() {
		if has[s] || s == Service {
			continue
		}
		v := Verdict{Stage: s, Reading: -1, Item: "stage", Grade: Awaited,
			Words: language.Say("stage %q: not yet taken", s)}
		if s < last {
			v.Grade = Missing
			v.Words = language.Say("stage %q has no reading, yet stage %q has one: what came between was covered "+
				"unmeasured", s, last)
		}
		j.out = append(j.out, v)
	}
}

// Worst returns the gravest grade among verdicts: Outside, then Missing, then
// Look, then Awaited; Within when there is none.
func Worst(verdicts []Verdict) Grade {
	rank := [...]int{Within: 0, Awaited: 1, Look: 2, Missing: 3, Outside: 4}
	worst := Within
	for _, v := range verdicts {
		if rank[v.Grade] > rank[worst] {
			worst = v.Grade
		}
	}
	return worst
}
