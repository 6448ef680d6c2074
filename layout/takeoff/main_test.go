package takeoff

import (
	"testing"

	"oxturn/layout/language"
	"oxturn/layout/spend"
)

func TestMain(m *testing.M) {
	spend.Memory()
	m.Run()
}

// english are messages as they stand in the code.
func english(messages []language.Message) []string { return language.In(language.English, messages) }
