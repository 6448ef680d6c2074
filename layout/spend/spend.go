// Package spend has a program spend memory to save time, where nobody asked otherwise.
package spend

import (
	"os"
	"runtime/debug"
)

// percent is how much of what is in use may be garbage before it is collected. A plan and a
// set of sheets are short and small: at the usual 100 their tests take two thirds as long again.
const percent = 400

// Memory has the collector of garbage work less and, where the system can, takes the first memory
// in large pages; the environment's GOGC comes first.
func Memory() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(-1) // largePages collects once, which is enough
		largePages()
		debug.SetGCPercent(percent)
	}
}
