package main

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/records"
	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/store"
)

// What was foretold stands beside what happened, by eye and by ear, each field as the file has it; first answers are foretold by nobody.
func TestForetoldIsHeldAgainstWhatHappened(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f, err := store.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	at := time.Now().AddDate(0, 0, -40)
	for n := range 30 {
		for _, by := range []struct {
			item, voice string
			miss        int
		}{{"spell/major/ukulele", "", 5}, {"chord-ear/major/ukulele", "soft", 3}} {
			a := progress.Answer{Item: by.item, Drill: progress.DrillOf(by.item), At: at, Result: progress.Right, Voice: by.voice, Choices: 4}
			if n%by.miss == 1 {
				a.Result = progress.Wrong
			}
			if err := f.Record(a); err != nil {
				t.Fatal(err)
			}
			at = at.Add(time.Hour)
		}
		at = at.Add(22 * time.Hour)
	}
	known, _, err := f.Known()
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	out, errs, _ := called(t, "", "progress", "--json", "--progress", path)
	rows := objects[records.ForetoldRow](t, withPart(t, out, true))
	asked := map[string]int{}
	for _, r := range rows {
		asked[r.Name] += r.Asked
		is := known.ByEye
		if r.Name == "ear" {
			is = known.ByEar
		}
		n := int(math.Round(r.From * 10))
		rate := memory.RateOf(memory.Tally{Asked: is[n].Asked, Right: is[n].Right})
		want := records.ForetoldRow{Part: "foretold", Name: r.Name, From: float64(n) / 10, To: float64(n+1) / 10, Foretold: is[n].Sum / float64(is[n].Asked), Asked: is[n].Asked, Right: is[n].Right, Low: rate.Low, High: rate.High}
		if r != want {
			t.Errorf("%+v, want %+v", r, want)
		}
		if r.Foretold < r.From || r.Foretold > r.To {
			t.Errorf("%+v: %.3f does not lie between", r, r.Foretold)
		}
	}
	if asked["eye"] != 29 || asked["ear"] != 29 || errs != "" {
		t.Errorf("foretold of %v answers, want 29 of each; %s", asked, errs)
	}
	if !slices.IsSortedFunc(rows, func(a, b records.ForetoldRow) int {
		if a.Name != b.Name {
			return strings.Compare(b.Name, a.Name)
		}
		return int(10*b.From) - int(10*a.From)
	}) {
		t.Errorf("not by eye first and the likeliest first: %+v", rows)
	}
	text, _, _ := called(t, "", "progress", "--progress", path)
	if !strings.Contains(text, "How well your answers were foretold:\n  by e") {
		t.Error(text)
	}
	for _, r := range rows {
		line := "by " + r.Name + ", of what you were thought to answer right "
		if r.Asked >= 8 && !strings.Contains(text, line) || r.Asked < 8 && strings.Contains(text, " of "+records.Rate(r.Right, r.Asked)[5:]+" right") {
			t.Errorf("%+v: in %s", r, text)
		}
	}
	for _, line := range strings.Split(text, "\n") {
		if len([]rune(line)) > 72 {
			t.Errorf("%d wide: %s", len([]rune(line)), line)
		}
	}
}

// withPart returns the lines of JSON that tell what was foretold, or the others.
func withPart(t *testing.T, out string, foretold bool) string {
	t.Helper()
	var lines []string
	for line := range strings.Lines(out) {
		if strings.HasPrefix(line, `{"part":"foretold",`) == foretold {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "")
}
