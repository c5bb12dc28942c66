package plan

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

const (
	// maxNesting is how deep objects and lists of a file may be nested: a
	// polygon's number lies seven deep, the rest is room to spare.
	maxNesting = 64

	// maxValues bounds the memory that a file can ask for: a house of 300
	// spaces has some twenty thousand values.
	maxValues = 1_000_000
)

// parseJSON reads one JSON value with the places of all its parts. A
// mistake of syntax ends the reading; of duplicate keys the first one counts.
func parseJSON(data []byte, problems *Problems) *node {
	if at := firstInvalidUTF8(data); at >= 0 {
		addAt(problems, data, at, "this is not UTF-8 text")
		return nil
	}
	if len(bytes.TrimSpace(data)) == 0 {
		problems.add(&node{line: 1, column: 1}, "", "the file is empty")
		return nil
	}
	data, noNumbers := withoutNaN(data)
	var nothing skipped
	if err := json.Unmarshal(data, &nothing); err != nil {
		addSyntax(problems, data, err)
		return nil
	}
	p := jsonParser{data: data, dec: json.NewDecoder(bytes.NewReader(data)), problems: problems, noNumbers: noNumbers, line: 1, column: 1}
	p.dec.UseNumber()
	top := &node{}
	err := p.value(top, 0)
	if err != nil {
		var stop *Problem
		if errors.As(err, &stop) {
			problems.List = append(problems.List, *stop)
		} else {
			addSyntax(problems, data, err)
		}
		return nil
	}
	return top
}

// skipped takes any JSON value and keeps nothing of it: decoding into it is a
// check of the syntax.
type skipped struct{}

func (*skipped) UnmarshalJSON([]byte) error { return nil }

// Error lets a problem end the parsing.
func (p *Problem) Error() string { return p.Message }

type jsonParser struct {
	data         []byte
	dec          *json.Decoder
	problems     *Problems
	noNumbers    map[int]string
	at           int // line and column are those of this byte
	line, column int32
	values       int
}

// moveTo brings line and column forward to a byte of the file.
func (p *jsonParser) moveTo(at int) {
	for p.at < at {
		r, size := utf8.DecodeRune(p.data[p.at:])
		p.at += size
		p.column++
		if r == '\n' {
			p.line, p.column = p.line+1, 1
		}
	}
}

// next reads a token and leaves the place at its beginning.
func (p *jsonParser) next() (json.Token, int, error) {
	start := int(p.dec.InputOffset())
	for start < len(p.data) && strings.IndexByte(" \t\r\n,:", p.data[start]) >= 0 {
		start++
	}
	p.moveTo(start)
	token, err := p.dec.Token()
	return token, start, err
}

// value reads the next value into n, whose parent and place in it are set.
func (p *jsonParser) value(n *node, depth int) error {
	token, start, err := p.next()
	if err != nil {
		return fmt.Errorf("reading a JSON value: %w", err)
	}
	n.line, n.column, n.start = p.line, p.column, start
	if p.values++; p.values > maxValues {
		return &Problem{Line: int(p.line), Column: int(p.column),
			Message: fmt.Sprintf("the file has more than %d values: that is no survey of one house", maxValues)}
	}
	if _, nested := token.(json.Delim); nested && depth >= maxNesting {
		return &Problem{Line: int(p.line), Column: int(p.column), Message: tooDeep}
	}
	switch v := token.(type) {
	case json.Delim:
		if v == '{' {
			n.kind = objectNode
			err = p.members(n, depth+1)
		} else {
			n.kind = listNode
			err = p.items(n, depth+1)
		}
	case string:
		n.kind, n.text = textNode, v
	case json.Number:
		n.kind, n.text = numberNode, v.String()
		if word, none := p.noNumbers[start]; none {
			n.text = word
		}
	case bool:
		n.kind, n.text = boolNode, fmt.Sprint(v)
	}
	n.end = int(p.dec.InputOffset())
	return err
}

var tooDeep = fmt.Sprintf("lists and objects are nested more than %d deep", maxNesting)

