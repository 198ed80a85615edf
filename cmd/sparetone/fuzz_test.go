package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"sparetone/brisk"
	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
	"sparetone/theory"
)

// hostile makes lines, files and calls that nobody would write on purpose.
type hostile struct{ *rand.Rand }

// pieces are what hostile lines are made of: what is nearly right, and what does harm where it is let through.
var pieces = []string{
	"C", "F#", "Bb", "D♭", "m", "maj7", "7", "9", "13", "sus4", "add9", "dim", "ø", "+", "(b5)", "(", ")", "/G", "/", "no5", "b", "#", "♯♯♯♯", "x", "X", "0", "3", "12", "99999999999999999999", "-1",
	"0003", "x32010", " ", ",", ", ", "10,12,12,10", "H", "é", "\t", "\r", "\x00", "\x1b[2J", "\x1b]0;t\a", "\u009b31m", "\u202e", "\u2066", "\u2028", "\xff", "\xc0\x80", "\ufeff", "\u200b", "🎸", "\"", "'", "`", "%s", "%n", "${x}", "$(id)", "\\", "\\u001b", "{", "}", "[", "]", "null", "NaN", "1e309",
	"-", "--", "--json", strings.Repeat("C", 300), strings.Repeat("♭", 70),
}

// line makes a line: pieces, bytes of any kind, or a thing that is right with a byte of it changed.
func (h hostile) line() string {
	switch h.IntN(4) {
	case 0:
		b := make([]byte, h.IntN(12))
		for i := range b {
			b[i] = byte(h.IntN(256))
		}
		return strings.ReplaceAll(string(b), "\n", "")
	case 1:
		s := []byte([]string{"Cmaj7", "F#m7b5", "0003", "x32010", "10,12,12,10", "Bbadd9/D", "2220", "G7(b9,#11)"}[h.IntN(8)])
		if h.IntN(3) > 0 {
			s[h.IntN(len(s))] = byte(' ' + h.IntN(95))
		}
		return string(s)
	}
	var b strings.Builder
	for range 1 + h.IntN(5) {
		b.WriteString(pieces[h.IntN(len(pieces))])
	}
	return b.String()
}

// damaged returns bytes with some of them changed, left out, doubled, or cut off.
func (h hostile) damaged(good []byte) []byte {
	out := bytes.Clone(good)
	if h.IntN(2) == 0 { // what is then written wrong is well formed
		for range 1 + h.IntN(3) {
			if at := h.IntN(len(out)); unicode.IsLetter(rune(out[at])) || unicode.IsDigit(rune(out[at])) {
				out[at] = "abcdefgmstM0123456789"[h.IntN(21)]
			}
		}
		return out
	}
	for range 1 + h.IntN(1+h.IntN(4)) {
		if len(out) < 2 {
			break
		}
		at := h.IntN(len(out))
		to := min(len(out), at+1+h.IntN(1<<h.IntN(7))) // mostly little
		switch h.IntN(5) {
		case 0:
			out[at] ^= byte(1 + h.IntN(255))
		case 1:
			out = append(out[:at:at], out[to:]...)
		case 2:
			out = append(out[:to:to], out[at:]...)
		case 3:
			out = out[:at]
		default:
			out = append(append(out[:at:at], pieces[h.IntN(len(pieces))]...), out[at:]...)
		}
	}
	return out
}

// longestAnswerTime is how long any one thing may take that is asked of the program, working or idle, without the time for which it
// stands in line for a processor.
const longestAnswerTime = 2 * time.Second

// tried calls the program, and checks what is promised of every call: it comes back in time, without a panic, with
// output that is UTF-8 and moves nothing, with one line for an error, and with one of the statuses.
func tried(t *testing.T, stdin string, args ...string) (out string, ended command.Status) {
	t.Helper()
	type result struct {
		out, errs string
		ended     command.Status
		panicked  any
	}
	back := make(chan result, 1)
	go func() {
		var r result
		defer func() {
			r.panicked = recover()
			back <- r
		}()
		r.out, r.errs, r.ended = calledWith(stdin, args...)
	}()
	var r result
	var watch func() time.Duration // from the first look on: most calls come back before
	for waits := true; waits; {
		select {
		case r = <-back:
			waits = false
		case <-time.After(longestAnswerTime / 10):
			if watch == nil {
				watch = brisk.OwnTime()
			} else if took := watch(); took > longestAnswerTime*9/10 {
				t.Fatalf("%.300q does not come back in %v, with %.2000q", args, took, stdin)
			}
		}
	}
	if r.panicked != nil {
		t.Fatalf("%.300q panics with %.2000q: %v", args, stdin, r.panicked)
	}
	for what, text := range map[string]string{"prints": r.out, "says": r.errs} {
		if moves := strings.IndexFunc(text, func(c rune) bool { return c != '\n' && theory.Moves(c) }); !utf8.ValidString(text) || moves >= 0 {
			t.Fatalf("%.300q %s %.2000q", args, what, text)
		}
	}
	if r.ended > command.Faulty || r.ended > command.InputWrong && strings.Count(r.errs, "\n") != 1 {
		t.Fatalf("%.300q ends with %d and says %q", args, r.ended, r.errs)
	}
	return r.out, r.ended
}

