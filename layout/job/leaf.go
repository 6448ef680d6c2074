package job

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"oxturn/layout/job/tree"
	"oxturn/layout/pattern"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// leaf reads one value and keeps it, or reports what is wrong with it.
func (rd *reader) leaf(parent, n *tree.Node, k Key) {
	v, err := rd.parse(n, k)
	if err == nil {
		if s, is := v.(string); is && isOwnWords(k) {
			rd.report.names = append(rd.report.names, s)
		}
		rd.countWalls(k, v)
		if rd.implausible(parent, n, k) {
			rd.broken[parent] = true
		} else {
			rd.values[n] = v
		}
		return
	}
	rd.broken[parent] = true
	if err.at == nil {
		err.at = n
	}
	if err.hint == "" {
		err.hint = rd.likeExample(n, k)
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
	// short: a length below any that is taped
	short bool
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
	case TypeChoices:
		return rd.parseChoices(n, k)
	case TypeFlag:
		if b, ok := n.Value.(bool); ok {
			return b, nil
		}
		return nil, wrong("%s is true or false, not %s", k.Name(), kindOf(n))
	case TypeDate:
		return rd.parseDate(n, k)
	case TypePack:
		return rd.parsePackValue(n, k)
	case TypeReading:
		return rd.reading(n, k)
	case TypePoint:
		return rd.point(n, k)
	case TypePlace:
		return rd.spot(n, k)
	case TypePoints:
		return each(rd, n, k, rd.point)
	case TypePixel:
		return rd.pixel(n, k)
	case TypePixels:
		return each(rd, n, k, rd.pixel)
	case TypeTexts:
		return each(rd, n, k, func(n *tree.Node, k Key) (string, *valueError) { return rd.parseText(n, k) })
	case TypeLengths:
		k.Type = TypeLength
		return each(rd, n, k, rd.number)
	case TypeSize:
		return rd.pair(n, k, TypeLength)
	case TypeShares:
		k.Limits = anySign
		return rd.pair(n, k, TypeShare)
	}
	return rd.number(n, k)
}

// parseChoices reads one of a key's values, or a list of two that differ.
func (rd *reader) parseChoices(n *tree.Node, k Key) (any, *valueError) {
	k.Type = TypeChoice
	if _, one := n.Value.(string); one {
		s, e := rd.parseText(n, k)
		return []string{s}, e
	}
	list, e := each(rd, n, k, func(n *tree.Node, k Key) (string, *valueError) { return rd.parseText(n, k) })
	if e == nil && (len(list) == 0 || len(list) > 2 || len(list) == 2 && list[0] == list[1]) {
		return nil, wrong("%s is one of: %s, or two of them that differ, the first of which leads; here it is %q",
			k.Name(), choices(k.Values), list)
	}
	return list, e
}

func (rd *reader) parseText(n *tree.Node, k Key) (string, *valueError) {
	s, ok := n.Value.(string)
	if !ok {
		return "", wrong("%s is text in quotes, not %s", k.Name(), kindOf(n))
	}
	if len(s) > maxText {
		return "", wrong("%s has a text of %d bytes; %d are the most", k.Name(), len(s), maxText)
	}
	if n := utf8.RuneCountInString(s); n > maxName && isName(k) {
		return "", wrong("%s has %d letters; %d are the most", k.Name(), n, maxName)
	}
	if k.Type != TypeChoice {
		return s, nil
	}
	for _, v := range k.Values {
		if strings.EqualFold(v, strings.TrimSpace(s)) {
			return v, nil
		}
	}
	if word := otherWord(k, s); word != "" {
		rd.sayOnce(n, k, s, word)
		return word, nil
	}
	e := wrong("%s cannot be %q; it is one of: %s", k.Name(), s, choices(k.Values))
	if e.hint = kindMeant(k, s); e.hint != "" {
		return "", e
	}
	if near := nearest(s, k.Values); near != "" {
		e.hint = fmt.Sprintf("did you mean %q?", near)
	}
	return "", e
}

// choices lists what a key may say, in quotes where a comma of one could be taken for the list's.
func choices(values []string) string {
	if !strings.Contains(strings.Join(values, ""), ",") {
		return strings.Join(values, ", ")
	}
	return `"` + strings.Join(values, `", "`) + `"`
}

