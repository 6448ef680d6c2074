package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"strings"
	"sync"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/fault"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Is reports whether data begins as a PDF does.
func Is(data []byte) bool { return bytes.HasPrefix(data, []byte("%PDF-")) }

// withoutConfig keeps the library from making a folder of its own on the disk. Its
// package api, which has a function for that, is left out: what that one imports takes
// tens of milliseconds at every start of the command.
var withoutConfig = sync.OnceFunc(func() { model.ConfigPath = "disable" })

// Embedded returns the files that a document says it is made of, also where other
// programs have written it anew since. limit is how many bytes they may have
// together, unpacked: what has more is an error, as is a document that no one can
// open without its password. Names come without folders.
func Embedded(data []byte, limit int64) (files []File, err error) {
	defer fault.Catch(&err)
	withoutConfig()
	conf := model.NewDefaultConfiguration()
	conf.Offline = true
	conf.Limits.MaxStreamBytes, conf.Limits.MaxDecodeBytes = limit, limit
	ctx, err := pdfcpu.Read(bytes.NewReader(data), conf)
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as a PDF: %w", err)
	}
	catalogue, err := ctx.Catalog()
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as a PDF: %w", err)
	}
	all, err := ctx.DereferenceArray(catalogue["AF"])
	if err != nil {
		return nil, fmt.Errorf("its list of files cannot be read: %w", err)
	}
	var out []File
	for _, o := range all {
		f, err := embedded(ctx, o, limit)
		if err != nil {
			return nil, fmt.Errorf("a file in it cannot be read: %w", err)
		}
		limit -= int64(len(f.Data))
		out = append(out, f)
	}
	return out, nil
}

// embedded reads one file that the catalogue lists.
func embedded(ctx *model.Context, o types.Object, limit int64) (f File, err error) {
	spec, err := ctx.DereferenceDict(o)
	if err != nil || spec == nil {
		return f, errors.Join(err, errors.New("there is no description of it"))
	}
	for _, t := range []struct {
		key string
		to  *string
	}{{"F", &f.Name}, {"UF", &f.Name}, {"Desc", &f.About}} {
		if v, ok := spec.Find(t.key); ok {
			if *t.to, err = ctx.DereferenceStringOrHexLiteral(v, model.V10, nil); err != nil {
				return f, err
			}
		}
	}
	f.Name = path.Base(strings.ReplaceAll(f.Name, `\`, "/"))
	f.Relation = relation(spec)
	holder, err := ctx.DereferenceDict(spec["EF"])
	if err != nil {
		return f, err
	}
	stream, _, err := ctx.DereferenceStreamDict(holder["F"])
	if err != nil || stream == nil {
		return f, errors.Join(err, fmt.Errorf("%q is named, but not there", f.Name))
	}
	if err := stream.DecodeWithLimit(max(1, limit)); err != nil {
		return f, fmt.Errorf("%q: %w", f.Name, err)
	}
	if int64(len(stream.Content)) > limit {
		return f, fmt.Errorf("%q is larger than any file of a job", f.Name)
	}
	f.Data = stream.Content
	return f, nil
}

func relation(spec types.Dict) string {
	if n := spec.NameEntry("AFRelationship"); n != nil {
		return *n
	}
	return "Unspecified"
}
