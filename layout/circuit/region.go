package circuit

import "strings"

// A Figure is a value of a region with where it was read.
type Figure struct {
	Value  float64
	Source string
}

// A Region is what differs from one part of the world to another. A figure of
// 0 stands for no rule on file: nothing is then said in its name.
type Region struct {
	Name       string
	Ratings    []float64 // usual breaker ratings in A, smallest first
	RatingsBy  string    // where they were read
	Sizes      []Size    // of copper supply conductors, smallest first; none: no rule on file
	SizesBy    string    // where they were read
	Continuous Figure    // what a continuous load is multiplied by before it is held against a breaker
	Contacts   Figure    // usual rating of a thermostat's contacts, A
	BoxHeight  Figure    // of the thermostat's box above the floor, mm
	Breaker    string    // what a breaker is called
	Panel      string    // what the box is called that circuits start from
	Fault      string    // what protects people from a fault to earth
	FaultClass Figure    // most that this trips at, mA
	Protect    string    // how people are protected, for the cautions
	Series     string    // why there is one such device only
}

// A Size of conductor with the largest breaker that it usually goes behind.
type Size struct {
	Name string  // as in Conductors
	Most float64 // A
}

// The regions. What 125 % of a load and 80 % of a rating say is one rule.
var (
	NorthAmerica = Region{
		Name:      "north america",
		Ratings:   []float64{15, 20, 25, 30, 35, 40, 45, 50, 60},
		RatingsBy: "NEC 2023, 240.6(A)", // but for its 10 A
		Sizes:     []Size{{"14 AWG", 15}, {"12 AWG", 20}, {"10 AWG", 30}},
		SizesBy:   "NEC 2023, 240.4(D)", // the Canadian Code, Part I, 14-104, has the same (common practice)
		Continuous: Figure{1.25,
			"NEC 2023, 424.4(B) and 210.20(A)"},
		Contacts:   Figure{15, "common practice"},
		BoxHeight:  Figure{48 * 25.4, "highest reach of the 2010 ADA Standards, 308.2.1"},
		Breaker:    "breaker",
		Panel:      "panel",
		Fault:      "ground-fault device",
		FaultClass: Figure{6, "UL 943, class A"},
		Protect:    "Ground-fault device that protects people (class A, 4 to 6 mA); braid to ground.",
		Series:     "Never two in series: they trip without a fault.",
	}
	Europe = Region{
		Name:      "europe",
		Ratings:   []float64{6, 10, 13, 16, 20, 25, 32, 40, 50, 63},
		RatingsBy: "IEC 60898-1, 5.3.2",
		// two loaded cores, PVC, a cable in a conduit in an insulated wall at 30 °C: the least of the usual ways
		Sizes:      []Size{{"1.5 mm²", 14}, {"2.5 mm²", 18.5}, {"4 mm²", 25}, {"6 mm²", 32}},
		SizesBy:    "IEC 60364-5-52, table B.52.2, method A2",
		Continuous: Figure{1, "IEC 60364-4-43, 433.1: the load is no more than the rating"},
		Contacts:   Figure{16, "common practice"},
		BoxHeight:  Figure{1200, "highest reach for controls of the Approved Document M (England)"},
		Breaker:    "circuit-breaker",
		Panel:      "distribution board",
		Fault:      "residual-current device (RCD)",
		FaultClass: Figure{30, "IEC 60364-7-753, 753.411.3.2"},
		Protect:    "Residual-current device (RCD) of 30 mA or less; braid to the protective conductor.",
		Series:     "Never two of 30 mA in series: they trip together or without a fault.",
	}
	// Elsewhere has no rules on file: what is printed names no figure.
	Elsewhere = Region{
		Name:       "elsewhere",
		Continuous: Figure{1, "no rule on file"},
		Contacts:   Figure{15, "common practice; the lower of the two usual ones"},
		BoxHeight:  Figure{1200, "common practice"},
		Breaker:    "breaker",
		Panel:      "distribution board",
		Fault:      "earth-fault device",
		Protect:    "Earth-fault device of the class that local rules ask for; braid to earth.",
		Series:     "Never two of one class in series: they trip together or without a fault.",
	}
)

// All are the regions by name.
var All = []Region{NorthAmerica, Europe, Elsewhere}

// Titled returns the name of a region as a heading has it: "North America".
func Titled(name string) string {
	words := strings.Fields(name)
	for i, w := range words {
		words[i] = strings.ToUpper(w[:1]) + w[1:]
	}
	return strings.Join(words, " ")
}

// RegionNamed returns the region of a name. A job that names none is taken for
// North American where it is written in inches; where it is metric it may be
// from anywhere.
func RegionNamed(name string, inches bool) Region {
	for _, r := range All {
		if r.Name == name {
			return r
		}
	}
	if inches {
		return NorthAmerica
	}
	return Elsewhere
}

// Derated reports whether a continuous load may use only a share of a rating.
func (r Region) Derated() bool { return r.Continuous.Value > 1 }

// LeastSize returns the smallest conductor that usually goes behind a breaker of
// some amps; ok is false where none is on file.
func (r Region) LeastSize(breaker float64) (size Size, ok bool) {
	for _, s := range r.Sizes {
		if within(breaker, s.Most) {
			return s, true
		}
	}
	return size, false
}

// SizeNamed returns a conductor of the region's table; ok is false for one that it
// does not have.
func (r Region) SizeNamed(name string) (size Size, ok bool) {
	for _, s := range r.Sizes {
		if s.Name == name {
			return s, true
		}
	}
	return size, false
}

// Called is a place of the circuit as the region calls it.
func (r Region) Called(place string) string {
	if place == "breaker" {
		return r.Breaker
	}
	return place
}

// RegionNames are the names of All.
func RegionNames() []string {
	var out []string
	for _, r := range All {
		out = append(out, r.Name)
	}
	return out
}
