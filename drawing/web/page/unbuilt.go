//go:build !page

package page

// Built is the engine that this build carries: none.
func Built() (Engine, bool) { return Engine{}, false }
