package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

// A result is a directory that is written whole or not at all. It holds a
// list of its own files with their sums, in the form that sha256sum -c reads,
// and by that list the program knows a result of its own when it is asked to
// replace one.

// contents is the file that lists a result.
const contents = "SHA256SUMS"

// leftByDesktops are files that file browsers leave in any directory.
var leftByDesktops = []string{".DS_Store", "Thumbs.db", "desktop.ini", ".directory"}

// resultFile is one file of a result.
type resultFile struct {
	path string // slashes, relative to the result
	data []byte
}

// output is a file of a result before it is written.
type output struct {
	path  string
	write func(w io.Writer) error
}

// written writes the outputs to memory.
func written(outputs []output) ([]resultFile, error) {
	files := make([]resultFile, len(outputs))
	for i, o := range outputs {
		var b bytes.Buffer
		if err := o.write(&b); err != nil {
			return nil, fmt.Errorf("%s: %w", o.path, err)
		}
		files[i] = resultFile{o.path, b.Bytes()}
	}
	return files, nil
}

// checkOut checks the -o flag before any work is done.
func (p *program) checkOut(flags *flag.FlagSet, out, help string) error {
	said := false
	flags.Visit(func(f *flag.Flag) { said = said || f.Name == "o" })
	switch {
	case !said:
		return nil
	case out == "":
		return usage("-o: name a directory", help)
	case out == "-":
		return usage("-o -: a result is a directory of files; for standard output leave -o out and use -json", help)
	}
	return checkOutput(out)
}

// save writes a result unless the run was ended before.
func (p *program) save(out string, files []resultFile) error {
	p.saving.Lock()
	defer p.saving.Unlock()
	if err := saveResult(p.ctx, out, files); err != nil {
		return err
	}
	p.saved = true
	return nil
}

// checkOutput tells whether a result may be written to out: there is nothing
// yet, an empty directory, or a former result with nothing else in it.
func checkOutput(out string) error {
	path, err := filepath.Abs(out)
	if err != nil {
		return badInput(fmt.Errorf("-o %s: %w", out, err))
	}
	if here, err := os.Getwd(); err == nil {
		if rel, err := filepath.Rel(path, here); err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
			return badInput(fmt.Errorf("-o %s: the result needs a directory of its own, not the current one or one above it", out))
		}
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrPermission):
		return badInput(fmt.Errorf("-o %s: %w", out, reason(err)))
	case err != nil:
		return checkParent(out, filepath.Dir(path))
	case !info.IsDir():
		return badInput(fmt.Errorf("-o %s: it is a file; the result needs a directory", out))
	}
	return checkReplaceable(out, throughLinks(path))
}

// throughLinks gives the directory that a link points to: the link stays, and
// what it points to is replaced.
func throughLinks(path string) string {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real
	}
	return path
}

// checkParent finds out that the nearest existing directory above is one.
func checkParent(out, parent string) error {
	for {
		info, err := os.Stat(parent)
		if err == nil {
			if !info.IsDir() {
				return badInput(fmt.Errorf("-o %s: %s is a file, not a directory", out, parent))
			}
			return nil
		}
		up := filepath.Dir(parent)
		if errors.Is(err, fs.ErrPermission) || up == parent {
			return badInput(fmt.Errorf("-o %s: %w", out, err))
		}
		parent = up
	}
}

// checkReplaceable finds out that nothing in the directory is anybody else's.
func checkReplaceable(out, path string) error {
	listed, err := readContents(filepath.Join(path, contents))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return badInput(fmt.Errorf("-o %s: %w", out, err))
	}
	var strange []string
	err = filepath.WalkDir(path, func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || slices.Contains(leftByDesktops, entry.Name()) {
			return err
		}
		rel, err := filepath.Rel(path, file)
		if rel = filepath.ToSlash(rel); err == nil && rel != contents && !listed[rel] {
			strange = append(strange, rel)
		}
		return err
	})
	if err != nil {
		return badInput(fmt.Errorf("-o %s: %w", out, err))
	}
	switch {
	case len(strange) > 0 && listed == nil:
		return badInput(fmt.Errorf("-o %s: the directory is in use (it holds %s) and is not a former result; name another, or empty it", out, some(strange)))
	case len(strange) > 0:
		return badInput(fmt.Errorf("-o %s: the former result there also holds %s, which this program did not write; move it away or name another directory", out, some(strange)))
	}
	return nil
}

// some names up to three of the files.
func some(files []string) string {
	if len(files) > 3 {
		return fmt.Sprintf("%s and %d more", strings.Join(files[:3], ", "), len(files)-3)
	}
	return strings.Join(files, ", ")
}

