package perform

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// arranged arranges a chart for a ukulele.
func arranged(t *testing.T, chart string, rich int) arrange.Arrangement {
	t.Helper()
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	a, err := arrange.Arrange(s, arrange.Wishes{Rich: rich})
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
		{"by turns, one string moved of 0402", "tempo: 60\nmeter: 1/4\npick: 2\nkey: Em\n| Em | C | G | D/F# |\n| Am | B7 | Em | Em |", 5, Wishes{Sounds: ByTurns}, "2:64@0 2:64@1000 2:67@2000 2:69@3000 2:64@4000 2:66@5000 2:64@6000 2:64@7000 2:64@8000 2:64@9000 2:64@10000 2:69@11000 2:64@12000 2:66@13000 2:64@14000 2:64@15000"},
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

// A loop is a round that goes on as it began: its last chord is stilled by its first, and the pattern comes out.
func TestLoops(t *testing.T) {
	for _, tt := range []struct {
		chart string
		w     Wishes
		round string
		beats int
	}{
		{"tempo: 60\nmeter: 1/4\npick: 4\n| C | F |", Wishes{}, "4:67@0-1000 4:69@1000-1000", 2},
		{"tempo: 60\nmeter: 2/4\npick: 4 1 3\n| C |", Wishes{}, "4:67@0 1:72@500 3:60@1000 4:67@1500 1:72@2000 3:60@2500 4:67@3000 1:72@3500 3:60@4000 4:67@4500 1:72@5000 3:60@5500", 6},
		{"tempo: 60\nmeter: 1/4\npick: 4\nkey: C\n| F |", Wishes{Sounds: ByTurns}, "4:69@0 4:69@1000", 2},
	} {
		once, round, err := Loop(arranged(t, tt.chart, 0), tt.w)
		var got []string
		for _, k := range round.InTime() {
			one := fmt.Sprintf("%d:%d@%d", k.String, k.Pitch.MIDI(), k.At.Milliseconds())
			if k.Damp > 0 {
				one += fmt.Sprintf("-%d", k.Damp.Milliseconds())
			}
			got = append(got, one)
		}
		if strings.Join(got, " ") != tt.round || err != nil || once.Length != 0 || round.Length != time.Duration(tt.beats)*time.Second {
			t.Errorf("%q: %v, %v long, %v", tt.chart, got, round.Length, err)
		}
	}
	_, long, err := Loop(arranged(t, "tempo: 30\nmeter: 4/4\npick: 4 1 3\n|: C | F | C | G :| x8", 0), Wishes{})
	if err != nil || long.Length != 32*8*time.Second {
		t.Errorf("%v long, %v", long.Length, err) // three times as long, three times over, would be more than is played
	}
	once, round, err := Loop(arranged(t, "tempo: 60\nmeter: 2/4\npick: 4 -\n| C |", 0), Wishes{CountIn: true, Click: true})
	if err != nil || once.Length != 2*time.Second || len(once.Plucks) != 2 || len(round.Plucks) != 3 {
		t.Errorf("%+v, %+v, %v", once, round, err)
	}
}
