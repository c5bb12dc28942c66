package rules

import (
	"bytes"
	"embed"
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"

	"go.yaml.in/yaml/v3"
)

//go:embed data/*.yaml
var shippedFiles embed.FS

// DefaultID is the set that applies where nothing else is asked for.
const DefaultID = "us-irc-2021"

// ShippedIDs lists the sets that come with the program, sorted.
func ShippedIDs() []string {
	entries, err := shippedFiles.ReadDir("data")
	if err != nil {
		panic("rules: the shipped sets: " + err.Error())
	}
	var ids []string
	for _, e := range entries {
		ids = append(ids, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	slices.Sort(ids)
	return ids
}

// ShippedText is the file of a shipped set, as a model for one's own; nil
// where there is no such set.
func ShippedText(id string) []byte {
	if !slices.Contains(ShippedIDs(), id) {
		return nil
	}
	data, err := shippedFiles.ReadFile(path.Join("data", id+".yaml"))
	if err != nil {
		return nil
	}
	return data
}

var shippedSets = sync.OnceValue(func() map[string]*Set {
	sets := map[string]*Set{}
	for _, id := range ShippedIDs() {
		set, err := decode(ShippedText(id))
		if err != nil {
			panic("rules: the shipped set " + id + ": " + err.Error())
		}
		sets[id] = set
	}
	return sets
})

// Shipped gives a set that comes with the program; ok is false where there is
// none of that id. The set is the caller's own.
func Shipped(id string) (set *Set, ok bool) {
	set, ok = shippedSets()[id]
	if !ok {
		return nil, false
	}
	return set.Clone(), true
}

// Default gives the set DefaultID.
func Default() *Set {
	set, ok := Shipped(DefaultID)
	if !ok {
		panic("rules: there is no set " + DefaultID)
	}
	return set
}

type (
	setFile struct {
		Set, Name, Edition, Note string
		Lengths                  Lengths
		Sources                  map[string]Source
		Figures                  map[ID]figureFile
	}
	figureFile struct {
		Limit                         string
		Advice                        bool
		When, Clause, Edition, Source string
		Status                        Status
	}
)

// decode reads a shipped file. Files of others are read by whoever can say
// where in them a mistake stands.
func decode(data []byte) (*Set, error) {
	var file setFile
	d := yaml.NewDecoder(bytes.NewReader(data))
	d.KnownFields(true)
	if err := d.Decode(&file); err != nil {
		return nil, err
	}
	set := &Set{ID: file.Set, Name: file.Name, Lengths: file.Lengths, Note: strings.Join(strings.Fields(file.Note), " ")}
	if file.Lengths != Metric && file.Lengths != FeetInches {
		return nil, fmt.Errorf("rules: lengths %q", file.Lengths)
	}
	for _, t := range vocabulary {
		from, ok := file.Figures[t.ID]
		if !ok {
			continue
		}
		delete(file.Figures, t.ID)
		limit, err := ParseMeasure(from.Limit, t.Quantity)
		if err != nil {
			return nil, fmt.Errorf("rules: %s: %w", t.ID, err)
		}
		f := Figure{
			Term: t, Limit: limit, Advice: from.Advice, When: from.When, Clause: from.Clause,
			Edition: from.Edition, Source: file.Sources[from.Source], Status: from.Status,
		}
		if f.Edition == "" {
			f.Edition = file.Edition
		}
		if err := f.validate(); err != nil {
			return nil, err
		}
		set.Figures = append(set.Figures, f)
	}
	for id := range file.Figures {
		return nil, fmt.Errorf("rules: no check knows %s", id)
	}
	return set, nil
}
