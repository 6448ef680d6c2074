// Package money reckons in hundredths of any currency, exactly: figures are taken by the
// decimals that they are written with, and every sum is of what is printed.
package money

import (
	"fmt"
	"math/big"
	"strconv"
)

// Cents is a sum in hundredths.
type Cents int64

// exact is a figure by the shortest decimals that mean it: 0.1 is a tenth. What is no
// figure counts as nothing.
func exact(v float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(v, 'f', -1, 64))
	if !ok {
		return new(big.Rat)
	}
	return r
}

// halfCents are in a unit of money.
const halfCents = 200

// rounded is a sum of so many units, halves away from nothing.
func rounded(units *big.Rat) Cents {
	r := new(big.Rat).Mul(units, big.NewRat(halfCents, 1))
	half := new(big.Int).Quo(r.Num(), r.Denom()) // towards nothing
	n := half.Int64()
	if n < 0 {
		return Cents((n - 1) / 2)
	}
	return Cents((n + 1) / 2)
}

// Times is what so many of something cost at a price each.
func Times(price, n float64) Cents { return rounded(new(big.Rat).Mul(exact(price), exact(n))) }

// Of is a price as a sum.
func Of(price float64) Cents { return Times(price, 1) }

// Share is a share of a sum: 0.19 for 19 %.
func (c Cents) Share(share float64) Cents {
	return rounded(new(big.Rat).Mul(big.NewRat(int64(c), 100), exact(share)))
}

// Float is a sum in units, to be kept beside other figures.
func (c Cents) Float() float64 { return float64(c) / 100 }

// String writes a sum with two decimals.
func (c Cents) String() string {
	sign, n := "", int64(c)
	if n < 0 {
		sign, n = "-", -n
	}
	return fmt.Sprintf("%s%d.%02d", sign, n/100, n%100)
}
