package partition_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// recorded is an answer that a solver gave to testdata/two_rooms.lp: HiGHS 1.15,
// CBC 2.10, GLPK 5.0.
func recorded(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "answers", name))
	require.NoError(t, err)
	return string(text)
}

func TestAnswersOfGeneralSolversAreSchemes(t *testing.T) {
	for _, c := range []struct{ file, solver, status string }{
		{"two_rooms.highs.txt", "HiGHS", "Optimal"},
		{"two_rooms.cbc.txt", "CBC", "Optimal"},
		{"two_rooms.glpk.txt", "GLPK", "INTEGER OPTIMAL"},
		{"two_rooms.glpk-plain.txt", "GLPK", "INTEGER OPTIMAL"},
	} {
		t.Run(c.file, func(t *testing.T) {
			text := recorded(t, c.file)
			for _, text := range []string{text, strings.ReplaceAll(text, "\n", "\r\n")} {
				a, err := partition.ReadAnswer(strings.NewReader(text), twoRooms())
				require.NoError(t, err)
				assert.Equal(t, c.solver, a.Solver)
				assert.Equal(t, c.status, a.Status)
				assert.Equal(t, partition.ClaimsOptimal, a.Claim)
				assert.InDelta(t, 400, a.Price, 1e-9)
				s, err := a.Scheme(twoRooms())
				require.NoError(t, err)
				// A wall between the rooms for 100, a door to the street for 300.
				assert.Equal(t, partition.Price{Money: 400}, s.Price)
				assert.Equal(t, partition.Terms{Separation: 100, Doors: 300}, s.Terms)
				assert.Equal(t, []int{1}, s.Bought)
				assert.NotEqual(t, s.Labels[1], s.Labels[2])
				east, west := s.Labels[1], s.Labels[2]
				assert.Equal(t, 0, s.Entry[east])
				assert.Equal(t, 1, s.Entry[west])
				assert.Equal(t, [][]int{{1}}, s.Hosts[east])
				assert.NoError(t, partition.Verify(twoRooms(), &s))
			}
		})
	}
}

// What solvers write when they have nothing to give; the first lines as they
// came from two_rooms.lp made impossible, and from an instance cut short.
func TestAnswersWithoutAScheme(t *testing.T) {
	for _, c := range []struct {
		name, text string
		claim      partition.Claim
	}{
		{"HiGHS, none", "Model status\nInfeasible\n\n# Primal solution values\nNone\n\n# Dual solution values\nNone\n", partition.ClaimsNone},
		{"HiGHS, stopped", "Model status\nTime limit reached\n\n# Primal solution values\nNone\n", partition.ClaimsNothing},
		{"CBC, none", "Infeasible - objective value 200.00000000\n      0 door.street.west                  0                300.0014\n**       3 own.B.east                        2                       0\n", partition.ClaimsNone},
		{"CBC, none in whole numbers", "Integer infeasible - objective value 200.00000000\n", partition.ClaimsNone},
		{"CBC, stopped", "Stopped on time (no integer solution - continuous used) - objective value 5906.00000000\n    376 door.street.west                            0.5                       0\n", partition.ClaimsNothing},
		{"CBC, unbounded", "Unbounded - objective value 0.00000000\n", partition.ClaimsNothing},
		{"GLPK, none", "Problem:    \nRows:       38\nColumns:    26 (17 integer, 15 binary)\nNon-zeros:  108\nStatus:     INTEGER EMPTY\nObjective:  price = 0 (MINimum)\n\n   No. Column name       Activity\n", partition.ClaimsNone},
		{"GLPK, none, plain", "c Problem:    \ns mip 38 26 n 0\ni 1 0\nj 1 0\ne o f\n", partition.ClaimsNone},
		{"GLPK, stopped, plain", "c Problem:    \ns mip 38 26 u 0\ni 1 0\nj 1 0\ne o f\n", partition.ClaimsNothing},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := partition.ReadAnswer(strings.NewReader(c.text), twoRooms())
			require.NoError(t, err)
			assert.Equal(t, c.claim, a.Claim)
			assert.Nil(t, a.Values)
			_, err = a.Scheme(twoRooms())
			assert.ErrorContains(t, err, "an answer without values")
		})
	}
}

