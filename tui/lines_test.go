package tui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode"

	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress/store"
	"sparetone/tui/lines"
)

// heardLines is what a screen reader would read.
type heardLines struct {
	mu   sync.Mutex
	text strings.Builder
}

func (h *heardLines) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.Write(p)
}

func (h *heardLines) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.String()
}

// await waits until a pattern was read so many times.
func (h *heardLines) await(t *testing.T, pattern string, times int) {
	t.Helper()
	re := regexp.MustCompile(pattern)
	for range 60_000 {
		if len(re.FindAllString(h.String(), -1)) >= times {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Fatalf("%q was not read %d times in\n%s", pattern, times, h.String())
}

// A whole day by a script that reads nothing but lines: the first run, ten minutes to their end, the weak
// spots, one pair of them, the bench, the settings. Every question is answered as its words ask for.
func TestPlainDay(t *testing.T) {
	var mu sync.Mutex
	at := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	now := func() time.Time {
		mu.Lock()
		defer mu.Unlock()
		at = at.Add(3 * time.Second)
		return at
	}
	file, err := store.InMemory(now)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	speaker := &fakeSpeaker{}
	p := practice.App{
		Setup:   session.Setup{File: file, Course: course.BuiltIn(), Length: 10 * time.Minute, Silent: true, Seed: 3, Now: now},
		Speaker: speaker, Settings: atOnce(file), New: true,
	}
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	in, typed := io.Pipe()
	out := &heardLines{}
	ended := make(chan error, 1)
	go func() { ended <- inMemory(lines.Run(context.Background(), p, in, out)) }()
	say := func(lines ...string) {
		for _, l := range lines {
			fmt.Fprintln(typed, l)
		}
	}
	for n := range practice.Greetings {
		out.await(t, fmt.Sprintf("%d of %d\\.", n+1, len(practice.Greetings)), 1)
		say("")
	}
	out.await(t, "An empty line begins", 1)
	say("")
	for n := 1; ; n++ {
		out.await(t, fmt.Sprintf("Question %d\\.|questions, \\d+ right", n), 1)
		if strings.Contains(out.String(), "questions, ") {
			break
		}
		say("2", "R R R R", "0 0 0 0", "C")
		out.await(t, "It needs practice", n)
		say("")
	}
	out.await(t, "An empty line goes back to today's practice", 1)
	say("answers", "", "")
	out.await(t, "An empty line begins", 2)
	say("weak")
	out.await(t, "Type a number to practise that pair", 1)
	say("1")
	out.await(t, `Question 1\.`, 2)
	say("stop")
	out.await(t, "An empty line begins", 3)
	say("try")
	out.await(t, "Type a chord", 1)
	say("0003", "2", "nonsense", "Cm7", "")
	out.await(t, "An empty line begins", 4)
	say("settings", "capo 2", "capo 200", "")
	out.await(t, "Capo is now 2", 1)
	out.await(t, "An empty line begins", 5)
	say("leave")
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	text := out.String()
	for _, r := range text {
		if r != '\n' && (!unicode.IsPrint(r) || r >= 0x2500 && r < 0x2600 || strings.ContainsRune("♭♯›‹✓✗±", r)) {
			t.Fatalf("%q is read out in\n%s", r, text)
		}
	}
	for said, times := range map[string]int{"Start quietly": 1, "The time is up.": 1} {
		if got := strings.Count(text, said); got != times {
			t.Errorf("%q is said %d times, not %d", said, got, times)
		}
	}
	asked := regexp.MustCompile(`(\d+) questions, \d+ right`).FindStringSubmatch(text)
	if health, err := file.Check(); err != nil || asked == nil || fmt.Sprint(health.Answers) != asked[1] || health.Answers < 10 {
		t.Errorf("of the day %q is told, and %d answers are kept: %v", asked, health.Answers, err)
	}
	t.Log(text)
}

// A flood of bytes is no answer and no harm.
func TestPlainFlood(t *testing.T) {
	p, _ := practiceOf(t, true)
	flood := strings.Repeat("\x00\xff\x1b[2J", 1<<18) + "\n" + strings.Repeat("x", 1<<20) + "\n\nhelp\nleave\n"
	out := &heardLines{}
	if err := inMemory(lines.Run(context.Background(), p, strings.NewReader(flood), out)); err != nil {
		t.Fatal(err)
	}
	if strings.ContainsRune(out.String(), '\x1b') || !strings.Contains(out.String(), "Answer with a number") {
		t.Errorf("read: %q", out.String())
	}
}

// There is a way on from everywhere: out of the first run, out of a question to the settings, and out of those.
func TestPlainWaysOn(t *testing.T) {
	p, _ := practiceOf(t, true)
	p.New = true
	typed := "stop\n\nsettings\nstop\nsettings\nkey B flat minor\nlevel\n\ntry\nB flat minor\n\nleave\n"
	out := &heardLines{}
	if err := inMemory(lines.Run(context.Background(), p, strings.NewReader(typed), out)); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"stop leaves them for another time", "This is a question. Type stop first, and then settings.",
		"Key is now B flat minor.", "It may be: from the beginning; major, minor", "\nB flat minor\nB flat, the root, sounds on the", "An empty line begins",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not said in\n%s", want, out)
		}
	}
}

// inMemory is an error of a practice that a test keeps in memory, but for the one that says so.
func inMemory(err error) error {
	if err != nil && strings.HasSuffix(err.Error(), "not kept in any file: practice is in memory only") {
		return nil
	}
	return err
}

// fullAfter takes so many lines and then no more, as a disk that is full.
type fullAfter struct{ lines int }

func (f *fullAfter) Write(p []byte) (int, error) {
	if f.lines == 0 {
		return 0, errFull
	}
	f.lines--
	return len(p), nil
}

var errFull = errors.New("no space left on device")

// Whoever cannot be shown a question is not taken to have answered it, wherever the writing stops.
func TestPlainWritesToAFullDevice(t *testing.T) {
	p, _ := practiceOf(t, true)
	shown := plainly(t, p, "", "")
	question := strings.Count(shown[:strings.Index(shown, "Type a number. help")], "\n") + 1 // lines up to the end of the first one
	for room := range question + 1 {
		p, _ := practiceOf(t, true)
		err := lines.Run(context.Background(), p, strings.NewReader("\nI don't know\n\nI don't know\n\n"), &fullAfter{room})
		if !errors.Is(err, errFull) {
			t.Errorf("after %d lines it ended with %v", room, err)
		}
		want := 0
		if room == question {
			want = 1 // what came of it could not be said
		}
		if h, err := p.File().Check(); err != nil || h.Answers != want {
			t.Errorf("%d answers, not %d, where %d lines were written of %d; %v", h.Answers, want, room, question, err)
		}
	}
}
