package main

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"oxturn/layout"
	"oxturn/layout/asjson"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

const chooseHelp = `
Weighs every cable of the job and its catalogue, and every pair of one voltage,
for each room: by their length first, then lays the best few and says of the
others why not. The one that draw takes is marked with a star: the job's own, or
the nearest to the power per area wanted, one cable before two where one does.
"Covered" is the share of all the floor that could be heated.

Where the job gives [[layer]]s it also says of each how warm the floor is, left
on without a thermostat: what goes up, the surface's mean and how soon it is
warm in the cold case; the surface over a cable in the hot case, which limits
are held against. Of two cables it is the one farther from what is wanted.

  oxturn choose bath.toml
  oxturn choose bath.toml --all
  oxturn choose bath.toml --format csv > cables.csv
  oxturn choose bath.toml --stock left-over.csv
  oxturn choose bath.toml --box A,C

Flags:
  --all                  those that do not fit or were not laid, too
  --box WALLS            lay the floor with its box along these walls or
                         partitions, with leads and tube from each
  --stock FILE           weigh what is in stock instead of the job's cables:
                         CSV with the columns id and count, and of cables that
                         the job does not have volts, watts, length and lead
                         too; each room is weighed as if it came first
  --format FORMAT        text, csv or json (default text); csv and json have all
` + jobFlagsHelp + `
The columns "1 in less" and "1 in more" say whether the spacing stays within its
limits in a room an inch smaller or larger both ways, by its area; what an inch
does to the order, with the cables laid anew, says check --off-by-inch.
Exit codes: 0 done, 1 errors in the job or a room that nothing fits, 2 usage.
`

// A chooseOrder is what the flags of choose ask for.
type chooseOrder struct {
	all    bool
	format string
	stock  string // a list of cables to weigh in place of the job's; empty: none
	box    string // letters of walls along which places for the box are looked for; empty: none
}

func (o *chooseOrder) flags(f *verbFlags) {
	f.BoolVar(&o.all, "all", false, "")
	f.text(&o.stock, "stock")
	f.text(&o.box, "box")
	f.word(&o.format, "format", "text", "text", "csv", "json")
}

func (o *chooseOrder) run(ctx context.Context, c *commandLine) int {
	s, code := c.read(ctx, c.args[0], "")
	if code != exitOK {
		return code
	}
	if o.box != "" {
		return o.boxes(ctx, c, s)
	}
	var stock []byte
	if o.stock != "" {
		var err error
		if stock, err = readFile(o.stock); err != nil {
			return c.fail(err)
		}
	}
	j, rooms, report, err := weigh(ctx, c, s, o.stock, stock)
	switch {
	case ctx.Err() != nil:
		return exitInterrupted
	case err != nil:
		c.say("oxturn: %s: weighing its cables was given up: %v\n"+
			"hint: name fewer cables, or give it more with --time-limit", s.name, err)
		return exitJob
	}
	printReport(c.aside().console, report, c.style) // the output is for the table
	if err := writeOptions(c, j, rooms, o.format, o.all); err != nil {
		return c.fail(err)
	}
	return c.verdict(report)
}

// weigh reads a job and weighs its cables for every room; there are no rooms
// where the report has errors. An error is that ctx or the time limit ended it.
func weigh(ctx context.Context, c *commandLine, s source, list string, stock []byte) (j *job.Job,
	rooms []build.RoomOptions, report *job.Report, err error) {
	j, report = job.Read(s.name, s.data, s.open)
	if j != nil && report.Errors() == 0 && list != "" {
		j.TakeStock(list, stock, report)
	}
	if j == nil || report.Errors() > 0 {
		return j, nil, report, nil
	}
	var wrong []job.Diagnostic
	var found []build.RoomOptions
	line := waiting(c.console, s.name+": weighing cables")
	err = within(ctx, c.timeLimit, func(stop func() bool) {
		found, wrong = build.OptionsWith(j, search(stop), func(room string, cables []string) {
			line.tell(fmt.Sprintf("%s: laying %s", room, strings.Join(cables, " + ")))
		})
	})
	line.end()
	if err != nil {
		return j, nil, report, err
	}
	for _, d := range wrong {
		report.Add(d)
	}
	return j, found, report, nil
}

func writeOptions(c *commandLine, j *job.Job, rooms []build.RoomOptions, format string, all bool) error {
	switch {
	case len(rooms) == 0:
		return nil
	case format == "csv":
		return optionsCSV(c.Out, rooms, j, c.told)
	case format == "json":
		return optionsJSON(c.Out, rooms, j, c.told)
	}
	return optionsText(c, j, rooms, all)
}

