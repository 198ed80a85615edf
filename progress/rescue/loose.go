package rescue

import (
	"database/sql"
	"errors"
	"strings"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// LooseAnswer is an answer by the columns it had in another file.
type LooseAnswer struct {
	Fields                map[string]any // but for n, item and taken_for
	Item, Drill, TakenFor string
}

// AddIfWhole adds an answer after all others, and reports whether it did: not if it is none, is not what was
// written, or is there.
func (a LooseAnswer) AddIfWhole(tx *sql.Tx) (added bool, err error) {
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

func (a LooseAnswer) add(tx *sql.Tx) (bool, error) {
	names, err := tables.NameItems(tx, progress.Answer{Item: a.Item, Drill: a.Drill, TakenFor: a.TakenFor})
	if no := (tables.Refused{}); errors.As(err, &no) {
		return false, nil
	} else if err != nil {
		return false, err
	}
	columns, marks := []string{"item", "taken_for"}, "?, ?"
	args := []any{names[a.Item], nil}
	if a.TakenFor != "" {
		args[1] = names[a.TakenFor]
	}
	for column, value := range a.Fields {
		if column != "n" && column != "item" && column != "taken_for" {
			columns, marks, args = append(columns, column), marks+", ?", append(args, value)
		}
	}
	added, err := loosely(tx, "INSERT OR IGNORE INTO answers ("+strings.Join(columns, ", ")+") VALUES ("+marks+")", args...)
	if err != nil || !added {
		return false, err
	}
	whole := false
	err = tables.AnswersWhere(tx, "WHERE answers.id = ?", []any{a.Fields["id"]}, func(k tables.AnswerRow) error {
		whole = k.Fault() == ""
		return nil
	})
	return whole && err == nil, nil
}

// loosely writes a row that may be none, and reports whether it did.
func loosely(tx *sql.Tx, query string, args ...any) (bool, error) {
	done, err := tx.Exec(query, args...)
	if tables.IsOfSQLite(err) && errors.Is(tables.Plain(err), err) { // no fault of the disk: the row is none
		return false, nil
	} else if err != nil {
		return false, err
	}
	n, err := done.RowsAffected()
	return n > 0, err
}

// ColumnsOf lists the columns of a table, in their order.
func ColumnsOf(from tables.Reader, table string) (names []string, err error) {
	err = tables.Each(from, "SELECT name FROM pragma_table_info(?) ORDER BY cid", []any{table}, func(row *sql.Rows) error {
		var name string
		err := row.Scan(&name)
		names = append(names, name)
		return err
	})
	return names, err
}
