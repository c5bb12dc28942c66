package render_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// printedArea is an area as it stands on a sheet.
type printedArea struct {
	text   string
	m2     float64
	within float64
	at     spot
	row    []inkedText // what stands on the same line to its left, from the left
}

var areaText = regexp.MustCompile(`(\d+(?:\.\d+)?) (m²|ft²)`)

// is tells whether an area is the one printed, as closely as it is printed.
func (a printedArea) is(m2 float64) bool { return math.Abs(m2-a.m2) <= a.within }

// heads tells whether a text on the line begins what is looked for: a long
// name goes on in the next line.
func (a printedArea) heads(what string) bool {
	return slices.ContainsFunc(a.row, func(x inkedText) bool {
		return x.text != "" && strings.HasPrefix(what, strings.TrimSuffix(x.text, ","))
	})
}

// areasOf are all areas printed on a page, with the line that each stands on.
func areasOf(t testing.TB, p page) []printedArea {
	t.Helper()
	var all []printedArea
	for _, x := range p.texts {
		for _, m := range areaText.FindAllStringSubmatch(x.text, -1) {
			v, err := strconv.ParseFloat(m[1], 64)
			require.NoError(t, err)
			_, places, _ := strings.Cut(m[1], ".")
			a := printedArea{text: x.text, m2: v, at: x.at, within: 0.501 * math.Pow(10, -float64(len(places)))}
			if m[2] == "ft²" {
				a.m2, a.within = v*0.3048*0.3048, a.within*0.3048*0.3048
			}
			for _, y := range p.texts {
				if math.Abs(y.at.y-x.at.y) < 0.01 && y.at.x < x.at.x && y.turn == x.turn {
					a.row = append(a.row, y)
				}
			}
			slices.SortFunc(a.row, func(a, b inkedText) int { return int(math.Copysign(1, a.at.x-b.at.x)) })
			all = append(all, a)
		}
	}
	return all
}

// ringArea is the area of a region by the shoelace formula.
func ringArea(r geom.Region) float64 {
	sum := 0.0
	for _, ring := range r.Rings() {
		around := 0.0
		for i, a := range ring {
			ax, ay := a.Metres()
			bx, by := ring[(i+1)%len(ring)].Metres()
			around += ax*by - bx*ay
		}
		sum += around / 2 // a hole is wound the other way
	}
	return math.Abs(sum)
}

// Every area printed on every sheet is one that was worked out, of what it
// stands beside.
func TestEveryPrintedAreaIsTheOneWorkedOut(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		works := worksAreas(s)
		checked := 0
		for _, sheet := range sheets {
			p := readSheetSVG(t, sheet)
			for _, a := range areasOf(t, p) {
				checked++
				switch {
				case labelArea(s, sheet, a), keyArea(sheet, p, a), figureArea(s, sheet, a), floorArea(s, a):
				case strings.HasPrefix(sheet.Number, "A-6") && (scheduleArea(t, s, a) || takeArea(works, a)):
				default:
					t.Errorf("sheet %s: %q at %.0f, %.0f beside %v", sheet.Number, a.text, a.at.x, a.at.y, a.row)
				}
			}
		}
		assert.Greater(t, checked, 30)
	})
}

// labelArea is the area of a room or a piece of ground, lettered in it.
func labelArea(s *plan.Scheme, sheet *render.Sheet, a printedArea) bool {
	for _, box := range sheet.Boxes {
		if box.Text != a.text || box.Cell == "" || onPaper(box.Corners[0]).to(a.at) > 2 {
			continue
		}
		for _, c := range sheet.Views[box.View].Building.Cells {
			if c.ID == box.Cell {
				return a.is(ringArea(c.Region))
			}
		}
	}
	return strings.HasPrefix(a.text, "footprint ") && a.is(footprintOf(s))
}

