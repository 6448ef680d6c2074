package main

import (
	"context"
	"os"
	"testing"
	"time"

	"oxturn/layout/build"
	"oxturn/layout/job"
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

// BenchmarkChoose weighs the cables of each job that new writes.
func BenchmarkChoose(b *testing.B) {
	for _, kind := range []string{"bath", "kitchen", "entry"} {
		for _, units := range []string{"mm", "in"} {
			data := starter(kind, units)
			b.Run(kind+" "+units, func(b *testing.B) {
				for b.Loop() {
					j, _ := job.Read(kind, data, nil)
					if rooms, wrong := build.Options(j); len(wrong) > 0 || !rooms[0].Options[0].Taken {
						b.Fatal(wrong)
					}
				}
			})
		}
	}
}
