package progress

import (
	"bytes"
	"cmp"
	"math"
	"time"
)

// arrival is an answer of a history, in its order.
type arrival struct {
	n  int64 // its number in the file; 0 if it was there already, and stands in its place
	at int64 // milliseconds since 1970
	id [16]byte
}

// turn is when an answer's turn comes among those of other histories.
type turn struct {
	at    int64    // of the latest believed answer up to it in its own history; of the first one, if none is before it
	id    [16]byte // of that answer
	place int      // beside it: -1 before, 0 is it, 1 after
}

// turnsOf returns when the turns of the answers of a history come.
func turnsOf(history []arrival, now time.Time) []turn {
	var runs runs
	for i, a := range history {
		runs.add(int64(i), time.UnixMilli(a.at))
	}
	runs.add(int64(len(history)), now)
	doubted := doubtsOf(runs)
	latest := turn{at: math.MinInt64}
	turns := make([]turn, len(history))
	first := -1
	for i, a := range history {
		t := turn{a.at, a.id, 0}
		switch {
		case doubted.of(int64(i), time.UnixMilli(a.at)), first >= 0 && t.compare(latest) <= 0:
			t = latest
			t.place = 1
		default:
			latest = t
			if first < 0 {
				first = i
			}
		}
		turns[i] = t
	}
	if first < 0 && len(history) > 0 { // nobody knows: after all others
		first = 0
		turns[0] = turn{math.MaxInt64, history[0].id, 0}
		for i := range turns[1:] {
			turns[i+1] = turn{math.MaxInt64, history[0].id, 1}
		}
	}
	for i := range max(0, first) {
		turns[i] = turns[first]
		turns[i].place = -1
	}
	return turns
}

func (t turn) compare(u turn) int {
	return cmp.Or(cmp.Compare(t.at, u.at), bytes.Compare(t.id[:], u.id[:]), t.place-u.place)
}
