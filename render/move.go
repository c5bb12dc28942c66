package render

// progress is how much is on a sheet at some time.
type progress struct {
	marks             [layers]int
	boxes, views, dim int
}

func (s *Sheet) progress() progress {
	p := progress{boxes: len(s.Boxes), views: len(s.Views), dim: len(s.Dimensions)}
	for l := range s.marks {
		p.marks[l] = len(s.marks[l])
	}
	return p
}

// place notes that what was drawn since the last place is one drawing, so
// that it can be moved to another place of the sheet.
func (s *Sheet) place() { s.placed = append(s.placed, s.progress()) }

// move moves the drawings of a sheet, each from its place to another: finding
// where lettering goes is dear, and does not depend on the place.
func (s *Sheet) move(from, to []Point) {
	var first progress
	for i, last := range s.placed {
		by := to[i].sub(from[i])
		s.moveBetween(first, last, Point{rounded(by.X), rounded(by.Y)})
		first = last
	}
}

func (s *Sheet) moveBetween(first, last progress, by Point) {
	if by == (Point{}) {
		return
	}
	for l := range s.marks {
		for i := first.marks[l]; i < last.marks[l]; i++ {
			m := &s.marks[l][i]
			if m.text != nil {
				m.text.at = m.text.at.add(by)
			} else {
				m.path = neat(m.path.Translate(by.X, by.Y))
			}
		}
	}
	for i := first.boxes; i < last.boxes; i++ {
		for k := range s.Boxes[i].Corners {
			s.Boxes[i].Corners[k] = s.Boxes[i].Corners[k].add(by)
		}
	}
	for i := first.views; i < last.views; i++ {
		s.Views[i].at = s.Views[i].at.add(by)
	}
	for i := first.dim; i < last.dim; i++ {
		d := &s.Dimensions[i]
		d.A, d.B = d.A.add(by), d.B.add(by)
	}
}
