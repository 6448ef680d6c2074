package route

import "sync"

// inParallel runs work for 0 to n-1 at the same time and waits for all. The
// pieces of work share nothing that they write, so the outcome does not
// depend on their order.
func inParallel(n int, work func(i int)) {
	var wg sync.WaitGroup
	for i := range n {
		wg.Add(1)
		go func() {
			defer wg.Done()
			work(i)
		}()
	}
	wg.Wait()
}
