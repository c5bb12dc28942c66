package plan_test

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func readPrices(t *testing.T, text string) *plan.Prices {
	t.Helper()
	p, err := plan.ReadPrices(strings.NewReader(text), "test.prices.yaml")
	require.NoError(t, err)
	return p
}

func TestTheShippedPricesSayThatTheyAreIllustrative(t *testing.T) {
	p := plan.DefaultPrices()
	assert.Contains(t, p.Note, "Illustrative")
	assert.Contains(t, p.Note, "not quotations")
	assert.NotEmpty(t, p.Currency)
	assert.Equal(t, 0.20, p.SeparatingWall.Thickness)
}

// eachFigure visits every number of a price file.
func eachFigure(v reflect.Value, name string, visit func(name string, v float64)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			eachFigure(v.Field(i), name+"."+v.Type().Field(i).Name, visit)
		}
	case reflect.Float64:
		visit(name, v.Float())
	}
}

func TestTheShippedFileHasEveryPrice(t *testing.T) {
	figures := 0
	eachFigure(reflect.ValueOf(*plan.DefaultPrices()), "Prices", func(name string, v float64) {
		figures++
		// An inner door has no steps and takes no other's place.
		if name != "Prices.NewDoor.StepsM" && name != "Prices.NewDoor.InPlace" {
			assert.Positive(t, v, name)
		}
	})
	assert.Greater(t, figures, 25)
}

func TestAPriceThatIsLeftOutIsTheShippedOne(t *testing.T) {
	shipped := plan.DefaultPrices()
	p := readPrices(t, "currency: CAD\nworks:\n  seal_door: 800\n  separating_wall: {thickness: 0.25}\npriorities: {walk: 0}\n")
	want := *shipped
	want.Currency, want.SealDoor, want.SeparatingWall.Thickness, want.Priorities.Walk = "CAD", 800, 0.25, 0
	assert.Equal(t, want, *p)
	assert.Equal(t, *shipped, *readPrices(t, ""))
	assert.Equal(t, *shipped, *readPrices(t, "works:\n  upgrade_wall:\npriorities:\n"), "a key without a value says nothing")
}

func TestTheNoteStaysWhileAShippedPriceDoes(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("data", "prices.yaml"))
	require.NoError(t, err)
	_, figures, found := strings.Cut(string(data), "works:")
	require.True(t, found)
	assert.Empty(t, readPrices(t, "works:"+figures).Note, "all of them are the user's now")
	assert.NotEmpty(t, readPrices(t, "works:"+strings.Replace(figures, "  seal_door: {each: 700}", "", 1)).Note)
	assert.Equal(t, "By tender, May.", readPrices(t, "note: By tender,\n  May.\n").Note)
}
