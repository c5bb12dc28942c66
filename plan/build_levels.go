package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
)

// drawLevels gives each indoor level its outline, to the exterior face, and
// the mass of its walls, less spaces, flights and voids.
func (b *builder) drawLevels() error {
	b.Levels = make([]LevelShape, len(b.House.Levels))
	var prisms []geom.Prism
	of := map[int]int{}
	for i, s := range b.solids {
		if b.outdoor(i) || s.High <= s.Low {
			continue
		}
		of[i] = len(prisms)
		bodies, err := b.withoutVoidWalls(i)
		if err != nil {
			return err
		}
		for _, base := range bodies {
			s.Base = base
			prisms = append(prisms, s.Prism)
		}
	}
	var walls []geom.Wall
	for _, w := range b.faces {
		w.A = of[w.A]
		if w.B == geom.Exposed {
			w = withThickness(w, b.ExteriorThickness)
		} else {
			w.B = of[w.B]
		}
		walls = append(walls, w)
	}
	for i := range b.Levels {
		outline, err := geom.Outline(prisms, walls, i)
		if err != nil {
			return fmt.Errorf("level %q: %w", b.House.Levels[i].ID, err)
		}
		far := outline
		if meetsOtherLevel(prisms, walls, i) {
			if far, err = geom.OutlineToFarFace(prisms, walls, i); err != nil {
				return fmt.Errorf("level %q: %w", b.House.Levels[i].ID, err)
			}
		}
		mass, err := geom.Mass(far, prisms, i)
		if err != nil {
			return fmt.Errorf("level %q: %w", b.House.Levels[i].ID, err)
		}
		b.Levels[i] = LevelShape{Outline: outline, Mass: mass}
	}
	return nil
}

// meetsOtherLevel tells whether a wall stands between a level and another.
func meetsOtherLevel(prisms []geom.Prism, walls []geom.Wall, level int) bool {
	return slices.ContainsFunc(walls, func(w geom.Wall) bool {
		return w.B != geom.Exposed && (prisms[w.A].Layer == level) != (prisms[w.B].Layer == level)
	})
}

// withoutVoidWalls gives the body of a solid less the walls that stand in it.
func (b *builder) withoutVoidWalls(s int) (geom.Shape, error) {
	body := geom.Shape{b.solids[s].Base}
	for _, w := range b.voidWalls {
		if w.void != s {
			continue
		}
		var err error
		if body, err = geom.Difference(body, geom.Shape{w.base}); err != nil {
			return nil, fmt.Errorf("void of flight %q: %w", b.Cells[b.solids[s].cell].ID, err)
		}
	}
	if len(body) == 0 {
		return geom.Shape{b.solids[s].Base}, nil // a void no wider than the wall
	}
	return body, nil
}

// withThickness gives an exposed wall with its outer face moved.
func withThickness(w geom.Wall, thickness float64) geom.Wall {
	length := w.FaceA.Length()
	w.Thickness = thickness
	w.FaceB = geom.Segment{A: w.FaceA.Beside(0, -thickness), B: w.FaceA.Beside(length, -thickness)}
	return w
}
