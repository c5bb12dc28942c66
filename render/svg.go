package render

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"

	"github.com/tdewolff/canvas/renderers/svg"
)

// WriteSVG writes the sheet at its true size. Texts stay texts, in a font
// that is named and not embedded; each layer is a group with an id.
func (s *Sheet) WriteSVG(w io.Writer) error {
	fonts, err := loadTypeface()
	if err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	r := svg.New(out, s.Paper.WidthMM, s.Paper.HeightMM, &svg.Options{SizeUnits: "mm"})
	fmt.Fprint(out, "\n<title>")
	if err := xml.EscapeText(out, []byte(s.Number+" "+s.Title)); err != nil {
		return err
	}
	fmt.Fprintf(out, "</title>\n<rect width=\"%g\" height=\"%g\" fill=\"#fff\"/>\n", s.Paper.WidthMM, s.Paper.HeightMM)
	k := inker{to: r, fonts: fonts}
	for l, marks := range s.marks {
		if len(marks) == 0 {
			continue
		}
		fmt.Fprintf(out, "<g id=\"%s\">\n", layerNames[l])
		for _, m := range marks {
			k.draw(m)
			fmt.Fprintln(out)
		}
		fmt.Fprintln(out, "</g>")
	}
	if err := r.Close(); err != nil {
		return fmt.Errorf("render: write SVG of sheet %s: %w", s.Number, err)
	}
	fmt.Fprintln(out)
	if err := out.Flush(); err != nil {
		return fmt.Errorf("render: write SVG of sheet %s: %w", s.Number, err)
	}
	return nil
}
