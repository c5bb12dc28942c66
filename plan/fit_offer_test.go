package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

func fitsIn(t testing.TB, d *housetest.Draft, room string, fs ...plan.Function) []plan.Fit {
	t.Helper()
	b := build(t, d.House())
	c := cellIndex(t, b, room)
	fits := plan.FitsOf(b, c, fs...)
	for _, f := range fits {
		assert.Empty(t, checkFit(b, f))
	}
	return fits
}

func uses(f plan.Fit) []string {
	var out []string
	for _, x := range f.Fixtures {
		out = append(out, x.Use)
	}
	slices.Sort(out)
	return out
}

// A living space stays one beside a kitchen and its aisle where 10 m2 (NBC
// Table 9.5.3.1) in one piece, 2.7 m wide (from memory), are left.
//
//	+--------------+
//	|ref sink  rng |
//	|    aisle     |  0.66 m and 42 in
//	|- - - - - - - |
//	|              |  2.7 m
//	+--------------+
func TestALivingSpaceStaysOneBesideAKitchen(t *testing.T) {
	kitchen, both := []plan.Function{plan.HasKitchen}, []plan.Function{plan.HasKitchen, plan.HasLiving}
	living := func(wide, deep float64) *housetest.Draft {
		return oneLevel().Room("living", plan.Living, "main", 0, 0, wide, deep)
	}
	for _, test := range []struct {
		wide, deep float64
		both       bool
	}{
		{5.0, 4.5, true},
		{3.9, 4.5, true},
		{3.6, 4.0, false},  // 2.3 m are left beside the aisle
		{2.74, 4.8, false}, // 3.1 m are left, but 8.4 m2
		{3.0, 5.2, true},
	} {
		assert.NotEmpty(t, fitsIn(t, living(test.wide, test.deep), "living", kitchen...), "%v", test)
		fits := fitsIn(t, living(test.wide, test.deep), "living", both...)
		assert.Equal(t, test.both, len(fits) > 0, "%v", test)
		for _, f := range fits {
			area, wide := leftOf(build(t, living(test.wide, test.deep).House()).Cells[0].Region, f)
			assert.GreaterOrEqual(t, area, 10.0*0.99, "%v", test)
			assert.GreaterOrEqual(t, wide, 2.7-0.15, "%v", test)
		}
		b := build(t, living(test.wide, test.deep).House())
		assert.Contains(t, plan.OfferOf(b, 0), plan.HasKitchen, "%v", test)
		assert.Equal(t, test.both, !clashesIn(b, 0, both), "%v", test)
	}
}

// leftOf measures what a fit leaves of a room, on a grid of 0.05 m: its area,
// and the width of the widest circle.
func leftOf(room geom.Region, f plan.Fit) (area, wide float64) {
	const step = 0.05
	taken := append(slices.Clone(f.Clear), f.Worktops...)
	for _, x := range f.Fixtures {
		taken = append(taken, *x.Footprint)
	}
	box := room.Bounds()
	w, h := box.Size()
	for x := step / 2; x < w; x += step {
		for y := step / 2; y < h; y += step {
			p := box.Min.Add(geom.FromMetres(x, y))
			if room.Contains(p) == geom.Out || slices.ContainsFunc(taken, func(r geom.Region) bool { return r.Contains(p) != geom.Out }) {
				continue
			}
			area += step * step
			clear := room.DistanceToBorder(p)
			for _, r := range taken {
				clear = min(clear, r.DistanceToBorder(p))
			}
			wide = max(wide, 2*clear)
		}
	}
	return area, wide
}

