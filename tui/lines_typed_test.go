package tui

import (
	"regexp"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/progress"
)

// In lines one may type what one would say: a number as a word, 0 for not knowing, frets as they are spoken, repeat, time.
func TestPlainTakesWhatOneWouldSay(t *testing.T) {
	p, _ := practiceOf(t, false)
	says(t, plainly(t, p, "drills", "chord-ear", "repeat", "time", "0", "", "two", "", "Two.", "leave", ""),
		"Question 1.", "10 minutes are left of 10.", "Not known yet:", "Question 2.", "2: ", "Question 3.")
	_, kept := keptIn(t, p.File())
	if len(kept) != 3 || kept[0].Given != drills.Unknown || kept[0].Replays != 1 || kept[1].Given == drills.Unknown {
		t.Errorf("kept is %+v", kept)
	}
	q, _ := practiceOf(t, false)
	text := plainly(t, q, "drills", "chord-ear", "two", "leave", "")
	offered := regexp.MustCompile(`(?m)^2: (.*)$`).FindAllStringSubmatch(text, -1)
	if said := offered[len(offered)-1][1]; !strings.Contains(text, "Right: "+said) && !strings.Contains(text, "not "+said+".") {
		t.Errorf("two is not taken for %q in\n%s", said, text)
	}
}

// Frets in words are the shape in figures.
func TestFretsAsSpoken(t *testing.T) {
	d, _ := catalogue.ByID("build")
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	q, err := d.Ask(drills.Request{Target: "major", On: on, Rand: drills.QuestionRand("build", "major", 1)})
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"open open open 3": "0003", "Open, open, open, three": "0003", "zero two three two": "0232", "muted open open three": "x003", "two open one open": "2010",
	} {
		v, err := q.Mark(typed)
		if err != nil || v.Given.Screen() != want {
			t.Errorf("%q is read as %v, %v; want %s", typed, v.Given, err, want)
		}
	}
	if v, err := q.Mark("open sesame"); err == nil {
		t.Errorf("open sesame is %v, %v", v.Given, v.Result == progress.Right)
	}
}

// A question whose answer is spelled shows how it is written.
func TestSpellingShowsItsForm(t *testing.T) {
	text := plainText(drawn(sized(asked(t, "spell"), 80, 24)))
	if !strings.Contains(text, "Type the notes, such as F# A Bb") {
		t.Errorf("it shows\n%s", text)
	}
}
