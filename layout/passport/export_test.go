package passport

// Checked ends a text with its sum.
func Checked(text string) string { return text + checkWord + checkOf(text) + "\n" }
