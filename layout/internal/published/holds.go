package published

import (
	"slices"
	"testing"
)

// A Check says what is wrong with a row of a table, nil when nothing is.
type Check func(row []float64) error

// An Unnoticed is a figure that a check is not able to see moved, with the
// reason why.
type Unnoticed struct {
	Column string
	All    bool    // the whole column; else Figure alone
	Figure float64 // as it stands in the table
	Why    string
}

func (u Unnoticed) covers(column string, figure float64) bool {
	return u.Column == column && (u.All || u.Figure == figure)
}

// moveShare is by how much of itself a figure is raised and lowered.
const moveShare = 0.02

// Holds fails the test unless check passes every row of a table as it is
// published, and fails each row with any one figure of it raised or lowered
// by 2 %. Only figures listed as unnoticed may move without a word; one that
// is listed and yet noticed fails the test too.
func Holds(t testing.TB, name string, check Check, unnoticed ...Unnoticed) {
	t.Helper()
	heads, rows := read(t, name)
	needed := make([]bool, len(unnoticed))
	for n, row := range rows {
		if err := check(row); err != nil {
			t.Errorf("%s, row %d: %v", name, n+1, err)
		}
		for k, head := range heads {
			if notices(check, row, k, step(rows, n, k)) {
				continue
			}
			i := slices.IndexFunc(unnoticed, func(u Unnoticed) bool { return u.covers(head, row[k]) })
			if i < 0 {
				t.Errorf("%s, row %d: nothing notices %s of %g moved by 2 %%", name, n+1, head, row[k])
				continue
			}
			needed[i] = true
		}
	}
	for i, u := range unnoticed {
		if !needed[i] || u.Why == "" {
			t.Errorf("%s: %s is listed as unnoticed without need or reason", name, u.Column)
		}
	}
}

// step is how far the figure in row n, column k is moved: 2 % of itself, or of
// its column's largest where it is 0.
func step(rows [][]float64, n, k int) float64 {
	if v := rows[n][k]; v != 0 {
		return moveShare * v
	}
	most := 0.0
	for _, row := range rows {
		most = max(most, row[k], -row[k])
	}
	return moveShare * most
}

// notices reports whether check fails with column k a step higher, and a step
// lower.
func notices(check Check, row []float64, k int, step float64) bool {
	for _, by := range []float64{step, -step} {
		other := slices.Clone(row)
		other[k] += by
		if check(other) == nil {
			return false
		}
	}
	return true
}