// calledWith runs the command line in this process as main does, its errors reported as main reports them.
func calledWith(stdin string, args ...string) (out, errs string, ended command.Status) {
	var o, e bytes.Buffer
	root := newRoot()
	root.SetArgs(helpCalled(args))
	root.SetIn(strings.NewReader(stdin))
	root.SetOut(&o)
	root.SetErr(&e)
	err := root.Execute()
	if err != nil {
		printError(&e, err)
	}
	return o.String(), e.String(), command.StatusOf(err)
}

// batches are the commands that read lines, and how many of a hundred lines each is given: finding shapes takes longer
// than reading a chord.
var batches = []struct {
	args  string
	share int
}{
	{"chord - --json", 30}, {"chord -", 14}, {"shape - --json", 20}, {"shape -", 10}, {"shape - --json --tuning guitar --key Eb", 10},
	{"swaps - --json", 6}, {"swaps - --key F#m", 3}, {"shapes - --json --limit 2", 4}, {"shapes - --limit 1", 2}, {"chord - - --json", 1},
}

// Whatever lines come, each has its object or its error, and the status says whether any was wrong.
// SPARETONE_STUDY=1 sends a million of them, of which practice in lines reads 100,000.
func TestHostileLines(t *testing.T) {
	lines := 6000
	if os.Getenv("SPARETONE_STUDY") != "" {
		lines = 900000
	}
	const atOnce = 100
	h := hostile{rand.New(rand.NewPCG(1, uint64(lines)))}
	sent, wrong := 0, 0
	for _, b := range batches {
		for range max(1, lines*b.share/100/atOnce) {
			var in strings.Builder
			asked := 0
			for range atOnce {
				l := h.line()
				in.WriteString(l + "\n")
				if strings.TrimSpace(strings.TrimRight(l, "\r")) != "" {
					asked++
				}
			}
			sent += atOnce
			out, ended := tried(t, in.String(), strings.Fields(b.args)...)
			if !strings.Contains(b.args, "--json") {
				continue
			}
			refusals, rows := 0, 0
			for line := range strings.Lines(out) {
				var row struct{ Input, Error *string }
				if err := json.Unmarshal([]byte(line), &row); err != nil {
					t.Fatalf("%s prints %q: %v", b.args, line, err)
				}
				rows++
				if row.Error != nil {
					refusals++
				}
			}
			wrong += refusals
			if want := map[bool]command.Status{true: command.InputWrong}[refusals > 0]; ended != want {
				t.Fatalf("%s ended with %d after %d refusals", b.args, ended, refusals)
			}
			if one := strings.HasPrefix(b.args, "chord") || strings.HasPrefix(b.args, "shape -"); one && rows != asked {
				t.Fatalf("%s prints %d lines for %d:\n%q", b.args, rows, asked, in.String())
			}
		}
	}
	t.Logf("%d lines, %d refused of those in JSON", sent, wrong)
}

// Practice in lines understands or refuses whatever is typed, and goes on.
func TestHostileAnswers(t *testing.T) {
	lines := 1000
	if os.Getenv("SPARETONE_STUDY") != "" {
		lines = 100000
	}
	const atOnce = 50
	h := hostile{rand.New(rand.NewPCG(2, uint64(lines)))}
	words := []string{"", "", "1", "2", "again", "open root", "why", "both", "settings", "key", "try", "drills", "course", "weak", "all", "more", "stop", "help", "hear 0003", "hear x", "louder", "tuning baritone", "level 3", "I don't know", "back", "name", "save /"}
	file := filepath.Join(t.TempDir(), "p.db")
	for n := range lines / atOnce {
		var in strings.Builder
		for range atOnce {
			if h.IntN(2) == 0 {
				in.WriteString(words[h.IntN(len(words))] + "\n")
			} else {
				in.WriteString(h.line() + "\n")
			}
		}
		out, ended := tried(t, in.String(), "practice", "--plain", "--silent", "--progress", file, "--seed", fmt.Sprint(n+1))
		if ended != command.Done || strings.Contains(out, "panic") {
			t.Fatalf("practice ended with %d after %q", ended, in.String())
		}
	}
}

