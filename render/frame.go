package render

import (
	"math"
	"strconv"
)

// Fields of the reference grid and the strip they stand in (ISO 5457, 4.3 and
// 4.4, from memory).
const (
	gridField = 50.0
	gridStrip = 5.0
)

// drawFrame draws the frame, the centring marks and the reference grid.
func (s *Sheet) drawFrame() {
	in := s.Paper.frame()
	out := in.grown(gridStrip)
	s.stroke(layerFrame, line(heavy), rectangle(in))
	s.stroke(layerFrame, line(hair), rectangle(out))

	c := Point{(in.X0 + in.X1) / 2, (in.Y0 + in.Y1) / 2}
	s.stroke(layerFrame, line(heavy), together(
		polyline(Point{c.X, out.Y0}, Point{c.X, in.Y0}),
		polyline(Point{c.X, out.Y1}, Point{c.X, in.Y1}),
		polyline(Point{out.X0, c.Y}, Point{in.X0, c.Y}),
		polyline(Point{out.X1, c.Y}, Point{in.X1, c.Y}),
	))
	for i, f := range gridFields(in.X0, in.X1) {
		s.gridMark(strconv.Itoa(i+1), f, func(along, across float64) Point { return Point{along, across} }, in.Y0-gridStrip, in.Y1)
	}
	rows := gridFields(in.Y0, in.Y1)
	for i, f := range rows {
		s.gridMark(gridLetter(len(rows)-1-i), f, func(along, across float64) Point { return Point{across, along} }, in.X0-gridStrip, in.X1)
	}
}

// gridMark letters one field in the strips at both ends and marks where it ends.
func (s *Sheet) gridMark(name string, field [2]float64, at func(along, across float64) Point, strips ...float64) {
	for _, low := range strips {
		middle := at((field[0]+field[1])/2, low+gridStrip/2)
		s.write(Point{middle.X, middle.Y - smallText/2}, words{text: name, height: smallText, ink: caption, align: atMiddle, layer: layerFrame}, onSheet())
		s.stroke(layerFrame, line(hair), polyline(at(field[1], low), at(field[1], low+gridStrip)))
	}
}

// gridFields divides a side of the frame from its middle outwards: an even
// number of fields, the outer ones taking what is left.
func gridFields(from, to float64) [][2]float64 {
	middle := (from + to) / 2
	n := max(1, int(math.Round((to-from)/2/gridField)))
	var fields [][2]float64
	for i := -n; i < n; i++ {
		a, b := middle+float64(i)*gridField, middle+float64(i+1)*gridField
		if i == -n {
			a = from
		}
		if i == n-1 {
			b = to
		}
		fields = append(fields, [2]float64{a, b})
	}
	return fields
}

// gridLetter is the i-th letter from the top, without I and O.
func gridLetter(i int) string {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	return string(letters[i%len(letters)])
}
