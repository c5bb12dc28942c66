package partition

import (
	"fmt"
	"io"
	"strings"
)

// lpWidth is the length of the lines of an LP file. Readers of the format take
// lines of 255 characters at least.
const lpWidth = 100

// write writes the file. Errors are left to the writer that buffers it.
func (l *linear) write(w io.Writer) {
	comment := func(text string) { fmt.Fprintf(w, "\\ %s\n", printable(text)) }
	if l.p.Name != "" {
		comment(l.p.Name)
	}
	for _, note := range l.notes {
		comment(note)
	}
	if l.weight > 0 {
		comment(fmt.Sprintf("A shared element weighs %s: more than the money of any scheme.", l.decimal(int64(l.weight))))
	}
	for i, way := range l.ways {
		comment("link " + way + ": " + l.p.Links[i].Name)
	}
	fmt.Fprintln(w, "minimize")
	fmt.Fprintln(w, " price:")
	for _, term := range l.price {
		fmt.Fprintln(w, " "+term)
	}
	fmt.Fprintln(w, "subject to")
	number, block := 0, ""
	for _, row := range l.rows {
		if strings.HasPrefix(row, `\`) {
			block = row // and not the last one, if it has no rows
			continue
		}
		if block != "" {
			fmt.Fprintln(w, strings.ReplaceAll(block, "\n", "\n\\ "))
			block = ""
		}
		number++
		writeWrapped(w, fmt.Sprintf("r%d: %s", number, row))
	}
	section := func(title string, lines []string) {
		if len(lines) == 0 {
			return
		}
		fmt.Fprintln(w, title)
		for _, line := range lines {
			fmt.Fprintln(w, " "+line)
		}
	}
	section("bounds", l.bounds)
	section("general", l.integers)
	section("binary", l.binaries)
	fmt.Fprintln(w, "end")
}

// columns lists the variables in the order in which the file names them first.
func (l *linear) columns() []string {
	var names []string
	taken := map[string]bool{}
	for _, lines := range [][]string{l.price, l.rows} {
		for _, line := range lines {
			if strings.HasPrefix(line, `\`) {
				continue
			}
			for _, word := range strings.Fields(line) {
				if !strings.ContainsAny(word[:1], "+-<>=0123456789") && !taken[word] {
					taken[word] = true
					names = append(names, word)
				}
			}
		}
	}
	return names
}

// writeWrapped breaks a row between its terms: before a sign or the relation.
func writeWrapped(w io.Writer, row string) {
	words := strings.Fields(row)
	line := ""
	for i := 0; i < len(words); {
		// A sign or relation, and what belongs to it.
		piece := words[i]
		for i++; i < len(words) && !strings.ContainsAny(words[i][:1], "+-<>="); i++ {
			piece += " " + words[i]
		}
		if line != "" && len(line)+1+len(piece) > lpWidth {
			fmt.Fprintln(w, line)
			line = " "
		}
		line += " " + piece
	}
	fmt.Fprintln(w, line)
}

// printable makes one line of plain text for a comment.
func printable(text string) string {
	text = strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '_'
		}
		return r
	}, strings.Join(strings.Fields(text), " "))
	return text[:min(len(text), 2*lpWidth)]
}

// LPSize gives the numbers of constraints and of variables of the LP file of a
// problem, which has been checked.
func LPSize(p *Problem) (rows, columns int) {
	l, err := newLinear(p, LPOptions{})
	if err != nil {
		return 0, 0
	}
	for _, row := range l.rows {
		if !strings.HasPrefix(row, `\`) {
			rows++
		}
	}
	return rows, len(l.columns())
}
