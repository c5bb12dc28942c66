package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// scope reads the nodes of one feature, level or unit, and reports under its name.
type scope struct {
	problems *Problems
	about    string  // id of the feature, level or unit
	metre    float64 // metres in one unit of the file
	unit     string  // of the file
	typed    bool    // by hand, in YAML: a key without a value is left out, and a number may stand for a text
}

func (s scope) bad(n *node, format string, args ...any) { s.problems.add(n, s.about, format, args...) }

// fields are the members of one object.
type fields struct {
	scope
	n    *node
	what string // "a door", "the house"
}

// object takes a node as an object of known keys; what is unknown is
// reported. Without an object the fields are empty and ok is false.
func (s scope) object(n *node, what string, known ...string) (f fields, ok bool) {
	f = fields{scope: s, what: what, n: n}
	if n == nil {
		return f, false
	}
	if n.kind != objectNode {
		s.bad(n, "%s is an object with the %s, not %s", what, keyList(known), n.shown())
		f.n = nil
		return f, false
	}
	for _, m := range n.again {
		at := &node{line: m.line, column: m.column, parent: n, key: m.key}
		s.bad(at, "the key %s stands here twice, first in line %d", quote(m.key), n.get(m.key).line)
	}
	for _, m := range n.members {
		found := false
		for _, k := range known {
			found = found || k == m.key
		}
		if !found {
			at := &node{line: m.line, column: m.column, parent: n, key: m.key}
			s.bad(at, "%s has no key %s%s", what, quote(m.key), didYouMean(m.key, known))
		}
	}
	return f, true
}

// keyList names the keys of an object where they are few.
func keyList(known []string) string {
	switch n := len(known); {
	case n == 1:
		return "key " + known[0]
	case n <= 5:
		return "keys " + strings.Join(known[:n-1], ", ") + " and " + known[n-1]
	}
	return "keys of its kind"
}

func (f fields) get(key string) *node {
	n := f.n.get(key)
	if n != nil && n.kind == nullNode && f.typed {
		return nil
	}
	return n
}

// isText tells whether a node can be read as a text.
func (s scope) isText(n *node) bool {
	return n.kind == textNode || (n.kind == numberNode && s.typed)
}

// missing reports a key that must be there.
func (f fields) missing(key, hint string) {
	f.bad(f.n, "%s needs the key %q%s", f.what, key, hint)
}

// text reads a text, "" where the key is absent. An empty text is a mistake.
func (f fields) text(key string) string {
	n := f.get(key)
	switch {
	case n == nil:
		return ""
	case !f.isText(n):
		f.bad(n, "%s is a text, not %s", key, n.shown())
		return ""
	case strings.TrimSpace(n.text) == "":
		f.bad(n, "%s is empty", key)
		return ""
	}
	return n.text
}

// word reads one of the known words, "" where the key is absent or wrong.
func (f fields) word(key string, known []string) string {
	w := f.text(key)
	if w == "" {
		return ""
	}
	return f.knownWord(f.get(key), key, w, known)
}

func (s scope) knownWord(n *node, what, w string, known []string) string {
	for _, k := range known {
		if w == k {
			return w
		}
	}
	s.bad(n, "%s %s is not known%s", what, quote(w), didYouMean(w, known))
	return ""
}

// words reads a list of texts; with orOne a single text is a list of one.
func (f fields) words(key string, orOne bool) []*node {
	n := f.get(key)
	switch {
	case n == nil:
		return nil
	case f.isText(n) && orOne:
		return []*node{n}
	case n.kind != listNode:
		f.bad(n, "%s is a list of texts, not %s", key, n.shown())
		return nil
	}
	var out []*node
	for _, item := range n.items {
		if !f.isText(item) || strings.TrimSpace(item.text) == "" {
			f.bad(item, "%s lists texts, not %s", key, item.shown())
			continue
		}
		out = append(out, item)
	}
	return out
}

// truth reads true or false, byDefault where the key is absent or wrong.
func (f fields) truth(key string, byDefault bool) bool {
	n := f.get(key)
	switch {
	case n == nil:
		return byDefault
	case n.kind != boolNode:
		f.bad(n, "%s is true or false, not %s", key, n.shown())
		return byDefault
	}
	return n.text == "true"
}

// limits bound a number. Lengths are bounded in metres.
type limits struct {
	min, max float64
	above    bool // min itself is not allowed
	length   bool // given in the file's unit
	whole    bool
}

// number reads a number; lengths come out in metres. ok is false where the
// key is absent or wrong.
func (f fields) number(key string, l limits) (value float64, ok bool) {
	n := f.get(key)
	if n == nil {
		return 0, false
	}
	return f.numberAt(n, key, l)
}

func (s scope) numberAt(n *node, what string, l limits) (value float64, ok bool) {
	if n.kind != numberNode {
		s.bad(n, "%s is a number, not %s", what, n.shown())
		return 0, false
	}
	v, err := strconv.ParseFloat(n.text, 64)
	scale, unit := 1.0, ""
	if l.length {
		scale, unit = s.metre, " "+s.unit
	}
	v *= scale
	switch {
	// A number too large for a float comes as an infinity with an error.
	case math.IsNaN(v) || (err != nil && !math.IsInf(v, 0)):
		s.bad(n, "%s is not a finite number: %s", what, n.shown())
	case v < l.min || v > l.max || (l.above && v == l.min):
		from := "from"
		if l.above {
			from = "above"
		}
		s.bad(n, "%s is %s%s; it must be %s %s to %s%s", what, n.shown(), unit,
			from, trimmed(l.min/scale), trimmed(l.max/scale), unit)
	case l.whole && v != math.Trunc(v):
		s.bad(n, "%s is %s; it must be a whole number", what, n.shown())
	default:
		return v, true
	}
	return 0, false
}

// pair reads a list of two lengths.
func (f fields) pair(key, first, second string, l limits) (pair [2]float64, ok bool) {
	n := f.get(key)
	if n == nil {
		return pair, false
	}
	if n.kind != listNode || len(n.items) != 2 {
		f.bad(n, "%s is a list of two numbers, [%s, %s], not %s", key, first, second, n.shown())
		return pair, false
	}
	var okFirst, okSecond bool
	pair[0], okFirst = f.numberAt(n.items[0], key+" "+first, l)
	pair[1], okSecond = f.numberAt(n.items[1], key+" "+second, l)
	return pair, okFirst && okSecond
}

// trimmed writes a number for a message: three decimals at most, no zeros.
func trimmed(v float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", v), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// measured writes a measurement for a message: to the hundredth, or the
// thousandth where it is small.
func measured(v float64) string {
	if math.Abs(v) >= 0.1 {
		v = math.Round(v*100) / 100
	}
	return trimmed(v)
}
