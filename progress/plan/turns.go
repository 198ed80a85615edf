package plan

import (
	"cmp"
	"slices"
)

// No drill is starved
//
// Worth alone lets one drill fill a session: where much is to be gained in each drill, the one that gains a little more a minute is
// asked nearly always. So of k drills that were asked for by name each is asked at least once in any 2k questions running, half of an
// equal share, whatever it rests on, and the rest goes where a minute is worth most. When its turn has come the worthiest thing of it is
// asked. The question that closes a session is any drill's. A drill that has no question now but such as something shown before gives
// away lets others go before it, until it has waited twice as long.
//
// Where nobody asked for drills by name, as in the course as a whole, worth and the course's order decide alone: with turns as well
// simulated students learned as much, and got less than half right in more sessions (STUDY.md).

const (
	equalShares = 2 // equal shares of the questions that go by at the most before a drill has one
	givesWay    = 2 // times that, which a drill waits that has no question but such as were given away
)

// wait works out how many questions each drill has waited that was asked for by name, and lists those drills, the longest wait first.
func (p *Planner) wait() (taking []string) {
	seen := map[string]bool{}
	for _, c := range p.course {
		if c.ByName && !seen[c.Drill] {
			seen[c.Drill] = true
			taking = append(taking, c.Drill)
		}
	}
	for drill := range p.since {
		if !seen[drill] { // when it is there again it waits from the beginning
			delete(p.since, drill)
		}
	}
	for _, drill := range taking {
		if _, ok := p.since[drill]; !ok {
			p.since[drill] = len(p.asked)
		}
		n := len(p.asked)
		for n > p.since[drill] && p.asked[n-1].Drill != drill {
			n--
		}
		p.waited[drill] = len(p.asked) - n
	}
	slices.SortStableFunc(taking, func(a, b string) int { return cmp.Compare(p.waited[b], p.waited[a]) })
	return taking
}

// inTurn returns the drill whose turn has come, "" if none's has. That is so when, if it is not asked now, it or one of those that have
// waited less comes too late.
func (p *Planner) inTurn() string {
	taking := p.wait()
	p.longest = equalShares * len(taking)
	taking = slices.DeleteFunc(taking, func(drill string) bool { return p.passedOver[drill] })
	for i, drill := range taking {
		if p.waited[drill]+i+1 >= p.longest {
			return taking[0]
		}
	}
	return ""
}

// hasGivenWay reports whether a drill has waited so long that it is not passed over again.
func (p *Planner) hasGivenWay(drill string) bool {
	return p.longest > 0 && p.waited[drill]+1 >= givesWay*p.longest
}

// leftOut reports whether nothing of a drill may be asked now: it is passed over, or it is another's turn.
func (p *Planner) leftOut(drill string) bool {
	return p.passedOver[drill] || p.turn != "" && p.turn != drill
}
