package plan

import (
	"maps"
	"slices"
	"strings"
)

// kind is one kind of feature: the geometries it may have, what else its
// properties may say, and its reader.
type kind struct {
	name       string // "a door"
	geometries []string
	keys       []string
	read       func(*survey, feature)
}

// kinds by the word that a file uses.
var kinds = map[string]kind{
	"space": {"a space", []string{"Polygon"},
		[]string{"use", "also", "name", "floor", "height", "heated", "finished", "divisible"}, (*survey).readSpace},
	"stair": {"a stair", []string{"Polygon"},
		[]string{"to", "walk", "risers", "width", "name"}, (*survey).readStair},
	"door": {"a door", []string{"LineString"},
		[]string{"height", "leaf", "hinge", "opens_into", "rating_minutes"}, (*survey).readDoor},
	"opening": {"an opening", []string{"LineString"}, []string{"height"}, (*survey).readDoor},
	"window": {"a window", []string{"LineString"},
		[]string{"sill", "height", "operation", "clear", "well"}, (*survey).readWindow},
	"wall": {"a wall", []string{"LineString"}, []string{"bearing"}, (*survey).readWall},
	"fixture": {"a fixture", []string{"Point", "Polygon"},
		[]string{"use", "capacity_l"}, (*survey).readFixture},
	"lot": {"a lot", []string{"Polygon"}, nil, (*survey).readLot},
}

var kindWords = []string{"space", "stair", "door", "opening", "window", "wall", "fixture", "lot"}

// feature is one feature with what all kinds have: an id, a kind, a level,
// and its geometry where that could be read.
type feature struct {
	fields   // its properties
	n        *node
	id, kind string
	level    int // -1 where it could not be read
	shape    shape
}

// readFeatures reads all features in the order of the file.
func (s *survey) readFeatures(list *node) {
	firsts := map[string]*node{}
	for _, n := range list.items {
		s.readFeature(n, firsts)
	}
	for _, i := range s.intos {
		sc := s.scope
		sc.about = i.door
		switch k, exists := s.kinds[i.n.text]; {
		case !exists:
			sc.bad(i.n, "opens_into: there is no space %s%s", quote(i.n.text), didYouMean(i.n.text, s.idsOf("space")))
		case k != "" && k != "space":
			sc.bad(i.n, "opens_into: %s is %s, not a space", quote(i.n.text), kinds[k].name)
		}
	}
}

// idsOf lists the ids of the features of a kind, sorted.
func (s *survey) idsOf(kind string) []string {
	var ids []string
	for _, id := range slices.Sorted(maps.Keys(s.kinds)) {
		if s.kinds[id] == kind {
			ids = append(ids, id)
		}
	}
	return ids
}

func (s *survey) readFeature(n *node, firsts map[string]*node) {
	sc := s.scope
	if id := n.get("id"); id != nil && id.kind == textNode {
		sc.about = strings.TrimSpace(id.text)
	}
	f, ok := sc.object(n, "a feature", "type", "id", "geometry", "properties")
	if !ok {
		s.blurred = true
		return
	}
	switch t := f.get("type"); {
	case t == nil:
		f.missing("type", `: "Feature"`)
	case t.kind != textNode || t.text != "Feature":
		f.bad(t, `a feature is of type "Feature", not %s`, t.shown())
	}
	id := s.readID(f, firsts)
	p := f.get("properties")
	if p == nil || p.kind == nullNode {
		f.bad(n, "a feature needs properties, an object that says its kind")
		s.blurred = true
		return
	}
	if p.kind != objectNode {
		f.bad(p, "properties is an object, not %s", p.shown())
		s.blurred = true
		return
	}
	props := fields{scope: sc, n: p, what: "a feature"}
	word := props.word("kind", kindWords)
	if word == "" {
		if p.get("kind") == nil {
			props.missing("kind", ": space, stair, door, opening, window, wall, fixture or lot")
		}
		s.blurred = s.blurred || mayBeRoom(n)
		return
	}
	if id != "" {
		s.kinds[id] = word
	}
	k := kinds[word]
	props, _ = sc.object(p, k.name, append([]string{"kind", "level"}, k.keys...)...)
	ft := feature{fields: props, n: n, id: id, kind: word}
	ft.level = s.level(props, "level")
	ft.shape = s.readGeometry(f, k)
	k.read(s, ft)
}

// mayBeRoom tells whether a feature of unknown kind may have been meant as a
// space or a stair.
func mayBeRoom(n *node) bool {
	t := n.get("geometry").get("type")
	return t == nil || (t.text != "LineString" && t.text != "Point")
}

// outsideID is the word of the results for what lies outdoors beyond the survey.
const outsideID = "outside"

// readID reads the id, which no other feature may have; "" where it is
// missing or wrong.
func (s *survey) readID(f fields, firsts map[string]*node) string {
	n := f.get("id")
	if n == nil {
		f.missing("id", ", a text that no other feature has")
		return ""
	}
	id := f.text("id")
	if id == "" {
		return ""
	}
	if id == outsideID {
		f.bad(n, "the id %q is taken: the results say it of the outdoors; give the feature another one", id)
	}
	if first, twice := firsts[id]; twice {
		f.bad(n, "two features have the id %s, the first in line %d", quote(id), first.line)
		return ""
	}
	firsts[id] = n
	s.kinds[id] = ""
	return id
}
