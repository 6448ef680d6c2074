// Package calendar writes the days of a floor as a calendar file (RFC 5545): when each
// layer has hardened, when the floor may be used in full, what was tested and what is
// to be tested.
package calendar

import (
	"crypto/sha256"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// Write writes the calendar of a plan. What has no day, since none is written down in
// the job, is a task without one.
func Write(w io.Writer, p *layout.Plan) error {
	f := &file{Figures: p.Job.Figures(), plan: p, stamp: latest(p)}
	f.line("BEGIN", "VCALENDAR")
	f.line("VERSION", "2.0")
	f.line("PRODID", "-//oxturn//floor//"+strings.ToUpper(p.Job.Language.Tag()))
	f.cures()
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			f.tests(&p.Rooms[i], &p.Rooms[i].Cables[k])
		}
	}
	if f.entries == 0 { // a calendar has at least one (3.6)
		f.task(language.Say("No layer that hardens and no cable is known"), f.Text("Nothing of this job has a day."))
	}
	f.line("END", "VCALENDAR")
	_, err := io.WriteString(w, f.b.String())
	return err
}

type file struct {
	say.Figures
	b       strings.Builder
	plan    *layout.Plan
	stamp   time.Time
	entries int
}

// latest is the last day that the job names: there is no clock to stamp entries by.
func latest(p *layout.Plan) time.Time {
	out := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	days := []time.Time{p.Job.Info.Date}
	for _, r := range p.Job.Revisions {
		days = append(days, r.Date)
	}
	if p.FullUse != nil {
		for _, c := range p.FullUse.Cures {
			days = append(days, c.Placed)
		}
	}
	for _, a := range p.Job.Laid {
		days = append(days, a.Date)
		for _, r := range a.Readings {
			days = append(days, r.Date)
		}
	}
	for _, d := range days {
		if d.After(out) {
			out = d
		}
	}
	return out
}

// cures has a day for every layer that has hardened, and for the floor's full use.
func (f *file) cures() {
	use := f.plan.FullUse
	if use == nil {
		return
	}
	for _, c := range use.Cures {
		words := f.Textf("%d days, by its instructions.", c.Wait())
		if c.Days == 0 {
			words = f.Textf("%d days, not stated, taken by default.", c.Wait())
		}
		layer := language.Say(c.Layer)
		if c.Placed.IsZero() {
			f.task(language.Say("Write down when the %s was placed", layer), f.Textf("It then takes %s", words))
			continue
		}
		title := language.Say("The %s has had its day", layer)
		if c.Wait() != 1 {
			title = language.Say("The %s has had its %d days", layer, c.Wait())
		}
		f.event(c.Placed.AddDate(0, 0, c.Wait()), title, f.Textf("Placed on %s; %s", day(c.Placed), words))
	}
	if use.Date.IsZero() {
		f.task(language.Say("Earliest full use of the floor is open"), use.Words(f.Language))
		return
	}
	f.event(use.Date, language.Say("Earliest full use of the floor"),
		f.Textf("%s. Instructions and label override this.", use.Words(f.Language)))
}

// tests has a day for every reading that was taken, and a task for every stage that
// none is written down of: each before work goes on.
func (f *file) tests(r *layout.Room, c *layout.Cable) {
	done := map[string]bool{}
	if c.Laid != nil {
		for _, x := range c.Laid.Job.Readings {
			done[x.Stage] = true
			if !x.Date.IsZero() {
				f.event(x.Date, language.Say("Tested: cable %s, %s, %s", c.ID, r.Job.Name, language.Say(x.Stage)),
					f.read(x))
			}
		}
	}
	l := c.RecordLimits()
	limits := f.Textf("Ohms %s; insulation %s least at %s dc; sensors. Isolate and prove dead first.",
		f.OhmsFigures(c.Circuit.Limits.Low, c.Circuit.Limits.High), f.Figure(say.Megohms(l.Megohms)), f.Volts(l.Volts))
	for s := record.OnSpool; s < record.Service; s++ {
		if !done[s.String()] {
			f.task(language.Say("Test cable %s, %s: %s", c.ID, r.Job.Name, s), limits)
		}
	}
}

// read says a reading in words.
func (f *file) read(x job.Reading) string {
	var out []string
	for _, v := range []struct {
		read  job.Figure
		write func(float64) string
		where string
	}{{x.Ohms, say.Ohms, "%s"}, {x.Insulation, say.Megohms, "%s"}, {x.Capacitance, say.Nanofarads, "%s"},
		{x.Sensor, say.SensorOhms, f.Text("%s at the sensor")}} {
		if v.read.Taken {
			out = append(out, fmt.Sprintf(v.where, f.reading(v.read, v.write)))
		}
	}
	if x.By != "" {
		out = append(out, f.Textf("read by %s", x.By))
	}
	return strings.Join(out, ", ")
}

// reading writes a figure off an instrument.
func (f *file) reading(v job.Figure, write func(float64) string) string {
	figure := f.Figure(write(v.Value))
	if v.Over {
		return f.Textf("over %s", figure)
	}
	return figure
}

func day(t time.Time) string { return t.Format("2006-01-02") }

// event has a whole day (3.6.1); it ends with the next one's beginning.
func (f *file) event(on time.Time, title language.Message, words string) {
	f.entry("VEVENT", title, words, func() {
		f.line("DTSTART;VALUE=DATE", on.Format("20060102"))
		f.line("DTEND;VALUE=DATE", on.AddDate(0, 0, 1).Format("20060102"))
		f.line("TRANSP", "TRANSPARENT")
	})
}

// task has no day (3.6.2).
func (f *file) task(title language.Message, words string) {
	f.entry("VTODO", title, words, func() { f.line("STATUS", "NEEDS-ACTION") })
}

// entry is known by its title in English: one file read after the other in two languages brings
// each day once.
func (f *file) entry(kind string, title language.Message, words string, when func()) {
	f.entries++
	info := f.plan.Job.Info
	f.line("BEGIN", kind)
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\x00%s\x00%s\x00%s", info.Number, info.Title, f.plan.Code, title))
	f.line("UID", fmt.Sprintf("%x@oxturn", sum[:12]))
	f.line("DTSTAMP", f.stamp.UTC().Format("20060102T150405Z"))
	when()
	f.line("SUMMARY", escaped(title.In(f.Language)))
	if words != "" {
		f.line("DESCRIPTION", escaped(words))
	}
	if info.Site != "" {
		f.line("LOCATION", escaped(info.Site))
	}
	f.line("END", kind)
}

// escaped writes text as a value (3.3.11).
func escaped(s string) string {
	s = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`).Replace(s)
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == '\x7f' || r == utf8.RuneError {
			return -1
		}
		return r
	}, s)
}

// mostOctets is how long a line may be before it is folded (3.1).
const mostOctets = 75

// line writes a line, folded between letters.
func (f *file) line(name, value string) {
	n := 0
	for _, r := range name + ":" + value {
		size := utf8.RuneLen(r)
		if n+size > mostOctets {
			f.b.WriteString("\r\n ")
			n = 1
		}
		f.b.WriteRune(r)
		n += size
	}
	f.b.WriteString("\r\n")
}
