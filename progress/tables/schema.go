package tables

import (
	"database/sql"
	_ "embed"
	"fmt"
	"maps"
	"slices"

	"sparetone/progress"
)

// ApplicationID marks a file as ours, in the field that SQLite keeps for it: "sptn" in ASCII.
const ApplicationID = 0x7370746e

// Migrations are the steps from an empty file to the present schema. A file's user_version is the
// number of steps behind it. A step that is published is never changed; a new one is added.
var Migrations = []string{Schema, sealed, choicesKept, importsKept, DoubtsDerived, settingsAsIDs, tellingDerived, rungsKept, lessonsKept, songsKept, foretoldApart, playedKept, offeredKept}

//go:embed schema_choices.sql
var choicesKept string

//go:embed schema_imports.sql
var importsKept string

//go:embed schema_doubts.sql
var DoubtsDerived string

//go:embed schema_telling.sql
var tellingDerived string

//go:embed schema_rungs.sql
var rungsKept string

//go:embed schema_lessons.sql
var lessonsKept string

//go:embed schema_songs.sql
var songsKept string

//go:embed schema_foretold.sql
var foretoldApart string

//go:embed schema_played.sql
var playedKept string

//go:embed schema_offered.sql
var offeredKept string

//go:embed schema.sql
var Schema string

// Migrate takes a file from one version of the schema to another.
func Migrate(tx *sql.Tx, from, to int) error {
	for _, step := range Migrations[from:to] {
		if _, err := tx.Exec(step); err != nil {
			return err
		}
	}
	_, err := tx.Exec(fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", ApplicationID, to))
	return err
}

// Version returns the version of a file's schema, or the error of a file that holds what this program did not
// put there. Nothing but the list of what there is has been read by then, so a trigger has not been set off
// and a view has not been looked through.
func Version(from Reader) (version int, err error) {
	if err := from.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		return 0, err
	}
	if version > len(Migrations) {
		return 0, Newer(version)
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
			return 0, fmt.Errorf("it holds the %s, which this program did not put there; it was left as it is", progress.Short(name))
		case text != has[name]:
			return 0, fmt.Errorf("the %s is not as this program makes it; it was left as it is", progress.Short(name))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(should)) {
		if _, there := has[name]; !there {
			return 0, progress.Damaged("the %s is missing", name)
		}
	}
	return version, nil
}

// objects lists what is in a schema, such as "table answers", each with the statement that made it.
func objects(from Reader) (map[string]string, error) {
	all := map[string]string{}
	return all, Each(from, "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema", nil, func(row *sql.Rows) error {
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
	db := NewConnector("").Open()
	defer db.Close()
	tx, err := db.Begin()
	if err != nil {
		return nil, err
	}
	defer tx.Rollback()
	if err := Migrate(tx, 0, version); err != nil {
		return nil, err
	}
	return objects(tx)
}

func Newer(version int) error {
	return fmt.Errorf("a newer sparetone wrote it (schema %d, this one knows up to %d); it was left as it is", version, len(Migrations))
}
