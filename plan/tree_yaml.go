package plan

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"

	"go.yaml.in/yaml/v3"
)

// maxYAMLBytes bounds briefs and price files, which people type.
const maxYAMLBytes = 256 << 10

// readYAML reads one YAML document with the places of all its parts; nil for
// an empty one. Of duplicate keys the first one counts.
func readYAML(r io.Reader, what, name string, problems *Problems) (*node, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxYAMLBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading the %s %s: %w", what, name, err)
	}
	if len(data) > maxYAMLBytes {
		problems.add(nil, "", "the file is larger than %d KiB: that is no %s", maxYAMLBytes>>10, what)
		return nil, problems.err()
	}
	if at := firstInvalidUTF8(data); at >= 0 {
		addAt(problems, data, at, "this is not UTF-8 text")
		return nil, problems.err()
	}
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var doc, more yaml.Node
	switch err := decodeYAML(dec, &doc); {
	case errors.Is(err, io.EOF):
		return nil, nil
	case err != nil:
		addYAMLSyntax(problems, err)
		return nil, problems.err()
	}
	if err := decodeYAML(dec, &more); err == nil {
		problems.add(&node{line: int32(more.Line), column: int32(max(1, more.Column))}, "", "the file holds a second document; a %s is one", what)
	} else if !errors.Is(err, io.EOF) {
		addYAMLSyntax(problems, err)
	}
	if len(doc.Content) == 0 {
		return nil, problems.err()
	}
	top := doc.Content[0]
	if top.Kind == yaml.ScalarNode && top.Tag == "!!null" {
		return nil, problems.err()
	}
	n := &node{}
	fromYAML(n, top, 0, problems)
	return n, nil
}

// decodeYAML turns a panic of the library into an error.
func decodeYAML(dec *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("yaml: %v", p)
		}
	}()
	return dec.Decode(into)
}

var yamlLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

func addYAMLSyntax(problems *Problems, err error) {
	at, message := &node{}, err.Error()
	if m := yamlLine.FindStringSubmatch(message); m != nil {
		line, _ := strconv.Atoi(m[1])
		at.line, message = int32(line), m[2]
		if line > 0 {
			at.column = 1
		}
	}
	problems.add(at, "", "this is not YAML: %s", message)
}

// fromYAML takes y over into n, whose parent and place in it are set.
func fromYAML(n *node, y *yaml.Node, depth int, problems *Problems) {
	n.line, n.column = int32(y.Line), int32(y.Column)
	if depth > maxNesting {
		problems.add(n, "", "%s", tooDeep)
		return
	}
	switch y.Kind {
	case yaml.AliasNode:
		problems.add(n, "", "write the value out: anchors and aliases are not taken here")
	case yaml.SequenceNode:
		n.kind = listNode
		for i, item := range y.Content {
			child := &node{parent: n, index: i}
			fromYAML(child, item, depth+1, problems)
			n.items = append(n.items, child)
		}
	case yaml.MappingNode:
		n.kind = objectNode
		for i := 0; i+1 < len(y.Content); i += 2 {
			addYAMLMember(n, y.Content[i], y.Content[i+1], depth, problems)
		}
	case yaml.ScalarNode:
		n.text = y.Value
		switch y.ShortTag() {
		case "!!null":
			n.kind, n.text = nullNode, ""
		case "!!bool":
			n.kind = boolNode
			var truth bool
			if y.Decode(&truth) == nil {
				n.text = strconv.FormatBool(truth)
			}
		case "!!int", "!!float":
			n.kind = numberNode
			var v float64
			if _, err := strconv.ParseFloat(y.Value, 64); err != nil && y.Decode(&v) == nil {
				n.text = strconv.FormatFloat(v, 'g', -1, 64) // 0x10, 1_000, .inf
			}
		default: // a date that nobody meant as one is a text too
			n.kind = textNode
		}
	}
}

func addYAMLMember(n *node, key, value *yaml.Node, depth int, problems *Problems) {
	m := member{key: key.Value, line: int32(key.Line), column: int32(key.Column)}
	m.value = &node{parent: n, key: m.key}
	fromYAML(m.value, value, depth+1, problems)
	at := &node{line: m.line, column: m.column, parent: n, key: m.key}
	if key.Kind != yaml.ScalarNode {
		problems.add(at, "", "a key is a word")
		return
	}
	if n.get(m.key) != nil {
		n.again = append(n.again, m)
		return
	}
	n.members = append(n.members, m)
}
