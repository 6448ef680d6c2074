package job

import "strings"

// longestWord is longer than any key: what is beyond it is no slip of one.
const longestWord = 40

// nearest returns the candidate that a word was most likely meant to be: at
// most two letters apart, fewer for short words, else the only one that is the
// same word cut short or drawn out; empty when none is near.
func nearest(word string, candidates []string) string {
	if len(word) > longestWord {
		return ""
	}
	best, found := min(2, (len(word)+1)/3)+1, ""
	for _, c := range candidates {
		if d := LettersApart(plain(word), plain(c)); d < best {
			best, found = d, c
		}
	}
	if found == "" {
		found = onlyLonger(word, candidates)
	}
	return found
}

// plain takes the differences out of a word that are easily got wrong.
func plain(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s))
}

// onlyLonger returns the one candidate that is word cut short or drawn out
// ("inches" for "in"), "" for none or several.
func onlyLonger(word string, candidates []string) string {
	found, a := "", plain(word)
	for _, c := range candidates {
		b := plain(c)
		if min(len(a), len(b)) < 2 || !strings.HasPrefix(a, b) && !strings.HasPrefix(b, a) {
			continue
		}
		if found != "" {
			return ""
		}
		found = c
	}
	return found
}

// LettersApart counts the letters to insert, drop, change or swap with their
// neighbour to make b of a (optimal string alignment).
func LettersApart(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			change := rows[i-1][j-1]
			if x[i-1] != y[j-1] {
				change++
			}
			rows[i][j] = min(change, rows[i-1][j]+1, rows[i][j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(x)][len(y)]
}
