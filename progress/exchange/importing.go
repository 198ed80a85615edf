package exchange

import (
	"database/sql"
	"maps"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// importing is an import under way.
type importing struct {
	*naming
	find, insert *sql.Stmt
	means        func(item string) bool
	meant        map[string]bool              // what it said
	came         []clock.Arrival              // the answers of the export, in their order
	sessions     map[string]tables.SessionRow // met so far; without an id where there is none
	given        map[string]stretch           // sessions of the answers added so far, but for those that are doubted
	doubted      map[string]bool              // sessions of the export that are
	whose        []progress.Whose             // the export holds, as far as it says
	first        []byte                       // id of the first answer of which it does not
	id           string                       // of the import
	note         note
	done         Imported
}

// knows reports whether an item means anything to this version.
func (in *importing) knows(item string) bool {
	if _, asked := in.meant[item]; !asked {
		in.meant[item] = in.means(item)
	}
	return in.meant[item]
}

// naming keeps the items that answers speak of.
type naming struct {
	tx     *sql.Tx
	names  tables.ItemNumbers // items met so far
	drills map[string]string  // of these, where it is known
}

func newNaming(tx *sql.Tx) *naming {
	return &naming{tx, tables.ItemNumbers{}, map[string]string{}}
}

// name makes sure that the items an answer speaks of have their rows.
func (n *naming) name(a progress.Answer) error {
	_, other := n.names[a.TakenFor]
	if n.drills[a.Item] == a.Drill && (other || a.TakenFor == "") {
		return nil
	}
	names, err := tables.NameItems(n.tx, a)
	maps.Copy(n.names, names)
	n.drills[a.Item] = a.Drill
	return err
}

// Taking says how an export is taken in.
type Taking struct {
	From  string                 // what it is called, such as the name of its file; kept for UndoImport
	Means func(item string) bool // whether an item means anything to this version
	Other bool                   // also the practice of another progress file, as the student's own
}

// Imported says what an import came to.
type Imported struct {
	ID       string           // of the import, for UndoImport; "" if there was nothing to add
	Copy     string           // of the file before it; "" if there was nothing to add, or the file is in memory
	Added    int              // answers
	Known    int              // answers that were there already
	Sessions int              // added
	Songs    int              // added, or changed
	Foreign  int              // of Added and Known, answers to items that mean nothing to this version; they are kept like the others
	Such     string           // one of those items
	Of       []progress.Whose // whose practice the export holds
	Goes     bool             // the file was empty, and goes on from the first of these
	Joined   []progress.Whose // of these, those that were not the student's own before
}

// stretch is the first and the last of some times, in milliseconds since 1970.
type stretch struct{ first, last int64 }