// isName reports whether a text has to find room in a table or a title block:
// all do but those that are sentences or name a file.
func isName(k Key) bool {
	return k.Type == TypeText && !slices.Contains([]string{"catalogue", "prices", "as_laid.plan", "as_laid.photo.file",
		"revision.text",
		"allow.reason"}, k.Path)
}

// isOwnWords reports whether a text is the user's own, and no word of ours such as a wall's letter or a kind.
func isOwnWords(k Key) bool {
	return k.Type == TypeText && !slices.Contains([]string{"along", "beside", "catalogue", "corner", "file", "kind",
		"plan", "prices", "scale", "sha256", "start", "wall"}, k.Name())
}

func (rd *reader) parseDate(n *tree.Node, k Key) (time.Time, *valueError) {
	t, ok := n.Value.(time.Time)
	if !ok || t.Year() == 0 {
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
		return p, wrong("%s: %v; use kg, lb, L, gal, fl oz, m, ft, m2 or ft2", k.Name(), err)
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
		return nil, wrong("%s has %s and needs %d at least", k.Name(), say.Counted(len(out), "item"), k.Least)
	}
	return out, nil
}

func (rd *reader) point(n *tree.Node, k Key) (plane.Point, *valueError) {
	k.Limits = anySign
	v, err := rd.pair(n, k, TypeLength)
	if err != nil {
		return plane.Point{}, err
	}
	return plane.Pt(v[0], v[1]), nil
}

// pixel reads a place in a picture.
func (rd *reader) pixel(n *tree.Node, k Key) (photo.Pixel, *valueError) {
	v, err := rd.pair(n, k, TypeNumber)
	if err != nil {
		return photo.Pixel{}, err
	}
	return photo.Pixel{X: v[0], Y: v[1]}, nil
}

// A wallPoint is a point, or a length along a wall and another out from it where wall
// is not empty.
type wallPoint struct {
	point      plane.Point
	wall       string
	along, out float64
}

// outFrom parts the length along a wall from that out from it: a comma with a blank, or
// the word.
var outFrom = pattern.Of(`(?i),\s+|\s+out\s+|\s+x\s+`)

// spot reads [x, y], "B 4ft" or "B 4ft, 2ft".
func (rd *reader) spot(n *tree.Node, k Key) (wallPoint, *valueError) {
	s, ok := n.Value.(string)
	if !ok {
		p, err := rd.point(n, k)
		return wallPoint{point: p}, err
	}
	wall, rest, _ := strings.Cut(strings.TrimSpace(s), " ")
	if wall == "" || strings.TrimSpace(rest) == "" || wall[0] < 'A' || wall[0] > 'z' {
		return wallPoint{}, wrong("%s is a point [x, y], or a wall's letter, a length along it from its start and one "+
			"out from it (\"B 4ft, 2ft\"), not %q", k.Name(), s)
	}
	k.Type = TypeLength
	w := wallPoint{wall: wall}
	for i, text := range outFrom().Split(strings.TrimSuffix(strings.TrimSpace(rest), " out"), 2) {
		mm, err := rd.length(text, k)
		if err == nil {
			err = rd.within(n, k, mm)
		}
		if err != nil {
			return wallPoint{}, err
		}
		*[]*float64{&w.along, &w.out}[i] = mm
	}
	return w, nil
}

// pair reads an array of two numbers of a type.
func (rd *reader) pair(n *tree.Node, k Key, t Type) ([2]float64, *valueError) {
	var out [2]float64
	if n.Kind != tree.Array || len(n.Items) != 2 {
		what := kindOf(n)
		if n.Kind == tree.Array {
			what = say.Counted(len(n.Items), "item")
		}
		name := "a pair in [ ]"
		if k.Type == TypePoint || k.Type == TypePlace || k.Type == TypePoints ||
			k.Type == TypePixel || k.Type == TypePixels {
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

// kindOf names what a file has in a place where something else was wanted.
func kindOf(n *tree.Node) string {
	switch n.Kind {
	case tree.Table:
		return "a table"
	case tree.Array:
		return "a list"
	}
	switch v := n.Value.(type) {
	case string:
		return "text"
	case bool:
		return "true or false"
	case time.Time:
		if v.Year() == 0 {
			return "a time of day"
		}
		return "a date"
	}
	return "a number"
}
