package job

import (
	"fmt"
	"slices"
	"strings"
)

// readRevised reads the places that revisions of the table changed.
func (r *Room) readRevised(t table, all []Revision) {
	for _, rt := range limited(t, "revised") {
		letter := rt.text("letter")
		if rt.readable("letter") && !slices.ContainsFunc(all, func(v Revision) bool { return v.Letter == letter }) {
			rt.errorf("letter", wantedLetter(all), "there is no revision %q", letter)
		}
		what := fmt.Sprintf("what revision %s changed", letter)
		if rt.broken() || !r.usable() {
			continue
		}
		at, ok := r.spotOf(rt, "at", what)
		if !ok {
			continue
		}
		if i, d := r.nearestWall(at); !r.Outline.Contains(at) && d > r.slack() {
			rt.with("at", "name a place of the floor", r.wallNote(rt, i), "%s lies %s outside wall %s of room %q", what,
				rt.length(d), r.Walls[i].Letter, r.Name)
			continue
		}
		r.Revised = append(r.Revised, Revised{letter, at})
	}
}

// wantedLetter says which revisions there are.
func wantedLetter(all []Revision) string {
	if len(all) == 0 {
		return "add it: [[revision]] with its letter, text and date"
	}
	letters := make([]string, len(all))
	for i, v := range all {
		letters[i] = v.Letter
	}
	return "take one of " + strings.Join(letters, ", ") + ", or add it as a [[revision]]"
}
