package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mayImport is the direction in which data flows: what each package may
// import of this module, its tests too. Tests may also import what is internal.
var mayImport = map[string][]string{
	"moiety/geom":           {},
	"moiety/plan/partition": {},
	"moiety/plan/rules":     {},
	"moiety/plan/published": {},
	"moiety/plan/acoustics": {"moiety/plan/published"},
	"moiety/plan/structure": {"moiety/plan/published"},
	"moiety/plan/services":  {"moiety/plan/published"},
	"moiety/plan/assembly":  {"moiety/plan/published", "moiety/plan/acoustics"},
	"moiety/plan":           {"moiety/geom", "moiety/plan/partition", "moiety/plan/rules", "moiety/plan/published", "moiety/plan/acoustics", "moiety/plan/structure", "moiety/plan/services", "moiety/plan/assembly"},
	"moiety/render":         {"moiety/geom", "moiety/plan", "moiety/plan/rules", "moiety/plan/assembly"},
	"moiety/cmd/moiety":     {"moiety/geom", "moiety/plan", "moiety/plan/partition", "moiety/plan/rules", "moiety/render"},
	// For tests alone: houses that are changed and made up.
	"moiety/plan/internal/housetest": {"moiety/geom", "moiety/plan"},
}

func TestImportsRunOneWay(t *testing.T) {
	command := exec.Command("go", "list", "-json=ImportPath,Imports,TestImports,XTestImports", "moiety/...")
	var out, errs bytes.Buffer
	command.Stdout, command.Stderr = &out, &errs
	require.NoError(t, command.Run(), errs.String())
	seen := 0
	for list := json.NewDecoder(&out); ; seen++ {
		var p struct {
			ImportPath                         string
			Imports, TestImports, XTestImports []string
		}
		if err := list.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		allowed, known := mayImport[p.ImportPath]
		if !assert.True(t, known, "%s is not laid out: say in this test what it may import", p.ImportPath) {
			continue
		}
		for _, imported := range p.Imports {
			if strings.HasPrefix(imported, "moiety/") {
				assert.Contains(t, allowed, imported, "%s may not import it", p.ImportPath)
			}
		}
		for _, imported := range slices.Concat(p.TestImports, p.XTestImports) {
			if strings.HasPrefix(imported, "moiety/") && imported != p.ImportPath && !strings.Contains(imported, "/internal/") {
				assert.Contains(t, allowed, imported, "tests of %s may not import it", p.ImportPath)
			}
		}
	}
	assert.Equal(t, len(mayImport), seen, "packages listed")
}
