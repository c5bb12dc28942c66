package partition_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// general solves the problem as an LP file by GLPK's glpsol; it reports false
// if there is no solution.
func general(t *testing.T, p *partition.Problem) (objective float64, ok bool) {
	t.Helper()
	dir := t.TempDir()
	file, report := filepath.Join(dir, "model.lp"), filepath.Join(dir, "report.txt")
	var text bytes.Buffer
	require.NoError(t, partition.WriteLP(&text, p, partition.LPOptions{}))
	require.NoError(t, os.WriteFile(file, text.Bytes(), 0o600))
	out, err := exec.Command("glpsol", "--cuts", "--tmlim", "60", "--lp", file, "-o", report).CombinedOutput()
	require.NoError(t, err, "%s", out)
	require.NotContains(t, string(out), "TIME LIMIT EXCEEDED")
	if strings.Contains(string(out), "NO INTEGER FEASIBLE SOLUTION") || strings.Contains(string(out), "NO PRIMAL FEASIBLE SOLUTION") ||
		strings.Contains(string(out), "PROBLEM HAS NO") {
		return 0, false
	}
	made, err := os.ReadFile(report)
	require.NoError(t, err)
	found := regexp.MustCompile(`Objective: +price = (\S+)`).FindSubmatch(made)
	require.NotNil(t, found, "%s\n%s", out, made[:min(len(made), 500)])
	require.Contains(t, string(made), "INTEGER OPTIMAL", "%s", out)
	objective, err = strconv.ParseFloat(string(found[1]), 64)
	require.NoError(t, err)
	return objective, true
}

// A general solver (GLPK, if installed) finds the same prices in the LP file.
func TestGeneralSolverAgreesOnTheLPFile(t *testing.T) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		t.Skip("glpsol is not installed")
	}
	seeds := uint64(60)
	if testing.Short() {
		seeds = 15
	}
	solved := 0
	check := func(t *testing.T, p *partition.Problem) {
		r := solve(t, p, partition.Options{})
		objective, ok := general(t, p)
		require.Equal(t, r.Status == partition.Proved, ok)
		if ok {
			want := r.Solutions[0].Price
			tolerance := 0.5
			if p.Balance.PerArea > 0 { // rounded down, within the solver's own tolerance
				tolerance = 1.5
			}
			assert.InDelta(t, float64(want.Money)+float64(want.Shared)*float64(partition.SharedWeight(p)), objective, tolerance)
			solved++
		}
	}
	for seed := uint64(1); seed <= seeds; seed++ {
		t.Run(fmt.Sprint(seed), func(t *testing.T) { check(t, randomProblem(seed)) })
		t.Run(fmt.Sprint("house ", seed), func(t *testing.T) { check(t, houseLike(seed, 8+int(seed%3))) })
	}
	assert.Greater(t, solved, int(seeds)/4)
}

// The whole file for a problem small enough to read.
func TestLPFileReadsLikeTheProblem(t *testing.T) {
	var text bytes.Buffer
	require.NoError(t, partition.WriteLP(&text, twoRooms(), partition.LPOptions{}))
	golden(t, "two_rooms.lp", text.Bytes())
}

func TestMalformedProblemHasNoLPFile(t *testing.T) {
	p := twoRooms()
	p.Cells[1].Area = -1
	assert.ErrorIs(t, partition.WriteLP(&bytes.Buffer{}, p, partition.LPOptions{}), partition.ErrProblem)
}
