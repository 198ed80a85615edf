package exchange

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// loop is a song as somebody keeps it.
var loop = progress.Song{ID: "kept-1", Song: "song-1", At: evening, Chart: "| C | Am | F | G7 |", Tuning: "ukulele", Rich: 3, Sounds: "both"}

// songLine is a song as a line of an export.
func songLine(t *testing.T, s progress.Song) string {
	t.Helper()
	b, err := json.Marshal(exported.SongOf(tables.NewSongRow(s, ""), exported.Owner{File: "FILE", Whose: "Ada"}))
	if err != nil {
		t.Fatal(err)
	}
	return string(b) + "\n"
}

// A song is taken in unless a later state of it is kept; of states as late as each other the greater id holds on every machine. What is kept
// under an id is the same everywhere.
func TestTheLatestOfASongIsTakenIn(t *testing.T) {
	state := func(id string, at time.Time) progress.Song {
		s := loop
		s.ID, s.At = id, at
		return s
	}
	for _, row := range []struct {
		name  string
		comes progress.Song
		songs int    // taken in
		holds string // id of the state that holds then
		says  string // what is wrong; "" if nothing is
	}{
		{"the same", loop, 0, "kept-1", ""},
		{"later", state("kept-2", evening.Add(time.Hour)), 1, "kept-2", ""},
		{"earlier", state("kept-2", evening.Add(-time.Hour)), 0, "kept-1", ""},
		{"as late, with a greater id", state("kept-2", evening), 1, "kept-2", ""},
		{"as late, with a lesser id", state("kept-0", evening), 0, "kept-1", ""},
		{"another under the same id", state("kept-1", evening.Add(time.Hour)), 0, "kept-1", "this is another than the song which is kept under the id kept-1"},
	} {
		db := fresh(t)
		if done, err := taken(db, ofSession+songLine(t, loop), mine); err != nil || done.Songs != 1 {
			t.Fatalf("%+v, %v", done, err)
		}
		done, err := taken(db, songLine(t, row.comes), mine)
		if row.says == "" && (err != nil || done.Songs != row.songs) || row.says != "" && (err == nil || !strings.Contains(err.Error(), row.says)) {
			t.Errorf("%s: %d songs, %v", row.name, done.Songs, err)
		}
		if now, there, err := tables.LatestSong(db, "song-1"); err != nil || !there || now.ID != row.holds || now.Chart != loop.Chart {
			t.Errorf("%s: %s holds, want %s: %v", row.name, now.ID, row.holds, err)
		}
	}
	db := fresh(t)
	other := loop
	other.Song = "song-2"
	if _, err := taken(db, songLine(t, loop)+songLine(t, other), mine); err == nil || !strings.Contains(err.Error(), "the id kept-1 is that of another song") {
		t.Errorf("two songs of one id: %v", err)
	}
}

// Answers given at one moment lie in the order of their ids, whatever order they come in, so that it is the same on every machine.
func TestAnswersOfOneMomentAreInOneOrder(t *testing.T) {
	line := func(id string) string { return answerWith(map[string]string{"id": `"` + id + `"`}) }
	const one, two = "10112233445566778899aabbccddeeff", "20112233445566778899aabbccddeeff"
	var orders []string
	for _, lines := range [][]string{{one, two}, {two, one}} {
		db := fresh(t)
		for _, id := range lines { // an import each
			if _, err := taken(db, ofSession+line(id), mine); err != nil {
				t.Fatal(err)
			}
		}
		var ids []string
		if err := tables.Answers(db, func(k tables.AnswerRow) error { ids = append(ids, fmt.Sprintf("%x", k.ID)); return nil }); err != nil {
			t.Fatal(err)
		}
		orders = append(orders, strings.Join(ids, " "))
	}
	if orders[0] != one+" "+two || orders[1] != orders[0] {
		t.Errorf("they lie as %q", orders)
	}
}

// An export says which answers and sessions are doubted: those of a clock that was a year ahead, and their session.
func TestWhatIsDoubtedIsMarked(t *testing.T) {
	db := fresh(t)
	var lines strings.Builder
	for n, day := range []int{0, 1, 400, 2, 3} {
		at := evening.AddDate(0, 0, day)
		id := fmt.Sprintf("s%d", n)
		fmt.Fprintf(&lines, `{"kind":"session","id":%q,"file":"FILE","whose":"Ada","began":%q,"minutes":10}`+"\n", id, at.Format(time.RFC3339))
		lines.WriteString(answerWith(map[string]string{
			"id": fmt.Sprintf(`"%032x"`, n+1), "session": `"` + id + `"`, "at": `"` + at.Add(time.Minute).Format(time.RFC3339) + `"`, "day": `"` + at.Format(time.DateOnly) + `"`,
		}))
	}
	if _, err := taken(db, lines.String(), mine); err != nil {
		t.Fatal(err)
	}
	var answers, sessions []string
	err := Read(strings.NewReader(written(t, db)), Reading{
		Answer: func(a Answer) error {
			if a.Doubted {
				answers = append(answers, a.Session)
			}
			return nil
		},
		Session: func(s Session) error {
			if s.Doubted {
				sessions = append(sessions, s.ID)
			}
			if n := slices.Index([]string{"s0", "s1", "s2", "s3", "s4"}, s.ID); !s.Began.Equal(evening.AddDate(0, 0, []int{0, 1, 400, 2, 3}[n])) {
				t.Errorf("session %s began %v", s.ID, s.Began)
			}
			return nil
		},
	})
	if err != nil || !slices.Equal(answers, []string{"s2"}) || !slices.Equal(sessions, []string{"s2"}) {
		t.Errorf("doubted are answers of %v and sessions %v: %v", answers, sessions, err)
	}
}

// Who handed a file in is held to what a name may be, and said.
func TestWhoHandedItInIsRead(t *testing.T) {
	handed := func(whose string) string {
		return fmt.Sprintf(`{"kind":"handed-in","format":1,"file":"F","whose":%q,"at":"2026-03-04T18:30:00Z"}`+"\n", whose)
	}
	var of []string
	to := Reading{HandedIn: func(h HandedIn) error { of = append(of, h.Whose); return nil }}
	if err := Read(strings.NewReader(handed("Bo")+answerWith(nil)), to); err != nil || !slices.Equal(of, []string{"Bo"}) {
		t.Errorf("%v, %v", of, err)
	}
	if err := Read(strings.NewReader(handed(strings.Repeat("n", 2000))+answerWith(nil)), to); err == nil || !strings.Contains(err.Error(), "whose is a line of 100 bytes at most") {
		t.Errorf("a name of 2,000 letters: %v", err)
	}
}
