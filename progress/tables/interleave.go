package tables

import (
	"bytes"
	"cmp"
	"database/sql"
	"time"

	"sparetone/progress/clock"
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

// Interleave puts the answers that were added after a number into their place in time among those before. Came is the
// history they are of, with what was there already in its place; where it is nil they are one by themselves.
func Interleave(tx *sql.Tx, last int64, came []clock.Arrival, now time.Time) error {
	var before, added []clock.Arrival
	err := Each(tx, "SELECT n, at, id FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var a clock.Arrival
		var id []byte
		err := row.Scan(&a.N, &a.At, &id)
		copy(a.Id[:], id)
		if a.N <= last {
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
		clock.Arrival
		turn clock.Turn
	}
	placed := func(history []clock.Arrival) (out []place) {
		for i, t := range clock.Turns(history, now) {
			if history[i].N != 0 {
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
		return cmp.Or(a.turn.Compare(b.turn), cmp.Compare(a.At, b.At), bytes.Compare(a.Id[:], b.Id[:])) < 0
	}
	for n := int64(1); len(here)+len(there) > 0; n++ {
		from := &here
		if len(here) == 0 || len(there) > 0 && earlier(there[0], here[0]) {
			from = &there
		}
		if p := (*from)[0]; p.N != n {
			if _, err := move.Exec(-n, p.N); err != nil { // out of the way of those not moved yet
				return err
			}
		}
		*from = (*from)[1:]
	}
	_, err = tx.Exec("UPDATE answers SET n = -n WHERE n < 0")
	return err
}
