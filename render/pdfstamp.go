package render

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"unicode/utf16"
)

// bookmark is one entry of the outline.
type bookmark struct {
	title string
	page  int
}

// Objects that canvas always numbers so.
const (
	catalogObject = 1
	infoObject    = 2
	pagesObject   = 3
)

var errStrangePDF = errors.New("render: the PDF is not laid out as expected")

// stampPDF makes a document written by canvas the same every time, and gives
// it an outline: the date of writing goes, from the document and from inside
// the fonts, whose checksums are set right again; its title, the outline, the
// language and an identifier made from the content come in; the table of
// objects is written anew.
func stampPDF(raw []byte, title, subject string, marks []bookmark) ([]byte, error) {
	objects, head, err := splitPDF(raw)
	if err != nil {
		return nil, err
	}
	pages := references(objects[pagesObject-1], `/Kids\[([^\]]*)\]`)
	if len(pages) != len(marks) {
		return nil, fmt.Errorf("%w: %d pages for %d bookmarks", errStrangePDF, len(pages), len(marks))
	}
	objects[infoObject-1] = fmt.Appendf(nil, "<</Producer(tdewolff/canvas)/Creator(moiety)/Title %s/Subject %s>>", pdfText(title), pdfText(subject))
	for _, n := range fontFiles(objects) {
		if objects[n-1], err = steadyFont(objects[n-1]); err != nil {
			return nil, fmt.Errorf("render: font in object %d of the PDF: %w", n, err)
		}
	}
	outline := len(objects) + 1
	objects = append(objects, outlineObjects(outline, pages, marks)...)
	objects[catalogObject-1] = bytes.Replace(objects[catalogObject-1], []byte("/Type/Catalog"),
		fmt.Appendf(nil, "/Type/Catalog/Lang (en)/Outlines %d 0 R/PageMode/UseOutlines/ViewerPreferences<</DisplayDocTitle true>>", outline), 1)
	return joinPDF(head, objects), nil
}

var (
	fontFile   = regexp.MustCompile(`/FontFile2 (\d+) 0 R`)
	reference  = regexp.MustCompile(`(\d+) 0 R`)
	startXref  = regexp.MustCompile(`startxref\n(\d+)\n%%EOF\s*$`)
	streamDict = regexp.MustCompile(`^<<[^>]*/Filter/FlateDecode[^>]*>>stream\n`)
)

// splitPDF gives the bodies of the objects, in order, and what stands before the first.
func splitPDF(raw []byte) (objects [][]byte, head []byte, err error) {
	m := startXref.FindSubmatch(raw)
	if m == nil {
		return nil, nil, fmt.Errorf("%w: no table of objects", errStrangePDF)
	}
	table, _ := strconv.Atoi(string(m[1]))
	var count int
	if table >= len(raw) {
		return nil, nil, fmt.Errorf("%w: table of objects beyond the end", errStrangePDF)
	}
	if _, err := fmt.Sscanf(string(raw[table:min(len(raw), table+40)]), "xref\n0 %d\n", &count); err != nil {
		return nil, nil, fmt.Errorf("%w: %w", errStrangePDF, err)
	}
	entries := raw[table+len(fmt.Sprintf("xref\n0 %d\n", count)):]
	const entryLength = 20
	type place struct{ number, offset int }
	var places []place
	for i := 1; i < count; i++ {
		entry := entries[i*entryLength:]
		offset, err := strconv.Atoi(string(entry[:10]))
		if err != nil || offset >= table {
			return nil, nil, fmt.Errorf("%w: place of object %d", errStrangePDF, i)
		}
		places = append(places, place{i, offset})
	}
	slices.SortFunc(places, func(a, b place) int { return cmp.Compare(a.offset, b.offset) })
	objects = make([][]byte, count-1)
	for i, p := range places {
		end := table
		if i+1 < len(places) {
			end = places[i+1].offset
		}
		body, ok := bytes.CutPrefix(raw[p.offset:end], fmt.Appendf(nil, "%d 0 obj\n", p.number))
		if !ok {
			return nil, nil, fmt.Errorf("%w: object %d", errStrangePDF, p.number)
		}
		body, ok = bytes.CutSuffix(body, []byte("\nendobj\n"))
		if !ok {
			return nil, nil, fmt.Errorf("%w: end of object %d", errStrangePDF, p.number)
		}
		objects[p.number-1] = body
	}
	return objects, raw[:places[0].offset], nil
}

