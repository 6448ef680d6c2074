package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"
)

// A watcher looks at files again and again. It asks the file system instead of
// waiting to be told, as many network and shared folders tell nothing, and
// looks by name, as many editors put a new file in the old one's place.
type watcher struct {
	names []string
	seen  []stamp // as last drawn
}

// A stamp is what a file looked like; info is nil when it was not there.
type stamp struct {
	name string
	info os.FileInfo
}

// same reports whether nothing about a file has changed. A file put in its
// place differs even with the same size and time.
func (s stamp) same(o stamp) bool {
	if s.name != o.name || (s.info == nil) != (o.info == nil) {
		return false
	}
	return s.info == nil || s.info.Size() == o.info.Size() && s.info.ModTime().Equal(o.info.ModTime()) && os.SameFile(s.info, o.info)
}

// empty reports whether a file is missing or has nothing in it, as in the
// middle of being saved.
func (s stamp) empty() bool { return s.info == nil || s.info.Size() == 0 }

func (w *watcher) look() []stamp {
	var out []stamp
	for _, n := range w.names {
		info, err := os.Stat(n)
		if err != nil {
			info = nil
		}
		out = append(out, stamp{n, info})
	}
	return out
}

// patience is how many looks in a row a missing or empty file is waited for
// before it is taken as meant.
const patience = 4

// changed waits until the files differ from when it last returned and have
// come to rest: two looks alike, a missing file longer. It returns at once the
// first time, and false when ctx ends.
func (w *watcher) changed(ctx context.Context, poll time.Duration) bool {
	first := w.seen == nil
	var last []stamp
	rest := 0
	for {
		now := w.look()
		switch {
		case slices.EqualFunc(now, w.seen, stamp.same):
			rest = 0
		case last != nil && slices.EqualFunc(now, last, stamp.same):
			rest++
		default:
			rest = 0
		}
		if first || rest >= patience || rest > 0 && !slices.ContainsFunc(now, stamp.empty) {
			w.seen = now
			return ctx.Err() == nil
		}
		last = now
		if !sleep(ctx, poll) {
			return false
		}
	}
}

func sleep(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return true
	case <-ctx.Done():
		return false
	}
}

// opened remembers which files a job had read, so that they are watched too,
// also those that are not there yet.
type opened struct {
	name string // of the job
	open func(string) ([]byte, error)

	mu   sync.Mutex
	list []string
}

func (o *opened) read(name string) ([]byte, error) {
	path := name
	if !filepath.IsAbs(path) {
		path = filepath.Join(filepath.Dir(o.name), path)
	}
	o.mu.Lock()
	if !slices.Contains(o.list, path) {
		o.list = append(o.list, path)
	}
	o.mu.Unlock()
	return o.open(name)
}

func (o *opened) files() []string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return slices.Clone(o.list)
}
