package tui

import (
	"strings"
	"testing"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// On the bench a chord can just be typed: its capital opens the line.
func TestBenchTakesAChord(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "C", "a", "d", "d", "9"), 80, 24)
	w := a.screen.(*bench)
	if got := w.field.Value(); got != "Cadd9" || !w.typing() {
		t.Fatalf("%q is typed", got)
	}
	if keyed(a, "enter"); w.typing() || w.grip.Chord.Symbol() != "Cadd9" {
		t.Errorf("the bench holds %s, %s", w.shape, w.grip.Chord)
	}
	// Small letters and digits are keys as before.
	keyed(a, "0", "0", "0", "3")
	if w.typing() || w.shape.String() != "0003" {
		t.Errorf("the bench holds %s", w.shape)
	}
	// Completion fills the line in, and t opens it empty.
	keyed(a, "t")
	if w.field.Value() != "" {
		t.Errorf("%q is typed", w.field.Value())
	}
	keyed(a, "F", "s", "down", "tab", "enter")
	if got := w.grip.Chord.Symbol(); got != "Fsus2" {
		t.Errorf("the second way to go on from Fs is %s", got)
	}
}

// What makes no sense is said under the line, and the line stays to be mended.
func TestBenchSaysWhatIsWrong(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "D", "f", "o", "o", "enter"), 60, 20)
	w := a.screen.(*bench)
	if text := plainText(drawn(a)); !strings.Contains(text, "character 2") || !w.typing() {
		t.Errorf("what is wrong is not said in\n%s", text)
	}
	keyed(a, "backspace", "backspace", "backspace", "7", "enter")
	if w.typing() || w.grip.Chord.Symbol() != "D7" {
		t.Errorf("the bench holds %s", w.grip.Chord)
	}
	keyed(a, "D", "?")
	if !a.help || w.field.Value() != "D" {
		t.Errorf("a question mark leaves %q typed", w.field.Value())
	}
}

// A swap is seen before it is taken, and can be taken back.
func TestBenchSwaps(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "tab", "tab"), 80, 24)
	w := a.screen.(*bench)
	row := ""
	for _, l := range strings.Split(plainText(drawn(a)), "\n") {
		if strings.Contains(l, "○") && strings.Contains(l, "│") {
			row = l
		}
	}
	if before, _, found := strings.Cut(row, "○"); !found || strings.Count(before, "│") != 3 {
		t.Errorf("C7 on string 1 is drawn as %q", row)
	}
	if keyed(a, "enter"); w.shape.String() != "0001" {
		t.Errorf("C7 is held as %s", w.shape)
	}
	if keyed(a, "backspace"); w.shape.String() != "0003" || w.grip.Before != nil {
		t.Errorf("taken back, it is %s", w.shape)
	}
}

// A click on the neck or on a swap is taken though a line is open.
func TestBenchClickedWhileTyping(t *testing.T) {
	a := sized(keyed(atFirst(t, true), "v", "D"), 80, 24)
	w := a.screen.(*bench)
	click(t, a, "Csus4")
	if w.typing() || w.swap < 0 || w.grip.Swaps[w.swap].Chord.Symbol() != "Csus4" {
		t.Errorf("swap %d is looked at", w.swap)
	}
}

// megabyte is a paste of more than a megabyte, much of which does not print.
var megabyte = tea.PasteMsg{Content: strings.Repeat("C7\x1b[2J\x00\u202e\n世", 1<<17)}

func BenchmarkPaste(b *testing.B) {
	for b.Loop() {
		f := newField(func(string) []string { return nil })
		f.update(megabyte)
	}
}

// The line takes a paste of a megabyte and keeps the beginning, without what does not print; wide
// characters and a narrow window leave the cursor where the next letter goes.
func TestField(t *testing.T) {
	none := func(string) []string { return nil }
	f := newField(none)
	f.update(megabyte)
	if got := []rune(f.Value()); len(got) != longestAnswer || string(got[:12]) != "C7[2J 世C7[2J" {
		t.Errorf("%d characters, %q", len(got), string(got))
	}
	a := atFirst(t, true)
	for _, row := range []struct {
		text      string
		left      int // times the arrow
		col, want int // of the cursor
	}{
		{"Cadd9", 0, 40, 9}, {"Cadd9", 2, 40, 7}, {"世界", 0, 40, 8}, {"世界", 1, 40, 6},
		{strings.Repeat("x", 50), 0, 20, 19}, {strings.Repeat("x", 50), 50, 20, 4},
	} {
		f := newField(none)
		f.update(tea.PasteMsg{Content: row.text})
		for range row.left {
			f.update(pressed("left"))
		}
		b := newBody(row.col, 10)
		f.view(a, b, "Say ")
		if b.cursor == nil || b.cursor.X != row.want {
			t.Errorf("%q: the cursor is at %v, want %d", row.text, b.cursor, row.want)
		}
		if w := ansi.StringWidth(b.lines[0]); w > row.col {
			t.Errorf("%q is %d wide", row.text, w)
		}
	}
}

// On a narrow screen no word of what a swap trades is cut, not beside the neck of a guitar either.
func TestBenchCutsNoWord(t *testing.T) {
	a := atFirst(t, true)
	if err := a.Set("tuning", "guitar"); err != nil {
		t.Fatal(err)
	}
	a = sized(keyed(keyed(a, "v", "t"), strings.Split("Fm7", "")...), 60, 40)
	a = keyed(a, "enter")
	a.draw()
	if text := plainText(strings.Join(a.shown.lines, "\n")); !strings.Contains(text, "doubled") || strings.Contains(text, "doub\n") {
		t.Errorf("%s", text)
	}
}
