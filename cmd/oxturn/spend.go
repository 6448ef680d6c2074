package main

import (
	"os"
	"runtime/debug"

	"oxturn/layout/spend"
)

// freely is the memory up to which garbage may lie.
const freely = 128 << mebibyte

// spendMemory has the collector of garbage work less, where nobody asked otherwise.
func spendMemory() {
	spend.Memory()
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(freely) // but from there on sparingly
	}
}
