//go:build !js

package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

func main() {
	spendMemory()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// spendMemory has the collector of garbage work less, where nobody asked otherwise.
func spendMemory() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400) // a run is short and small: memory is spent to save time
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(128 << 20) // but from there on sparingly
	}
}
