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

// wantedLetter says which revisions there are, of those whose letter can be read.
func wantedLetter(all []Revision) string {
	var letters []string
	for _, v := range all {
		if v.Letter != "" {
			letters = append(letters, v.Letter)
		}
	}
	if len(letters) == 0 {
		return "add it: [[revision]] with its letter, text and date"
	}
	return "take one of " + strings.Join(letters, ", ") + ", or add it as a [[revision]]"
}
