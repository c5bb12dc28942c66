package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/plan/assembly"
	"moiety/plan/published"
)

// Quantity is one row of the take-off: how much of a thing one wall, floor or
// work takes.
type Quantity struct {
	Item    string // in words: "Type X gypsum board"
	Size    string // "15.9 x 1220 x 2440 mm"; "" where it has none
	Measure string // sheets, pieces, m, m2, kg, tubes, rolls
	Unit    string // "A", "B" or "both"
	Level   string
	Cause   string // the wall or floor with its build-up ("SW1 bath-2 | bed-3") or the work's kind and spaces
	Of      string // the tag of a build-up, or the id of a work
	Net     float64
	Waste   float64 // share of Net that goes beside it
	Source  published.Source
}

// Needed is the net quantity with its waste.
func (q Quantity) Needed() float64 { return q.Net * (1 + q.Waste) }

// TakeOff works out what the scheme's works take, from the model: wall by wall,
// floor by floor, work by work, in the order of walls, floors and works. Areas
// of walls are those of their faces without taking doors off, which covers the
// filling of sealed ones. Nothing is rounded up here; Totals does.
func TakeOff(s *Scheme) []Quantity {
	t := &takeOff{s: s, share: 1}
	for i := range s.Walls {
		t.wall(&s.Walls[i])
	}
	for i := range s.Floors {
		t.floor(&s.Floors[i])
	}
	for i := range s.Works {
		t.work(&s.Works[i])
	}
	t.partitions()
	t.flooring()
	t.fixtures()
	return t.rows
}

// takeOff is a take-off under way.
type takeOff struct {
	s    *Scheme
	rows []Quantity
	at   Quantity // the cause that rows are added for
	from int      // the first row of the surface at hand
	// share is the part of what is counted that the cause at hand has.
	share float64
}

// add adds a row for the cause at hand, unless it is of nothing; the same item
// of the same cause is one row.
func (t *takeOff) add(item, size, measure string, net, waste float64, source published.Source) {
	if net *= t.share; net <= 0 {
		return
	}
	for i := len(t.rows) - 1; i >= t.from && i >= 0; i-- {
		if p := &t.rows[i]; p.Cause == t.at.Cause && p.Of == t.at.Of && p.Item == item && p.Size == size {
			p.Net += net
			return
		}
	}
	q := t.at
	q.Item, q.Size, q.Measure, q.Net, q.Waste, q.Source = item, size, measure, net, waste, source
	t.rows = append(t.rows, q)
}

// The sources of what is counted and what is measured on the model.
var (
	byCount   = published.Source{Standard: "counted on the model", Status: published.Read}
	byMeasure = published.Source{Standard: "measured on the model", Status: published.Read}
)

func (s *Scheme) buildUp(tag string) *BuildUp {
	if i := slices.IndexFunc(s.BuildUps, func(u BuildUp) bool { return u.Tag == tag }); tag != "" && i >= 0 {
		return &s.BuildUps[i]
	}
	return nil
}

// wall takes off one run of a separating wall.
func (t *takeOff) wall(w *WallRun) {
	up := t.s.buildUp(w.BuildUp)
	if up == nil {
		return
	}
	t.at = Quantity{
		Unit: bothText, Level: t.s.Building.House.Levels[w.Level].ID, Of: up.Tag,
		Cause: fmt.Sprintf("%s %s | %s", up.Tag, w.Between[0], w.Between[1]),
	}
	t.surface(up, w.Line.Length(), w.Height, w.Line.Length()*w.Height)
}

// floor takes off one separating floor.
func (t *takeOff) floor(f *FloorRun) {
	up := t.s.buildUp(f.BuildUp)
	if up == nil {
		return
	}
	t.at = Quantity{Unit: bothText, Of: up.Tag, Cause: fmt.Sprintf("%s %s under %s", up.Tag, f.Below, f.Above)}
	if c := t.s.Building.CellNamed(f.Below); c >= 0 {
		t.at.Level = t.s.Building.House.Levels[t.s.Building.Cells[c].Level].ID
	}
	// The ceiling of a room is one, whatever lies over it: channels and edges are
	// those of all of it, and each floor over it has its share by area. Members run
	// over the side of a square of that area, for want of the joists' direction.
	ceiling := 0.0
	for i := range t.s.Floors {
		if g := &t.s.Floors[i]; g.Below == f.Below && g.BuildUp == f.BuildUp {
			ceiling += g.Region.AreaM2()
		}
	}
	side := math.Sqrt(ceiling)
	t.share = f.Region.AreaM2() / ceiling
	t.surface(up, side, side, ceiling)
	t.share = 1
}

const bothText = "both"

