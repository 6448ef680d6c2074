package probe

import (
	"strings"
	"testing"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
)

// What is only proposed has no map to keep at the panel yet.
func TestLivingWithAFloor(t *testing.T) {
	for status, want := range map[job.Status]bool{job.Proposal: false, job.AsLaid: true} {
		got := strings.Join(Living(circuit.Region{Panel: "electrical panel"}, status, language.English), " ")
		if strings.Contains(got, "Keep this map and the test records at the electrical panel.") != want ||
			!strings.HasPrefix(got, "Keep thick rugs") {
			t.Errorf("%v: %s", status, got)
		}
	}
}
