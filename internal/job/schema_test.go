package job

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"jounce/examples"
)

const schemaFile = "../../docs/job.schema.json"

// TestSchemaFile fails when docs/job.schema.json is not what the record makes.
func TestSchemaFile(t *testing.T) {
	if os.Getenv("SCHEMA") == "write" {
		if err := os.WriteFile(schemaFile, DocumentSchema(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	old, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(old, DocumentSchema()) {
		t.Error("docs/job.schema.json is stale: run SCHEMA=write go test ./internal/job -run TestSchemaFile -count=1")
	}
}

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(DocumentSchema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("job.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("job.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func fits(t *testing.T, s *jsonschema.Schema, text string) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(doc)
}

// TestAgreesSchema holds the schema against an independent validator and against
// Decode: both take the same documents and refuse the same.
func TestAgreesSchema(t *testing.T) {
	s := compiled(t)
	files, err := examples.Files.ReadDir(".")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, f := range files {
		text, err := examples.Files.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		if err := fits(t, s, string(text)); err != nil {
			t.Errorf("%s: %v", f.Name(), err)
		}
	}
	for _, c := range []struct {
		name, text string
		ok         bool
	}{
		{"the least", `{"schema": 1, "id": "0001"}`, true},
		{"a quantity as text", `{"schema": 1, "id": "1", "survey": {"wheelbase": "2500 mm"}}`, true},
		{"a quantity as object", `{"schema": 1, "id": "1", "survey": {"wheelbase": {"value": "2500 mm", "by": "T. Marrow"}}}`, true},
		{"an unknown key", `{"schema": 1, "id": "1", "colour": "red"}`, false},
		{"an unknown key inside", `{"schema": 1, "id": "1", "survey": {"wheelbsae": "2500 mm"}}`, false},
		{"an unknown key of a reading", `{"schema": 1, "id": "1", "survey": {"wheelbase": {"velue": "2500 mm"}}}`, false},
		{"a bare number", `{"schema": 1, "id": "1", "survey": {"wheelbase": 2500}}`, false},
		{"an item without id", `{"schema": 1, "id": "1", "springs": [{"name": "A"}]}`, false},
		{"a newer version", `{"schema": 2, "id": "1"}`, false},
		{"no version", `{"id": "1"}`, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := fits(t, s, c.text); (err == nil) != c.ok {
				t.Errorf("schema says %v", err)
			}
			if _, err := Decode([]byte(c.text)); (err == nil) != c.ok {
				t.Errorf("Decode says %v", err)
			}
		})
	}
	choice := `{"schema": 1, "id": "1", "car": {"drive": "sideways"}}`
	if fits(t, s, choice) == nil {
		t.Error("a choice that is none of its values fits the schema")
	}
}

// TestExactSchemaStrict finds every object of the schema closed to unknown keys.
func TestExactSchemaStrict(t *testing.T) {
	text := string(DocumentSchema())
	objects, closed := strings.Count(text, `"type": "object"`), strings.Count(text, `"additionalProperties": false`)
	if objects == 0 || objects != closed {
		t.Errorf("%d objects, %d closed", objects, closed)
	}
}
