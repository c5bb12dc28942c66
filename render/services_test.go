package render_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// running joins the texts of sheets in the order in which they are read:
// lines that were broken are whole again.
func running(sheets []*render.Sheet, titled string) string {
	var all []string
	for _, s := range sheets {
		if strings.HasPrefix(s.Title, titled) {
			all = append(all, texts(s)...)
		}
	}
	return strings.Join(all, " ")
}

// What each unit has to be supplied with is on the sheets of services, word
// for word as it was worked out, with its method and its caution.
func TestTheServicesGiveTheLoadsOfEachUnit(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		require.NotEmpty(t, s.Services)
		listed := running(sheets, "Services, fixtures and plant")
		kinds := map[string]bool{}
		for _, service := range s.Services {
			kinds[service.Kind] = true
			// Lines of cells beside each other alternate: a text is looked for word by word.
			for _, word := range strings.Fields(service.Answer + " " + service.Method) {
				if !strings.Contains(listed, word) {
					t.Errorf("%s of unit %s: %q of %q is not listed", service.Kind, service.Unit, word, service.Answer)
				}
			}
			assert.Contains(t, listed, strings.TrimSuffix(service.Caution, "."))
		}
		for _, kind := range []string{"heating", "hot_water", "electrical", "ventilation", "drainage"} {
			assert.True(t, kinds[kind], kind)
		}
	})
}

// Each crossing of the separation has its number on the plan of its level, or
// is said to find no room there, and stands in the key and in the list.
func TestCrossingsAreMarkedAndKeyed(t *testing.T) {
	marked, all := 0, 0
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		listed := running(sheets, "Services, fixtures and plant")
		for i, c := range s.Crossings() {
			all++
			tag := fmt.Sprintf("P%d", i+1)
			tags, keys := 0, 0
			for _, sheet := range sheets {
				if !strings.HasPrefix(sheet.Title, "Services") {
					continue
				}
				for _, box := range sheet.Boxes {
					switch {
					case box.Text != tag:
					case box.View >= 0:
						tags++
						assert.Equal(t, c.Level, sheet.Views[box.View].Level)
					default:
						keys++
					}
				}
			}
			if tags == 0 {
				assert.Contains(t, running(sheets, "Services"), "no room on the plan")
			} else {
				marked++
			}
			assert.GreaterOrEqual(t, keys, 2, "%s: %s", tag, c.Note)
			assert.Contains(t, listed, tag)
		}
	})
	assert.Greater(t, marked, all*4/5, "most find room")
}

// Every panel, meter, tank and furnace is in the list with its letters, and
// every unit has a number, a mailbox and a doorbell at its entry.
func TestPlantIsListedByUnit(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		listed := running(sheets, "Services, fixtures and plant")
		letters := map[string]string{"electrical_panel": "EP", "water_heater": "WH", "furnace": "F", "boiler": "B", "electric_meter": "EM", "gas_meter": "GM", "water_entry": "WE"}
		for _, f := range s.Fixtures {
			if short := letters[f.Use]; short != "" && f.State != plan.Removed {
				assert.Contains(t, strings.ToLower(listed), strings.ReplaceAll(f.Use, "_", " "))
				lettered := false
				for _, sheet := range sheets {
					for _, box := range sheet.Boxes {
						lettered = lettered || strings.HasPrefix(sheet.Title, "Services") && box.View >= 0 && box.Text == short
					}
				}
				assert.True(t, lettered, "%s is not lettered on a plan", f.ID)
			}
		}
		for _, u := range s.Units {
			assert.Contains(t, listed, "at ENTRY "+u.ID)
		}
		assert.Contains(t, listed, "Address number, mailbox, doorbell")
	})
}