func footprintOf(s *plan.Scheme) float64 {
	var shapes []geom.Shape
	for i, l := range s.Building.House.Levels {
		if !l.Outdoor {
			shapes = append(shapes, s.Building.Levels[i].Outline)
		}
	}
	all, err := geom.Union(shapes...)
	if err != nil {
		return 0
	}
	sum := 0.0
	for _, r := range all {
		sum += ringArea(r)
	}
	return sum
}

// keyArea is the area of a room in the key: of the cell that carries the
// number beside it, or whose name stands before it.
func keyArea(sheet *render.Sheet, p page, a printedArea) bool {
	const column, rowDepth = 64, 13
	var number inkedText
	for _, x := range p.texts {
		above := x.at.y - a.at.y
		if x.at.x < a.at.x-1 && x.at.x > a.at.x-9 && above > -0.01 && above < rowDepth && (number.text == "" || x.at.y < number.at.y) && justDigits.MatchString(x.text) {
			number = x
		}
	}
	for _, box := range sheet.Boxes {
		if box.Text == number.text && box.Cell != "" {
			for _, c := range sheet.Views[box.View].Building.Cells {
				if c.ID == box.Cell && a.is(ringArea(c.Region)) {
					return true
				}
			}
		}
	}
	for _, v := range sheet.Views {
		for _, c := range v.Building.Cells {
			if !a.is(ringArea(c.Region)) {
				continue
			}
			name := c.Name
			if name == "" {
				name = string(c.Use)
			}
			for _, x := range p.texts {
				if x.turn == 0 && x.at.y >= a.at.y-0.01 && x.at.y < a.at.y+rowDepth && math.Abs(x.at.x-a.at.x) < column && strings.HasPrefix(x.text, name) {
					return true
				}
			}
		}
	}
	return false
}

var justDigits = regexp.MustCompile(`^\d+$`)

// figureArea is an area in a list of the cover, of the site or of a unit.
func figureArea(s *plan.Scheme, sheet *render.Sheet, a printedArea) bool {
	if len(a.row) == 0 || strings.HasPrefix(sheet.Number, "A-6") {
		return false
	}
	if strings.HasPrefix(sheet.Title, "Cover") {
		return coverArea(s, a)
	}
	for i, u := range s.Units {
		if unit, ok := strings.CutPrefix(sheet.Title, "Unit "); ok && !strings.HasPrefix(unit, u.ID) {
			continue
		}
		for name, m2 := range map[string]float64{
			"Net area, inside faces": u.NetM2, "Net area inside new linings": u.NetM2 - u.LiningM2, "Gross area": u.GrossM2, "of it above grade": u.AboveM2, "of it below grade": u.BelowM2, "Outdoor area": s.Units[i].OutdoorM2,
		} {
			if a.heads(name) && a.is(m2) {
				return true
			}
		}
	}
	return false
}

// coverArea is an area on the cover: of a level or all together, of each unit
// and of both, or of the lot.
func coverArea(s *plan.Scheme, a printedArea) bool {
	b := s.Building
	const column, values, value = 68.0, 64 - 3*15.0, 15.0
	head := slices.IndexFunc(a.row, func(x inkedText) bool { return a.at.x-x.at.x < column && math.Mod(x.at.x-24, column) < 0.01 })
	if head < 0 {
		return false
	}
	name := a.row[head].text
	begins := func(whole string) bool { return strings.HasPrefix(whole, name) }
	for l, level := range b.House.Levels {
		title := level.Name
		if title == "" {
			title = level.ID
		}
		outside := 0.0
		for _, r := range b.Levels[l].Outline {
			outside += ringArea(r)
		}
		if begins("Floor, "+title+", outside faces") && a.is(outside) {
			return true
		}
		// Which of the three columns it stands in tells whose it is.
		who := plan.Owner(math.Floor((a.at.x - a.row[head].at.x - values) / value))
		net := 0.0
		for i := range b.Cells {
			if c := &b.Cells[i]; c.Level == l && !c.Outdoor && c.Use != plan.Garage && s.Owners[i] == who {
				net += ringArea(c.Region)
			}
		}
		if begins(title) && a.is(net) {
			return true
		}
	}
	who := int(math.Floor((a.at.x - a.row[head].at.x - values) / value))
	lot, floors := 0.0, 0.0
	for _, l := range b.House.Lots {
		lot += ringArea(l.Region)
	}
	for l, level := range b.House.Levels {
		if !level.Outdoor {
			for _, r := range b.Levels[l].Outline {
				floors += ringArea(r)
			}
		}
	}
	if begins("Lot area") && a.is(lot) || begins("Footprint of the house") && a.is(footprintOf(s)) || begins("Floors together, outside faces") && a.is(floors) {
		return true
	}
	if who < 0 || who > 1 {
		return false
	}
	u := s.Units[who]
	return begins("Net together") && a.is(u.NetM2) || begins("Gross") && a.is(u.GrossM2) || begins("above grade") && a.is(u.AboveM2) ||
		begins("below grade") && a.is(u.BelowM2) || begins("Outdoors") && a.is(u.OutdoorM2)
}

