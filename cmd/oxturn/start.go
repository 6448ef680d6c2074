//go:build !js

package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	spendMemory()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
