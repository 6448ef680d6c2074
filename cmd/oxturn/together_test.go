package main

import (
	"testing"

	"github.com/sourcegraph/conc/panics"
)

func TestTogether(t *testing.T) {
	done := make([]bool, 3)
	defer func() {
		p, ok := recover().(*panics.Recovered)
		if !ok || p.Value != "the second" || !done[0] || !done[2] {
			t.Errorf("%+v, done: %v", p, done)
		}
	}()
	together(3, func(i int) {
		if i == 1 {
			panic("the second")
		}
		done[i] = true
	})
	t.Error("a panic was lost")
}
