package job

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// A held is a figure of the file that is held against a range, by itself or by
// what it makes together with others.
type held struct {
	plausible
	of   func(float64) float64 // what a value of the key makes, in the range's unit; nil: itself
	with string                // what it makes that with: "with its 370 W"; empty: it is itself
	own  string                // the unit of the figure itself, where that is another
	also *plausible            // what a value that is suggested has to be as well
}

// A verdict is what a figure is after it has been held against its range.
type verdict int

const (
	usualFigure verdict = iota
	unusualFigure
	absurdFigure
)

func (p plausible) judge(v float64) verdict {
	switch {
	case v < p.low*(1-lengthRounding) || v > p.high*(1+lengthRounding):
		return absurdFigure
	case v < p.least*(1-lengthRounding) || v > p.most*(1+lengthRounding):
		return unusualFigure
	}
	return usualFigure
}

// isFor reports whether the range is that of a key in a table of a kind.
func (p plausible) isFor(path, kind string) bool {
	return slices.Contains(p.keys, path) && (p.kinds == nil || slices.Contains(p.kinds, kind))
}

// Plausible says between what figures of a key are taken, "" where nothing is
// set; by kind where that differs.
func Plausible(path string) string {
	var out []string
	for _, p := range append(slices.Clone(plausibles), powerPerLength, cablePower, labelRatio, tableOhms, bondPerArea,
		wetPerDry) {
		if !slices.Contains(p.keys, path) {
			continue
		}
		words := measureUnits[p.unit].span(p.low, p.high, plane.Millimetres)
		if kinds := strings.Trim(strings.Join(p.kinds, ", "), ", "); kinds != "" {
			words = kinds + " " + words
		}
		out = append(out, words)
	}
	return strings.Join(out, "; ")
}

// heldFor returns the range that a key's figures are held against by themselves.
func heldFor(path, kind string) (h held, ok bool) {
	i := slices.IndexFunc(plausibles, func(p plausible) bool { return p.isFor(path, kind) })
	if i < 0 {
		return h, false
	}
	h.plausible = plausibles[i]
	if h.unit == "%" {
		h.of = func(share float64) float64 { return 100 * share }
	}
	return h, true
}

// implausible holds the values of a key against its range, and reports whether
// one was refused.
func (rd *reader) implausible(parent, n *tree.Node, k Key) bool {
	kind := ""
	if f := parent.Get("kind"); f != nil {
		kind, _ = f.Value.(string)
	}
	h, ok := heldFor(k.Path, strings.ToLower(kind))
	if !ok {
		return false
	}
	items, one := []*tree.Node{n}, k
	if n.Kind == tree.Array {
		items, one.Type = n.Items, map[Type]Type{TypeSize: TypeLength, TypeShares: TypeShare}[k.Type]
	}
	for _, it := range items {
		v, _ := rd.figure(it, one) // it has been read once
		if v != 0 && rd.hold(it, one, v, h) == absurdFigure {
			return true
		}
	}
	return false
}

// hold says what is wrong with a figure that its range does not have.
func (rd *reader) hold(n *tree.Node, k Key, v float64, h held) verdict {
	what := h.judge(h.made(v))
	if what == usualFigure {
		return what
	}
	message, hint := rd.against(n, k, v, h, what), rd.likely(n, k, v, h)
	if what == absurdFigure {
		rd.report.Errorf(rd.span(n.Span), hint, "%s", message)
	} else {
		rd.report.Warnf("W008", rd.span(n.Span), hint, "%s", message)
	}
	return what
}

// mendedBy reports whether another reading of the figure is usual.
func (h held) mendedBy(o otherReading) bool {
	return h.judge(h.made(o.value)) == usualFigure && (h.also == nil || h.also.judge(o.value) == usualFigure)
}

// figureUnit is the unit of the figure itself.
func (h held) figureUnit() string {
	if h.own != "" {
		return h.own
	}
	return h.unit
}

func (h held) made(v float64) float64 {
	if h.of == nil {
		return v
	}
	return h.of(v)
}

