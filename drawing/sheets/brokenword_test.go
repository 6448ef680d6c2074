package sheets

import (
	"regexp"
	"testing"

	"oxturn/drawing"
)

var wholeWord = regexp.MustCompile(`[A-Za-z]+`)

// lettered are the words on the sheets of a set.
func lettered(set []*drawing.Sheet) map[string]bool {
	out := map[string]bool{}
	for _, s := range set {
		for _, it := range s.Items {
			if t, ok := it.(*drawing.Text); ok {
				for _, w := range wholeWord.FindAllString(t.Text, -1) {
					out[w] = true
				}
			}
		}
	}
	return out
}

// TestNoWordIsBroken looks for words in two pieces: letters that one set has and no other,
// and with which a word of another begins, the rest of it being lettered too. Where a table
// is too narrow on one paper, it is wide enough on another.
func TestNoWordIsBroken(t *testing.T) {
	sets := map[string]map[string]bool{}
	in := map[string]int{} // how many sets have a word
	for name := range drawnExamples {
		sets[name] = lettered(example(t, name).set)
		for w := range sets[name] {
			in[w]++
		}
	}
	for name, words := range sets {
		for whole := range in {
			for i := 2; i < len(whole); i++ {
				head, tail := whole[:i], whole[i:]
				if words[head] && in[head] == 1 && words[tail] && tail != "s" { // "note" is a word beside "notes"
					t.Errorf("%s: %q seems to be broken into %q and %q", name, whole, head, tail)
				}
			}
		}
	}
}
