package route

import (
	"testing"

	"github.com/sourcegraph/conc/panics"
)

// TestAPanicReachesTheCaller: who plans a floor can tell of a fault of ours, instead of ending
// with it.
func TestAPanicReachesTheCaller(t *testing.T) {
	if err := panics.Try(func() { bracketAll([]*way{{}, {}}) }); err == nil { // ways without a floor
		t.Error("a panic was lost")
	}
	lost := &laying{found: []*candidate{nil, nil}}
	if err := panics.Try(lost.polishAlone); err == nil {
		t.Error("a panic was lost")
	}
}