func TestSpoiledAnswersAreRefusedWithTheLine(t *testing.T) {
	const cbc, highs, printed, plain = "two_rooms.cbc.txt", "two_rooms.highs.txt", "two_rooms.glpk.txt", "two_rooms.glpk-plain.txt"
	for _, c := range []struct{ name, file, old, new, want string }{
		{"empty", cbc, "*", "", "line 1: the answer is empty"},
		{"another kind", cbc, "*", "solution 400\n", `line 1: no solution file of HiGHS, CBC or glpsol begins with "solution 400"`},
		{"a line without end", cbc, "*", "Optimal - objective value 4\n" + strings.Repeat("x", 2<<20), "line 2: longer than any line of a solver's answer"},
		{"a strange column", cbc, "own.A.east", "own.A.eest", `line 4: no column of the LP file is called "own.A.eest": is it the answer to another file?`},
		{"a column twice", cbc, "own.B.east", "own.A.east", "line 5: own.A.east has a second value"},
		{"no number", cbc, "400.00000000", "nan", `line 1: the objective is "nan", which is no number`},
		{"out of bounds", cbc, "      2 own.A.east ", "**    2 own.A.east ", "is out of its bounds, as CBC itself says"},
		{"a word too few", cbc, "      0 door.street.west     ", "      0 door.street.west 1\n", "where the number, the name, the value and the reduced cost of a column should be"},
		{"cut off", highs, "host.B.bed.west 0\n", "", "where a column and its value should be"},
		{"for people", highs, "*", "Columns\n", "line 1: a solution of HiGHS in its style for people"},
		{"sparse", highs, "# Columns 26", "# Columns -10", "line 9: a sparse solution"},
		{"of another file", highs, "# Columns 26", "# Columns 27", "line 9: 27 columns, but the LP file has 26: is it the answer to another file?"},
		{"no objective", highs, "Objective 400", "Objektiv 400", "line 8: \"Objektiv 400\" where the objective should be"},
		{"infinite", highs, "own.B.east 1", "own.B.east inf", `own.B.east is "inf", which is no number`},
		{"relaxed", printed, "INTEGER OPTIMAL", "OPTIMAL", `the status is "OPTIMAL", which no integer program of glpsol has`},
		{"a column left out", printed, "     3 own.A.east   *              1             0             1 \n", "", "where column 3 should be"},
		{"of another file", printed, "Columns:    26", "Columns:    25", "line 3: 25 columns"},
		{"cut off", plain, "e o f", "", "the answer breaks off"},
		{"past the end", plain, "e o f", "e o f\nj 1 1", `"j 1 1" after the end`},
		{"a column too many", plain, "j 26 ", "j 27 ", "column 27 of 26"},
		{"a column missing", plain, "j 3 1\n", "", "own.A.east has no value"},
		{"relaxed", plain, "s mip 38 26 o", "s bas 38 26 o", "is no status of an integer program"},
		{"no status", plain, "s mip 38 26 o 400", "c", "no line says the status"},
	} {
		t.Run(c.file+", "+c.name, func(t *testing.T) {
			text := c.new
			if c.old != "*" {
				whole := recorded(t, c.file)
				require.Contains(t, whole, c.old)
				text = strings.Replace(whole, c.old, c.new, 1)
			}
			_, err := partition.ReadAnswer(strings.NewReader(text), twoRooms())
			var faults partition.AnswerFaults
			require.ErrorAs(t, err, &faults)
			assert.Contains(t, err.Error(), c.want)
		})
	}
}

func TestEveryFaultOfAnAnswerIsListed(t *testing.T) {
	text := strings.NewReplacer("own.A", "own.C", "in.A.street.east", "in.A.road.east").Replace(recorded(t, "two_rooms.cbc.txt"))
	_, err := partition.ReadAnswer(strings.NewReader(text), twoRooms())
	require.Error(t, err)
	assert.Equal(t, 3, strings.Count(err.Error(), "no column of the LP file"))
	_, err = partition.ReadAnswer(strings.NewReader("Optimal - objective value 1\n"+strings.Repeat(" 1 nothing 1 0\n", 50)), twoRooms())
	assert.Equal(t, 20, strings.Count(err.Error(), "no column of the LP file"))
	assert.Contains(t, err.Error(), "line 22: more is wrong from here on")
}