// optionsText writes a table a room, figures in the job's units.
func optionsText(c *commandLine, j *job.Job, rooms []build.RoomOptions, all bool) error {
	u := j.Units
	for i, r := range rooms {
		if i > 0 {
			fmt.Fprintln(c.Out)
		}
		name := r.Room.Name
		if r.Zone != "" {
			name += ", " + r.Zone
		}
		c.tellf("%s: %s to heat at about %s at even spacing", printable(name), say.AreaBoth(r.Heated, u),
			say.Density(r.Asked, u))
		t := c.table("", "cable", "length", "spacing", "pegs", "heat", "covered", "load", "lead", "1 in less",
			"1 in more")
		var unfit []build.Option
		for _, o := range r.Options {
			if !o.Fits {
				unfit = append(unfit, o)
				continue
			}
			t.row(optionCells(o, j)...)
		}
		if err := t.Flush(); err != nil {
			return err
		}
		writeSplits(c, r, j)
		if err := writeWarmth(c, r.Options, j); err != nil {
			return err
		}
		writeUnfit(c, unfit, u, all || len(unfit) == len(r.Options))
	}
	if len(j.BuildUp) == 0 {
		c.tellf("\nHow warm the floor gets, and how soon, is not known: the job gives no [[layer]].")
	}
	return nil
}

// inPegs is a spacing in pegs, where those are a distance.
func inPegs(mm float64, j *job.Job) string {
	if j.Uneven() {
		return "-"
	}
	return say.Plain(mm / j.Membrane.Pitch)
}

func optionCells(o build.Option, j *job.Job) []string {
	u := j.Units
	return []string{
		takenMark(o), printable(strings.Join(o.IDs, " + ")), say.Long(o.Length, u), say.Apart(o.Spacing, u),
		inPegs(o.Spacing, j),
		say.Density(o.Density, u), say.Percent(o.Covered), say.Amps(o.Amps) + " at " + say.Volts(o.Volts),
		say.Long(o.LeadReach, u),
		held(o.Smaller), held(o.Larger),
	}
}

// writeSplits says whether one cable does, and where several would part the floor.
func writeSplits(c *commandLine, r build.RoomOptions, j *job.Job) {
	alone := slices.ContainsFunc(r.Options, func(o build.Option) bool { return o.Fits && len(o.IDs) == 1 })
	tape := layout.NewTape(r.Room, j.Units)
	for _, o := range r.Options {
		if o.Taken && len(o.IDs) == 1 {
			c.tellf("\nOne cable does: a second is one more lead, one more splice and one more thing to fail.")
		}
		if o.Taken && len(o.IDs) > 1 && !alone {
			c.tellf("\nOne cable does not: none of those tried can be laid alone.")
		}
	}
	for _, o := range r.Options {
		for _, s := range o.Splits {
			fmt.Fprint(c.Out, "\n"+map[bool]string{true: "* "}[o.Taken])
			c.tellf("%s part the floor by a line from %s to %s:",
				printable(strings.Join(slices.Concat(s.Sides[0].IDs, s.Sides[1].IDs), " + ")), tape.Place(s.Line.A),
				tape.Place(s.Line.B))
			for _, p := range s.Sides {
				c.tellf("    %s %s %s to the %s of it", printable(strings.Join(p.IDs, " + ")),
					map[bool]string{true: "serves", false: "serve"}[len(p.IDs) == 1], say.AreaBoth(p.Area, j.Units),
					p.Side)
			}
		}
	}
}

func held(s build.OffByInch) string {
	switch {
	case s.Within:
		return "fits"
	case s.Spacing == 0:
		return "-"
	}
	return "beyond"
}

func takenMark(o build.Option) string {
	if o.Taken {
		return "*"
	}
	return ""
}

func writeUnfit(c *commandLine, unfit []build.Option, u plane.Units, all bool) {
	if len(unfit) == 0 {
		return
	}
	if !all {
		c.tellf("\n%d more cables and pairs do not fit or were not laid: --all says why", len(unfit))
		return
	}
	c.tellf("\nThese do not fit or were not laid:")
	for _, o := range unfit {
		c.tellf("  %s, %s: %s", printable(strings.Join(o.IDs, " + ")), say.Long(o.Length, u), printable(o.Why))
	}
}

// An optionRow is an option as programs read it; lengths in mm.
type optionRow struct {
	Room          string     `json:"room"`
	Zone          string     `json:"zone,omitempty"`
	Cables        []string   `json:"cables"`
	Taken         bool       `json:"taken"`
	Fits          bool       `json:"fits"`
	Unlaid        bool       `json:"not_laid"`
	Why           string     `json:"why,omitempty"`
	Length        float64    `json:"length_mm"`
	Spacing       *float64   `json:"spacing_mm"`
	Pegs          *float64   `json:"spacing_pegs"`
	Density       float64    `json:"density_w_m2"`
	Covered       *float64   `json:"covered_share"`
	Watts         float64    `json:"watts"`
	Volts         float64    `json:"volts"`
	Amps          float64    `json:"amps"`
	LeadReach     float64    `json:"lead_reach_mm"`
	Splits        []splitRow `json:"splits,omitempty"`
	SmallerWithin bool       `json:"fits_1in_smaller"`
	LargerWithin  bool       `json:"fits_1in_larger"`
	rowWarmth
}

