package perform

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/theory/song"
)

// arranged arranges a chart for a ukulele.
func arranged(t *testing.T, chart string, rich int) song.Arrangement {
	t.Helper()
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	a, err := song.Arrange(s, song.Wishes{Rich: rich})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// written writes a performance down as string:MIDI number@ms, with / before what is slurred.
func written(p Performance) string {
	var all []string
	for _, k := range p.Score.InTime() {
		slur := ""
		if k.Slur {
			slur = "/"
		}
		all = append(all, fmt.Sprintf("%s%d:%d@%d", slur, k.String, k.Pitch.MIDI(), k.At.Milliseconds()))
	}
	return strings.Join(all, " ")
}

func TestSongsAreInTime(t *testing.T) {
	for _, tt := range []struct {
		name, chart string
		rich        int
		w           Wishes
		want        string
	}{
		{"picked", "tempo: 60\nmeter: 2/4\npick: 4 1\n| C | F |", 0, Wishes{}, "4:67@0 1:72@1000 4:69@2000 1:69@3000"},
		{"coloured", "tempo: 60\nmeter: 2/4\npick: 4 1\nkey: C\n| C | F |", 10, Wishes{}, "4:67@0 1:69@1000 4:67@2000 1:69@3000"},
		{"the plain one of a coloured song", "tempo: 60\nmeter: 2/4\npick: 4 1\nkey: C\n| C | F |", 10, Wishes{Sounds: Plain}, "4:67@0 1:72@1000 4:69@2000 1:69@3000"},
		{"plain and coloured by turns", "tempo: 60\nmeter: 1/4\npick: 1\nkey: C\n| C | F |", 10, Wishes{Sounds: ByTurns}, "1:72@0 1:69@1000 1:69@2000 1:69@3000"},
		{"by bars", "tempo: 60\nmeter: 1/4\npick: 4\nkey: C\n| F | F |", 10, Wishes{Sounds: ByBars}, "4:69@0 4:67@1000"},
		{"hammered", "tempo: 60\nmeter: 1/4\npick: 4h\nkey: C\n| F |", 10, Wishes{}, "4:69@0 /4:67@500"},
		{"two rounds", "tempo: 120\nmeter: 1/4\npick: 1\n| C |", 0, Wishes{Rounds: 2}, "1:72@0 1:72@500"},
		{"a tempo of one's own", "tempo: 120\nmeter: 1/4\npick: 1\n| C | F |", 0, Wishes{Tempo: 30}, "1:72@0 1:69@2000"},
		{"silence", "tempo: 60\nmeter: 1/4\npick: 1\n| C | N.C. | F |", 0, Wishes{}, "1:72@0 1:69@2000"},
		{"a capo", "tempo: 60\nmeter: 1/4\ncapo: 2\npick: 1\n| C | F |", 0, Wishes{}, "1:74@0 1:71@1000"},
		{"a click", "tempo: 60\nmeter: 2/4\npick: 4 -\n| C |", 0, Wishes{Click: true}, "4:67@0 0:96@0 0:91@1000"},
		{"counted in", "tempo: 60\nmeter: 2/4\npick: 4 -\n| C |", 0, Wishes{CountIn: true}, "0:96@0 0:91@1000 4:67@2000"},
	} {
		p, err := Play(arranged(t, tt.chart, tt.rich), tt.w)
		if got := written(p); err != nil || got != tt.want {
			t.Errorf("%s:\n%s, want\n%s: %v", tt.name, got, tt.want, err)
		}
	}
}

// What rings on over a change does so, what changes is stilled, and all can be rendered.
func TestStringsRingOnOverChanges(t *testing.T) {
	p, err := Play(arranged(t, "tempo: 60\nmeter: 1/4\nstrum: D\n| C | Am |", 0), Wishes{})
	if err != nil {
		t.Fatal(err)
	}
	damped := map[int]bool{}
	for _, k := range p.Score.Plucks {
		if k.At < time.Second {
			damped[k.String] = k.Damp > 0
		}
	}
	if damped[3] || damped[2] || !damped[4] || !damped[1] {
		t.Errorf("0003 to 2000 stills %v", damped)
	}
	if _, err := synth.Render(p.Score, synth.Voices()[0], synth.Options{}); err != nil {
		t.Error(err)
	}
}

func TestChordsOfMIDI(t *testing.T) {
	a := arranged(t, "title: T\nkey: Gm\nmeter: 3/4\ntempo: 60\n| Gm | D7 |", 0)
	p, err := Play(a, Wishes{Click: true})
	if err != nil {
		t.Fatal(err)
	}
	m := p.MIDI(a)
	if m.Title != "T" || m.Sharps != -2 || !m.Minor || m.Beats != 3 || m.Tempo != 60 || len(m.Strings) != 5 || m.Strings[0].Name != "g" {
		t.Errorf("%+v", m)
	}
	if len(m.Texts) != 2 || m.Texts[1].Text != "D7" || m.Texts[1].At != 3*time.Second {
		t.Errorf("%+v", m.Texts)
	}
}

func TestSongTooLong(t *testing.T) {
	if _, err := Play(arranged(t, "tempo: 30\n|: C | G :| x16", 0), Wishes{Rounds: 10}); err == nil || !strings.Contains(err.Error(), "the longest that is played is 30m0s") {
		t.Error(err)
	}
}
