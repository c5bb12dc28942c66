package render_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/render"
)

// page is a sheet read back from a file that was written of it: what is inked,
// in the order in which it is laid, in millimetres from the lower left corner.
// The readers share no code with what draws: the one of SVG follows W3C SVG 1.1
// (chapters 8 and 10), the one of PDF ISO 32000-1 (clauses 8.5 and 9.4).
type page struct {
	width, height float64
	paths         []inkedPath
	texts         []inkedText
}

type inkedPath struct {
	group        string // of an SVG
	lines        []inkedLine
	fill, stroke string // as #rrggbb, "" for none
	width        float64
	dash         []float64
	curved       bool
}

// inkedLine is one run of a pen; of a curve it holds the ends of its pieces.
type inkedLine struct {
	points []spot
	closed bool
}

type spot struct{ x, y float64 }

type inkedText struct {
	text   string
	at     spot
	turn   float64 // degrees, from level
	height float64 // of the type, millimetres
}

func (a spot) to(b spot) float64       { return math.Hypot(a.x-b.x, a.y-b.y) }
func (a spot) plus(b spot) spot        { return spot{a.x + b.x, a.y + b.y} }
func (a spot) minus(b spot) spot       { return spot{a.x - b.x, a.y - b.y} }
func (a spot) times(f float64) spot    { return spot{a.x * f, a.y * f} }
func (a spot) dot(b spot) float64      { return a.x*b.x + a.y*b.y }
func (a spot) left() spot              { return spot{-a.y, a.x} }
func (a spot) unit() spot              { return a.times(1 / math.Hypot(a.x, a.y)) }
func onPaper(p render.Point) spot      { return spot{p.X, p.Y} }
func (a spot) between(b spot) spot     { return a.plus(b).times(0.5) }
func (a spot) sheet() render.Point     { return render.Point{X: a.x, Y: a.y} }
func (a spot) off(b, c spot) float64   { return a.minus(b).dot(c.minus(b).unit().left()) }
func (a spot) along(b, c spot) float64 { return a.minus(b).dot(c.minus(b).unit()) }

// tightly is how near, in millimetres of paper, what is inked has to lie to
// where the survey puts it: a third of the thinnest line.
const tightly = 0.05

// readSheetSVG reads the SVG of a sheet.
func readSheetSVG(t testing.TB, s *render.Sheet) page {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, s.WriteSVG(&b))
	var p page
	var group string
	var text *inkedText
	for d := xml.NewDecoder(&b); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return p
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			of := map[string]string{}
			for _, a := range e.Attr {
				of[a.Name.Local] = a.Value
			}
			for _, said := range strings.Split(of["style"], ";") {
				if name, value, ok := strings.Cut(said, ":"); ok {
					of[name] = value
				}
			}
			switch e.Name.Local {
			case "svg":
				p.width, p.height = length(t, of["width"]), length(t, of["height"])
				var box [4]float64
				_, err := fmt.Sscan(of["viewBox"], &box[0], &box[1], &box[2], &box[3])
				require.NoError(t, err)
				require.Equal(t, [4]float64{0, 0, p.width, p.height}, box, "an SVG in millimetres at its true size")
			case "g":
				require.Empty(t, of["transform"])
				group = of["id"]
			case "path":
				path := inkedPath{group: group, fill: colourOf(t, of["fill"], "#000000"), stroke: colourOf(t, of["stroke"], "")}
				if path.stroke != "" {
					path.width = 1
					if of["stroke-width"] != "" {
						path.width = length(t, of["stroke-width"])
					}
				}
				for _, d := range strings.Fields(strings.ReplaceAll(of["stroke-dasharray"], ",", " ")) {
					path.dash = append(path.dash, length(t, d))
				}
				path.lines, path.curved = pathLines(t, of["d"], p.height)
				p.paths = append(p.paths, path)
			case "text":
				p.texts = append(p.texts, textOf(t, of, p.height))
				text = &p.texts[len(p.texts)-1]
			}
		case xml.EndElement:
			if e.Name.Local == "text" {
				text = nil
			}
		case xml.CharData:
			if text != nil {
				text.text += string(e)
			}
		}
	}
}

func length(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(s, "mm"), "px"), 64)
	require.NoError(t, err, s)
	return v
}

// colourOf reads #rgb and #rrggbb; a colour not given is the one that SVG takes.
func colourOf(t testing.TB, s, usual string) string {
	t.Helper()
	switch {
	case s == "":
		return usual
	case s == "none":
		return ""
	case len(s) == 4 && s[0] == '#':
		return fmt.Sprintf("#%c%c%c%c%c%c", s[1], s[1], s[2], s[2], s[3], s[3])
	}
	require.Regexp(t, `^#[0-9a-f]{6}$`, s)
	return s
}

