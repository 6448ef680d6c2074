package pdf

import (
	"bytes"
	"crypto/md5"
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/pattern"
)

// A File is one that a document carries (ISO 32000-2, 7.11.4 and 14.13).
type File struct {
	Name     string // without a folder
	Type     string // media type
	About    string // what it is, for a person
	Relation string // to the document: Source, Data or Supplement
	Data     []byte
}

// carry adds files to a document and returns what its catalogue has of them: the
// list of embedded files that every reader shows, and the array that says what
// they are to the document (as in PDF/A-3).
func (p *rawDocument) carry(files []File) string {
	if len(files) == 0 {
		return ""
	}
	var specs []int
	var all bytes.Buffer
	for _, f := range files {
		stream := p.add(packed(fmt.Appendf(nil, "<<\n/Length %d\n>>\nstream\n%sendstream\nendobj\n", len(f.Data),
			f.Data)))
		p.describe(stream, f)
		spec := p.add(fmt.Appendf(nil, "<</Type/Filespec/F %s/UF %s/EF<</F %d 0 R/UF %[3]d 0 R>>/Desc %s"+
			"/AFRelationship/%s>>\nendobj\n", textString(plainName(f.Name)), textString(clean(f.Name)), stream,
			textString(clean(f.About)), f.Relation))
		specs = append(specs, spec)
		fmt.Fprintf(&all, "%d 0 R\n", spec)
	}
	return "/AF[" + all.String() + "]\n/Names<</EmbeddedFiles<</Names[" + keyed(files, specs) + "]>>>>\n"
}

// keyed writes a name tree of the files, by strings that every program reads and
// compares alike: not their own names, which may have any letters (7.9.6).
func keyed(files []File, specs []int) string {
	var keys []string
	at := map[string]int{}
	for i, f := range files {
		key := plainName(f.Name)
		if _, taken := at[key]; taken {
			key = fmt.Sprintf("%s_%d", key, i)
		}
		keys, at[key] = append(keys, key), specs[i]
	}
	slices.Sort(keys)
	var b strings.Builder
	for _, k := range keys {
		fmt.Fprintf(&b, "(%s) %d 0 R\n", k, at[k])
	}
	return b.String()
}

// add puts another object at the end and returns its number.
func (p *rawDocument) add(body []byte) int {
	n := len(p.objects) + 1
	p.objects = append(p.objects, fmt.Appendf(nil, "%d 0 obj\n%s", n, bytes.TrimPrefix(body, objectHead().Find(body))))
	return n
}

var objectHead = pattern.Of(`^\d+ 0 obj\n`)

// describe says in an embedded file's own dictionary what it is: its type, its
// size, and the sum by which a reader sees that it is whole (7.11.4, table 46).
func (p *rawDocument) describe(object int, f File) {
	said := fmt.Appendf(nil, "<<\n/Type/EmbeddedFile/Subtype/%s/Params<</Size %d/CheckSum<%X>>>\n",
		strings.ReplaceAll(f.Type, "/", "#2F"), len(f.Data), md5.Sum(f.Data))
	p.objects[object-1] = bytes.Replace(p.objects[object-1], []byte("<<\n"), said, 1)
}

// plainName is a file's name for readers that know no Unicode.
func plainName(s string) string {
	return strings.Map(func(r rune) rune {
		if r <= ' ' || r > '~' || strings.ContainsRune(`()\/`, r) {
			return '_'
		}
		return r
	}, s)
}
