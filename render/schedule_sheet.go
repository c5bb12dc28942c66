package render

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"moiety/plan"
)

// notSurveyed stands in a schedule where the survey says nothing.
const notSurveyed = "–"

// scheduleSheets lists rooms, doors, windows, flights and works.
func (p *project) scheduleSheets() ([]*Sheet, error) {
	width := p.panelWide()
	var blocks []block
	for _, s := range []struct {
		subject subject
		table   table
	}{
		{doorSchedule, p.doorTable()},
		{windowSchedule, p.windowTable()},
		{flightSchedule, p.flightTable()},
		{roomSchedule, p.roomTable()},
		{workSchedule, p.workTable()},
		{alarmSchedule, p.alarmTable()},
		{findingSchedule, p.findingTable()},
	} {
		if len(s.table.rows) == 0 && (s.subject == alarmSchedule || s.subject == findingSchedule) {
			continue // no rule set was applied
		}
		b := p.fonts.tableBlock(s.table, width)
		b.subject = s.subject
		blocks = append(blocks, b)
	}
	notes := block{title: "Notes to the schedules", width: width}
	for _, text := range []string{
		"A dash: not surveyed. Widths and heights of doors and windows are those of the opening, jamb to jamb; clear openings are given where they were surveyed.",
		"A window that lights a bedroom may have to serve for escape: its clear opening and its sill are to be checked against the local code.",
		"The going of a flight is the least along its walk line. Floors of rooms are heights above the survey's datum.",
		"Quantities follow from the drawn scheme; costs are screening figures, no quotation.",
	} {
		notes.rows = append(notes.rows, p.fonts.passage(text, 0, width))
	}
	blocks = append(blocks, notes)
	return p.tableSheets("Schedules", "Permit draft, schedules", blocks), nil
}

// ownerName is whose something is, in a schedule.
func ownerName(o plan.Owner) string {
	switch o {
	case plan.UnitA, plan.UnitB:
		return o.String()
	case plan.Common:
		return "shared"
	}
	return notSurveyed
}

// cellName is what a cell is called: its own name, else its use; of a piece
// of a divided space which piece it is.
func (p *project) cellName(c *plan.Cell) string {
	name := p.fonts.legible(c.Name)
	if name == "" && c.Flight {
		name = "Flight " + p.fonts.legible(c.Of)
	}
	if name == "" {
		name = useName(c.Use)
	}
	return name
}

// named is what the cell of an id is called; the outdoors where there is none.
func (p *project) named(id string) string {
	i := p.b.CellNamed(id)
	if i < 0 {
		return "outdoors"
	}
	return p.cellName(&p.b.Cells[i])
}

// byLevel orders levels from the lowest, those outdoors last.
func (p *project) byLevel(a, b int) int {
	la, lb := p.b.House.Levels[a], p.b.House.Levels[b]
	return cmp.Or(cmp.Compare(boolInt(la.Outdoor), boolInt(lb.Outdoor)), cmp.Compare(la.Floor, lb.Floor), cmp.Compare(a, b))
}

func (p *project) roomTable() table {
	t := table{title: "Rooms and ground", none: "none", columns: []column{
		{name: "Level"}, {name: "Room"}, {name: "Unit"}, {name: "Use"}, {name: "Use until now"},
		{name: "Clear size", right: true}, {name: "Area", right: true}, {name: "Ceiling", right: true}, {name: "Floor", right: true},
	}}
	var cells []int
	for i := range p.b.Cells {
		if !p.b.Cells[i].Flight {
			cells = append(cells, i)
		}
	}
	slices.SortStableFunc(cells, func(a, b int) int {
		return cmp.Or(p.byLevel(p.b.Cells[a].Level, p.b.Cells[b].Level), cmp.Compare(p.s.Owners[a], p.s.Owners[b]))
	})
	for _, i := range cells {
		c := &p.b.Cells[i]
		use, was := useName(p.s.Uses[i]), ""
		if p.s.Uses[i] != c.Use {
			was = useName(c.Use)
		}
		for _, also := range p.also(i) {
			use += ", " + strings.ToLower(useName(also))
		}
		size, area, ceiling := "", p.m.area(c.AreaM2), ""
		if w, h := clearSize(c.Region, p.turn); w > 0 && h > 0 && (!c.Outdoor || c.Use == plan.Parking || c.Use == plan.Drive) {
			size = p.m.size(w, h)
		}
		if c.Public {
			area = "" // only a part of it was surveyed
		}
		if !c.Outdoor && c.Ceiling > c.Floor {
			ceiling = p.m.length(c.Ceiling - c.Floor)
		}
		t.rows = append(t.rows, []string{p.levelName(c.Level), p.cellName(c), ownerName(p.s.Owners[i]), use, was, size, area, ceiling, p.m.elevation(c.Floor)})
	}
	return t
}

// also are the further uses that a cell has in the scheme.
func (p *project) also(cell int) []plan.Use {
	if cell < len(p.s.Also) {
		return p.s.Also[cell]
	}
	return nil
}

