package plan_test

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// wanted compares text with the file beside a test file whose name ends in .want.
func wanted(t *testing.T, path, got string) {
	t.Helper()
	for _, ending := range []string{".json", ".yaml"} {
		path = strings.TrimSuffix(path, ending)
	}
	path += ".want"
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the test with -update to make it, and read it")
	assert.Equal(t, string(want), got)
}

// readAny reads a survey, a brief, a rule file, build-ups or a price file, as its name says; a brief
// is compared with a house of two rooms.
func readAny(t *testing.T, path string) error {
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	name := filepath.Base(path)
	switch {
	case strings.HasSuffix(name, ".house.json"):
		h, err := plan.Read(bytes.NewReader(data), name)
		assert.True(t, (h == nil) == (err != nil), "a house or an error")
		return err
	case strings.HasSuffix(name, ".brief.yaml"):
		b, err := plan.ReadBrief(bytes.NewReader(data), name)
		if err != nil {
			assert.Nil(t, b)
			return err
		}
		return b.Check(readHouse(t, "two-rooms"))
	case strings.HasSuffix(name, ".rules.yaml"):
		set, err := plan.ReadRules(bytes.NewReader(data), name)
		assert.True(t, (set == nil) == (err != nil), "a rule set or an error")
		return err
	case strings.HasSuffix(name, ".build-ups.yaml"):
		own, err := plan.ReadBuildUps(bytes.NewReader(data), name)
		assert.True(t, (own == nil) == (err != nil), "build-ups or an error")
		return err
	}
	p, err := plan.ReadPrices(bytes.NewReader(data), name)
	assert.True(t, (p == nil) == (err != nil), "prices or an error")
	return err
}

func readHouse(t testing.TB, name string) *plan.House {
	t.Helper()
	path := filepath.Join("..", "testdata", "houses", name+".house.json")
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	h, err := plan.Read(f, path)
	require.NoError(t, err)
	return h
}

// badFiles lists what stands under testdata/bad.
func badFiles(t testing.TB) []string {
	t.Helper()
	var files []string
	for _, ending := range []string{".house.json", ".brief.yaml", ".prices.yaml", ".rules.yaml", ".build-ups.yaml"} {
		found, err := filepath.Glob(filepath.Join("..", "testdata", "bad", "*"+ending))
		require.NoError(t, err)
		require.NotEmpty(t, found)
		files = append(files, found...)
	}
	return files
}

// Each file under testdata/bad has one kind of mistake, and beside it stands
// what the reader says of it.
func TestABadFileIsRefusedWithTheFeatureAndThePlace(t *testing.T) {
	files := badFiles(t)
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) {
			err := readAny(t, path)
			require.Error(t, err)
			var problems *plan.Problems
			require.ErrorAs(t, err, &problems)
			for _, p := range problems.List {
				assert.NotEmpty(t, p.Message)
				if strings.HasPrefix(p.Place, "features[") && !strings.HasSuffix(p.Place, "id") {
					assert.True(t, p.Feature != "" || strings.Contains(p.Message, `"id"`), "%v names its feature", p)
				}
			}
			wanted(t, path, err.Error()+"\n")
		})
	}
}

// Each file under testdata/mended has one thing that the reader puts right or
// doubts, and beside it stands what it says.
func TestAMendedFileIsReadWithAWarning(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "testdata", "mended", "*.house.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) {
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			h, err := plan.Read(bytes.NewReader(data), filepath.Base(path))
			require.NoError(t, err)
			var text strings.Builder
			for _, w := range h.Warnings {
				text.WriteString(w.Message + "\n")
			}
			wanted(t, path, text.String())
		})
	}
}

func TestAllProblemsOfAFileComeTogetherInTheOrderOfItsLines(t *testing.T) {
	err := readAny(t, filepath.Join("..", "testdata", "bad", "several-at-once.house.json"))
	var problems *plan.Problems
	require.ErrorAs(t, err, &problems)
	var lines []int
	features := map[string]bool{}
	for _, p := range problems.List {
		lines = append(lines, p.Line)
		features[p.Feature] = true
	}
	assert.IsIncreasing(t, lines)
	assert.Subset(t, features, map[string]bool{"kitchen": true, "bedroom": true, "door": true, "window": true})
}

func TestAFileOver64MiBIsRefused(t *testing.T) {
	blank := io.LimitReader(blanks{}, 64<<20)
	_, err := plan.Read(io.MultiReader(strings.NewReader("{"), blank), "huge.house.json")
	var problems *plan.Problems
	require.ErrorAs(t, err, &problems)
	assert.EqualError(t, err, "huge.house.json: the file is larger than 64 MiB: that is no survey of one house")
}

// 64 MiB exactly are not too many: a house with blanks around it is a house.
func TestAFileOf64MiBIsRead(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "testdata", "houses", "one-room.house.json"))
	require.NoError(t, err)
	blank := io.LimitReader(blanks{}, 64<<20-int64(len(data)))
	_, err = plan.Read(io.MultiReader(bytes.NewReader(data), blank), "wide.house.json")
	assert.NoError(t, err)
}

// blanks is an endless file of spaces.
type blanks struct{}

func (blanks) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

func TestAFileOfMoreThanAMillionValuesIsRefused(t *testing.T) {
	_, err := plan.Read(strings.NewReader(`{"features": [`+strings.Repeat("0,", 1_000_000)+`0]}`), "long.house.json")
	assert.ErrorContains(t, err, "the file has more than 1000000 values")
}

func TestAFaultOfTheFileItselfIsNoFaultOfTheSurvey(t *testing.T) {
	broken := errors{io.ErrUnexpectedEOF}
	_, err := plan.Read(broken, "house.json")
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
	var problems *plan.Problems
	assert.NotErrorAs(t, err, &problems)
	_, err = plan.ReadBrief(broken, "brief.yaml")
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
	_, err = plan.ReadPrices(broken, "prices.yaml")
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
	_, err = plan.ReadRules(broken, "town.yaml")
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
}

// errors is a file that cannot be read.
type errors struct{ err error }

func (e errors) Read([]byte) (int, error) { return 0, e.err }