func textOf(t testing.TB, of map[string]string, height float64) inkedText {
	t.Helper()
	var out inkedText
	for _, word := range strings.Fields(of["font"]) {
		if strings.HasSuffix(word, "px") {
			out.height = length(t, word)
		}
	}
	if of["transform"] == "" {
		out.at = spot{length(t, of["x"]), height - length(t, of["y"])}
		return out
	}
	at := func(name string) []float64 {
		_, rest, ok := strings.Cut(of["transform"], name+"(")
		if !ok {
			return nil
		}
		inside, _, _ := strings.Cut(rest, ")")
		var v []float64
		for _, n := range strings.Fields(strings.ReplaceAll(inside, ",", " ")) {
			v = append(v, length(t, n))
		}
		return v
	}
	if m := at("matrix"); len(m) == 6 {
		out.at, out.turn = spot{m[4], height - m[5]}, -math.Atan2(m[1], m[0])*180/math.Pi
		return out
	}
	if m := at("translate"); len(m) == 2 {
		out.at = spot{m[0], height - m[1]}
	}
	if r := at("rotate"); len(r) > 0 {
		out.turn = -r[0]
	}
	return out
}

// pathLines reads path data with absolute commands.
func pathLines(t testing.TB, d string, height float64) (lines []inkedLine, curved bool) {
	t.Helper()
	var at spot
	number := func() float64 {
		d = strings.TrimLeft(d, " ,\n")
		n := 0
		dot, exponent := false, false
		for n < len(d) {
			c := d[n]
			if c >= '0' && c <= '9' || (c == '-' || c == '+') && (n == 0 || exponent && (d[n-1] == 'e')) {
				n++
				continue
			}
			if c == '.' && !dot && !exponent {
				dot = true
				n++
				continue
			}
			if c == 'e' && !exponent && n > 0 {
				exponent = true
				n++
				continue
			}
			break
		}
		v := length(t, d[:n])
		d = d[n:]
		return v
	}
	flag := func() {
		d = strings.TrimLeft(d, " ,\n")
		require.Contains(t, "01", d[:1])
		d = d[1:]
	}
	put := func() {
		l := &lines[len(lines)-1]
		l.points = append(l.points, spot{at.x, height - at.y})
	}
	var command byte
	for {
		d = strings.TrimLeft(d, " ,\n")
		if d == "" {
			return lines, curved
		}
		if c := d[0]; c >= 'A' && c <= 'Z' || c == 'z' {
			command, d = c, d[1:]
		}
		switch command {
		case 'M':
			at = spot{number(), number()}
			lines = append(lines, inkedLine{})
			put()
			command = 'L'
			continue
		case 'L':
			at = spot{number(), number()}
		case 'H':
			at.x = number()
		case 'V':
			at.y = number()
		case 'A':
			number()
			number()
			number()
			flag()
			flag()
			at = spot{number(), number()}
			curved = true
		case 'C':
			for range 4 {
				number()
			}
			at = spot{number(), number()}
			curved = true
		case 'Q':
			number()
			number()
			at = spot{number(), number()}
			curved = true
		case 'z', 'Z':
			lines[len(lines)-1].closed = true
			first := lines[len(lines)-1].points[0]
			at = spot{first.x, height - first.y}
			command = 0
			continue
		default:
			require.Fail(t, "a command of path data that the reader does not know", "%q before %.40q", command, d)
		}
		put()
	}
}

// colourAt is the colour of the last fill laid over a place, "" for bare paper.
func (p page) colourAt(at spot) string {
	for i := len(p.paths) - 1; i >= 0; i-- {
		if q := &p.paths[i]; q.fill != "" && q.covers(at) {
			return q.fill
		}
	}
	return ""
}

// covers tells whether a place lies within a path by the winding rule.
func (q *inkedPath) covers(at spot) bool {
	winding := 0
	for _, l := range q.lines {
		for i, a := range l.points {
			b := l.points[(i+1)%len(l.points)]
			if (a.y > at.y) == (b.y > at.y) {
				continue
			}
			if x := a.x + (at.y-a.y)*(b.x-a.x)/(b.y-a.y); x > at.x {
				if b.y > a.y {
					winding++
				} else {
					winding--
				}
			}
		}
	}
	return winding != 0
}

// sides gives every straight piece that a path is made of.
func (q *inkedPath) sides(each func(a, b spot)) {
	for _, l := range q.lines {
		for i := range l.points {
			if i+1 < len(l.points) {
				each(l.points[i], l.points[i+1])
			} else if l.closed && len(l.points) > 1 {
				each(l.points[i], l.points[0])
			}
		}
	}
}
