package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pairWithPlant is the pair with a plant room of owner's north of A's bathroom,
// with a boiler in it and a door to the bathroom.
func pairWithPlant(owner, opensInto string) *housetest.Draft {
	d := pairOn(oneLevel())
	d.Room(owner+"-plant", plan.Mechanical, "main", 0, 7.2, 2.2, 9.2).Fixture("boiler", "boiler", "main", 1.1, 8.5)
	d.Door("plant-door", "main", 0.5, 7.15, 1.3, 7.15)
	h := d.House()
	for i := range h.Doors {
		if h.Doors[i].ID == "plant-door" {
			h.Doors[i].OpensInto = opensInto
		}
	}
	return d
}

// NBC 9.10.10.4.: 1 h around plant that serves both, (1); none in a house of at
// most 400 m2 on at most two storeys, or around one unit's own, (2)(a); a lining
// in a house with a secondary suite, (2)(b).
func TestWhatSeparatesARoomWithPlant(t *testing.T) {
	for _, test := range []struct {
		name   string
		owner  string
		con    plan.Conditions
		area   float64 // of the house, m2
		levels int
		rule   string
		want   plan.Result
	}{
		{"a unit's own", "a", plan.Conditions{}, 900, 1, "plant-room-largest-house", plan.OK},
		{"of 400 m2", "c", plan.Conditions{}, 400, 2, "plant-room-largest-house", plan.OK},
		{"just under", "c", plan.Conditions{}, 399.9, 2, "plant-room-largest-house", plan.OK},
		{"just over", "c", plan.Conditions{}, 400.1, 2, "plant-room-rating", plan.NotSurveyed},
		{"on three levels", "c", plan.Conditions{}, 300, 3, "plant-room-rating", plan.NotSurveyed},
		{"just over, a secondary suite", "c", plan.Conditions{Suite: plan.Secondary}, 400.1, 2, "plant-room-lining", plan.NotSurveyed},
	} {
		t.Run(test.name, func(t *testing.T) {
			d := pairWithPlant(test.owner, "")
			for i := 1; i < test.levels; i++ {
				d.Level([]string{"", "upper", "top"}[i], 2.7*float64(i), 2.4)
			}
			s := ownedScheme(t, d.House())
			s.Units[0].GrossM2, s.Units[1].GrossM2 = test.area/2, test.area/2
			findings := plan.Check(s, ruleSet(t, "ca-nbc-2020"), test.con)
			assert.Equal(t, test.want, only(t, findings, test.rule, test.owner+"-plant").Result)
			for _, other := range []string{"plant-room-largest-house", "plant-room-rating", "plant-room-lining"} {
				if other != test.rule {
					assert.Empty(t, found(findings, other, ""), other)
				}
			}
		})
	}
}

// NBC 9.10.13.12.: its door opens outwards.
func TestTheDoorOfAPlantRoomOpensOutwards(t *testing.T) {
	for into, want := range map[string]plan.Result{"a-bath": plan.OK, "a-plant": plan.NotOK, "": plan.NotSurveyed} {
		s := ownedScheme(t, pairWithPlant("a", into).House())
		assert.Equal(t, want, only(t, plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{}), "plant-room-door", "plant-door").Result, "into %q", into)
	}
}

// A house in which nothing burns fuel has no such room.
func TestPlantThatBurnsNothing(t *testing.T) {
	s := ownedScheme(t, pairWithPlant("c", "a-plant").House())
	findings := plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{Fuel: plan.NoFuel})
	assert.Empty(t, found(findings, "", "c-plant"))
	assert.Empty(t, found(findings, "plant-room-door", ""))
}
