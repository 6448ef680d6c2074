package main

import (
	"fmt"
	"strings"
)

// A verb is one thing the command can do. Help is at most a screen.
type verb struct {
	name  string
	use   string // argument line after "oxturn "
	short string // one line for the overview
	help  string // after the first two lines of help; its Flags list is what completion offers
	jobs  jobsMeant
	order order
}

// jobsMeant finds which job files the words beside the flags mean. A verb without
// it is not on jobs, and its words are its own.
type jobsMeant func(c *commandLine, words []string) ([]string, error)

func verbs() []verb {
	return []verb{
		{"draw", "draw JOB.toml... [-o DIR] [--only layout,pdf,svg,takeoff,map]",
			"write the drawings, the take-off and the layout file", drawHelp, manyJobs, &drawOrder{}},
		{"check", "check JOB.toml... [--format text|json|none]", "say what is wrong with a job, and all its figures",
			checkHelp, manyJobs, &checkOrder{}},
		{"watch", "watch JOB.toml [-o DIR] [--port N] [--no-open]", "show the job in the browser while you write it",
			watchHelp, jobToWatch, &watchOrder{}},
		{"page", "page [-o FILE.html|DIR]", "write the whole tool as one page that needs no network", pageHelp, nil,
			&pageOrder{}},
		{"choose", "choose JOB.toml [--all] [--format text|csv|json]", "compare the cables there are for each room",
			chooseHelp, jobToChooseFor, &chooseOrder{}},
		{"new", "new [FILE.toml] [--kind bath|kitchen|entry] [--units mm|in] [--tape | --from FILE]",
			"write a job to start from", newHelp,
			nil, &newOrder{}},
		{"explain", "explain [ID]", "what a warning means, and how a job without it looks", explainHelp, nil,
			&explainOrder{}},
		{"refit", "refit JOB.toml [--cable ID] [--lift N] [--give-up N] [-o DIR]",
			"plan the rest of a partly laid cable from where the installer stands", refitHelp, jobAskedAbout,
			&refitOrder{}},
		{"compare", "compare OLD.toml NEW.toml", "what changed between two revisions of a job", compareHelp, twoJobs,
			&compareOrder{}},
		{"probe", "probe JOB.toml --from \"A 2ft\" --from \"B 14in\"",
			"what lies at a spot on the floor, before anything is drilled", probeHelp, jobAskedAbout, &probeOrder{}},
		{"fault", "fault JOB.toml --cable ID --short OHMS...", "the stretch of floor that a fault must lie under",
			faultHelp, jobAskedAbout, &faultOrder{}},
		{"open", "open X.pdf [-o DIR]", "the job that a PDF was drawn from, given back as files", openHelp, nil,
			&openOrder{}},
		{"schema", "schema [--catalogue]", "the job file's JSON Schema, for editors", schemaHelp, nil, &schemaOrder{}},
		{"completion", "completion bash|zsh|fish|powershell", "lines that let a shell complete", completionHelp, nil,
			&completionOrder{}},
		{"help", "help [VERB | TOPIC | KEY]", "this list, or help on a verb, a topic or a key of the job file",
			helpHelp, nil, &helpOrder{}},
		{"version", "version [--licences]", "version, build and fonts", versionHelp, nil, &versionOrder{}},
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
	b.WriteString("Exit codes:  0 done, 1 the job has errors or no cable fits, 2 usage or file trouble, 130 " +
		"interrupted\n")
	return b.String()
}
