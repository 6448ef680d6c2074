// Package sample is what the test of mutants changes: one mutant of every kind.
package sample

// Length is a number type of the package's own.
type Length float64

// Sums has all four operators.
func Sums(a, b float64) float64 { return (a+b)*(a-b)/2 + -a }

// Half is not tried on anything that tells its sum from the mutant's.
func Half(a Length) Length { return (a + 0.0) / 2 }

// Forgotten is not tried.
func Forgotten(a int) int { return a * 3 }

// Count counts what lies from low up to high, and nothing below zero.
func Count(of []int, low, high int) int {
	n := 0
	for _, v := range of {
		if v >= low && v < high || v == high-1 {
			n++
		}
	}
	return n
}

// Down ends after n steps; its mutant never does.
func Down(n int) (sum int) {
	for n > 1 {
		sum += n
		n--
	}
	return sum
}

// Most returns the largest; which of two that are the same does not matter.
func Most(of ...int) int {
	most := of[0]
	for _, v := range of {
		if v > most {
			most = v
		}
	}
	return most
}
