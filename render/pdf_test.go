package render_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/render"
)

func writePDF(t testing.TB, sheets []*render.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, render.WritePDF(&b, sheets, "Mill Lane cottage"))
	return b.Bytes()
}

func TestTheSameSheetsGiveTheSameBytes(t *testing.T) {
	draw := func() ([]byte, []byte) {
		sheets, err := render.Set(cottageDivided(t), render.Options{})
		require.NoError(t, err)
		var svg bytes.Buffer
		for _, s := range sheets {
			require.NoError(t, s.WriteSVG(&svg))
		}
		return writePDF(t, sheets), svg.Bytes()
	}
	pdf, svg := draw()
	time.Sleep(1100 * time.Millisecond) // fonts carry a time in whole seconds
	again, svgAgain := draw()
	assert.True(t, bytes.Equal(pdf, again), "two PDFs differ")
	assert.True(t, bytes.Equal(svg, svgAgain), "two SVGs differ")
	assert.NotContains(t, string(pdf), "CreationDate")
}

// document is a PDF taken apart: its objects, streams unpacked.
type document struct {
	objects map[int]string
	streams map[int][]byte
}

func readPDF(t testing.TB, raw []byte) document {
	t.Helper()
	d := document{map[int]string{}, map[int][]byte{}}
	start := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(raw)
	require.NotNil(t, start)
	at, _ := strconv.Atoi(string(start[1]))
	lines := strings.Split(string(raw[at:]), "\n")
	require.Equal(t, "xref", lines[0])
	var count int
	_, err := fmt.Sscanf(lines[1], "0 %d", &count)
	require.NoError(t, err)
	for n := 1; n < count; n++ {
		offset, err := strconv.Atoi(lines[2+n][:10])
		require.NoError(t, err)
		head := fmt.Sprintf("%d 0 obj\n", n)
		require.True(t, bytes.HasPrefix(raw[offset:], []byte(head)), "object %d is not where the table says", n)
		body := raw[offset+len(head):]
		if m := regexp.MustCompile(`^<<[^>]*/Length (\d+)[^>]*>>stream\n`).FindSubmatchIndex(body); m != nil {
			length, _ := strconv.Atoi(string(body[m[2]:m[3]]))
			r, err := zlib.NewReader(bytes.NewReader(body[m[1] : m[1]+length]))
			require.NoError(t, err)
			d.streams[n], err = io.ReadAll(r)
			require.NoError(t, err)
			d.objects[n] = string(body[:m[1]])
			continue
		}
		d.objects[n] = string(body[:bytes.Index(body, []byte("\nendobj\n"))])
	}
	return d
}

