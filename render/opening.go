package render

import (
	"math"

	"moiety/geom"
	"moiety/plan"
)

// placed is where an opening lies in its wall.
type placed struct {
	line      geom.Segment // on the middle of the wall, jamb to jamb
	thickness float64      // of the wall, metres
	exterior  bool
}

func (p placed) rectangle(over float64) geom.Region {
	return strip(p.line, 0, p.line.Length(), p.thickness/2+over)
}

// door is a door or cased opening as a plan shows it.
type door struct {
	plan.Door
	state plan.State
	at    placed
	left  bool   // swings to the left of the line
	sides [2]int // cells to the left and right of the line
	tag   string // its number in the schedule, "" for none
	entry string // units whose way in it is
	mine  bool
	// swingSaid is false where the survey does not say which way it opens and
	// it is drawn as is usual.
	swingSaid bool
	elsewhere bool // lettered on the sheet of another part of the level
}

// window is a window as a plan shows it.
type window struct {
	plan.Window
	state plan.State
	at    placed
	left  bool     // outdoors lies to the left of the line
	goes  bool     // is taken out, or broken out to be larger
	tags  []string // numbers in the schedule: of several one above another, all
	mine  bool

	elsewhere bool // lettered on the sheet of another part of the level
}

// thinWall is the thickness, in metres, given to an opening for which no wall
// was found: a stud partition (common practice, no source).
const thinWall = 0.12

// inWall finds the wall that a line drawn along it lies in, and moves the
// line to its middle.
func (f *floor) inWall(line geom.Segment) placed {
	const reach = 0.12 // metres: a line is mended by up to 0.10 m when read
	best, nearest := placed{line: line, thickness: thinWall}, math.Inf(1)
	mid := line.Mid()
	for _, w := range f.b.Walls {
		if w.Open || w.Thickness <= geom.Coincide || !f.onLevel(w.A) && !f.onLevel(w.B) || !parallel(w.FaceA, line) {
			continue
		}
		along, off := w.FaceA.Along(mid), w.FaceA.Off(mid)
		if along < 0 || along > w.FaceA.Length() {
			continue
		}
		// The far face of a wall lies to the right of the near one.
		d := math.Abs(off + w.Thickness/2)
		if d > w.Thickness/2+reach || d >= nearest {
			continue
		}
		nearest = d
		middle := geom.Segment{A: w.FaceA.Beside(0, -w.Thickness/2), B: w.FaceA.Beside(w.FaceA.Length(), -w.Thickness/2)}
		best = placed{
			line:      geom.Segment{A: middle.At(middle.Along(line.A)), B: middle.At(middle.Along(line.B))},
			thickness: w.Thickness,
			exterior:  w.B == geom.Exposed || f.b.Cells[w.A].Outdoor != f.b.Cells[w.B].Outdoor,
		}
	}
	return best
}

// onLevel tells whether a cell is seen on the level: it lies on it, or is a
// flight that starts or ends there.
func (f *floor) onLevel(cell int) bool {
	if cell < 0 || cell >= len(f.b.Cells) {
		return false
	}
	c := &f.b.Cells[cell]
	return c.Level == f.level || c.Flight && c.To == f.level
}

func (f *floor) gatherOpenings() {
	if f.s == nil {
		for _, d := range f.b.House.Doors {
			if d.Level == f.level {
				f.doors = append(f.doors, f.placeDoor(d, plan.Existing))
			}
		}
		for _, w := range f.b.House.Windows {
			f.addWindow(w, plan.Existing, "")
		}
		return
	}
	tags := doorTags(f.s)
	for i, p := range f.s.Passages {
		if p.Door == nil || p.Level != f.level {
			continue
		}
		d := f.placeDoor(*p.Door, p.State)
		d.entry, d.tag = p.Entry, tags[i]
		f.doors = append(f.doors, d)
	}
	tags = windowTags(f.s)
	for i, w := range f.s.Windows {
		f.addWindow(w.Window, w.State, tags[i])
	}
}

func (f *floor) placeDoor(d plan.Door, state plan.State) door {
	at := f.inWall(d.Line)
	drawn := door{Door: d, state: state, at: at}
	const beyond = 0.10 // metres past the face: on the floor of the room
	mid := at.line.Length() / 2
	drawn.sides = [2]int{
		f.cellAt(at.line.Beside(mid, at.thickness/2+beyond)),
		f.cellAt(at.line.Beside(mid, -at.thickness/2-beyond)),
	}
	drawn.mine = f.unit == ""
	for i, c := range drawn.sides {
		if c < 0 {
			continue
		}
		drawn.mine = drawn.mine || f.shows(c)
		if d.OpensInto != "" && f.b.Cells[c].Of == d.OpensInto {
			drawn.left, drawn.swingSaid = i == 0, true
		}
	}
	if d.Opening || d.Leaf == plan.Sliding || d.Leaf == plan.Pocket {
		drawn.swingSaid = true
	}
	if !drawn.swingSaid {
		drawn.left = f.usualSwing(drawn.sides)
	}
	return drawn
}

// usualSwing is how a door opens where nobody said so: inwards from
// outdoors, and from a hall into the room it serves. True is to the left.
func (f *floor) usualSwing(sides [2]int) bool {
	left, right := sides[0], sides[1]
	indoors := func(c int) bool { return c >= 0 && !f.b.Cells[c].Outdoor }
	switch {
	case !indoors(left) || !indoors(right):
		return indoors(left)
	case f.use(left).DeadEnd() != f.use(right).DeadEnd():
		return f.use(left).DeadEnd()
	}
	return f.b.Cells[left].AreaM2 > f.b.Cells[right].AreaM2
}

// addWindow places a window of the level; of several in one place, one above
// another, a plan shows one.
func (f *floor) addWindow(w plan.Window, state plan.State, tag string) {
	if w.Level != f.level {
		return
	}
	at := f.inWall(w.Line)
	for i, other := range f.windows {
		if other.at.line == at.line || other.at.line == at.line.Reverse() {
			if tag != "" {
				f.windows[i].tags = append(f.windows[i].tags, tag)
			}
			return
		}
	}
	at.exterior = true
	drawn := window{Window: w, state: state, at: at, mine: f.unit == ""}
	if tag != "" {
		drawn.tags = []string{tag}
	}
	const beyond = 0.10
	mid := at.line.Length() / 2
	left := f.cellAt(at.line.Beside(mid, at.thickness/2+beyond))
	right := f.cellAt(at.line.Beside(mid, -at.thickness/2-beyond))
	drawn.left = left < 0 || right >= 0 && f.b.Cells[left].Outdoor
	for _, c := range []int{left, right} {
		drawn.mine = drawn.mine || c >= 0 && f.shows(c)
	}
	f.windows = append(f.windows, drawn)
}
