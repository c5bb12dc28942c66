package render

import (
	"fmt"

	"moiety/plan"
)

// cautionText stands on every sheet.
const cautionText = "Draft - not for construction: to be checked by licensed practice and the local building authority"

// Size of the title block: its width is that of ISO 7200 (from memory).
const (
	titleWidth  = 180.0
	titleHeight = 38.0
	titleInset  = 1.5
	titleMiddle = 74.0 // width of the fields in its middle
)

// titleBlock is what the block of a sheet says.
type titleBlock struct {
	project, title, kind string
	number               string
	sheet, of            int
	scale, paper         string
	date, revision       string
	survey               string
}

// surveyName says which survey a drawing was made from: the house, cut to a
// width where it must be, and the first twelve digits of the file's SHA-256.
func (t *typeface) surveyName(h *plan.House, width float64) string {
	const digits = 12
	name := t.legible(h.Name)
	if h.SHA256 == "" {
		return name
	}
	sum := ", " + h.SHA256[:min(digits, len(h.SHA256))]
	return t.shortened(name, width-t.width(sum, smallText, true), smallText, true) + sum
}

// titlePlace is the lower right corner of the frame (ISO 5457, clause 5).
func (p Paper) titlePlace() Rect {
	in := p.frame()
	return Rect{in.X1 - titleWidth, in.Y0, in.X1, in.Y0 + titleHeight}
}

// field is one box of the title block: its name above what it says.
type field struct {
	place       Rect
	name, value string
	height      float64
}

// drawTitle letters the title block. Fields of ISO 7200 that only the user
// can fill (owner, who drew and who approved) stay blank.
func (s *Sheet) drawTitle(t titleBlock) {
	r := s.Paper.titlePlace()
	x := func(mm float64) float64 { return r.X0 + mm }
	y := func(mm float64) float64 { return r.Y0 + mm }
	const left, right = 58.0, 58.0 + titleMiddle
	fields := []field{
		{Rect{x(0), y(28), x(left), y(38)}, "Owner", "", smallText},
		{Rect{x(0), y(18), x(left / 2), y(28)}, "Drawn by", "", smallText},
		{Rect{x(left / 2), y(18), x(left), y(28)}, "Approved by", "", smallText},
		{Rect{x(left), y(28), x(right), y(38)}, "Project", t.project, roomText},
		{Rect{x(left), y(18), x(right), y(28)}, "Title", t.title, roomText},
		{Rect{x(left), y(9), x(right), y(18)}, "Survey", t.survey, smallText},
		{Rect{x(left), y(0), x(right), y(9)}, "Document", t.kind, smallText},
		{Rect{x(right), y(9), x(right + 30), y(18)}, "Scale", t.scale, smallText},
		{Rect{x(right + 30), y(9), x(titleWidth), y(18)}, "Size", t.paper, smallText},
		{Rect{x(right), y(0), x(right + 30), y(9)}, "Date", t.date, smallText},
		{Rect{x(right + 30), y(0), x(titleWidth), y(9)}, "Revision", t.revision, smallText},
	}
	const inset = titleInset
	for _, f := range fields {
		s.stroke(layerFrame, line(thin), rectangle(f.place))
		s.write(Point{f.place.X0 + inset, f.place.Y1 - 1.1 - smallText}, words{text: f.name, height: smallText, ink: caption, layer: layerFrame}, onSheet())
		height, room := f.height, f.place.width()-2*inset
		if s.fonts.width(f.value, height, true) > room {
			height = smallText
		}
		s.write(Point{f.place.X0 + inset, f.place.Y0 + 1.3},
			words{text: s.fonts.shortened(f.value, room, height, true), height: height, bold: true, layer: layerFrame}, onSheet())
	}

	status := Rect{x(0), y(0), x(left), y(18)}
	s.stroke(layerFrame, line(thin), rectangle(status))
	top := status.Y1 - 1.1 - smallText
	s.write(Point{status.X0 + inset, top}, words{text: "Status", height: smallText, ink: caption, layer: layerFrame}, onSheet())
	for i, l := range s.fonts.wrapped(cautionText, left-2*inset, smallText, false) {
		s.write(Point{status.X0 + inset, top - 3.7*float64(i+1)}, words{text: l, height: smallText, layer: layerFrame}, onSheet())
	}

	number := Rect{x(right), y(18), x(titleWidth), y(38)}
	s.stroke(layerFrame, line(thin), rectangle(number))
	s.write(Point{number.X0 + inset, number.Y1 - 1.1 - smallText}, words{text: "Sheet", height: smallText, ink: caption, layer: layerFrame}, onSheet())
	s.write(Point{number.centre().X, number.Y0 + 7.5}, words{text: t.number, height: numberText, bold: true, align: atMiddle, layer: layerFrame}, onSheet())
	s.write(Point{number.centre().X, number.Y0 + 2}, words{text: fmt.Sprintf("sheet %d of %d", t.sheet, t.of), height: smallText, align: atMiddle, layer: layerFrame}, onSheet())
	s.stroke(layerFrame, line(heavy), rectangle(r))
}
