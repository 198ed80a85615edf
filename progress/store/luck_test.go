package store

import (
	"database/sql"
	"path/filepath"
	"testing"

	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/tables"
)

// A file from before choices were kept is brought up to date: its answers say nothing of choices, and all that follows
// from them is as it was.
func TestAFileWithoutChoices(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	_, err = db.Exec(tables.Schema + `; PRAGMA application_id = 1936749678; PRAGMA user_version = 1;
		INSERT INTO items VALUES (1, 'd/a/u', 'd'), (2, 'd/b/u', 'd');
		INSERT INTO answers VALUES (1, x'00112233445566778899aabbccddeeff', 's', 1, 1, 1772000000000, 20509, '', '', '', NULL, 3, 1000, 0, 0, ''),
			(2, x'10112233445566778899aabbccddeeff', 's', 2, 1, 1772000010000, 20509, '', '', '', NULL, 1, 1000, 0, 0, '');
		INSERT INTO memory VALUES (1, 2.3065, 2.118103970459015, 20509, 20513, 1, 1, 1), (2, 0.212, 6.4133, 20509, 20510, 1, 0, 0);
		INSERT INTO weeks VALUES (1, 2929, 1, 1), (2, 2929, 1, 0);
		INSERT INTO pace VALUES ('d', '[1000]', '[10000]')`)
	if err != nil {
		t.Fatal(err)
	}
	db.Close()
	f := openAt(t, path, evening)
	sound(t, f, 2)
}

// A run of right answers is no luck once guessing hardly gives it: five of two choices, two of five, and of those that
// are given freely the second, as one alone is not spoken of.
func TestHowManyRightAnswersAreNoLuck(t *testing.T) {
	for choices, want := range map[int]int{2: 5, 3: 3, 4: 3, 5: 2, 0: 2} {
		f := inMemory(t, evening)
		give := func(r progress.Result) memory.Standing {
			if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: evening, Result: r, Choices: choices}); err != nil {
				t.Fatal(err)
			}
			all, err := f.Standings()
			if err != nil {
				t.Fatal(err)
			}
			return all[0]
		}
		for range 2 { // a miss begins it anew
			for n := 1; n <= want+1; n++ {
				if got := give(progress.Right).Sure; got != (n >= want) {
					t.Errorf("%d choices: after %d right answers sure: %v", choices, n, got)
				}
			}
			if give(progress.Wrong).Sure {
				t.Errorf("%d choices: sure after a miss", choices)
			}
		}
		sound(t, f, 2*(want+2))
	}
}
