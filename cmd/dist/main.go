// Command dist builds what is given away: archives for every system, the page, and
// their checksums. From one checkout and one Go they come out the same, byte for byte.
//
//	go run ./cmd/dist            everything, into dist/
//	go run ./cmd/dist -page      the page alone, oxturn.html
//
// It works in the root of a checkout and needs Go alone.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"oxturn/drawing/web/page"
)

func main() {
	only := flag.Bool("page", false, "make the page alone")
	to := flag.String("o", "", "where to write (default: dist, or oxturn.html with -page)")
	flag.Parse()
	if err := run(*only, *to); err != nil {
		fmt.Fprintln(os.Stderr, "dist:", err)
		os.Exit(1)
	}
}

func run(only bool, to string) error {
	e, err := buildEngine()
	if err != nil {
		return err
	}
	if only {
		return onePage(e, or(to, "oxturn.html"))
	}
	return all(e, or(to, "dist"))
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func onePage(e page.Engine, name string) error {
	data, err := e.OneFile()
	if err != nil {
		return err
	}
	if err := os.WriteFile(name, data, fileMode); err != nil {
		return err
	}
	fmt.Printf("%s: %.1f MB; open it in a browser\n", name, float64(len(data))/1e6)
	return nil
}

// What is made may be read and written by whom the system's mask lets.
const (
	fileMode   = 0o666
	folderMode = 0o777
)

// all makes the archives, the page in both forms and the checksums of them.
func all(e page.Engine, dir string) error {
	if err := os.MkdirAll(dir, folderMode); err != nil {
		return err
	}
	if err := onePage(e, filepath.Join(dir, "oxturn.html")); err != nil {
		return err
	}
	made := []string{"oxturn.html"}
	parts, err := e.Folder()
	if err != nil {
		return err
	}
	if err := writeZip(filepath.Join(dir, "oxturn-page.zip"), ofFiles(parts)); err != nil {
		return err
	}
	made = append(made, "oxturn-page.zip")
	common, err := beside()
	if err != nil {
		return err
	}
	for _, s := range systems {
		name, err := s.archive(dir, common)
		if err != nil {
			return fmt.Errorf("%s/%s: %w", s.os, s.arch, err)
		}
		fmt.Println(name)
		made = append(made, name)
	}
	return checksums(dir, made)
}
