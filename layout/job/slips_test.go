package job

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// slipped is a job in which every slip is made.
const slipped = `units = "in"
notes = ["one"]
[membrane]
pitch = "1.2in"
[spacing]
closest = 2
widest = 4
[[cable]]
id = "R120-64"
volts = 120
watts = 237
length = "64 ft"
lead = "10 ft"
[[room]]
name = "Bath"
cables = ["R120-64"]
walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]
[[room.fixture]]
kind = "tub"
wall = "C"
from = 0
width = "60in"
depth = "30in"
[[room.fixture]]
kind = "toilet"
wall = "D"
centre = "46in"
[[room.opening]]
wall = "A"
from = "26in"
width = "30in"
threshold = true
[room.thermostat]
wall = "B"
from = "46in"
`

// spoken is what a user reads of a report, without the source lines.
func spoken(r *Report) string {
	var b strings.Builder
	for _, d := range r.Diagnostics() {
		at := r.Position(d.Span.File, d.Span.Start)
		fmt.Fprintf(&b, "%d:%d %s: %s\n", at.Line, at.Column, d.Severity, d.Message)
		if d.Hint != "" {
			b.WriteString("    " + strings.ReplaceAll(d.Hint, "\n", " ⏎ ") + "\n")
		}
	}
	return b.String()
}

