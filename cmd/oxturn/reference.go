package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/job"
)

// helpTable prints the keys of one table of the job file, or one key.
func helpTable(c *console, path string) int {
	text := keyHelp(path)
	if text == "" {
		c.say("oxturn help job-file: there is no table or key %q%s", path, nearWords(path))
		return exitUsage
	}
	fmt.Fprint(c.Out, text)
	return exitOK
}

// keyHelp is the help on the keys of the job file that a word names: by the
// whole path the one, by a name or the end of a path all there are. Empty where
// there is none.
func keyHelp(word string) string {
	word = strings.Trim(word, "[] ")
	var found []job.Key
	for _, k := range job.Keys() {
		switch {
		case word == "" || !strings.HasSuffix("."+k.Path, "."+word):
		case k.Path == word:
			return keyEntry(k)
		default:
			found = append(found, k)
		}
	}
	// a table first: it is what most people ask for by a name such as fixture
	slices.SortStableFunc(found, func(a, b job.Key) int { return cmp.Compare(rankOf(a), rankOf(b)) })
	var b strings.Builder
	if len(found) > 1 {
		fmt.Fprintf(&b, "%s has %d meanings in the job file, by where it stands:\n\n", word, len(found))
	}
	for i, k := range found {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(keyEntry(k))
	}
	return b.String()
}

func rankOf(k job.Key) int {
	if isTable(k) {
		return 0
	}
	return 1
}

// docWide columns is how wide a key's description is set, indented by two.
const docWide = 76

