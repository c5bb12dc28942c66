// Package services sizes what a dwelling is supplied with: heating, hot water,
// the electrical service, ventilation and drains, by published methods.
//
// Every result says its method, its inputs, where the figures come from and how
// far they can be relied on, and what it leaves out. None is a design: licensed
// trades size and install, and the local authority and the utility decide.
//
// Power is in watts, apparent power in volt-amperes, areas in square metres,
// volumes in cubic metres or litres, temperatures in degrees Celsius, flows in
// litres per second. The package knows no houses.
package services
