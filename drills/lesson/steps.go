package lesson

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/harmony"
	"sparetone/drills/neck"
)

// settle reads the steps, or makes them of the chords where there are none.
func (r *reading) settle(name string, steps []byte) error {
	if !r.steps && !r.isPlain() {
		if err := course.Whole(name, steps); err != nil {
			return err
		}
		r.Steps, r.Made = made(&r.Lesson, r.askedDrills), true
		return nil
	}
	all, err := course.Read(name, bytes.NewReader(steps))
	r.Steps = all
	return err
}

// loop is the order in which a lesson is gone through that says no steps: its chords are met, then their shapes, their sounds, the one
// string that moves, what tells them apart, and where they stand in the key.
var loop = []struct{ drill, id, title string }{
	{"shape-tones", "met", "What each string is"},
	{"doubled", "doubled", "The doubled note"},
	{"shape-name", "their-shapes", "Their shapes"},
	{"build", "built", "Holding them"},
	{"chord-ear", "their-sounds", "Their sounds"},
	{"added-ear", "what-comes-in", "Which note comes in"},
	{"swap", "one-string", "Moving the one string"},
	{"same-or-not", "apart", "Telling them apart"},
	{"progression-ear", "in-the-loop", "In a loop of the key"},
	{"key-add", "of-the-key", "What each takes in the key"},
	{"resolve", "where-to", "Where they want to go"},
	{"spell", "spelled", "Their notes"},
}

// usualDrills are those of the loop that a lesson has which names none, and keyDrills those that it has beside these if it names a key. Without
// one its chords would be asked in every key that has them, and most of the lesson would be about keys.
var (
	usualDrills = []string{"shape-tones", "shape-name", "chord-ear", "added-ear", "swap", "same-or-not"}
	keyDrills   = []string{"progression-ear", "key-add"}
)

// made makes the steps of the lesson's chords. What of them an instrument has no question for is left out when it is laid on it.
func made(l *Lesson, only []string) (steps course.Course) {
	if only == nil {
		if only = usualDrills; l.Key != nil {
			only = slices.Concat(usualDrills, keyDrills)
		}
	}
	for _, row := range loop {
		if !slices.Contains(only, row.drill) {
			continue
		}
		if asks := l.asks(row.drill); len(asks) > 0 {
			steps = append(steps, course.Step{ID: row.id, Title: row.title, Chapter: l.Name, Drill: row.drill, Asks: asks})
		}
	}
	return steps
}

// asks lists what a drill can ask of the lesson's chords.
func (l *Lesson) asks(drill string) (asks []string) {
	d, _ := catalogue.ByID(drill)
	held := instrument(l.Tuning).HeldTo(l.hold(instrument(l.Tuning)))
	about := func(t drills.Target) bool {
		switch t.Topic.Of {
		case "kind", "resolution":
			return l.hasKind(t.Topic.ID)
		case "addition":
			return slices.ContainsFunc(l.Moves, func(m neck.HeldMove) bool { return m.Coloured.Kind.ID == t.Topic.ID }) || l.hasKind(t.Topic.ID)
		case "pair":
			one, other, _ := strings.Cut(t.ID, "-or-")
			return l.hasKind(one) && l.hasKind(other)
		case "interval", "notes", "tone":
			return false
		case "key":
			return l.Key == nil || harmony.IsOfMode(t.ID, l.Key.Minor)
		}
		return true
	}
	for _, t := range d.Targets(held) {
		if about(t) && catalogue.CanAsk(held, d, t.ID, nil) {
			asks = append(asks, t.ID)
		}
	}
	return asks
}

// hasKind reports whether a chord of a kind is among the lesson's.
func (l *Lesson) hasKind(id string) bool {
	return slices.ContainsFunc(l.Chords, func(h neck.HeldChord) bool { return h.Kind.ID == id })
}

// hold is what the lesson's questions are held to on an instrument that its shapes are for.
func (l *Lesson) hold(on *neck.Instrument) neck.Hold {
	return neck.Hold{Chords: l.Chords, Moves: l.Moves, Key: l.Key}
}

// askable says which step cannot be asked of the lesson's chords on its own instrument.
func (r *reading) askable() *fault {
	if r.Made {
		for _, id := range r.askedDrills {
			if !slices.ContainsFunc(r.Steps, func(s course.Step) bool { return s.Drill == id }) {
				return &fault{r.spot["drill "+id], fmt.Sprintf("%s has nothing to ask of %s: name other chords, or leave it out", id, r.listed())}
			}
		}
		if len(r.Steps) == 0 {
			return &fault{r.keys["chords"], fmt.Sprintf("there is nothing to ask of %s: name two chords or more", r.listed())}
		}
		return nil
	}
	if r.isPlain() {
		return nil
	}
	t := r.On(instrument(r.Tuning))
	if len(t.Left) == 0 {
		return nil
	}
	left := t.Left[0]
	return &fault{r.spotOf(left), left.Says.Screen() + "; name other chords, or leave it out"}
}

// spotOf returns where in the lesson's text a step names what is left out.
func (r *reading) spotOf(left LeftOut) int {
	at := bytes.Index(r.text, []byte(`"`+left.Step+`"`))
	if at < 0 {
		return 0
	}
	if i := bytes.Index(r.text[at:], []byte(`"`+left.Target+`"`)); i >= 0 {
		return at + i
	}
	return at
}

// listed are the lesson's chords in a row.
func (l *Lesson) listed() string {
	var out []string
	for _, h := range l.Chords {
		out = append(out, h.Chord.String())
	}
	return strings.Join(out, ", ")
}
