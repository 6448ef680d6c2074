package main

import "testing"

func TestTogether(t *testing.T) {
	done := make([]bool, 3)
	defer func() {
		if p := recover(); p != "the second" || !done[0] || !done[2] {
			t.Errorf("%v, done: %v", p, done)
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
