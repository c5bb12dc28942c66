package plan

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"moiety/geom"
)

// Read reads a survey file (the survey format's FeatureCollection), checks
// it, mends what can be mended, and gives the house in metres. name is the
// file's name: it stands in messages and, where the survey has none, names the
// house. What is wrong comes as a *Problems, all of it together; other errors
// are those of r.
func Read(r io.Reader, name string) (*House, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxSurveyBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading the survey %s: %w", name, err)
	}
	problems := &Problems{File: name}
	if len(data) > maxSurveyBytes {
		problems.add(nil, "", "the file is larger than %d MiB: that is no survey of one house", maxSurveyBytes>>20)
		return nil, problems.err()
	}
	sum := sha256.Sum256(data)
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	s := &survey{
		data:  data,
		scope: scope{problems: problems, metre: 1, unit: string(Metres)},
		house: &House{Unit: Metres, SHA256: hex.EncodeToString(sum[:])},
		kinds: map[string]string{}, noFloor: map[int]bool{},
	}
	top := parseJSON(data, problems)
	if top == nil {
		return nil, problems.err()
	}
	s.collection(top, name)
	s.checkBetween()
	if err := problems.err(); err != nil {
		return nil, err
	}
	s.warnReversed()
	s.warnGuessed()
	s.house.snap()
	return s.house, nil
}

// survey is a file while it is read.
type survey struct {
	scope    // of the whole file
	data     []byte
	house    *House
	levelIDs []string
	noFloor  map[int]bool      // levels whose floor could not be read
	kinds    map[string]string // id of a feature: its kind, where known
	nodes    struct{ spaces, stairs, doors, windows, walls []*node }
	prints   []footprint
	blurred  bool    // a space or flight exists whose corners could not be read
	doubts   []doubt // what is known of those whose level could not, or whose corners break a rule
	reversed []*node // features whose rings ran the wrong way
	intos    []into
	guessed  []int // spaces whose height was not surveyed
}

// doubt is where a space or flight may be whose polygon or level is wrong:
// that a door near it finds no wall says nothing.
type doubt struct {
	box       geom.Box
	level, to int // -1: on any level
}

// doubtful tells whether a doubt lies near the box on a level.
func (s *survey) doubtful(b geom.Box, level int) bool {
	near := b.Grow(geom.Units(geom.ThickestWall + farthestOffWall))
	return s.blurred || slices.ContainsFunc(s.doubts, func(d doubt) bool {
		return d.box.Meets(near) && (d.level < 0 || d.level == level || d.to == level)
	})
}

// into is a door's opens_into, checked when all spaces are known.
type into struct {
	n    *node
	door string
}

// collection reads the top of the file.
func (s *survey) collection(top *node, name string) {
	f, ok := s.object(top, "a survey", "type", "house", "features")
	if !ok {
		return
	}
	switch t := f.get("type"); {
	case t == nil:
		f.missing("type", `: a survey is a GeoJSON object of type "FeatureCollection"`)
	case t.kind != textNode || t.text != "FeatureCollection":
		f.bad(t, `a survey is of type "FeatureCollection", not %s`, t.shown())
	}
	if h := f.get("house"); h != nil {
		s.readHouse(h)
	} else {
		f.missing("house", ", an object with the levels")
	}
	if s.house.Name == "" {
		s.house.Name = houseName(name)
	}
	features := f.get("features")
	switch {
	case features == nil:
		f.missing("features", ", a list of what was surveyed")
		return
	case features.kind != listNode:
		f.bad(features, "features is a list, not %s", features.shown())
		return
	case len(features.items) == 0:
		f.bad(features, "features is empty: a survey has at least one space")
		return
	}
	s.readFeatures(features)
}

// houseName names a house after its file.
func houseName(file string) string {
	base := filepath.Base(file)
	for _, ending := range []string{".json", ".geojson", ".house"} {
		base = strings.TrimSuffix(base, ending)
	}
	switch base {
	case "", ".", "-", "standard input":
		return "House"
	}
	return base
}

func (s *survey) warn(feature, format string, args ...any) {
	s.house.Warnings = append(s.house.Warnings, Warning{Feature: feature, Message: fmt.Sprintf(format, args...)})
}
