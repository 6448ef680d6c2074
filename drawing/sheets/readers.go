package sheets

import (
	"strings"

	"oxturn/drawing"
)

// readers names the sheets that each kind of reader needs, by the first part
// of their IDs.
var readers = map[string][]string{
	"installer":   {"key-plan", "cable-plan", "setting-out", "notes", "membrane", "build-up", "test-record"},
	"estimator":   {"key-plan", "cable-plan", "notes", "membrane", "build-up", "take-off"},
	"electrician": {"key-plan", "cable-plan", "notes", "electrician", "test-record"},
	"owner":       {"owner-map", "cable-plan", "notes", "test-record"},
}

// For returns the sheets of a set that a reader needs: "installer",
// "estimator", "electrician" or "owner". ok is false for any other reader. The
// sheets keep their numbers in the whole set.
func For(set []*drawing.Sheet, reader string) (some []*drawing.Sheet, ok bool) {
	kinds, ok := readers[reader]
	if !ok {
		return nil, false
	}
	for _, s := range set {
		for _, k := range kinds {
			if s.ID == k || strings.HasPrefix(s.ID, k+"-") {
				some = append(some, s)
				break
			}
		}
	}
	return some, true
}

// Readers returns the names that For knows, in the order of the work.
func Readers() []string {
	return []string{"installer", "estimator", "electrician", "owner"}
}
