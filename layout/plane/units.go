package plane

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Exact ratios of the international inch and foot (1959), in mm.
const (
	Inch = 25.4
	Foot = 12 * Inch
	// Metre is one in mm.
	Metre = 1000.0
	// SquareMetre is one in mm².
	SquareMetre = 1e6
)

// Units is the unit of a bare number in a job file and of figures on a sheet.
type Units int

// The units a job file may name.
const (
	NoUnits Units = iota // a bare number is an error
	Millimetres
	Inches
)

// String returns the unit as a job file spells it.
func (u Units) String() string {
	return [...]string{"", "mm", "in"}[u]
}

// Area converts mm² to m² or ft².
func (u Units) Area(mm2 float64) float64 {
	if u == Inches {
		return mm2 / (Foot * Foot)
	}
	return mm2 / SquareMetre
}

// FormatLength writes a length as a drawing does: whole millimetres, or feet
// and inches to the nearest 1/16 with reduced fractions.
func FormatLength(mm float64, u Units) string {
	if u == Inches {
		return FormatFeetInches(mm)
	}
	return strconv.FormatFloat(math.Round(mm)+0, 'f', 0, 64)
}

// Sixteenths of an inch are what lengths are written to where a tape has them.
const (
	Sixteenths     = 16
	footSixteenths = 12 * Sixteenths
)

// FormatFeetInches writes mm as feet, inches and a reduced fraction to the
// nearest sixteenth, for instance 9'-4 1/2".
func FormatFeetInches(mm float64) string {
	sign := ""
	if mm < 0 {
		sign, mm = "-", -mm
	}
	// half a sixteenth of slack against 96.00000000000001 in is in the rounding
	n := int64(math.Round(mm / Inch * Sixteenths))
	if n == 0 {
		sign = ""
	}
	feet, rest := n/footSixteenths, n%footSixteenths
	whole, num := rest/Sixteenths, rest%Sixteenths
	if num == 0 {
		return fmt.Sprintf("%s%d'-%d\"", sign, feet, whole)
	}
	den := int64(Sixteenths)
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	return fmt.Sprintf("%s%d'-%d %d/%d\"", sign, feet, whole, num, den)
}

// ParseLength reads a length such as "9ft 4-1/2in", "9' 4 1/2\"", "2.85 m",
// "2850mm", "28.5cm" or a bare "2850" in unit u. The result is in mm. The
// error says what was not understood.
func ParseLength(s string, u Units) (float64, error) {
	p := lengthParser{rest: strings.TrimSpace(typedFractions.Replace(s)), bare: u}
	if p.rest == "" {
		return 0, fmt.Errorf("an empty length; write it as \"2850 mm\", \"2.85 m\" or \"9ft 4-1/2in\"")
	}
	if strings.HasPrefix(p.rest, "-") {
		p.sign, p.rest = -1, strings.TrimSpace(p.rest[1:])
	} else {
		p.sign = 1
	}
	for p.rest != "" {
		if err := p.term(); err != nil {
			return 0, fmt.Errorf("%q is not a length: %w", s, err)
		}
	}
	if math.IsInf(p.total, 0) {
		return 0, fmt.Errorf("%q is not a length: its figure is beyond reckoning", s)
	}
	return p.sign * p.total, nil
}

// typedFractions turns what phones and word processors make of a length into what is
// read: typeset fractions, curly marks and spaces that do not break.
var typedFractions = strings.NewReplacer("½", " 1/2", "⅓", " 1/3", "⅔", " 2/3", "¼", " 1/4", "¾", " 3/4", "⅕", " 1/5",
	"⅖",
	" 2/5", "⅗", " 3/5", "⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅑", " 1/9", "⅒", " 1/10", "⅐", " 1/7", "\u2044", "/", "\u2215", "/", "\u2212", "-", "\u2013", "-",
	"’", "'", "‘", "'", "”", "\"", "“", "\"", "\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ")

type lengthParser struct {
	rest  string
	bare  Units
	sign  float64
	total float64
	last  float64 // mm per unit of the part before, 0 at first
}

var unitNames = []struct {
	name string
	mm   float64
}{
	{"feet", Foot}, {"foot", Foot}, {"ft", Foot}, {"'", Foot}, {"′", Foot},
	{"inches", Inch}, {"inch", Inch}, {"in", Inch}, {"\"", Inch}, {"″", Inch}, {"''", Inch},
	{"millimetres", 1}, {"mm", 1}, {"cm", 10}, {"metres", 1000}, {"metre", 1000}, {"m", 1000},
}

