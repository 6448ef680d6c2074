package job

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/pattern"
)

// likeExample says how to write a value that was not taken: as it stands but
// for its form where that is all that is wrong, else like the key's example.
func (rd *reader) likeExample(n *tree.Node, k Key) string {
	if value := rd.accepted(k, rd.text[n.Span.Start:n.Span.End]); value != "" {
		return "write " + k.Name() + " = " + value
	}
	if _, text := n.Value.(string); text && k.Type == TypeChoice {
		return "write one of them as it stands, in quotes" // an example would be taken for the likeliest
	}
	return "write it like " + k.Example
}

// longestRewriting is how long a value may be to be written out in a hint.
const longestRewriting = 120

// accepted returns the first rewriting of a value as typed that the key takes,
// "" for none.
func (rd *reader) accepted(k Key, typed string) string {
	if typed == "" || len(typed) > longestRewriting || strings.ContainsAny(typed, "\n\r") {
		return ""
	}
	for _, value := range rd.rewritings(k, typed) {
		if value != typed && rd.takes(k, value) {
			return value
		}
	}
	return ""
}

// plainly returns how a value that is taken as it stands is written with its key.
func (rd *reader) plainly(k Key, s *tree.SyntaxError) string {
	if s.Value != "" && rd.takes(k, s.Value) {
		return s.Value
	}
	return rd.accepted(k, s.Value)
}

// takes reports whether a key takes a value as typed.
func (rd *reader) takes(k Key, value string) bool {
	text := "v = " + value
	root, err := tree.Parse([]byte(text))
	if err != nil || len(root.Fields) != 1 {
		return false
	}
	scratch := newReader(&Report{}, rd.schema, "", []byte(text))
	scratch.units = rd.units
	_, bad := scratch.parse(root.Get("v"), k)
	return bad == nil
}

// rewritings are what a value may have been meant to be, the likeliest first.
func (rd *reader) rewritings(k Key, typed string) []string {
	value := straightQuotes.Replace(withoutTail(typed))
	inner := strings.Trim(value, `"'`)
	point := decimalComma().ReplaceAllString(inner, "$1.$2")
	out := []string{value}
	if k.Type == TypeFlag {
		out = append(out, yesAndNo[strings.ToLower(inner)])
	}
	out = append(out, point, day(inner))
	switch k.Type {
	case TypeLength:
		out = append(out, inQuotes(feetAndInches(inner)), inQuotes(feetAndInches(point)), inQuotes(inner),
			inQuotes(blankThousands().ReplaceAllString(inner, "$1$2")), inQuotes(point+" "+rd.drawingUnits().String()))
	case TypeNumber, TypeWhole:
		out = append(out, withUnit().ReplaceAllString(point, "$1"))
	case TypeChoice, TypeChoices:
		out = append(out, inQuotes(inner), inQuotes(nearest(inner, k.Values)))
	case TypeText, TypeArea, TypeVolume, TypePack, TypeDensity, TypeTemperature, TypeAngle, TypeTransmittance,
		TypePlace, TypeReading:
		out = append(out, inQuotes(inner), inQuotes(point))
	case TypeShare:
		if v, err := strconv.ParseFloat(point, 64); err == nil && v >= 2 {
			out = append(out, inQuotes(point+" %"))
		}
		out = append(out, inQuotes(point))
	case TypeTexts, TypePoints, TypePoint, TypeLengths, TypeSize, TypeShares, TypePixel, TypePixels:
		out = append(out, value+"]", value+"]]", "["+value+"]", noCommas().ReplaceAllString(value, "$1, "))
		if k.Type == TypeTexts {
			out = append(out, listOfTexts(value))
		}
	}
	return out
}

// withoutTail takes off what other notations end a line with.
func withoutTail(typed string) string {
	if !strings.HasPrefix(typed, `"`) && !strings.HasPrefix(typed, "'") && !strings.HasPrefix(typed, "[") {
		typed, _, _ = strings.Cut(typed, "//")
	}
	return strings.TrimRight(typed, " \t;,")
}

