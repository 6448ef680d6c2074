package sheets

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
)

// A proposal begins with its cover, which lists every sheet that follows; a set for
// installation has none.
func TestProposalBeginsWithItsCover(t *testing.T) {
	kitchen := example(t, "kitchen").set
	if kitchen[0].ID != coverID {
		t.Fatalf("the first sheet is %s", kitchen[0].ID)
	}
	for _, s := range kitchen[1:] {
		if !has(kitchen[0], s.Label) || s.ID == coverID {
			t.Errorf("%s, %s, is not listed", s.Label, s.Title)
		}
	}
	for _, want := range []string{"Scope", "Not included", "Agreed", "This offer holds until 2026-12-24.",
		"Payment: One third with the order", "Running cost, estimated", "Old vinyl taken up", "20 mm in place"} {
		if !strings.Contains(said(kitchen[0]), want) {
			t.Errorf("no %q on the cover", want)
		}
	}
	for _, s := range example(t, "bath").set {
		if s.ID == coverID {
			t.Error("a set for installation has a cover")
		}
	}
}

// The total, reckoned by fractions from the lines of the take-off: 15 % on each of its parts,
// rounded, then 21 % tax; an option by the price list alike.
func TestOfferAddsUp(t *testing.T) {
	p := example(t, "kitchen").plan
	cents := func(r *big.Rat) *big.Rat { // rounded half up, of sums over nothing
		twice := new(big.Rat).Mul(r, big.NewRat(200, 1))
		n := new(big.Int).Quo(twice.Num(), twice.Denom())
		return new(big.Rat).SetFrac(n.Quo(n.Add(n, big.NewInt(1)), big.NewInt(2)), big.NewInt(100))
	}
	with := func(r *big.Rat, share int64) *big.Rat {
		return new(big.Rat).Add(r, cents(new(big.Rat).Mul(r, big.NewRat(share, 100))))
	}
	parts := map[string]*big.Rat{}
	for _, l := range p.TakeOff.Lines {
		part := "floor"
		switch {
		case strings.HasPrefix(l.Code, "labour "), l.Code == "tester-hire":
			part = "work"
		case strings.HasPrefix(l.Code, "cable "), strings.Contains(
			"thermostat sensor spare-sensor box conduit sensor-tube tape nail-plate", l.Code):
			part = "heat"
		}
		price, _ := new(big.Rat).SetString(fmt.Sprintf("%.2f", l.Price))
		if parts[part] == nil {
			parts[part] = new(big.Rat)
		}
		parts[part].Add(parts[part], price)
	}
	net := new(big.Rat)
	for _, r := range parts {
		net.Add(net, with(r, 15))
	}
	want := map[string]string{
		"net": net.FloatString(2), "total": with(net, 21).FloatString(2),
		"option": with(with(big.NewRat(1850, 100), 15), 21).FloatString(2),
	}
	got := map[string]string{"net": p.Offer.Net.String(), "total": p.Offer.Total.String(),
		"option": p.Offer.Options[0].Price.String()}
	for k := range want {
		if got[k] != want[k] {
			t.Errorf("%s %s, want %s", k, got[k], want[k])
		}
	}
	if s := example(t, "kitchen").set[0]; !has(s, want["total"]) || !has(s, want["option"]) {
		t.Errorf("the cover does not have %v", want)
	}
}

// What an owner gets says the sums with tax, and neither the markup nor what a piece costs;
// whoever makes the offer sees both beside the take-off.
func TestOwnerSeesNoMarkup(t *testing.T) {
	k := example(t, "kitchen")
	mine, _ := For(k.set, ownerReader)
	all := ""
	for _, s := range mine {
		all += said(s)
	}
	for _, hidden := range []string{"Markup", "markup", "15 %, on", "Price each", k.plan.Offer.Cost.String(),
		k.plan.Offer.Markup.String()} {
		if strings.Contains(all, hidden) {
			t.Errorf("an owner reads %q", hidden)
		}
	}
	if !strings.Contains(all, k.plan.Offer.Total.String()) || !strings.Contains(all, "VAT, 21 %") {
		t.Error("an owner does not read the total with its tax")
	}
	estimate := ""
	for _, s := range k.set {
		if strings.HasPrefix(s.ID, "take-off") {
			estimate += said(s)
		}
	}
	for _, want := range []string{"Markup, 15 %", k.plan.Offer.Cost.String(), k.plan.Offer.Total.String()} {
		if !strings.Contains(estimate, want) {
			t.Errorf("no %q with the take-off", want)
		}
	}
	if text, err := job.Unpriced([]byte("[proposal]\nmarkup = 0.15\ntax = 0.2\n")); err != nil ||
		strings.Contains(string(text), "markup") || !strings.Contains(string(text), "tax") {
		t.Errorf("%s, %v", text, err)
	}
}

// Without a price, the place for it is left open; without a date, the offer's days are said.
func TestOfferWithoutPriceOrDate(t *testing.T) {
	p := *example(t, "entry").plan
	p.Offer = &layout.Offer{}
	entry, err := Set(&p)
	if err != nil {
		t.Fatal(err)
	}
	if got := said(entry[0]); !strings.Contains(got, "still to be agreed") || strings.Contains(got, "Total") {
		t.Errorf("%s", got)
	}
}

// TestTaxIsCalledByItsName: letters and case of the name stay, whatever they are.
func TestTaxIsCalledByItsName(t *testing.T) {
	for _, name := range []string{"VAT", "Übersteuer"} {
		p := &layout.Plan{Job: &job.Job{Proposal: job.ProposalTerms{Tax: 0.2, TaxName: name}}, Offer: &layout.Offer{}}
		if got := optionTable(p).Head; got != "Options, "+name+" included" {
			t.Errorf("%q: %q", name, got)
		}
	}
}
