package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// greatest is the longest length taken, 1 km: beyond it a unit is wrong.
const greatest = 1e6

// leaf reads one value and keeps it, or reports what is wrong with it.
func (rd *reader) leaf(parent, n *tree.Node, k Key) {
	v, err := rd.parse(n, k)
	if err == nil {
		rd.values[n] = v
		rd.countWalls(k, v)
		return
	}
	rd.broken[parent] = true
	if err.at == nil {
		err.at = n
	}
	if err.hint == "" {
		err.hint = "write it like " + k.Example
	}
	if err.unitless {
		if rd.unitless {
			return // one line at the top of the file mends them all
		}
		rd.unitless = true
	}
	rd.report.Errorf(rd.span(err.at.Span), err.hint, "%s", err.message)
}

// A valueError says what is wrong with a value, and with which part of it.
type valueError struct {
	at      *tree.Node // nil: all of it
	message string
	hint    string
	// unitless: a bare number in a file that names no units
	unitless bool
}

func wrong(format string, args ...any) *valueError {
	return &valueError{message: fmt.Sprintf(format, args...)}
}

// parse reads a value by the type of its key: a length gives float64 in mm, a
// point plane.Point, and so on.
func (rd *reader) parse(n *tree.Node, k Key) (any, *valueError) {
	switch k.Type {
	case TypeText, TypeChoice:
		return rd.parseText(n, k)
	case TypeFlag:
		if b, ok := n.Value.(bool); ok {
			return b, nil
		}
		return nil, wrong("%s is true or false, not %s", k.Name(), kindOf(n))
	case TypeDate:
		return rd.parseDate(n, k)
	case TypePack:
		return rd.parsePackValue(n, k)
	case TypePoint:
		return rd.point(n, k)
	case TypePlace:
		return rd.spot(n, k)
	case TypePoints:
		return each(rd, n, k, rd.point)
	case TypeTexts:
		return each(rd, n, k, func(n *tree.Node, k Key) (string, *valueError) { return rd.parseText(n, k) })
	case TypeSize:
		return rd.pair(n, k, TypeLength)
	case TypeShares:
		k.Limits = signed
		return rd.pair(n, k, TypeShare)
	}
	return rd.number(n, k)
}

func (rd *reader) parseText(n *tree.Node, k Key) (string, *valueError) {
	s, ok := n.Value.(string)
	if !ok {
		return "", wrong("%s is text in quotes, not %s", k.Name(), kindOf(n))
	}
	if k.Type != TypeChoice {
		return s, nil
	}
	for _, v := range k.Values {
		if strings.EqualFold(v, strings.TrimSpace(s)) {
			return v, nil
		}
	}
	e := wrong("%s cannot be %q; it is one of: %s", k.Name(), s, strings.Join(k.Values, ", "))
	if near := nearest(s, k.Values); near != "" {
		e.hint = fmt.Sprintf("did you mean %q?", near)
	}
	return "", e
}

func (rd *reader) parseDate(n *tree.Node, k Key) (time.Time, *valueError) {
	t, ok := n.Value.(time.Time)
	if !ok {
		return t, wrong("%s is a date without quotes, year first, not %s", k.Name(), kindOf(n))
	}
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC), nil
}

func (rd *reader) parsePackValue(n *tree.Node, k Key) (pack, *valueError) {
	s, ok := n.Value.(string)
	if !ok {
		return pack{}, wrong("%s is text with a unit, not %s", k.Name(), kindOf(n))
	}
	p, err := parsePack(s)
	if err != nil {
		return p, wrong("%s: %v; use kg, lb, L, m or m2", k.Name(), err)
	}
	return p, rd.within(n, k, p.size)
}