// TestSlips makes the slips of newcomers, one a time: each gets one message, at
// its place, that says what to type.
func TestSlips(t *testing.T) {
	mustRead(t, slipped)
	for _, c := range []struct{ old, new, want string }{
		{`threshold = true`, `threshold = True`, `32:13 error: threshold is true or false, in small letters, not True
    write threshold = true
`},
		{`threshold = true`, `threshold = yes`, `32:13 error: threshold is true or false, in small letters, not yes
    write threshold = true
`},
		{`threshold = true`, `threshold: true`, `32:1 error: a key and its value are joined by =, not :
    write threshold = true
`},
		{`threshold = true`, `threshold true`, `32:1 error: there is no = in this line
    write threshold = true
`},
		{`threshold = true`, `threshold = "true"`, `32:13 error: threshold is true or false, not text
    write threshold = true
`},
		{`threshold = true`, `threshold = true;`, `32:17 error: a line ends without ;
    write threshold = true
`},
		{`threshold = true`, `threshold = true // screwed`, `32:18 error: a comment begins with #, not with //
    write threshold = true
`},
		{`threshold = true`, `threshold = maybe`, `32:13 error: threshold is true or false, in small letters, not maybe
    write it like threshold = true
`},
		{`pitch = "1.2in"`, `pitch = 1,2`, `4:9 error: a figure takes a decimal point, not a comma
    write pitch = 1.2
`},
		{`pitch = "1.2in"`, `pitch = 1.2in`, `4:9 error: text and lengths with a unit stand in quotes
    write pitch = "1.2in"
`},
		{`watts = 237`, `watts = 237,5`, `11:9 error: a figure takes a decimal point, not a comma
    write watts = 237.5
`},
		{`watts = 237`, `watts = "237"`, `11:9 error: watts is a number without quotes, not "237"
    write watts = 237
`},
		{`widest = 4`, `widest = "4"`, `7:10 error: widest is a whole number without quotes, not "4"
    write widest = 4
`},
		{`notes = ["one"]`, `sheet.size = "11x17"`, `2:14 warning: size "11x17" is read as "tabloid"
    write size = "tabloid"
`},
		{`notes = ["one"]`, `job.status = "Issued for construction"`,
			`2:14 warning: status "Issued for construction" is read as "for installation"
    write status = "for installation"
`},
		{`kind = "tub"`, `kind = “tub”`, `19:8 warning: curly quotes are read as straight ones
    phones have a setting that leaves quotes straight
`},
		{`kind = "tub"`, `kind = ‘tub’`, `19:8 warning: curly quotes are read as straight ones
    phones have a setting that leaves quotes straight
`},
		{`kind = "tub"`, `kind = tub`, `19:8 error: text and lengths with a unit stand in quotes
    write kind = "tub"
`},
		{`kind = "tub"`, `kind = "sink"`, `19:8 warning: kind "sink" is read as "vanity"
    write kind = "vanity" and name = "sink"
`},
		{`kind = "tub"`, `kind = "linen closet"`, `19:8 warning: kind "linen closet" is read as "cabinet"
    write kind = "cabinet" and name = "linen closet"
`},
		{`kind = "tub"`, `kind = "door"`, `19:8 error: kind cannot be "door"; it is one of: toilet, vanity, tub, shower, cabinet, appliance, island, column, hearth, drain, register
    write [[room.opening]] with kind = "door", below its [[room]]
`},
		{`name = "Bath"`, `name = "Bath`, `15:8 error: the quoted text is never closed
    write name = "Bath"
`},
		{`"south 8ft"]`, `"south 8ft"`, `17:9 error: the list of walls is never closed
    write walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]
`},
		{`"north 8ft", `, `"north 8ft, `, `17:35 error: a quote is missing: the quotes here do not pair
    write walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]
`},
		{`"north 8ft", `, `"north 8ft" `, `17:34 error: a list goes on here without a comma
    write walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]
`},
		{`cables = ["R120-64"]`, `cables = "R120-64"`, `16:10 error: cables is a list in [ ], not text
    write cables = ["R120-64"]
`},
		{`walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]`, `walls = ["east 5", "north 8", "west 5", ` +
			`"south 8"]`, `17:9 error: the walls of room "Bath" have no unit and are read as inches: it would be 2'-2" (660 mm) all round
    write the unit with each: "east 5ft", or "east 5in" where that is meant
`},
		{`walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]`, `corners = [[0, 0], [5, 0], [5, 8], [0, 8]]`, `17:11 error: the corners of room "Bath" have no unit and are read as inches: it would be 2'-2" (660 mm) all round
    write the unit with each: ["5ft", "8ft"], or ["5in", "8in"] where that is meant
`},
		{`walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]`, `corners = [["0ft", "0ft"], ["5ft", "8ft"], ` +
			`["5ft", "0ft"], ["0ft", "8ft"]]`, `17:12 error: walls A and C of room "Bath" cross at (2'-6", 4'-0")
    corners 2 and 3 are the wrong way round: swap them
`},
		{`from = "26in"`, `from = 2' 2"`, `30:8 error: text and lengths with a unit stand in quotes
    write from = "2ft 2in"
`},
		{`from = "26in"`, `from = "2' 2""`, `30:14 error: the inch mark ends the quoted text
    write from = "2ft 2in"
`},
		{`from = "26in"`, `from = 26 1/2`, `30:8 error: text and lengths with a unit stand in quotes
    write from = "26 1/2in"
`},
		{`from = "26in"`, `from =`, `30:1 error: from has no value
    write it like from = "2ft"
`},
		{`from = "26in"`, `from = "1 200 mm"`, `30:8 error: from: "1 200 mm" is not a length: only feet and inches go together
    write from = "1200 mm"
`},
		{`from = "26in"`, `from = "26in" width = "30in"`, `30:14 error: a second key on one line
    put each key on a line of its own
`},
		{`from = "26in"`, `from = "2ft`, `30:8 error: the quoted text is never closed
    write from = "2ft"
`},
		{"from = 0\n", "from = 1/2\n", `21:8 error: text and lengths with a unit stand in quotes
    write from = "1/2in"
`},
		{"from = 0\n", "from = \"12in\"\n", `21:8 error: tub ends 1'-0" (305 mm) beyond the end of wall C: it runs from 1'-0" (305 mm) to 6'-0" (1829 mm)
    from may be 0 here
`},
		{"from = 0\n", "from = 0\nfrom = 1\n", `22:1 error: key room.fixture.from has already been defined
    keep one of the two; a second thing of the same sort gets its own [[…]] header
`},
		{"from = 0\n", "from = 0\nangle = 10\n", `22:9 error: tub stands against its wall: angle says nothing of it
    leave angle out; a thing that stands turned is placed by its centre: at = [x, y]
`},
		{`centre = "46in"`, "centre = \"46in\"\nrough_in = \"40in\"", `28:12 error: the flange of toilet, "40in" = 1016 mm from the wall, would lie beyond it: it reaches 2'-4" (711 mm) into the room
    rough_in is from the finished wall to the middle of the flange, mostly 10 to 14 in
`},
		{`centre = "46in"`, `centre = "4in"`, `27:10 error: toilet begins 0'-3 1/2" (89 mm) before the start of wall D
    centre may be 7-1/2in to 7ft 4-1/2in
`},
		{`depth = "30in"`, "depth = \"30in\"\nheated = true", `24:10 error: tub stands on the floor; only a shower's own floor can be warmed, or that below furniture on legs
    what stands on the floor has no cable below it: leave out what is to be warmed, such as a shower's tiled floor, or write heated = true in that shower, or in a vanity or cabinet on legs; heat = true is for what gives off heat itself, such as a stove, and draws no cable either
`},
		{"wall = \"C\"\nfrom = 0", `at = [31, 81]`, `20:6 error: tub reaches 0'-1" (25 mm) through wall B of room "Bath"; it is 5'-0" (1524 mm) by 2'-6" (762 mm)
    move it 1in west: at = [30, 81]
`},
		{"wall = \"C\"\nfrom = 0", `at = [-100, 81]`, `20:6 error: tub lies outside room "Bath", 5'-10" (1778 mm) from wall C
    x runs east and y north from the same origin as the room's corners
`},
		{`wall = "C"`, `wall = "north"`, `20:8 error: tub stands on wall "north", which room "Bath" does not have
    wall A is the first one written; room "Bath" has walls A to D; in the north is C
`},
		{`[[room.opening]]`, `[[door]]`, `28:3 error: unknown key "door" at the top of the file
    write [[room.opening]] with kind = "door", below its [[room]]
`},
		{`[[room.opening]]`, `[[room.door]]`, `28:8 error: unknown key "door" in [[room]]
    write [[room.opening]] with kind = "door", below its [[room]]
`},
		{`[[room.opening]]`, `[[room.opening]`, `28:1 error: a header with 2 brackets before its name and 1 bracket behind
    write [[room.opening]]
`},
		{`[[room.opening]]`, `[room.opening]`, `28:7 error: room.opening is written [[room.opening]]: there may be several
    write [[room.opening]], with two brackets on each side
`},
		{`[[room.opening]]`, `[[opening]]`, `28:3 error: unknown key "opening" at the top of the file
    opening belongs in a header of its own, [[room.opening]] or [[room.partition.opening]]
`},
		{"[[room.fixture]]\nkind = \"tub\"", "[room.fixture]\nkind = \"tub\"", `18:1 error: room.fixture is written [[room.fixture]]: there may be several
    write [[room.fixture]]
`},
		{"[[room.fixture]]\nkind = \"tub\"", "[[toilet]]\nkind = \"tub\"", `18:3 error: unknown key "toilet" at the top of the file
    write [[room.fixture]] with kind = "toilet", below its [[room]]
`},
		{"[[room.fixture]]\nkind = \"tub\"", "[[room fixture]]\nkind = \"tub\"", `18:1 error: the words of a header are joined by points
    write [[room.fixture]]
`},
		{`[room.thermostat]`, `[[room.thermostat]]`, `33:8 error: room.thermostat is written [room.thermostat]: there is one of it at most
    write [room.thermostat] ⏎ wall = "A" ⏎ from = "4ft 6in"
`},
		{`notes = ["one"]`, "notes = [\"one\"]\ncatalogue = \"C:\\Users\\me\\cables.toml\"", `3:13 error: a backslash in double quotes begins an escape, such as \n
    write catalogue = 'C:\Users\me\cables.toml'
`},
		{`notes = ["one"]`, "notes = [\"one\"]\n[job]\ndate = 24.11.2026", `4:8 error: this is no date
    write date = 2026-11-24
`},
		{`notes = ["one"]`, "notes = [\"one\"]\n[job]\ndate = 3/4/2026", `4:8 error: this is no date
    a date is a day of the calendar in four, two and two figures: 2026-12-02
`},
		{`notes = ["one"]`, "notes = [\"one\"]\n[[room.fixture]]\nkind = \"tub\"\nwall = \"C\"\nfrom = " +
			"0\n[[room.fixture]]\nkind = \"tub\"\nwall = \"C\"\nfrom = 0", `3:1 error: [[room.fixture]] stands before the [[room]] it belongs to
    move [[room]] with its keys up, above this line: what follows it is part of it
`},
		{"[[room]]\nname = \"Bath\"\ncables = [\"R120-64\"]\nwalls = [\"east 5ft\", \"north 8ft\", \"west 5ft\", " +
			"\"south 8ft\"]\n", ``, `14:1 error: room.fixture belongs to a [[room]], and the file has none
    write [[room]] ⏎ name = "Bath" ⏎ corners = [[0, 0], [2850, 0], [2850, 2400], [0, 2400]] ⏎ above this line
`},
		{"[membrane]\npitch = \"1.2in\"", "[membrane]\npitch = \"1.2in\"\n[membrane]\nheight = \"5 mm\"", `5:1 error: key membrane has already been defined
    put the keys of both under one [membrane]
`},
		{`[membrane]`, "this is the membrane\n[membrane]", `3:1 error: there is no = in this line
    a line is key = value; a comment begins with #
`},
		{"units = \"in\"\n", "units = inches\n", `1:9 error: text and lengths with a unit stand in quotes
    write units = "in"
`},
		{`from = "46in"`, "from = \"46in\"\nto_end = \"2ft\"",
			"36:10 error: the thermostat has both from and to_end\n    keep one of the two\n"},
		{`[[cable]]`, `[[cables]]`, "8:3 error: unknown key \"cables\" at the top of the file\n    did you mean " +
			"[[cable]]?\n"},
		{`closest = 2`, `closest gap = 2`, "6:1 error: a key is one word, without blanks\n    write closest_gap = 2\n"},
		{`notes = ["one"]`, "notes = [\"one\"]\n[tile]\nsize = [12 24]",
			"4:12 error: a list goes on here without a comma\n    write size = [12, 24]\n"},
		{`notes = ["one"]`, "notes = [\"one\"]\n[tile]\npattern = \"brick\"",
			"4:11 warning: pattern \"brick\" is read as \"offset\"\n    " +
				"write pattern = \"offset\"\n"},
		{`kind = "tub"`, "sort = tub\nkind = \"tub\"",
			"19:8 error: text and lengths with a unit stand in quotes\n    put quotes round text, and round a length " +
				"with its unit: \"64 ft\"\n"},
	} {
		if !strings.Contains(slipped, c.old) {
			t.Fatalf("the job has no %q", c.old)
		}
		_, report := readText(strings.Replace(slipped, c.old, c.new, 1))
		if got := spoken(report); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.new, got, c.want)
		}
	}
}

