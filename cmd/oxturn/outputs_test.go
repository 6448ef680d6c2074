package main

import (
	"testing"

	"github.com/sourcegraph/conc/panics"
)

// TestAPanicOfAnOutputReachesTheCaller, who tells of a fault of ours: outputs are made side by
// side, where a panic would else end the program.
func TestAPanicOfAnOutputReachesTheCaller(t *testing.T) {
	unplanned := &work{} // no output can be made of it
	defer func() {
		if _, ok := recover().(*panics.Recovered); !ok {
			t.Error("a panic was lost")
		}
	}()
	files, err := outputs(unplanned, []string{"layout", "map"})
	t.Errorf("%d files, %v", len(files), err)
}
