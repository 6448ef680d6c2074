package language

import (
	"strings"

	"oxturn/layout/pattern"
)

var (
	// typed is what stands in a text as it is written in a job file or on a command line.
	typed = pattern.Of(`"(?:[^"\\]|\\.)*"|\[[^\]]*\]|\b[a-z_]{2,}[\w.]* = \S+|--[a-z-]+[ =]\S+`)
	// decimal is a figure with a decimal point, none of a number with several points.
	decimal = pattern.Of(`(?:^|[^\pL\d._/-])[-+]?\d+\.\d+`)
	// measured is what stands after a figure that has a unit, at once or after a second figure.
	measured = pattern.Of(`^(?: ?(?:to|and|a|y|à|et|bis|und|-|/|±|x) ?[-+]?\d+(?:[.,]\d+)?)*[ \x{a0}]?(?:[%°Ω]|` +
		`(?:mm|cm|m|in|ft|m²|m³|ft²|ft³|V|A|mA|W|kW|kWh|Wh|Ω|kΩ|MΩ|nF|K|kg|lb|L|mL|gal|fl oz|Btu|min|s|h|ns|` +
		`pegs?|nódulos?|plots?|Noppen?)(?:$|[^\pL\d])| [-+×/] [\d(])`)
	letter = pattern.Of(`\pL`)
)

// figures writes the decimal points of a text that is told in another language than English as commas: those of
// figures with units, and of a text that is figures alone. What is to be typed, and numbers of clauses, keep theirs. A
// name may be a unit too.
func (t Teller) figures(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	alone := !letter().MatchString(text)
	out, done := "", 0
	for _, at := range typed().FindAllStringIndex(text, -1) {
		out += t.figuresIn(text[done:at[0]], alone) + text[at[0]:at[1]]
		done = at[1]
	}
	return out + t.figuresIn(text[done:], alone)
}

func (t Teller) figuresIn(text string, alone bool) string {
	var out strings.Builder
	done := 0
	for _, at := range decimal().FindAllStringIndex(text, -1) {
		figure, rest := text[at[0]:at[1]], text[at[1]:]
		out.WriteString(text[done:at[0]])
		if measured().MatchString(t.shown(rest)) || alone && !strings.HasPrefix(rest, ".") {
			figure = strings.ReplaceAll(figure, ".", ",")
		}
		out.WriteString(figure)
		done = at[1]
	}
	return out.String() + text[done:]
}
