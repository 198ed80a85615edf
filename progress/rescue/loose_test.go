package rescue

import (
	"database/sql"
	"maps"
	"slices"
	"testing"

	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// loose returns an answer by its columns, as another file has it.
func loose(t *testing.T, k tables.AnswerRow) LooseAnswer {
	t.Helper()
	from := empty(t, len(tables.Migrations))
	add(t, from, k)
	columns, err := ColumnsOf(from, "answers")
	must(t, err)
	values, into := make([]any, len(columns)), make([]any, len(columns))
	for i := range values {
		into[i] = &values[i]
	}
	must(t, from.QueryRow("SELECT * FROM answers").Scan(into...))
	a := LooseAnswer{Fields: map[string]any{}, Item: k.Item, Drill: k.Drill, TakenFor: k.TakenFor}
	for i, column := range columns {
		a.Fields[column] = values[i]
	}
	return a
}

func TestColumnsOfATable(t *testing.T) {
	names, err := ColumnsOf(empty(t, len(tables.Migrations)), "sessions")
	if diff := cmp.Diff([]string{"id", "began", "ended", "minutes", "seal", "import"}, names); diff != "" || err != nil {
		t.Errorf("%s, %v", diff, err)
	}
	if names, err := ColumnsOf(empty(t, len(tables.Migrations)), "letters"); names != nil || err != nil {
		t.Errorf("of no table: %v, %v", names, err)
	}
}

// An answer is added with every field it had, after those that are there, and once.
func TestALooseAnswerIsAddedOnce(t *testing.T) {
	into := empty(t, len(tables.Migrations))
	add(t, into, answer(7))
	bare := answer(2)
	bare.TakenFor, bare.Session = "", ""
	for _, k := range []tables.AnswerRow{answer(1), bare} {
		for _, want := range []bool{true, false} {
			must(t, tables.Write(into, func(tx *sql.Tx) error {
				added, err := loose(t, k).AddIfWhole(tx)
				if added != want {
					t.Errorf("%s: added %v, want %v", k.ID, added, want)
				}
				return err
			}))
		}
	}
	got := answersIn(t, into)
	for i, want := range []tables.AnswerRow{answer(7), answer(1), bare} {
		if i >= len(got) || !got[i].Under.Valid {
			t.Fatalf("%d answers", len(got))
		}
		got[i].Under = sql.NullInt64{}
		if diff := cmp.Diff(want, got[i]); diff != "" {
			t.Errorf("answer %d: %s", i, diff)
		}
	}
}

// What is no answer, or not what was written, is not added, and leaves nothing behind.
func TestALooseAnswerThatIsNone(t *testing.T) {
	for what, harm := range map[string]func(a *LooseAnswer){
		"a letter has turned":          func(a *LooseAnswer) { a.Fields["given"] = "C G" },
		"the item has another name":    func(a *LooseAnswer) { a.Item = "spell/augmented" },
		"the item has no name":         func(a *LooseAnswer) { a.Item = "" },
		"the drill is another":         func(a *LooseAnswer) { a.Drill = "tell" },
		"it was taken for another":     func(a *LooseAnswer) { a.TakenFor = "spell/augmented" },
		"it was taken for nothing":     func(a *LooseAnswer) { a.TakenFor = "" },
		"a result that is none":        func(a *LooseAnswer) { a.Fields["result"] = int64(4) },
		"text where a number stands":   func(a *LooseAnswer) { a.Fields["took"] = "long" },
		"nothing where something is":   func(a *LooseAnswer) { a.Fields["voice"] = nil },
		"a field that no file has":     func(a *LooseAnswer) { a.Fields["mood"] = "glad" },
		"unsealed and with one choice": func(a *LooseAnswer) { a.Fields["seal"], a.Fields["choices"] = nil, int64(1) },
	} {
		into := empty(t, len(tables.Migrations))
		must(t, tables.Write(into, func(tx *sql.Tx) error {
			a := loose(t, answer(1))
			harm(&a)
			added, err := a.AddIfWhole(tx)
			if added || err != nil {
				t.Errorf("%s: added %v, %v", what, added, err)
			}
			return nil
		}))
		if left := append(rowsIn(t, into, "id) FROM items"), rowsIn(t, into, "n) FROM answers")...); left != nil {
			t.Errorf("%s: left behind %v", what, left)
		}
	}
}

// The item of an answer that is there under another drill is refused, and keeps its drill.
func TestALooseAnswerToAnItemOfAnotherDrill(t *testing.T) {
	into := empty(t, len(tables.Migrations))
	_, err := into.Exec("INSERT INTO items VALUES (1, 'spell/major', 'tell')")
	must(t, err)
	must(t, tables.Write(into, func(tx *sql.Tx) error {
		if added, err := loose(t, answer(1)).AddIfWhole(tx); added || err != nil {
			t.Errorf("added %v, %v", added, err)
		}
		return nil
	}))
	if diff := cmp.Diff([]string{"1 spell/major tell"}, rowsIn(t, into, "n, id, drill) FROM items")); diff != "" {
		t.Error(diff)
	}
}

// A fault of the file that is written to is an error, not an answer that is none.
func TestALooseAnswerWhereNothingCanBeWritten(t *testing.T) {
	for _, harm := range []string{"PRAGMA query_only = ON", "DROP TABLE items", ""} {
		into := empty(t, len(tables.Migrations))
		tx, err := into.Begin()
		must(t, err)
		a := loose(t, answer(1))
		if harm == "" {
			must(t, tx.Rollback())
		} else if _, err := tx.Exec(harm); err != nil {
			t.Fatal(err)
		}
		if added, err := a.AddIfWhole(tx); added || err == nil {
			t.Errorf("%s: added %v, %v", harm, added, err)
		}
		tx.Rollback()
	}
	into := empty(t, len(tables.Migrations))
	add(t, into, answer(3)) // the items are there, and only the answer cannot be written
	tx, err := into.Begin()
	must(t, err)
	if _, err := tx.Exec("PRAGMA query_only = ON"); err != nil {
		t.Fatal(err)
	}
	if written, err := loosely(tx, "DELETE FROM answers"); written || err == nil {
		t.Errorf("written %v, %v", written, err)
	}
	must(t, tx.Rollback())
	columns := rowsIn(t, into, "name) FROM pragma_table_info('answers')")
	if diff := cmp.Diff(slices.Sorted(slices.Values(columns)), slices.Sorted(maps.Keys(loose(t, answer(1)).Fields))); diff != "" {
		t.Errorf("an answer has other fields than the table has columns: %s", diff)
	}
}
