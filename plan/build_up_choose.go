package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/plan/assembly"
	"moiety/plan/rules"
)

// thinWall is the thinnest that a wall of 89 mm studs with a sheet of board on
// each side is measured: what is thinner is taken down and built anew.
const thinWall = 0.095

// addBuildUps chooses a build-up for every separating surface of the scheme:
// of the ways from what is there to what the catalogue and the brief's own file
// hold, the cheapest by the price file's layers that reaches the targets; where
// none does, the one that comes nearest, which says what it lacks.
func (s *Scheme) addBuildUps(set *rules.Set, prices *Prices) {
	c := &buildUpChoice{s: s, targets: s.targets(set), prices: prices, chosen: map[string]*option{}}
	for _, l := range s.Building.Links {
		c.surface(l)
	}
	slices.SortStableFunc(c.ups, func(a, b *BuildUp) int { return cmp.Compare(a.rank(), b.rank()) })
	count := map[assembly.Kind]int{}
	s.BuildUps = nil
	for _, up := range c.ups {
		count[up.Assembly.Kind]++
		up.Tag = fmt.Sprintf("%s%d", tagLetters[up.Assembly.Kind], count[up.Assembly.Kind])
		up.note()
		s.BuildUps = append(s.BuildUps, *up)
	}
	s.tagRuns()
	s.addLinings()
	s.addWeakPoints()
}

// tagLetters begin the tags of build-ups; works have numbers after a W.
var tagLetters = map[assembly.Kind]string{assembly.Wall: "SW", assembly.Floor: "SF"}

// rank puts walls before floors.
func (u *BuildUp) rank() int {
	if u.Assembly.Kind == assembly.Wall {
		return 0
	}
	return 1
}

// buildUpChoice is the choice of a scheme's build-ups under way.
type buildUpChoice struct {
	s       *Scheme
	targets Targets
	prices  *Prices
	chosen  map[string]*option // by what is there
	ups     []*BuildUp
}

// option is a way to build a surface.
type option struct {
	assembly.Change
	start string
	cost  float64 // per m2
}

// surface chooses for one link, if it separates.
func (c *buildUpChoice) surface(l Link) {
	b := c.s.Building
	if c.s.parted(l) == partedNot || b.Cells[l.U].Outdoor || b.Cells[l.V].Outdoor {
		return
	}
	surface := BuildUpSurface{
		Between: [2]string{b.Cells[l.U].ID, b.Cells[l.V].ID}, Level: l.Level, LengthM: hundredth(l.Length), AreaM2: hundredth(l.AreaM2),
	}
	switch l.Kind {
	case LinkWall:
		surface.Work = "upgrade_wall"
		c.use(c.wall(l), surface, l.mayBear())
	case LinkOpen, LinkSide:
		surface.Work = "separating_wall"
		c.use(c.newWall(), surface, false)
	case LinkStair:
		surface.Work = "close_stair"
		c.use(c.newWall(), surface, false)
	case LinkFloor:
		surface.Work = "upgrade_floor"
		c.use(c.floor(l), surface, true)
	}
}

// mayBear tells whether a wall bears, or may because nobody said that it does not.
func (l Link) mayBear() bool { return l.Bearing || len(l.Marks) == 0 }

// use adds a surface to the build-up chosen for it.
func (c *buildUpChoice) use(o *option, surface BuildUpSurface, bearing bool) {
	i := slices.IndexFunc(c.ups, func(u *BuildUp) bool {
		return u.Start == o.start && slices.Equal(u.Removed, o.Removed) && slices.Equal(u.Layers, o.layers())
	})
	if i < 0 {
		up := &BuildUp{
			Assembly: o.Assembly, Layers: o.layers(), Removed: o.Removed, Start: o.start, Targets: c.targets,
			CostPerM2: cents(o.cost), Gain: o.Gain,
		}
		if up.Assembly.Kind == assembly.Wall {
			up.Targets.IIC = 0
		}
		c.ups, i = append(c.ups, up), len(c.ups)
	}
	up := c.ups[i]
	up.Bearing = up.Bearing || bearing
	up.Shortfall = shortfall(&up.Assembly, up.Targets, up.Bearing).text
	up.Meets = up.Shortfall == ""
	up.Surfaces = append(up.Surfaces, surface)
	up.AreaM2 = hundredth(up.AreaM2 + surface.AreaM2)
	up.LengthM = hundredth(up.LengthM + surface.LengthM)
}

