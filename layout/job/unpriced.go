package job

import (
	"slices"

	"oxturn/layout/job/tree"
)

// moneyKeys are the names of keys that say what something was bought or offered for.
// What the owner pays for current is theirs to know.
var moneyKeys = []string{"prices", "price", "hour_cost", "visit_cost", "markup"}

// Unpriced returns a job file or a catalogue as it may go to whom prices are no
// business of: without those keys, and without comments, of which nobody can tell
// what they say. The error is that of a file that is no TOML.
func Unpriced(data []byte) ([]byte, error) {
	return tree.Without(data, func(key string) bool { return slices.Contains(moneyKeys, key) })
}
