//go:build !unix

package main

import "time"

var begun = time.Now()

// spent is the time since the start, for want of the processor's.
func spent() time.Duration { return time.Since(begun) }
