package progress

import (
	"bytes"
	"cmp"
	"database/sql"
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
