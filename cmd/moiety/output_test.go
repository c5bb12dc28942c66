package main

import (
	"context"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var twoFiles = []resultFile{{"summary.json", []byte("{}\n")}, {"scheme-1/set.pdf", []byte("%PDF")}}

// tree lists every file and directory below dir, hidden ones too.
func tree(t *testing.T, dir string) []string {
	t.Helper()
	var found []string
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		if err == nil && path != dir {
			rel, _ := filepath.Rel(dir, path)
			found = append(found, filepath.ToSlash(rel))
		}
		return err
	}))
	return found
}

var wholeResult = []string{"out", "out/SHA256SUMS", "out/scheme-1", "out/scheme-1/set.pdf", "out/summary.json"}

func TestAResultIsWrittenWithTheListOfItsFiles(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, saveResult(context.Background(), filepath.Join(dir, "out"), twoFiles))
	assert.Equal(t, wholeResult, tree(t, dir))
	sums, err := os.ReadFile(filepath.Join(dir, "out", contents))
	require.NoError(t, err)
	// sha256sum of "{}\n" and of "%PDF", computed with coreutils.
	assert.Equal(t, "ca3d163bab055381827226140568f3bef7eaac187cebd76878e0b63e9e442356  summary.json\n"+
		"315d429b7714cedb6ad04ac31240145257692630457f3c88253c5beceac76027  scheme-1/set.pdf\n", string(sums))
}

func TestAFormerResultIsReplacedWhole(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	former := []resultFile{{"summary.json", []byte("old")}, {"scheme-1/set.pdf", []byte("old")}, {"scheme-2/set.pdf", []byte("old")}}
	require.NoError(t, saveResult(context.Background(), out, former))
	require.NoError(t, saveResult(context.Background(), out, twoFiles))
	assert.Equal(t, wholeResult, tree(t, dir), "nothing of the former result stays")
}

func TestDirectoriesOfOthersAreLeftAlone(t *testing.T) {
	tests := []struct {
		name    string
		prepare func(t *testing.T, out string)
		says    string
	}{
		{"another's directory", func(t *testing.T, out string) {
			require.NoError(t, os.WriteFile(filepath.Join(out, "thesis.txt"), nil, 0o666))
		}, "is in use (it holds thesis.txt) and is not a former result"},
		{"another's directory with many files", func(t *testing.T, out string) {
			for _, name := range []string{"a", "b", "c", "d", "e"} {
				require.NoError(t, os.WriteFile(filepath.Join(out, name), nil, 0o666))
			}
		}, "it holds a, b, c and 2 more"},
		{"a former result with notes in it", func(t *testing.T, out string) {
			require.NoError(t, saveResult(context.Background(), out, twoFiles))
			require.NoError(t, os.WriteFile(filepath.Join(out, "scheme-1", "notes.txt"), nil, 0o666))
		}, "also holds scheme-1/notes.txt, which this program did not write"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			dir := t.TempDir()
			out := filepath.Join(dir, "out")
			require.NoError(t, os.Mkdir(out, 0o777))
			test.prepare(t, out)
			before := tree(t, dir)
			err := saveResult(context.Background(), out, twoFiles)
			require.ErrorContains(t, err, test.says)
			assert.Equal(t, exitInput, exitCode(err))
			assert.Equal(t, before, tree(t, dir))
		})
	}
}

func TestAnEmptyDirectoryIsFilled(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	require.NoError(t, os.Mkdir(out, 0o777))
	require.NoError(t, os.WriteFile(filepath.Join(out, ".DS_Store"), nil, 0o666))
	require.NoError(t, saveResult(context.Background(), out, twoFiles))
	assert.Equal(t, wholeResult, tree(t, dir))
}

func TestALinkToTheResultStaysALink(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "real"), 0o777))
	out := filepath.Join(dir, "out")
	if err := os.Symlink("real", out); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	require.NoError(t, saveResult(context.Background(), out, twoFiles))
	info, err := os.Lstat(out)
	require.NoError(t, err)
	assert.Equal(t, os.ModeSymlink, info.Mode().Type())
	assert.FileExists(t, filepath.Join(dir, "real", "summary.json"))
}

// endsAt is a context that ends after so many looks at it.
type endsAt struct {
	context.Context
	looks atomic.Int64 // that are left
}

func newEndsAt(looks int) *endsAt {
	c := &endsAt{Context: context.Background()}
	c.looks.Store(int64(looks))
	return c
}

func (c *endsAt) Err() error {
	if c.looks.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

func TestAnInterruptedSaveLeavesNothing(t *testing.T) {
	for looks := range 3 {
		dir := t.TempDir()
		// The parents of OUT that had to be made go too.
		err := saveResult(newEndsAt(looks), filepath.Join(dir, "a", "b", "out"), twoFiles)
		assert.Equal(t, exitInterrupted, exitCode(err))
		assert.Empty(t, tree(t, dir), "interrupted after %d files", looks)
	}
}

func TestAnInterruptedSaveKeepsTheFormerResult(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	require.NoError(t, saveResult(context.Background(), out, twoFiles))
	changed := []resultFile{{"summary.json", []byte("new")}, {"scheme-2/set.pdf", []byte("new")}}
	err := saveResult(newEndsAt(1), out, changed)
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, wholeResult, tree(t, dir))
	data, err := os.ReadFile(filepath.Join(out, "summary.json"))
	require.NoError(t, err)
	assert.Equal(t, "{}\n", string(data))
}

func TestPlacesThatCannotHoldAResult(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o666))
	t.Chdir(dir)
	for out, says := range map[string]string{
		file:                           "it is a file; the result needs a directory",
		filepath.Join(file, "out"):     "is a file, not a directory",
		".":                            "a directory of its own",
		"..":                           "a directory of its own",
		filepath.Join("no", "..", "."): "a directory of its own",
	} {
		err := checkOutput(out)
		require.ErrorContains(t, err, says, out)
		assert.Equal(t, exitInput, exitCode(err))
	}
	assert.NoError(t, checkOutput(filepath.Join("new", "deep", "out")))
	assert.Equal(t, []string{"file"}, tree(t, dir), "a check makes nothing")
}
