// Package skip is the only way for a test to leave itself out, so that each
// reason to do so is listed here and a fixture that broke is not among them.
package skip

import "os"

// A Reason is why a test may not run.
type Reason string

// The reasons there are.
const (
	NoProgram    Reason = "a program from outside is not installed" // a failure under OXTURN_REQUIRE_TOOLS=1
	NoMount      Reason = "this user may not mount a small file system"
	OtherProcess Reason = "it runs only as the process that another test starts"
	OtherCase    Reason = "what was drawn at random is no case of this test"
	NotAsked     Reason = "it takes minutes and has a flag that asks for it"
	Long         Reason = "it takes a minute; .ci/run has it" // never under OXTURN_REQUIRE_TOOLS=1
)

type tester interface {
	Helper()
	Skipf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// Test leaves a test or a random case out for one of the reasons.
func Test(t tester, why Reason, details any) {
	t.Helper()
	if (why == NoProgram || why == Long) && os.Getenv("OXTURN_REQUIRE_TOOLS") == "1" {
		t.Fatalf("%s: %v", why, details)
	}
	t.Skipf("%s: %v", why, details)
}
