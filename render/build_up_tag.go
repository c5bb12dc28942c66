package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan"
)

// buildUps numbers how the stretches of a separation are built, throughout a
// set in the order of the scheme's walls: S1, S2.
type buildUps struct {
	list  []buildUp
	used  []bool                   // on the sheet being drawn
	known map[string]*plan.BuildUp // the scheme's own, by their tags
}

type buildUp struct {
	kind      wallKind
	name      string
	thickness float64
}

func (b *buildUps) of(kind wallKind, r plan.WallRun) buildUp {
	if b.known[r.BuildUp] != nil {
		return buildUp{name: r.BuildUp}
	}
	return buildUp{kind, r.BuildUp, math.Round(r.Thickness/geom.Coincide) * geom.Coincide}
}

// gather lists the build-ups of a scheme.
func (b *buildUps) gather(s *plan.Scheme) {
	b.known = map[string]*plan.BuildUp{}
	for i := range s.BuildUps {
		b.known[s.BuildUps[i].Tag] = &s.BuildUps[i]
	}
	cells := make(map[string]int, len(s.Building.Cells))
	for i, c := range s.Building.Cells {
		cells[c.ID] = i
	}
	for _, r := range s.Walls {
		if kind, ok := kindOf(s, r, cells); ok && (kind == wallNewSeparating || kind == wallUpgraded) {
			b.index(b.of(kind, r))
		}
	}
}

func (b *buildUps) index(u buildUp) int {
	i := slices.Index(b.list, u)
	if i < 0 {
		b.list, b.used = append(b.list, u), append(b.used, false)
		i = len(b.list) - 1
	}
	return i
}

// onSheet is the same list with none of it used yet.
func (b *buildUps) onSheet() *buildUps {
	return &buildUps{list: slices.Clone(b.list), used: make([]bool, len(b.list)), known: b.known}
}

// use notes that a build-up of the scheme is on the sheet.
func (b *buildUps) use(tag string) {
	b.used[b.index(buildUp{name: tag})] = true
}

func (b *buildUps) number(part *wallPart) string {
	i := b.index(b.of(part.kind, part.run))
	b.used[i] = true
	return b.tag(i)
}

// fire is how long a build-up of the scheme withstands fire, to stand behind
// its tag; "" where nothing was published of it.
func (b *buildUps) fire(tag string) string {
	own := b.known[tag]
	if own == nil || own.Assembly.FireFor(own.Bearing) == 0 {
		return ""
	}
	return fmt.Sprintf("  %d min", own.Assembly.FireFor(own.Bearing))
}

// ratings are the fire and sound ratings of a build-up, in short.
func ratings(up *plan.BuildUp) string {
	r := up.Assembly.Rating
	fire := "no published fire rating"
	if minutes := up.Assembly.FireFor(up.Bearing); minutes > 0 {
		fire = fmt.Sprintf("fire %d min", minutes)
		if r.FireEstimated {
			fire += " (estimate)"
		}
	}
	sound := "sound rating not known"
	if r.STC > 0 {
		sound = fmt.Sprintf("STC %d", r.STC)
		if r.IIC > 0 {
			sound += fmt.Sprintf(", IIC %d", r.IIC)
		}
		if r.SoundEstimated {
			sound += " (estimate)"
		}
	}
	return fire + "; " + sound
}

// tag is the scheme's own, or S and a number.
func (b *buildUps) tag(i int) string {
	if u := b.known[b.list[i].name]; u != nil {
		return u.Tag
	}
	return numbered("S", i+1)
}

// block lists the build-ups by their numbers, in short where their details
// have a sheet.
func (b *buildUps) block(t *typeface, m measure, details string) block {
	out := block{title: "Separation"}
	for i, u := range b.list {
		if !b.used[i] {
			continue
		}
		text := "new separating wall"
		if u.kind == wallUpgraded {
			text = "existing wall, upgraded both sides"
		}
		text = fmt.Sprintf("%s, %s thick", text, m.thickness(u.thickness))
		if u.name != "" && u.name != "separating wall" {
			text += ": " + t.legible(u.name)
		}
		number := b.tag(i)
		if own := b.known[u.name]; own != nil {
			text = t.legible(own.Assembly.Name)
			if head, _, ok := strings.Cut(text, ": "); ok && details != "" {
				text = head + ", layer by layer on sheet " + details
			}
			text = ratings(own) + "; " + text
			if own.Shortfall != "" {
				text += ". " + t.legible(own.Shortfall)
			}
		}
		indent := max(8, t.width(number, smallText, true)+2)
		lines := t.wrapped(text, columnWidth-indent, smallText, false)
		out.rows = append(out.rows, blockRow{height: textStep*float64(len(lines)) + 1, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - smallText}, words{text: number, height: smallText, bold: true}, onSheet())
			for i, l := range lines {
				s.write(Point{at.X + indent, at.Y - smallText - textStep*float64(i)}, words{text: l, height: smallText}, onSheet())
			}
		}})
	}
	return out
}

// thickness writes the thickness of a wall.
func (m measure) thickness(metres float64) string {
	if m.imperial {
		return feetAndInches(metres)
	}
	return m.dimension(metres) + " mm"
}
