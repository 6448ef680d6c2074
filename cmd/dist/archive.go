package main

import (
	"archive/tar"
	"archive/zip"
	"compress/gzip"
	"crypto/sha256"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// A member is a file of an archive.
type member struct {
	data []byte
	mode os.FileMode
}

func ofFiles(files map[string][]byte) map[string]member {
	out := map[string]member{}
	for name, data := range files {
		out[name] = member{data, 0o644}
	}
	return out
}

// beside is what lies beside the command in every archive: what to read, licences,
// completions, the manual page and examples.
func beside() (map[string]member, error) {
	out := map[string]member{}
	names := []string{"README.md", "LICENSE", "NOTICE", "cmd/dist/CHANGELOG.md"}
	examples, err := filepath.Glob("testdata/jobs/*.*")
	if err != nil {
		return nil, err
	}
	for _, name := range append(names, examples...) {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out[placeOf(filepath.ToSlash(name))] = member{data, 0o644}
	}
	for name, args := range map[string][]string{
		"licences.txt": {"version", "--licences"}, "oxturn.1": {"help", "--man"},
		"completion/oxturn.bash": {"completion", "bash"}, "completion/_oxturn": {"completion", "zsh"},
		"completion/oxturn.fish": {"completion", "fish"}, "completion/oxturn.ps1": {"completion", "powershell"},
	} {
		data, err := exec.Command("go", append([]string{"run", "./cmd/oxturn"}, args...)...).Output()
		if err != nil {
			return nil, fmt.Errorf("oxturn %s: %w", strings.Join(args, " "), err)
		}
		out[name] = member{data, 0o644}
	}
	texts, err := licences(systems)
	if err != nil {
		return nil, err
	}
	fonts := out["licences.txt"].data
	out["licences.txt"] = member{append(joinedLicences(texts), "======== the Go fonts\n\n"+string(fonts)...), 0o644}
	return out, nil
}

// placeOf is where a file of the checkout lies in an archive.
func placeOf(name string) string {
	return strings.NewReplacer("testdata/jobs/", "examples/", "cmd/dist/", "").Replace(name)
}

// archive builds the command for a system and packs it with what lies beside it; it
// returns the archive's name.
func (s system) archive(dir string, common map[string]member) (string, error) {
	command := "oxturn"
	if s.os == "windows" {
		command += ".exe"
	}
	temporary, err := os.MkdirTemp("", "dist")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(temporary)
	program := filepath.Join(temporary, command)
	if err := s.build(program, "-tags", "page"); err != nil {
		return "", err
	}
	data, err := os.ReadFile(program)
	if err != nil {
		return "", err
	}
	members := map[string]member{folderName + command: {data, 0o755}}
	for n, m := range common {
		members[folderName+n] = m
	}
	name := "oxturn-" + s.os + "-" + s.arch
	if s.os == "windows" {
		return name + ".zip", writeZip(filepath.Join(dir, name+".zip"), members)
	}
	return name + ".tar.gz", writeTar(filepath.Join(dir, name+".tar.gz"), members)
}

// folderName is the folder that an archive unpacks into.
const folderName = "oxturn/"

// epoch is the date of everything in an archive, so that it hangs on nothing: the
// first that a zip can hold.
var epoch = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

func writeZip(name string, members map[string]member) error {
	return writeFile(name, func(w io.Writer) error {
		z := zip.NewWriter(w)
		for _, n := range slices.Sorted(maps.Keys(members)) {
			h := &zip.FileHeader{Name: n, Method: zip.Deflate, Modified: epoch}
			h.SetMode(members[n].mode)
			f, err := z.CreateHeader(h)
			if err != nil {
				return err
			}
			if _, err := f.Write(members[n].data); err != nil {
				return err
			}
		}
		return z.Close()
	})
}

func writeTar(name string, members map[string]member) error {
	return writeFile(name, func(w io.Writer) error {
		g := gzip.NewWriter(w)
		t := tar.NewWriter(g)
		for _, n := range slices.Sorted(maps.Keys(members)) {
			m := members[n]
			h := &tar.Header{Name: n, Mode: int64(m.mode), Size: int64(len(m.data)), ModTime: epoch,
				Format: tar.FormatPAX}
			if err := t.WriteHeader(h); err != nil {
				return err
			}
			if _, err := t.Write(m.data); err != nil {
				return err
			}
		}
		if err := t.Close(); err != nil {
			return err
		}
		return g.Close()
	})
}

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	err = write(f)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return err
}

// checksums writes SHA256SUMS as sha256sum reads it.
func checksums(dir string, names []string) error {
	var b strings.Builder
	for _, n := range slices.Sorted(slices.Values(names)) {
		data, err := os.ReadFile(filepath.Join(dir, n))
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(data), n)
	}
	return os.WriteFile(filepath.Join(dir, "SHA256SUMS"), []byte(b.String()), fileMode)
}
