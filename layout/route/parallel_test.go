package route

import (
	"testing"

	"github.com/sourcegraph/conc/panics"
)

// TestAPanicReachesTheCaller: who plans a floor can tell of a fault of ours, instead of ending
// with it.
func TestAPanicReachesTheCaller(t *testing.T) {
	var done [3]bool
	err := panics.Try(func() {
		inParallel(len(done), func(i int) {
			done[i] = true
			if i == 1 {
				panic("the second")
			}
		})
	})
	if err == nil || done != [3]bool{true, true, true} {
		t.Errorf("%v, done: %v", err, done)
	}
}
