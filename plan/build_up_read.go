package plan

import (
	"io"
	"strings"

	"moiety/plan/assembly"
	"moiety/plan/published"
)

// Limits of a layer, in millimetres as build-up files give them, and of ratings.
var (
	layerLimits    = limits{min: 0, above: true, max: 500}
	spacingLimits  = limits{min: 100, max: 1200}
	massLimits     = limits{min: 0, above: true, max: 1500}
	ratingTimes    = limits{min: 0, max: 240, whole: true}
	ratingDecibels = limits{min: 0, max: 90, whole: true}
)

// buildUpKeys are the keys of one build-up of a file.
var buildUpKeys = []string{"id", "name", "kind", "layers", "fire_minutes", "fire_minutes_nonbearing", "stc", "iic", "source"}

// ReadBuildUps reads a user's file of separating build-ups strictly:
//
//	build_ups:
//	  - id: double-row
//	    kind: wall                    # or floor
//	    name: two rows of studs
//	    layers:                       # from one face to the other; a floor from the top down
//	      - {material: Type X gypsum board, mm: 15.9}
//	      - {material: wood studs, mm: 89, spacing_mm: 400}
//	      - {material: stone-wool batts, mm: 89}   # after the frame that it lies in
//	      - {material: Type X gypsum board, mm: 15.9, kg_m2: 11}
//	    fire_minutes: 60              # where it bears; with fire_minutes_nonbearing where not
//	    stc: 51
//	    iic: 46                       # floors
//	    source: test report 12-345    # needed with any rating
//
// A build-up without ratings is rated by the published rows that it contains.
// What is wrong comes as a *Problems, all of it together.
func ReadBuildUps(r io.Reader, name string) ([]assembly.Assembly, error) {
	problems := &Problems{File: name}
	top, err := readYAML(r, "file of build-ups", name, problems)
	if err != nil {
		return nil, err
	}
	var out []assembly.Assembly
	sc := scope{problems: problems, metre: 1, unit: string(Metres), typed: true}
	if top == nil {
		problems.add(nil, "", "the file of build-ups is empty; it has the key build_ups")
		return nil, problems.err()
	}
	if f, ok := sc.object(top, "a file of build-ups", "build_ups"); ok {
		n := f.get("build_ups")
		switch {
		case n == nil:
			f.missing("build_ups", ": a list of build-ups")
		case n.kind != listNode:
			f.bad(n, "build_ups is a list of build-ups, not %s", n.shown())
		default:
			seen := map[string]*node{}
			for _, item := range n.items {
				if a, ok := readBuildUp(sc, item, seen); ok {
					out = append(out, a)
				}
			}
		}
	}
	if err := problems.err(); err != nil {
		return nil, err
	}
	return out, nil
}

func readBuildUp(sc scope, n *node, seen map[string]*node) (assembly.Assembly, bool) {
	a := assembly.Assembly{}
	f, ok := sc.object(n, "a build-up", buildUpKeys...)
	if !ok {
		return a, false
	}
	if a.ID = f.text("id"); a.ID == "" && f.get("id") == nil {
		f.missing("id", "")
	}
	if first := seen[a.ID]; first != nil {
		f.bad(f.get("id"), "the id %s stands here twice, first in line %d", quote(a.ID), first.line)
	} else if a.ID != "" {
		seen[a.ID] = f.get("id")
		f.about = a.ID
	}
	if f.get("kind") == nil {
		f.missing("kind", ": wall or floor")
	}
	a.Kind = assembly.Kind(f.word("kind", []string{string(assembly.Wall), string(assembly.Floor)}))
	if a.Name = f.text("name"); a.Name == "" {
		a.Name = a.ID
	}
	a.Layers = readLayers(f, a.Kind)
	a.Rating = readRating(f, a)
	return a, true
}

func readLayers(f fields, kind assembly.Kind) []assembly.Layer {
	n := f.get("layers")
	if n == nil || n.kind != listNode || len(n.items) == 0 {
		if n == nil {
			f.missing("layers", ": a list of layers, from one face to the other")
		} else {
			f.bad(n, "layers is a list of at least one layer, not %s", n.shown())
		}
		return nil
	}
	var known []string
	for _, m := range assembly.Materials() {
		known = append(known, string(m))
	}
	var out []assembly.Layer
	frames := 0
	for _, item := range n.items {
		l, ok := f.object(item, "a layer", "material", "mm", "spacing_mm", "kg_m2")
		if !ok {
			continue
		}
		for _, key := range []string{"material", "mm"} {
			if l.get(key) == nil {
				l.missing(key, "")
			}
		}
		material := assembly.Material(l.word("material", known))
		thickness, _ := l.number("mm", layerLimits)
		spacing, spaced := l.number("spacing_mm", spacingLimits)
		layer := assembly.NewLayer(material, thickness/1000, spacing/1000)
		if kg, ok := l.number("kg_m2", massLimits); ok {
			layer.KgPerM2 = kg
		}
		framed := material.IsFrame() || material == assembly.Channel || material == assembly.Furring
		switch {
		case framed && !spaced && l.get("spacing_mm") == nil:
			l.missing("spacing_mm", ": how far apart they stand")
		case material != "" && !framed && spaced:
			l.bad(l.get("spacing_mm"), "%s has no spacing", material)
		}
		if material.IsFill() && (len(out) == 0 || !out[len(out)-1].Material.IsFrame()) {
			l.bad(item, "%s lie in a frame: list them after it", material)
		}
		if material.IsFrame() || material.IsSolid() {
			frames++
			if joists := material == assembly.Joists; kind != "" && material.IsFrame() && joists != (kind == assembly.Floor) {
				l.bad(l.get("material"), "a %s does not stand on %s", kind, material)
			}
		}
		out = append(out, layer)
	}
	if frames == 0 {
		f.bad(n, "the layers hold no framing and no solid leaf: nothing carries them")
	}
	return out
}

// readRating reads what the file says of a build-up, or rates it.
func readRating(f fields, a assembly.Assembly) assembly.Rating {
	r := assembly.Rating{}
	said := false
	for _, key := range []struct {
		name   string
		limits limits
		into   *int
	}{
		{"fire_minutes", ratingTimes, &r.Fire}, {"fire_minutes_nonbearing", ratingTimes, &r.FireNonbearing},
		{"stc", ratingDecibels, &r.STC}, {"iic", ratingDecibels, &r.IIC},
	} {
		said = said || f.get(key.name) != nil
		if v, ok := f.number(key.name, key.limits); ok {
			*key.into = int(v)
		}
	}
	r.FireNonbearing = max(r.FireNonbearing, r.Fire)
	source := strings.Join(strings.Fields(f.text("source")), " ")
	if !said {
		if source != "" {
			f.bad(f.get("source"), "a source without a rating: say fire_minutes, stc or iic, or leave it out")
		}
		return assembly.Rate(a)
	}
	if f.get("source") == nil {
		f.missing("source", ": where the ratings come from, as a test report")
	}
	r.How = "as the user's file gives it"
	r.Source = published.Source{Standard: source, Status: published.Read}
	return r
}