// A laundry turned into a bathroom keeps washer and dryer where there is room,
// and loses them where there is none.
func TestWhatIsThereStaysWhereItCan(t *testing.T) {
	laundry := func(wide, deep float64) *housetest.Draft {
		d := oneLevel().Room("laundry", plan.Laundry, "main", 0, 0, wide, deep)
		for i, use := range []string{"washer", "dryer"} {
			d.Fixture(use, use, "main", 0.4+0.75*float64(i), 0.3)
		}
		return d
	}
	large := fitsIn(t, laundry(3.2, 3.2), "laundry", plan.HasBathroom)
	require.NotEmpty(t, large)
	assert.Empty(t, large[0].Removed)
	assert.NotEmpty(t, fitsIn(t, laundry(3.2, 3.2), "laundry", plan.HasBathroom, plan.HasLaundry))
	small := fitsIn(t, laundry(1.55, 2.35), "laundry", plan.HasBathroom)
	require.NotEmpty(t, small)
	assert.Len(t, small[0].Removed, 2)
	assert.Empty(t, fitsIn(t, laundry(1.55, 2.35), "laundry", plan.HasBathroom, plan.HasLaundry))
}

// A powder room is completed: its wc and basin stay.
func TestAPowderRoomKeepsItsFixtures(t *testing.T) {
	powder := func(wide float64) *housetest.Draft {
		return oneLevel().Room("powder", plan.PowderRoom, "main", 0, 0, wide, 1.6).
			Door("door", "main", 1.0, -0.1, 1.65, -0.1).
			Fixture("wc", "wc", "main", 0.35, 1.2).Fixture("basin", "basin", "main", 0.25, 0.4)
	}
	fits := fitsIn(t, powder(2.75), "powder", plan.HasBathroom)
	require.NotEmpty(t, fits)
	assert.Contains(t, [][]string{{"bath"}, {"shower"}}, uses(fits[0]))
	assert.Empty(t, fits[0].Removed)
	assert.Empty(t, fitsIn(t, powder(1.75), "powder", plan.HasBathroom))
}

// The fixtures of a kitchen that were not drawn have their place all the same.
func TestUndrawnFixturesKeepTheirPlace(t *testing.T) {
	kitchen := func(use plan.Use, wide, deep float64) *housetest.Draft {
		return oneLevel().Room("kitchen", use, "main", 0, 0, wide, deep)
	}
	assert.NotEmpty(t, fitsIn(t, kitchen(plan.Hall, 2.8, 1.8), "kitchen", plan.HasLaundry), "machines alone")
	assert.Empty(t, fitsIn(t, kitchen(plan.Kitchen, 2.8, 1.8), "kitchen", plan.HasLaundry), "machines beside a kitchen")
	fits := fitsIn(t, kitchen(plan.Kitchen, 4.5, 3.5), "kitchen", plan.HasLaundry)
	require.NotEmpty(t, fits)
	assert.Equal(t, []string{"dryer", "washer"}, uses(fits[0]), "the kitchen is there already")
}

// Nothing is put between sink and range where a survey shows no worktop.
//
//	+------------------+
//	|sink .......range |
//	|                  |
//	+------------------+
func TestBetweenSinkAndRangeIsAWorktop(t *testing.T) {
	d := oneLevel().Room("kitchen", plan.Kitchen, "main", 0, 0, 4.0, 3.5).
		Fixture("sink", "sink", "main", 0.6, 3.2).Fixture("range", "range", "main", 3.4, 3.2)
	top := geom.Region{Outer: geom.Ring{geom.FromMetres(0.2, 2.9), geom.FromMetres(3.8, 2.9), geom.FromMetres(3.8, 3.5), geom.FromMetres(0.2, 3.5)}}
	fits := fitsIn(t, d, "kitchen", plan.HasLaundry)
	require.NotEmpty(t, fits)
	for _, f := range fits {
		for _, x := range f.Fixtures {
			over, err := geom.Intersection(geom.Shape{*x.Footprint}, geom.Shape{top})
			require.NoError(t, err)
			assert.Less(t, over.AreaM2(), 0.01)
		}
	}
}

