package plan

import (
	"fmt"

	"moiety/geom"
)

// addFloors links the indoor cells that a floor parts, with the area in which
// they lie over each other. The stairs over a closet are such a floor.
func (b *builder) addFloors() error {
	var prisms []geom.Prism
	var of []int
	for i, s := range b.solids {
		if !b.outdoor(i) && s.High > s.Low {
			prisms, of = append(prisms, s.Prism), append(of, i)
		}
	}
	contacts, err := geom.Contacts(prisms, deepestFloor)
	if err != nil {
		return err
	}
	regions := map[pair]geom.Shape{}
	var pairs []pair
	depth := map[pair]float64{}
	add := func(below, above int, shape geom.Shape, d float64) {
		p := pair{u: below, v: above}
		if regions[p] == nil {
			pairs = append(pairs, p)
			depth[p] = d
		}
		regions[p] = append(regions[p], shape...)
		depth[p] = max(depth[p], d)
	}
	for _, c := range contacts {
		below, above := b.solids[of[c.Below]].cell, b.solids[of[c.Above]].cell
		if below != above {
			add(below, above, c.Shape, c.Depth)
		}
	}
	for i := range b.Cells {
		flight := &b.Cells[i]
		if !flight.Flight || flight.Outdoor {
			continue
		}
		for j := range b.Cells {
			c := &b.Cells[j]
			if c.Flight || c.Outdoor || c.Level != flight.Level || !c.Region.Bounds().Meets(flight.Region.Bounds()) {
				continue
			}
			under, err := geom.Intersection(geom.Shape{c.Region}, geom.Shape{flight.Region})
			if err != nil {
				return fmt.Errorf("under flight %q: %w", flight.ID, err)
			}
			if under.AreaM2() > sliverM2 {
				add(j, i, under, 0)
			}
		}
	}
	for _, p := range pairs {
		// The soffit and the void of one flight may lie over the same closet.
		region, err := geom.Union(regions[p])
		if err != nil {
			return err
		}
		if region.AreaM2() > sliverM2 {
			b.addFloor(p, region, depth[p])
		}
	}
	return nil
}

func (b *builder) addFloor(p pair, region geom.Shape, depth float64) {
	below, above := &b.Cells[p.u], &b.Cells[p.v]
	b.link(Link{
		Kind: LinkFloor, U: p.u, V: p.v, Level: above.Level,
		Thickness: depth, AreaM2: region.AreaM2(), Region: region,
		Rise: above.Floor - below.Floor, low: below.Floor,
	})
}
