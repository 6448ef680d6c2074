//go:build !js

package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"oxturn/layout/spend"
)

func main() {
	spendMemory()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// freely is the memory up to which garbage may lie.
const freely = 128 << mebibyte

// spendMemory has the collector of garbage work less, where nobody asked otherwise.
func spendMemory() {
	spend.Memory()
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(freely) // but from there on sparingly
	}
}
