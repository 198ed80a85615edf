package drills

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"sparetone/theory/fret"
)

// Step is one stage of a course: a drill and what it newly asks for.
type Step struct {
	ID      string   `toml:"id"`
	Title   string   `toml:"title"`
	Drill   string   `toml:"drill"`
	Asks    []string `toml:"asks"`     // targets, in the order in which they are new
	RestsOn []string `toml:"rests-on"` // ids of the steps that must hold before
}

// Course is the order in which things come in.
type Course []Step

//go:embed course.toml
var builtIn []byte

// BuiltIn returns the course that comes with the program. That its steps hold together is a test's to
// check, and not for every start to wait for.
func BuiltIn() Course {
	c, err := decode("the built-in course", builtIn)
	if err != nil {
		panic(err)
	}
	return c
}

// longestCourse is the size in bytes of the largest lesson file that is read.
const longestCourse = 1 << 20

// ReadCourse reads a course or a lesson in TOML. An error names the file, the line and column where
// there is one, what is wrong and what would be right.
func ReadCourse(name string, r io.Reader) (Course, error) {
	text, err := io.ReadAll(io.LimitReader(r, longestCourse+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(text) > longestCourse {
		return nil, fmt.Errorf("%s: larger than 1 MiB: this is no lesson file", name)
	}
	course, err := decode(name, text)
	if err != nil {
		return nil, err
	}
	targets := map[string][]string{}
	for n, s := range course {
		if d, ok := ByID(s.Drill); ok && targets[s.Drill] == nil {
			targets[s.Drill] = everyTarget(d)
		}
		if err := s.check(course[:n], targets[s.Drill]); err != nil {
			row, col := find(text, n)
			return nil, fmt.Errorf("%s:%d:%d: %w", name, row, col, err)
		}
	}
	return course, nil
}

// decode reads the TOML of a course, and nothing of what it says.
func decode(name string, text []byte) (Course, error) {
	var file struct {
		Step []Step `toml:"step"`
	}
	d := toml.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&file); err != nil {
		return nil, at(name, err)
	}
	if len(file.Step) == 0 {
		return nil, fmt.Errorf("%s: no [[step]]: a lesson has one or more, each with id, drill and asks", name)
	}
	return file.Step, nil
}

// at writes an error of the TOML reader with its place.
func at(name string, err error) error {
	if strict := (*toml.StrictMissingError)(nil); errors.As(err, &strict) {
		row, col := strict.Errors[0].Position()
		return fmt.Errorf("%s:%d:%d: %q is not known here: a step has id, title, drill, asks and rests-on",
			name, row, col, clean(strings.Join(strict.Errors[0].Key(), ".")))
	}
	if decode := (*toml.DecodeError)(nil); errors.As(err, &decode) {
		row, col := decode.Position()
		return fmt.Errorf("%s:%d:%d: %s", name, row, col, strings.TrimPrefix(decode.Error(), "toml: "))
	}
	return fmt.Errorf("%s: %w", name, err)
}

// check says what is wrong with a step that follows others; known is what its drill can ask for, nil if
// there is no such drill.
func (s Step) check(before []Step, known []string) error {
	switch {
	case s.ID == "":
		return errors.New("this step has no id")
	case slices.ContainsFunc(before, func(b Step) bool { return b.ID == s.ID }):
		return fmt.Errorf("step %q comes twice: each step needs an id of its own", clean(s.ID))
	case known == nil:
		return fmt.Errorf("step %q: %q is no drill; the drills are %s", clean(s.ID), clean(s.Drill), strings.Join(IDs(), ", "))
	case len(s.Asks) == 0:
		return fmt.Errorf("step %q asks for nothing: name one target or more in asks", clean(s.ID))
	}
	for _, a := range s.Asks {
		if !slices.Contains(known, a) {
			return fmt.Errorf("step %q: %s cannot ask for %q; it can for %s", clean(s.ID), s.Drill, clean(a), strings.Join(known, ", "))
		}
	}
	for _, r := range s.RestsOn {
		if !slices.ContainsFunc(before, func(b Step) bool { return b.ID == r }) {
			return fmt.Errorf("step %q rests on %q, and no step before it has that id", clean(s.ID), clean(r))
		}
	}
	return nil
}

// find returns the line and column, from 1, of the n-th step.
func find(text []byte, n int) (row, col int) {
	for i, line := range strings.Split(string(text), "\n") {
		if at := strings.Index(line, "[[step]]"); at >= 0 && strings.TrimSpace(line[:at]) == "" {
			if n == 0 {
				return i + 1, at + 1
			}
			n--
		}
	}
	return 1, 1
}

// everyTarget lists what a drill can ask for on any instrument there is.
func everyTarget(d Drill) []string {
	var out []string
	for _, t := range fret.Tunings() {
		for _, target := range d.Targets(&Instrument{Tuning: t}) {
			if !slices.Contains(out, target.ID) {
				out = append(out, target.ID)
			}
		}
	}
	return out
}