// oneLine are slips of one line each, which do not touch each other: a line of
// the job with what is written instead.
var oneLine = [][2]string{
	{`units = "in"`, `units = inches`},
	{`notes = ["one"]`, `notes = ["one"`},
	{`[membrane]`, `[membrane`},
	{`pitch = "1.2in"`, `pitch = 1,2`},
	{`closest = 2`, `closest: 2`},
	{`widest = 4`, `widdest = 4`},
	{`id = "R120-64"`, `id = “R120-64”`},
	{`volts = 120`, `volts = "120"`},
	{`watts = 237`, `watts = 237 W`},
	{`length = "64 ft"`, `length = 64 ft`},
	{`lead = "10 ft"`, `lead = "10 ft`},
	{`name = "Bath"`, `name = Bath`},
	{`cables = ["R120-64"]`, `cables = [R120-64]`},
	{`walls = ["east 5ft", "north 8ft", "west 5ft", "south 8ft"]`,
		`walls = ["east 5ft", "north 8ft, "west 5ft", "south 8ft"]`},
	{`kind = "tub"`, `kind = "tubb"`},
	{`wall = "C"`, `wall = 'C`},
	{`from = 0`, `from = `},
	{`width = "60in"`, `width = "60in`},
	{`depth = "30in"`, `depth "30in"`},
	{`kind = "toilet"`, `kind = "toilet";`},
	{`wall = "D"`, `wall = D # by the window`},
	{`centre = "46in"`, `center = "46in"`},
	{`[[room.opening]]`, `[[room.opening]`},
	{`wall = "A"`, `wall == "A"`},
	{`from = "26in"`, `from = 26 1/2`},
	{`width = "30in"`, `width = "30in""`},
	{`threshold = true`, `threshold = True`},
	{`wall = "B"`, `wall = "B`},
	{`from = "46in"`, `from = "46 inchs"`},
}

