package plan

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// meant gives words that people write for a word of the formats and that no
// count of letters would lead to.
var meant = map[string][]string{
	"toilet": {"powder_room", "wc"}, "washroom": {"bathroom", "powder_room"}, "half_bath": {"powder_room"},
	"bath": {"bathroom"}, "ensuite": {"bathroom"}, "lounge": {"living"}, "great_room": {"living"}, "den": {"office", "family"},
	"study": {"office"}, "corridor": {"hall"}, "hallway": {"hall"}, "landing": {"hall"}, "foyer": {"entry"}, "vestibule": {"entry"},
	"wardrobe": {"closet"}, "utility": {"laundry", "mechanical"}, "furnace_room": {"mechanical"}, "basement": {"unfinished"},
	"attic": {"unfinished", "storage"}, "garden": {"yard"}, "terrace": {"patio"}, "path": {"walk"}, "sidewalk": {"street", "walk"},
	"pavement": {"street", "walk"}, "driveway": {"drive"}, "road": {"street"}, "alley": {"lane"},
	"stove": {"range"}, "cooker": {"range"}, "oven": {"range"}, "fridge": {"refrigerator"}, "washbasin": {"basin"}, "lavatory": {"basin", "wc"},
	"bathtub": {"bath"}, "tub": {"bath"}, "washing_machine": {"washer"}, "panel": {"electrical_panel"}, "stack": {"drain_stack"},
	"stairs": {"stair"}, "steps": {"stair"}, "room": {"space"}, "area": {"space"}, "swing": {"single"}, "hinged": {"single"}, "french": {"double"}, "folding": {"bifold"}, "garage": {"overhead"}, "roller": {"overhead"}, "up_and_over": {"overhead"},
	"metre": {"m"}, "metres": {"m"}, "meter": {"m"}, "meters": {"m"}, "foot": {"ft"}, "feet": {"ft"},
	"elevation": {"floor"}, "ceiling": {"height"}, "ceiling_height": {"height"}, "type": {"kind", "use"}, "units": {"length_unit"},
	"inches": {"feet"}, "imperial": {"feet"}, "coal": {"solid"}, "wood": {"solid"}, "pellets": {"solid"}, "natural_gas": {"gas"}, "propane": {"gas"}, "electric": {"none"}, "electricity": {"none"},
	"beds": {"bedrooms"}, "exclude": {"avoid"}, "include": {"keep"}, "rooms": {"keep"},
}

// nearest returns the known word that was probably meant, "" where none is
// close. Equally near words: the first of known.
func nearest(word string, known []string) string {
	plain := plainWord(word)
	if plain == "" {
		return ""
	}
	for _, k := range known {
		if plainWord(k) == plain {
			return k
		}
	}
	for _, m := range meant[plain] {
		for _, k := range known {
			if k == m {
				return k
			}
		}
	}
	best, bestDistance := "", len([]rune(plain))/3+1
	for _, k := range known {
		if d := levenshtein.ComputeDistance(plain, plainWord(k)); d < len([]rune(k)) && d <= bestDistance && (best == "" || d < bestDistance) {
			best, bestDistance = k, d
		}
	}
	if best != "" {
		return best
	}
	for _, k := range known {
		if p := plainWord(k); len(p) > 3 && len(plain) > 3 && (strings.HasPrefix(plain, p) || strings.HasPrefix(p, plain)) {
			return k
		}
	}
	return ""
}

// plainWord drops what people vary without meaning it: case, and how words are joined.
func plainWord(s string) string {
	s = strings.ToLower(strings.TrimSpace(shorten(s)))
	return strings.NewReplacer("-", "_", " ", "_").Replace(s)
}

// didYouMean ends a message about an unknown word: with the likely word, or
// with all known ones where they are few.
func didYouMean(word string, known []string) string {
	if near := nearest(word, known); near != "" {
		return "; did you mean " + quoteUnlessPlain(near) + "?"
	}
	if n := len(known); n > 0 && n <= 10 {
		return "; known: " + strings.Join(known, ", ")
	}
	return ""
}
