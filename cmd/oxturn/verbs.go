package main

import (
	"context"
	"fmt"
	"strings"
)

// A verb is one thing the command can do. Help is at most a screen.
type verb struct {
	name  string
	use   string // argument line after "oxturn "
	short string // one line for the overview
	help  string // after the first two lines of help; its Flags list is what completion offers
	run   func(ctx context.Context, c *console, args []string) int
}

func verbs() []verb {
	return []verb{
		{"draw", "draw JOB.toml... [-o DIR] [--only layout,pdf,svg,takeoff,map]", "write the drawings, the take-off and the layout file", drawHelp, draw},
		{"check", "check JOB.toml... [--format text|json|none]", "say what is wrong with a job, and all its figures", checkHelp, check},
		{"watch", "watch JOB.toml [-o DIR] [--port N] [--no-open]", "show the job in the browser while you write it", watchHelp, watch},
		{"choose", "choose JOB.toml [--all] [--format text|csv|json]", "compare the cables there are for each room", chooseHelp, choose},
		{"new", "new [FILE.toml] [--kind bath|kitchen|entry] [--units mm|in]", "write a job to start from", newHelp, newJob},
		{"explain", "explain [ID]", "what a warning means, and how a job without it looks", explainHelp, explain},
		{"refit", "refit JOB.toml [--cable ID] [--lift N] [--give-up N] [-o DIR]", "plan the rest of a partly laid cable from where the installer stands", refitHelp, refitVerb},
		{"compare", "compare OLD.toml NEW.toml", "what changed between two revisions of a job", compareHelp, compareVerb},
		{"probe", "probe JOB.toml --from \"A 2ft\" --from \"B 14in\"", "what lies at a spot on the floor, before anything is drilled", probeHelp, probeVerb},
		{"fault", "fault JOB.toml --cable ID --short OHMS...", "the stretch of floor that a fault must lie under", faultHelp, faultVerb},
		{"schema", "schema [--catalogue]", "the job file's JSON Schema, for editors", schemaHelp, schema},
		{"completion", "completion bash|zsh|fish", "lines that let a shell complete", completionHelp, completion},
		{"help", "help [VERB | TOPIC | KEY]", "this list, or help on a verb, a topic or a key of the job file", helpHelp, help},
		{"version", "version [--licences]", "version, build and fonts", versionHelp, version},
	}
}

func verbNamed(name string) (verb, bool) {
	for _, v := range verbs() {
		if v.name == name {
			return v, true
		}
	}
	return verb{}, false
}

func verbNames() []string {
	var out []string
	for _, v := range verbs() {
		out = append(out, v.name)
	}
	return out
}

// overview is what a bare call prints.
func overview() string {
	var b strings.Builder
	b.WriteString("oxturn - from one job file to the drawings, take-off and map of a warmed tile floor\n\n")
	for _, v := range verbs() {
		fmt.Fprintf(&b, "  oxturn %-11s %s\n", v.name, v.short)
	}
	b.WriteString("\nStart with:  oxturn new, then oxturn watch bath.toml, then oxturn draw bath.toml -o out\n")
	b.WriteString("Jobs:        a verb that reads one and is given none takes job.toml, where there is one\n")
	b.WriteString("Topics:      oxturn help " + strings.Join(topicNames(), ", ") + "\n")
	b.WriteString("Exit codes:  0 done, 1 the job has errors or no cable fits, 2 usage or file trouble, 130 interrupted\n")
	return b.String()
}
