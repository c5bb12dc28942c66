package plan_test

import (
	"fmt"
	"strings"

	"moiety/plan"
)

// All that is wrong with a survey comes together, with the feature, the place
// in the file and, for a slip of the pen, the word that was meant.
func ExampleRead() {
	_, err := plan.Read(strings.NewReader(`{
  "type": "FeatureCollection",
  "house": {"levels": [{"id": "main", "floor": 0, "height": 2.4}]},
  "features": [
    {"type": "Feature", "id": "kitchen",
     "geometry": {"type": "Polygon", "coordinates": [[[0,0], [3,0], [3,3], [0,3], [0,0]]]},
     "properties": {"kind": "space", "use": "kichen", "level": "main"}},
    {"type": "Feature", "id": "living",
     "geometry": {"type": "Polygon", "coordinates": [[[2.5,0], [7,0], [7,3], [2.5,3], [2.5,0]]]},
     "properties": {"kind": "space", "use": "living", "level": "mian"}},
    {"type": "Feature", "id": "hall",
     "geometry": {"type": "Polygon", "coordinates": [[[2.9,0], [4,0], [4,3], [2.9,3], [2.9,0]]]},
     "properties": {"kind": "space", "use": "hall", "level": "main"}}
  ]
}`), "cabin.house.json")
	fmt.Println(err)
	// Output:
	// cabin.house.json:7:45: kitchen: use "kichen" is not known; did you mean kitchen? [features[0].properties.use]
	// cabin.house.json:10:64: living: there is no level "mian"; did you mean main? [features[1].properties.level]
	// cabin.house.json:11:5: hall: overlaps kitchen on level main by 0.3 m2, between (2.9, 0) and (3, 3) [features[2]]
}

// A brief says only what differs from the default.
func ExampleReadBrief() {
	brief, err := plan.ReadBrief(strings.NewReader(`
units:
  - {id: A, name: Garden unit, bedrooms: 2}
share: [walk]
`), "cabin.brief.yaml")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, u := range brief.Units {
		fmt.Printf("%s: %s, %d bedroom(s) or more\n", u.ID, u.Name, u.Bedrooms.Min)
	}
	fmt.Println("shared:", brief.Share)
	// Output:
	// A: Garden unit, 2 bedroom(s) or more
	// B: Unit B, 1 bedroom(s) or more
	// shared: [walk]
}
