package plan

import (
	"cmp"
	_ "embed"
	"fmt"
	"math"
	"slices"

	"moiety/plan/acoustics"
	"moiety/plan/published"
)

//go:embed data/noise.json
var noiseFile []byte

var noiseFigures = published.MustDecode[struct {
	SourceDB published.Figure[map[string]float64] `json:"source_db"`
	NightDB  published.Figure[float64]            `json:"night_db"`
	TakenSTC published.Figure[float64]            `json:"taken_stc"`
}](noiseFile)

// NoiseConflict is a noisy room of one unit against a bedroom of the other,
// across the wall or floor that parts them.
type NoiseConflict struct {
	Noisy, Quiet string // cells
	NoisyUse     string // "stair" for a flight
	Surface      string // wall or floor
	Above        bool   // the noisy room lies over the quiet one: steps are heard too
	AreaM2       float64
	STC          int
	IIC          int    // of a floor below the noisy room; 0 not known
	RatedBy      string // the build-up's tag, or that it was taken
	// SourceDB is a usual level in the noisy room, ReceivedDB what of it comes
	// through the surface alone into the quiet one, furnished.
	SourceDB, ReceivedDB float64
	// Cost is what the conflict weighs in the scheme's priorities.
	Cost float64
	Note string
}

// addNoise lists the noise conflicts across the separation, those first of
// which most comes through.
func (s *Scheme) addNoise(prices *Prices) {
	s.Noise = nil
	b := s.Building
	for _, l := range b.Links {
		if s.parted(l) != partedUnits || l.Kind != LinkWall && l.Kind != LinkFloor {
			continue
		}
		cost := noisePrice(b, l, prices, s.Brief)
		found := false
		for _, of := range [...][2]int{{l.U, l.V}, {l.V, l.U}} {
			if use, loud, ok := s.loudness(of[0]); ok && s.sleepsIn(of[1]) {
				conflict := s.conflict(l, of[0], of[1], use, loud)
				if !found {
					conflict.Cost = cost
				}
				found = true
				s.Noise = append(s.Noise, conflict)
			}
		}
		if !found && cost > 0 {
			s.Noise = append(s.Noise, s.formerConflict(l, cost))
		}
	}
	slices.SortStableFunc(s.Noise, func(p, q NoiseConflict) int {
		// By the tenth of a decibel, so that a turned house has the same order.
		return cmp.Or(cmp.Compare(math.Round(10*q.ReceivedDB), math.Round(10*p.ReceivedDB)),
			cmp.Compare(p.Quiet, q.Quiet), cmp.Compare(p.Noisy, q.Noisy), cmp.Compare(p.Surface, q.Surface))
	})
}

// loudness gives the loudest of a cell's uses in the scheme with its level.
func (s *Scheme) loudness(c int) (use string, db float64, noisy bool) {
	levels := noiseFigures.SourceDB.Value
	if s.Building.Cells[c].Flight {
		return "stair", levels["stair"], true
	}
	for _, u := range append([]Use{s.Uses[c]}, s.Also[c]...) {
		if level, ok := levels[string(u)]; ok && level > db {
			use, db, noisy = string(u), level, true
		}
	}
	return use, db, noisy
}

// sleepsIn tells whether people sleep in a cell as the scheme uses it.
func (s *Scheme) sleepsIn(c int) bool {
	return s.Uses[c] == Bedroom || slices.Contains(s.Also[c], Bedroom)
}

func (s *Scheme) conflict(l Link, noisy, quiet int, use string, loud float64) NoiseConflict {
	b := s.Building
	room := &b.Cells[quiet]
	out := NoiseConflict{
		Noisy: b.Cells[noisy].ID, Quiet: room.ID, NoisyUse: use, Surface: "wall", AreaM2: l.AreaM2, SourceDB: loud,
	}
	if l.Kind == LinkFloor {
		out.Surface, out.Above = "floor", l.V == noisy
	}
	out.STC, out.IIC, out.RatedBy = s.rating(l)
	if !out.Above {
		out.IIC = 0
	}
	volume := max(room.AreaM2*(room.Ceiling-room.Floor), 1)
	out.ReceivedDB = acoustics.Received(loud, float64(out.STC), l.AreaM2, acoustics.Furnished(volume))
	if night := noiseFigures.NightDB.Value; out.ReceivedDB > night {
		out.Note = fmt.Sprintf("more than the %.0f dB of a quiet bedroom at night", night)
	}
	if out.Above {
		out.Note = joinNotes(out.Note, "steps and dropped things are heard besides: the floor's impact rating counts")
	}
	return out
}

// formerConflict is a pair that the price reckons with by the surveyed uses,
// though the scheme uses a room otherwise.
func (s *Scheme) formerConflict(l Link, cost float64) NoiseConflict {
	b := s.Building
	noisyCell, quietCell := l.U, l.V
	if !noisy(&b.Cells[l.U]) || !b.Cells[l.V].is(Bedroom) {
		noisyCell, quietCell = l.V, l.U
	}
	out := NoiseConflict{
		Noisy: b.Cells[noisyCell].ID, Quiet: b.Cells[quietCell].ID, NoisyUse: string(b.Cells[noisyCell].Use),
		Surface: "wall", AreaM2: l.AreaM2, Cost: cost, Note: "priced by the surveyed uses; as the scheme uses the rooms there is no conflict",
	}
	if l.Kind == LinkFloor {
		out.Surface = "floor"
	}
	out.STC, _, out.RatedBy = s.rating(l)
	return out
}

// rating gives what the build-up of a separating surface reaches; where none is
// known, what a code asks between dwellings is taken.
func (s *Scheme) rating(l Link) (stc, iic int, by string) {
	between := [2]string{s.Building.Cells[l.U].ID, s.Building.Cells[l.V].ID}
	for _, up := range s.BuildUps {
		if up.Assembly.STC == 0 {
			continue
		}
		for _, surface := range up.Surfaces {
			turned := [2]string{surface.Between[1], surface.Between[0]}
			if floor := surface.Work == "upgrade_floor"; (surface.Between == between || turned == between) && floor == (l.Kind == LinkFloor) {
				return up.Assembly.STC, up.Assembly.IIC, up.Tag
			}
		}
	}
	return int(noiseFigures.TakenSTC.Value), 0, "taken"
}
