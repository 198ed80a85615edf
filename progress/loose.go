package progress

import (
	"database/sql"
	"errors"
	"strings"
)

// looseAnswer is an answer by the columns it had in another file.
type looseAnswer struct {
	fields                map[string]any // but for n, item and taken_for
	item, drill, takenFor string
}

// addIfWhole adds an answer after all others, and reports whether it did: not if it is none, is not what was
// written, or is there.
func (a looseAnswer) addIfWhole(tx *sql.Tx) (added bool, err error) {
	if _, err := tx.Exec("SAVEPOINT loose"); err != nil {
		return false, err
	}
	added, err = a.add(tx)
	if err != nil || !added {
		_, undone := tx.Exec("ROLLBACK TO loose")
		err = errors.Join(err, undone)
	}
	_, released := tx.Exec("RELEASE loose")
	return added, errors.Join(err, released)
}

func (a looseAnswer) add(tx *sql.Tx) (bool, error) {
	names, err := name(tx, Answer{Item: a.item, Drill: a.drill, TakenFor: a.takenFor})
	if no := (refused{}); errors.As(err, &no) {
		return false, nil
	} else if err != nil {
		return false, err
	}
	columns, marks := []string{"item", "taken_for"}, "?, ?"
	args := []any{names[a.item], nil}
	if a.takenFor != "" {
		args[1] = names[a.takenFor]
	}
	for column, value := range a.fields {
		if column != "n" && column != "item" && column != "taken_for" {
			columns, marks, args = append(columns, column), marks+", ?", append(args, value)
		}
	}
	added, err := loosely(tx, "INSERT OR IGNORE INTO answers ("+strings.Join(columns, ", ")+") VALUES ("+marks+")", args...)
	if err != nil || !added {
		return false, err
	}
	whole := false
	err = answersWhere(tx, "WHERE answers.id = ?", []any{a.fields["id"]}, func(k kept) error {
		whole = k.fault() == ""
		return nil
	})
	return whole && err == nil, nil
}

// loosely writes a row that may be none, and reports whether it did.
func loosely(tx *sql.Tx, query string, args ...any) (bool, error) {
	done, err := tx.Exec(query, args...)
	if isOfSQLite(err) && errors.Is(plain(err), err) { // no fault of the disk: the row is none
		return false, nil
	} else if err != nil {
		return false, err
	}
	n, err := done.RowsAffected()
	return n > 0, err
}

// columnsOf lists the columns of a table, in their order.
func columnsOf(from reader, table string) (names []string, err error) {
	err = each(from, "SELECT name FROM pragma_table_info(?) ORDER BY cid", []any{table}, func(row *sql.Rows) error {
		var name string
		err := row.Scan(&name)
		names = append(names, name)
		return err
	})
	return names, err
}
