package render

import (
	"fmt"
	"image/color"
	"strings"
	"sync"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/tdewolff/canvas"
)

// fontName stands in SVG as the CSS list of families: Arial has the widths of
// Liberation Sans, so that a sheet keeps its layout where that is missing.
const fontName = "Liberation Sans, Arial, Helvetica, sans-serif"

// capHeight is the height of capitals as a part of the type size, from the
// OS/2 table of Liberation Sans (1409 of 2048 units).
const capHeight = 1409.0 / 2048.0

// descent is how far letters reach below the baseline, as a part of the
// height of capitals (431 of 1409 units for p and q, rounded up).
const descent = 0.31

// descending are the signs that reach below the baseline.
const descending = "gjpqyQJ,;()[]{}|_@§ß"

const pointsPerMM = 72 / 25.4

// typeface holds the two fonts of the sheets and what was measured with them.
type typeface struct {
	family *canvas.FontFamily

	mu     sync.Mutex
	faces  map[faceKey]*canvas.FontFace
	widths map[widthKey]float64
	lines  map[lineKey]*canvas.Text
}

type faceKey struct {
	height float64
	bold   bool
	ink    color.RGBA
}

type lineKey struct {
	text string
	face *canvas.FontFace
}

type widthKey struct {
	text string
	bold bool
}

var loadTypeface = sync.OnceValues(func() (*typeface, error) {
	family := canvas.NewFontFamily(fontName)
	if err := family.LoadFont(liberationsansregular.TTF, 0, canvas.FontRegular); err != nil {
		return nil, fmt.Errorf("render: load regular font: %w", err)
	}
	if err := family.LoadFont(liberationsansbold.TTF, 0, canvas.FontBold); err != nil {
		return nil, fmt.Errorf("render: load bold font: %w", err)
	}
	return &typeface{family: family, faces: map[faceKey]*canvas.FontFace{}, widths: map[widthKey]float64{}, lines: map[lineKey]*canvas.Text{}}, nil
})

func fontStyle(bold bool) canvas.FontStyle {
	if bold {
		return canvas.FontBold
	}
	return canvas.FontRegular
}

// face is the font at a height of capitals.
func (t *typeface) face(height float64, bold bool, ink color.RGBA) *canvas.FontFace {
	t.mu.Lock()
	defer t.mu.Unlock()
	key := faceKey{height, bold, ink}
	f := t.faces[key]
	if f == nil {
		f = t.family.Face(height/capHeight*pointsPerMM, ink, fontStyle(bold))
		t.faces[key] = f
	}
	return f
}

// line is a line of text with its letters placed. It is written to PDF and
// SVG, and by other sheets, and only read.
func (t *typeface) line(text string, face *canvas.FontFace) *canvas.Text {
	t.mu.Lock()
	defer t.mu.Unlock()
	key := lineKey{text, face}
	l := t.lines[key]
	if l == nil {
		l = canvas.NewTextLine(face, text, canvas.Left)
		t.lines[key] = l
	}
	return l
}

// width is the length of a line of text in millimetres.
func (t *typeface) width(text string, height float64, bold bool) float64 {
	if text == "" {
		return 0
	}
	f := t.face(1, bold, black)
	t.mu.Lock()
	defer t.mu.Unlock()
	key := widthKey{text, bold}
	w, ok := t.widths[key]
	if !ok {
		w = f.TextWidth(text)
		t.widths[key] = w
	}
	return w * height
}

// legible makes a name from a survey fit to be lettered: one line, single
// spaces, and a question mark for what the fonts cannot write.
func (t *typeface) legible(s string) string {
	f := t.face(1, false, black)
	s = strings.Join(strings.Fields(s), " ")
	return strings.Map(func(r rune) rune {
		if f.Font.SFNT.GlyphIndex(r) == 0 {
			return '?'
		}
		return r
	}, s)
}

// shortened cuts a text to a width, ending in an ellipsis where it was cut.
func (t *typeface) shortened(s string, width, height float64, bold bool) string {
	if t.width(s, height, bold) <= width {
		return s
	}
	letters := []rune(s)
	for n := len(letters) - 1; n > 0; n-- {
		cut := strings.TrimRight(string(letters[:n]), " ") + "…"
		if t.width(cut, height, bold) <= width {
			return cut
		}
	}
	return "…"
}

// wrapped breaks a text into lines of at most a width, at spaces where it can.
func (t *typeface) wrapped(s string, width, height float64, bold bool) []string {
	var lines []string
	current := ""
	for _, word := range strings.Fields(s) {
		next := word
		if current != "" {
			next = current + " " + word
		}
		if current != "" && t.width(next, height, bold) > width {
			lines = append(lines, current)
			next = word
		}
		for t.width(next, height, bold) > width {
			n := len([]rune(next))
			letters := []rune(next)
			for n > 1 && t.width(string(letters[:n]), height, bold) > width {
				n--
			}
			if n == len(letters) {
				break
			}
			lines = append(lines, string(letters[:n]))
			next = string(letters[n:])
		}
		current = next
	}
	if current != "" {
		lines = append(lines, current)
	}
	return lines
}
