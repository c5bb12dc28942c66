package plan_test

import (
	"fmt"
	"strings"

	"moiety/plan"
)

// A hall and a bedroom with a door between them, and a front door:
//
//	+------+---------+
//	|      |         |
//	D hall D bedroom |
//	|      |         |
//	+------+---------+
func ExampleBuild() {
	house, err := plan.Read(strings.NewReader(`{
	  "type": "FeatureCollection",
	  "house": {"name": "Two rooms", "levels": [{"id": "main", "floor": 0, "height": 2.4}]},
	  "features": [
	    {"type": "Feature", "id": "hall", "properties": {"kind": "space", "use": "hall", "level": "main"},
	     "geometry": {"type": "Polygon", "coordinates": [[[0,0],[2,0],[2,4],[0,4],[0,0]]]}},
	    {"type": "Feature", "id": "bedroom", "properties": {"kind": "space", "use": "bedroom", "level": "main"},
	     "geometry": {"type": "Polygon", "coordinates": [[[2.1,0],[6,0],[6,4],[2.1,4],[2.1,0]]]}},
	    {"type": "Feature", "id": "front", "properties": {"kind": "door", "level": "main"},
	     "geometry": {"type": "LineString", "coordinates": [[-0.1,1],[-0.1,1.9]]}},
	    {"type": "Feature", "id": "inner", "properties": {"kind": "door", "level": "main"},
	     "geometry": {"type": "LineString", "coordinates": [[2.05,1],[2.05,1.8]]}}
	  ]}`), "two-rooms.house.json")
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := plan.Build(house)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range b.Links {
		fmt.Printf("%-28s %.2f m long, %.2f m thick\n", l.ID, l.Length, l.Thickness)
	}
	// Output:
	// door:front                   0.90 m long, 0.20 m thick
	// door:inner                   0.80 m long, 0.10 m thick
	// wall:bedroom|hall            4.00 m long, 0.10 m thick
	// exterior:bedroom|outside#1   3.90 m long, 0.20 m thick
	// exterior:bedroom|outside#2   4.00 m long, 0.20 m thick
	// exterior:bedroom|outside#3   3.90 m long, 0.20 m thick
	// exterior:hall|outside#1      2.00 m long, 0.20 m thick
	// exterior:hall|outside#2      4.00 m long, 0.20 m thick
	// exterior:hall|outside#3      2.00 m long, 0.20 m thick
}