// keyEntry is the help on one key: what it is, takes and is without, and where
// it belongs; of a table with all its keys.
func keyEntry(k job.Key) string {
	if isTable(k) {
		return strings.TrimLeft(jobFileText(k.Path), "\n")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s\n%s\n\n", k.Path, star(k), indent(wrap(k.Doc+".", docWide)))
	line := func(name, text string) {
		if text != "" {
			fmt.Fprintf(&b, "  %-10s %s\n", name, strings.ReplaceAll(wrap(text, 66), "\n", "\n             "))
		}
	}
	line("belongs", whereOf(k))
	line("takes", takesWords(k))
	line("left out", leftOut(k))
	line("e.g.", lastLine(k.Example))
	return b.String()
}

// whereOf says where a key is written.
func whereOf(k job.Key) string {
	for _, t := range job.Keys() {
		if t.Path == k.Parent() && isTable(t) {
			return "in " + t.Header()
		}
	}
	return "at the top of the file, before the first [header]"
}

// leftOut says what holds without a key.
func leftOut(k job.Key) string {
	switch {
	case k.Unless != "":
		return "an error, unless there is [" + k.Unless + "]"
	case k.Required:
		return "an error: it must be given"
	}
	if k.Default != "" {
		return k.DefaultWords()
	}
	return k.Otherwise
}

// takesWords says what a key takes, with its unit and its bounds.
func takesWords(k job.Key) string {
	words := map[job.Type]string{
		job.TypeText: "text in quotes", job.TypeWhole: "a whole number", job.TypeNumber: "a number",
		job.TypeFlag: "true or false",
		job.TypeDate: "a date without quotes, year first", job.TypeTexts: "a list of texts",
		job.TypeLength:  `a length: text with its unit, or a bare number in the file's units`,
		job.TypeAngle:   `an angle in degrees: 30, "30deg" or "30°"`,
		job.TypeShare:   `a share: 0.1 or "10 %"`,
		job.TypeArea:    `an area with its unit: m2 or ft2`,
		job.TypeVolume:  `a volume with its unit: L, ml, gal, fl oz or ft3`,
		job.TypeDensity: `a power per area: "150 W/m2", "14 W/ft2", or a bare number in W/m²`,
		job.TypeTransmittance: `a U-value: "0.3 W/m2K" or "0.05 Btu/h ft2 F"; in a job in mm also a bare number in ` +
			`W/(m² K)`,
		job.TypePack:    `a quantity with its unit: kg, lb, L, gal, fl oz, m, ft, m2 or ft2`,
		job.TypePoint:   "a point [x, y], two lengths: x runs east, y north",
		job.TypePlace:   `a point [x, y], or a wall and a length along it: "B 4ft"`,
		job.TypePoints:  "a list of points [[x, y], …]",
		job.TypeLengths: "a list of lengths", job.TypeSize: "two lengths [width, length]",
		job.TypePixel:       "a pixel [x, y]: x to the right, y down from the upper left corner of the picture",
		job.TypePixels:      "a list of pixels [[x, y], …]",
		job.TypeShares:      "two shares, such as [-0.05, 0.10]",
		job.TypeReading:     `a number as read, or text such as ">2000" where the instrument's range ended`,
		job.TypeTemperature: `a temperature: "68 F", "20 C", or a bare number in °C`,
	}
	switch k.Type {
	case job.TypeChoice:
		return `"` + strings.Join(k.Values, `", "`) + `"`
	case job.TypeChoices:
		return `"` + strings.Join(k.Values, `", "`) + `", or a list of two of them`
	}
	return words[k.Type] + boundWords(k)
}

// boundWords says within which bounds a figure must lie, lengths in mm.
func boundWords(k job.Key) string {
	unit := map[job.Type]string{job.TypeLength: " mm", job.TypeTemperature: " °C"}[k.Type]
	var parts []string
	switch {
	case k.Type == job.TypeText, k.Type == job.TypePoints, k.Type == job.TypePixels:
	case k.Limits.Above:
		parts = append(parts, fmt.Sprintf("above %g", k.Limits.Min))
	case k.Limits.Min != 0 && !math.IsInf(k.Limits.Min, 0):
		parts = append(parts, fmt.Sprintf("%g%s at least", k.Limits.Min, unit))
	}
	if k.Limits.Max != 0 {
		parts = append(parts, fmt.Sprintf("%g%s at most", k.Limits.Max, unit))
	}
	if parts == nil {
		return ""
	}
	return "; " + strings.Join(parts, ", ")
}

// mostNear is how many keys with a word in them are named beside an unknown one.
const mostNear = 6

// nearWords says what else there is for a word that helps to nothing.
func nearWords(word string) string {
	known := append(verbNames(), topicNames()...)
	var holding []string
	for _, k := range job.Keys() {
		known = append(known, k.Path)
		if !slices.Contains(known, k.Name()) {
			known = append(known, k.Name())
		}
		if len(word) > 2 && strings.Contains(k.Path, strings.ToLower(word)) && len(holding) < mostNear {
			holding = append(holding, k.Path)
		}
	}
	out := didYouMean(strings.ToLower(strings.Trim(word, "[] ")), known)
	if holding != nil {
		out += "; keys with it: " + strings.Join(holding, ", ")
	}
	return out + "\nhint: oxturn help lists the verbs, oxturn help job-file the keys; topics are " +
		strings.Join(topicNames(), ", ")
}

func isTable(k job.Key) bool { return k.Type == job.TypeTable || k.Type == job.TypeTables }

// jobFileText is the reference of the job file, generated from the list of
// keys by which jobs are read; of one table where path is not empty.
func jobFileText(path string) string {
	var b strings.Builder
	if path == "" {
		b.WriteString("A job file is TOML (toml.io): keys = values under [table] headers. Keys with a\nstar must be " +
			"given.\n\n")
	}
	for _, k := range job.Keys() {
		inside := path == "" || k.Path == path || k.Parent() == path
		switch {
		case !inside:
		case isTable(k):
			fmt.Fprintf(&b, "\n%s%s\n%s\n\n", k.Header(), star(k), indent(wrap(k.Doc+".", docWide)))
		default:
			b.WriteString(keyLines(k))
		}
	}
	return b.String()
}

func star(k job.Key) string {
	if k.Required {
		return " *"
	}
	return ""
}

// exampleColumns columns stand before what is said of a value.
const exampleColumns = 23

// keyLines are a key's name, what it takes and its text, hung under the name.
func keyLines(k job.Key) string {
	text := k.Doc + "."
	if k.Default != "" {
		text += " Default: " + k.DefaultWords() + "."
	} else if k.Otherwise != "" {
		text += " Left out: " + k.Otherwise + "."
	}
	if taken := job.Plausible(k.Path); taken != "" {
		text += " Taken: " + taken + "."
	}
	if k.Type == job.TypeChoice || k.Type == job.TypeChoices {
		text = strings.Join(k.Values, ", ") + ". " + text
	}
	lines := strings.Split(wrap(text, 56), "\n")
	out := fmt.Sprintf("  %-20s %s\n", k.Name()+star(k), lines[0])
	for _, l := range lines[1:] {
		out += strings.Repeat(" ", exampleColumns) + l + "\n"
	}
	return out + strings.Repeat(" ", exampleColumns) + "e.g. " + lastLine(k.Example) + "\n"
}

func lastLine(s string) string { return s[strings.LastIndexByte(s, '\n')+1:] }
