package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"oxturn/layout/golden"
	"oxturn/layout/job"
)

// compile reads a schema with a validator that is not ours.
func compile(t *testing.T, text []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("file:///s.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("file:///s.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// document reads TOML as an editor hands it to a schema: dates are text.
func document(t *testing.T, text string) any {
	t.Helper()
	var doc map[string]any
	if _, err := toml.Decode(text, &doc); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	data, err := json.Marshal(datesAsText(doc))
	if err != nil {
		t.Fatal(err)
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func datesAsText(v any) any {
	switch v := v.(type) {
	case time.Time:
		return v.Format(time.DateOnly)
	case map[string]any:
		for k := range v {
			v[k] = datesAsText(v[k])
		}
	case []map[string]any:
		for i := range v {
			datesAsText(v[i])
		}
	case []any:
		for i := range v {
			v[i] = datesAsText(v[i])
		}
	}
	return v
}

// TestSchemaTakesExamples validates every example job there is, and every
// starter.
func TestSchemaTakesExamples(t *testing.T) {
	jobs, catalogue := compile(t, jobSchema()), compile(t, catalogueSchema())
	var files []string
	for _, p := range []string{"../../testdata/jobs/*.toml", "../../layout/job/testdata/good/*.toml"} {
		found, err := filepath.Glob(p)
		if err != nil || len(found) == 0 {
			t.Fatalf("no file %s: %v", p, err)
		}
		files = append(files, found...)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		s := jobs
		if isCatalogue(name) {
			s = catalogue
		}
		// reading takes choices in any letter case; the schema offers one
		text := strings.Replace(string(data), `"arch c"`, `"arch C"`, 1)
		if err := s.Validate(document(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := jobs.Validate(document(t, tinyJob)); err != nil {
		t.Error(err)
	}
}

// TestSchemaRefuses breaks a job in ways that an editor should mark.
func TestSchemaRefuses(t *testing.T) {
	s := compile(t, jobSchema())
	for old, broken := range map[string]string{
		"pitch = 30":            "ptich = 30",
		`units = "mm"`:          `units = "furlongs"`,
		"volts = 120":           `volts = "120"`,
		"at = [600, 0]":         "at = [600]",
		`name = "Nook"`:         "",
		"[room.thermostat]":     "[room.thermostats]",
		`length = "10 m"`:       "length = true",
		"[membrane]\npitch":     "[spacing]\nclosest = 2.5\n[membrane]\npitch",
		"[[room]]":              "[[revision]]\ndate = 2026\n[[room]]",
		`cables = ["C10"]`:      "cables = [10]",
		"[membrane]\npitch = 3": "",
	} {
		text := strings.Replace(tinyJob, old, broken, 1)
		if text == tinyJob {
			t.Fatalf("the job has no %q", old)
		}
		var doc map[string]any
		if _, err := toml.Decode(text, &doc); err != nil {
			continue // broken as TOML: the editor marks that as well
		}
		if s.Validate(document(t, text)) == nil {
			t.Errorf("%q for %q passes", broken, old)
		}
	}
}

// TestEveryKeyIsDocumented holds each key of the job file to its text, its
// example and its default.
func TestEveryKeyIsDocumented(t *testing.T) {
	for _, k := range job.Keys() {
		if len(k.Doc) < 3 || strings.HasSuffix(k.Doc, ".") || k.Example == "" {
			t.Errorf("%s: text %q, example %q", k.Path, k.Doc, k.Example)
			continue
		}
		if k.Type == job.TypeTable || k.Type == job.TypeTables {
			continue
		}
		text, err := json.Marshal(object{"type": "object", "properties": object{k.Name(): keySchema(k, nil)},
			"additionalProperties": false})
		if err != nil {
			t.Fatal(err)
		}
		s := compile(t, text)
		if err := s.Validate(document(t, k.Example)); err != nil {
			t.Errorf("%s: its example: %v", k.Path, err)
		}
		if k.Default != "" {
			if err := s.Validate(document(t, k.Name()+" = "+k.Default)); err != nil {
				t.Errorf("%s: its default: %v", k.Path, err)
			}
		}
		if s.Validate(document(t, k.Name()+" = { a = 1 }")) == nil {
			t.Errorf("%s: a table passes as %s", k.Path, k.Type)
		}
	}
}

// TestSchemaHasEveryKey finds each key in the schema by its path.
func TestSchemaHasEveryKey(t *testing.T) {
	var root object
	if err := json.Unmarshal(jobSchema(), &root); err != nil {
		t.Fatal(err)
	}
	for _, k := range job.Keys() {
		at := root
		for _, name := range strings.Split(k.Path, ".") {
			if items, ok := at["items"].(object); ok {
				at = items
			}
			fields, _ := at["properties"].(object)
			at, _ = fields[name].(object)
		}
		if text, _ := at["description"].(string); !strings.HasPrefix(text, k.Doc) {
			t.Errorf("%s is not in the schema", k.Path)
		}
	}
}

// TestSchemaFiles holds the schema files and the reference beside the examples
// to the keys by which jobs are read, and the examples to the line that names
// their schema.
func TestSchemaFiles(t *testing.T) {
	dir := "../../testdata/jobs/"
	for name, want := range map[string][]byte{schemaFile: jobSchema(), "catalogue.schema.json": catalogueSchema(),
		"README.md": []byte(keyPageText(job.Keys()))} {
		if golden.Update() {
			if err := os.WriteFile(dir+name, want, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := os.ReadFile(dir + name); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s is not what the keys give (%v); go test ./cmd/oxturn -run TestSchemaFiles -update", name, err)
		}
	}
	found, err := filepath.Glob(dir + "*.toml")
	if err != nil || len(found) == 0 {
		t.Fatal("no examples", err)
	}
	for _, name := range found {
		data, err := os.ReadFile(name)
		want := "#:schema ./" + schemaFile + "\n"
		if isCatalogue(name) {
			want = "#:schema ./catalogue.schema.json\n"
		}
		if err != nil || !strings.HasPrefix(string(data), want) {
			t.Errorf("%s does not begin with %q", name, want)
		}
	}
}
