package main

import (
	"context"
	"os"
	"testing"
	"time"
)

// BenchmarkDraw takes the example bath from its file to the bytes of every
// output.
func BenchmarkDraw(b *testing.B) {
	s, err := readSource(context.Background(), os.Stdin, "../../testdata/jobs/bath.toml", "")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		w, err := do(context.Background(), s, workOptions{timeLimit: time.Minute})
		if err != nil || w.report.Errors() > 0 {
			b.Fatal(err, w.report.Diagnostics())
		}
		if _, err := outputs(w, kinds()); err != nil {
			b.Fatal(err)
		}
	}
}
