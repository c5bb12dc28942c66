package plan

import (
	"fmt"
	"strconv"
	"strings"
)

// kindOfNode says what a node of a file is.
type kindOfNode uint8

const (
	nullNode kindOfNode = iota
	boolNode
	numberNode
	textNode
	listNode
	objectNode
)

// String names the kind as messages do.
func (k kindOfNode) String() string {
	return [...]string{"null", "true or false", "a number", "a text", "a list", "an object"}[k]
}

// node is one value of a JSON or YAML file with its place.
type node struct {
	kind    kindOfNode
	text    string // of a text; a number or a truth value as written
	line    int32  // from 1
	column  int32  // from 1, in characters
	start   int    // JSON: the value is bytes start to end of the file
	end     int
	parent  *node
	key     string // the key it stands under in an object
	index   int    // its number in a list
	members []member
	again   []member // those whose key stood there before
	items   []*node
}

// member is one key of an object and its value, in the order of the file.
type member struct {
	key          string
	line, column int32 // of the key
	value        *node
}

// get returns the value of a key, nil where the object lacks it.
func (n *node) get(key string) *node {
	if n == nil {
		return nil
	}
	for i := range n.members {
		if n.members[i].key == key {
			return n.members[i].value
		}
	}
	return nil
}

// place is the path of the node from the top of the file, such as
// features[3].geometry.coordinates[0][2]; "" for the top itself.
func (n *node) place() string {
	var steps []string
	for ; n != nil && n.parent != nil; n = n.parent {
		if n.parent.kind == listNode {
			steps = append(steps, "["+strconv.Itoa(n.index)+"]")
		} else {
			steps = append(steps, "."+quoteUnlessPlain(n.key))
		}
	}
	var b strings.Builder
	for i := len(steps) - 1; i >= 0; i-- {
		b.WriteString(steps[i])
	}
	return strings.TrimPrefix(b.String(), ".")
}

// shown is the value as a message shows it: short, on one line.
func (n *node) shown() string {
	switch n.kind {
	case textNode:
		return quote(n.text)
	case numberNode, boolNode:
		return shorten(n.text)
	case listNode:
		return fmt.Sprintf("a list of %d", len(n.items))
	case objectNode:
		return "an object"
	}
	return "null"
}

// longestShown is how many characters of a word of the file a message repeats.
const longestShown = 60

func shorten(s string) string {
	if r := []rune(s); len(r) > longestShown {
		return string(r[:longestShown]) + "…"
	}
	return s
}

// quote puts a word of the file into a message: quoted, on one line.
func quote(s string) string { return strconv.Quote(shorten(s)) }

// quoteUnlessPlain quotes an id or a key only where it would be unclear bare.
func quoteUnlessPlain(s string) string {
	plain := s != "" && len(s) <= longestShown
	for _, r := range s {
		if !strconv.IsPrint(r) || strings.ContainsRune(`"':;,[]()`, r) {
			plain = false
		}
	}
	if plain {
		return s
	}
	return quote(s)
}
