package partition_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan/partition"
)

// What readers of the LP format allow, by their documentation and sources: a
// variable's name begins with a letter, not with e and a digit, which reads as
// a number; CBC takes 100 characters, GLPK 255; lines of 255 characters are
// safe everywhere. Fewer characters than the format's are used, on purpose.
var (
	variable = regexp.MustCompile(`^(own|common|part|share|host|lack|door|in|start|go|out|to)\.[A-Za-z0-9_.]+$|^imbalance$`)
	number   = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`)
)

func TestNamesInLPFilesAreLegalWhateverCellsAreCalled(t *testing.T) {
	name := rapid.OneOf(
		rapid.SampledFrom([]string{"e1", "E9", "free", "inf", "st", "end", "bounds", "1", "2", "x/1", "x_1", "x-1", "küche", "a b", "\\", "<=", "no\nline"}),
		rapid.StringN(1, 60, -1),
	)
	rapid.Check(t, func(r *rapid.T) {
		p := twoRooms()
		names := rapid.SliceOfNDistinct(name, 4, 4, rapid.ID[string]).Draw(r, "names")
		p.Name = names[3]
		for c := range p.Cells {
			p.Cells[c].Name = names[c]
		}
		for i := range p.Links {
			p.Links[i].Name = names[i]
		}
		p.Functions[0].Name = names[3]
		p.Links = append(p.Links, partition.Link{Name: names[0], U: 1, V: 2, Door: 7, Sep: 3, SepCommon: 2})
		var text bytes.Buffer
		require.NoError(r, partition.WriteLP(&text, p, partition.LPOptions{Notes: names, PerUnit: 100}))
		used := map[string]bool{}
		for line := range strings.Lines(text.String()) {
			line = strings.TrimSuffix(line, "\n")
			require.LessOrEqual(r, len(line), 255)
			if strings.HasPrefix(line, `\`) {
				continue
			}
			for _, word := range strings.Fields(line) {
				switch {
				case variable.MatchString(word):
					require.LessOrEqual(r, len(word), 100)
					used[word] = true
				case number.MatchString(word), regexp.MustCompile(`^(r[0-9]+|price):$`).MatchString(word):
				default:
					require.Contains(r, []string{"+", "-", "=", "<=", ">=", "minimize", "subject", "to", "bounds", "general", "binary", "end"}, word)
				}
			}
		}
		// As many names as the same problem has with plain ones: none fell together.
		_, columns := partition.LPSize(p)
		require.Len(r, used, columns)
	})
}

// Cells whose names differ only in what the format does not allow stay apart.
func TestCellsOfLikeNamesStayApart(t *testing.T) {
	p := twoRooms()
	p.Cells[1].Name, p.Cells[2].Name = "hall/1", "hall-1"
	var text bytes.Buffer
	require.NoError(t, partition.WriteLP(&text, p, partition.LPOptions{}))
	assert.Contains(t, text.String(), "own.A.hall_1 ")
	assert.Contains(t, text.String(), "own.A.hall_1_2 ")
	assert.Contains(t, text.String(), `\ link hall_1.hall_1_2: opening`)
}

// Prices come out in the unit asked for, to the last digit.
func TestPricesInTheUnitAskedFor(t *testing.T) {
	p := twoRooms()
	p.Links[1].Door, p.Links[2].Sep = 3_000_001, 12_3400
	var text bytes.Buffer
	require.NoError(t, partition.WriteLP(&text, p, partition.LPOptions{PerUnit: 10_000}))
	assert.Contains(t, text.String(), "\n + 300.0001 door.street.west\n + 12.34 part.east.west\n")
}