// TestSlipsTogether makes any number of slips in one file: each is reported
// once, at its line, and nothing else is.
func TestSlipsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.Split(slipped, "\n")
		var want []int
		for _, s := range oneLine {
			if !rapid.Bool().Draw(t, s[1]) {
				continue
			}
			i := slices.Index(lines, s[0])
			lines[i] = s[1]
			want = append(want, i+1)
		}
		slices.Sort(want)
		_, report := readText(strings.Join(lines, "\n"))
		var got []int
		for _, d := range report.Diagnostics() {
			got = append(got, report.Position(d.Span.File, d.Span.Start).Line)
		}
		if !slices.Equal(got, want) {
			t.Fatalf("reported in lines %v, want %v:\n%s", got, want, spoken(report))
		}
	})
}

// TestMovesLeadInside does what is said of things that reach through a wall: they
// then lie in the room.
func TestMovesLeadInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := func(most float64) float64 {
			return math.Round(rapid.Float64Range(0, most).Draw(t,
				"at")*10) / 10
		}
		room := head + "[[room]]\nname = \"R\"\n" + anticlockwise + tail
		thing := fmt.Sprintf("[[room.fixture]]\nkind = \"cabinet\"\nwidth = 400\ndepth = 300\nangle = %g\n",
			math.Round(rapid.Float64Range(0, 360).Draw(t, "angle")))
		_, report := readText(room + thing + fmt.Sprintf("at = [%g, %g]\n", coordinate(3000), coordinate(2000)))
		for _, d := range report.Diagnostics() {
			if d.Severity == Warning {
				continue
			}
			_, at, found := strings.Cut(d.Hint, ": at = ")
			if !found {
				t.Fatalf("%s", spoken(report))
			}
			if _, report = readText(room + thing + "at = " + at + "\n"); report.Errors() > 0 {
				t.Fatalf("%sat = %s\n%s", thing, at, spoken(report))
			}
		}
	})
}

// TestHintsAreAccepted does what hints of the kind "write key = value" say: the
// slip is then mended.
func TestHintsAreAccepted(t *testing.T) {
	tried := 0
	for _, s := range oneLine {
		lines := strings.Split(slipped, "\n")
		i := slices.Index(lines, s[0])
		lines[i] = s[1]
		_, report := readText(strings.Join(lines, "\n"))
		d := report.Diagnostics()[0]
		line, ok := strings.CutPrefix(d.Hint, "write ")
		if !ok || strings.HasPrefix(line, "it like") {
			continue
		}
		tried++
		lines[i] = line
		if _, report = readText(strings.Join(lines, "\n")); report.Errors() > 0 {
			t.Errorf("%s: the hint %q leads to\n%s", s[1], line, spoken(report))
		}
	}
	if tried < 15 {
		t.Errorf("only %d hints say what to write", tried)
	}
}
