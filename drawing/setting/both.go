package setting

import (
	"slices"
	"strings"

	"oxturn/layout/language"
	"oxturn/layout/pattern"
)

// InBoth are the levels of a sheet in its two languages: tables with the heads of their columns and their words in
// both, and the words of its drawing, which stand there in the first alone, explained after the legend.
func InBoth(levels []Level, words []string, ty *Typesetter, small bool) []Level {
	if len(ty.also) == 0 {
		return levels
	}
	key := wordKey(words, ty)
	out := slices.Clone(levels)
	for i := range out {
		l := &out[i]
		for _, blocks := range []*[]Block{&l.Blocks, &l.Rest, &l.Later} {
			*blocks = inBoth(*blocks, ty, small)
		}
		if len(key.Paras) > 0 {
			l.explain(key)
		}
	}
	return out
}

// explain puts the key of words after the legend, or last where there is none.
func (l *Level) explain(key List) {
	for _, blocks := range []*[]Block{&l.Blocks, &l.Rest, &l.Later} {
		if at := slices.IndexFunc(*blocks, IsLegend); at >= 0 {
			*blocks = slices.Insert(slices.Clone(*blocks), at+1, Block(key))
			if blocks == &l.Blocks && at < l.Must {
				l.Must++
			}
			return
		}
	}
	l.Blocks = append(slices.Clone(l.Blocks), key)
}

// IsLegend reports whether a block explains the signs of a sheet.
func IsLegend(b Block) bool {
	_, is := Unmeasured(b).(Legend)
	return is
}

// inBoth are blocks of which tables stand in both languages.
func inBoth(blocks []Block, ty *Typesetter, small bool) []Block {
	if len(ty.also) == 0 {
		return blocks
	}
	out := slices.Clone(blocks)
	for i, b := range out {
		if t, is := b.(Table); is && !t.both {
			out[i] = t.inBoth(ty, small)
		}
	}
	return out
}

// inBoth is a table in both languages, the second below the first in small letters on small paper, else behind it. What
// stands in its first column is what the others are about, and is said in both with its values; in those only words
// are, and not figures.
func (t Table) inBoth(ty *Typesetter, small bool) Table {
	both := func(text, also *string) {
		if small {
			*also = ty.second(*text)
		} else {
			*text = ty.Both(*text)
		}
	}
	t.both = true
	t.Cols = slices.Clone(t.Cols)
	for i := range t.Cols {
		both(&t.Cols[i].Head, &t.Cols[i].also)
	}
	t.Rows = slices.Clone(t.Rows)
	for i, r := range t.Rows {
		t.Rows[i] = slices.Clone(r)
		for k := range r[:min(len(r), len(t.Cols))] {
			if t.Cols[k].Wraps && (k == 0 || !figures().MatchString(r[k].Text)) {
				both(&t.Rows[i][k].Text, &t.Rows[i][k].also)
			}
		}
	}
	return t
}

// figures matches a text with a figure in it.
var figures = pattern.Of(`\d`)

// second is a text in the second language; empty where it is none of ours, or alike in both.
func (ty *Typesetter) second(text string) string {
	for _, l := range ty.also {
		if said := ty.Also(text, l); said != text {
			return said
		}
	}
	return ""
}

// equals stands between a word and what it is in the second language; the two stay on one line.
const equals = " = "

// letters matches what has a word in it, as the name of a run has none.
var letters = pattern.Of(`\pL`)

// wordKey explains the words of a drawing, each once, without the numbers of runs and the letters of walls.
func wordKey(words []string, ty *Typesetter) List {
	var out []string
	for _, w := range words {
		said := ty.second(w)
		if said == "" || strings.Contains(w, betweenBoth) || !letters().MatchString(w) {
			continue
		}
		w, said = unnumbered(w), unnumbered(said)
		pair := strings.ReplaceAll(w+equals+said, " ", NoBreak)
		if w != said && !slices.Contains(out, pair) {
			out = append(out, pair)
		}
	}
	if len(out) == 0 {
		return List{}
	}
	return keyOf(out, ty.Language)
}

func keyOf(pairs []string, l language.Language) List {
	return List{Head: l.Text("Words on the drawing"), Paras: []string{strings.Join(pairs, l.Joint("; "))}, words: true}
}

// MergedKeys are blocks with their keys of words made one, after all others.
func MergedKeys(blocks []Block, l language.Language) []Block {
	var out []Block
	var pairs []string
	for _, b := range blocks {
		key, is := Unmeasured(b).(List)
		if !is || !key.words {
			out = append(out, b)
			continue
		}
		for _, pair := range strings.Split(key.Paras[0], l.Joint("; ")) {
			if !slices.Contains(pairs, pair) {
				pairs = append(pairs, pair)
			}
		}
	}
	if pairs == nil {
		return blocks
	}
	return append(out, keyOf(pairs, l))
}

// number matches what tells one of several from the others.
var number = pattern.Of(`(?: |\x{a0})(?:\d+(?:[.,]\d+)?|[A-Z]\d*)$`)

func unnumbered(text string) string { return number().ReplaceAllString(text, "") }

// both is a title in both languages: the kind of sheet, before the name of its room.
func (t TitleBlock) both(title string) string {
	kind, room, named := strings.Cut(title, titleDash)
	for _, l := range t.also {
		if said := t.language.Also(kind, l); said != "" && said != kind {
			kind += betweenBoth + said
		}
	}
	if named {
		return kind + titleDash + room
	}
	return kind
}

// titleDash stands in a title between the kind of sheet and its room.
const titleDash = " - "

// named is the name of a field, in both languages but in a compact block, which has no room for that.
func (t TitleBlock) named(f field) string {
	if t.Compact {
		return f.Name
	}
	return t.both(f.Name)
}

// kind is the document type, in both languages where the block has room for that.
func (t TitleBlock) kind() string {
	if t.Compact {
		return t.Kind
	}
	return t.both(t.Kind)
}
