package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"sparetone/progress"
	"sparetone/progress/exported"
)

// someLine is an answer as it is exported.
func someLine(rng *rand.Rand) exported.Answer {
	l := exported.Answer{Kind: "answer", ID: fmt.Sprintf("%032x", rng.Uint64()), Session: "s1", Item: "chord-ear/major/ukulele", Drill: "chord-ear", Seed: rng.Uint64(),
		At: evening.Add(time.Duration(rng.IntN(1e6)) * time.Millisecond).Format(exported.TimeForm), Day: "2026-03-04", Question: "Which chord? C4 E4", Given: "major", Expected: "major",
		Result: "right", TookMS: int64(rng.IntN(9000)), Replays: rng.IntN(3), Voice: "nylon", Choices: 2 + rng.IntN(4), Rung: 1}
	l.File, l.Whose = "FILE", "Änn"
	return l
}

func jsonOf(t testing.TB, l exported.Answer) []byte {
	t.Helper()
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(l); err != nil {
		t.Fatal(err)
	}
	return bytes.TrimRight(b.Bytes(), "\n")
}

// What is read the quick way is what any reader of JSON reads, whatever is done to a line; and a line as it is exported is read so.
func TestScannerReadsWhatJSONSays(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 18))
	var s exported.Scanner
	if l := someLine(rng); true {
		if got, plain := s.Answer(jsonOf(t, l)); !plain || !bytes.Equal(jsonOf(t, got), jsonOf(t, l)) {
			t.Errorf("a line as it is exported is not read the quick way: %v, %+v", plain, got)
		}
	}
	signs := []string{`"`, `\`, `,`, `{`, `}`, `:`, ` `, `0`, `-`, `"kind":"answer",`, `,"rung":2`, "\xff", "\ufffd", "\t", "1e5", "true", "null", `,"doubted":false`}
	quick := 0
	for range 20_000 {
		line := jsonOf(t, someLine(rng))
		for range rng.IntN(3) { // damage
			at, sign := rng.IntN(len(line)), signs[rng.IntN(len(signs))]
			end := min(len(line), at+rng.IntN(3))
			line = append(line[:at:at], append([]byte(sign), line[end:]...)...)
		}
		got, plain := s.Answer(line)
		if !plain {
			continue
		}
		quick++
		o, err := exported.ObjectOf(line)
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		want, err := o.Answer()
		want.Kind, _ = o.Text("kind")
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(exported.Answer{})); err != nil || diff != "" {
			t.Fatalf("%s: %v\n%s", line, err, diff)
		}
	}
	if quick < 6000 {
		t.Errorf("only %d of 20,000 lines were read the quick way", quick)
	}
}

// Reading hands on sessions and answers in their order, with whose they are.
func TestReadHandsOn(t *testing.T) {
	l := someLine(rand.New(rand.NewPCG(2, 2)))
	text := `{"kind":"session","id":"s1","file":"FILE","whose":"Änn","began":"2026-03-04T18:30:00Z","minutes":10}` + "\n" + string(jsonOf(t, l)) + "\n"
	var sessions []Session
	var answers []Answer
	err := Read(strings.NewReader(text), Reading{
		Session: func(s Session) error { sessions = append(sessions, s); return nil },
		Answer:  func(a Answer) error { answers = append(answers, a); return nil },
	})
	if err != nil || len(sessions) != 1 || len(answers) != 1 {
		t.Fatalf("%v: %d sessions, %d answers", err, len(sessions), len(answers))
	}
	if s := sessions[0]; s.ID != "s1" || s.Minutes != 10*time.Minute || !s.Ended.IsZero() || s.Of != (progress.Whose{ID: "FILE", Name: "Änn"}) {
		t.Errorf("%+v", s)
	}
	if a := answers[0]; a.Item != l.Item || a.Result != progress.Right || a.Day.Date().Format(time.DateOnly) != l.Day || a.Of.Name != "Änn" || fmt.Sprintf("%x", a.ID) != l.ID || a.Doubted {
		t.Errorf("%+v", a)
	}
}

// What is wrong is told by line and field, and a function that has had enough ends it.
func TestReadRefuses(t *testing.T) {
	good := string(jsonOf(t, someLine(rand.New(rand.NewPCG(3, 3)))))
	enough := errors.New("enough")
	for _, c := range []struct{ text, want string }{
		{good + "\n" + good[:100], "line 2: this is not a whole JSON object"},
		{good + "\n" + strings.Replace(good, `"right"`, `"rihgt"`, 1), `line 2: result is right, partly or wrong, not "rihgt"`},
		{"", "there is nothing in it"},
		{"hello", "line 1: this is no export of answers: one begins with a JSON object, or with the names of columns such as id,session,item"},
		{good + "\n" + good + "\n" + good, "line 3: enough"},
		{strings.Replace(good, `"Änn"`, `"`+strings.Repeat("n", 2000)+`"`, 1), "line 1: whose is a line of 100 bytes at most, without control characters"},
	} {
		n := 0
		err := Read(strings.NewReader(c.text), Reading{Answer: func(Answer) error {
			if n++; n == 3 {
				return enough
			}
			return nil
		}})
		if err == nil || err.Error() != c.want {
			t.Errorf("%.40s…: %v, want %s", c.text, err, c.want)
		}
	}
}

// Whose an export is, is seen from its first line that says so, and where none does from the first answer, as in its own file.
func TestPeek(t *testing.T) {
	l := someLine(rand.New(rand.NewPCG(5, 5)))
	handed := `{"kind":"handed-in","format":1,"file":"F","whose":"Bo","at":"2026-03-04T18:30:00Z"}` + "\n"
	for _, c := range []struct{ text, id, name string }{
		{string(jsonOf(t, l)) + "\nand then nothing that can be read", "FILE", "Änn"},
		{handed + string(jsonOf(t, l)), "F", "Bo"},
	} {
		if of, err := Peek(strings.NewReader(c.text)); err != nil || of != (progress.Whose{ID: c.id, Name: c.name}) {
			t.Errorf("%+v, %v", of, err)
		}
	}
	l.File, l.Whose = "", ""
	first, err := Peek(bytes.NewReader(jsonOf(t, l)))
	again, _ := Peek(strings.NewReader(string(jsonOf(t, l)) + "\n" + string(jsonOf(t, someLine(rand.New(rand.NewPCG(6, 6)))))))
	if err != nil || first.ID == "" || first != again {
		t.Errorf("%+v and %+v, %v", first, again, err)
	}
	if _, err := Peek(strings.NewReader("hello")); err == nil {
		t.Error("what is no export is one")
	}
}

// BenchmarkRead reads answers as they are exported.
func BenchmarkRead(b *testing.B) {
	rng := rand.New(rand.NewPCG(4, 4))
	var text bytes.Buffer
	for range 1000 {
		text.Write(append(jsonOf(b, someLine(rng)), '\n'))
	}
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		if err := Read(bytes.NewReader(text.Bytes()), Reading{Answer: func(Answer) error { return nil }}); err != nil {
			b.Fatal(err)
		}
	}
}
