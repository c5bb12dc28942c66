package render

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/tdewolff/canvas/renderers/pdf"
)

// WritePDF writes all sheets into one document with a bookmark for each, the
// fonts embedded and cut down to the letters used. The same sheets give the
// same bytes.
func WritePDF(w io.Writer, sheets []*Sheet, title string) error {
	if len(sheets) == 0 {
		return errors.New("render: no sheets to write")
	}
	fonts, err := loadTypeface()
	if err != nil {
		return err
	}
	var raw bytes.Buffer
	first := sheets[0].Paper
	r := pdf.New(&raw, first.WidthMM, first.HeightMM, &pdf.Options{Compress: true, SubsetFonts: true})
	marks := make([]bookmark, 0, len(sheets))
	for i, s := range sheets {
		if i > 0 {
			r.NewPage(s.Paper.WidthMM, s.Paper.HeightMM)
		}
		k := inker{to: r, fonts: fonts, noArcs: true}
		for _, layer := range s.marks {
			for _, m := range layer {
				k.draw(m)
			}
		}
		marks = append(marks, bookmark{title: s.Number + "  " + s.Title, page: i})
	}
	if err := r.Close(); err != nil {
		return fmt.Errorf("render: write PDF: %w", err)
	}
	stamped, err := stampPDF(raw.Bytes(), title, cautionText, marks)
	if err != nil {
		return err
	}
	if _, err := w.Write(stamped); err != nil {
		return fmt.Errorf("render: write PDF: %w", err)
	}
	return nil
}