// straightQuotes makes a plain quote of each that word processors set.
var straightQuotes = strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "«", `"`, "»", `"`, "‘", "'", "’", "'")

var yesAndNo = map[string]string{"true": "true", "yes": "true", "on": "true", "y": "true", "1": "true",
	"false": "false", "no": "false", "off": "false", "n": "false", "0": "false"}

// A decimal comma is one between figures, but where it may as well part thousands.
var decimalComma = pattern.Of(`(\d),(\d{1,2}|\d{4,})\b`)

// blankThousands matches a blank that parts thousands.
var blankThousands = pattern.Of(`(\d) (\d{3})\b`)

// withUnit matches a figure with the unit that its key has anyway.
var withUnit = pattern.Of(`^([-+]?[\d.]+) *(W|watts?|V|volts?|Ω|[Oo]hms?|pegs?|days?)$`)

// noCommas matches a figure of a list that another follows without a comma.
var noCommas = pattern.Of(`([\d.\]])[ \t]+`)

// noComma matches what stands between two texts of a list but for its comma.
var noComma = pattern.Of(`"[ \t]+"`)

// listOfTexts puts quotes round every item of a list that has none.
func listOfTexts(value string) string {
	var items []string
	value = noComma().ReplaceAllString(strings.Trim(value, "[] "), `", "`)
	if strings.Contains(value, `""`) {
		return "" // an inch mark is lost among the quotes
	}
	for _, item := range strings.Split(value, ",") {
		if item = strings.Trim(item, ` "`); strings.Contains(item, `"`) {
			return ""
		} else if item != "" {
			items = append(items, inQuotes(item))
		}
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// markedLength matches a length with marks for feet and inches.
var markedLength = pattern.Of(`^[\d\s./-]+['"′″][\d\s./'"′″-]*$`)

// feetAndInches writes ft and in for the marks.
func feetAndInches(s string) string {
	if !markedLength().MatchString(s) {
		if !markedLength().MatchString(s + `"`) {
			return ""
		}
		s += `"` // taken off with the quotes
	}
	s = strings.NewReplacer("''", "in", `"`, "in", "″", "in", "'", "ft ", "′", "ft ").Replace(s)
	s = strings.TrimSpace(strings.NewReplacer("ft  ", "ft ", "ft -", "ft ").Replace(s))
	if strings.Contains(s, "ft ") && !strings.HasSuffix(s, "in") {
		s += "in"
	}
	return s
}

// Quoted is any text as TOML writes it, which is as JSON does but for the delete character.
func Quoted(s string) string {
	b, _ := json.Marshal(s) // a string always goes
	return strings.ReplaceAll(string(b), "\x7f", `\u007f`)
}

// inQuotes writes a text in double quotes, or in single ones where it has what
// would end or change it; "" for a text that fits neither.
func inQuotes(s string) string {
	switch {
	case s == "" || strings.Contains(s, "'") && strings.ContainsAny(s, `"\`):
		return ""
	case strings.ContainsAny(s, `"\`):
		return "'" + s + "'"
	}
	return `"` + s + `"`
}

var (
	dayFirst  = pattern.Of(`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$`)
	yearFirst = pattern.Of(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$`)
)

// months tell a day from a month.
const months = 12

// day writes a date year first, where it can only be one.
func day(s string) string {
	if m := yearFirst().FindStringSubmatch(s); m != nil {
		return isoDate(m[1], m[2], m[3])
	}
	m := dayFirst().FindStringSubmatch(s)
	if m == nil {
		return ""
	}
	a, b := number(m[1]), number(m[2])
	switch {
	case a > months || a == b:
		return isoDate(m[3], m[2], m[1])
	case b > months:
		return isoDate(m[3], m[1], m[2])
	}
	return ""
}

func number(s string) int {
	n, _ := strconv.Atoi(s) // figures only, by the pattern
	return n
}

func isoDate(year, month, day string) string {
	return fmt.Sprintf("%s-%02d-%02d", year, number(month), number(day))
}