// readContents reads the list of a former result.
func readContents(path string) (map[string]bool, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	listed := map[string]bool{}
	lines := bufio.NewScanner(bytes.NewReader(data))
	for lines.Scan() {
		if _, name, found := strings.Cut(lines.Text(), "  "); found {
			listed[name] = true
		}
	}
	return listed, lines.Err()
}

// saveResult writes the files aside and then puts them in the place of out.
// Where it fails, or ctx ends first, out is as it was and nothing is left.
func saveResult(ctx context.Context, out string, files []resultFile) (err error) {
	if err := checkOutput(out); err != nil {
		return err
	}
	path, err := filepath.Abs(out)
	if err != nil {
		return badInput(fmt.Errorf("-o %s: %w", out, err))
	}
	path = throughLinks(path)
	made, err := makeParents(filepath.Dir(path))
	if err != nil {
		return badInput(fmt.Errorf("-o %s: %w", out, reason(err)))
	}
	defer func() {
		if err != nil {
			removeEmpty(made)
		}
	}()
	aside, err := makeAside(path)
	if err != nil {
		return badInput(fmt.Errorf("-o %s: cannot write in %s: %w", out, filepath.Dir(path), reason(err)))
	}
	defer os.RemoveAll(aside)
	if err := writeAside(ctx, aside, files); err != nil {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		return badInput(fmt.Errorf("-o %s: %w", out, reason(err)))
	}
	if err := swap(aside, path); err != nil {
		return badInput(fmt.Errorf("-o %s: %w", out, reason(err)))
	}
	return nil
}

// writeAside writes every file and the list of them, all through to the disk.
func writeAside(ctx context.Context, aside string, files []resultFile) error {
	var sums bytes.Buffer
	for _, f := range files {
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(f.data), f.path)
	}
	all := append(slices.Clone(files), resultFile{contents, sums.Bytes()})
	faults := make([]error, len(all))
	next := make(chan int)
	var writers sync.WaitGroup
	for range atOnce {
		writers.Go(func() {
			for i := range next {
				faults[i] = ctx.Err()
				if faults[i] == nil {
					faults[i] = writeThrough(filepath.Join(aside, filepath.FromSlash(all[i].path)), all[i].data)
				}
			}
		})
	}
	for i := range all {
		next <- i
	}
	close(next)
	writers.Wait()
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	syncDirectory(aside)
	return nil
}

// atOnce is how many files are written at the same time: a disk takes several
// through to the end in about the time of one.
const atOnce = 8

// makeAside makes a new directory beside path, as readable as any.
func makeAside(path string) (string, error) {
	for n := 1; ; n++ {
		aside := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.part-%d-%d", filepath.Base(path), os.Getpid(), n))
		if err := os.Mkdir(aside, 0o777); !errors.Is(err, fs.ErrExist) {
			return aside, err
		}
	}
}

func writeThrough(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Sync(), f.Close())
}

// swap puts the directory aside in the place of path. A former result is kept
// beside it until the new one is there.
func swap(aside, path string) error {
	former := aside + ".former"
	err := os.Rename(path, former)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	had := err == nil
	if err := os.Rename(aside, path); err != nil {
		if had {
			return errors.Join(err, os.Rename(former, path))
		}
		return err
	}
	syncDirectory(filepath.Dir(path))
	if had {
		if err := os.RemoveAll(former); err != nil {
			return fmt.Errorf("the new result is in place, but the former one could not be removed from %s: %w", former, reason(err))
		}
	}
	return nil
}

// syncDirectory makes renames last; systems that cannot do it for a
// directory say so, and lose nothing but the guarantee.
func syncDirectory(path string) {
	if d, err := os.Open(path); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

// makeParents makes the directory and gives those that it had to make,
// innermost first.
func makeParents(path string) (made []string, err error) {
	for missing := path; ; missing = filepath.Dir(missing) {
		if _, err := os.Stat(missing); err == nil || !errors.Is(err, fs.ErrNotExist) || missing == filepath.Dir(missing) {
			break
		}
		made = append(made, missing)
	}
	if err := os.MkdirAll(path, 0o777); err != nil {
		removeEmpty(made)
		return nil, err
	}
	return made, nil
}

func removeEmpty(directories []string) {
	for _, d := range directories {
		_ = os.Remove(d)
	}
}

// reason gives the cause of a failed file operation without the path of the
// temporary file, which means nothing to the reader.
func reason(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