func (p *project) doorTable() table {
	t := table{title: "Doors and openings", none: "none", columns: []column{
		{name: "Tag"}, {name: "Work"}, {name: "Level"}, {name: "From"}, {name: "To"}, {name: "Leaf"},
		{name: "Width", right: true}, {name: "Height", right: true}, {name: "Rating", right: true}, {name: "Remarks"},
	}}
	tags := doorTags(p.s)
	done := map[passageKey]bool{}
	var order []int
	for i, q := range p.s.Passages {
		if q.Door != nil && !done[keyOf(q)] {
			done[keyOf(q)] = true
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return byTag(tags[a], tags[b]) })
	for _, i := range order {
		q := p.s.Passages[i]
		tag, leaf := tags[i], string(q.Door.Leaf)
		if tag == "" {
			tag = notSurveyed
		}
		switch {
		case q.Door.Opening:
			leaf = "none"
		case leaf == "":
			leaf = "single"
		}
		height, rating := notSurveyed, ""
		if q.Door.Height > 0 {
			height = p.m.dimension(q.Door.Height)
		}
		if q.Door.RatingMinutes > 0 {
			rating = strconv.Itoa(q.Door.RatingMinutes) + " min"
		}
		var remarks []string
		work := stateName(q.State)
		for _, w := range p.s.Works {
			if w.Of == q.Of && w.Kind == "new_door" && q.State != plan.New {
				work = "to be replaced"
				if w.Note != "" {
					remarks = append(remarks, p.fonts.legible(w.Note))
				}
			}
		}
		for _, unit := range q.Entry {
			remarks = append(remarks, "entry of unit "+string(unit))
		}
		if q.State == plan.New && !q.Door.Opening && p.parts(q) {
			remarks = append(remarks, "between the units")
		}
		t.rows = append(t.rows, []string{
			tag, work, p.levelName(q.Level), p.named(q.Between[0]), p.named(q.Between[1]), leaf,
			p.m.dimension(q.Line.Length()), height, rating, strings.Join(remarks, "; "),
		})
	}
	return t
}

// parts tells whether a passage lies between the two units.
func (p *project) parts(q plan.Passage) bool {
	var owners [2]plan.Owner
	for i, id := range q.Between {
		owners[i] = plan.Nobody
		if c := p.b.CellNamed(id); c >= 0 {
			owners[i] = p.s.Owners[c]
		}
	}
	return owners == [2]plan.Owner{plan.UnitA, plan.UnitB} || owners == [2]plan.Owner{plan.UnitB, plan.UnitA}
}

// byTag orders tags by their numbers; what has none comes last.
func byTag(a, b string) int {
	number := func(tag string) int {
		if n, err := strconv.Atoi(strings.TrimLeft(tag, "DW")); err == nil {
			return n
		}
		return 1 << 30
	}
	return cmp.Compare(number(a), number(b))
}

// stateName is what a state means for the builder.
func stateName(s plan.State) string {
	switch s {
	case plan.Existing, plan.Kept:
		return "stays"
	case plan.Sealed:
		return "to be sealed"
	case plan.Removed:
		return "to be removed"
	case plan.Enlarged:
		return "to be enlarged"
	case plan.New:
		return "new"
	}
	return string(s)
}

func (p *project) windowTable() table {
	t := table{title: "Windows", none: "none surveyed", columns: []column{
		{name: "Tag"}, {name: "Work"}, {name: "Level"}, {name: "Room"}, {name: "Unit"}, {name: "Width", right: true}, {name: "Height", right: true},
		{name: "Sill", right: true}, {name: "Opens"}, {name: "Clear", right: true}, {name: "Clear area", right: true}, {name: "Well", right: true}, {name: "Remarks"},
	}}
	tags := windowTags(p.s)
	order := make([]int, len(tags))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return byTag(tags[a], tags[b]) })
	for _, i := range order {
		w := p.s.Windows[i]
		room, unit, remark := "", "", ""
		if c := p.behind(w); c >= 0 {
			room, unit = p.cellName(&p.b.Cells[c]), ownerName(p.s.Owners[c])
			if p.s.Uses[c] == plan.Bedroom {
				remark = "lights a bedroom"
			}
		}
		clear, free, well, height, opens := notSurveyed, "", "", notSurveyed, notSurveyed
		if w.ClearSaid {
			clear, free = p.m.dimension(w.Clear[0])+" × "+p.m.dimension(w.Clear[1]), p.m.opening(w.Clear[0]*w.Clear[1])
		}
		if w.WellSaid && w.WellProjection > 0 {
			well = p.m.dimension(w.WellProjection)
			if w.Width > 0 {
				well += " × " + p.m.dimension(w.Width)
			}
		}
		if w.Height > 0 {
			height = p.m.dimension(w.Height)
		}
		if w.Operation != "" {
			opens = strings.ReplaceAll(w.Operation, "_", " ")
		}
		t.rows = append(t.rows, []string{
			tags[i], stateName(w.State), p.levelName(w.Level), room, unit, p.m.dimension(w.Line.Length()), height,
			p.m.dimension(w.Sill), opens, clear, free, well, remark,
		})
	}
	return t
}

