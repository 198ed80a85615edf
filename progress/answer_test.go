package progress

import (
	"reflect"
	"strings"
	"testing"
	"time"
)

// right is an answer that may be kept.
func right() Answer {
	return Answer{Item: "name/add9/ukulele", Drill: "name", At: time.Date(2026, time.March, 4, 18, 40, 0, 0, time.UTC), Result: Right}
}

// Every text of an answer may be as long as is kept and no longer, and has no control character, whatever field it stands in.
func TestEveryTextOfAnAnswerIsChecked(t *testing.T) {
	if err := right().Valid(); err != nil {
		t.Fatal(err)
	}
	for n := range reflect.TypeFor[Answer]().NumField() {
		if reflect.TypeFor[Answer]().Field(n).Type.Kind() != reflect.String {
			continue
		}
		name := reflect.TypeFor[Answer]().Field(n).Name
		for text, says := range map[string]string{
			strings.Repeat("x", LongestText):   "",
			strings.Repeat("x", LongestText+1): "bytes, and",
			"a\x1bb":                           "control character",
		} {
			a := right()
			reflect.ValueOf(&a).Elem().Field(n).SetString(text)
			if err := a.Valid(); says == "" && err != nil || says != "" && (err == nil || !strings.Contains(err.Error(), says)) {
				t.Errorf("%s with %d bytes: %v, want %q", name, len(text), err, says)
			}
		}
	}
}

// A count of an answer is none below 0, whatever field it stands in; of the choices there is none of 1 either.
func TestEveryCountOfAnAnswerIsChecked(t *testing.T) {
	for n := range reflect.TypeFor[Answer]().NumField() {
		f := reflect.TypeFor[Answer]().Field(n)
		if f.Type != reflect.TypeFor[int]() && f.Type != reflect.TypeFor[time.Duration]() {
			continue
		}
		a := right()
		reflect.ValueOf(&a).Elem().Field(n).SetInt(-1)
		if a.Valid() == nil {
			t.Errorf("%s may be -1", f.Name)
		}
	}
}
