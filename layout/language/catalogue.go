package language

import (
	"embed"
	"fmt"
	"sync"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

//go:embed *.toml
var files embed.FS

// A catalogue is what a language has for the English messages, by the message.
type catalogue struct {
	entries map[string]entry
	english func() map[string]string // the message that a text is of
}

// An entry is a message as the language says it: in each plural category that it tells apart, or in
// Other alone.
type entry map[plural.Form]string

// catalogues are read when a language is first asked for: most runs need none.
var catalogues = [...]func() *catalogue{
	Spanish: sync.OnceValue(func() *catalogue { return read(Spanish) }),
	French:  sync.OnceValue(func() *catalogue { return read(French) }),
	German:  sync.OnceValue(func() *catalogue { return read(German) }),
}

func (l Language) catalogue() *catalogue { return catalogues[l]() }

// read reads the file of what sheets say in a language.
func read(l Language) *catalogue { return readFile(l.Tag() + ".toml") }

// readFile reads a file of a language. Its entries are texts, or tables of texts by CLDR plural
// category ("one", "other") of a message's first value.
func readFile(name string) *catalogue {
	data, err := files.ReadFile(name)
	if err != nil {
		panic(err) // the file is part of the program
	}
	var entries map[string]any
	if _, err := toml.Decode(string(data), &entries); err != nil {
		panic(fmt.Sprintf("%s: %v", name, err))
	}
	c := &catalogue{entries: map[string]entry{}}
	for key, said := range entries {
		if c.entries[key], err = entryOf(said); err != nil {
			panic(fmt.Sprintf("%s: %q: %v", name, key, err))
		}
	}
	c.english = sync.OnceValue(c.backwards)
	return c
}

// forms are the plural categories by their names in CLDR.
var forms = map[string]plural.Form{"other": plural.Other, "one": plural.One, "many": plural.Many}

func entryOf(said any) (entry, error) {
	switch said := said.(type) {
	case string:
		return entry{plural.Other: said}, nil
	case map[string]any:
		out := entry{}
		for category, text := range said {
			form, known := forms[category]
			s, is := text.(string)
			if !known || !is {
				return nil, fmt.Errorf("%q is no text of a plural category", category)
			}
			out[form] = s
		}
		if _, ok := out[plural.Other]; ok {
			return out, nil
		}
	}
	return nil, fmt.Errorf("neither a text nor a table of texts with one for \"other\"")
}

// counted is the entry's text for the values of a message, the first of which may be a count.
func (e entry) counted(l Language, values []any) string {
	if len(e) > 1 && len(values) > 0 {
		if n, ok := values[0].(int); ok {
			if said, ok := e[plural.Cardinal.MatchPlural(language.MustParse(l.Tag()), max(n, -n), 0, 0, 0, 0)]; ok {
				return said
			}
		}
	}
	return e[plural.Other]
}

// Entries are what the language has for the English messages; of those that take a count, the
// text for many. English has none.
func (l Language) Entries() map[string]string {
	if l == English {
		return nil
	}
	return l.catalogue().texts()
}

// Spoken are what the language has for what the command says, alike.
func (l Language) Spoken() map[string]string {
	if l == English {
		return nil
	}
	return spoken[l]().texts()
}

// OnPage are what the language has for what the page in a browser says, alike.
func (l Language) OnPage() map[string]string {
	if l == English {
		return nil
	}
	return readFile("page-" + l.Tag() + ".toml").texts()
}

func (c *catalogue) texts() map[string]string {
	out := map[string]string{}
	for key, e := range c.entries {
		out[key] = e[plural.Other]
	}
	return out
}