// Values that keep the format and are no scheme.
func TestValuesThatAreNoScheme(t *testing.T) {
	for _, c := range []struct {
		name string
		set  map[string]string
		want string
	}{
		{"half a room", map[string]string{"own.A.east": "0.5", "own.B.east": "0.5"}, "own.A.east is 0.5, neither 0 nor 1"},
		{"nobody's room", map[string]string{"own.A.east": "0", "own.B.east": "0"}, `cell "east" has 0 owners`},
		{"a room of both", map[string]string{"own.A.east": "1", "own.B.east": "1"}, `cell "east" has 2 owners`},
		{"two rooms to one", map[string]string{"own.A.east": "1", "own.B.east": "0", "own.A.west": "1", "own.B.west": "0"}, "which is not the unit's"},
		{"shared where it may not", map[string]string{"own.A.east": "0", "own.B.east": "0", "common.east": "1"}, `cell "east" may not be common`},
		{"no door", map[string]string{"door.street.west": "0"}, "cannot be its entry"},
		{"no entry", map[string]string{"in.A.street.west": "0", "in.A.street.east": "0"}, "unit A has no entry"},
		{"two entries", map[string]string{"in.A.street.west": "1", "in.A.street.east": "1"}, "unit A has two entries"},
		{"no bed", map[string]string{"host.A.bed.west": "0", "host.A.bed.east": "0"}, `unit A lacks 1 of "bed"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines []string
			for line := range strings.Lines(recorded(t, "two_rooms.cbc.txt")) {
				if words := strings.Fields(line); len(words) == 4 && c.set[words[1]] != "" {
					line = strings.Join([]string{words[0], words[1], c.set[words[1]], words[3]}, " ") + "\n"
				}
				lines = append(lines, line)
			}
			a, err := partition.ReadAnswer(strings.NewReader(strings.Join(lines, "")), twoRooms())
			require.NoError(t, err)
			_, err = a.Scheme(twoRooms())
			assert.ErrorContains(t, err, c.want)
		})
	}
}

// A door that joins nothing of one owner is no part of a scheme, and a solver
// that was stopped may have left one in.
func TestDoorsBetweenTheUnitsAreLeftOut(t *testing.T) {
	p := twoRooms()
	p.Links = append(p.Links, partition.Link{Name: "second", U: 1, V: 2, Door: 50})
	columns := "Stopped on time - objective value 450\n 0 own.B.east 1 0\n 1 own.A.west 1 0\n 2 door.east.west__2 1 0\n" +
		" 3 door.street.west 1 0\n 4 host.B.bed.east 1 0\n 5 host.A.bed.west 1 0\n 6 in.B.street.east 1 0\n 7 in.A.street.west 1 0\n"
	a, err := partition.ReadAnswer(strings.NewReader(columns), p)
	require.NoError(t, err)
	assert.Equal(t, partition.ClaimsScheme, a.Claim)
	s, err := a.Scheme(p)
	require.NoError(t, err)
	assert.Equal(t, partition.Price{Money: 400}, s.Price)
	assert.Equal(t, []int{1}, s.Bought)
}

// Whatever is read is either refused or a value for each column; what stands
// for a scheme is one by the verifier, and never better than the best.
func FuzzReadAnswer(f *testing.F) {
	for _, name := range []string{"two_rooms.highs.txt", "two_rooms.cbc.txt", "two_rooms.glpk.txt", "two_rooms.glpk-plain.txt"} {
		f.Add(recorded(f, name))
	}
	f.Add("Infeasible - objective value 200.00000000\n")
	f.Fuzz(func(t *testing.T, text string) {
		p := twoRooms()
		a, err := partition.ReadAnswer(strings.NewReader(text), p)
		if err != nil {
			var faults partition.AnswerFaults
			require.ErrorAs(t, err, &faults)
			require.NotEmpty(t, faults)
			return
		}
		if a.Values == nil {
			return
		}
		_, columns := partition.LPSize(p)
		require.Len(t, a.Values, columns)
		if s, err := a.Scheme(p); err == nil {
			require.NoError(t, partition.Verify(p, &s))
			require.GreaterOrEqual(t, s.Price.Money, partition.Money(400))
		}
	})
}
