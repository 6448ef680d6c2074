package job

import (
	"strconv"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// An otherReading is what a figure may have been meant as.
type otherReading struct {
	value float64 // in the key's unit inside
	typed string  // as it would be typed
	slip  string  // the slip that it would be, as a question
}

// otherReadings are what a figure may have been meant as, the likeliest first.
// unit is that of the figure.
func (rd *reader) otherReadings(n *tree.Node, k Key, unit string) []otherReading {
	figure, bare := figureOf(rd.source(n))
	if figure == "" {
		return nil
	}
	slip := "is its unit right?"
	if bare {
		slip = "is its unit missing?"
	}
	was, _ := rd.figure(n, k)
	var out []otherReading
	add := func(text string, v float64, slip string) {
		if v != was {
			out = append(out, otherReading{v, rd.typed(n, k, text), slip})
		}
	}
	for _, name := range rd.unitsOf(k) {
		if v, bad := rd.written(figure+" "+name, k); bad == nil {
			add(strconv.Quote(figure+" "+name), v, slip)
		}
	}
	plain, err := strconv.ParseFloat(figure, 64)
	if err != nil {
		return out
	}
	unitWritten := strings.TrimPrefix(strings.Trim(rd.source(n), `"'`), figure)
	scaled := func(by float64, slip string) {
		text := strconv.FormatFloat(plain*by, 'g', 6, 64) + unitWritten
		if _, isText := n.Value.(string); isText {
			text = strconv.Quote(text)
		}
		add(text, was*by, slip)
	}
	if kilo := measureUnits[unit].thousand; kilo != "" && k.Type == TypeNumber {
		scaled(1000, "is it in "+kilo+"?")
	}
	scaled(0.1, "is a point missing?")
	scaled(10, "is a digit missing?")
	return out
}

// typed writes a value as it would stand in the file: with its key, but for an
// item of a list.
func (rd *reader) typed(n *tree.Node, k Key, text string) string {
	if n.Name == "" {
		return text
	}
	return k.Name() + " = " + text
}

// unitsOf are the units that a figure of a key may have, those of the file's
// system first.
func (rd *reader) unitsOf(k Key) []string {
	switch k.Type {
	case TypeLength:
		if rd.drawingUnits() == plane.Inches {
			return []string{"ft", "in", "mm", "m"}
		}
		return []string{"m", "mm", "cm", "in", "ft"}
	case TypeDensity:
		return []string{"W/ft2", "W/m2"}
	case TypeTemperature:
		return []string{"F", "C"}
	case TypeArea:
		return []string{"ft2", "m2"}
	case TypeShare:
		return []string{"%"}
	}
	return nil
}

// figureOf is the figure that a value begins with, and whether no unit follows;
// "" where more than one figure with a unit stands there.
func figureOf(written string) (figure string, bare bool) {
	s := strings.TrimSpace(strings.Trim(written, `"'`))
	n := 0
	for n < len(s) && strings.ContainsRune("+-.,/ 0123456789", rune(s[n])) {
		n++
	}
	figure, unit := strings.TrimSpace(s[:n]), s[n:]
	if strings.ContainsAny(strings.NewReplacer("m2", "", "ft2", "").Replace(unit), "0123456789") {
		return "", false
	}
	return figure, unit == ""
}
