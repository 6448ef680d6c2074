// Package pattern keeps regular expressions that are compiled where they are first
// used: some thirty of them at every start would cost a short run more than its work.
package pattern

import (
	"regexp"
	"sync"
)

// Of returns a function for a regular expression, which it compiles the first time and
// keeps. That call panics where the expression is wrong, as regexp.MustCompile does.
func Of(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}
