package main

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"oxturn/drawing/web/page"
)

const pageHelp = `
Writes the whole tool as a page for any phone, tablet or laptop: rooms by tape,
all drawings, and the questions that come up on site. It needs no network and
no server, and what is typed into it stays on the device.

  oxturn page                      oxturn.html, one file
  oxturn page -o site              a folder for any web server, which can be
                                   put on a phone's home screen

Flags:
  -o FILE.html|DIR       where to write (default oxturn.html)

Builds from a checkout carry no page; there, go run ./cmd/dist -page makes it.
Exit codes: 0 done, 2 usage or file trouble.
`

// A pageOrder is what the flags of page ask for.
type pageOrder struct{ to string }

func (o *pageOrder) flags(f *verbFlags) { f.StringVar(&o.to, "o", "oxturn.html", "") }

func (o *pageOrder) run(_ context.Context, c *commandLine) int {
	if len(c.args) > 0 {
		return c.misuse(fmt.Errorf("it takes no file, but %s was given", c.args[0]))
	}
	e, ok := page.Built()
	if !ok {
		return c.fail(errors.New("this build carries no page; in a checkout, go run ./cmd/dist -page makes it"))
	}
	dir, files, err := o.make(e)
	if err != nil {
		return c.fail(err)
	}
	if err := (&folder{dir: dir}).write(files); err != nil {
		return c.fail(fmt.Errorf("nothing was written: %w", err))
	}
	c.say("written  %s: open it in a browser", filepath.Join(dir, files[0].name))
	return exitOK
}

// make makes the page's files and says where they go; the first is to be opened.
func (o *pageOrder) make(e page.Engine) (dir string, files []file, err error) {
	if strings.EqualFold(filepath.Ext(o.to), ".html") {
		one, err := e.OneFile()
		return filepath.Dir(o.to), []file{{filepath.Base(o.to), one}}, err
	}
	parts, err := e.Folder()
	if err != nil {
		return "", nil, err
	}
	files = []file{{"index.html", parts["index.html"]}}
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		if name != files[0].name {
			files = append(files, file{name, parts[name]})
		}
	}
	return o.to, files, nil
}
