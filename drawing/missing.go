package drawing

import "oxturn/fonts"

// An Unset is a text that has characters no embedded face can set. Paper
// shows fonts.Substitute in their places.
type Unset struct {
	Sheet string // its ID
	Text  string
	Runes []rune
}

// Unsettable returns the texts of sheets, titles apart, that cannot be set as
// they are written, for the caller to report; each text once a sheet.
func Unsettable(sheets ...*Sheet) []Unset {
	var out []Unset
	for _, s := range sheets {
		seen := map[string]bool{}
		for _, it := range s.Items {
			t, ok := it.(*Text)
			if !ok || seen[t.Text] {
				continue
			}
			if gone := fonts.Missing(t.Face, t.Text); gone != nil {
				seen[t.Text] = true
				out = append(out, Unset{s.ID, t.Text, gone})
			}
		}
	}
	return out
}
