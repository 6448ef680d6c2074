package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing/sheets"
	"oxturn/layout/job"
)

const completionHelp = `
Prints the lines that let a shell complete verbs, flags and job files.

  bash:  source <(oxturn completion bash)        in ~/.bashrc
  zsh:   source <(oxturn completion zsh)         in ~/.zshrc, after compinit
  fish:  oxturn completion fish > ~/.config/fish/completions/oxturn.fish
  PowerShell:  oxturn completion powershell | Out-String | Invoke-Expression
               in the file that $PROFILE names

Exit codes: 0 done, 2 usage.
`

// completeVerb is what the shells' lines call. It is not in the list of verbs.
const completeVerb = "__complete"

//go:embed completion/bash.sh
var completeBash string

//go:embed completion/zsh.zsh
var completeZsh string

//go:embed completion/fish.fish
var completeFish string

//go:embed completion/powershell.ps1
var completePowerShell string

var shells = []string{"bash", "zsh", "fish", "powershell"}

// A completionOrder has no flags: its word is a shell.
type completionOrder struct{}

func (completionOrder) flags(*verbFlags) {}

func (completionOrder) run(_ context.Context, c *commandLine) int {
	if len(c.args) != 1 || !slices.Contains(shells, c.args[0]) {
		return c.fail(errors.New("name a shell: bash, zsh, fish or powershell"))
	}
	fmt.Fprint(c.Out, map[string]string{"bash": completeBash, "zsh": completeZsh, "fish": completeFish,
		"powershell": completePowerShell}[c.args[0]])
	return exitOK
}

// Lines that stand for files instead of for themselves.
const (
	jobFiles = ":toml"
	anyFiles = ":files"
	folders  = ":folders"
)

// complete prints what may stand in the place of the last of words, one a
// line, or one of the lines above.
func complete(c *console, words []string) {
	for _, w := range candidates(words) {
		fmt.Fprintln(c.Out, w)
	}
}

// candidates are all that may follow, whatever the last word begins with: the
// shell picks.
func candidates(words []string) []string {
	if len(words) <= 1 {
		return verbNames()
	}
	v, ok := verbNamed(words[0])
	if !ok {
		return nil
	}
	last, before := words[len(words)-1], words[len(words)-2]
	flags := helpFlags(v)
	for _, f := range flags {
		if f.name == before && f.value != "" {
			return flagWords(f)
		}
	}
	if strings.HasPrefix(last, "-") {
		var out []string
		for _, f := range flags {
			out = append(out, f.name)
		}
		return out
	}
	return verbWords(v.name)
}

// flagWords are what a flag may take.
func flagWords(f helpFlag) []string {
	switch f.value {
	case "DIR":
		return []string{folders}
	case "FILE":
		return []string{anyFiles}
	case "LIST":
		return kinds()
	case "STYLE":
		return styles
	case "WHEN":
		return colourWhens
	case "KIND":
		return starterKinds
	case "UNITS":
		return []string{"mm", "in"}
	case "FORMAT": // those that the flag's line names
		return slices.DeleteFunc([]string{"text", "csv", "json", "none"},
			func(w string) bool { return !strings.Contains(f.doc, w) })
	case "READER":
		return sheets.Readers()
	}
	return nil
}

// verbWords are what a verb takes besides flags.
func verbWords(verb string) []string {
	switch verb {
	case "help":
		out := append(verbNames(), topicNames()...)
		for _, k := range job.Keys() {
			out = append(out, k.Path)
		}
		return out
	case "completion":
		return shells
	case "explain":
		var out []string
		for _, e := range explanations() {
			out = append(out, e.ID)
		}
		return out
	case "version", "schema", "page":
		return nil
	}
	return []string{jobFiles}
}
