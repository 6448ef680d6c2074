// Package intests has tests spend memory to save time. It is imported for that effect.
package intests

import "oxturn/layout/spend"

func init() { spend.Memory() }
