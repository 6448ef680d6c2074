package main

import "sync"

// together does n things side by side, and panics where one of them did: only a panic of the
// caller's own is told as a fault of ours, any other would end the program.
func together(n int, do func(i int)) {
	panics := make([]any, n)
	var wait sync.WaitGroup
	for i := range n {
		wait.Go(func() {
			defer func() { panics[i] = recover() }()
			do(i)
		})
	}
	wait.Wait()
	for _, p := range panics {
		if p != nil {
			panic(p)
		}
	}
}
