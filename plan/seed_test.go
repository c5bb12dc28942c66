package plan_test

import "flag"

// Properties draw the same houses and shapes each time, so that a change is
// judged by what it changes; -rapid.seed draws others.
func init() {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
}
