package progress

import (
	"database/sql"
	_ "embed"
	"fmt"
	"maps"
	"slices"
)

// applicationID marks a file as ours, in the field that SQLite keeps for it: "sptn" in ASCII.
const applicationID = 0x7370746e

// migrations are the steps from an empty file to the present schema. A file's user_version is the
// number of steps behind it. A step that is published is never changed; a new one is added.
var migrations = []string{schema, sealed, choicesKept, importsKept, doubtsDerived, settingsAsIDs}

//go:embed schema_choices.sql
var choicesKept string

//go:embed schema_imports.sql
var importsKept string

//go:embed schema_doubts.sql
var doubtsDerived string

//go:embed schema.sql
var schema string

// steps takes a file from one version of the schema to another.
func steps(tx *sql.Tx, from, to int) error {
	for _, step := range migrations[from:to] {
		if _, err := tx.Exec(step); err != nil {
			return err
		}
	}
	_, err := tx.Exec(fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, to))
	return err
}

// known returns the version of a file's schema, or the error of a file that holds what this program did not
// put there. Nothing but the list of what there is has been read by then, so a trigger has not been set off
// and a view has not been looked through.
func known(from reader) (version int, err error) {
	if err := from.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		return 0, err
	}
	if version > len(migrations) {
		return 0, newer(version)
	}
	has, err := objects(from)
	if err != nil {
		return 0, err
	}
	should, err := objectsOf(version)
	if err != nil {
		return 0, err
	}
	for _, name := range slices.Sorted(maps.Keys(has)) {
		switch text, ours := should[name]; {
		case !ours:
			return 0, fmt.Errorf("it holds the %s, which this program did not put there; it was left as it is", short(name))
		case text != has[name]:
			return 0, fmt.Errorf("the %s is not as this program makes it; it was left as it is", short(name))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(should)) {
		if _, there := has[name]; !there {
			return 0, damaged("the %s is missing", name)
		}
	}
	return version, nil
}

// objects lists what is in a schema, such as "table answers", each with the statement that made it.
func objects(from reader) (map[string]string, error) {
	all := map[string]string{}
	return all, each(from, "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema", nil, func(row *sql.Rows) error {
		var kind, name, table, text string
		err := row.Scan(&kind, &name, &table, &text)
		if table != name {
			name += " of " + table
		}
		all[kind+" "+name] = text
		return err
	})
}

// objectsOf lists what a file of a version holds, by making one in memory.
func objectsOf(version int) (map[string]string, error) {
	db := newPlace("").open()
	defer db.Close()
	tx, err := db.Begin()
	if err != nil {
		return nil, err
	}
	defer tx.Rollback()
	if err := steps(tx, 0, version); err != nil {
		return nil, err
	}
	return objects(tx)
}

func newer(version int) error {
	return fmt.Errorf("a newer sparetone wrote it (schema %d, this one knows up to %d); it was left as it is", version, len(migrations))
}
