package takeoff

import (
	"oxturn/layout/language"
	_ "oxturn/layout/spend/intests"
)

// english are messages as they stand in the code.
func english(messages []language.Message) []string { return language.In(language.English, messages) }
