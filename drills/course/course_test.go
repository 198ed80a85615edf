package course

import (
	"bytes"
	"strings"
	"testing"

	"sparetone/drills/catalogue"
)

func TestBuiltInCourseHoldsTogether(t *testing.T) {
	seen := map[string]bool{}
	course, err := Read("course.toml", bytes.NewReader(builtIn))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range course {
		if s.Title == "" {
			t.Errorf("step %s has no title", s.ID)
		}
		for _, a := range s.Asks {
			if id := s.Drill + "/" + a; seen[id] {
				t.Errorf("%s comes in twice", id)
			} else {
				seen[id] = true
			}
		}
	}
	on := ukulele(t)
	for _, d := range catalogue.All() {
		for _, target := range d.Targets(on) {
			if !seen[d.About().ID+"/"+target.ID] {
				t.Errorf("%s never comes in for %s", target.ID, d.About().ID)
			}
		}
	}
}

// The built-in course has five to nine chapters of steps in a row, each with a name of its own.
func TestChapters(t *testing.T) {
	chapters := BuiltIn().Chapters()
	names := map[string]bool{}
	steps := 0
	for _, c := range chapters {
		if c.Name == "" || names[c.Name] || len(c.Steps) < 4 {
			t.Errorf("chapter %q has %d steps", c.Name, len(c.Steps))
		}
		names[c.Name] = true
		steps += len(c.Steps)
	}
	if n := len(chapters); n < 5 || n > 9 || steps != len(BuiltIn()) {
		t.Errorf("%d chapters of %d steps", n, steps)
	}
	if c := (Course{{ID: "a"}, {ID: "b"}}).Chapters(); len(c) != 1 || len(c[0].Steps) != 2 || c[0].Name != "" {
		t.Errorf("two steps of no chapter are %v", c)
	}
}

// A beginner hears high and low first, then major and minor, and holds the shapes that everybody holds first. What a chord that wants to
// move on speaks of is known before it: the half step, the diminished chord, the way home from the fifth step.
func TestFirstThingsFirst(t *testing.T) {
	index := map[string]int{}
	for i, s := range BuiltIn() {
		index[s.ID] = i
	}
	for _, order := range [][]string{
		{"high-and-low", "major-or-minor", "first-shapes", "alike-or-not"},
		{"minor-second", "where-it-goes"}, {"diminished-heard", "where-it-goes"}, {"home-and-away", "where-it-goes"},
		{"fourth-and-second", "what-major-takes"}, {"home-and-away", "by-way-of-six", "four-chords"},
	} {
		for i := 1; i < len(order); i++ {
			if a, b := index[order[i-1]], index[order[i]]; a >= b {
				t.Errorf("%s comes %d., %s %d.", order[i-1], a+1, order[i], b+1)
			}
		}
	}
}

