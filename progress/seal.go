package progress

import (
	"database/sql"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"math"
)

// SQLite notices damage to how a file is built, but not to what is written in it: a bit that turns in the
// text of an answer is read as another text. So every row that cannot be made again carries a seal, a sum
// over what it says (CRC-32C, which catches every change of up to 32 bits in a row and all but one in four
// billion of the others; Castagnoli, Bräuer and Herrmann, IEEE Transactions on Communications 41(6), 1993).
// Rows of files older than the seals have none until the file is next opened for practice.

// sealed is the step that adds the seals. addSeals fills them in.
const sealed = `
ALTER TABLE answers ADD COLUMN seal INTEGER;
ALTER TABLE sessions ADD COLUMN seal INTEGER;
ALTER TABLE settings ADD COLUMN seal INTEGER;`

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// sealOf returns the sum over the fields of a row. A field at its zero value does not count, so one that is
// added to the end later leaves the seals of earlier rows as they are.
func sealOf(fields ...any) int64 {
	var all []byte
	for i, field := range fields {
		var value []byte
		switch v := field.(type) {
		case string:
			value = []byte(v)
		case int64:
			if v != 0 {
				value = binary.BigEndian.AppendUint64(nil, uint64(v))
			}
		case float64:
			if v != 0 {
				value = binary.BigEndian.AppendUint64(nil, math.Float64bits(v))
			}
		default:
			panic(fmt.Sprintf("a field of the type %T has no seal", field))
		}
		if len(value) > 0 {
			all = binary.AppendUvarint(all, uint64(i))
			all = binary.AppendUvarint(all, uint64(len(value)))
			all = append(all, value...)
		}
	}
	return int64(crc32.Checksum(all, castagnoli))
}

// seal returns the seal of an answer. It covers the names of its items, so that they are under seal as well.
// New fields go to the end.
func (k kept) seal() int64 {
	return sealOf(string(k.ID[:]), k.Session, k.Item, k.Drill, int64(k.Seed), k.At.UnixMilli(), int64(k.Day), k.Question, k.Given, k.Expected,
		k.TakenFor, int64(k.Result), k.Took.Milliseconds(), int64(k.Replays), int64(k.Hints), k.Voice, int64(k.Choices), k.Import)
}

// sessionRow is a session as the file has it.
type sessionRow struct {
	id      string
	began   int64
	ended   sql.NullInt64
	minutes float64
	seal    sql.NullInt64
	by      string // the import it came with; empty if it was begun here
}

func (s sessionRow) sum() int64 { return sealOf(s.id, s.began, s.ended.Int64, s.minutes, s.by) }

func sessionRows(from reader, where string, args []any, read func(sessionRow) error) error {
	return each(from, "SELECT id, began, ended, minutes, seal, import FROM sessions "+where, args, func(row *sql.Rows) error {
		var s sessionRow
		if err := row.Scan(&s.id, &s.began, &s.ended, &s.minutes, &s.seal, &s.by); err != nil {
			return err
		}
		return read(s)
	})
}

// sealSessions seals sessions as they now are; whoever writes one seals it.
func sealSessions(tx *sql.Tx, where string, args ...any) error {
	sums := map[string]int64{}
	err := sessionRows(tx, where, args, func(s sessionRow) error { sums[s.id] = s.sum(); return nil })
	if err != nil {
		return err
	}
	for id, sum := range sums {
		if _, err := tx.Exec("UPDATE sessions SET seal = ? WHERE id = ?", sum, id); err != nil {
			return err
		}
	}
	return nil
}

// addSeals seals every row that has no seal yet.
func addSeals(tx *sql.Tx) error {
	if err := sealSessions(tx, "WHERE seal IS NULL"); err != nil {
		return err
	}
	settings := map[string]int64{}
	err := each(tx, "SELECT key, value FROM settings WHERE seal IS NULL", nil, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		settings[key] = sealOf(key, value)
		return err
	})
	if err != nil {
		return err
	}
	for key, sum := range settings {
		if _, err := tx.Exec("UPDATE settings SET seal = ? WHERE key = ?", sum, key); err != nil {
			return err
		}
	}
	sums := map[[16]byte]int64{}
	err = answersIn(tx, func(k kept) error {
		if !k.under.Valid {
			sums[k.ID] = k.seal()
		}
		return nil
	})
	if err != nil || len(sums) == 0 {
		return err
	}
	update, err := tx.Prepare("UPDATE answers SET seal = ? WHERE id = ?")
	if err != nil {
		return err
	}
	defer update.Close()
	for id, sum := range sums {
		if _, err := update.Exec(sum, id[:]); err != nil {
			return err
		}
	}
	return nil
}

// broken reports whether a row is no longer what was sealed.
func broken(seal sql.NullInt64, sum int64) bool { return seal.Valid && seal.Int64 != sum }

// fault says in a few words why an answer in the file cannot be what was kept; it is empty if nothing is wrong.
func (k kept) fault() string {
	if broken(k.under, k.seal()) {
		return "an answer of " + k.At.Format(dateForm) + " is not what was written"
	}
	if err := k.valid(); err != nil {
		return tidy(err.Error())
	}
	return ""
}

// brokenRows says which sessions and settings are not what was written.
func brokenRows(from reader) (says []string, err error) {
	err = sessionRows(from, "", nil, func(s sessionRow) error {
		if broken(s.seal, s.sum()) {
			says = append(says, "a session is not what was written")
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = each(from, "SELECT key, value, seal FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		var seal sql.NullInt64
		err := row.Scan(&key, &value, &seal)
		if broken(seal, sealOf(key, value)) {
			says = append(says, "a setting is not what was written")
		}
		return err
	})
	return says, err
}