// references lists the object numbers within the first group of a pattern.
func references(object []byte, pattern string) []int {
	m := regexp.MustCompile(pattern).FindSubmatch(object)
	if m == nil {
		return nil
	}
	var numbers []int
	for _, r := range reference.FindAllSubmatch(m[1], -1) {
		n, _ := strconv.Atoi(string(r[1]))
		numbers = append(numbers, n)
	}
	return numbers
}

// fontFiles lists the objects that hold font programs.
func fontFiles(objects [][]byte) []int {
	var numbers []int
	for _, o := range objects {
		for _, m := range fontFile.FindAllSubmatch(o, -1) {
			if n, _ := strconv.Atoi(string(m[1])); n >= 1 && n <= len(objects) && !slices.Contains(numbers, n) {
				numbers = append(numbers, n)
			}
		}
	}
	return numbers
}

// steadyFont takes the time of writing out of an embedded font and states its length.
func steadyFont(object []byte) ([]byte, error) {
	dict := streamDict.Find(object)
	if dict == nil {
		return nil, errStrangePDF
	}
	packed, ok := bytes.CutSuffix(object[len(dict):], []byte("\nendstream\n"))
	if !ok {
		return nil, errStrangePDF
	}
	r, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	font, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	if err := undateFont(font); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	if _, err := z.Write(font); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return fmt.Appendf(nil, "<</Filter/FlateDecode/Length %d/Length1 %d>>stream\n%s\nendstream\n", b.Len(), len(font), b.Bytes()), nil
}

// undateFont sets the date of change in a TrueType font to that of its making
// and sets the checksums of the head table and the file right (OpenType
// specification, tables "head" and "Organization of an OpenType font").
func undateFont(font []byte) error {
	const directory, record = 12, 16
	const created, modified, adjustment = 20, 28, 8
	const magic = 0xB1B0AFBA
	if len(font) < directory {
		return io.ErrUnexpectedEOF
	}
	tables := int(binary.BigEndian.Uint16(font[4:]))
	for i := range tables {
		at := directory + i*record
		if at+record > len(font) {
			return io.ErrUnexpectedEOF
		}
		entry := font[at : at+record]
		if string(entry[:4]) != "head" {
			continue
		}
		start, length := int(binary.BigEndian.Uint32(entry[8:])), int(binary.BigEndian.Uint32(entry[12:]))
		if start+length > len(font) || length < modified+8 {
			return io.ErrUnexpectedEOF
		}
		table := font[start : start+length]
		copy(table[modified:modified+8], table[created:created+8])
		binary.BigEndian.PutUint32(table[adjustment:], 0)
		binary.BigEndian.PutUint32(entry[4:], fontSum(table))
		binary.BigEndian.PutUint32(table[adjustment:], magic-fontSum(font))
		return nil
	}
	return errors.New("no head table")
}

// fontSum adds up a table as big-endian words, padded with zeros.
func fontSum(b []byte) uint32 {
	var sum uint32
	for len(b) >= 4 {
		sum += binary.BigEndian.Uint32(b)
		b = b[4:]
	}
	if len(b) > 0 {
		var last [4]byte
		copy(last[:], b)
		sum += binary.BigEndian.Uint32(last[:])
	}
	return sum
}

// outlineObjects are the outline, numbered first, and one item per page.
func outlineObjects(first int, pages []int, marks []bookmark) [][]byte {
	objects := [][]byte{fmt.Appendf(nil, "<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", first+1, first+len(marks), len(marks))}
	for i, m := range marks {
		item := fmt.Appendf(nil, "<</Title %s/Parent %d 0 R", pdfText(m.title), first)
		if i > 0 {
			item = fmt.Appendf(item, "/Prev %d 0 R", first+i)
		}
		if i+1 < len(marks) {
			item = fmt.Appendf(item, "/Next %d 0 R", first+i+2)
		}
		objects = append(objects, fmt.Appendf(item, "/Dest[%d 0 R/Fit]>>", pages[m.page]))
	}
	return objects
}

// pdfText is a text string in UTF-16, in hexadecimal.
func pdfText(s string) string {
	var b bytes.Buffer
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04X", u)
	}
	b.WriteByte('>')
	return b.String()
}

// joinPDF writes objects, their table and the trailer.
func joinPDF(head []byte, objects [][]byte) []byte {
	var b bytes.Buffer
	b.Write(head)
	offsets := make([]int, len(objects))
	for i, o := range objects {
		offsets[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	id := sha256.Sum256(b.Bytes())
	table := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, o := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", o)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root %d 0 R/Info %d 0 R/ID[<%x><%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		len(objects)+1, catalogObject, infoObject, id[:16], id[:16], table)
	return b.Bytes()
}
