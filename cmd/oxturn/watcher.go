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
	last  []stamp // by the last look
	rest  int     // looks since then that found the same
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
	return s.info == nil || s.info.Size() == o.info.Size() && s.info.ModTime().Equal(o.info.ModTime()) &&
		os.SameFile(s.info, o.info)
}

// empty reports whether a file is missing or has nothing in it, as in the
// middle of being saved.
func (s stamp) empty() bool { return s.info == nil || s.info.Size() == 0 }

func stampOf(name string) stamp {
	info, err := os.Stat(name)
	if err != nil {
		info = nil
	}
	return stamp{name, info}
}

func (w *watcher) look() []stamp {
	var out []stamp
	for _, n := range w.names {
		out = append(out, stampOf(n))
	}
	return out
}

// follow makes the files beside the first those of the stamps, as they were
// when they were read: that they are new to the watcher is no change.
func (w *watcher) follow(others []stamp) {
	w.names, w.seen = w.names[:1:1], w.seen[:1:1]
	for _, s := range others {
		w.names, w.seen = append(w.names, s.name), append(w.seen, s)
	}
}

// mostMisses is how many looks in a row a missing or empty file is waited for
// before it is taken as meant.
const mostMisses = 4

// changed waits until the files differ from when it last returned and have
// come to rest. It returns at once the first time, and false when ctx ends.
func (w *watcher) changed(ctx context.Context, poll time.Duration) bool {
	for {
		if now := w.look(); w.seen == nil || w.rested(now) {
			w.seen, w.last, w.rest = now, nil, 0
			return ctx.Err() == nil
		}
		if !sleep(ctx, poll) {
			return false
		}
	}
}

// rested takes one more look, and reports whether the files have changed and
// are whole by now: two looks alike, of a missing or empty file more.
func (w *watcher) rested(now []stamp) bool {
	if !slices.EqualFunc(now, w.seen, stamp.same) && slices.EqualFunc(now, w.last, stamp.same) {
		w.rest++
	} else {
		w.rest = 0
	}
	w.last = now
	return w.rest >= mostMisses || w.rest > 0 && !slices.ContainsFunc(now, stamp.empty)
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
	list []stamp
}

func (o *opened) read(name string) ([]byte, error) {
	path := name
	if !filepath.IsAbs(path) {
		path = filepath.Join(filepath.Dir(o.name), path)
	}
	o.mu.Lock()
	if !slices.ContainsFunc(o.list, func(s stamp) bool { return s.name == path }) {
		o.list = append(o.list, stampOf(path))
	}
	o.mu.Unlock()
	return o.open(name)
}

func (o *opened) stamps() []stamp {
	o.mu.Lock()
	defer o.mu.Unlock()
	return slices.Clone(o.list)
}