func (o *option) layers() []BuildUpLayer {
	out := make([]BuildUpLayer, len(o.Layers))
	for i, l := range o.Layers {
		out[i] = BuildUpLayer{l, Existing}
		if o.New[i] {
			out[i].State = New
		}
	}
	return out
}

// newWallStart says what is there where a new wall goes.
const newWallStart = "nothing: a new wall"

func (c *buildUpChoice) newWall() *option {
	return c.choose("new wall", assembly.Wall, false, func() []option {
		var out []option
		for _, g := range c.goals(assembly.Wall) {
			out = append(out, option{Change: assembly.Build(g), start: newWallStart})
		}
		return out
	})
}

func (c *buildUpChoice) wall(l Link) *option {
	// From thinWall up it is taken as one of 89 mm studs, of which a survey lost a little.
	existing := assembly.ExistingWall(max(l.Thickness, usualWall))
	thin := l.Thickness < thinWall
	key := fmt.Sprint("wall ", existing.Name, thin, l.mayBear())
	return c.choose(key, assembly.Wall, l.mayBear(), func() []option {
		var out []option
		for _, g := range c.goals(assembly.Wall) {
			if thin {
				out = append(out, option{Change: assembly.Rebuild(existing, g), start: "a wall too thin to build on: taken down and built anew"})
				continue
			}
			for _, change := range assembly.Upgrades(existing, g) {
				out = append(out, option{Change: change, start: existing.Name})
			}
		}
		if len(out) == 0 {
			for _, g := range c.goals(assembly.Wall) {
				out = append(out, option{Change: assembly.Rebuild(existing, g), start: "a wall that no listed build-up starts from: taken down and built anew"})
			}
		}
		return out
	})
}

// usualWall is the thickness of a wall of 89 mm studs with a sheet of 12.7 mm
// board on each side.
const usualWall = 0.089 + 2*assembly.ThinBoard

// flightFloor is how thin a floor is under or between flights: no joists.
const flightFloor = 0.118

func (c *buildUpChoice) floor(l Link) *option {
	b := c.s.Building
	if l.Thickness < flightFloor {
		depth := b.freeUnder(l.U)
		return c.choose(fmt.Sprintf("flight over %.2f m", depth), assembly.Floor, true, func() []option {
			var out []option
			for _, change := range assembly.UnderFlight(depth) {
				out = append(out, option{Change: change, start: "the underside of a flight"})
			}
			return out
		})
	}
	existing := assembly.ExistingFloor(l.Thickness, b.ceilinged(l.U))
	return c.choose("floor "+existing.Name, assembly.Floor, true, func() []option {
		var out []option
		for _, g := range c.goals(assembly.Floor) {
			for _, change := range assembly.Upgrades(existing, g) {
				out = append(out, option{Change: change, start: existing.Name})
			}
		}
		if len(out) > 0 {
			return out
		}
		for _, goals := range [][]assembly.Assembly{c.goals(assembly.Floor), c.s.Brief.buildUpsOf(assembly.Floor)} {
			for _, g := range goals {
				if on, ok := assembly.Shallower(existing, g); ok {
					g = on
				}
				for _, change := range assembly.Upgrades(existing, g) {
					out = append(out, option{Change: change, start: existing.Name + "; no listed build-up starts from it"})
				}
			}
			if len(out) > 0 {
				break
			}
		}
		return out
	})
}

// Heights that are left free under what is built below a flight, metres: over
// another flight, in a room where people stand, and in a store under the stairs
// (common practice, no source; the rule sets' own figures are checked after).
const (
	leastHeadroom = 1.95
	leastStanding = 2.10
	leastStore    = 1.00
)

// freeUnder is how deep a construction under a flight may be before the space
// below, a flight or a room, is too low to be used.
func (b *Building) freeUnder(cell int) float64 {
	below := &b.Cells[cell]
	if below.Flight {
		if f, ok := b.measuredFlight(cell); ok {
			if height, _, ok := b.headroom(f); ok {
				return max(height-leastHeadroom, 0)
			}
		}
		return 0
	}
	least := leastStanding
	if below.is(Storage) || below.is(Closet) {
		least = leastStore
	}
	return max(below.Ceiling-below.Floor-least, 0)
}