// A bedroom is nothing else beside, but for a closet with washer and dryer that
// leaves it 70 ft2 (IRC R304, from memory).
func TestABedroomIsLittleElse(t *testing.T) {
	d := oneLevel().Room("room", plan.Office, "main", 0, 0, 6, 6).Window("win", "main", 0.8, 1.2, 1, -0.1, 2.4, -0.1)
	assert.NotEmpty(t, fitsIn(t, d, "room", plan.HasBedroom))
	for _, f := range []plan.Function{plan.HasKitchen, plan.HasLiving, plan.HasBathroom, plan.HasHeat} {
		assert.Empty(t, fitsIn(t, d, "room", plan.HasBedroom, f), f.String())
	}
	fits := fitsIn(t, d, "room", plan.HasBedroom, plan.HasLaundry)
	assert.NotEmpty(t, fits)
	for _, f := range fits {
		assert.Len(t, f.Closets, 1)
	}
	// 2.4 x 3.0 m hold a bed and, but for the floor that is left, a closet.
	small := oneLevel().Room("room", plan.Office, "main", 0, 0, 2.4, 3.0).Window("win", "main", 0.8, 1.2, 0.4, -0.1, 1.8, -0.1)
	assert.NotEmpty(t, fitsIn(t, small, "room", plan.HasBedroom))
	assert.Empty(t, fitsIn(t, small, "room", plan.HasBedroom, plan.HasLaundry))
}

// The approach of one window that people may escape through stays clear of the bed.
func TestABedLeavesAnEscapeWindowFree(t *testing.T) {
	room := func(sills ...float64) *housetest.Draft {
		d := bare(2.3, 2.9)
		for i, sill := range sills {
			if i == 0 {
				d.Window("south", "main", sill, 1.0, 0.2, -0.1, 2.1, -0.1)
			} else {
				d.Window("north", "main", sill, 1.0, 0.2, 3.0, 2.1, 3.0)
			}
		}
		return d
	}
	free := func(f plan.Fit, y0, y1 float64) bool {
		approach := geom.Region{Outer: geom.Ring{geom.FromMetres(0.2, y0), geom.FromMetres(2.1, y0), geom.FromMetres(2.1, y1), geom.FromMetres(0.2, y1)}}
		for _, bed := range plan.BodiesOf(f) {
			over, err := geom.Intersection(geom.Shape{bed}, geom.Shape{approach})
			require.NoError(t, err)
			if over.AreaM2() > 0.01 {
				return false
			}
		}
		return true
	}
	one := fitsIn(t, room(0.8), "room", plan.HasBedroom)
	require.NotEmpty(t, one)
	for _, f := range one {
		assert.True(t, free(f, 0, 0.6))
	}
	// 44 in is the highest sill to escape over (IRC R310.2.2, from memory).
	for _, f := range fitsIn(t, room(44*in+0.01, 44*in), "room", plan.HasBedroom) {
		assert.True(t, free(f, 2.3, 2.9), "the other window's sill is too high")
	}
}

// clashesIn tells whether a set of functions holds one that does not go
// together in a cell.
func clashesIn(b *plan.Building, c int, set []plan.Function) bool {
	return slices.ContainsFunc(plan.ClashesOf(b, c), func(clash []plan.Function) bool {
		return !slices.ContainsFunc(clash, func(f plan.Function) bool { return !slices.Contains(set, f) })
	})
}

// As many functions as a cell says it hosts at once really stand beside each
// other, whichever they are, but for those that it says clash.
func TestWhatACellOffersGoesTogether(t *testing.T) {
	eachSample(t, func(t *testing.T, s sample) {
		b := s.building
		counted := func(fs []plan.Function) int {
			n := 0
			for _, f := range fs {
				if f != plan.HasPanel && f != plan.HasOutdoor {
					n++
				}
			}
			return n
		}
		for c, cell := range b.Cells {
			offer := plan.OfferOf(b, c)
			if len(offer) == 0 {
				continue
			}
			all := append(slices.Clone(offer), plan.HasOf(b, c)...)
			for pick := range 1 << len(all) {
				var set []plan.Function
				for i, f := range all {
					if pick>>i&1 == 1 {
						set = append(set, f)
					}
				}
				if len(set) > 0 && counted(set) <= plan.CapacityOf(b, c) && !clashesIn(b, c, set) {
					assert.NotEmpty(t, plan.FitsOf(b, c, set...), "%s: %v", cell.ID, set)
				}
			}
			for _, clash := range plan.ClashesOf(b, c) {
				assert.Empty(t, plan.FitsOf(b, c, clash...), "%s: %v", cell.ID, clash)
			}
		}
	})
}

