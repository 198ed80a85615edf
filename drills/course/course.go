// Package course holds the order in which things come in: the built-in course, lessons, and where in them somebody begins.
package course

import (
	"bytes"
	"cmp"

	"sparetone/drills/catalogue"
	"sparetone/drills/neck"

	_ "embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"sparetone/drills"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// Step is one stage of a course: a drill and what it newly asks for.
type Step struct {
	ID      string   `toml:"id"`
	Title   string   `toml:"title"`
	Chapter string   `toml:"chapter"` // that it belongs to, with the steps beside it
	Drill   string   `toml:"drill"`
	Asks    []string `toml:"asks"`     // targets, in the order in which they are new
	RestsOn []string `toml:"rests-on"` // ids of the steps that must hold before
}

// Name is what the step is called: its title, or its id if it has none.
func (s Step) Name() string { return cmp.Or(s.Title, s.ID) }

// Course is the order in which things come in.
type Course []Step

// Chapter is a stretch of a course: steps in a row that bear one name.
type Chapter struct {
	Name  string
	Steps []Step
}

// Chapters parts a course into its chapters. Steps of no chapter are one without a name.
func (c Course) Chapters() []Chapter {
	var out []Chapter
	for _, s := range c {
		if len(out) == 0 || out[len(out)-1].Name != s.Chapter {
			out = append(out, Chapter{Name: s.Chapter})
		}
		last := &out[len(out)-1]
		last.Steps = append(last.Steps, s)
	}
	return out
}

//go:embed course.toml
var builtIn []byte

// BuiltIn returns the course that comes with the program. It is read once and shared, so that nobody may write into it.
// That its steps hold together is a test's to check, and not for every start to wait for.
func BuiltIn() Course { return readBuiltIn() }

// readBuiltIn reads the built-in course the first time it is called.
var readBuiltIn = sync.OnceValue(func() Course {
	c, _, err := decode("the built-in course", builtIn)
	if err != nil {
		panic(err)
	}
	return c
})

// longestCourse is the size in bytes of the largest lesson file that is read: twenty times the built-in course.
const longestCourse = 256 << 10

// Read reads a course or a lesson in TOML. An error names the file, the line and column where
// there is one, what is wrong and what would be right.
func Read(name string, r io.Reader) (Course, error) {
	text, err := io.ReadAll(io.LimitReader(r, longestCourse+1))
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		return nil, err // names the file by itself
	} else if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(text) > longestCourse {
		return nil, fmt.Errorf("%s: larger than 256 KiB: this is no lesson file", name)
	}
	course, layout, err := decode(name, text)
	if err != nil {
		return nil, err
	}
	before := stepsBefore{ids: map[string]bool{}}
	targets := map[string][]string{}
	for n, s := range course {
		if d, ok := catalogue.ByID(s.Drill); ok && targets[s.Drill] == nil {
			targets[s.Drill] = everyTarget(d)
		}
		if wrong := s.check(before, targets[s.Drill]); wrong.says != "" {
			row, col := layout.find(n, wrong.key, wrong.value)
			return nil, fmt.Errorf("%s:%d:%d: %s", name, row, col, wrong.says)
		}
		before.ids[s.ID], before.last = true, s.ID
	}
	return course, nil
}

// decode reads the TOML of a course, and nothing of what it says. The layout is of the same text.
func decode(name string, text []byte) (Course, lessonText, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // as some editors begin a file
	layout, unknown := layOutLesson(text)
	if unknown != nil {
		row, col := layout.position(unknown.at)
		return nil, layout, fmt.Errorf("%s:%d:%d: %q is not known here: a lesson has steps, and a step has id, title, chapter, drill, asks and rests-on",
			name, row, col, theory.Clip(unknown.name))
	}
	var file struct {
		Step []Step `toml:"step"`
	}
	if err := toml.Unmarshal(text, &file); err != nil {
		return nil, layout, at(name, text, err)
	}
	if len(file.Step) == 0 {
		return nil, layout, fmt.Errorf("%s: no [[step]]: a lesson has one or more, each with id, drill and asks, or else chords, such as chords = [\"C\", \"F\"]", name)
	}
	return file.Step, layout, nil
}

// Whole says what is wrong with a text that should be TOML without anything in it but comments.
func Whole(name string, text []byte) error {
	if err := toml.Unmarshal(text, &struct{}{}); err != nil {
		return at(name, text, err)
	}
	return nil
}

// asWritten is how a step as a whole is written.
const asWritten = `a step begins with a line [[step]], and each line after it is such as drill = "interval-ear" or asks = ["M3", "m3"], with straight quotes and in UTF-8`