// hostileFiles is how many hostile imports, lessons and files there are of each kind.
func hostileFiles() int {
	if os.Getenv("SPARETONE_STUDY") != "" {
		return 2000
	}
	return 25
}

// asSaved returns a CSV export as spreadsheets save it again: with semicolons and a byte-order mark, with tabs, with a line
// that says what parts its cells, and with long numbers rounded.
func asSaved(t *testing.T, export string) (forms []string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(export)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	write := func(comma rune, rows [][]string) string {
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.Comma, w.UseCRLF = comma, true
		if err := w.WriteAll(rows); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	forms = []string{"\ufeff" + write(';', rows), write('\t', rows), "sep=;\r\n" + write(';', rows)}
	seed := slices.Index(rows[0], "seed")
	for _, row := range rows[1:] {
		row[seed] = "1.24E+19"
	}
	return append(forms, write(';', rows))
}

// An import of anything, from this program or from a spreadsheet, is taken in as a whole or refused in a line, and the file
// stays sound. What was taken in can be taken back, and leaves what was there before.
func TestHostileImports(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(3, 3))}
	from := practisedFile(t)
	asJSON, _, _ := called(t, "", "progress", "export", "--json", "--progress", from)
	asCSV, _, _ := called(t, "", "progress", "export", "--csv", "--progress", from)
	good := append([]string{asJSON, asCSV}, asSaved(t, asCSV)...)
	file := filepath.Join(t.TempDir(), "p.db")
	takeBack := func(what any) {
		if _, ended := tried(t, "", "progress", "undo", "--json", "--progress", file); ended != command.Done {
			t.Fatalf("import %v cannot be taken back: %d", what, ended)
		}
	}
	for form, whole := range good {
		want := command.Done
		if strings.Contains(whole, "1.24E+19") {
			want = command.InputWrong
		}
		if _, ended := tried(t, whole, "progress", "import", "-", "--progress", file); ended != want {
			t.Fatalf("form %d ended with %d", form, ended)
		}
		if want == command.Done {
			takeBack(form)
		}
	}
	held := func() (rows []records.CheckRow) {
		out, ended := tried(t, "", "progress", "check", "--json", "--progress", file)
		if ended != command.Done {
			t.Fatalf("the file is not sound: %d, %s", ended, out)
		}
		return objects[records.CheckRow](t, out)
	}
	counts, undone := map[command.Status]int{}, 0
	before := held()
	for n := range hostileFiles() {
		out, ended := tried(t, string(h.damaged([]byte(good[n%len(good)]))), "progress", "import", "-", "--json", "--progress", file)
		counts[ended]++
		if ended != command.Done && ended != command.InputWrong {
			t.Fatalf("import %d ended with %d", n, ended)
		}
		if ended == command.Done && changes(t, out) {
			takeBack(n)
			undone++
		}
		if n%100 == 0 || n == hostileFiles()-1 {
			if now := held(); !slices.Equal(now, before) {
				t.Fatalf("after import %d and its undoing the file holds %+v, not %+v", n, now, before)
			}
		}
	}
	t.Logf("%d taken in, %d of them with something new, which was taken back, %d refused", counts[command.Done], undone, counts[command.InputWrong])
}

// changes reports whether an import has added anything, as it says itself.
func changes(t *testing.T, out string) bool {
	rows := objects[records.ImportRow](t, out)
	return len(rows) == 1 && rows[0].Import != ""
}

// Whatever somebody is called, the name is taken as it will be shown or refused in a line, and goes with every export.
func TestHostileNames(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(7, 7))}
	file, other := practisedFile(t), filepath.Join(t.TempDir(), "other.db")
	counts := map[command.Status]int{}
	is := ""
	for range hostileFiles() {
		name := strings.ReplaceAll(h.line(), "\x00", "")
		_, ended := tried(t, "", "progress", "name", "--progress", file, "--", name)
		counts[ended]++
		if ended == command.Done {
			is = name
		} else if ended != command.WrongCall {
			t.Fatalf("%q ended with %d", name, ended)
		}
		out, _ := tried(t, "", "progress", "name", "--json", "--progress", file)
		if rows := objects[records.WhoseRow](t, out); len(rows) != 1 || rows[0].Name != is {
			t.Fatalf("%q is kept as %+v", is, rows)
		}
	}
	export, _ := tried(t, "", "progress", "export", "--progress", file)
	if out, ended := tried(t, export, "progress", "import", "-", "--as-mine", "--json", "--progress", other); ended != command.Done {
		t.Errorf("an export with the name %q ended with %d: %s", is, ended, out)
	}
	t.Logf("%d names taken, %d refused", counts[command.Done], counts[command.WrongCall])
}

