// Package partition parts a graph of cells between two units, A and B, at
// the least price, and proves it. It knows cells, links, functions and
// bounds; it knows no houses.
//
// # The problem
//
// A labelling gives every cell that is not public one of its allowed labels:
// A's, B's, or common. What belongs to a unit is its own cells, the common
// ones, and the public ones. A cell is indoor if it is neither public nor
// outdoor nor detached. A way is a link that is open today or whose door is
// bought; a door may be bought where its price is not Impossible and some
// unit has both ends, and is bought once, whichever units use it.
//
// A scheme is a labelling, hosts, bought doors and entries such that:
//
//   - Hosting. For each function f, unit u has at most Need[f] distinct hosts
//     among its cells (no public ones; prices that are Impossible host
//     nothing). A common cell may host for either unit or for both, each
//     paying. Over both units a cell hosts at most Capacity counted functions.
//     Of the functions of one of its Clashes it hosts all but one at most.
//     Each host missing costs Lack[f], and none may be missing where its Money
//     is Impossible. Hosting more than needed never pays; for a function
//     marked Exactly it is not even valid.
//   - Entry. A unit with NeedEntry has one entry: a way marked Entry for it,
//     from a ground cell (public, or outdoor and the unit's) that is reached
//     from a public cell over open links through such ground cells, to an
//     indoor cell of the unit that is no dead end.
//   - Dead ends. An indoor cell is a dead end if it is one today or hosts, for
//     either unit, a function that it Closes for.
//   - Indoors. From the indoor end of the entry every indoor cell of the unit
//     is reached over ways between indoor cells of the unit, never leaving a
//     dead end again except along an Ensuite link from its U to its V.
//     Without NeedEntry the same holds from some indoor cell of the unit, and
//     the unit may have none.
//   - Outdoors. If there is a public cell, each outdoor or detached cell of
//     the unit is reached from a public cell or an indoor cell of the unit
//     (dead ends too) over ways through outdoor cells of the unit and public
//     ones. Detached cells are reached and never passed. Without any public
//     cell outdoor and detached cells are exempt.
//   - Area. The cells that are the unit's alone have at least MinArea, and
//     MinAmount of either further measure; A's part of the area that is
//     either's alone is from ShareMin to ShareMax thousandths, both included.
//
// The price is the sum of: Common of each common cell; Own of each other one;
// Sep of each link with one end A's and the other B's; SepCommon, and shared
// elements to the number of SharedEdge, of each link with one end common and
// the other not (links with a public end part nothing; where the price is
// Impossible the ends may not part so); hosting prices; Lack prices; doors; the
// balance. It is compared lexicographically, Shared first.
//
// # Order and ties
//
// Of schemes with the same price the one with the lesser sum of tie weights
// comes first, where a label weighs the last 8 bits of the 32-bit FNV-1a hash
// of the cell's name followed by the label's number (A 0, B 1, common 2); then
// the one whose labels, in the order of the cells' names, come first; then the
// one whose entry links come first when links are ordered by their cells'
// names, then their own. The answer therefore does not depend on the order of
// cells, links and functions, nor on the number of workers.
//
// If exchanging the units changes nothing (the same needs, bounds, allowed
// labels, Own and Entry), mirror images are one scheme, and of the two the one
// is meant whose first cell by name that is not common is A's.
//
// Two schemes differ if a Distinct cell has another label (and they are no
// mirror images, where that counts). Of schemes that do not differ only the
// first is listed.
//
// # The search
//
// Branch and bound over the labels: search.go shares out the parts of the
// search tree, the one with the least bound first; dive.go narrows a part and
// branch.go splits it. The lower bound is the sum of what charges for
// different things: a minimum cut for labels and parting (cut.go, on the flow
// network of network.go), a transport problem for the hosts (transport.go),
// cheapest ways for the doors (reach.go). Hosts are put right rather than looked
// for anew where one is barred (rehost.go). Three kinds of multipliers raise it,
// each valid whatever its value: for area (press.go), for the agreement of cut
// and hosts (ascend.go), for connection (grow.go). Labels are taken away where
// no scheme can have them (propagate.go, components.go) or where the bound
// would rise too far (probe.go, residual.go). With all labels known the rest
// is solved exactly (leaf.go). Schemes to begin with come from descent
// (incumbent.go); the best ones that differ are kept in kbest.go.
//
// Verify recomputes a result from the definition, and WriteLP writes the same
// problem for a general solver.
package partition
