// Package takeoff computes what to buy. Every line says which area or length
// it is based on, so that it can be worked out again by hand.
package takeoff

// A List is the take-off of a whole job.
type List struct {
	Lines       []Line
	Inclusions  []string
	Exclusions  []string
	Assumptions []string
	Questions   []string
}

// A Line is one row of the take-off sheet and of the CSV.
type Line struct {
	Item     string
	Basis    string  // which area or length, in words with its figure
	Net      float64 // in Unit
	Waste    float64 // share added, 0.1 for 10 %
	Gross    float64 // Net with waste
	Unit     string  // "m²", "kg", "L", "m", "each"
	Pack     float64 // size of a pack in Unit
	PackName string  // "bag", "roll", "box"
	Packs    int     // whole packs
	Spare    float64 // left over, in Unit
	Price    float64 // of all packs, 0: none given
	Note     string  // where a figure comes from
}