// against says how a figure was read, what that makes, and what is so on floors.
func (rd *reader) against(n *tree.Node, k Key, v float64, h held, what verdict) string {
	u := rd.drawingUnits()
	low, high, often := h.low, h.high, ""
	if what == unusualFigure {
		low, high, often = h.least, h.most, "usually "
	}
	made := ""
	if h.with != "" {
		made = ", which " + h.with + " makes " + measureUnits[h.unit].write(h.made(v), u)
	}
	says := strings.Replace(h.says, "%s", often+measureUnits[h.unit].span(low, high, u), 1)
	return fmt.Sprintf("%s%s; %s (%s)", rd.wasRead(n, k, v), made, says, h.source)
}

// wasRead quotes a figure as it is written, as it was read, and as a reader of
// the job thinks of it: length = 100 was read as 100 in = 8.3 ft.
func (rd *reader) wasRead(n *tree.Node, k Key, v float64) string {
	written, m := rd.source(n), measureUnits[unitOf(k)]
	if k.Type == TypeShare {
		v *= 100
	}
	mine := m.write(v, rd.drawingUnits())
	_, isText := n.Value.(string)
	switch read := rd.bareUnit(k, written); {
	case m.name == "" && !isText:
		return fmt.Sprintf("%s is %s", k.Name(), written)
	case isText && !endsBare(written), k.Type == TypeNumber, k.Type == TypeShare:
		if strings.Trim(written, `"'`) == mine || m.name == "" {
			return fmt.Sprintf("%s is %s", k.Name(), written)
		}
		return fmt.Sprintf("%s is %s = %s", k.Name(), written, mine)
	case unitAfter(read) == unitAfter(mine):
		return fmt.Sprintf("%s = %s was read as %s", k.Name(), written, read)
	default:
		return fmt.Sprintf("%s = %s was read as %s = %s", k.Name(), written, read, mine)
	}
}

func unitAfter(figure string) string { return figure[strings.LastIndexByte(figure, ' ')+1:] }

// bareUnit adds to a bare number the unit in which it is read.
func (rd *reader) bareUnit(k Key, written string) string {
	units := map[Type]string{TypeLength: rd.units.String(), TypeDensity: "W/m²", TypeTemperature: "°C",
		TypeTransmittance: "W/(m² K)"}
	return strings.TrimSpace(strings.Trim(written, `"'`) + " " + units[k.Type])
}

// endsBare reports whether a text ends in a figure, without a unit.
func endsBare(written string) bool {
	s := strings.TrimSpace(strings.Trim(written, `"'`))
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9' && !strings.HasSuffix(s, "m2") && !strings.HasSuffix(s,
		"ft2")
}

// unitOf is the measure that a key's own figure is written in.
func unitOf(k Key) string {
	units := map[Type]string{TypeLength: "mm", TypeDensity: "W/m²", TypeTemperature: "°C", TypeArea: "m²",
		TypeShare: "%", TypeTransmittance: "W/(m² K)"}
	return units[k.Type]
}

// likely says which other reading of a figure is usual, if any is: another unit
// first, a slipped point last.
func (rd *reader) likely(n *tree.Node, k Key, v float64, h held) string {
	all := slices.DeleteFunc(rd.otherReadings(n, k, h.figureUnit()),
		func(o otherReading) bool { return !h.mendedBy(o) })
	switch {
	case len(all) > 0 && h.with != "":
		return fmt.Sprintf("%s %s would make %s", all[0].slip, all[0].typed,
			measureUnits[h.unit].write(h.made(all[0].value), rd.drawingUnits()))
	case len(all) > 1 && all[1].slip == all[0].slip:
		return fmt.Sprintf("%s %s or %s would be usual", all[0].slip, all[0].typed, all[1].typed)
	case len(all) > 0:
		return fmt.Sprintf("%s %s would be usual", all[0].slip, all[0].typed)
	}
	return "look at the figure and its unit again; it is written like " + k.Example
}
