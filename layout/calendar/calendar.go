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
	f := &file{plan: p, stamp: latest(p)}
	f.line("BEGIN", "VCALENDAR")
	f.line("VERSION", "2.0")
	f.line("PRODID", "-//oxturn//floor//EN")
	f.cures()
	for i := range p.Rooms {
		for k := range p.Rooms[i].Cables {
			f.tests(&p.Rooms[i], &p.Rooms[i].Cables[k])
		}
	}
	if f.entries == 0 { // a calendar has at least one (3.6)
		f.task("No layer that hardens and no cable is known", "Nothing of this job has a day.")
	}
	f.line("END", "VCALENDAR")
	_, err := io.WriteString(w, f.b.String())
	return err
}

type file struct {
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
		stated := "by its instructions"
		if c.Days == 0 {
			stated = "not stated, taken by default"
		}
		words := fmt.Sprintf("%d days, %s.", c.Wait(), stated)
		if c.Placed.IsZero() {
			f.task("Write down when the "+c.Layer+" was placed", "It then takes "+words)
			continue
		}
		f.event(c.Placed.AddDate(0, 0, c.Wait()), "The "+c.Layer+" has had its "+plural(c.Wait()),
			"Placed on "+day(c.Placed)+"; "+words)
	}
	if use.Date.IsZero() {
		f.task("Earliest full use of the floor is open", use.Words(language.English))
		return
	}
	f.event(use.Date, "Earliest full use of the floor", use.Words(language.English)+". Instructions and label "+
		"override this.")
}

func plural(n int) string {
	if n == 1 {
		return "day"
	}
	return fmt.Sprintf("%d days", n)
}

// tests has a day for every reading that was taken, and a task for every stage that
// none is written down of: each before work goes on.
func (f *file) tests(r *layout.Room, c *layout.Cable) {
	done := map[string]bool{}
	if c.Laid != nil {
		for _, x := range c.Laid.Job.Readings {
			done[x.Stage] = true
			if !x.Date.IsZero() {
				f.event(x.Date, fmt.Sprintf("Tested: cable %s, %s, %s", c.ID, r.Job.Name, x.Stage), read(x))
			}
		}
	}
	l := c.RecordLimits()
	limits := fmt.Sprintf("Ohms %s; insulation %s least at %s dc; sensors. Isolate and prove dead first.",
		say.OhmsFigures(c.Circuit.Limits.Low, c.Circuit.Limits.High), say.Megohms(l.Megohms), say.Volts(l.Volts))
	for s := record.OnSpool; s < record.Service; s++ {
		if !done[s.String()] {
			f.task(fmt.Sprintf("Test cable %s, %s: %s", c.ID, r.Job.Name, s), limits)
		}
	}
}

// read says a reading in words.
func read(x job.Reading) string {
	var out []string
	for _, v := range []struct {
		f     job.Figure
		write func(float64) string
		where string
	}{{x.Ohms, say.Ohms, ""}, {x.Insulation, say.Megohms, ""}, {x.Capacitance, say.Nanofarads, ""},
		{x.Sensor, say.SensorOhms, " at the sensor"}} {
		if v.f.Taken {
			out = append(out, say.Reading(v.f.Value, v.f.Over, v.write)+v.where)
		}
	}
	if x.By != "" {
		out = append(out, "read by "+x.By)
	}
	return strings.Join(out, ", ")
}

func day(t time.Time) string { return t.Format("2006-01-02") }

// event has a whole day (3.6.1); it ends with the next one's beginning.
func (f *file) event(on time.Time, title, words string) {
	f.entry("VEVENT", title, words, func() {
		f.line("DTSTART;VALUE=DATE", on.Format("20060102"))
		f.line("DTEND;VALUE=DATE", on.AddDate(0, 0, 1).Format("20060102"))
		f.line("TRANSP", "TRANSPARENT")
	})
}

// task has no day (3.6.2).
func (f *file) task(title, words string) {
	f.entry("VTODO", title, words, func() { f.line("STATUS", "NEEDS-ACTION") })
}

func (f *file) entry(kind, title, words string, when func()) {
	f.entries++
	info := f.plan.Job.Info
	f.line("BEGIN", kind)
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\x00%s\x00%s\x00%s", info.Number, info.Title, f.plan.Code, title))
	f.line("UID", fmt.Sprintf("%x@oxturn", sum[:12]))
	f.line("DTSTAMP", f.stamp.UTC().Format("20060102T150405Z"))
	when()
	f.line("SUMMARY", escaped(title))
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
