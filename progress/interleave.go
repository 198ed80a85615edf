package progress

import (
	"bytes"
	"cmp"
	"database/sql"
	"math"
	"time"
)

// Two histories become one when an export is imported, or a file goes on from a copy. Each keeps its own order, whatever
// its clock did, and they are put together by the times that are believed:
//
//	here    Monday             Wednesday   Thursday
//	there            Tuesday      ·1970     Thursday
//	                              └ stays behind the answer it was given after
//
// What is believed of a history is judged by that history alone, and the machine's clock. So it makes no difference
// which of several is taken in first.

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

// interleave puts the answers that were added after a number into their place in time among those before. Came is the
// history they are of, with what was there already in its place; where it is nil they are one by themselves.
func interleave(tx *sql.Tx, last int64, came []arrival, now time.Time) error {
	var before, added []arrival
	err := each(tx, "SELECT n, at, id FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var a arrival
		var id []byte
		err := row.Scan(&a.n, &a.at, &id)
		copy(a.id[:], id)
		if a.n <= last {
			before = append(before, a)
		} else {
			added = append(added, a)
		}
		return err
	})
	if err != nil {
		return err
	}
	if came == nil {
		came = added
	}
	type place struct {
		arrival
		turn turn
	}
	placed := func(history []arrival) (out []place) {
		for i, t := range turnsOf(history, now) {
			if history[i].n != 0 {
				out = append(out, place{history[i], t})
			}
		}
		return out
	}
	here, there := placed(before), placed(came)
	move, err := tx.Prepare("UPDATE answers SET n = ? WHERE n = ?")
	if err != nil {
		return err
	}
	defer move.Close()
	earlier := func(a, b place) bool {
		return cmp.Or(a.turn.compare(b.turn), cmp.Compare(a.at, b.at), bytes.Compare(a.id[:], b.id[:])) < 0
	}
	for n := int64(1); len(here)+len(there) > 0; n++ {
		from := &here
		if len(here) == 0 || len(there) > 0 && earlier(there[0], here[0]) {
			from = &there
		}
		if p := (*from)[0]; p.n != n {
			if _, err := move.Exec(-n, p.n); err != nil { // out of the way of those not moved yet
				return err
			}
		}
		*from = (*from)[1:]
	}
	_, err = tx.Exec("UPDATE answers SET n = -n WHERE n < 0")
	return err
}
