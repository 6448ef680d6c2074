package compare

import (
	"fmt"
	"math"
	"strings"

	"oxturn/layout"
	"oxturn/layout/language"
	"oxturn/layout/say"
	"oxturn/layout/takeoff"
)

// bought says of a room in which something changed whether the cable that was bought
// for it by the older revision serves the newer one.
func (d *diff) bought(was, now *layout.Room) {
	if len(was.Cables) == 0 {
		return
	}
	have, need := labels(was), labels(now)
	c := Change{Room: now.Job.Name, What: "cable already bought", Before: strings.Join(have, " + ")}
	switch missing, left := without(need, have), without(have, need); {
	case len(missing) > 0:
		c.After = "no longer serves: " + strings.Join(missing, " + ") + " is to be bought"
		if len(left) > 0 {
			c.After += ", and " + strings.Join(left, " + ") + " is left over"
		}
	case len(left) > 0:
		c.After = strings.Join(left, " + ") + " is left over"
	case relabelled(was, now):
		c.After = "the same by name, but not by its figures: hold the label of the one bought against them"
	default:
		c.After = "still serves"
	}
	d.add(c)
}

func labels(r *layout.Room) (out []string) {
	for _, c := range r.Cables {
		out = append(out, c.Label.ID)
	}
	return out
}

// without returns what of all is not in some, each counted.
func without(all, some []string) (out []string) {
	left := map[string]int{}
	for _, s := range some {
		left[s]++
	}
	for _, s := range all {
		if left[s]--; left[s] < 0 {
			out = append(out, s)
		}
	}
	return out
}

// relabelled reports whether a label of one name has other figures.
func relabelled(was, now *layout.Room) bool {
	for _, a := range was.Cables {
		for _, b := range now.Cables {
			x, y := a.Label, b.Label
			if x.ID == y.ID && (x.Volts != y.Volts || x.Watts != y.Watts || math.Abs(x.Length-y.Length) > 1 ||
				x.Ohms != y.Ohms) {
				return true
			}
		}
	}
	return false
}

// otherRuns names the runs that do not lie as they did.
func (d *diff) otherRuns(room string, was, now *layout.Cable) {
	var other []int
	for i := range max(len(was.Runs), len(now.Runs)) {
		if i >= len(was.Runs) || i >= len(now.Runs) || runMoved(was.Runs[i], now.Runs[i]) {
			other = append(other, i+1)
		}
	}
	if len(other) == 0 {
		return
	}
	n := max(len(was.Runs), len(now.Runs))
	words := fmt.Sprintf("%s of %d", numbers(other), n)
	if len(other) == n {
		words = fmt.Sprintf("all %d", n)
	}
	d.add(Change{Room: room, What: "runs of " + now.ID + " that lie otherwise", Before: "none", After: words,
		Figures: []Figure{both("runs that lie otherwise", "", 0, float64(len(other)))}})
}

func runMoved(a, b layout.Run) bool {
	return a.Pegs != b.Pegs || a.From.Dist(b.From) > samePlace || a.To.Dist(b.To) > samePlace
}

// numbers writes rising numbers, those that follow each other as one stretch.
func numbers(all []int) string {
	var out []string
	for i := 0; i < len(all); i++ {
		from := i
		for i+1 < len(all) && all[i+1] == all[i]+1 {
			i++
		}
		switch {
		case i == from:
			out = append(out, fmt.Sprint(all[i]))
		case i == from+1:
			out = append(out, fmt.Sprint(all[from]), fmt.Sprint(all[i]))
		default:
			out = append(out, fmt.Sprintf("%d to %d", all[from], all[i]))
		}
	}
	return strings.Join(out, ", ")
}

// days compares from when on the floor is used in full.
func (d *diff) days(was, now *layout.Plan) {
	a, b := was.FullUse, now.FullUse
	if a == nil || b == nil {
		return
	}
	wait := both("longest wait", "days", float64(a.Longest().Wait()), float64(b.Longest().Wait()))
	how := ""
	if !a.Date.IsZero() && !b.Date.IsZero() {
		if n := int(b.Date.Sub(a.Date).Hours() / 24); n != 0 {
			how = fmt.Sprintf("%s later", days(n))
			if n < 0 {
				how = fmt.Sprintf("%s sooner", days(-n))
			}
		}
	}
	if a.Words(language.English) != b.Words(language.English) {
		d.add(Change{What: "earliest full use", How: how, Before: a.Words(language.English),
			After: b.Words(language.English), Figures: []Figure{wait}})
	}
}

func days(n int) string {
	if n == 1 {
		return "a day"
	}
	return fmt.Sprintf("%d days", n)
}

// cost compares what all that has a price costs.
func (d *diff) cost(was, now takeoff.List) {
	a, _ := was.Total()
	b, unpriced := now.Total()
	if math.Abs(a-b) < samePrice {
		return
	}
	c := Change{What: "cost", Before: d.money(a), After: d.money(b) + ", " + d.more(b-a),
		Figures: []Figure{both("cost", d.currency, layout.Round(a, 2), layout.Round(b, 2))}}
	if n := len(unpriced); n > 0 {
		c.After += fmt.Sprintf("; %d of %d lines have no price", n, len(now.Lines))
	}
	d.add(c)
}

func (d *diff) money(v float64) string {
	return strings.TrimSpace(say.Price(v) + " " + d.currency)
}

// more writes a difference of money with its sign.
func (d *diff) more(v float64) string {
	return strings.TrimSpace(say.PriceMore(v) + " " + d.currency)
}