// surface takes off the new layers of a build-up over a surface of that length,
// height (of a floor, width) and area.
func (t *takeOff) surface(up *BuildUp, length, height, area float64) {
	t.from = len(t.rows)
	f := &takeOffFigures
	core := up.frameAt()
	var outer [2]bool // the face is touched and gets joints
	sheets, layers := 0.0, 0
	for i, l := range up.Layers {
		if l.State != New {
			continue
		}
		lines := math.Floor(height/max(l.Spacing, 0.1)+memberTolerance) + 1
		switch {
		case l.Material.IsBoard():
			n, size := sheetsOf(l.Layer, area, up.Assembly.Kind, height)
			t.add(string(l.Material), size, "sheets", n, f.SheetWaste.Value, f.SheetLengths.Source)
			sheets, layers = sheets+n, layers+1
			outer[btoi(i > core)] = true
		case l.Material == assembly.SoundBoard || l.Material == assembly.Subfloor || l.Material == assembly.Underlay:
			n, size := sheetsOf(l.Layer, area, assembly.Floor, height)
			t.add(string(l.Material), size, "sheets", n, f.PanelWaste.Value, f.PanelWaste.Source)
		case l.Material.IsFill():
			t.add(string(l.Material), fmt.Sprintf("%g mm", millimetresOf(l.Thickness)), "m2", area, f.BattWaste.Value, f.BattWaste.Source)
		case l.Material == assembly.Channel || l.Material == assembly.Furring:
			t.add(string(l.Material), "", "m", lines*length, f.ChannelWaste.Value, f.ChannelWaste.Source)
		case l.Material.IsFrame():
			t.frame(up, l.Layer, length, height)
		}
	}
	t.jointing(area*float64(btoi(outer[0])+btoi(outer[1])), sheets)
	edge := f.SealantBeads.Value * length
	if up.Assembly.Kind == assembly.Floor {
		edge = 2 * (length + height) // all round
	}
	t.add("acoustical sealant", "300 ml", "tubes", edge*float64(layers)/f.SealantTube.Value, 0, f.SealantTube.Source)
	for _, l := range up.Removed {
		t.add("taken off: "+string(l.Material), fmt.Sprintf("%g mm", millimetresOf(l.Thickness)), "m2", area, 0, byMeasure)
	}
}

// jointing takes off what joins and fixes boards: compound and tape by the m2 of
// the faces that are finished, screws by the sheet.
func (t *takeOff) jointing(faces, sheets float64) {
	f := &takeOffFigures
	t.add("joint compound, dry", "", "kg", faces*f.Compound.Value, 0, f.Compound.Source)
	t.add("joint tape", fmt.Sprintf("%g m", f.TapeRoll.Value), "rolls", faces*f.Tape.Value/f.TapeRoll.Value, 0, f.Tape.Source)
	t.add("board screws", "", "kg", sheets*f.Screws.Value, 0, f.Screws.Source)
}

// memberTolerance keeps a member that falls just on the end of a run from being
// lost to the rounding of coordinates.
const memberTolerance = 1e-3

// StudsAlong counts studs along a wall of that length in metres: the whole
// spaces in it and one more.
func StudsAlong(length, spacing float64) int {
	return int(math.Floor(length/spacing+memberTolerance)) + 1
}

// frame takes off new framing: studs by the spaces between them and one more,
// plates along the wall. Joists of a new ceiling take no plates.
func (t *takeOff) frame(up *BuildUp, l assembly.Layer, length, height float64) {
	f := &takeOffFigures
	rows, depth := 1.0, l.Thickness
	if l.Material == assembly.StaggeredStuds {
		rows, depth = 2, assembly.StudDepth
	}
	n := rows * float64(StudsAlong(length, l.Spacing))
	t.add(string(l.Material), studSize(depth, height), "pieces", n, f.StudWaste.Value, f.StudWaste.Source)
	if up.Assembly.Kind == assembly.Wall {
		t.add("plates", fmt.Sprintf("38 x %g mm", millimetresOf(l.Thickness)), "m", f.Plates.Value*length, f.StudWaste.Value, f.Plates.Source)
	}
}

// studSize is that of a stud of a depth in a wall of a height, cut from the next
// length of a tenth of a metre.
func studSize(depth, height float64) string {
	return fmt.Sprintf("38 x %g x %.0f mm", millimetresOf(depth), 1000*math.Ceil(height*10-memberTolerance)/10)
}

// frameAt is the place of the framing among the layers.
func (u *BuildUp) frameAt() int {
	return slices.IndexFunc(u.Layers, func(l BuildUpLayer) bool { return l.Material.IsFrame() || l.Material.IsSolid() })
}

// sheetsOf counts sheets by area: for a wall the shortest that reach from floor
// to ceiling, otherwise the common length.
func sheetsOf(l assembly.Layer, area float64, kind assembly.Kind, height float64) (n float64, size string) {
	f := &takeOffFigures
	lengths := f.SheetLengths.Value
	long := lengths[0]
	if kind == assembly.Wall {
		for _, x := range lengths {
			if long = x; x >= height-memberTolerance {
				break
			}
		}
	}
	return area / (f.SheetWidth.Value * long), fmt.Sprintf("%g x %.0f x %.0f mm", millimetresOf(l.Thickness), 1000*f.SheetWidth.Value, 1000*long)
}

func millimetresOf(m float64) float64 { return decimal(1000*m, 1) }

// Totals adds the rows of a take-off up by item, size and unit, and rounds up
// what is bought whole. Rows for both units stay apart from a unit's own.
func Totals(rows []Quantity) []Quantity {
	var out []Quantity
	for _, q := range rows {
		i := slices.IndexFunc(out, func(p Quantity) bool { return p.Item == q.Item && p.Size == q.Size && p.Unit == q.Unit })
		if i < 0 {
			q.Net, q.Waste = q.Needed(), 0
			q.Cause, q.Of, q.Level = "", "", ""
			out = append(out, q)
			continue
		}
		out[i].Net += q.Needed()
	}
	for i := range out {
		if slices.Contains([]string{"sheets", "pieces", "tubes", "rolls", "sets"}, out[i].Measure) {
			out[i].Net = math.Ceil(out[i].Net - memberTolerance)
		}
	}
	slices.SortStableFunc(out, func(a, b Quantity) int {
		return cmp.Or(strings.Compare(a.Item, b.Item), strings.Compare(a.Size, b.Size), strings.Compare(a.Unit, b.Unit))
	})
	return out
}
