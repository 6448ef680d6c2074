// Package takeoff computes what to buy. Every line says which area or length
// it is based on, so that it can be worked out again by hand.
package takeoff

import (
	"oxturn/layout/language"
	"oxturn/layout/money"
)

// A List is the take-off of a whole job.
type List struct {
	Status      string // of the job: "proposal", "for installation", "as laid"
	Lines       []Line
	Inclusions  []language.Message
	Exclusions  []language.Message
	Assumptions []language.Message
	Questions   []language.Message // open: what must be known before this is ordered
}

// A Line is one row of the take-off sheet and of the CSV. Figures are metric;
// US gives the other system.
type Line struct {
	Code     string // stable name, "membrane", "bond-mortar", for price files and comparing
	Item     language.Message
	Basis    language.Message // which area or length, in words with its figure
	Net      float64          // in Unit
	Waste    float64          // share added, 0.1 for 10 %
	Gross    float64          // Net with waste
	Unit     string           // "m²", "kg", "L", "mL", "m", "each", "h"
	Pack     float64          // size of a pack in Unit, 0: not bought by the pack
	PackName string           // "bag", "roll", "box"
	Packs    int              // whole packs
	Spare    float64          // left over, in Unit
	Each     float64          // price of a pack or, where it is not bought by the pack, of a unit; 0: none given
	Price    float64          // of all, 0: none given
	Note     language.Message // where a figure comes from
}

// Total adds up the prices given and names the items that have none.
func (l List) Total() (sum float64, unpriced []language.Message) {
	var cents money.Cents
	for _, line := range l.Lines {
		cents += money.Of(line.Price)
		if line.Price == 0 {
			unpriced = append(unpriced, line.Item)
		}
	}
	return cents.Float(), unpriced
}
