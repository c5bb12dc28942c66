package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"moiety/geom"
	"moiety/plan"
)

// Signs of noise, millimetres.
const (
	noiseReach   = 4.2 // of an arrow on either side of its wall
	noisePadding = 1.0 // around a number
)

// noiseSign is one noise conflict on the plan of a level: a number, and where
// it comes through a wall of the level an arrow into the quiet room.
type noiseSign struct {
	number int
	says   string // beside the number: where it comes from or goes, "" through a wall
	cell   int    // that the number stands in
	runs   []geom.Segment
	thick  float64
	into   geom.Region // the quiet room, behind the wall
}

// noiseOf are the noise conflicts of a scheme that are heard, by their place
// in its list, which ranks them.
func (p *project) noiseOf() []int {
	var heard []int
	for i, n := range p.s.Noise {
		if n.SourceDB > 0 {
			heard = append(heard, i)
		}
	}
	return heard
}

// noiseSigns are the signs of a level.
func (p *project) noiseSigns(level int) []noiseSign {
	var signs []noiseSign
	for number, i := range p.noiseOf() {
		n := p.s.Noise[i]
		noisy, quiet := p.b.CellNamed(n.Noisy), p.b.CellNamed(n.Quiet)
		if noisy < 0 || quiet < 0 {
			continue
		}
		sign := noiseSign{number: number + 1, cell: quiet}
		if n.Surface == "floor" {
			from, to := "from below", "up"
			if n.Above {
				from, to = "from above", "down"
			}
			sign.says = from
			if p.b.Cells[quiet].Level == level {
				signs = append(signs, sign)
			}
			if p.b.Cells[noisy].Level == level && !p.b.Cells[noisy].Flight {
				sign.cell, sign.says = noisy, to
				signs = append(signs, sign)
			}
			continue
		}
		for _, w := range p.s.Walls {
			if w.Level == level && !w.Fence && slices.Contains(w.Between[:], n.Noisy) && slices.Contains(w.Between[:], n.Quiet) {
				sign.runs, sign.thick = append(sign.runs, w.Line), w.Thickness
			}
		}
		if len(sign.runs) > 0 {
			slices.SortStableFunc(sign.runs, func(a, b geom.Segment) int {
				switch la, lb := a.Length(), b.Length(); {
				case la > lb+geom.Coincide:
					return -1
				case la < lb-geom.Coincide:
					return 1
				}
				return 0
			})
			sign.into = p.b.Cells[quiet].Region
			signs = append(signs, sign)
		}
	}
	return signs
}

// noiseSheets draw which rooms of one unit are heard in the other's bedrooms:
// plans with a number and an arrow for each, and the list that ranks them.
func (p *project) noiseSheets() ([]*Sheet, error) {
	var level, turned []*planView
	for _, proposed := range p.proposed {
		signs := p.noiseSigns(proposed.level)
		if len(signs) == 0 {
			continue
		}
		f := proposed.withTurn(p.turn)
		f.plain, f.noise = true, signs
		level = append(level, newPlanView(f, p.fonts, "noise"))
		turned = append(turned, newPlanView(f.withTurn(p.turn+90), p.fonts, "noise"))
	}
	if len(level) == 0 {
		return nil, nil
	}
	for _, scale := range planScales(p.m.imperial)[1:] {
		for _, views := range [][]*planView{level, turned} {
			if sheets := p.dealt("Noise between the units", "Permit draft, noise", scale, views, []block{p.noiseList()}); sheets != nil {
				return sheets, nil
			}
		}
	}
	return nil, fmt.Errorf("render: the plans of noise do not fit on %s at any scale", p.paper.Name)
}

// noiseList ranks the conflicts as the scheme does, by what comes through.
func (p *project) noiseList() block {
	b := block{title: "Noise, the loudest first"}
	for number, i := range p.noiseOf() {
		n := p.s.Noise[i]
		way := "through the wall"
		switch {
		case n.Surface == "floor" && n.Above:
			way = "from above"
		case n.Surface == "floor":
			way = "from below"
		}
		rated := fmt.Sprintf("%s, STC %d", n.RatedBy, n.STC)
		if n.RatedBy == "taken" {
			rated = fmt.Sprintf("STC %d taken", n.STC)
		}
		if n.IIC > 0 {
			rated += fmt.Sprintf(", IIC %d", n.IIC)
		}
		from, use := p.named(n.Noisy), useName(plan.Use(n.NoisyUse))
		if !strings.EqualFold(from, use) {
			from += " (" + strings.ToLower(use) + ")"
		}
		text := fmt.Sprintf("%s  %s, %s into %s: %s, about %.0f dB.", noiseNumber(number+1), from, way, p.named(n.Quiet), rated, max(n.ReceivedDB, 0))
		b.rows = append(b.rows, p.fonts.paragraph(text, 0))
	}
	b.rows = append(b.rows, p.fonts.paragraph("Usual levels of rooms, from memory, less the laboratory's rating of the surface, into a furnished bedroom: "+
		"through the surface alone. Sound that passes round it, steps and things that drop come on top.", 0))
	return b
}

