package partition

// network is a flow network of which every node may be tied to either end by
// what is left of a capacity: from the source (the A end) or to the sink (the
// B end). Flow is sent by blocking flows on the graph of levels (Dinic 1970).
// A journal brings back earlier states.
type network struct {
	first []int32 // per node: its arcs
	arcs  []arc
	ends  []cost // capacity left from the source (> 0) or to the sink (< 0)

	journal []change
	seen    []int32
	stamp   int32
	level   []int32
	next    []int32 // per node: the next arc to try
	queue   []int32
}

type arc struct {
	to, twin int32
	left     cost
}

// change is an old value: of an arc's capacity (at >= 0), or of an end (^at).
type change struct {
	at  int32
	was cost
}

func (n *network) grow(nodes int) {
	n.seen = make([]int32, nodes)
	n.level = make([]int32, nodes)
	n.next = make([]int32, nodes)
}

// back undoes all changes since the journal had the given length.
func (n *network) back(length int) {
	for i := len(n.journal) - 1; i >= length; i-- {
		if c := n.journal[i]; c.at >= 0 {
			n.arcs[c.at].left = c.was
		} else {
			n.ends[^c.at] = c.was
		}
	}
	n.journal = n.journal[:length]
}

func (n *network) setEnd(node int32, x cost) {
	n.journal = append(n.journal, change{^node, n.ends[node]})
	n.ends[node] = x
}

// begin starts a search.
func (n *network) begin() {
	n.stamp++
	n.queue = n.queue[:0]
}

func (n *network) start(node int32) {
	n.seen[node] = n.stamp
	n.level[node] = 0
	n.next[node] = n.first[node]
	n.queue = append(n.queue, node)
}

// push sends up to want from node to the sink (ahead), or from the source to
// node, beyond what node's own end offers; it returns how much. If it is less,
// queue then holds the nodes reached from node.
func (n *network) push(node int32, want cost, ahead bool) (sent cost) {
	for sent < want {
		n.begin()
		n.start(node)
		if !n.levels(want-sent, ahead) {
			break
		}
		sent += n.send(node, want-sent, ahead, true)
	}
	return sent
}

// settle sends what is possible from the source to the sink, up to stop; it
// returns how much.
func (n *network) settle(stop cost) (sent cost) {
	for sent <= stop {
		n.begin()
		for node, e := range n.ends {
			if e > 0 {
				n.start(int32(node))
			}
		}
		sources := len(n.queue)
		if !n.levels(never, true) {
			break
		}
		for _, node := range n.queue[:sources] {
			if x := n.send(node, n.ends[node], true, true); x > 0 {
				n.setEnd(node, n.ends[node]-x)
				if sent += x; sent > stop {
					return sent
				}
			}
		}
	}
	return sent
}

// levels fills in the distances from the nodes in the queue, over arcs with
// capacity left in (or against) their direction, until the ends seen offer
// plenty for need. It reports whether any end was seen.
func (n *network) levels(need cost, ahead bool) bool {
	var seen cost
	plenty := min(need, never/8) * 2
	deepest := int32(1 << 30)
	for i := 0; i < len(n.queue); i++ {
		u := n.queue[i]
		if n.level[u] >= deepest {
			break
		}
		for a := n.first[u]; a < n.first[u+1]; a++ {
			v := n.arcs[a].to
			if n.seen[v] == n.stamp {
				continue
			}
			var left, end cost
			if ahead {
				left, end = n.arcs[a].left, -n.ends[v]
			} else {
				left, end = n.arcs[n.arcs[a].twin].left, n.ends[v]
			}
			if left == 0 {
				continue
			}
			n.seen[v] = n.stamp
			n.level[v] = n.level[u] + 1
			n.next[v] = n.first[v]
			n.queue = append(n.queue, v)
			if end > 0 {
				if seen += min(end, left, plenty); seen >= plenty && deepest > n.level[v] {
					deepest = n.level[v]
				}
			}
		}
	}
	return seen > 0
}

// send sends up to x from u along rising levels; it returns how much arrived.
// The first node's own end is left alone.
func (n *network) send(u int32, x cost, ahead, begin bool) (sent cost) {
	if !begin {
		if e := n.ends[u]; ahead && e < 0 {
			sent = min(x, -e)
			n.setEnd(u, e+sent)
		} else if !ahead && e > 0 {
			sent = min(x, e)
			n.setEnd(u, e-sent)
		}
	}
	for ; n.next[u] < n.first[u+1]; n.next[u]++ {
		if sent == x {
			return sent
		}
		a := n.next[u]
		v := n.arcs[a].to
		if n.seen[v] != n.stamp || n.level[v] != n.level[u]+1 {
			continue
		}
		if !ahead {
			a = n.arcs[a].twin
		}
		left := n.arcs[a].left
		if left == 0 {
			continue
		}
		part := n.send(v, min(x-sent, left), ahead, false)
		if part == 0 {
			continue
		}
		t := n.arcs[a].twin
		n.journal = append(n.journal, change{a, n.arcs[a].left}, change{t, n.arcs[t].left})
		n.arcs[a].left -= part
		n.arcs[t].left += part
		sent += part
		if sent == x {
			return sent // the arc may have capacity left
		}
	}
	return sent
}