// term reads one number with its unit. Feet may be followed by inches.
func (p *lengthParser) term() error {
	v, err := p.number()
	if err != nil {
		return err
	}
	p.rest = strings.TrimLeft(p.rest, " ")
	mm := p.unit()
	switch {
	case mm == 0 && strings.HasPrefix(p.rest, ","):
		return fmt.Errorf("decimals take a point, and thousands nothing: 2.85 m or 2850 mm")
	case mm == 0 && p.rest != "" && !strings.ContainsAny(p.rest[:1], "0123456789.-"):
		return fmt.Errorf("%q is not a unit; use mm, cm, m, in or ft", strings.Fields(p.rest)[0])
	case mm == 0 && p.last == Foot:
		mm = Inch // 9ft 4 is nine feet four inches
	case mm == 0 && p.last != 0:
		return fmt.Errorf("the last figure has no unit")
	case mm == 0 && p.bare == Millimetres:
		mm = 1
	case mm == 0 && p.bare == Inches:
		mm = Inch
	case mm == 0:
		return fmt.Errorf("it has no unit, and the file names none; write units = \"mm\" or \"in\" at the top, or " +
			"the unit here")
	case p.last != 0 && (p.last != Foot || mm != Inch):
		return fmt.Errorf("only feet and inches go together")
	}
	p.total += float64(v * mm)
	p.last = mm
	p.rest = strings.TrimLeft(p.rest, " ")
	if mm == Foot {
		p.rest = strings.TrimLeft(strings.TrimPrefix(p.rest, "-"), " ") // 9'-4 1/2"
	}
	return nil
}

func (p *lengthParser) unit() float64 {
	low := strings.ToLower(p.rest)
	best := -1
	for i, u := range unitNames {
		if strings.HasPrefix(low, u.name) && (best < 0 || len(u.name) > len(unitNames[best].name)) {
			best = i
		}
	}
	if best < 0 {
		return 0
	}
	p.rest = p.rest[len(unitNames[best].name):]
	return unitNames[best].mm
}

// number reads "4", "4.5", "4-1/2", "4 1/2" or "1/2".
func (p *lengthParser) number() (float64, error) {
	a, err := p.digits()
	if err != nil {
		return 0, err
	}
	if strings.HasPrefix(p.rest, "/") {
		return p.fraction(a)
	}
	// a whole number may be followed by a fraction after a space or a hyphen
	save := p.rest
	t := strings.TrimLeft(p.rest, " ")
	t = strings.TrimPrefix(t, "-")
	if len(t) > 0 && t[0] >= '0' && t[0] <= '9' && a == math.Trunc(a) {
		p.rest = t
		if b, err := p.digits(); err == nil && strings.HasPrefix(p.rest, "/") {
			f, err := p.fraction(b)
			return a + f, err
		}
		p.rest = save
	}
	return a, nil
}

func (p *lengthParser) fraction(num float64) (float64, error) {
	p.rest = p.rest[1:]
	den, err := p.digits()
	if err != nil {
		return 0, err
	}
	if den == 0 {
		return 0, fmt.Errorf("a fraction over zero")
	}
	return num / den, nil
}

func (p *lengthParser) digits() (float64, error) {
	n := 0
	for n < len(p.rest) && (digit(p.rest[n]) || p.rest[n] == '.' || p.rest[n] == ',' && n+1 < len(p.rest) &&
		digit(p.rest[n+1])) {
		n++
	}
	if n == 0 {
		return 0, fmt.Errorf("a figure is missing before %q", p.rest)
	}
	text, err := PointForComma(p.rest[:n])
	if err != nil {
		return 0, err
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is not a number", p.rest[:n])
	}
	p.rest = p.rest[n:]
	return v, nil
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// PointForComma turns the decimal comma of a figure into a point. A comma
// before just three digits may as well part thousands, so that it is an error,
// but behind a lone 0; so are two of them.
func PointForComma(figure string) (string, error) {
	before, after, found := strings.Cut(figure, ",")
	switch {
	case !found:
		return figure, nil
	case strings.ContainsAny(before+after, ".,"):
		return "", fmt.Errorf("%q has more than one point or comma: thousands take nothing", figure)
	case len(after) == 3 && strings.TrimLeft(before, "+-") != "0":
		return "", fmt.Errorf("%q can be read as %s.%s and as %[2]s%[3]s: decimals take a point here, and thousands "+
			"nothing", figure, before, after)
	}
	return before + "." + after, nil
}