// at writes an error of the TOML reader with its position and what would be right.
func at(name string, text []byte, err error) error {
	decode := (*toml.DecodeError)(nil)
	if !errors.As(err, &decode) {
		return fmt.Errorf("%s: %w", name, err)
	}
	row, col := decode.Position()
	if key := decode.Key(); len(key) > 0 && keyForms[key[len(key)-1]] != "" && strings.Contains(decode.Error(), "cannot decode") {
		return fmt.Errorf("%s:%d:%d: %s is written %s", name, row, col, key[len(key)-1], keyForms[key[len(key)-1]])
	}
	says := strings.TrimPrefix(decode.Error(), "toml: ")
	if lines := bytes.Split(text, []byte("\n")); row <= len(lines) && col <= len(lines[row-1]) {
		// The reader's columns are bytes, and it says of these characters only how they begin.
		if r, _ := utf8.DecodeRune(lines[row-1][col-1:]); strings.ContainsRune("“”„‘’«»", r) {
			says = fmt.Sprintf("%c is no straight quote", r)
		}
	}
	return fmt.Errorf("%s:%d:%d: %s; %s", name, row, col, says, asWritten)
}

// fault is what is wrong with a step, and which value of which key it is about; empty if it is about the step.
type fault struct{ says, key, value string }

// stepsBefore are the ids of the steps before one, and of the last of them; "" if there is none.
type stepsBefore struct {
	ids  map[string]bool
	last string
}

// unshown is what is said of a text of a lesson that could not be shown as it is; empty if it can.
func unshown(what, text string) string {
	if i := strings.IndexFunc(text, theory.Moves); i >= 0 {
		r, _ := utf8.DecodeRuneInString(text[i:])
		return fmt.Sprintf("the %s of this step has the character %U, which cannot be shown: leave it out", what, r)
	}
	return ""
}

// check says what is wrong with a step that follows others; known is what its drill can ask for, nil if
// there is no such drill.
func (s Step) check(before stepsBefore, known []string) fault {
	id := theory.Clip(s.ID)
	switch {
	case unshown("id", s.ID) != "":
		return fault{unshown("id", s.ID), "id", s.ID}
	case unshown("title", s.Title) != "":
		return fault{unshown("title", s.Title), "title", s.Title}
	case s.ID == "":
		return fault{says: "this step has no id: it is written " + keyForms["id"]}
	case before.ids[s.ID]:
		return fault{fmt.Sprintf("step %q comes twice: each step needs an id of its own", id), "id", s.ID}
	case known == nil:
		return fault{fmt.Sprintf("step %q: %q is no drill; the drills are %s", id, theory.Clip(s.Drill), strings.Join(catalogue.IDs(), ", ")), "drill", s.Drill}
	case len(s.Asks) == 0:
		return fault{fmt.Sprintf("step %q asks for nothing: name one target or more in asks; %s can ask for %s", id, s.Drill, strings.Join(known, ", ")), "asks", ""}
	}
	for n, a := range s.Asks {
		if !slices.Contains(known, a) {
			if own := s.idOf(a, known); own != "" {
				return fault{fmt.Sprintf("step %q: %s cannot ask for %q; what is called so is written %q here", id, s.Drill, theory.Clip(a), own), "asks", a}
			}
			return fault{fmt.Sprintf("step %q: %s cannot ask for %q; it can for %s", id, s.Drill, theory.Clip(a), strings.Join(known, ", ")), "asks", a}
		}
		if slices.Contains(s.Asks[:n], a) {
			return fault{fmt.Sprintf("step %q asks for %q twice: once is enough", id, theory.Clip(a)), "asks", a}
		}
	}
	for _, r := range s.RestsOn {
		switch {
		case before.ids[r]:
		case before.last == "":
			return fault{fmt.Sprintf("step %q rests on %q: the first step rests on nothing; leave rests-on out", id, theory.Clip(r)), "rests-on", r}
		default:
			return fault{fmt.Sprintf("step %q rests on %q, and no step before it has that id; the one right before it is %q", id, theory.Clip(r), theory.Clip(before.last)), "rests-on", r}
		}
	}
	return fault{}
}

// idOf returns the id of what a step's drill calls by a name, "" if there is none among those known.
func (s Step) idOf(name string, known []string) string {
	if d, ok := catalogue.ByID(s.Drill); ok {
		for _, t := range fret.Tunings() {
			for _, target := range d.Targets(&neck.Instrument{Tuning: t}) {
				if read.Names(name, target.Name) {
					return target.ID
				}
			}
		}
	}
	if k, ok := read.Kind(name); ok && slices.Contains(known, k.ID) {
		return k.ID
	}
	return ""
}

// everyTarget lists what a drill can ask for on any instrument there is.
func everyTarget(d drills.Drill) []string {
	var out []string
	for _, t := range fret.Tunings() {
		for _, target := range d.Targets(&neck.Instrument{Tuning: t}) {
			if !slices.Contains(out, target.ID) {
				out = append(out, target.ID)
			}
		}
	}
	return out
}
