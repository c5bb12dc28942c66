package plan

import (
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
)

// pricing prices works with a price file, and knows what no work may touch.
type pricing struct {
	b      *Building
	prices *Prices
	leave  []string
	parts  []string // openings of the brief whose sides may come apart all the same
	// bedrooms tells which rooms can legally be bedrooms; nil where any can.
	bedrooms *bedroomJudge
	set      *rules.Set // that the brief asks for; nil where it asks for none
}

// left tells whether the brief's leave names one of the ids.
func (p *pricing) left(ids ...string) bool {
	return slices.ContainsFunc(ids, func(id string) bool { return id != "" && slices.Contains(p.leave, id) })
}

// separation gives the works that link l takes when its ends come to different
// owners; common tells that one of the two is common, so that a way through
// stays, as a unit's own door. It is nil where nothing has to be built.
func (p *pricing) separation(l Link, common bool) []Work {
	indoor := l.V != Outside && !p.b.Cells[l.U].Outdoor && !p.b.Cells[l.V].Outdoor
	ground := l.V != Outside && p.b.Cells[l.U].Outdoor && p.b.Cells[l.V].Outdoor
	switch {
	case l.V == Outside || l.Kind == LinkExterior:
		return nil
	case !indoor && common:
		return nil // a shared walk or yard is open to both
	case ground && l.Kind == LinkOpen:
		return []Work{p.work("fence", l, l.Length, 0, 1)}
	}
	switch l.Kind {
	case LinkDoor, LinkOpening:
		kind := "seal_door"
		if l.Kind == LinkOpening {
			kind = "seal_opening"
		}
		if !common {
			return []Work{p.work(kind, l, 0, 0, 1)}
		}
		door := p.work("new_door", l, 0, 0, 1)
		door.Note = "the unit's own fire-rated, self-closing door"
		if l.Kind == LinkOpening {
			return []Work{p.work(kind, l, 0, 0, 1), door}
		}
		return []Work{door}
	case LinkOpen:
		works := []Work{p.work("separating_wall", l, l.Length, l.AreaM2, 1)}
		if common {
			works = append(works, p.work("new_door", l, 0, 0, 1))
		}
		return works
	case LinkSide:
		return []Work{p.work("separating_wall", l, l.Length, l.AreaM2, 1)}
	case LinkStair:
		works := []Work{p.work("close_stair", l, l.Length, l.AreaM2, 1)}
		if common {
			works = append(works, p.work("new_door", l, 0, 0, 1))
		}
		return works
	case LinkWall:
		return []Work{p.work("upgrade_wall", l, l.Length, l.AreaM2, 1)}
	case LinkFloor:
		return []Work{p.work("upgrade_floor", l, 0, l.AreaM2, 1)}
	}
	return nil
}

// mayPart is false where the brief's leave keeps away the works that part the
// link's ends; common tells that one of them is common.
func (p *pricing) mayPart(l Link, common bool) bool {
	if p.b.House.opened(l.Of) && !slices.Contains(p.parts, l.Of) {
		return false // the brief wants the two sides to be one
	}
	return !p.left(l.Of) && !p.left(l.Marks...) || len(p.separation(l, common)) == 0
}

// doorway gives the work of a new door or entry through a wall; ok is false
// where none can stand.
func (p *pricing) doorway(l Link) (work Work, ok bool) {
	if p.left(l.Marks...) || p.leftCells(l) {
		return Work{}, false
	}
	kind, rise, ok := p.b.doorwayThrough(l, p.prices.SeparatingWall.Thickness)
	if !ok {
		return Work{}, false
	}
	work = p.work(kind, l, 0, 0, 1)
	work.Cost = cents(work.Cost + p.prices.lintel(kind, l.Bearing) + p.prices.steps(kind, hundredth(rise)))
	switch {
	case kind == "new_entry" && rise > doorwayStep:
		work.Note = "with steps and a landing"
	case l.Bearing:
		work.Note = "in a bearing wall, with a lintel: an engineer decides"
	}
	return work, true
}

// leftCells tells whether a space at either end is one that no work may touch.
func (p *pricing) leftCells(l Link) bool {
	return p.left(p.b.Cells[l.U].Of) || l.V != Outside && p.left(p.b.Cells[l.V].Of)
}

// hosting gives the works of a cell that takes on a function; free is true
// where it has the function already.
func (p *pricing) hosting(c int, f Function) (works []Work, ok bool) {
	if f == HasBedroom && p.bedrooms != nil && (p.b.has(c, f) || p.b.takesUp(c, f)) {
		v := p.bedrooms.of(c)
		if !v.legal {
			return nil, false
		}
		works = v.works
	}
	if p.b.has(c, f) {
		return works, true
	}
	how, ok := p.b.convertible(c, f)
	if !ok || p.left(p.b.Cells[c].Of) {
		return nil, false
	}
	cell := &p.b.Cells[c]
	works = slices.Clone(works)
	if f == HasBedroom {
		doors, ok := p.closing(c)
		if !ok {
			return nil, false
		}
		works = append(works, doors...)
	}
	at := Work{Level: p.b.House.Levels[cell.Level].ID, Spaces: []string{cell.ID}, Count: 1}
	if how.work != "" {
		w := at
		w.Kind = how.work
		w.Cost = cents(p.prices.cost(how.work, 0, 0, 1))
		if how.part {
			w.Note = "completes what is there"
			w.Cost = cents(p.prices.completion(how.work))
		}
		works = append(works, w)
	}
	if how.finish > 0 {
		w := at
		w.Kind, w.AreaM2 = "finish_space", hundredth(how.finish)
		w.Cost = cents(p.prices.cost(w.Kind, 0, w.AreaM2, 1))
		works = append(works, w)
	}
	return works, true
}

// work is one piece of work at a link, with its quantities.
func (p *pricing) work(kind string, l Link, length, area float64, count int) Work {
	w := Work{
		Kind: kind, Level: p.b.House.Levels[l.Level].ID, Spaces: []string{p.b.Cells[l.U].ID}, Of: l.Of,
		LengthM: hundredth(length), AreaM2: hundredth(area), Count: count,
	}
	if l.V != Outside {
		w.Spaces = append(w.Spaces, p.b.Cells[l.V].ID)
	}
	slices.Sort(w.Spaces)
	if l.Line != (geom.Segment{}) {
		w.Line = []geom.Pt{l.Line.A, l.Line.B}
	}
	w.Cost = cents(p.prices.cost(kind, w.LengthM, w.AreaM2, count))
	return w
}

// total is what the works cost together.
func total(works []Work) float64 {
	sum := 0.0
	for _, w := range works {
		sum += w.Cost
	}
	return sum
}

// cents rounds money to the cent.
func cents(v float64) float64 { return decimal(v, moneyDecimals) }

// hundredth rounds a length or area to the hundredth before it is priced, so
// that a house turned on its lot costs the same.
func hundredth(v float64) float64 { return decimal(v, areaDecimals) }
