package assembly

import (
	"fmt"
	"math"

	"moiety/plan/acoustics"
	"moiety/plan/published"
)

// sameLength is how far two thicknesses or spacings may lie apart and be one:
// boards and batts are sold by the millimetre and by the sixteenth of an inch.
const sameLength = 0.0015

// imperialSpacing is how much wider than 400 and 600 mm the same spacings of
// 16 and 24 in are.
const imperialSpacing = 0.010

// ratingNote is how a build-up that no table lists is rated.
const ratingNote = "rated as row %s, which it contains; what it has beyond that row counts for nothing: an estimate, not a test"

// Rate rates a build-up by the published rows that it contains: a row of the
// same frame, spacing, fill and channels with no more and no better boards on
// either face. What it has beyond the row, a sheet under the new ones or a
// sound board, is taken to harm nothing and to help nothing (common practice,
// no source). The best fire rating and the best sound rating may come from
// different rows. What contains no row has no fire rating, and its sound is the
// mass law's estimate; so has a solid leaf.
func Rate(a Assembly) Rating {
	best := Rating{}
	exact := false
	for _, candidate := range orientations(a) {
		for i := range publishedRows {
			row := &publishedRows[i]
			same, ok := contains(&candidate, row)
			if !ok {
				continue
			}
			if same {
				best, exact = row.Rating, true
				break
			}
			best = better(best, row.Rating)
		}
		if exact {
			return best
		}
	}
	if best.Row != "" {
		best.FireEstimated, best.SoundEstimated = true, true
		best.How = fmt.Sprintf(ratingNote, best.Row)
	}
	estimate, ok := estimated(a)
	if ok && estimate.STC > best.STC {
		best.STC, best.SoundEstimated = estimate.STC, true
		how := fmt.Sprintf("sound by %s", estimate.Method)
		if best.Row == "" {
			best.Source = estimate.Source
			best.How = "no published row is contained in it: no fire rating; " + how
		} else {
			best.How += "; " + how
		}
	}
	if best.How == "" {
		best.How = "no published row is contained in it: neither fire nor sound rating is known"
		best.Source = published.Source{Standard: "none", Status: published.Practice}
	}
	return best
}

// better puts together the best of two ratings.
func better(a, b Rating) Rating {
	if a.Row == "" {
		return b
	}
	rows := a.Row
	if b.Fire > a.Fire || b.FireNonbearing > a.FireNonbearing || b.STC > a.STC || b.IIC > a.IIC {
		if dominates(b, a) {
			return b
		}
		rows += " and " + b.Row
	}
	a.Fire, a.FireNonbearing = max(a.Fire, b.Fire), max(a.FireNonbearing, b.FireNonbearing)
	a.STC, a.IIC = max(a.STC, b.STC), max(a.IIC, b.IIC)
	a.Row = rows
	return a
}

func dominates(a, b Rating) bool {
	return a.Fire >= b.Fire && a.FireNonbearing >= b.FireNonbearing && a.STC >= b.STC && a.IIC >= b.IIC
}

// orientations are the sides from which a build-up can be looked at.
func orientations(a Assembly) []Assembly {
	if a.Kind == Floor {
		return []Assembly{a}
	}
	return []Assembly{a, a.Flipped()}
}

// estimated is the mass law's estimate of a build-up's sound rating.
func estimated(a Assembly) (acoustics.Estimate, bool) {
	if a.Mass() <= 0 || math.IsInf(a.Mass(), 0) {
		return acoustics.Estimate{}, false
	}
	for _, l := range a.Layers {
		if l.Material.IsSolid() {
			e, err := acoustics.EstimateMasonry(a.Mass())
			return e, err == nil
		}
	}
	e, err := acoustics.EstimateFramed(a.Mass())
	return e, err == nil
}

// contains tells whether a build-up has everything that a row has, and whether
// it is that row and nothing more.
func contains(a, row *Assembly) (same, ok bool) {
	if a.Kind != row.Kind {
		return false, false
	}
	x, y := sections(a.Layers), sections(row.Layers)
	if len(x.core) != len(y.core) {
		return false, false
	}
	same = true
	for i, l := range y.core {
		if !sameCore(x.core[i], l) {
			return false, false
		}
		same = same && math.Abs(x.core[i].Thickness-l.Thickness) <= sameLength
	}
	for i := range y.faces {
		exact, held := x.faces[i].holds(y.faces[i])
		if !held {
			return false, false
		}
		same = same && exact
	}
	return same, true
}

// section is a build-up cut at its framing: what lies before it, it with its
// fills, and what lies behind it.
type section struct {
	faces [2]face
	core  []Layer
}

// face is what lies on one side of the framing, from the framing outwards.
type face []Layer

// sections cuts layers at the first and the last frame or solid leaf.
func sections(layers []Layer) section {
	first, last := -1, -1
	for i, l := range layers {
		if l.Material.IsFrame() || l.Material.IsSolid() {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 {
		return section{faces: [2]face{layers, nil}}
	}
	for last+1 < len(layers) && layers[last+1].Material.IsFill() {
		last++
	}
	s := section{core: layers[first : last+1]}
	for i := first - 1; i >= 0; i-- {
		s.faces[0] = append(s.faces[0], layers[i])
	}
	s.faces[1] = append(s.faces[1], layers[last+1:]...)
	return s
}

// sameCore tells whether a layer of the framing is what a row has there: the
// same framing at the same spacing, as deep or deeper; the same fill, as deep or deeper.
func sameCore(l, row Layer) bool {
	return l.Material == row.Material && l.Thickness >= row.Thickness-sameLength && math.Abs(l.Spacing-row.Spacing) <= imperialSpacing
}

// holds tells whether one side has all that a row's side has, in its order:
// the same channels at the same spacing, straight on the framing where the
// row's are, and at least its boards.
func (f face) holds(row face) (same, ok bool) {
	same = len(f) == len(row)
	n := 0
	for _, want := range row {
		for n < len(f) && !f[n].serves(want) {
			if !f[n].mayPrecede(want) {
				return false, false
			}
			same = false
			n++
		}
		if n == len(f) {
			return false, false
		}
		same = same && f[n].Material == want.Material && math.Abs(f[n].Thickness-want.Thickness) <= sameLength
		n++
	}
	for _, l := range f[n:] {
		if l.Material == Channel || l.Material == Furring {
			return false, false // a cavity that the row does not have
		}
	}
	return same, true
}

// serves tells whether a layer does what a row's layer does.
func (l Layer) serves(want Layer) bool {
	switch {
	case want.Material.IsBoard():
		return (l.Material == want.Material || l.Material == GypsumX) && l.Thickness >= want.Thickness-sameLength
	case want.Material == Subfloor:
		return l.Material == Subfloor && l.Thickness >= want.Thickness-sameLength
	}
	return l.Material == want.Material && math.Abs(l.Spacing-want.Spacing) <= imperialSpacing
}

// mayPrecede tells whether a layer may lie before a row's layer without
// spoiling it. A channel needs a free cavity behind it, so nothing may lie
// between it and the framing.
func (l Layer) mayPrecede(want Layer) bool {
	if want.Material == Channel || want.Material == Furring {
		return false
	}
	return l.Material != Channel && l.Material != Furring && l.Material != Air
}
