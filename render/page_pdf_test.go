package render_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/render"
)

// pointMM is a point of 1/72 inch in millimetres.
const pointMM = 25.4 / 72

// readSheetsPDF reads the pages of the PDF of some sheets.
func readSheetsPDF(t testing.TB, sheets []*render.Sheet) []page {
	t.Helper()
	d := readPDF(t, writePDF(t, sheets))
	var pages []page
	for _, object := range d.pages(t) {
		m := regexp.MustCompile(`/MediaBox\[0 0 ([\d.]+) ([\d.]+)\]`).FindStringSubmatch(object)
		require.NotNil(t, m, "the size of a page")
		r := pageReader{t: t, fonts: d.letters(t, object), user: matrix{1, 0, 0, 1, 0, 0}, fill: "#000000", stroke: "#000000", width: 1}
		r.page.width, r.page.height = length(t, m[1])*pointMM, length(t, m[2])*pointMM
		content := regexp.MustCompile(`/Contents (\d+) 0 R`).FindStringSubmatch(object)
		n, err := strconv.Atoi(content[1])
		require.NoError(t, err)
		r.read(d.streams[n])
		pages = append(pages, r.page)
	}
	return pages
}

// pages are the objects of the pages, in their order.
func (d document) pages(t testing.TB) []string {
	t.Helper()
	kids := regexp.MustCompile(`/Kids\[([^\]]*)\]`).FindStringSubmatch(d.objects[3])
	require.NotNil(t, kids)
	var pages []string
	for _, m := range regexp.MustCompile(`(\d+) 0 R`).FindAllStringSubmatch(kids[1], -1) {
		n, _ := strconv.Atoi(m[1])
		pages = append(pages, d.objects[n])
	}
	return pages
}

// letters are the letters that the codes of each font of a page stand for.
func (d document) letters(t testing.TB, object string) map[string]map[int]rune {
	t.Helper()
	out := map[string]map[int]rune{}
	for _, m := range regexp.MustCompile(`/(F\d+) (\d+) 0 R`).FindAllStringSubmatch(object, -1) {
		font, _ := strconv.Atoi(m[2])
		table := regexp.MustCompile(`/ToUnicode (\d+) 0 R`).FindStringSubmatch(d.objects[font])
		require.NotNil(t, table)
		n, _ := strconv.Atoi(table[1])
		out[m[1]] = toUnicode(string(d.streams[n]))
	}
	return out
}

// matrix is a b c d e f of ISO 32000-1, 8.3.3.
type matrix [6]float64

func (m matrix) of(p spot) spot {
	return spot{m[0]*p.x + m[2]*p.y + m[4], m[1]*p.x + m[3]*p.y + m[5]}
}

// then is m followed by n.
func (m matrix) then(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

func (m matrix) grows() float64 { return math.Sqrt(math.Abs(m[0]*m[3] - m[1]*m[2])) }

// pageReader carries out the operators of a content stream.
type pageReader struct {
	t            testing.TB
	page         page
	fonts        map[string]map[int]rune
	user, text   matrix
	fill, stroke string
	width        float64
	dash         []float64
	font         string
	size         float64
	path         inkedPath
	at           spot
	operands     []any // float64, string (of bytes), name, []any
}

type name string

func (r *pageReader) read(content []byte) {
	var lists [][]any
	push := func(v any) {
		if n := len(lists); n > 0 {
			lists[n-1] = append(lists[n-1], v)
		} else {
			r.operands = append(r.operands, v)
		}
	}
	for i := 0; i < len(content); {
		switch c := content[i]; {
		case c <= ' ':
			i++
		case c == '[':
			lists = append(lists, nil)
			i++
		case c == ']':
			n := len(lists) - 1
			list := lists[n]
			lists = lists[:n]
			push(list)
			i++
		case c == '/':
			j := i + 1
			for j < len(content) && content[j] > ' ' && content[j] != '/' && content[j] != '[' && content[j] != '(' {
				j++
			}
			push(name(content[i+1 : j]))
			i = j
		case c == '(':
			s, j := stringAt(content, i)
			push(s)
			i = j
		case c >= '0' && c <= '9' || c == '-' || c == '.' || c == '+':
			j := i + 1
			for j < len(content) && (content[j] >= '0' && content[j] <= '9' || content[j] == '.') {
				j++
			}
			push(length(r.t, string(content[i:j])))
			i = j
		default:
			j := i
			for j < len(content) && (content[j] >= 'A' && content[j] <= 'Z' || content[j] >= 'a' && content[j] <= 'z' || content[j] == '*') {
				j++
			}
			require.Greater(r.t, j, i, "a content stream that cannot be read: %.40q", content[i:])
			r.operate(string(content[i:j]))
			r.operands = r.operands[:0]
			i = j
		}
	}
}

// stringAt reads a string in parentheses (ISO 32000-1, 7.3.4.2).
func stringAt(content []byte, i int) (string, int) {
	var out []byte
	depth := 0
	for ; i < len(content); i++ {
		switch c := content[i]; c {
		case '\\':
			i++
			switch e := content[i]; e {
			case 'n':
				out = append(out, '\n')
			case 'r':
				out = append(out, '\r')
			case 't':
				out = append(out, '\t')
			case 'b':
				out = append(out, '\b')
			case 'f':
				out = append(out, '\f')
			default:
				out = append(out, e)
			}
		case '(':
			if depth > 0 {
				out = append(out, c)
			}
			depth++
		case ')':
			if depth--; depth == 0 {
				return string(out), i + 1
			}
			out = append(out, c)
		default:
			out = append(out, c)
		}
	}
	return string(out), i
}

func (r *pageReader) number(i int) float64 {
	require.Less(r.t, i, len(r.operands))
	v, ok := r.operands[i].(float64)
	require.True(r.t, ok, "a number")
	return v
}

func (r *pageReader) matrix() matrix {
	var m matrix
	for i := range m {
		m[i] = r.number(i)
	}
	return m
}

func (r *pageReader) point(i int) spot {
	return r.user.of(spot{r.number(i), r.number(i + 1)}).times(pointMM)
}

func (r *pageReader) colour() string {
	var c [3]int
	for i := range c {
		c[i] = int(math.Round(r.number(i%len(r.operands)) * 255))
	}
	return fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2])
}

