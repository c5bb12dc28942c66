package main

import (
	"errors"
	"fmt"
	"strings"
)

const generalHelp = `moiety parts the survey of one house into two self-contained units.

Usage:
  moiety split HOUSE [-brief B] [-o OUT]     schemes, works, areas and drawings
  moiety survey HOUSE [-o OUT]               read, check and draw the house as it is
  moiety model HOUSE -o F.lp                 the same question for any solver, and back
  moiety rules [SET|FILE]                    the rule sets, each figure with its clause
  moiety help [COMMAND]                      this text, or that of a command
  moiety version                             what to name in a report

HOUSE is a survey file (*.house.json), or - for standard input.

Examples:
  moiety survey my.house.json                what the survey says, and what it leaves open
  moiety split my.house.json                 the best schemes, in words; no files
  moiety split my.house.json -o out/my       the same with drawings and schedules in out/my
  moiety split my.house.json -brief my.brief.yaml -o out/my

Results go to standard output and to OUT, everything else to standard error.

Exit codes:
  0    done
  1    the house cannot be split as asked; the reason is printed
  2    bad input or usage, or a file that cannot be read or written
  3    a fault of the program
  130  interrupted; nothing was written

A screening tool: licensed practice and the local building authority decide.
`

const splitHelp = `Usage: moiety split HOUSE [flags]

Finds the best ways to part the house into two self-contained units, and says
for each what it gives whom, what stays shared, what is to be built and what
that costs. HOUSE is a survey file, or - for standard input. Flags may stand
before or after it.

Flags:
  -brief FILE    what is asked of the two units (*.brief.yaml), and the rule set
                 to check against; without it two units of one bedroom or more each
  -prices FILE   prices of your own (YAML); those shipped are illustrative
  -schemes N     how many schemes that really differ to find; overrides the brief
  -limit TIME    stop the search after TIME (30s, 5m) and give the best found by
                 then with its proven bound; without it the search goes on until
                 the best is proved
  -wishes        also say what each demand of the brief costs: the best scheme with
                 it against the best without it; takes about as long again for every
                 few demands
  -front         also list the schemes to choose between when cost, shared elements,
                 bedrooms and the balance of areas all count; takes from seconds to
                 minutes, and says what is proved
  -o OUT         write drawings, schedules and summary.json to the directory OUT;
                 without it nothing is written
  -paper SIZE    a3 (default), a4, a2, ansi-b, ansi-c or arch-d
  -imperial      feet and inches on the drawings, also of a survey in metres
  -date DATE     date in the title blocks, YYYY-MM-DD; left blank without it, so
                 that the same input gives the same bytes
  -json          print summary.json instead of the summary in words

Examples:
  moiety split my.house.json
  moiety split my.house.json -brief my.brief.yaml -schemes 3 -o out/my
  moiety split my.house.json -brief my.brief.yaml -wishes
  moiety split my.house.json -o out/my -paper ansi-c -date 2025-06-01
  moiety split my.house.json -json | python3 -m json.tool
  gunzip -c my.house.json.gz | moiety split - -json

OUT holds summary.txt, summary.json, SHA256SUMS and for each scheme a directory:
  front.csv                with -front: what there is to choose between
  scheme-1/set.pdf         the drawing set, all sheets
  scheme-1/sheets/*.svg    the same sheets, one file each
  scheme-1/plan.geojson    the divided house in the survey's own coordinates
  scheme-1/*.csv           schedules: rooms, doors, windows, works, areas,
                           and what was checked

OUT is written whole or not at all. A former result in OUT is replaced once the
new one is complete; a directory that holds anything else is left alone.

Exit codes: 0 done; 1 the house cannot be split as asked; 2 bad input or usage;
3 a fault of the program; 130 interrupted.
`

const surveyHelp = `Usage: moiety survey HOUSE [flags]

Reads and checks a survey and lists the house as it is: levels, spaces with
their sizes and areas, doors, stairs and windows, what was mended or assumed,
and what is not surveyed. HOUSE is a survey file, or - for standard input.
Flags may stand before or after it.

Flags:
  -o OUT         draw the house: write drawings and lists to the directory OUT;
                 without it nothing is written
  -cuts          list and draw the lines along which spaces may be divided between
                 two units, and what each goes by
  -paper SIZE    a3 (default), a4, a2, ansi-b, ansi-c or arch-d
  -imperial      feet and inches on the drawings, also of a survey in metres
  -date DATE     date in the title blocks, YYYY-MM-DD; left blank without it, so
                 that the same input gives the same bytes
  -json          print survey.json instead of the list in words

Examples:
  moiety survey my.house.json
  moiety survey my.house.json -o out/as-is
  moiety survey - -json < my.house.json

OUT holds survey.txt, survey.json, set.pdf, sheets/*.svg and SHA256SUMS. It is
written whole or not at all. A former result in OUT is replaced once the new one
is complete; a directory that holds anything else is left alone.

Exit codes: 0 done; 2 bad input or usage; 3 a fault of the program;
130 interrupted.
`

const modelHelp = `Usage: moiety model HOUSE -o F.lp [flags]
       moiety model HOUSE -check ANSWER [flags]

Writes the question that "split" answers as one mixed-integer program in the LP
text format, which general solvers read; or reads a solver's answer to it, gives
the scheme that it stands for, reckons its price anew and compares it with the
least one, to a millionth. HOUSE is a survey file, or - for standard input.
Flags may stand before or after it.

Flags:
  -o F.lp        the file to write, or - for standard output
  -check ANSWER  a solution file of HiGHS (raw style), CBC (-solu) or GLPK's
                 glpsol (-o or -w), or - for standard input
  -brief FILE    what is asked of the two units (*.brief.yaml)
  -prices FILE   prices of your own (YAML)

Examples:
  moiety model my.house.json -brief my.brief.yaml -o my.lp
  cbc my.lp -ratio 0 -solve -solu my.sol
  moiety model my.house.json -brief my.brief.yaml -check my.sol
  glpsol --lp my.lp --cuts -w my.sol
  highs my.lp --solution_file my.sol

The file says in comments what its rows mean. Names are made of the ids in the
survey: own.A.kitchen is 1 where unit A gets the kitchen alone. Where the brief
lets spaces be divided, the house is divided along all candidate lines at once;
"split" looks at fewer lines too, and reckons what it finds with the thickness
of the walls. Its price can therefore differ from that of this problem. Let a
solver go to a gap of nothing: many stop at one in ten thousand unless told.

Exit codes: 0 done, or the answer agrees; 1 it does not: it costs more, is no
scheme, or states a wrong price; or two demands leave a space to neither unit;
2 bad input or usage, or an answer that cannot be read; 3 a fault of the
program: the answer is better than what was proved; 130 interrupted.
`

// help prints the general help or that of a command.
func (p *program) help(args []string) error {
	texts := map[string]string{"": generalHelp, "split": splitHelp, "survey": surveyHelp, "model": modelHelp, "rules": rulesHelp}
	text, known := texts[strings.Join(args, " ")]
	if !known {
		return usage(fmt.Sprintf("no help on %q", strings.Join(args, " ")), generalHelp)
	}
	_, err := fmt.Fprint(p.stdout, text)
	return err
}

// usage is a mistake on the command line. It shows how the help begins and
// where the rest of it is.
func usage(mistake, help string) error {
	command := "moiety help"
	if synopsis, found := strings.CutPrefix(help, "Usage: moiety "); found {
		name, _, _ := strings.Cut(synopsis, " ")
		command += " " + name
	}
	return badInput(errors.New(mistake + "\nRun \"" + command + "\" for usage and examples."))
}
