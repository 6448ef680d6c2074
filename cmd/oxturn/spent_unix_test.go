//go:build unix

package main

import (
	"syscall"
	"time"
)

// spent is the processor time that this process has taken, which the load of
// the machine does not change.
func spent() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