// texts reads the strings of a page, by the ToUnicode tables of its fonts.
func (d document) texts(t testing.TB, page string) []string {
	t.Helper()
	number := func(pattern, in string) int {
		m := regexp.MustCompile(pattern).FindStringSubmatch(in)
		require.NotNil(t, m, "%s in %.200s", pattern, in)
		n, err := strconv.Atoi(m[1])
		require.NoError(t, err)
		return n
	}
	letters := map[string]map[int]rune{}
	for _, m := range regexp.MustCompile(`/(F\d+) (\d+) 0 R`).FindAllStringSubmatch(page, -1) {
		font, _ := strconv.Atoi(m[2])
		letters[m[1]] = toUnicode(string(d.streams[number(`/ToUnicode (\d+) 0 R`, d.objects[font])]))
	}
	var out []string
	font := ""
	content := d.streams[number(`/Contents (\d+) 0 R`, page)]
	for i := 0; i < len(content); i++ {
		rest := content[i:]
		if m := regexp.MustCompile(`^/(F\d+) [\d.]+ Tf`).FindSubmatch(rest); m != nil {
			font = string(m[1])
		}
		if rest[0] != '[' || font == "" {
			continue
		}
		var text strings.Builder
		var code []byte
		depth := false
		for ; i < len(content); i++ {
			c := content[i]
			switch {
			case depth && c == '\\':
				i++
				if n := strings.IndexByte("nrtbf", content[i]); n >= 0 {
					code = append(code, "\n\r\t\b\f"[n])
				} else {
					code = append(code, content[i])
				}
			case depth && c == ')':
				depth = false
			case depth:
				code = append(code, c)
			case c == '(':
				depth = true
			}
			if !depth && c == ']' {
				break
			}
			if len(code) == 2 {
				text.WriteRune(letters[font][int(code[0])<<8|int(code[1])])
				code = nil
			}
		}
		if s := text.String(); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func toUnicode(cmap string) map[int]rune {
	out := map[int]rune{}
	hex := func(s string) int { n, _ := strconv.ParseInt(s, 16, 32); return int(n) }
	for line := range strings.Lines(cmap) {
		switch m := regexp.MustCompile(`<(\w+)>`).FindAllStringSubmatch(line, -1); len(m) {
		case 2:
			out[hex(m[0][1])] = rune(hex(m[1][1]))
		case 3:
			for i := hex(m[0][1]); i <= hex(m[1][1]); i++ {
				out[i] = rune(hex(m[2][1]) + i - hex(m[0][1]))
			}
		}
	}
	return out
}

func TestTheTextOfThePDFCanBeReadAndSearched(t *testing.T) {
	sheets, err := render.Set(cottageDivided(t), render.Options{Date: "2025-01-31"})
	require.NoError(t, err)
	d := readPDF(t, writePDF(t, sheets))
	var pages []string
	kids := regexp.MustCompile(`/Kids\[([^\]]*)\]`).FindStringSubmatch(d.objects[3])
	for _, m := range regexp.MustCompile(`(\d+) 0 R`).FindAllStringSubmatch(kids[1], -1) {
		n, _ := strconv.Atoi(m[1])
		pages = append(pages, d.objects[n])
	}
	require.Len(t, pages, len(sheets))
	for i, s := range sheets {
		texts := d.texts(t, pages[i])
		for _, l := range s.Texts() {
			assert.True(t, slices.Contains(texts, l.Text), "sheet %s: no %q", s.Number, l.Text)
		}
	}
	site := d.texts(t, pages[slices.IndexFunc(sheets, func(s *render.Sheet) bool { return s.Title == "Site plan, proposed" })])
	assert.True(t, slices.Contains(site, "ENTRY B"))
	assert.True(t, slices.Contains(site, "2025-01-31"))
}

func TestFontsAreEmbeddedAndSheetsHaveBookmarks(t *testing.T) {
	sheets, err := render.Survey(cottage(t), render.Options{})
	require.NoError(t, err)
	raw := writePDF(t, sheets)
	d := readPDF(t, raw)
	fonts, marks := 0, 0
	for _, o := range d.objects {
		if strings.Contains(o, "/Subtype/Type0") {
			fonts++
			assert.Regexp(t, `/BaseFont/[A-Z]{6}\+LiberationSans`, o)
			assert.Regexp(t, `/FontFile2 \d+ 0 R`, o)
		}
		if strings.Contains(o, "/Dest[") {
			marks++
		}
	}
	assert.Equal(t, 2, fonts)
	assert.Equal(t, len(sheets), marks)
	assert.Less(t, len(raw), 200_000, "a small house makes a small file")
}

// The oracle is poppler, where it is installed.
func TestPopplerReadsTheLabels(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("no pdftotext")
	}
	sheets, err := render.Survey(cottage(t), render.Options{})
	require.NoError(t, err)
	cmd := exec.Command(tool, "-", "-")
	cmd.Stdin = bytes.NewReader(writePDF(t, sheets))
	out, err := cmd.Output()
	require.NoError(t, err)
	for _, want := range []string{"Living room", "4.20 × 3.60", "15.1 m²", "8900", "Mill Lane cottage", "not for construction"} {
		assert.Contains(t, string(out), want)
	}
}

// Sets may be drawn and written at once: they share nothing but the fonts.
func TestSetsAreDrawnAtOnce(t *testing.T) {
	sheets, err := render.Survey(cottage(t), render.Options{})
	require.NoError(t, err)
	want := writePDF(t, sheets)
	b := cottage(t)
	got := make([][]byte, 4)
	var group sync.WaitGroup
	for i := range got {
		group.Go(func() {
			again, err := render.Survey(b, render.Options{})
			var out bytes.Buffer
			if assert.NoError(t, err) && assert.NoError(t, render.WritePDF(&out, again, "Mill Lane cottage")) {
				got[i] = out.Bytes()
			}
		})
	}
	group.Wait()
	for _, g := range got {
		assert.True(t, bytes.Equal(want, g))
	}
}

func TestNoSheetsIsAnError(t *testing.T) {
	assert.Error(t, render.WritePDF(io.Discard, nil, ""))
}