// A splitRow is a line by which cables part a floor, x east and y north in mm, and what
// those on each side of it serve.
type splitRow struct {
	Line  [2][2]float64 `json:"line_mm"`
	Sides []splitSide   `json:"sides"`
}

type splitSide struct {
	IDs  []string `json:"cables"`
	Area float64  `json:"area_m2"`
	Side string   `json:"side"`
}

func splitRows(all []build.Split) (out []splitRow) {
	at := func(p plane.Point) [2]float64 { return [2]float64{rounded(p.X, 0), rounded(p.Y, 0)} }
	for _, s := range all {
		one := splitRow{Line: [2][2]float64{at(s.Line.A), at(s.Line.B)}}
		for _, p := range s.Sides {
			one.Sides = append(one.Sides, splitSide{p.IDs, rounded(p.Area/plane.SquareMetre, 3), p.Side})
		}
		out = append(out, one)
	}
	return out
}

// row rounds to what the figures are good for, so that two machines agree.
func row(room, zone string, o build.Option, j *job.Job) optionRow {
	r := optionRow{Room: room, Zone: zone, Cables: o.IDs, Taken: o.Taken, Fits: o.Fits, Unlaid: o.Unlaid, Why: o.Why,
		Length:  rounded(o.Length, 1),
		Density: rounded(o.Density, 1), Watts: rounded(o.Watts, 1), Volts: o.Volts, Amps: rounded(o.Amps, 3),
		LeadReach:     rounded(o.LeadReach, 1),
		SmallerWithin: o.Smaller.Within, LargerWithin: o.Larger.Within}
	if !math.IsInf(o.Spacing, 0) {
		r.Spacing = figureOf(o.Spacing, 1)
		if !j.Uneven() {
			r.Pegs = figureOf(o.Spacing/j.Membrane.Pitch, 2)
		}
	}
	if o.Fits {
		r.Covered = figureOf(o.Covered, 4)
	}
	r.Splits = splitRows(o.Splits)
	r.rowWarmth = warmthOf(o)
	return r
}

func figureOf(v float64, decimals int) *float64 {
	v = rounded(v, decimals)
	return &v
}

func rounded(v float64, decimals int) float64 {
	k := math.Pow(10, float64(decimals))
	return math.Round(v*k)/k + 0
}

// optionRows are all options, with why some do not fit as told.
func optionRows(rooms []build.RoomOptions, j *job.Job, told func(string) string) []optionRow {
	out := []optionRow{}
	for _, r := range rooms {
		for _, o := range r.Options {
			o.Why = told(o.Why)
			out = append(out, row(r.Room.Name, r.Zone, o, j))
		}
	}
	return out
}

func optionsJSON(w io.Writer, rooms []build.RoomOptions, j *job.Job, told func(string) string) error {
	return asjson.Write(w, struct {
		Schema  int         `json:"schema"`
		Options []optionRow `json:"options"`
	}{1, optionRows(rooms, j, told)})
}

func optionsCSV(w io.Writer, rooms []build.RoomOptions, j *job.Job, told func(string) string) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{{"room", "cables", "taken", "fits", "length (mm)", "spacing (mm)", "spacing (pegs)",
		"heat (W/m²)", "covered (%)", "watts", "volts", "amps",
		"lead reach (mm)", "fits 1 in smaller", "fits 1 in larger", "surface at least (°C)", "goes up at least (%)",
		"warm-up (s)", "surface at most (°C)", "beyond limits", "why not", "zone"}}
	for _, r := range optionRows(rooms, j, told) {
		rows = append(rows, []string{takeoff.Defuse(r.Room), takeoff.Defuse(strings.Join(r.Cables, " + ")),
			strconv.FormatBool(r.Taken), strconv.FormatBool(r.Fits),
			number(&r.Length), number(r.Spacing), number(r.Pegs), number(&r.Density), shareCell(r.Covered),
			number(&r.Watts), number(&r.Volts), number(&r.Amps),
			number(&r.LeadReach), strconv.FormatBool(r.SmallerWithin), strconv.FormatBool(r.LargerWithin),
			number(r.Least), shareCell(r.UpShare), number(r.WarmUp), number(r.Most), takeoff.Defuse(strings.Join(r.over,
				"; ")), takeoff.Defuse(r.Why), takeoff.Defuse(r.Zone)})
	}
	return out.WriteAll(rows)
}

func number(v *float64) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'f', -1, 64)
}

func shareCell(v *float64) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(rounded(100**v, 2), 'f', -1, 64)
}
