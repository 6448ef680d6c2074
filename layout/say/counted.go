package say

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/language"
)

// Counted is a number of things in words: 1 wall, 2 walls.
func Counted(n int, what string) string { return fmt.Sprintf("%d %s", n, Plural(n, what)) }

// CountedMessage is Counted in the language of whoever will read it.
func CountedMessage(n int, what string) language.Message {
	return language.Joined(" ", language.As(strconv.Itoa(n)), language.Say(Plural(n, what)))
}

// Are goes with a number of things: 1 wall is, 2 walls are.
func Are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// Plural is the word for so many things: wall for one, walls, boxes.
func Plural(n int, what string) string {
	switch {
	case n == 1 || what == "":
		return what
	case strings.HasSuffix(what, "x"):
		return what + "es"
	}
	return what + "s"
}
