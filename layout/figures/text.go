package figures

import (
	"fmt"
	"io"
	"math"
	"strings"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// reportColumns is how wide a line of the report may be before it is broken.
const reportColumns = 110

// A page is the report in words, in one of the two systems.
type page struct {
	b     strings.Builder
	told  language.Teller
	units plane.Units
	in    circuit.Region
}

// WriteText writes the report to be read: figures in the job's units, every
// limit with its origin in brackets.
func (r *Report) WriteText(w io.Writer) error { return r.WriteTextIn(w, language.English.Keeping(nil)) }

// WriteTextIn is WriteText told in a language, as far as its catalogue goes.
func (r *Report) WriteTextIn(w io.Writer, t language.Teller) error {
	p := &page{told: t, units: r.units, in: circuit.RegionNamed(r.Supply.Region, false)}
	p.general(r)
	for _, room := range r.Rooms {
		p.room(room, r.Supply)
	}
	for _, c := range r.Circuits {
		p.circuit(c)
	}
	p.region(r)
	p.sensor(r.Sensor)
	p.warmth(r.Warmth)
	p.losses(r.Losses)
	p.energy(r.Energy)
	p.fullUse(r.FullUse)
	p.takeOff(r.bought)
	p.shifts(r.Shifts)
	var out strings.Builder
	for line := range strings.Lines(p.b.String()) {
		out.WriteString(job.Clean(strings.TrimSuffix(line, "\n")) + "\n")
	}
	_, err := io.WriteString(w, out.String())
	return err
}

// head begins a part of the report.
func (p *page) head(format string, args ...any) {
	if p.b.Len() > 0 {
		p.b.WriteByte('\n')
	}
	p.b.WriteString(p.told.Retold(fmt.Sprintf(format, args...)) + "\n")
}

// nameColumns is how far in the figures stand.
const nameColumns = 18

// put writes a name and what there is to say of it, broken between its parts
// where the line would grow too long.
func (p *page) put(name string, parts ...string) {
	name = p.told.Retold(name)
	line := fmt.Sprintf("  %-*s", nameColumns-2, name)
	if len([]rune(name)) > nameColumns-3 {
		line = "  " + name + "\n" + strings.Repeat(" ", nameColumns)
	}
	used := nameColumns
	for i, part := range parts {
		if part == "" {
			continue
		}
		part = p.told.Retold(part)
		if i < len(parts)-1 && !strings.HasSuffix(part, ":") {
			part += ";"
		}
		n := len([]rune(part)) + 1
		if used > nameColumns && used+n > reportColumns {
			line += "\n" + strings.Repeat(" ", nameColumns)
			used = nameColumns
		} else if used > nameColumns {
			line += " "
		}
		line += part
		used += n
	}
	p.b.WriteString(strings.TrimRight(strings.TrimSuffix(strings.TrimRight(line, " "), ";"), " ") + "\n")
}

func (p *page) length(mm float64) string { return say.Whole(mm, p.units) }

// small writes a gap or a thickness.
func (p *page) small(mm float64) string { return say.Apart(mm, p.units) }

func (p *page) long(mm float64) string { return say.Long(mm, p.units) }

func (p *page) area(m2 float64) string { return say.Area(m2*plane.SquareMetre, p.units) }

// areaAtMost writes an area that something does for at most: rounded down, since
// it rests on a heat per area that is itself rounded.
func (p *page) areaAtMost(m2 float64) string {
	a, unit := p.units.Area(m2*plane.SquareMetre), "m²"
	if p.units == plane.Inches {
		unit = "ft²"
	}
	if a < 10 {
		return say.TrimFigure(math.Floor(a*10)/10) + " " + unit
	}
	return say.Plain(math.Floor(a)) + " " + unit
}

func (p *page) density(wm2 float64) string { return say.Density(wm2, p.units) }

func (p *page) perLength(wm float64) string { return say.PerLength(wm, p.units) }

func (p *page) degrees(c float64) string { return say.Degrees(c, p.units) }

func (p *page) difference(k float64) string { return say.Difference(k, p.units) }

func (p *page) general(r *Report) {
	title := r.Job
	if title == "" {
		title = "Job"
	}
	p.head("%s (%s)", title, r.Status)
	p.put("plan code", r.Plan)
	supply := "not given, the labels' own is assumed"
	if v := r.Supply.Volts; v != nil {
		supply = say.Volts(v.Value) + " (" + v.Source + ")"
	}
	p.put("supply", supply)
	s := r.Supply
	if s.Strips {
		p.put("gaps allowed", fmt.Sprintf("%s (%s) to %s (%s)", p.small(s.Least.Value), s.Least.Source,
			p.small(s.Most.Value), s.Most.Source),
			fmt.Sprintf("clips of strips are %s apart (%s)", p.small(s.Across.Value), s.Across.Source))
	} else if s.Across.Value > 0 {
		p.put("gaps allowed", fmt.Sprintf("%s (%s) to %s (%s)", p.small(s.Least.Value), s.Least.Source,
			p.small(s.Most.Value), s.Most.Source),
			fmt.Sprintf("a peg is %s along the roll (%s) and %s across it (%s)", p.small(s.Pitch.Value), s.Pitch.Source,
				p.small(s.Across.Value), s.Across.Source))
	} else {
		p.put("gaps allowed", fmt.Sprintf("%s (%s) to %s (%s)", say.Pegs(s.Closest.Value), s.Closest.Source,
			say.Pegs(s.Widest.Value), s.Widest.Source),
			fmt.Sprintf("a peg is %s (%s)", p.small(s.Pitch.Value), s.Pitch.Source))
	}
	cap := "no limit is given"
	if m := s.MaxDensity; m != nil {
		cap = fmt.Sprintf("%s at most, locally and overall, %s (%s)", p.density(m.Value), s.MostOver, m.Source)
	}
	p.put("heat allowed", cap)
}

// lines are the take-off's for the text, in the job's units.
func lines(l takeoff.List, u plane.Units) []bought {
	var out []bought
	for _, line := range l.Lines {
		in := func(v float64) string { return quantity(v, line.Unit, u) }
		one := bought{item: line.Item, packs: in(line.Gross)}
		if line.Packs > 0 && line.PackName != "" {
			one.packs = fmt.Sprintf("%d x %s of %s", line.Packs, line.PackName, in(line.Pack))
			one.spare = in(line.Spare)
		}
		if line.Price > 0 {
			one.price = say.Price(line.Price)
		}
		out = append(out, one)
	}
	return out
}

// quantity writes a figure of the take-off with its unit.
func quantity(v float64, unit string, u plane.Units) string {
	if u == plane.Inches {
		v, unit = takeoff.US(v, unit)
	}
	if unit == "each" {
		return takeoff.Figure(v, unit)
	}
	return takeoff.Figure(v, unit) + " " + unit
}

func (p *page) takeOff(all []bought) {
	if len(all) == 0 {
		return
	}
	p.head("To buy (waste included; the take-off sheet says what each is worked out from)")
	wide := 0
	for i := range all {
		all[i].words = all[i].item.In(p.told.Language)
	}
	for _, l := range all {
		wide = max(wide, len([]rune(l.words)))
	}
	for _, l := range all {
		words := l.packs
		if l.spare != "" {
			words += ", " + l.spare + " to spare"
		}
		if l.price != "" {
			words += ", " + p.told.Figure(l.price)
		}
		gap := strings.Repeat(" ", wide-len([]rune(l.words))+2)
		p.b.WriteString("  " + l.words + gap + p.told.Retold(words) + "\n")
	}
}

func (p *page) shifts(all []Shift) {
	if len(all) == 0 {
		return
	}
	how := "judged by area, quantities counted anew"
	if all[0].How == "laid anew" {
		how = "cables laid anew, quantities counted anew"
	}
	p.head("If a room measures otherwise (%s)", how)
	for _, s := range all {
		way, by := "north-south", s.North
		if s.East != 0 {
			way, by = "east-west", s.East
		}
		p.put(s.Room, fmt.Sprintf("%s %s: %s", say.WholeUnitsMore(by, p.units), way, p.shift(s)))
	}
}

func (p *page) shift(s Shift) string {
	words := "the cable no longer suits"
	switch {
	case s.Problem != "":
		return "not looked at: " + s.Problem
	case s.Keeps:
		words = "the cable stays"
	}
	if s.Spacing > 0 {
		words += ", runs " + p.small(s.Spacing) + " apart"
	}
	if !s.Keeps {
		words += ", instead: " + s.Instead
	}
	for _, c := range s.Changes {
		words += fmt.Sprintf(", %s %+d", c.Code, c.Packs)
	}
	return words
}