// each reads an array with one function for its items.
func each[T any](rd *reader, n *tree.Node, k Key, item func(*tree.Node, Key) (T, *valueError)) ([]T, *valueError) {
	if n.Kind != tree.Array {
		return nil, wrong("%s is a list in [ ], not %s", k.Name(), kindOf(n))
	}
	if len(n.Items) > maxItems {
		return nil, wrong("%s has %d items; %d are taken at most", k.Name(), len(n.Items), maxItems)
	}
	var out []T
	for _, it := range n.Items {
		v, err := item(it, k)
		if err != nil {
			if err.at == nil {
				err.at = it
			}
			return nil, err
		}
		out = append(out, v)
	}
	if len(out) < k.Least {
		return nil, wrong("%s has %s and needs %d at least", k.Name(), counted(len(out), "item"), k.Least)
	}
	return out, nil
}

func (rd *reader) point(n *tree.Node, k Key) (plane.Point, *valueError) {
	k.Limits = signed
	v, err := rd.pair(n, k, TypeLength)
	if err != nil {
		return plane.Point{}, err
	}
	return plane.Pt(v[0], v[1]), nil
}

// A wallPoint is a point, or a length along a wall where wall is not empty.
type wallPoint struct {
	point plane.Point
	wall  string
	along float64
}

// spot reads [x, y] or "B 4ft".
func (rd *reader) spot(n *tree.Node, k Key) (wallPoint, *valueError) {
	s, ok := n.Value.(string)
	if !ok {
		p, err := rd.point(n, k)
		return wallPoint{point: p}, err
	}
	wall, rest, _ := strings.Cut(strings.TrimSpace(s), " ")
	if wall == "" || strings.TrimSpace(rest) == "" || wall[0] < 'A' || wall[0] > 'z' {
		return wallPoint{}, wrong("%s is a point [x, y], or a wall's letter and a length, not %q", k.Name(), s)
	}
	k.Type = TypeLength
	mm, err := rd.length(rest, k)
	if err != nil {
		return wallPoint{}, err
	}
	return wallPoint{wall: wall, along: mm}, rd.within(n, k, mm)
}

// pair reads an array of two numbers of a type.
func (rd *reader) pair(n *tree.Node, k Key, t Type) ([2]float64, *valueError) {
	var out [2]float64
	if n.Kind != tree.Array || len(n.Items) != 2 {
		what := kindOf(n)
		if n.Kind == tree.Array {
			what = counted(len(n.Items), "item")
		}
		name := "a pair in [ ]"
		if k.Type == TypePoint || k.Type == TypePlace || k.Type == TypePoints {
			name = "a point [x, y]"
		}
		return out, wrong("%s needs %s here, not %s", k.Name(), name, what)
	}
	k.Type = t
	for i, it := range n.Items {
		v, err := rd.number(it, k)
		if err != nil {
			err.at = it
			return out, err
		}
		out[i] = v
	}
	return out, nil
}

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
		hint: fmt.Sprintf("write units = \"mm\" or units = \"in\" at the top of the file, or a unit with every number: \"%s mm\"", s)}
}

func (rd *reader) length(s string, k Key) (float64, *valueError) {
	if _, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil && rd.units == plane.NoUnits {
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
		most = greatest
	}
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return wrong("%s is %s, which is no figure", k.Name(), rd.source(n))
	case most != 0 && math.Abs(v) > most:
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

// amount writes a figure with the unit kept inside.
func amount(k Key, v float64) string {
	units := map[Type]string{TypeLength: " mm", TypeAngle: "°", TypeArea: " m²", TypeVolume: " L", TypeDensity: " W/m²"}
	if k.Type == TypeLength && math.Abs(v) < 1e9 {
		return trimmed(v) + " mm"
	}
	return fmt.Sprintf("%.6g", v) + units[k.Type]
}

// trimmed writes a length to a tenth of a millimetre, whole ones without.
func trimmed(mm float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", mm), ".0")
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
	case TypeWhole:
		return "a whole number"
	}
	return "a number"
}

// kindOf names what a file has in a place where something else was wanted.
func kindOf(n *tree.Node) string {
	switch n.Kind {
	case tree.Table:
		return "a table"
	case tree.Array:
		return "a list"
	}
	switch n.Value.(type) {
	case string:
		return "text"
	case bool:
		return "true or false"
	case time.Time:
		return "a date"
	}
	return "a number"
}
