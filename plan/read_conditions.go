package plan

// Limits of the count of rooms that people sleep in.
var sleepingLimits = limits{min: 1, max: 50, whole: true}

// readConditions reads what the survey cannot tell. What is not said is taken
// cautiously: two equal units, no sprinklers, existing alarms not surveyed,
// plant that burns fuel, every bedroom slept in and no other room.
func (b *Brief) readConditions(f fields) {
	c := &b.Conditions
	if w := f.word("suite", []string{string(Duplex), string(Secondary)}); w != "" {
		c.Suite = Suite(w)
	}
	if w := f.word("sprinklers", []string{string(NoSprinklers), string(SprinklersThroughout)}); w != "" {
		c.Sprinklers = Sprinklers(w)
	}
	if w := f.word("alarms", []string{string(NoAlarms), string(AloneAlarms), string(LinkedAlarms)}); w != "" {
		c.Alarms = ExistingAlarms(w)
	}
	if w := f.word("fuel", []string{string(NoFuel), string(Gas), string(Oil), string(Solid)}); w != "" {
		c.Fuel = Fuel(w)
	}
	if n, ok := f.number("sleeping_rooms", sleepingLimits); ok {
		c.SleepingRooms = int(n)
	}
}
