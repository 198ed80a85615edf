package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/theory"
)

// After a wrong answer what was right and what was answered are heard in turn by themselves: as many sounds as were named while they
// sounded, at the times when they were named, each with the notes that stand under its shape, and the strings that are marked are those
// whose notes only one of the two has.
func TestContrastIsHeardAsNamed(t *testing.T) {
	for drill, asks := range map[string]string{
		"chord-ear": `["major", "minor", "dominant", "suspended-fourth"]`,
		"added-ear": `["added-ninth", "major-sixth", "dominant"]`,
	} {
		t.Run(drill, func(t *testing.T) {
			t.Parallel()
			need(t, "tmux", "bash")
			lesson := filepath.Join(t.TempDir(), "lesson.toml")
			if err := os.WriteFile(lesson, fmt.Appendf(nil, "[[step]]\nid = \"one\"\ndrill = %q\nasks = %s\n", drill, asks), 0o600); err != nil {
				t.Fatal(err)
			}
			env := sink(t)
			m := inMultiplexer(t, "")
			m.tmux("resize-window", "-x", "140", "-y", "50")
			vars := ""
			for _, v := range env[len(env)-3:] {
				vars += v + " "
			}
			m.press(vars+binaryPath(t)+" practice --lesson "+lesson+" --seed 5 --at-once", "Enter")
			m.await("begin")
			awaitStream(t, env)
			m.press("Enter")
			// A busy machine lets the server run dry, and a gap has all frequencies: what is amiss may be tried again, with another question.
			var amiss []string
			for range 12 {
				m.await("Which")
				time.Sleep(untilStill)
				rec := record(t, env)
				time.Sleep(500 * time.Millisecond)
				names := m.namesInTurn() // watched from before the first, or it would be seen late
				m.press("1")
				m.await("It needs practice")
				shows := m.tmux("capture-pane", "-p")
				if !strings.Contains(shows, "Not this time") || len(noteRow(shows)) != 8 {
					names(0)
					rec.stop(t)
					m.press("Enter")
					continue
				}
				named := names(9 * time.Second)
				if amiss = contrastAmiss(m.tmux("capture-pane", "-p"), named, parts(rec.stop(t))); len(amiss) == 0 {
					m.press("q", "q")
					return
				}
				t.Logf("%s\n%s", strings.Join(amiss, "\n"), shows)
				m.press("Enter")
			}
			t.Errorf("no contrast is heard as it is named: %v", amiss)
		})
	}
}

// untilStill is how long the longest question of the drills sounds, until nothing of it is left in a recording.
const untilStill = 8 * time.Second

// namedSound is what stood behind a note, and since when.
type namedSound struct {
	name string
	at   time.Time
}

var afterNote = regexp.MustCompile(`♪ (.*?)(?:   |\n)`)

// namesInTurn watches what is named while it sounds, until so long after what it returns is called, which returns the names.
func (m *multiplexed) namesInTurn() (until func(time.Duration) []namedSound) {
	end, seen := make(chan struct{}), make(chan []namedSound)
	go func() {
		var out []namedSound
		for {
			name := ""
			if found := afterNote.FindStringSubmatch(m.tmux("capture-pane", "-p")); found != nil {
				name = found[1]
			}
			if name != "" && (len(out) == 0 || out[len(out)-1].name != name) {
				out = append(out, namedSound{name, time.Now()})
			}
			select {
			case <-end:
				seen <- out
				return
			case <-time.After(20 * time.Millisecond):
			}
		}
	}()
	return func(long time.Duration) []namedSound {
		time.Sleep(long)
		close(end)
		return <-seen
	}
}

// part is a stretch of sound between silences: when it begins in the recording, in seconds, and what sounds in it.
type part struct {
	begins float64
	found  map[int]bool
}

