package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"moiety/plan"
	"moiety/plan/rules"
)

const rulesHelp = `Usage: moiety rules [SET|FILE] [flags]

Without SET lists the rule sets. With it prints every figure of the set: its
limit, the condition, the clause, the edition, where it was read, and whether it
was read at all or is from memory. FILE is a rule file of your own (*.yaml), or -
for standard input; it is checked as a whole. Flags may stand before or after.

Flags:
  -json    for other programs

A brief names the set that its schemes are checked against: rules: us-irc-2021,
rules: my-town.yaml (as seen from the brief), or rules: none. Without it that is
us-irc-2021. A file of your own builds on a set and changes it figure by figure:

  set: my-town
  base: us-irc-2021
  edition: Ordinance 12 of 2025
  figures:
    escape-area: 6 ft2                  # this limit instead
    stall-width: none                   # says nothing of it
    second-unit-area: {limit: 80 m2, clause: 4.2, when: in zone R1}

Examples:
  moiety rules
  moiety rules ca-nbc-2020
  moiety rules my-town.yaml
  moiety rules us-irc-2021 -json | python3 -m json.tool

Exit codes: 0 done; 2 bad input or usage; 3 a fault of the program;
130 interrupted.
`

// rules carries out "moiety rules".
func (p *program) rules(args []string) error {
	asJSON := false
	flags := flag.NewFlagSet("rules", flag.ContinueOnError)
	flags.BoolVar(&asJSON, "json", false, "")
	operands, err := p.operands(flags, args, rulesHelp)
	if err != nil {
		return err
	}
	if len(operands) > 1 {
		return usage(fmt.Sprintf("one SET at a time: %q and %q were given", operands[0], operands[1]), rulesHelp)
	}
	var text bytes.Buffer
	if len(operands) == 0 {
		write := rules.WriteList
		if asJSON {
			write = rules.WriteListJSON
		}
		err = write(&text)
	} else {
		var set *rules.Set
		if set, err = p.readRuleSet(operands[0]); err != nil {
			return err
		}
		write := rules.WriteText
		if asJSON {
			write = rules.WriteJSON
		}
		err = write(&text, set)
	}
	if err != nil {
		return err
	}
	if _, err := io.Copy(p.stdout, &text); err != nil {
		return badInput(fmt.Errorf("standard output: %w", reason(err)))
	}
	return nil
}

// readRuleSet gives a shipped set by its id, or reads a file.
func (p *program) readRuleSet(name string) (*rules.Set, error) {
	if set, ok := rules.Shipped(name); ok {
		return set, nil
	}
	if _, err := os.Stat(name); name != "-" && errors.Is(err, os.ErrNotExist) && !strings.ContainsAny(name, `./\`) {
		return nil, badInput(fmt.Errorf("there is no rule set %q and no such file; the sets are %s", name, strings.Join(rules.ShippedIDs(), ", ")))
	}
	return readFile(p, name, "rule file", plan.ReadRules)
}
