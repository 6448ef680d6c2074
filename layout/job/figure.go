package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// greatestLength is the longest length taken, 1 km: beyond it a unit is wrong.
const greatestLength = 1e6

// number reads a figure of any type, in the type's unit inside.
func (rd *reader) number(n *tree.Node, k Key) (float64, *valueError) {
	v, err := rd.figure(n, k)
	if err != nil {
		return 0, err
	}
	return v, rd.within(n, k, v)
}

func (rd *reader) figure(n *tree.Node, k Key) (float64, *valueError) {
	switch v := n.Value.(type) {
	case int64:
		return rd.bare(float64(v), n, k)
	case float64:
		if k.Type == TypeWhole && v != math.Trunc(v) {
			return 0, wrong("%s is a whole number, not %s", k.Name(), rd.source(n))
		}
		return rd.bare(v, n, k)
	case string:
		return rd.written(v, k)
	}
	return 0, wrong("%s is %s, not %s", k.Name(), describe(k.Type), kindOf(n))
}

// bare gives a number without a unit its meaning.
func (rd *reader) bare(v float64, n *tree.Node, k Key) (float64, *valueError) {
	switch k.Type {
	case TypeLength, TypeSize:
		switch {
		case v == 0:
			return 0, nil
		case rd.units == plane.NoUnits:
			return 0, unitlessError(k, rd.source(n))
		case rd.units == plane.Inches:
			return v * plane.Inch, nil
		}
	case TypeTransmittance:
		if rd.units == plane.Inches {
			e := wrong("%s: %s has no unit, and U-values have two", k.Name(), rd.source(n))
			e.hint = fmt.Sprintf(`write "%s Btu/h ft2 F" or "%s W/m2K"`, rd.source(n), rd.source(n))
			return 0, e
		}
	case TypeArea, TypeVolume:
		return 0, wrong("%s: %s has no unit", k.Name(), rd.source(n))
	}
	return v, nil
}

// written reads a figure that stands in quotes with its unit.
func (rd *reader) written(s string, k Key) (float64, *valueError) {
	var units []unit
	switch k.Type {
	case TypeLength:
		return rd.length(s, k)
	case TypeTemperature:
		return temperature(s, k)
	case TypeAngle:
		units = angleUnits
	case TypeShare:
		units = shareUnits
	case TypeArea:
		units = areaUnits
	case TypeVolume:
		units = volumeUnits
	case TypeDensity:
		units = densityUnits
	case TypeTransmittance:
		units = transmittanceUnits
	default:
		return 0, wrong("%s is %s without quotes, not %q", k.Name(), describe(k.Type), s)
	}
	v, err := quantity(s, units)
	if err != nil {
		return 0, wrong("%s: %v; use %s", k.Name(), err, unitNames(units))
	}
	return v, nil
}

// unitlessError is said once a file, of the first bare number.
func unitlessError(k Key, s string) *valueError {
	return &valueError{unitless: true, message: fmt.Sprintf("%s: %s has no unit, and the file names none", k.Name(), s),
		hint: fmt.Sprintf("write units = \"mm\" or units = \"in\" at the top of the file, or a unit with every "+
			"number: \"%s mm\"", s)}
}

func (rd *reader) length(s string, k Key) (float64, *valueError) {
	if v, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil && rd.units == plane.NoUnits {
		if v == 0 {
			return 0, nil
		}
		return 0, unitlessError(k, strings.TrimSpace(s))
	}
	mm, err := plane.ParseLength(s, rd.units)
	if err != nil {
		return 0, wrong("%s: %v", k.Name(), err)
	}
	rd.countUnits(s)
	return mm, nil
}

// countWalls counts the lengths in walls as taped.
func (rd *reader) countWalls(k Key, v any) {
	if walls, ok := v.([]string); ok && k.Path == "room.walls" {
		for _, w := range walls {
			rd.countUnits(w)
		}
	}
}

// countUnits notes in which system a length was written, for files that name
// no units of their own.
func (rd *reader) countUnits(s string) {
	switch s = strings.ToLower(s); {
	case strings.ContainsAny(s, `'"′″`), strings.Contains(s, "ft"), strings.Contains(s, "in"), strings.Contains(s, "f"):
		rd.imperial++
	case strings.Contains(s, "m"):
		rd.metric++
	}
}

// within checks a figure against its key's limits.
func (rd *reader) within(n *tree.Node, k Key, v float64) *valueError {
	most := k.Limits.Max
	if k.Type == TypeLength && most == 0 {
		most = greatestLength
	}
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return wrong("%s is %s, which is no figure", k.Name(), rd.source(n))
	case most != 0 && math.Abs(v) > most:
		if h, ok := heldFor(k.Path, ""); ok && h.judge(h.made(v)) == absurdFigure {
			return &valueError{message: rd.against(n, k, v, h, absurdFigure), hint: rd.likely(n, k, v, h)}
		}
		return wrong("%s is %s; %s is the most", k.Name(), rd.readAs(n, k, v), amount(k, most))
	case k.Limits.Above && v <= k.Limits.Min:
		return wrong("%s is %s; it must be above %s", k.Name(), rd.readAs(n, k, v), amount(k, k.Limits.Min))
	case v < k.Limits.Min:
		return wrong("%s is %s; it cannot be below %s", k.Name(), rd.readAs(n, k, v), amount(k, k.Limits.Min))
	}
	return nil
}

// readAs quotes a value with what it was read as: "9ft 4-1/2in" = 2858 mm.
func (rd *reader) readAs(n *tree.Node, k Key, v float64) string {
	written, read := rd.source(n), amount(k, v)
	switch {
	case strings.Trim(written, `"'`) == read, k.Type == TypeNumber, k.Type == TypeWhole:
		return written
	case written+" mm" == read:
		return read
	}
	return written + " = " + read
}

// tooLong mm are no length that is worth writing out.
const tooLong = 1e9

// amount writes a figure with the unit kept inside.
func amount(k Key, v float64) string {
	units := map[Type]string{TypeLength: " mm", TypeAngle: "°", TypeArea: " m²", TypeVolume: " L", TypeDensity: " W/m²",
		TypeTransmittance: " W/(m² K)", TypeTemperature: " °C"}
	if k.Type == TypeLength && math.Abs(v) < tooLong {
		return say.TrimFigure(v) + " mm"
	}
	return fmt.Sprintf("%.6g", v) + units[k.Type]
}

func unitNames(units []unit) string {
	var names []string
	for _, u := range units {
		names = append(names, u.name)
	}
	return strings.Join(names, ", ")
}

// describe names what a figure of a type is.
func describe(t Type) string {
	switch t {
	case TypeLength:
		return "a length"
	case TypeAngle:
		return "an angle"
	case TypeShare:
		return "a share"
	case TypeArea:
		return "an area"
	case TypeVolume:
		return "a volume"
	case TypeDensity:
		return "a power per area"
	case TypeTransmittance:
		return "a U-value"
	case TypeTemperature:
		return "a temperature"
	case TypeWhole:
		return "a whole number"
	}
	return "a number"
}
