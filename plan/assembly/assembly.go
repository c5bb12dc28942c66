package assembly

import (
	"slices"

	"moiety/plan/published"
)

// Kind says what is built.
type Kind string

// The kinds of assembly.
const (
	Wall  Kind = "wall"
	Floor Kind = "floor"
)

// Assembly is a wall or floor build-up. Layers run from one face to the other,
// a floor's from the top down; a fill follows the frame that it lies in.
type Assembly struct {
	ID     string
	Name   string // in words
	Kind   Kind
	Layers []Layer
	Rating
}

// Rating is what a build-up is good for, and how that is known.
type Rating struct {
	// Fire is the fire-resistance rating in minutes where the wall bears or the
	// floor carries, FireNonbearing that of a wall which carries nothing; 0 none.
	Fire           int
	FireNonbearing int
	STC            int // 0 not known
	IIC            int // of a floor without a finish; 0 not known
	// FireEstimated and SoundEstimated mark what no specimen of just this
	// build-up was tested for.
	FireEstimated  bool
	SoundEstimated bool
	// Row is the published row that the ratings rest on, "" for none.
	Row    string
	How    string // a sentence: how the ratings are known
	Source published.Source
}

// Thickness is that of the whole build-up.
func (a *Assembly) Thickness() float64 {
	sum := 0.0
	for _, l := range a.Layers {
		if !l.Material.IsFill() {
			sum += l.Thickness
		}
	}
	return sum
}

// Mass is that of all layers together, in kg/m2.
func (a *Assembly) Mass() float64 {
	sum := 0.0
	for _, l := range a.Layers {
		sum += l.KgPerM2
	}
	return sum
}

// FireFor is the rating of a wall or floor that bears, or of one that is known not to.
func (a *Assembly) FireFor(bearing bool) int {
	if a.Kind == Floor || bearing {
		return a.Fire
	}
	return a.FireNonbearing
}

// Flipped is the wall seen from its other side. A fill stays in its frame.
func (a Assembly) Flipped() Assembly {
	var groups [][]Layer
	for _, l := range a.Layers {
		if l.Material.IsFill() && len(groups) > 0 {
			groups[len(groups)-1] = append(groups[len(groups)-1], l)
			continue
		}
		groups = append(groups, []Layer{l})
	}
	slices.Reverse(groups)
	a.Layers = slices.Concat(groups...)
	return a
}

// With gives the assembly with other layers and no rating yet.
func (a Assembly) With(layers ...Layer) Assembly {
	a.Layers, a.Rating = layers, Rating{}
	return a
}
