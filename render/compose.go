package render

// composition divides the drawing space of a sheet: where the drawing goes,
// and the columns beside it.
type composition struct {
	drawing Rect
	columns []Rect
}

// clearance between the drawing, the columns and the frame, millimetres.
const clearance = 4.0

// compositions lists the ways to divide a sheet, those that leave the drawing
// the most room first. The title block stands in the lower right corner; a
// band to its left, columns above it, or all that is right of the drawing
// take the rest.
func (p Paper) compositions() []composition {
	in, title := p.frame(), p.titlePlace()
	top := in.Y1 - clearance
	band := fill(Rect{in.X0 + clearance, in.Y0 + clearance, title.X0 - clearance, title.Y1 - clearance})
	above := func(columns int) Rect {
		w := float64(columns)*(columnWidth+columnGap) - columnGap
		return Rect{in.X1 - clearance - w, title.Y1 + clearance, in.X1 - clearance, top}
	}
	whole := Rect{in.X0 + clearance, title.Y1 + clearance, in.X1 - clearance, top}
	var out []composition
	if len(band) > 0 {
		out = append(out, composition{whole, band})
	}
	for n := 1; n <= 6; n++ {
		right := above(n)
		left := whole
		left.X1 = right.X0 - clearance
		if left.width() < 60 {
			break
		}
		out = append(out, composition{left, append(fill(right), band...)})
		if right.X0 <= title.X0-clearance || title.X0-clearance-in.X0 < 60 {
			continue
		}
		// Beside the title block the drawing may reach down to the frame.
		tall := Rect{in.X0 + clearance, in.Y0 + clearance, title.X0 - clearance, top}
		out = append(out, composition{tall, fill(Rect{title.X0, title.Y1 + clearance, in.X1 - clearance, top})})
	}
	for strip := 30.0; strip <= 120; strip += 10 { // a strip over the title block, as wide as the sheet
		low := Rect{in.X0 + clearance, title.Y1 + clearance, in.X1 - clearance, title.Y1 + clearance + strip}
		high := whole
		high.Y0 = low.Y1 + clearance
		if high.height() < 60 {
			break
		}
		out = append(out, composition{high, append(fill(low), band...)})
	}
	return out
}

// room is the length of all columns.
func (c composition) room() float64 {
	sum := 0.0
	for _, r := range c.columns {
		sum += r.height()
	}
	return sum
}

// columnsOnly are the columns of a sheet without a drawing.
func (p Paper) columnsOnly() []Rect {
	in, title := p.frame(), p.titlePlace()
	return fill(Rect{in.X0 + clearance, title.Y1 + clearance, in.X1 - clearance, in.Y1 - clearance})
}

// fill divides a rectangle into columns.
func fill(r Rect) []Rect {
	var out []Rect
	if r.height() < headHeight+rowHeight {
		return nil
	}
	for x := r.X0; x+columnWidth <= r.X1+1e-6; x += columnWidth + columnGap {
		out = append(out, Rect{x, r.Y0, x + columnWidth, r.Y1})
	}
	return out
}
