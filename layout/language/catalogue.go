package language

import (
	"embed"
	"fmt"
	"maps"
	"sync"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
)

//go:embed *.toml
var files embed.FS

// A catalogue is what a language has for the English messages.
type catalogue struct {
	plain   map[string]string // its texts as they are written
	printer *message.Printer
	english func() map[string]string // the message that a text is of
}

// catalogues are read when a language is first asked for: most runs need none.
var catalogues = [...]func() *catalogue{
	Spanish: sync.OnceValue(func() *catalogue { return read(Spanish) }),
	French:  sync.OnceValue(func() *catalogue { return read(French) }),
	German:  sync.OnceValue(func() *catalogue { return read(German) }),
}

func (l Language) catalogue() *catalogue { return catalogues[l]() }

// read reads the file of a language. Its entries are texts, or tables of texts by CLDR plural
// category ("one", "other") of a message's first value.
func read(l Language) *catalogue {
	data, err := files.ReadFile(l.Tag() + ".toml")
	if err != nil {
		panic(err) // the file is part of the program
	}
	var entries map[string]any
	if _, err := toml.Decode(string(data), &entries); err != nil {
		panic(fmt.Sprintf("%s.toml: %v", l.Tag(), err))
	}
	c := &catalogue{plain: map[string]string{}}
	tag := language.MustParse(l.Tag())
	b := catalog.NewBuilder(catalog.Fallback(language.English))
	for key, entry := range entries {
		switch said := entry.(type) {
		case string:
			c.plain[key] = said
			err = b.SetString(tag, key, said)
		case map[string]any:
			c.plain[key], _ = said["other"].(string)
			err = b.Set(tag, key, counted(said))
		default:
			err = fmt.Errorf("neither a text nor a table of texts")
		}
		if err != nil {
			panic(fmt.Sprintf("%s.toml: %q: %v", l.Tag(), key, err))
		}
	}
	c.english = sync.OnceValue(c.backwards)
	c.printer = message.NewPrinter(tag, message.Catalog(b))
	return c
}

// counted chooses between the texts of an entry by the message's first value.
func counted(entry map[string]any) catalog.Message {
	var cases []any
	for category, said := range entry {
		cases = append(cases, category, said)
	}
	return plural.Selectf(1, "%d", cases...)
}

// Entries are what the language has for the English messages; of those that take a count, the
// text for many. English has none.
func (l Language) Entries() map[string]string {
	if l == English {
		return nil
	}
	return maps.Clone(l.catalogue().plain)
}