// ceilinged tells whether a cell has a ceiling of board today: a finished
// space, or a flight's underside.
func (b *Building) ceilinged(cell int) bool {
	c := &b.Cells[cell]
	if c.Flight {
		return true
	}
	i := slices.IndexFunc(b.House.Spaces, func(s Space) bool { return s.ID == c.ID || s.ID == c.Of })
	return i < 0 || b.House.Spaces[i].Finished
}

// goals lists what a wall or floor may become: what the brief wants, otherwise
// everything there is.
func (c *buildUpChoice) goals(kind assembly.Kind) []assembly.Assembly {
	all, wanted := c.s.Brief.buildUpsOf(kind), c.s.Brief.Separation.wantedBuildUp(kind)
	if wanted == "" {
		return all
	}
	return slices.DeleteFunc(all, func(a assembly.Assembly) bool { return a.ID != wanted })
}

// choose picks the best of the options for what is there, once.
func (c *buildUpChoice) choose(key string, kind assembly.Kind, bearing bool, options func() []option) *option {
	if o := c.chosen[key]; o != nil {
		return o
	}
	targets := c.targets
	if kind == assembly.Wall {
		targets.IIC = 0
	}
	var best *option
	var lacks lacking
	for _, o := range options() {
		o.cost = c.prices.Layers.change(&o.Change)
		l := shortfall(&o.Assembly, targets, bearing)
		if best == nil || l.compare(lacks) < 0 || l.compare(lacks) == 0 && o.compare(best) < 0 {
			best, lacks = &o, l
		}
	}
	c.chosen[key] = best
	return best
}

// compare puts the cheaper option first, then the thinner, then the simpler.
func (o *option) compare(p *option) int {
	if d := o.cost - p.cost; math.Abs(d) > 0.005 {
		return cmp.Compare(d, 0)
	}
	if d := o.Thickness() - p.Thickness(); math.Abs(d) > 0.0005 {
		return cmp.Compare(d, 0)
	}
	return cmp.Compare(len(o.Layers), len(p.Layers))
}

// change is what a way from what is there to a build-up costs per m2.
func (p *LayerPrices) change(c *assembly.Change) float64 {
	sum := float64(len(c.Removed)) * p.Strip
	core := slices.IndexFunc(c.Layers, func(l assembly.Layer) bool { return l.Material.IsFrame() })
	var touched [2]bool
	for i, l := range c.Layers {
		if !c.New[i] {
			continue
		}
		sum += p.layer(l)
		if !l.Material.IsFill() && !l.Material.IsFrame() && l.Material != assembly.Air {
			touched[btoi(i > core)] = true
		}
	}
	switch {
	case c.Kind == assembly.Floor && c.Layers[0].Material == assembly.Flight:
	case c.Kind == assembly.Floor && touched[0]:
		sum += p.LiftFloor
	case touched[0]:
		sum += p.Finish
	}
	if touched[1] {
		sum += p.Finish
	}
	return sum
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// lacking is what a build-up lacks of its targets: fire first, then sound.
type lacking struct {
	fire, stc, iic int
	text           string
}

func (l lacking) compare(m lacking) int {
	return cmp.Or(cmp.Compare(l.fire, m.fire), cmp.Compare(l.stc, m.stc), cmp.Compare(l.iic, m.iic))
}

// shortfall compares a build-up's ratings with its targets.
func shortfall(a *assembly.Assembly, t Targets, bearing bool) lacking {
	var l lacking
	var texts []string
	lack := func(into *int, has, target int, name, unit string) {
		if has >= target {
			return
		}
		*into = target - has
		if has == 0 {
			texts = append(texts, fmt.Sprintf("no published %s for it, %d%s asked", name, target, unit))
		} else {
			texts = append(texts, fmt.Sprintf("%s %d%s of the %d%s asked", name, has, unit, target, unit))
		}
	}
	lack(&l.fire, a.FireFor(bearing), t.FireMinutes, "fire rating", " min")
	lack(&l.stc, a.STC, t.STC, "STC", "")
	lack(&l.iic, a.IIC, t.IIC, "IIC", "")
	l.text = strings.Join(texts, "; ")
	return l
}