// parts cuts a recording at its silences.
func parts(samples []float64) (out []part) {
	const (
		window = recordedRate / 50 // 20 ms
		quiet  = 2e-4
		least  = recordedRate / 2
	)
	begin, still := -1, 0
	end := func(at int) {
		if begin >= 0 && at-begin >= least {
			out = append(out, part{float64(begin) / recordedRate, newSpectrum(samples[begin:at]).sounding()})
		}
		begin = -1
	}
	for at := 0; at+window <= len(samples); at += window {
		peak := 0.0
		for _, s := range samples[at : at+window] {
			peak = max(peak, math.Abs(s))
		}
		switch {
		case peak > quiet && begin < 0:
			begin, still = at, 0
		case peak > quiet:
			still = 0
		case begin >= 0:
			if still++; still == 8 { // 160 ms
				end(at - 7*window)
			}
		}
	}
	end(len(samples))
	return out
}

var notesAlone = regexp.MustCompile(`^ *(?:[A-G][♯♭]* +){7}[A-G][♯♭]* *$`)

// noteRow is the line of the notes under two shapes, as the notes.
func noteRow(shows string) []string {
	for line := range strings.Lines(shows) {
		if line = strings.TrimRight(line, "\r\n "); notesAlone.MatchString(line) {
			return strings.Fields(line)
		}
	}
	return nil
}

// wordsBegin are the columns in which the words of a line begin.
func wordsBegin(line string) (out []int) {
	last := ' '
	for i, r := range []rune(line) {
		if r != ' ' && last == ' ' {
			out = append(out, i)
		}
		last = r
	}
	return out
}

// marked are which of the strings of two shapes side by side, counted from the left, have a sign.
func marked(shows string) map[int]bool {
	var at []int
	for line := range strings.Lines(shows) {
		if line = strings.TrimRight(line, "\r\n "); notesAlone.MatchString(line) {
			at = wordsBegin(line)
		}
	}
	out := map[int]bool{}
	for line := range strings.Lines(shows) {
		for i, r := range []rune(line) {
			if r == '◆' || r == '◇' {
				out[slices.Index(at, i)] = true
			}
		}
	}
	return out
}

// contrastAmiss says in what a contrast that was heard is not what the screen shows and named.
func contrastAmiss(shows string, names []namedSound, heard []part) (out []string) {
	wrong := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	row, lit := noteRow(shows), marked(shows)
	classOf := func(note string) int {
		n, err := theory.ParseNote(strings.NewReplacer("♭", "b", "♯", "#").Replace(note))
		if err != nil {
			wrong("%v", err)
		}
		return n.Class()
	}
	var claimed [2]map[int]bool
	for side := range claimed {
		claimed[side] = map[int]bool{}
		for _, note := range row[4*side:][:4] {
			claimed[side][classOf(note)] = true
		}
	}
	if len(heard) != 4 || len(names) != 4 {
		wrong("%d sounds are heard and %d named: %v", len(heard), len(names), names)
		return out
	}
	for n, p := range heard {
		side := n % 2
		if yours := strings.HasPrefix(strings.ToLower(names[n].name), "your answer"); yours != (side == 1) {
			wrong("sound %d is named %q", n+1, names[n].name)
		}
		named, begun := names[n].at.Sub(names[0].at).Seconds(), p.begins-heard[0].begins
		if math.Abs(named-begun) > 0.35 {
			wrong("sound %d begins after %.2f s, and is named after %.2f", n+1, begun, named)
		}
		var all []int
		for midi, there := range p.found {
			if there {
				all = append(all, midi)
			}
		}
		classes := map[int]bool{}
		for _, midi := range all {
			classes[midi%12] = true
			if !claimed[side][midi%12] && !partial(midi, all) {
				wrong("sound %d: note %d is heard, under its shape stand %v", n+1, midi, row[4*side:][:4])
			}
		}
		for class := range claimed[side] {
			if !classes[class] {
				wrong("sound %d: a note of class %d stands under its shape and is not heard", n+1, class)
			}
		}
	}
	// A note that only one of them has is on a string that is marked, and some string is.
	if len(lit) == 0 {
		wrong("no string is marked")
	}
	for i, note := range row {
		if other := claimed[1-i/4]; !other[classOf(note)] && !lit[i] {
			wrong("string %d of shape %d sounds %s, which the other has not, and is not marked", i%4+1, i/4+1, note)
		}
	}
	return out
}
