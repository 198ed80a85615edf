package clock

import (
	"bytes"
	"cmp"
	"math"
	"time"
)

// Arrival is an answer of a history, in its order.
type Arrival struct {
	N  int64 // its number in the file; 0 if it was there already, and stands in its place
	At int64 // milliseconds since 1970
	Id [16]byte
}

// Turn is when an answer's turn comes among those of other histories.
type Turn struct {
	at    int64    // of the latest believed answer up to it in its own history; of the first one, if none is before it
	id    [16]byte // of that answer
	place int      // beside it: -1 before, 0 is it, 1 after
}

// Turns returns when the turns of the answers of a history come.
func Turns(history []Arrival, now time.Time) []Turn {
	var runs Runs
	for i, a := range history {
		runs.Add(int64(i), time.UnixMilli(a.At))
	}
	runs.Add(int64(len(history)), now)
	doubted := Judge(runs)
	latest := Turn{at: math.MinInt64}
	turns := make([]Turn, len(history))
	first := -1
	for i, a := range history {
		t := Turn{a.At, a.Id, 0}
		switch {
		case doubted.Of(int64(i), time.UnixMilli(a.At)), first >= 0 && t.Compare(latest) <= 0:
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
		turns[0] = Turn{math.MaxInt64, history[0].Id, 0}
		for i := range turns[1:] {
			turns[i+1] = Turn{math.MaxInt64, history[0].Id, 1}
		}
	}
	for i := range max(0, first) {
		turns[i] = turns[first]
		turns[i].place = -1
	}
	return turns
}

func (t Turn) Compare(u Turn) int {
	return cmp.Or(cmp.Compare(t.at, u.at), bytes.Compare(t.id[:], u.id[:]), t.place-u.place)
}