func (p *jsonParser) members(n *node, depth int) error {
	seen := map[string]bool{}
	for p.dec.More() {
		token, _, err := p.next()
		if err != nil {
			return fmt.Errorf("reading a JSON key: %w", err)
		}
		key, _ := token.(string)
		m := member{key: key, line: p.line, column: p.column, value: &node{parent: n, key: key}}
		if err = p.value(m.value, depth); err != nil {
			return err
		}
		if seen[key] {
			n.again = append(n.again, m)
			continue
		}
		seen[key] = true
		n.members = append(n.members, m)
	}
	_, _, err := p.next()
	return err
}

func (p *jsonParser) items(n *node, depth int) error {
	for p.dec.More() {
		item := &node{parent: n, index: len(n.items)}
		if err := p.value(item, depth); err != nil {
			return err
		}
		n.items = append(n.items, item)
	}
	_, _, err := p.next()
	return err
}

// addAt notes a problem at a byte of the file.
func addAt(problems *Problems, data []byte, at int, format string, args ...any) {
	before := data[:min(at, len(data))]
	line := 1 + bytes.Count(before, []byte("\n"))
	column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	problems.List = append(problems.List,
		Problem{Line: line, Column: column, Message: fmt.Sprintf(format, args...)})
}

// addSyntax says in plain words why the file is not JSON.
func addSyntax(problems *Problems, data []byte, err error) {
	at := len(data)
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		at = max(0, min(int(syntax.Offset)-1, len(data)))
	}
	before, after := bytes.TrimRight(data[:at], " \t\r\n"), data[at:]
	switch {
	case strings.Contains(err.Error(), "exceeded max depth"):
		addAt(problems, data, at, "%s", tooDeep)
	case strings.Contains(err.Error(), "unexpected end"):
		addAt(problems, data, len(data), "this is not JSON: the file ends before its last list or object is closed")
	case startsWithAny(after, "NaN", "Infinity"):
		addAt(problems, data, at, "this is not JSON: NaN and Infinity are no numbers")
	case startsWithAny(after, "//", "/*", "#"):
		addAt(problems, data, at, "this is not JSON: JSON has no comments")
	case startsWithAny(after, "'"):
		addAt(problems, data, at, `this is not JSON: texts stand in double quotes (")`)
	case startsWithAny(after, "]", "}") && bytes.HasSuffix(before, []byte(",")):
		addAt(problems, data, at, "this is not JSON: the comma before %q is one too many", string(after[:1]))
	default:
		addAt(problems, data, at, "this is not JSON: %v", err)
	}
}

func startsWithAny(data []byte, words ...string) bool {
	for _, w := range words {
		if bytes.HasPrefix(data, []byte(w)) {
			return true
		}
	}
	return false
}

// firstInvalidUTF8 returns the first byte that is not UTF-8, -1 for none.
func firstInvalidUTF8(data []byte) int {
	if utf8.Valid(data) {
		return -1
	}
	for at := 0; ; {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size <= 1 {
			return at
		}
		at += size
	}
}

// mostNaN is how many of them are worth the trouble.
const mostNaN = 10_000

// noNumber finds what programs write for a number that is none and JSON does
// not know, and the texts in which such a word means nothing.
var noNumber = regexp.MustCompile(`"(?:[^"\\]|\\.)*"|-?\b(?:NaN|Infinity)\b`)

// withoutNaN puts numbers of the same length in the place of NaN and Infinity,
// so that the rest of the file can be read and the place be named, and says
// what stood where.
func withoutNaN(data []byte) ([]byte, map[int]string) {
	if n := bytes.Count(data, []byte("NaN")) + bytes.Count(data, []byte("Infinity")); n == 0 || n > mostNaN {
		return data, nil
	}
	found := map[int]string{}
	out := bytes.Clone(data)
	for _, at := range noNumber.FindAllIndex(data, -1) {
		if data[at[0]] == '"' {
			continue
		}
		found[at[0]] = string(data[at[0]:at[1]])
		for i := at[0]; i < at[1]; i++ {
			out[i] = '9'
		}
		if data[at[0]] == '-' {
			out[at[0]] = '-'
		}
	}
	return out, found
}
