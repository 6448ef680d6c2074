package page

import (
	"bytes"
	"encoding/base64"
	"regexp"
	"testing"
)

// TestEnginePieces: a page in one file has the whole engine, in pieces that follow what reads them.
func TestEnginePieces(t *testing.T) {
	for _, size := range []int{1, aPiece, aPiece + 1, 3*aPiece - 1} {
		e := Engine{Packed: bytes.Repeat([]byte{0x1f, 0x8b, 8, 0, 77}, size)[:size], Support: []byte("class Go {}\n")}
		data, err := e.OneFile()
		if err != nil {
			t.Fatal(err)
		}
		script := bytes.Index(data, []byte("<script>"))
		var got []byte
		for _, m := range regexp.MustCompile(`class="engine">([^<]*)</script>`).FindAllSubmatchIndex(data, -1) {
			piece, err := base64.StdEncoding.DecodeString(string(data[m[2]:m[3]]))
			if err != nil || len(piece) > aPiece || m[0] < script {
				t.Fatalf("%d bytes, a piece of %d at %d: %v", size, len(piece), m[0], err)
			}
			got = append(got, piece...)
		}
		if !bytes.Equal(got, e.Packed) {
			t.Errorf("of %d bytes %d are there", size, len(got))
		}
	}
}
