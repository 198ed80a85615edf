package course

import (
	"fmt"
	"sparetone/brisk"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// A mistake is found however the lesson is written: inline, with other quotes, escaped, indented, in several lines.
func TestLessonMistakesAreFoundInEveryForm(t *testing.T) {
	for text, want := range map[string]string{
		"step = [{id = \"a\", drill = \"spell\", asks = [\"major\"]},\n {id = \"b\", drill = 'nose', asks = []}]": `x:2:21: step "b": "nose" is no drill`,
		"step = [{id = \"a\", colour = 1}]": `x:1:20: "colour" is not known here`,
		"[[step]]\nid = 'é'\nasks = [ # which\n '''major''', \"\\u006dinor\", 'mauve' ]\ndrill = \"spell\"": `x:4:29: step "é": spell cannot ask for "mauve"`,
		"\t[[ \"step\" ]]\n\tid=\"a\"\n\tdrill=\"spell\"":                                                   `x:1:2: step "a" asks for nothing`,
		"[[step]]\nid = \"a\"\n[[step.more]]\nx = 1":                                                        `x:3:8: "more" is not known here`,
		"name = \"mine\"\n[[step]]":                                                                         `x:1:1: "name" is not known here`,
		"[[step]]\nid = \"a\"\na.b = 1":                                                                     `x:3:1: "a" is not known here`,
		"[[step]]\nid = \"a\\u001b[2J\"\ndrill = \"spell\"\nasks = [\"major\"]":                             `x:2:6: the id of this step has the character U+001B, which cannot be shown: leave it out`,
		"[[step]]\nid = \"a\"\ntitle = \"x\u202ey\"\ndrill = \"spell\"\nasks = [\"major\"]":                 `x:3:9: the title of this step has the character U+202E`,
		"# " + strings.Repeat("x", longestCourse):                                                           "larger than 256 KiB",
	} {
		_, err := Read("x", strings.NewReader(text))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.200q: %v, want %q", text, err, want)
		}
	}
	for _, text := range []string{
		"step = [{id = \"a\", drill = \"spell\", asks = [\"major\"]}]",
		"[[step]]\nid = \"a\"\ntitle = \"می\u200cخواهم\"\ndrill = \"spell\"\nasks = [\"major\"]",
	} {
		if c, err := Read("x", strings.NewReader(text)); err != nil || len(c) != 1 {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// However large a lesson is that is still read, what is wrong with it is said at once.
func TestLargeLessonsAreReadAtOnce(t *testing.T) {
	lines := func(n int, line func(i int) string) string {
		var b strings.Builder
		for i := 0; i < n && b.Len() < longestCourse-100; i++ {
			b.WriteString(line(i))
		}
		return b.String()
	}
	step := "[[step]]\nid = \"a\"\ndrill = \"spell\"\nasks = [\"major\"]\n"
	for name, text := range map[string]string{
		"20,000 unknown keys": step + lines(20000, func(i int) string { return fmt.Sprintf("k%d = 1\n", i) }),
		"unknown tables":      lines(1e6, func(i int) string { return fmt.Sprintf("[t%d]\n", i) }),
		"as many steps as there can be": lines(1e6, func(i int) string {
			return fmt.Sprintf("[[step]]\nid=\"%x\"\ndrill=\"spell\"\nasks=[\"major\"]\n", i)
		}),
		"one step asks very often":  strings.Replace(step, `"major"`, strings.TrimSuffix(lines(1e6, func(int) string { return `"major",` }), ","), 1),
		"brackets in brackets":      strings.Replace(step, `"major"`, strings.Repeat("[", longestCourse-200), 1),
		"a text that does not end":  step + "title = \"\"\"" + strings.Repeat("x\n", longestCourse/2-100),
		"keys that are very dotted": step + strings.Repeat("a.", longestCourse/2-100) + "a = 1",
	} {
		watch := brisk.OwnTime()
		_, err := Read("x", strings.NewReader(text))
		if took := watch(); took > time.Second {
			t.Errorf("%s: %v", name, took)
		}
		if wrong := !strings.HasPrefix(name, "as many"); wrong != (err != nil) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever a lesson's file holds, it is read or refused in one line that can be shown.
func TestLessonsOfAnything(t *testing.T) {
	pieces := rapid.SampledFrom([]string{
		"[[step]]\n", "[step]\n", "step", "=", "[", "]", "{", "}", "\"", "'", "'''", "\"\"\"", ",", ".", "#", "\n", "\r\n", "\t", "id = \"a\"\n",
		"drill = \"spell\"\n", "asks = [\"major\"]\n", "rests-on = [\"a\"]\n", "title", "1", "-", "1979-05-27", "\\u001b", "\x1b", "\u202e", "\xff", "\x00", "é", "\ufeff", "true", "inf", "0x",
	})
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(pieces, 0, 40).Draw(t, "pieces"), "")
		_, err := Read("x", strings.NewReader(text))
		if err != nil && (strings.ContainsAny(err.Error(), "\n\x1b\x00\u202e") || !utf8.ValidString(err.Error()) || !strings.HasPrefix(err.Error(), "x:")) {
			t.Fatalf("%q: %q", text, err)
		}
	})
}
