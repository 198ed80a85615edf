package lesson

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"

	"sparetone/drills/catalogue"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// field is something that a lesson may say: how it is written, and what reads it.
type field struct {
	form string
	read func(r *reading, v value) *fault
}

// fields are what a lesson may say above its steps.
var fields map[string]field

// fieldOrder is the order in which fields are read: what others are read by comes first.
var fieldOrder = []string{"name", "from", "due", "minutes", "tuning", "key", "chords", "shapes", "songs", "drills"}

func init() {
	fields = map[string]field{
		"name":    {`name = "Ninths in a loop", a text in straight double quotes`, (*reading).name},
		"from":    {`from = "Ida", a text in straight double quotes`, (*reading).from},
		"due":     {`due = 2026-12-04, a year, a month and a day`, (*reading).due},
		"minutes": {`minutes = 10, a whole number from 1 to 120`, (*reading).minutes},
		"tuning":  {`tuning = "gCEA", the name of a tuning or its strings in straight double quotes`, (*reading).tuning},
		"key":     {`key = "C", a key such as Eb or F#m in straight double quotes`, (*reading).key},
		"chords":  {`chords = ["C", "Am", "F", "G7"], texts in straight double quotes between brackets`, (*reading).chords},
		"shapes":  {`shapes = ["0003", "2010>0010"], shapes, or a plain one and what one string makes of it, in straight double quotes between brackets`, (*reading).shapes},
		"songs":   {`songs = ["loop.txt"], charts that lie beside the lesson, or stand in it between three quotes`, (*reading).songs},
		"drills":  {`drills = ["chord-ear", "swap"], texts in straight double quotes between brackets`, (*reading).drills},
	}
}

// What is taken at the most.
const (
	longestName  = 80 // characters
	mostMinutes  = 120
	mostChords   = 64
	mostShapes   = 64
	mostSongs    = 12
	longestChart = 1 << 16 // bytes of a chart
)

// reading is a lesson being read.
type reading struct {
	Lesson
	layout
	beside      Beside
	askedDrills []string       // ids of the drills that the lesson names
	spot        map[string]int // byte offset in the text, by "drill " and its id
}

// parse reads the text of a lesson.
func parse(name string, text []byte, beside Beside) (Lesson, error) {
	text = []byte(strings.TrimPrefix(string(text), "\ufeff"))
	l, steps := layOut(text)
	r := &reading{layout: l, beside: beside, spot: map[string]int{}}
	r.Lesson = Lesson{ID: idOf(text), Name: bare(name), Tuning: fret.Tunings()[0], Text: string(text), Charts: map[string]string{}}
	at := func(f *fault) error {
		row, col := position(text, f.at)
		return fmt.Errorf("%s:%d:%d: %s", name, row, col, f.says)
	}
	if l.wrong != nil {
		return Lesson{}, at(l.wrong)
	}
	for _, id := range fieldOrder {
		if v, there := l.values[id]; there {
			if f := fields[id].read(r, v); f != nil {
				return Lesson{}, at(f)
			}
		}
	}
	if err := r.settle(name, steps); err != nil {
		return Lesson{}, err
	}
	if f := r.askable(); f != nil {
		return Lesson{}, at(f)
	}
	return r.Lesson, nil
}

