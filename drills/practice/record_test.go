package practice_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/practice/session"
	"sparetone/progress/store"
)

var writeRecord = flag.Bool("write-record", false, "write testdata/record-*.tsv again")

// What sessions leave in the progress file stays as it is, to the byte: 300 answers of all drills, right and wrong,
// heard again, opened up and waited for, on a fixed day with fixed seeds. Whatever changes what is asked, how it is
// marked or what is kept of it shows here; where that is meant, -write-record writes the tables again.
func TestTheRecordStays(t *testing.T) {
	for _, tuning := range []string{"ukulele", "guitar"} {
		t.Run(tuning, func(t *testing.T) {
			got := recorded(t, tuning, 150)
			path := "testdata/record-" + tuning + ".tsv"
			if *writeRecord {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			gots, wants := strings.Split(got, "\n"), strings.Split(string(want), "\n")
			if len(gots) != len(wants) {
				t.Errorf("%d rows, not %d", len(gots), len(wants))
			}
			for n := range min(len(gots), len(wants)) {
				if gots[n] != wants[n] {
					t.Fatalf("the first row of %s that differs is\n%s\nit was\n%s", path, gots[n], wants[n])
				}
			}
		})
	}
}

// recorded practises every drill for itself and then the whole course, until so many answers are given, and returns what
// the file has of them: a row for each, as it is exported, without ids that are drawn.
func recorded(t *testing.T, tuning string, answers int) string {
	t.Helper()
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	file, err := store.InMemory(clock)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(5, 4))
	given, begun := 0, uint64(0)
	practise := func(most int, only ...string) {
		begun++
		s, err := session.New(session.Setup{File: file, On: on, Course: course.BuiltIn(), Drills: only, Length: 10 * time.Minute, Seed: begun, Now: clock})
		if err != nil {
			t.Fatal(err)
		}
		for range most {
			asked, err := s.Next()
			if err != nil {
				t.Fatal(err)
			}
			if asked == nil {
				break
			}
			behave(s, asked, rng, &now)
			given++
		}
		if err := s.End(); err != nil {
			t.Fatal(err)
		}
		now = now.Add(7 * time.Hour)
	}
	for _, id := range catalogue.IDs() {
		practise(6, id)
	}
	for given < answers {
		practise(min(24, answers-given))
	}
	return exported(t, file)
}

// behave takes its time over a question, hears it again, opens it up, waits, and answers it.
func behave(s *session.Session, asked *session.Asked, rng *rand.Rand, now *time.Time) {
	wait := func() { *now = now.Add(time.Duration(500+rng.IntN(9000)) * time.Millisecond) }
	wait()
	if len(asked.Sounds) > 0 {
		for range rng.IntN(3) {
			s.Heard()
		}
		if rng.IntN(4) == 0 {
			s.Hinted()
		}
		if rng.IntN(8) == 0 {
			s.Pause()
			wait()
			s.Resume()
		}
	}
	for {
		if _, err := s.Answer(saying(asked, rng)); err == nil {
			break
		}
	}
	wait()
}

// saying is an answer: mostly the right one, else another, a part of it, that it is not known, or none that makes sense.
func saying(asked *session.Asked, rng *rand.Rand) string {
	right := asked.Expected().Typed
	switch draw := rng.IntN(10); {
	case draw < 5:
		return right
	case draw == 5:
		return drills.Unknown
	case draw == 6:
		return "neither here nor there"
	case len(asked.Choices) > 0 && draw == 7:
		return fmt.Sprint(1 + rng.IntN(len(asked.Choices)))
	case len(asked.Choices) > 0:
		return asked.Choices[rng.IntN(len(asked.Choices))].Typed
	}
	other := map[drills.Form]string{drills.Tones: "4", drills.Frets: "5", drills.Notes: "D#"}[asked.Form]
	words := strings.Fields(right)
	words[rng.IntN(len(words))] = other
	return strings.Join(words, " ")
}

// exported is a file's answers as rows of a table, in the order they were given, with every field that is exported:
// without the ids of answers and of the file, which are drawn, and with sessions counted.
func exported(t *testing.T, file *store.File) string {
	t.Helper()
	var out bytes.Buffer
	if err := file.ExportJSON(&out); err != nil {
		t.Fatal(err)
	}
	sessions := map[string]int{}
	var b strings.Builder
	for line := range strings.Lines(out.String()) {
		if !strings.HasPrefix(line, `{"kind":"answer",`) {
			continue
		}
		names, cells := fields(t, line)
		session := slices.Index(names, "session")
		if sessions[cells[session]] == 0 {
			sessions[cells[session]] = len(sessions) + 1
		}
		cells[session] = fmt.Sprint(sessions[cells[session]])
		for _, drawn := range []string{"kind", "id", "file"} {
			i := slices.Index(names, drawn)
			names, cells = slices.Delete(names, i, i+1), slices.Delete(cells, i, i+1)
		}
		if b.Len() == 0 {
			b.WriteString(strings.Join(names, "\t") + "\n")
		}
		b.WriteString(strings.Join(cells, "\t") + "\n")
	}
	return b.String()
}

// fields are the names and values of an object in their order; none of them is an object or a list.
func fields(t *testing.T, object string) (names, values []string) {
	t.Helper()
	read := json.NewDecoder(strings.NewReader(object))
	read.UseNumber()
	var all []string
	for {
		token, err := read.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if _, bracket := token.(json.Delim); !bracket {
			all = append(all, fmt.Sprint(token))
		}
	}
	for i := 0; i < len(all); i += 2 {
		names, values = append(names, all[i]), append(values, all[i+1])
	}
	return names, values
}
