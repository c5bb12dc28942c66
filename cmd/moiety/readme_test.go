package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the picture of the README with what the program draws now")

// The README's two commands, each in a block of its own.
var commands = regexp.MustCompile("(?m)^```sh\n(.*)\n```$")

func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	return string(text)
}

func TestTheREADMESetsUpInTwoCommands(t *testing.T) {
	_, setUp, found := strings.Cut(readme(t), "\n## Set up\n")
	require.True(t, found)
	setUp, _, _ = strings.Cut(setUp, "\n## ")
	blocks := commands.FindAllStringSubmatch(setUp, -1)
	require.Len(t, blocks, 2)
	assert.Regexp(t, `^go run \./cmd/moiety split samples/\S+ -brief samples/\S+ -o out/\S+$`, blocks[0][1])
	assert.Equal(t, "go test ./...", blocks[1][1])
}

// The picture is a sheet of what the README's first command writes.
func TestThePictureOfTheREADMEIsARealOutput(t *testing.T) {
	if testing.Short() {
		t.Skip("draws a whole sample")
	}
	text := readme(t)
	picture := regexp.MustCompile(`!\[[^]]*\]\((\S+\.svg)\)`).FindStringSubmatch(text)
	require.NotNil(t, picture, "the README shows no picture")
	shown, err := filepath.Abs(filepath.Join("..", "..", filepath.FromSlash(picture[1])))
	require.NoError(t, err)

	arguments := strings.Fields(commands.FindStringSubmatch(text)[1])[3:]
	t.Chdir(filepath.Join("..", ".."))
	out := filepath.Join(t.TempDir(), "out")
	for i := range arguments {
		if strings.HasPrefix(arguments[i], "out/") {
			arguments[i] = out
		}
	}
	code, _, stderr := ran(context.Background(), nil, arguments...)
	require.Equal(t, exitDone, code, stderr)

	drawn := sheetTitled(t, filepath.Join(out, "scheme-1", "sheets"), "Main floor, proposed")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(shown), 0o777))
		require.NoError(t, os.WriteFile(shown, drawn, 0o666))
	}
	want, err := os.ReadFile(shown)
	require.NoError(t, err, "run the test with -update to draw it")
	assert.True(t, bytes.Equal(want, drawn), "%s is not what the program draws now; run the test with -update if the change is meant", picture[1])
}

// sheetTitled gives the sheet that carries the title.
func sheetTitled(t *testing.T, dir, title string) []byte {
	t.Helper()
	sheets, err := filepath.Glob(filepath.Join(dir, "*.svg"))
	require.NoError(t, err)
	for _, path := range sheets {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		if bytes.Contains(data, []byte(">"+title+"<")) {
			return data
		}
	}
	t.Fatalf("no sheet among %d is titled %q", len(sheets), title)
	return nil
}
