package drills

import (
	"bytes"
	"strings"
	"testing"
)

func TestBuiltInCourseHoldsTogether(t *testing.T) {
	seen := map[string]bool{}
	course, err := ReadCourse("course.toml", bytes.NewReader(builtIn))
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
	for _, d := range All() {
		for _, target := range d.Targets(on) {
			if !seen[d.About().ID+"/"+target.ID] {
				t.Errorf("%s never comes in for %s", target.ID, d.About().ID)
			}
		}
	}
}

func TestCourseErrorsNameTheirPlace(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "no [[step]]"},
		{"[[step]]\nid = 3\n", "x.toml:2:"},
		{"[[step]]\nid = \"a\"\ncolour = \"red\"\n", `x.toml:3:1: "step.colour" is not known here`},
		{"[[step]]\nid = \"a\"\ndrill = \"nose\"\nasks = [\"m3\"]\n", `x.toml:1:1: step "a": "nose" is no drill; the drills are interval-ear`},
		{"[[step]]\nid = \"a\"\ndrill = \"interval-ear\"\n", `x.toml:1:1: step "a" asks for nothing`},
		{"\n[[step]]\nid = \"a\"\ndrill = \"interval-ear\"\nasks = [\"m33\"]\n", `x.toml:2:1: step "a": interval-ear cannot ask for "m33"; it can for m2`},
		{"[[step]]\nid = \"a\"\ndrill = \"interval-ear\"\nasks = [\"m3\"]\nrests-on = [\"b\"]\n", `rests on "b", and no step before it`},
		{"[[step]\n", "x.toml:1:"},
		{"[[step]]\nid = \"a\"\ndrill = \"interval-ear\"\nasks = [\"m3\"]\n[[step]]\nid = \"a\"\ndrill = \"interval-ear\"\nasks = [\"m3\"]\n", `x.toml:5:1: step "a" comes twice`},
	} {
		_, err := ReadCourse("x.toml", strings.NewReader(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %q", c.text, err, c.want)
		} else if strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: the error has more than one line: %q", c.text, err)
		}
	}
}
