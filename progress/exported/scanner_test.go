package exported

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// exportedLine is an answer as this program writes it.
func exportedLine(t *testing.T) string {
	t.Helper()
	out := AnswerOf(answered, true)
	out.Owner = Owner{File: "FILE", Whose: "Ada"}
	line, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	return string(line)
}

// What is written as this program writes it is read by the scanner, and is what any reader of JSON reads.
func TestTheScannerReadsWhatIsExported(t *testing.T) {
	line := exportedLine(t)
	later := line[:strings.Index(line, `,"choices"`)] + "}" // as the first version exported
	last := strings.Replace(line, `,"chosen":2`, "", 1)
	last = last[:len(last)-1] + `,"chosen":2}` // whatever the order
	for _, line := range []string{line, later, last, strings.Replace(line, "What is it?", "Spell C♯, E♭ – é", 1), strings.Replace(line, `"replays":2`, `"replays":0`, 1)} {
		s := Scanner{}
		for range 2 { // the second time it knows the order and the texts
			l, plain := s.Answer([]byte(line))
			if !plain {
				t.Fatalf("it is left to others: %s", line)
			}
			o, err := ObjectOf([]byte(line))
			if err != nil {
				t.Fatal(err)
			}
			want, err := o.Answer()
			want.Kind = "answer"
			if diff := cmp.Diff(want, l); diff != "" || err != nil {
				t.Error(diff, err)
			}
		}
	}
}

// What is written otherwise is left to ObjectOf, whether that reads or refuses it.
func TestTheScannerLeavesTheRest(t *testing.T) {
	line := exportedLine(t)
	for what, is := range map[string]string{
		"a space":                  strings.Replace(line, `,"session"`, `, "session"`, 1),
		"a space behind the colon": strings.Replace(line, `"session":`, `"session": `, 1),
		"a space at the end":       line + " ",
		"something behind it":      line + "}",
		"an escape":                strings.Replace(line, "What", `W\u0068at`, 1),
		"a control character":      strings.Replace(line, "What", "Wh\tat", 1),
		"no UTF-8":                 strings.Replace(line, "What", "Wh\xffat", 1),
		"the sign of what is none": strings.Replace(line, "What", "Wh\ufffdat", 1),
		"another kind":             strings.Replace(line, `"kind":"answer"`, `"kind":"song"`, 1),
		"a field twice":            strings.Replace(line, `,"session":"s"`, `,"session":"s","session":"s"`, 1),
		"a field that is unknown":  strings.Replace(line, `,"session":"s"`, `,"session":"s","mood":"glad"`, 1),
		"a field that is missing":  strings.Replace(line, `,"voice":"ukulele"`, "", 1),
		"the first one missing":    line[:16] + line[strings.Index(line, `,"session"`):],
		"a number in quotes":       strings.Replace(line, `"hints":1`, `"hints":"1"`, 1),
		"a number below 0":         strings.Replace(line, `"hints":1`, `"hints":-1`, 1),
		"a number with a nought":   strings.Replace(line, `"hints":1`, `"hints":01`, 1),
		"no number":                strings.Replace(line, `"hints":1`, `"hints":`, 1),
		"a number too long":        strings.Replace(line, `"hints":1`, `"hints":99999999999999999999`, 1),
		"a seed without quotes":    strings.Replace(line, `"seed":"18446744073709551615"`, `"seed":17`, 1),
		"a seed too long":          strings.Replace(line, `"seed":"18446744073709551615"`, `"seed":"18446744073709551616"`, 1),
		"a text without quotes":    strings.Replace(line, `"voice":"ukulele"`, `"voice":17`, 1),
		"a flag in quotes":         strings.Replace(line, `"doubted":true`, `"doubted":"true"`, 1),
		"a text without an end":    line[:len(line)-20],
		"no end":                   line[:len(line)-1],
		"a name without an end":    line[:strings.Index(line, `"session"`)+5],
		"nothing":                  "",
	} {
		if l, plain := new(Scanner).Answer([]byte(is)); plain {
			t.Errorf("%s: %+v of %s", what, l, is)
		}
	}
}

// Whatever is changed in a line, what the scanner takes is what ObjectOf reads of it.
func TestTheScannerReadsNothingElse(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	line, s, plainly := []byte(exportedLine(t)), Scanner{}, 0
	const signs = "{}\":,\\ 0179-e.truefalsen\x80\xc3\xa9\t"
	for range 40_000 {
		is := slices.Clone(line)
		for range 1 + rng.IntN(3) {
			switch at := rng.IntN(len(is)); rng.IntN(4) {
			case 0:
				is = slices.Delete(is, at, at+1)
			case 1:
				is[at] = signs[rng.IntN(len(signs))]
			case 2:
				is = slices.Insert(is, at, signs[rng.IntN(len(signs))])
			case 3: // a piece of it comes again
				piece := slices.Clone(is[at:min(len(is), at+rng.IntN(40))])
				is = slices.Insert(is, rng.IntN(len(is)), piece...)
			}
		}
		l, plain := s.Answer(is)
		if !plain {
			continue
		}
		plainly++
		o, err := ObjectOf(is)
		if err != nil {
			t.Fatalf("%v of what the scanner took: %s", err, is)
		}
		want, err := o.Answer()
		want.Kind = "answer"
		if err != nil || want != l {
			t.Fatalf("%s: %+v, and by ObjectOf %+v, %v", is, l, want, err)
		}
	}
	if plainly < 2000 {
		t.Errorf("%d of 40,000 were taken", plainly)
	}
}

// A text that comes again is kept once, but for those that hardly ever do; and no more than so many are kept.
func TestTextsAreKeptOnce(t *testing.T) {
	s := Scanner{}
	line := exportedLine(t)
	if _, plain := s.Answer([]byte(line)); !plain {
		t.Fatal(line)
	}
	for text, kept := range map[string]bool{"name/add9/ukulele": true, "Cadd9": true, "What is it?": false, answered.At.Format(TimeForm): false, "01020300000000000000000000000000": false} {
		if _, is := s.known[text]; is != kept {
			t.Errorf("%q is kept: %v", text, is)
		}
	}
	for n := range mostKnown + 5 {
		if _, plain := s.text(column{Name: "given", Form: OfText}, []byte(`"`+strings.Repeat("x", n%100)+string(rune('a'+n/100))+`"`)); !plain {
			t.Fatal(n)
		}
	}
	if len(s.known) != mostKnown {
		t.Errorf("%d texts are kept", len(s.known))
	}
}