func TestCourseErrorsNameTheirPlace(t *testing.T) {
	lesson := "# Thirds first\n\n[[step]]\nid = \"thirds\"\ndrill = \"interval-ear\"\nasks = [\"M3\", \"m3\"]\n\n" +
		"  [[ step ]]\n  id = \"shapes\"\n  drill = \"shape-name\"\n  asks = [\n    \"major\",\n    \"minor\",\n  ]\n  rests-on = [\"thirds\"]\n"
	for _, c := range []struct{ old, new, want string }{
		{lesson, "", "x.toml: no [[step]]: a lesson has one or more"},
		{`id = "thirds"`, `id = “thirds”`, `x.toml:4:6: “ is no straight quote; ` + asWritten},
		{`id = "thirds"`, `id = 3`, `x.toml:4:6: id is written id = "thirds", a text in straight double quotes`},
		{`asks = ["M3", "m3"]`, `asks = "M3"`, `x.toml:6:8: asks is written asks = ["M3", "m3"], texts in`},
		{`id = "thirds"`, "id = \"thirds\"\ncolour = \"red\"", `x.toml:5:1: "colour" is not known here`},
		{"[[step]]", "[[steps]]", `x.toml:3:3: "steps" is not known here: a lesson has steps`},
		{`"interval-ear"`, `"nose"`, `x.toml:5:9: step "thirds": "nose" is no drill; the drills are interval-ear`},
		{`drill = "interval-ear"` + "\n", "", `x.toml:3:1: step "thirds": "" is no drill; the drills are interval-ear`},
		{`asks = ["M3", "m3"]` + "\n", "", `x.toml:3:1: step "thirds" asks for nothing: name one target or more in asks; interval-ear can ask for m2`},
		{`["M3", "m3"]`, `[]`, `x.toml:6:1: step "thirds" asks for nothing`},
		{`"m3"`, `"m33"`, `x.toml:6:15: step "thirds": interval-ear cannot ask for "m33"; it can for m2`},
		{`"m3"`, `"minor third"`, `x.toml:6:15: step "thirds": interval-ear cannot ask for "minor third"; what is called so is written "m3" here`},
		{`"minor"`, `"seventh"`, `x.toml:13:5: step "shapes": shape-name cannot ask for "seventh"; what is called so is written "dominant" here`},
		{`"m3"`, `"M3"`, `x.toml:6:9: step "thirds" asks for "M3" twice`},
		{`"minor"`, `"mauve"`, `x.toml:13:5: step "shapes": shape-name cannot ask for "mauve"; it can for major, minor`},
		{`["thirds"]`, `["seconds"]`, `x.toml:15:15: step "shapes" rests on "seconds", and no step before it has that id; the one right before it is "thirds"`},
		{`id = "thirds"`, "id = \"thirds\"\nrests-on = [\"shapes\"]", `x.toml:5:13: step "thirds" rests on "shapes": the first step rests on nothing`},
		{`id = "shapes"`, `id = "thirds"`, `x.toml:9:8: step "thirds" comes twice`},
		{`id = "shapes"` + "\n", "", `x.toml:8:3: this step has no id: it is written id = "thirds"`},
		{`id = "thirds"`, "id = \"thirds\"\nid = \"again\"", "x.toml:5:1: key id is already defined; a step"},
		{"[[step]]", "[[step]", "x.toml:3:"},
		{`"interval-ear"`, `interval-ear`, "x.toml:5:9: "},
		{`"interval-ear"`, `“interval-ear”`, "x.toml:5:9: "},
		{`"interval-ear"`, "\"interval-\xe9ar\"", "x.toml:5:19: "},
		{`"M3", "m3"]`, `"M3", "m3"`, "expected ',' or ']'"},
	} {
		c := struct{ text, want string }{strings.Replace(lesson, c.old, c.new, 1), c.want}
		_, err := Read("x.toml", strings.NewReader(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %q", c.text, err, c.want)
		} else if strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: the error has more than one line: %q", c.text, err)
		} else if !strings.Contains(err.Error(), "step") && !strings.Contains(err.Error(), "is written") {
			t.Errorf("%q: the error does not say what would be right: %q", c.text, err)
		}
	}
	for _, text := range []string{lesson, "\ufeff" + lesson, strings.ReplaceAll(lesson, "\n", "\r\n")} {
		if got, err := Read("x.toml", strings.NewReader(text)); err != nil || len(got) != 2 {
			t.Errorf("%q: %d steps, %v", text, len(got), err)
		}
	}
}

// Steps call intervals and practice what the drills call them: one thing has one name.
func TestTitlesUseTheNamesOfAnswers(t *testing.T) {
	for _, step := range BuiltIn() {
		for _, other := range []string{"tritone", "half step", "whole step", "semitone", "whole tone"} {
			if strings.Contains(strings.ToLower(step.Name()), other) {
				t.Errorf("%s is called %q, with another word for an interval", step.ID, step.Name())
			}
		}
	}
}
