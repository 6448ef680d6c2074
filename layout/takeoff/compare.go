package takeoff

import "oxturn/layout/language"

// A Change is one item that two take-offs differ in.
type Change struct {
	Code          string
	Item          language.Message
	Unit          string
	Before, After float64 // gross, 0 where the item is absent
	PacksBefore   int     // whole packs
	Packs         int     // more whole packs after than before
	PackName      string  // "bag", "roll", "box"; empty where it has none
	PriceBefore   float64 // of all, 0 where it has none
	Price         float64
}

// Compare returns the items whose gross quantity, packs or price differ, those of
// before first, then what is new. It tells what a room measured otherwise
// does to an order.
func Compare(before, after List) []Change {
	var out []Change
	for _, a := range before.Lines {
		out = appendChange(out, a, after.find(a.Code))
	}
	for _, c := range after.Lines {
		if was := before.find(c.Code); was.Code == "" {
			out = appendChange(out, was, c)
		}
	}
	return out
}

// find returns the line of a code, the zero Line when there is none.
func (l List) find(code string) Line {
	for _, line := range l.Lines {
		if line.Code == code {
			return line
		}
	}
	return Line{}
}

func appendChange(out []Change, a, c Line) []Change {
	if a.Gross == c.Gross && a.Packs == c.Packs && a.Price == c.Price {
		return out
	}
	named := c
	if named.Code == "" {
		named = a
	}
	return append(out, Change{named.Code, named.Item, named.Unit, a.Gross, c.Gross, a.Packs, c.Packs - a.Packs,
		named.PackName, a.Price, c.Price})
}
