package tui

import (
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// The first time a word of the trade appears it is explained there, and not again, not even at the next start; with a key or a word it is.
func TestWordsAreExplainedOnce(t *testing.T) {
	const means = "Augmented means made wider"
	p := beginner(t, "chord-ear")
	a := sized(keyed(newApp(p), "enter"), 200, 50)
	if text := plainText(drawn(a)); strings.Count(text, means) != 1 {
		t.Fatalf("it is not explained on\n%s", text)
	}
	next := keyed(a, "enter")
	if text := plainText(drawn(next)); strings.Contains(text, means) {
		t.Errorf("it is explained again on\n%s", text)
	}
	if err := p.Begin(p.Way); err != nil {
		t.Fatal(err)
	}
	again := sized(keyed(newApp(p), "enter"), 200, 50)
	if text := plainText(drawn(again)); strings.Contains(text, means) {
		t.Errorf("after a start it is explained again on\n%s", text)
	}
}

// w lists the words of a page, each with what it means and how it sounds, and leads back; "what" and a word says it at once.
func TestWordsCanBeExplainedAgain(t *testing.T) {
	p := beginner(t, "chord-ear")
	f := &screenFace{t: t, a: newApp(p)}
	f.press("enter", "w")
	if _, lists := f.a.place.(*page.Words); !lists {
		t.Fatalf("w leads to %T", f.a.place)
	}
	played := p.Speaker.(*fakeSpeaker).played()
	f.press("3")
	if text := plainText(drawn(sized(f.a, 80, 24))); !strings.Contains(text, "means made wider") || p.Speaker.(*fakeSpeaker).played() != played+1 {
		t.Errorf("%d sounds were played, and it shows\n%s", p.Speaker.(*fakeSpeaker).played()-played, text)
	}
	f.press("esc")
	if _, back := f.a.place.(*asking.Meeting); !back {
		t.Errorf("esc leads to %T", f.a.place)
	}
	text := plainly(t, beginner(t, "chord-ear"), "", "what augmented", "what is augmented?", "what nonsense", "what", "3", "", "leave", "")
	says(t, text, "Something new", "Augmented means made wider", "Augmented means made wider", `"nonsense" is no word that is explained here.`, "3: augmented", "Type a number or a word", "Augmented means made wider", "Something new")
}

// Whoever has a word of a question played to them has had a hint.
func TestAWordHeardIsAHint(t *testing.T) {
	a := asked(t, "chord-ear")
	a.apply(a.page().Acts[len(a.page().Acts)-1].Do("augmented"))
	if q := a.place.(*asking.Question); q.Asked.Hints != 1 {
		t.Errorf("%d hints", q.Asked.Hints)
	}
}

// Nothing is written under a shape until it was said what a root is; then a legend says what it means, until that is known.
func TestDegreesHaveALegendUntilTheyAreKnown(t *testing.T) {
	p := beginner(t, "shape-name")
	p.Settings.AtOnce = true
	plain := practice.Through(say.Of("plain chords"), drills.ItemID("shape-name", "major", "ukulele"), drills.ItemID("shape-name", "minor", "ukulele"))
	begin := func() {
		t.Helper()
		if err := p.Begin(plain); err != nil {
			t.Fatal(err)
		}
	}
	begin()
	reveal := func() string {
		t.Helper()
		a := keyed(newApp(p), "enter")
		return plainText(drawn(sized(keyed(a, "1"), 200, 50)))
	}
	const legend = "R is the root"
	if text := reveal(); strings.Contains(text, legend) {
		t.Errorf("at first there is a legend:\n%s", text)
	}
	for _, term := range termIDs {
		if err := p.Open(term); err != nil {
			t.Fatal(err)
		}
	}
	begin()
	if text := reveal(); !strings.Contains(text, legend) {
		t.Errorf("there is no legend:\n%s", text)
	}
	knows(t, p)
	begin()
	if text := reveal(); strings.Contains(text, legend) {
		t.Errorf("there is a legend of what is known:\n%s", text)
	}
	if p.KnowsTone(theory.MajorSeventh) {
		t.Error("what was never asked is known")
	}
}

// Whoever begins beyond the step that teaches a degree has no legend of it.
func TestDegreesAreKnownToWhoBeginsBeyondThem(t *testing.T) {
	p := beginner(t, "shape-tones")
	for _, c := range []struct {
		eye         string
		third, flat bool // 3 and ♭7 are known
	}{{"", false, false}, {"strings-of-a-triad", false, false}, {"first-seventh", true, false}, {"what-clashes-in-minor", true, true}} {
		p.Settings.Level = course.Level{Eye: c.eye}
		if p.KnowsTone(theory.MajorThird) != c.third || p.KnowsTone(theory.MinorSeventh) != c.flat {
			t.Errorf("from %q on 3 is known: %v, and ♭7: %v", c.eye, !c.third, !c.flat)
		}
	}
}

// Whoever has to write degrees is told those of plain chords, minor and major alike, and what else the chord may have, one with the other.
func TestLegendOfWhatIsWritten(t *testing.T) {
	p := beginner(t, "shape-tones")
	const plain = "R is the root; ♭3 is the minor third; 3 is the major third; 5 is the fifth"
	for kind, want := range map[string]string{
		"major": plain + ".", "minor": plain + ".", "suspended-fourth": strings.Replace(plain, "; 5", "; 4 is the fourth; 5", 1) + ".",
		"dominant": plain + "; ♭7 is the minor seventh; 7 is the major seventh.", "major-seventh": plain + "; ♭7 is the minor seventh; 7 is the major seventh.",
		"augmented": strings.Replace(plain, "; 5", "; ♭5 is the flat fifth; 5", 1) + "; ♯5 is the sharp fifth.",
	} {
		k, _ := theory.KindByID(kind)
		if got := p.Legend(nil, &fret.Voicing{Chord: theory.NewChord(theory.Note{}, k)}).Screen(); got != want {
			t.Errorf("%s: %q, not %q", kind, got, want)
		}
	}
	if got := p.Legend(nil, nil); !got.IsZero() {
		t.Errorf("of nothing it says %q", got.Screen())
	}
}

// knows has somebody say the strings of plain shapes right, twice in a row.
func knows(t *testing.T, p practice.App) {
	t.Helper()
	session := progress.NewID()
	if err := p.File().Begin(progress.Session{ID: session, Began: p.Setup.Now(), Minutes: p.Setup.Length}); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		a := progress.Answer{Session: session, Item: drills.ItemID("shape-tones", "major", "ukulele"), Drill: "shape-tones", At: p.Setup.Now(), Result: progress.Right}
		if err := p.File().Record(a); err != nil {
			t.Fatal(err)
		}
	}
}
