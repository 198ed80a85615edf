package tables

import (
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"testing"

	"sparetone/progress"
)

// From every version a file comes to the present one, step by step or at once, and is marked as ours.
func TestEveryVersionComesToThePresentOne(t *testing.T) {
	last := len(Migrations)
	want, err := objects(file(t))
	must(t, err)
	for from := range last + 1 {
		db := empty(t, from)
		if version, err := Version(db); version != from || err != nil {
			t.Errorf("version %d, %v, want %d", version, err, from)
		}
		write(t, db, func(tx *sql.Tx) error { return Migrate(tx, from, last) })
		if version, err := Version(db); version != last || err != nil {
			t.Errorf("from %d: version %d, %v", from, version, err)
		}
		has, err := objects(db)
		must(t, err)
		same(t, fmt.Sprint("from version ", from), want, has)
		var ours int
		must(t, db.QueryRow("PRAGMA application_id").Scan(&ours))
		same(t, "application", ApplicationID, ours)
	}
	same(t, "application, in ASCII", "sptn", string([]byte{ApplicationID >> 24, ApplicationID >> 16 & 0xff, ApplicationID >> 8 & 0xff, ApplicationID & 0xff}))
}

// sumsOfSteps are the SHA-256 sums of the steps, the first eight digits of each. A file is refused whose tables were made by other
// statements, to the letter, so that a step stays as it was published, remarks included.
var sumsOfSteps = []string{
	"63d1100b", "402de494", "3869aae4", "49ef4910", "e2393a69", "db9ec1fa", "09ecd1a1", "9079d9d4", "aabe5a77", "d19840c0", "4876a626", "e37f7877",
	"ae1675ca",
}

// A step that is published is never changed. A new one has its sum here.
func TestPublishedStepsStay(t *testing.T) {
	var sums []string
	for _, step := range Migrations {
		sum := sha256.Sum256([]byte(step))
		sums = append(sums, hex.EncodeToString(sum[:4]))
	}
	same(t, "sums of the steps", sumsOfSteps, sums)
}

// What a file of this version does not hold, or holds otherwise, is told by name.
func TestAFileThatIsNotAsWeMadeIt(t *testing.T) {
	for harm, want := range map[string]string{
		"CREATE TABLE letters (text)":                           "it holds the table letters, which this program did not put there; it was left as it is",
		"CREATE INDEX mine ON answers (at)":                     "it holds the index mine of answers, which this program did not put there; it was left as it is",
		"ALTER TABLE answers ADD COLUMN mood TEXT":              "the table answers is not as this program makes it; it was left as it is",
		"DROP TABLE pace":                                       "the file is damaged: the table pace is missing",
		"DROP TABLE pace; DROP TABLE doubts":                    "the file is damaged: the table doubts is missing",
		"DROP TABLE pace; CREATE TABLE letters (text)":          "it holds the table letters, which this program did not put there; it was left as it is",
		fmt.Sprint("PRAGMA user_version = ", len(Migrations)+1): fmt.Sprintf("a newer sparetone wrote it (schema %d, this one knows up to %d); it was left as it is", len(Migrations)+1, len(Migrations)),
	} {
		db := file(t)
		exec(t, db, harm)
		version, err := Version(db)
		if version != 0 && err == nil || err == nil || err.Error() != want {
			t.Errorf("%s: %d, %v", harm, version, err)
		}
		if errors.Is(err, progress.ErrDamaged) != strings.Contains(want, "damaged") {
			t.Errorf("%s: damaged or not: %v", harm, err)
		}
	}
	db := file(t)
	db.Close()
	if _, err := Version(db); err == nil {
		t.Error("a closed file has a version")
	}
}

// A step that cannot be done is an error, and leaves the version as it was.
func TestAStepThatCannotBeDone(t *testing.T) {
	db := file(t)
	if err := Write(db, func(tx *sql.Tx) error { return Migrate(tx, 0, 1) }); err == nil {
		t.Error("what is there was made again")
	}
	if version, err := Version(db); version != len(Migrations) || err != nil {
		t.Errorf("%d, %v", version, err)
	}
}
