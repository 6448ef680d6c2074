package layout

import (
	"time"

	"oxturn/layout/language"

	"oxturn/layout/money"
)

// An Offer is what a proposal asks for the floor. Groups and options are with markup, as an
// owner sees them; what it costs and the markup are for whoever makes the offer.
type Offer struct {
	Groups   []OfferGroup
	Cost     money.Cents // of all that is priced, as the take-off adds it up
	Markup   money.Cents
	Net      money.Cents // both
	Tax      money.Cents
	Total    money.Cents
	Unpriced []language.Message // items that no price is given for: the sum is without them
	Options  []Option
	Until    time.Time // the last day it holds; zero: the job has no date
}

// An OfferGroup is a share of an offer's net sum.
type OfferGroup struct {
	Name string
	Sum  money.Cents
}

// An Option is what can be had on top, with markup and tax; Price 0: on request.
type Option struct {
	Name  string
	Price money.Cents
}