func (r *pageReader) operate(operator string) {
	switch operator {
	case "cm":
		r.user = r.matrix().then(r.user)
	case "w":
		r.width = r.number(0)
	case "d":
		r.dash = nil
		for _, v := range r.operands[0].([]any) {
			r.dash = append(r.dash, v.(float64))
		}
	case "g", "rg":
		r.fill = r.colour()
	case "G", "RG":
		r.stroke = r.colour()
	case "M", "J", "j", "gs", "Tr":
	case "m":
		r.at = r.point(0)
		r.path.lines = append(r.path.lines, inkedLine{points: []spot{r.at}})
	case "l":
		r.line(r.point(0))
	case "c":
		r.path.curved = true
		r.line(r.point(4))
	case "h":
		r.close()
	case "s":
		r.close()
		r.lay(false, true)
	case "S":
		r.lay(false, true)
	case "f":
		r.lay(true, false)
	case "b":
		r.close()
		r.lay(true, true)
	case "B":
		r.lay(true, true)
	case "BT":
		r.text = matrix{1, 0, 0, 1, 0, 0}
	case "ET":
	case "Tf":
		r.font, r.size = string(r.operands[0].(name)), r.number(1)
	case "Td":
		r.text = matrix{1, 0, 0, 1, r.number(0), r.number(1)}.then(r.text)
	case "Tm":
		r.text = r.matrix()
	case "TJ":
		r.letter()
	default:
		require.Fail(r.t, "an operator that the reader does not know", operator)
	}
}

func (r *pageReader) line(to spot) {
	l := &r.path.lines[len(r.path.lines)-1]
	l.points = append(l.points, to)
}

func (r *pageReader) close() { r.path.lines[len(r.path.lines)-1].closed = true }

func (r *pageReader) lay(fill, stroke bool) {
	if fill {
		r.path.fill = r.fill
	}
	if stroke {
		k := r.user.grows() * pointMM
		r.path.stroke, r.path.width = r.stroke, r.width*k
		for _, d := range r.dash {
			r.path.dash = append(r.path.dash, d*k)
		}
	}
	r.page.paths = append(r.page.paths, r.path)
	r.path = inkedPath{}
}

func (r *pageReader) letter() {
	m := r.text.then(r.user)
	out := inkedText{at: spot{m[4], m[5]}.times(pointMM), turn: math.Atan2(m[1], m[0]) * 180 / math.Pi, height: r.size * m.grows() * pointMM}
	for _, v := range r.operands[0].([]any) {
		codes, ok := v.(string)
		for i := 0; ok && i+1 < len(codes); i += 2 {
			letter := r.fonts[r.font][int(codes[i])<<8|int(codes[i+1])]
			require.NotZero(r.t, letter, "a code that stands for no letter")
			out.text += string(letter)
		}
	}
	r.page.texts = append(r.page.texts, out)
}