// A Building answers several askers at once alike.
func TestABuildingIsAskedByMany(t *testing.T) {
	for _, s := range sampleHouses(t) {
		b := build(t, s.building.House)
		done := make(chan map[string]string)
		for range 4 {
			go func() { done <- fitFacts(b) }()
		}
		for range 4 {
			assert.Equal(t, fitFacts(s.building), <-done)
		}
		break
	}
}

// A store of 6.6 m2 is a bathroom or a store, not both at once.
//
//	+------------+
//	|   store    | 2.2 m
//	+----d-------+
//	     3.0 m
func TestAStoreMayBecomeABathroom(t *testing.T) {
	d := oneLevel().Room("store", plan.Storage, "main", 0, 0, 3.0, 2.2).Door("door", "main", 0.3, -0.1, 1.06, -0.1)
	b := build(t, d.House())
	assert.Contains(t, plan.OfferOf(b, 0), plan.HasBathroom)
	assert.Equal(t, 2, plan.CapacityOf(b, 0))
	assert.True(t, clashesIn(b, 0, []plan.Function{plan.HasBathroom, plan.HasStorage}))
	assert.False(t, clashesIn(b, 0, []plan.Function{plan.HasHeat, plan.HasHotWater}))
}

// Nobody makes a bathroom of all of a large unfinished room: from 12 m2 on one
// of 60 by 90 in (a usual bathroom with a tub, common practice) is built into
// it, with partitions and a door, and the room goes on.
//
//	+-----+--+--+-----+
//	|tub  |wc|ba|     |  1.524 m inside
//	|     |  |  |     |
//	+-----+----d+     |
//	|         door    |
//	+-----------------+
func TestABathroomIsBuiltIntoALargeUnfinishedRoom(t *testing.T) {
	room := func(use plan.Use, wide, deep float64) *housetest.Draft {
		return oneLevel().Room("room", use, "main", 0, 0, wide, deep)
	}
	const long, deep = 90*in + 2*0.12, 60*in + 0.12 // outside
	fits := fitsIn(t, room(plan.Unfinished, 4, 3), "room", plan.HasBathroom)
	require.NotEmpty(t, fits)
	for _, f := range fits {
		require.Len(t, f.Closets, 1)
		built := f.Closets[0]
		assert.InDelta(t, long*deep, built.Region.AreaM2(), 0.001)
		assert.Equal(t, []string{"basin", "bath", "wc"}, uses(f))
		for _, x := range f.Fixtures {
			assert.True(t, within(built.Region, *x.Footprint), x.Use)
		}
		assert.NotEmpty(t, built.Front)
		assert.InDelta(t, 28*in, built.Doors.Length(), 0.0001)
	}
	for _, smaller := range fitsIn(t, room(plan.Unfinished, 4, 2.98), "room", plan.HasBathroom) {
		assert.Empty(t, smaller.Closets, "11.9 m2 becomes a bathroom")
	}
	for _, other := range fitsIn(t, room(plan.Office, 4, 4), "room", plan.HasBathroom) {
		assert.Empty(t, other.Closets, "an office becomes one")
	}
	// As long as it is, it stands along the short wall; along the other it and the
	// 0.90 m before its door are deeper than the room.
	assert.NotEmpty(t, fitsIn(t, room(plan.Unfinished, long+0.001, 4.9), "room", plan.HasBathroom))
	assert.Empty(t, fitsIn(t, room(plan.Unfinished, long-0.005, 4.9), "room", plan.HasBathroom))

	// The rest of a large one may be the living room and the kitchen of the unit,
	// but no bedroom that others pass through.
	assert.NotEmpty(t, fitsIn(t, room(plan.Unfinished, 7, 5), "room", plan.HasBathroom, plan.HasKitchen, plan.HasLiving))
	assert.Empty(t, fitsIn(t, room(plan.Unfinished, 7, 5), "room", plan.HasBathroom, plan.HasBedroom))
}
