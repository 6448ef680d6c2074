package main

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"strings"

	"github.com/BurntSushi/toml"

	"oxturn/layout/asjson"
	"oxturn/layout/job"
)

const schemaHelp = `
Prints the JSON Schema of the job file, for an editor that completes and checks
keys while typing. Editors find it by the first line of a job:

  #:schema ./oxturn.schema.json

  oxturn schema > oxturn.schema.json
  oxturn schema --catalogue > catalogue.schema.json

Flags:
  --catalogue            the schema of a file of cables
`

// schemaFile is what a job's first line calls the schema.
const schemaFile = "oxturn.schema.json"

// A schemaOrder is what the flags of schema ask for.
type schemaOrder struct{ catalogue bool }

func (o *schemaOrder) flags(f *verbFlags) { f.BoolVar(&o.catalogue, "catalogue", false, "") }

func (o *schemaOrder) run(_ context.Context, c *commandLine) int {
	if len(c.args) > 0 {
		return c.fail(fmt.Errorf("it takes no file; print it into one with: oxturn schema > %s", schemaFile))
	}
	text := jobSchema()
	if o.catalogue {
		text = catalogueSchema()
	}
	if _, err := c.Out.Write(text); err != nil {
		return c.fail(err)
	}
	return exitOK
}

// jobSchema is the JSON Schema of a job file. It keeps to what draft 4 and
// draft 7 have in common, so that every editor takes it.
func jobSchema() []byte {
	return schemaText("oxturn job file", job.Keys())
}

// catalogueSchema is that of a file of cables: what bare numbers mean, and
// the cables.
func catalogueSchema() []byte {
	var keys []job.Key
	for _, k := range job.Keys() {
		if k.Path == "units" || k.Path == "cable" || strings.HasPrefix(k.Path, "cable.") {
			keys = append(keys, k)
		}
	}
	return schemaText("oxturn catalogue of cables", keys)
}

func schemaText(title string, keys []job.Key) []byte {
	root := tableSchema("", keys)
	root["$schema"] = "http://json-schema.org/draft-07/schema#"
	root["title"] = title
	root["x-tombi-toml-version"] = "v1.0.0"
	var out bytes.Buffer
	if err := asjson.Write(&out, root); err != nil {
		panic(err) // maps of strings and numbers always encode
	}
	return out.Bytes()
}

type object = map[string]any

// tableSchema is the schema of one table with what is below it.
func tableSchema(path string, keys []job.Key) object {
	fields := object{}
	var required []string
	for _, k := range keys {
		if k.Parent() != path || k.Path == path {
			continue
		}
		fields[k.Name()] = keySchema(k, keys)
		if k.Required && k.Unless == "" {
			required = append(required, k.Name())
		}
	}
	out := object{"type": "object", "properties": fields, "additionalProperties": false}
	if required != nil {
		out["required"] = required
	}
	return out
}

// keySchema is the schema of one key, its text included.
func keySchema(k job.Key, keys []job.Key) object {
	var out object
	switch k.Type {
	case job.TypeTable:
		out = tableSchema(k.Path, keys)
	case job.TypeTables:
		out = object{"type": "array", "items": tableSchema(k.Path, keys)}
	default:
		out = valueSchema(k)
		if v, ok := presetValue(k); ok {
			out["default"] = v
		}
	}
	out["description"] = keyText(k)
	return out
}

// keyText says what a key is, as an editor shows it.
func keyText(k job.Key) string {
	text := k.Doc + "."
	switch {
	case k.Default != "":
		text += " Default: " + k.DefaultWords() + "."
	case k.Otherwise != "":
		text += " Left out: " + k.Otherwise + "."
	}
	return text + "\n\n" + k.Example
}

// valueSchema is the schema of a value by its type.
func valueSchema(k job.Key) object {
	switch k.Type {
	case job.TypeText, job.TypePack:
		return object{"type": "string"}
	case job.TypeChoice:
		return object{"type": "string", "enum": k.Values}
	case job.TypeChoices:
		one := object{"type": "string", "enum": k.Values}
		return object{"anyOf": []object{one, {"type": "array", "items": one, "minItems": 1, "maxItems": 2,
			"uniqueItems": true}}}
	case job.TypeFlag:
		return object{"type": "boolean"}
	case job.TypeDate:
		return object{"type": "string", "format": "date"}
	case job.TypeWhole:
		return bounded(object{"type": "integer"}, k.Limits)
	case job.TypeNumber:
		return bounded(object{"type": "number"}, k.Limits)
	case job.TypeTexts:
		return list(object{"type": "string"}, k.Least)
	case job.TypePoints:
		return list(pair(), max(1, k.Least))
	case job.TypeLengths:
		return list(measure(), max(1, k.Least))
	case job.TypePoint, job.TypeSize, job.TypeShares:
		return pair()
	case job.TypePixel:
		return pixel()
	case job.TypePixels:
		return list(pixel(), max(1, k.Least))
	case job.TypePlace:
		return object{"anyOf": []object{{"type": "string"}, pair()}}
	}
	return measure()
}

// measure is a number with its unit as text, or a bare one.
func measure() object { return object{"type": []string{"string", "number"}} }

func pair() object {
	return object{"type": "array", "items": measure(), "minItems": 2, "maxItems": 2}
}

func pixel() object {
	return object{"type": "array", "items": object{"type": "number", "minimum": 0}, "minItems": 2, "maxItems": 2}
}

func list(item object, least int) object {
	return object{"type": "array", "items": item, "minItems": least}
}

// bounded adds limits. That the least itself is not allowed is left to
// reading: drafts 4 and 7 say it differently.
func bounded(o object, l job.Limits) object {
	if !math.IsInf(l.Min, 0) {
		o["minimum"] = l.Min
	}
	if l.Max > 0 {
		o["maximum"] = l.Max
	}
	return o
}

// presetValue is a key's default as a value.
func presetValue(k job.Key) (any, bool) {
	if k.Default == "" {
		return nil, false
	}
	var doc map[string]any
	if _, err := toml.Decode("v = "+k.Default, &doc); err != nil {
		panic(fmt.Sprintf("the default of %s cannot be read: %v", k.Path, err)) // a test reads them all
	}
	return doc["v"], true
}
