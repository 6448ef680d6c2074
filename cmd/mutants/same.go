package main

import (
	"fmt"
	"os"
	"strings"
)

// sameList holds the mutants that change nothing that anybody could observe.
type sameList struct{ keys map[string]bool }

func (s *sameList) has(key string) bool { return s.keys[key] }

// stale returns an entry that speaks of a mutated file but of no mutant in it.
func (s *sameList) stale(mutants []mutant) (string, bool) {
	files, found := map[string]bool{}, map[string]bool{}
	for _, m := range mutants {
		files[m.file], found[m.key()] = true, true
	}
	for key := range s.keys {
		file, _, _ := strings.Cut(key, " ")
		if files[file] && !found[key] {
			return key, true
		}
	}
	return "", false
}

// readSame reads the list: lines with mutants as they are printed, without the
// line number, and below them the reason, indented.
func readSame(path string) (*sameList, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	s := &sameList{map[string]bool{}}
	var open []string
	for i, line := range strings.Split(string(data), "\n") {
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "\t"):
			open = nil
		default:
			if s.keys[line] {
				return nil, fmt.Errorf("%s:%d: listed twice: %s", path, i+1, line)
			}
			s.keys[line] = true
			open = append(open, line)
		}
	}
	if open != nil {
		return nil, fmt.Errorf("%s: no reason below: %s", path, open[0])
	}
	return s, nil
}