func noiseNumber(n int) string { return "N" + strconv.Itoa(n) }

// drawNoise puts the signs of noise on a plan, before the names of the rooms.
func (p *plot) drawNoise() {
	for _, s := range p.noise {
		if p.piece != nil && !p.piece.owns(p.turnedPoint(p.b.Cells[s.cell].Region.Bounds().Min)) && len(s.runs) == 0 {
			continue
		}
		near, ok := p.drawNoiseArrow(s)
		if len(s.runs) > 0 && !ok {
			p.legend.say(noiseNumber(s.number) + ": no room for its arrow; the list says where it goes.")
			continue
		}
		p.numberNoise(s, near, ok)
	}
	if len(p.noise) > 0 {
		p.legend.say("N and a number: noise from a room of one unit into a bedroom of the other, the loudest first; an arrow crosses the wall, up and down mean the floor.")
	}
}

// drawNoiseArrow draws the arrow through the wall, and gives its head.
func (p *plot) drawNoiseArrow(s noiseSign) (head Point, ok bool) {
	// Where something stands before the wall the arrow begins at its face.
	for try := range 2 * len(s.runs) {
		run, before := s.runs[try%len(s.runs)], noiseReach
		if try >= len(s.runs) {
			before = 0
		}
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
			at := run.At(share * run.Length())
			if p.piece != nil && !p.piece.owns(p.turnedPoint(at)) {
				continue
			}
			into := run.Beside(share*run.Length(), s.thick/2+0.1)
			mid, inside := p.view.Paper(at), p.view.Paper(into)
			dir := inside.sub(mid).unit()
			if s.into.Contains(into) != geom.Inside {
				dir = dir.times(-1)
			}
			half := p.view.mm(s.thick) / 2
			tail, tip := mid.sub(dir.times(half+before)), mid.add(dir.times(half+noiseReach))
			shaft := hindrance(tail, tip).wider(0.9)
			quad := [4]Point{shaft[0], shaft[1], shaft[2], shaft[3]}
			if !p.free(quad) || p.overText(quad) {
				continue
			}
			p.sheet.stroke(layerSign, line(thick), polyline(tail, tip.sub(dir.times(escapeHead/2))))
			p.sheet.fill(layerSign, black, arrowHead(tip, dir))
			p.taken = append(p.taken, shaft)
			return tip, true
		}
	}
	return Point{}, false
}

// numberNoise letters the number of a sign in its room, near its arrow where it has one.
func (p *plot) numberNoise(s noiseSign, near Point, arrow bool) {
	text := noiseNumber(s.number)
	if s.says != "" {
		text += " " + s.says
	}
	rings := p.rings(geom.Shape{p.b.Cells[s.cell].Region})
	if !arrow {
		near = boundsOf(rings[0]...).centre()
	}
	width, height := p.sheet.fonts.width(text, smallText, true)+2*noisePadding, smallText+2*noisePadding
	for _, strict := range []bool{true, false} {
		c, ok := p.findPlace(rings, places(rings, near), width, height, strict)
		if !ok {
			continue
		}
		r := Rect{c.X - width/2, c.Y - height/2, c.X + width/2, c.Y + height/2}
		corners := r.corners()
		p.sheet.both(layerSign, white, line(medium), polygon(corners[:]...))
		p.sheet.write(Point{r.X0 + noisePadding, c.Y - smallText/2}, words{text: text, height: smallText, bold: true}, p.box(TagBox, ""))
		p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = corners
		p.taken = append(p.taken, obstacle(corners[:]))
		return
	}
	p.legend.say(text + ": in " + p.sheet.fonts.legible(p.b.Cells[s.cell].Name) + ", which is too small to letter it.")
}
