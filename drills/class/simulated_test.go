package class_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"sparetone/drills"
	"sparetone/drills/class"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/progress/store"
)

// lessonDay is when the class is looked at.
var lessonDay = time.Date(2026, time.March, 11, 17, 0, 0, 0, time.UTC)

// pupil is a simulated student: how one answers, when, and what is practised.
type pupil struct {
	name   string
	want   class.Verdict
	way    practice.Way
	ended  int // days before the lesson on which practice ended
	days   int // of practice at the most; 0 if of as many as the others
	answer func(rng *rand.Rand) func(asked *session.Asked, ear bool) string
}

// knowing knows a thing with a chance, by ear and by eye, and else guesses.
func knowing(byEar, byEye float64) func(rng *rand.Rand) func(*session.Asked, bool) string {
	return func(rng *rand.Rand) func(*session.Asked, bool) string {
		return func(asked *session.Asked, ear bool) string {
			chance := byEye
			if ear {
				chance = byEar
			}
			if rng.Float64() < chance {
				return asked.Expected().Typed
			}
			return anything(asked, rng)
		}
	}
}

// anything is a choice at random; where there are none, that it is not known.
func anything(asked *session.Asked, rng *rand.Rand) string {
	if len(asked.Choices) == 0 {
		return drills.Unknown
	}
	return asked.Choices[rng.IntN(len(asked.Choices))].Typed
}

// always answers, in each drill, what it answered there first, whenever that is among the choices.
func always(rng *rand.Rand) func(*session.Asked, bool) string {
	first := map[string]string{}
	return func(asked *session.Asked, _ bool) string {
		for _, c := range asked.Choices {
			if c.ID == first[asked.Drill] {
				return c.Typed
			}
		}
		text := anything(asked, rng)
		for _, c := range asked.Choices {
			if c.Typed == text && first[asked.Drill] == "" {
				first[asked.Drill] = c.ID
			}
		}
		return text
	}
}

// kinds are the six kinds of student. That somebody is blind and practises in lines is nothing that a file tells, nor should it: what it
// tells is that nothing is asked by eye.
var kinds = []pupil{
	{"strong", class.Strong, practice.Way{}, 0, 0, knowing(0.93, 0.93)},
	{"ear-weak", class.EyeNotEar, practice.Way{}, 0, 0, knowing(0.05, 0.93)},
	{"one-answer", class.OneAnswer, practice.Way{}, 0, 0, always},
	{"guesses", class.Guesses, practice.Way{}, 0, 0, knowing(0, 0)},
	{"absent", class.Silent, practice.Way{}, 16, 1, knowing(0.85, 0.85)},
	{"blind in lines", class.EarAlone, practice.ByEar, 0, 0, knowing(0.93, 0.93)},
}

// ukulele is what all of them play; what was found on its neck is kept.
var ukulele = sync.OnceValue(func() *neck.Instrument {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		panic(err)
	}
	return on
})

// practised is what a pupil hands in after some days of ten minutes on the ukulele, each question answered after some seconds.
func (p pupil) practised(t testing.TB, name string, days int, seed uint64) []byte {
	t.Helper()
	if p.days > 0 {
		days = min(days, p.days)
	}
	rng := rand.New(rand.NewPCG(seed, 0x636c617373))
	now := lessonDay.AddDate(0, 0, -p.ended-days)
	clock := func() time.Time { return now }
	file, err := store.InMemory(clock)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if err := file.SetName(name); err != nil {
		t.Fatal(err)
	}
	on := ukulele()
	answer := p.answer(rng)
	for day := range days {
		now = lessonDay.AddDate(0, 0, day-p.ended-days).Add(time.Duration(rng.IntN(120)) * time.Minute)
		s, err := session.New(session.Setup{File: file, On: on, Course: course.BuiltIn(), Drills: p.way.Drills, Length: 10 * time.Minute, Seed: rng.Uint64(), Now: clock})
		if err != nil {
			t.Fatal(err)
		}
		for {
			asked, err := s.Next()
			if err != nil {
				t.Fatal(err)
			}
			if asked == nil {
				break
			}
			now = now.Add(time.Duration(4000+rng.IntN(9000)) * time.Millisecond)
			if _, err := s.Answer(answer(asked, len(asked.Sounds) > 0)); err != nil {
				t.Fatal(err)
			}
			now = now.Add(time.Duration(1500+rng.IntN(4000)) * time.Millisecond)
		}
		if err := s.End(); err != nil {
			t.Fatal(err)
		}
	}
	now = lessonDay
	var out bytes.Buffer
	if err := file.ExportJSON(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// classOf is a folder of what a class hands in, so many of each kind.
func classOf(t testing.TB, each, days int, seed uint64) fstest.MapFS {
	t.Helper()
	folder := fstest.MapFS{}
	for n, k := range kinds {
		for twin := range each {
			name := fmt.Sprintf("%s %d", k.name, twin+1)
			folder[name+".jsonl"] = &fstest.MapFile{Data: k.practised(t, name, days, seed*100+uint64(10*n+twin))}
		}
	}
	return folder
}

// wanted is the verdict on a pupil of a name.
func wanted(name string) class.Verdict {
	for _, k := range kinds {
		if len(name) == len(k.name)+2 && name[:len(k.name)] == k.name {
			return k.want
		}
	}
	return ""
}

var today = class.Options{Today: progress.DayOf(lessonDay)}
