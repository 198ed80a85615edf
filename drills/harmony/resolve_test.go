package harmony

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// moves reads which note rises or falls to which.
var moves = regexp.MustCompile(`([A-G][♯♭]*), (the [a-z ]+?), (rises|falls) to ([A-G][♯♭]*)`)

// ledBy is what the tones of a chord do that want to move: the tone above its root, how far above its root the note
// lies that it goes to, and by how many semitones. Written down from common practice, without a look at theory.
var ledBy = map[string][]struct {
	tone      string
	to, steps int
}{
	"suspended-fourth":   {{"P4", 4, -1}},
	"suspended-second":   {{"M2", 4, 2}},
	"dominant":           {{"M3", 5, 1}, {"m7", 9, -1}},
	"dominant-ninth":     {{"M3", 5, 1}, {"m7", 9, -1}, {"M9", 0, -2}},
	"diminished":         {{"P1", 1, 1}, {"d5", 5, -1}},
	"diminished-seventh": {{"P1", 1, 1}, {"d5", 4, -2}, {"d7", 8, -1}},
}

// Every tendency tone that sounds moves as it should, pitch by pitch, on the shapes that are shown and in the sound that
// follows; all of them are named, and nothing else is. 720 questions on each tuning with SPARETONE_STUDY=1.
func TestStudyOfResolving(t *testing.T) {
	d, total, moved := Resolve{}, 0, 0
	for _, tn := range fret.Tunings() {
		on := &neck.Instrument{Tuning: tn, Voices: synth.Voices(), Hand: fret.DefaultHand}
		rng := rand.New(rand.NewPCG(5, 55))
		targets := d.Targets(on)
		for n := range trial.StudyOf(18, 720) {
			target := targets[n%len(targets)].ID
			q, err := d.Ask(drills.Request{Target: target, On: on, Reach: float64(n%3) / 2, Rand: rng})
			if err != nil {
				t.Fatalf("%s: %s: %v", tn.Name, target, err)
			}
			total++
			moved += readLeads(t, q)
		}
	}
	t.Logf("%d questions, %d tones that want to move", total, moved)
	if moved < total {
		t.Errorf("%d tones in %d questions", moved, total)
	}
}

// readLeads checks how a chord resolves and returns how many strings sound a tendency tone.
func readLeads(t *testing.T, q *drills.Question) int {
	t.Helper()
	v := q.Solution()
	from, to := v.Shapes[0].Voicing, v.Shapes[1].Voicing
	heard, then := trial.Pitches(q.Sounds[1]), trial.Pitches(v.Asked[len(v.Asked)-1])
	if !slices.Equal(heard, from.Pitches()) || !slices.Equal(then, to.Pitches()) {
		t.Errorf("%s: %s to %s is not what sounds", q.Target, from.Shape, to.Shape)
	}
	root, strings_, named := from.Chord.Root, 0, []string{}
	for _, lead := range ledBy[q.Target] {
		tone, err := theory.ParseInterval(lead.tone)
		if err != nil {
			t.Fatal(err)
		}
		here := false
		for _, p := range heard {
			if (p.MIDI()-root.Class()-tone.Semitones)%12 != 0 {
				continue
			}
			here, strings_ = true, strings_+1
			n := slices.IndexFunc(then, func(g theory.Pitch) bool { return g.MIDI() == p.MIDI()+lead.steps })
			if n < 0 || (then[n].MIDI()-root.Class()-lead.to)%12 != 0 {
				t.Errorf("%s on %s, %s to %s: %s does not move as it should", q.Target, from.Tuning.Name, from.Shape, to.Shape, p)
			}
		}
		if here {
			named = append(named, root.Up(tone).String())
		}
	}
	var said []string
	for _, m := range moves.FindAllStringSubmatch(v.Lines[0].Screen(), -1) {
		said = append(said, m[1])
	}
	if !slices.Equal(said, named) {
		t.Errorf("%s, %s: %q names %v, and what wants to move is %v", q.Target, from.Shape, v.Lines[0], said, named)
	}
	if len(to.Missing()) > 0 || slices.ContainsFunc(to.Strings, func(s fret.StringTone) bool { return s.Foreign && s.Fret != fret.Muted }) {
		t.Errorf("%s, %s to %s is not the whole triad", q.Target, from.Shape, to.Shape)
	}
	if a, b := neck.LowestFret(from.Shape), neck.LowestFret(to.Shape); a > 0 && b > 0 && max(a-b, b-a) > 3 {
		t.Errorf("%s, %s to %s is out of the hand's reach", q.Target, from.Shape, to.Shape)
	}
	return strings_
}

// No question offers two ways that a chord really goes. What it really does beside the way it goes most strongly is
// common practice, no source, written down here once more.
func TestOneRealWay(t *testing.T) {
	real := map[string]string{
		"suspended-fourth":   "same|fourth higher",
		"suspended-second":   "same|fifth higher",
		"dominant":           "major triad a fourth|minor triad a fourth|major triad a semitone higher|minor triad a whole tone",
		"dominant-ninth":     "triad a fourth|major triad a semitone higher|minor triad a whole tone",
		"diminished":         "semitone higher|fourth higher",
		"diminished-seventh": "semitone higher|same",
	}
	on := trial.Ukulele(t)
	offered := map[string]map[string]int{} // by the choices as a whole, how often each is right
	trial.AskAll(t, Resolve{}, on, 20, func(q *drills.Question) {
		goes, all := regexp.MustCompile(real[q.Target]), []string{}
		n := 0
		for _, c := range q.Choices {
			all = append(all, c.Said.Screen())
			if goes.MatchString(c.Said.Screen()) {
				n++
			}
		}
		if n != 1 || !goes.MatchString(q.Expected().Said.Screen()) {
			t.Errorf("%s: of %v it goes %d ways", q.Target, all, n)
		}
		together := strings.Join(all, ", ")
		if offered[together] == nil {
			offered[together] = map[string]int{}
		}
		offered[together][q.Expected().ID]++
		if !strings.Contains(q.Prompt.Screen(), "most strongly") {
			t.Errorf("%s", q.Prompt)
		}
	})
	for together, right := range offered {
		if len(right) != 2 {
			t.Errorf("of %s the same is always right", together)
		}
	}
}
