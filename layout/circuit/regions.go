package circuit

import (
	"fmt"
	"slices"
	"strings"
)

// A Quantity is a figure that a region's rule may speak of.
type Quantity string

// The quantities that rules speak of, each with its unit after a comma.
const (
	LeadLength      Quantity = "cold lead, mm"
	LeadInBox       Quantity = "free lead in the box, mm"
	CircuitAmps     Quantity = "load of one circuit, A"
	SharedAmps      Quantity = "rating of a circuit with two or more heating cables, A"
	PowerPerLength  Quantity = "cable output, W/m"
	GroundFaultTrip Quantity = "ground-fault trip, mA"
	ZoneCelsius     Quantity = "heat at the cable's surface, °C"
	FeedShare       Quantity = "voltage drop of the feed, %"
	InsulationVolts Quantity = "insulation test, V"
	InsulationMohm  Quantity = "insulation resistance, MΩ"
)

// A Fact is one figure of the job, to be held against a region's rules.
type Fact struct {
	Quantity Quantity
	Value    float64
	About    string // what it is the figure of: "cable H1", "thermostat of Bath"
}

// A Rule is one line of a region's rules, as data. A rule without a quantity
// is a reminder, given whatever the figures are.
type Rule struct {
	Region   string
	Edition  string // what it was read in: "NEC 2023"
	Clause   string
	Quantity Quantity
	Least    float64 // 0: no lower limit
	Most     float64 // 0: no upper limit
	Text     string
}

// A Warning is a rule worth a second look. It is not a finding that a code is
// or is not met: whoever does the work looks that up in the adopted edition.
type Warning struct {
	Rule
	Fact Fact // zero for a reminder
}

// InForce is what every warning ends with.
const InForce = "check the edition in force"

// Read is where the rule was read: its edition, with its clause if it has one.
func (r Rule) Read() string {
	if r.Clause == "" {
		return r.Edition
	}
	return r.Edition + ", " + r.Clause
}

// String words a warning with its edition and clause.
func (w Warning) String() string {
	src := w.Read()
	if w.Quantity == "" {
		return fmt.Sprintf("%s (%s; %s)", w.Text, src, InForce)
	}
	name, unit, _ := strings.Cut(string(w.Quantity), ", ")
	return fmt.Sprintf("%s: %s is %.4g %s, and %s (%s; %s)",
		w.Fact.About, name, w.Fact.Value, unit, w.Text, src, InForce)
}

// Rules are the lines known for all regions. Clauses were read in unofficial
// copies; UL 943, IEC 60364-6 and the plan at the board of IEC 60364-7-753 are
// from memory. Hence warnings only.
var Rules = []Rule{
	{Region: "north america", Edition: "NEC 2023", Clause: "424.34", Quantity: LeadLength, Least: 7 * 304.8,
		Text: "factory leads are asked to be 7 ft (2.1 m) or longer"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.43(B)", Quantity: LeadInBox, Least: 150,
		Text: "6 in (150 mm) of free lead is asked for in the box; the clause stands among those for ceilings"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.22(B)", Quantity: CircuitAmps, Most: 48,
		Text: "heating over 48 A is to be subdivided"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.4(A)", Quantity: SharedAmps, Most: 30,
		Text: "a circuit that feeds two or more heating outlets is rated at 30 A at most"},
	{Region: "north america", Edition: "editions of the NEC before 2023", Clause: "424.44(A)", Quantity: PowerPerLength,
		Most: 16.5 * WattsPerFoot,
		Text: "cable in concrete was held to 16.5 W/ft (54 W/m); the 2023 text has no such limit"},
	{Region: "north america", Edition: "NEC 2023, an informational note to 210.19", Quantity: FeedShare, Most: 3,
		Text: "3 % at most is advised on a branch circuit"},
	{Region: "north america", Edition: "UL 943", Quantity: GroundFaultTrip, Least: 4, Most: 6,
		Text: "personnel protection (class A) trips between 4 and 6 mA; a 30 mA device protects equipment"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.4(B)",
		Text: "conductors carry 125 % of the load"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.44(E), 424.45(E)",
		Text: "ground-fault protection for people; its place is the electrician's decision"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.46",
		Text: "inspection before cover"},
	{Region: "north america", Edition: "NEC 2023", Clause: "424.47",
		Text: "a label at the panelboard names the circuits of hidden heating cable"},
	{Region: "europe", Edition: "IEC 60364-7-753:2014", Clause: "753.411.3.2", Quantity: GroundFaultTrip, Most: 30,
		Text: "a residual-current device of 30 mA or less is asked for"},
	{Region: "europe", Edition: "IEC 60364-7-753:2014", Clause: "753.424", Quantity: ZoneCelsius, Most: 80,
		Text: "the heating zone and what it touches are held to 80 °C, by design, laying or a device"},
	{Region: "europe", Edition: "IEC 60364-6, table 6.1", Quantity: InsulationVolts, Least: 500,
		Text: "insulation of circuits up to 500 V is tested with 500 V DC"},
	{Region: "europe", Edition: "IEC 60364-6, table 6.1", Quantity: InsulationMohm, Least: 1,
		Text: "insulation of circuits up to 500 V is asked to be 1 MΩ or more"},
	{Region: "europe", Edition: "IEC 60364-7-753:2014", Clause: "753.411.3.2",
		Text: "a residual-current device; which one is the electrician's decision"},
	{Region: "europe", Edition: "IEC 60364-7-753:2014", Clause: "753.512.2",
		Text: "units in concrete-like floors: IPX7"},
	{Region: "europe", Edition: "IEC 60364-7-753:2014",
		Text: "a plan of the heating is kept at the distribution board, and no penetrating fixings are used over it"},
}

// Check returns the warnings of a region for the facts given, in the order of
// Rules, then of facts. A limit is met exactly at its value. A rule whose
// quantity is not among the facts says nothing. Region "" and "elsewhere" have
// no rules; an unknown one is an error, and so is a fact that is no usable figure.
func Check(region string, facts []Fact) ([]Warning, error) {
	if region != "" && !slices.Contains(RegionNames(), region) {
		return nil, fmt.Errorf("no rules are on file for region %q; it may be %s", region,
			strings.Join(RegionNames(), " or "))
	}
	for _, f := range facts {
		if !usable(f.Value) {
			return nil, fmt.Errorf("%s: %s of %g is not a usable figure", f.About, f.Quantity, f.Value)
		}
	}
	var out []Warning
	for _, r := range Rules {
		if r.Region == region {
			out = append(out, r.warnings(facts)...)
		}
	}
	return out, nil
}

func (r Rule) warnings(facts []Fact) []Warning {
	if r.Quantity == "" {
		return []Warning{{Rule: r}}
	}
	var out []Warning
	for _, f := range facts {
		if f.Quantity == r.Quantity && r.outside(f.Value) {
			out = append(out, Warning{Rule: r, Fact: f})
		}
	}
	return out
}

func (r Rule) outside(v float64) bool {
	return !within(r.Least, v) || r.Most > 0 && !within(v, r.Most)
}
