package route

import "github.com/sourcegraph/conc"

// inParallel runs work for 0 to n-1 at the same time and waits for all. The
// pieces of work share nothing that they write, so the outcome does not
// depend on their order. A panic of one of them comes here, where a caller can catch it.
func inParallel(n int, work func(i int)) {
	var wait conc.WaitGroup
	for i := range n {
		wait.Go(func() { work(i) })
	}
	wait.Wait()
}