// floorArea is how much separating floor a level has under or over it.
func floorArea(s *plan.Scheme, a printedArea) bool {
	if !strings.Contains(a.text, "of separating") {
		return false
	}
	for l := range s.Building.House.Levels {
		for _, of := range [][]plan.Owner{{plan.UnitA, plan.UnitB, plan.Common, plan.Nobody}, {plan.UnitA, plan.Common}, {plan.UnitB, plan.Common}} {
			under, over := 0.0, 0.0
			for _, f := range s.Floors {
				if f.State != plan.Separating {
					continue
				}
				area := 0.0
				for _, r := range f.Region {
					area += ringArea(r)
				}
				for i, c := range s.Building.Cells {
					if c.Level != l || c.Flight || !slices.Contains(of, s.Owners[i]) {
						continue
					}
					if c.ID == f.Above {
						under += area
					} else if c.ID == f.Below {
						over += area
					}
				}
			}
			if a.is(under) || a.is(over) {
				return true
			}
		}
	}
	return false
}

// scheduleArea is the area of a room in its row, or the clear area of a window
// whose width stands before it.
func scheduleArea(t testing.TB, s *plan.Scheme, a printedArea) bool {
	for i, c := range s.Building.Cells {
		if c.Flight || c.Public || !a.is(ringArea(c.Region)) {
			continue
		}
		name := c.Name
		if name == "" {
			name = string(c.Use)
		}
		owner := s.Owners[i].String()
		if a.heads(name) && (s.Owners[i] != plan.UnitA && s.Owners[i] != plan.UnitB || a.heads(owner)) {
			return true
		}
	}
	for _, p := range s.Windows {
		wide := slices.ContainsFunc(a.row, func(x inkedText) bool {
			if !lengthText.MatchString(x.text) {
				return false
			}
			metres, within := printedMetres(t, x.text)
			return math.Abs(metres-p.Line.Length()) <= within+0.0005
		})
		if wide && p.ClearSaid && a.is(p.Clear[0]*p.Clear[1]) {
			return true
		}
	}
	return false
}

var lengthText = regexp.MustCompile(`^(\d{3,5}|(\d+'-)?\d+( \d/\d)?")$`)

// worksAreas sums the works' areas as the schedule does: of one kind, unit,
// level and remark.
func worksAreas(s *plan.Scheme) map[string]float64 {
	sums := map[string]float64{}
	for _, w := range s.Works {
		if w.AreaM2 > 0 {
			sums[fmt.Sprint(w.Kind, w.Unit, w.Level, w.Note)] += w.AreaM2
		}
	}
	return sums
}

// takeArea finds the sum of works that an area is, and takes it out.
func takeArea(works map[string]float64, a printedArea) bool {
	for name, m2 := range works {
		if a.is(m2) {
			delete(works, name)
			return true
		}
	}
	return false
}
