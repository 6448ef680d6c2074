package main

import "github.com/sourcegraph/conc"

// together does n things side by side, and panics where one of them did: only a panic of the
// caller's own is told as a fault of ours, any other would end the program.
func together(n int, do func(i int)) {
	var wait conc.WaitGroup
	for i := range n {
		wait.Go(func() { do(i) })
	}
	wait.Wait()
}