// behind is the indoor cell that a window lights, or -1.
func (p *project) behind(w plan.PlacedWindow) int {
	return p.b.CellNamed(w.Cell)
}

// opening writes the area of an opening: finer than that of a room.
func (m measure) opening(m2 float64) string {
	if m.imperial {
		return strconv.FormatFloat(m2*squareFeetPerM2, 'f', 1, 64) + " ft²"
	}
	return strconv.FormatFloat(m2, 'f', 2, 64) + " m²"
}

func (p *project) flightTable() table {
	t := table{title: "Flights of stairs", none: "none", columns: []column{
		{name: "Flight"}, {name: "From"}, {name: "To"}, {name: "Unit"}, {name: "Rise", right: true}, {name: "Risers", right: true},
		{name: "Each", right: true}, {name: "Walk line", right: true}, {name: "Going", right: true}, {name: "Width", right: true}, {name: "Work"},
	}}
	h := p.b.House
	for _, s := range h.Stairs {
		rise := h.Levels[s.To].Floor - h.Levels[s.Level].Floor
		risers, each, goes, width := notSurveyed, notSurveyed, notSurveyed, notSurveyed
		run := 0.0
		for i := 0; i+1 < len(s.Walk); i++ {
			run += s.Walk[i].Distance(s.Walk[i+1])
		}
		if s.Risers > 0 {
			risers, each = strconv.Itoa(s.Risers), p.m.dimension(rise/float64(s.Risers))
		}
		if s.Risers > 1 {
			if g := (flight{stair: s, rise: rise}).leastGoing(); g > 0 {
				goes = p.m.dimension(g)
			}
		}
		if s.Width > 0 {
			width = p.m.dimension(s.Width)
		}
		unit := ""
		for i, c := range p.b.Cells {
			if c.Flight && c.Of == s.ID {
				unit = ownerName(p.s.Owners[i])
			}
		}
		work := "stays"
		for _, q := range p.s.Passages {
			if q.Type == "stair" && q.State == plan.Sealed && q.Of == s.ID {
				work = "closed off, " + p.levelName(q.Level)
			}
		}
		name := p.fonts.legible(s.Name)
		if name == "" {
			name = p.fonts.legible(s.ID)
		}
		t.rows = append(t.rows, []string{
			name, p.levelName(s.Level), p.levelName(s.To), unit, p.m.dimension(rise), risers, each, p.m.dimension(run), goes, width, work,
		})
	}
	return t
}

// workTable sums the works of one kind, unit and level.
func (p *project) workTable() table {
	t := table{title: "Works and quantities", none: "none", columns: []column{
		{name: "Work"}, {name: "Unit"}, {name: "Level"}, {name: "Where"}, {name: "No.", right: true}, {name: "Length", right: true},
		{name: "Area", right: true}, {name: "Cost", right: true}, {name: "Remarks"},
	}}
	type key struct{ kind, unit, level, note string }
	var order []key
	groups := map[key][]plan.Work{}
	for _, w := range p.s.Works {
		k := key{w.Kind, w.Unit, w.Level, w.Note}
		if groups[k] == nil {
			order = append(order, k)
		}
		groups[k] = append(groups[k], w)
	}
	for _, k := range order {
		var length, area, cost float64
		count := 0
		var where []string
		for _, w := range groups[k] {
			length, area, cost = length+w.LengthM, area+w.AreaM2, cost+w.Cost
			count += max(w.Count, 1)
			if at := p.workPlace(w); !slices.Contains(where, at) {
				where = append(where, at)
			}
		}
		row := []string{useName(plan.Use(k.kind)), k.unit, p.levelNamed(k.level), strings.Join(where, "; "), strconv.Itoa(count), "", "", money(cost), p.fonts.legible(k.note)}
		if length > 0 {
			row[5] = p.m.run(length)
		}
		if area > 0 {
			row[6] = p.m.area(area)
		}
		t.rows = append(t.rows, row)
	}
	if len(t.rows) > 0 {
		t.rows = append(t.rows, []string{"Together", "", "", "", "", "", "", money(p.s.Cost.Works), "in the currency of the price file"})
	}
	return t
}

// workPlace names the spaces that a work concerns.
func (p *project) workPlace(w plan.Work) string {
	names := make([]string, len(w.Spaces))
	for i, id := range w.Spaces {
		names[i] = p.named(id)
	}
	return strings.Join(names, " | ")
}

func (p *project) levelNamed(id string) string {
	i := slices.IndexFunc(p.b.House.Levels, func(l plan.Level) bool { return l.ID == id })
	if i < 0 {
		return p.fonts.legible(id)
	}
	return p.levelName(i)
}

// run writes a length of work with its unit.
func (m measure) run(metres float64) string {
	if m.imperial {
		return feetAndInches(metres)
	}
	return strconv.FormatFloat(metres, 'f', 2, 64) + " m"
}

// money writes an amount in whole units with its thousands parted.
func money(v float64) string {
	text := fmt.Sprintf("%.0f", v)
	for i := len(text) - 3; i > 0 && text[i-1] != '-'; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