// A lesson of anything is practised or refused in a line.
func TestHostileLessons(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(4, 4))}
	dir := t.TempDir()
	lesson, good := filepath.Join(dir, "l.toml"), []byte(earThenEye)
	counts := map[command.Status]int{}
	for range hostileFiles() {
		if err := os.WriteFile(lesson, h.damaged(good), 0o600); err != nil {
			t.Fatal(err)
		}
		_, ended := tried(t, "2\n\n", "practice", "--plain", "--silent", "--lesson", lesson, "--progress", filepath.Join(dir, "p.db"))
		counts[ended]++
		if ended == command.Faulty {
			t.Fatal("a lesson that could be read is called a fault")
		}
	}
	t.Logf("%d practised, %d refused, %d with nothing to practise", counts[command.Done], counts[command.InputWrong], counts[command.WrongCall])
}

// A progress file of anything is read or refused in a line by whatever command there is.
func TestHostileProgressFiles(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(5, 5))}
	file := filepath.Join(t.TempDir(), "good.db")
	export, _, _ := called(t, "", "progress", "export", "--progress", practisedFile(t))
	if _, ended := tried(t, export, "progress", "import", "-", "--as-mine", "--progress", file); ended != command.Done { // for undo
		t.Fatalf("an import ended with %d", ended)
	}
	good, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	commands := []string{"progress --json", "progress weak --json", "progress check --json", "progress export", "progress export --csv", "progress", "progress weak",
		"progress undo --list --json", "progress undo --json", "progress name", "progress name Ann", "practice --plain --silent --drill spell"}
	counts := map[command.Status]int{}
	for n := range hostileFiles() {
		file := filepath.Join(t.TempDir(), "p.db")
		if err := os.WriteFile(file, h.damaged(good), 0o600); err != nil {
			t.Fatal(err)
		}
		out, ended := tried(t, "", append(strings.Fields(commands[n%len(commands)]), "--progress", file)...)
		counts[ended]++
		if strings.Contains(commands[n%len(commands)], "--json") {
			wellFormed(t, commands[n%len(commands)], out)
		}
		if ended == command.InputWrong || ended == command.WrongCall {
			t.Fatalf("%s ended with %d", commands[n%len(commands)], ended)
		}
	}
	t.Logf("%d read, %d refused", counts[command.Done], counts[command.Faulty])
}

// Whatever the program is called with, it says in a line what is wrong with it. No file is named that could be written.
func TestHostileCalls(t *testing.T) {
	h := hostile{rand.New(rand.NewPCG(6, 6))}
	words := []string{"chord", "shape", "shapes", "swaps", "play", "tunings", "drills", "progress", "weak", "check", "help", "completion", "bash", "practice", "paper",
		"song", "class", "lesson", "make", "hear", "export", "name", "--rich", "--fix", "--on", "--since", "--roster", "--order", "--expect", "--rate", "--csv",
		"--json", "--tuning", "--key", "--capo", "--limit", "--max-fret", "--how", "--voice", "--tempo", "--bits", "--minutes", "--drill", "--seed", "--count", "--weak", "--plain", "C", "0003", "ukulele", "gCEA", "spell"}
	none := filepath.Join(t.TempDir(), "none.db")
	for range hostileFiles() {
		args := []string{words[h.IntN(len(words))]}
		for range h.IntN(4) {
			if h.IntN(2) == 0 {
				args = append(args, words[h.IntN(len(words))])
			} else {
				args = append(args, strings.ReplaceAll(h.line(), "\x00", ""))
			}
		}
		if args[0] == "play" && len(args) > 1 {
			args = append(args, "--bits", "9") // nothing is to sound
		}
		if args[0] == "hear" {
			args = append(args, none) // no microphone is to be opened
		}
		if strings.Contains(strings.Join(args, " "), "practice") || args[0] == "help" || args[0] == "completion" {
			args = append(args, "--silent")
		}
		tried(t, "leave\n", append(args, "--progress", none)...)
	}
}
