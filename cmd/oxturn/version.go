package main

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"

	"oxturn/fonts"
)

// release is the version of the next release; builds from a checkout carry
// their commit beside it.
const release = "0.1.0"

// describedVersion is the version by the checkout's tags, where the build was told it.
var describedVersion string

const versionHelp = `
  oxturn version
  oxturn version --licences

Flags:
  --licences             the licences of the faces that are built in
`

// A versionOrder is what the flags of version ask for.
type versionOrder struct{ licences bool }

func (o *versionOrder) flags(f *verbFlags) { f.BoolVar(&o.licences, "licences", false, "") }

func (o *versionOrder) run(_ context.Context, c *commandLine) int {
	fmt.Fprintf(c.Out, "oxturn %s%s (%s %s/%s)\n", release, commit(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
	if o.licences {
		fmt.Fprint(c.Out, fonts.Licences())
	}
	return exitOK
}

func commit() string {
	if describedVersion != "" {
		return " " + describedVersion
	}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 10 {
			return " " + s.Value[:10]
		}
	}
	return ""
}
