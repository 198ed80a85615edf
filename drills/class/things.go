package class

import (
	"strings"
	"sync"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/theory/fret"
)

// Thing is something that is asked: an item, and what it means to this version.
type Thing struct {
	Item   string
	Drill  string
	Target string
	Tuning string
	Ear    bool   // it cannot be done without sound
	Name   string // as a person reads it; the target's id where this version does not know it
	Known  bool   // to this version
}

// kind is the kind of chord or the addition that a thing is about, by its id; "" where it is about something else.
func (t Thing) kind() string {
	for _, target := range targetsOn(t.Drill, t.Tuning) {
		if target.ID == t.Target && (target.Topic.Of == "kind" || target.Topic.Of == "addition") {
			return target.Topic.ID
		}
	}
	return ""
}

// onTuning are the targets of a drill on a tuning.
type onTuning struct{ drill, tuning string }

var targetsMet = struct {
	sync.Mutex
	of map[onTuning][]drills.Target
}{of: map[onTuning][]drills.Target{}}

// mostTunings is how many drills on tunings are kept; a folder of strange files may name any number of tunings.
const mostTunings = 2000

// targetsOn returns what a drill asks on a tuning; nil if this version does not know either.
func targetsOn(drill, tuning string) []drills.Target {
	targetsMet.Lock()
	defer targetsMet.Unlock()
	key := onTuning{drill, tuning}
	if all, met := targetsMet.of[key]; met {
		return all
	}
	var all []drills.Target
	if d, ok := catalogue.ByID(drill); ok {
		if t, err := fret.ParseTuning(tuning); err == nil {
			all = d.Targets(&neck.Instrument{Tuning: t})
		}
	}
	if len(targetsMet.of) < mostTunings {
		targetsMet.of[key] = all
	}
	return all
}

// thingsMet are the things that were met, by item: the students of a class share them, and what is held does not grow by them.
var thingsMet = struct {
	sync.Mutex
	of map[string]*Thing
}{of: map[string]*Thing{}}

// mostThings is how many things are kept; a folder of strange files may name any number of them.
const mostThings = 20_000

// thingOf says what an item means.
func thingOf(item string) *Thing {
	thingsMet.Lock()
	defer thingsMet.Unlock()
	if t := thingsMet.of[item]; t != nil {
		return t
	}
	t := newThing(item)
	if len(thingsMet.of) < mostThings {
		thingsMet.of[t.Item] = t
	}
	return t
}

func newThing(item string) *Thing {
	t := &Thing{Item: strings.Clone(item)}
	t.Drill, t.Target, t.Tuning = drills.SplitItem(t.Item)
	t.Name = t.Target
	d, ok := catalogue.ByID(t.Drill)
	if !ok {
		return t
	}
	t.Ear = d.About().Ears
	for _, target := range targetsOn(t.Drill, t.Tuning) {
		if target.ID == t.Target {
			t.Ear, t.Known, t.Name = t.Ear || target.Ears, true, target.Name.Screen()
		}
	}
	return t
}
