package route

// A heap gives what comes before all others first.
type heap[T ranked[T]] []T

// A ranked thing knows what comes out of a heap before it.
type ranked[T any] interface{ before(T) bool }

func (q *heap[T]) push(c T) {
	h := append(*q, c)
	i := len(h) - 1
	for ; i > 0 && c.before(h[(i-1)/2]); i = (i - 1) / 2 {
		h[i] = h[(i-1)/2]
	}
	h[i] = c
	*q = h
}

func (q *heap[T]) pop() T {
	h := *q
	least, n := h[0], len(h)-1
	c := h[n]
	h = h[:n]
	i := 0
	for k := 1; k < n; k = 2*i + 1 {
		if k+1 < n && h[k+1].before(h[k]) {
			k++
		}
		if !h[k].before(c) {
			break
		}
		h[i] = h[k]
		i = k
	}
	if n > 0 {
		h[i] = c
	}
	*q = h
	return least
}