// bare is the name of a file without its folder and its ending.
func bare(path string) string {
	name := path[strings.LastIndexAny(path, `/\`)+1:]
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	return theory.Clean(name)
}

// line reads a text of one line.
func (r *reading) line(id string, v value) (string, *fault) {
	if v.kind != unstable.String {
		return "", &fault{v.at, sayForm(id)}
	}
	if i := strings.IndexFunc(v.text, theory.Moves); i >= 0 {
		c, _ := utf8.DecodeRuneInString(v.text[i:])
		return "", &fault{v.at, fmt.Sprintf("the %s of this lesson has the character %U, which cannot be shown: leave it out", id, c)}
	}
	is := strings.TrimSpace(v.text)
	switch n := utf8.RuneCountInString(is); {
	case n == 0:
		return "", &fault{v.at, fmt.Sprintf("%s is empty: say one, or leave it out", id)}
	case n > longestName:
		return "", &fault{v.at, fmt.Sprintf("the %s of this lesson has %d characters; it has %d at most", id, n, longestName)}
	}
	return is, nil
}

func (r *reading) name(v value) (f *fault) {
	r.Name, f = r.line("name", v)
	return f
}

func (r *reading) from(v value) (f *fault) {
	r.From, f = r.line("from", v)
	return f
}

func (r *reading) due(v value) *fault {
	if v.kind != unstable.LocalDate && v.kind != unstable.String {
		return &fault{v.at, sayForm("due")}
	}
	day, err := time.Parse(time.DateOnly, strings.TrimSpace(v.text))
	if err != nil {
		return &fault{v.at, fmt.Sprintf("%q is no day there is; due is written %s", theory.Clip(v.text), fields["due"].form)}
	}
	if y := day.Year(); y < firstYear || y > lastYear {
		return &fault{v.at, fmt.Sprintf("a lesson is due from %d to %d, and not in %d", firstYear, lastYear, y)}
	}
	r.Due = progress.DayOf(day.Add(12 * time.Hour))
	return nil
}

// firstYear and lastYear are the years in which a lesson may be due.
const firstYear, lastYear = 2001, 2999

func (r *reading) minutes(v value) *fault {
	if v.kind != unstable.Integer {
		return &fault{v.at, sayForm("minutes")}
	}
	n, err := strconv.Atoi(strings.ReplaceAll(v.text, "_", ""))
	if err != nil || n < 1 || n > mostMinutes {
		return &fault{v.at, fmt.Sprintf("minutes is %s; a practice lasts 1 to %d minutes", theory.Clip(v.text), mostMinutes)}
	}
	r.Minutes = n
	return nil
}

func (r *reading) tuning(v value) *fault {
	text, f := r.line("tuning", v)
	if f != nil {
		return f
	}
	t, err := fret.ParseTuning(text)
	if err != nil {
		return &fault{v.at, err.Error()}
	}
	r.Tuning = t
	return nil
}

func (r *reading) key(v value) *fault {
	text, f := r.line("key", v)
	if f != nil {
		return f
	}
	k, err := read.Key(text)
	if err != nil {
		return &fault{v.at, fmt.Sprintf("key: %v", err)}
	}
	r.Key = &k
	return nil
}

// texts reads a list of texts, of so many at the most.
func (r *reading) texts(id string, v value, most int) *fault {
	if v.kind != unstable.Array {
		return &fault{v.at, sayForm(id)}
	}
	if len(v.list) == 0 {
		return &fault{v.at, fmt.Sprintf("%s is empty: say one, or leave it out", id)}
	}
	if len(v.list) > most {
		return &fault{v.list[most].at, fmt.Sprintf("a lesson has %d %s at most", most, id)}
	}
	for _, one := range v.list {
		if one.kind != unstable.String {
			return &fault{one.at, sayForm(id)}
		}
	}
	return nil
}

func (r *reading) drills(v value) *fault {
	if f := r.texts("drills", v, len(catalogue.All())); f != nil {
		return f
	}
	if r.steps {
		return &fault{r.keys["drills"], "a lesson with steps says its drills in them: leave drills out, or the steps"}
	}
	for _, one := range v.list {
		if _, ok := catalogue.ByID(one.text); !ok {
			return &fault{one.at, fmt.Sprintf("%q is no drill; the drills are %s", theory.Clip(one.text), strings.Join(catalogue.IDs(), ", "))}
		}
		if slices.Contains(r.askedDrills, one.text) {
			return &fault{one.at, fmt.Sprintf("%s is named twice: once is enough", one.text)}
		}
		r.askedDrills, r.spot["drill "+one.text] = append(r.askedDrills, one.text), one.at
	}
	return nil
}

// The sentences about fields.

func sayForm(id string) string { return fmt.Sprintf("%s is written %s", id, fields[id].form) }

func sayTwice(id string) string { return fmt.Sprintf("%s is there twice: once is enough", id) }

func sayAboveSteps(id string) string {
	return fmt.Sprintf("%s is said of the whole lesson: write it above the first [[step]]", id)
}

func sayUnknownField(name string) string {
	all := strings.Join(fieldOrder, ", ")
	if near := nearest(name, slices.Collect(maps.Keys(fields))); near != "" {
		return fmt.Sprintf("%q is not known here; is it %s? A lesson has %s, and steps", theory.Clip(name), near, all)
	}
	return fmt.Sprintf("%q is not known here: a lesson has %s, and steps", theory.Clip(name), all)
}

// nearest returns the one of some words that is written most like another, "" if none is.
func nearest(typed string, words []string) string {
	best, least := "", 3
	for _, w := range slices.Sorted(slices.Values(words)) {
		if d := distance(strings.ToLower(typed), w); d < least && d < len(w)/2+1 {
			best, least = w, d
		}
	}
	return best
}

// distance counts the letters to put in, leave out or change to make one word of another (Levenshtein's distance).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := before
			if a[i] != b[j] {
				change++
			}
			before = row[j+1]
			row[j+1] = min(change, before+1, row[j]+1)
		}
	}
	return row[len(b)]
}
