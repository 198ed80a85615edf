package exported

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// answered is an answer with something in every field.
var answered = tables.AnswerRow{
	ID: [16]byte{1, 2, 3}, Day: progress.DayOf(time.Date(2026, time.March, 4, 18, 40, 0, 0, time.UTC)),
	Answer: progress.Answer{Session: "s", Item: "name/add9/ukulele", Drill: "name", Seed: 1<<64 - 1, At: time.Date(2026, time.March, 4, 18, 40, 0, 125e6, time.UTC),
		Question: "What is it?", Given: "C6", Expected: "Cadd9", TakenFor: "name/6/ukulele", Result: progress.Wrong, Choices: 4, Took: 4250 * time.Millisecond,
		Replays: 2, Hints: 1, Voice: "ukulele", Rung: 3, Lesson: "9f86d081884c7d65", Step: "their-sounds", Played: true, Offered: "add9|6|7|m7", Chosen: 2},
}

// An answer goes out and comes back with every field that an answer has.
func TestEveryFieldOfAnAnswerGoesOutAndComesBack(t *testing.T) {
	of := reflect.ValueOf(answered.Answer)
	for n := range of.NumField() {
		if of.Field(n).IsZero() {
			t.Errorf("%s is not exported here", of.Type().Field(n).Name)
		}
	}
	got, err := AnswerOf(answered, true).Row()
	if diff := cmp.Diff(answered, got); diff != "" || err != nil {
		t.Error(diff, err)
	}
	if !AnswerOf(answered, true).Doubted || AnswerOf(answered, false).Doubted {
		t.Error("whether it is doubted is not exported")
	}
}

// A row of CSV has a column for every field of a JSON line, by the same name, and each column reads back what it writes.
func TestEveryFieldOfALineHasAColumn(t *testing.T) {
	out := AnswerOf(answered, true)
	out.Owner, out.Judged = Owner{File: "FILE", Whose: "Ada"}, true
	var fields []string
	for _, f := range reflect.VisibleFields(reflect.TypeFor[Answer]()) {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name != "" && name != "-" && name != "kind" {
			fields = append(fields, name)
		}
		if value := reflect.ValueOf(out).FieldByIndex(f.Index); value.IsZero() {
			t.Errorf("%s has nothing in it here", f.Name)
		}
	}
	var columns []string
	back := Answer{Kind: out.Kind}
	for _, c := range Columns {
		columns = append(columns, c.Name)
		if err := c.set(&back, c.Get(&out)); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
	slices.Sort(fields)
	slices.Sort(columns)
	if diff := cmp.Diff(fields, columns); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(out, back); diff != "" {
		t.Error(diff)
	}
}
