package played

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/progress"
	"sparetone/theory/fret"
)

// asking makes questions of a drill on an instrument.
func asking(t *testing.T, drill, tuning string, count int) (on *neck.Instrument, asked []*drills.Question) {
	t.Helper()
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := catalogue.ByID(drill)
	targets := d.Targets(on)
	for seed := uint64(1); len(asked) < count && seed < 500; seed++ {
		r := rand.New(rand.NewPCG(seed, 5))
		target := targets[r.IntN(len(targets))]
		q, err := d.Ask(drills.Request{Target: target.ID, On: on, Rand: r, Clarity: drills.Clearest})
		if err == nil && New(q, on, 0) != nil {
			asked = append(asked, q)
		}
	}
	if len(asked) < count {
		t.Fatalf("%s: %d questions that can be answered by playing, want %d", drill, len(asked), count)
	}
	return on, asked
}

// questions is how many are played of each drill on each instrument.
func questions() int {
	if os.Getenv("SPARETONE_STUDY") != "" {
		return 10
	}
	return 4
}

// plays plays what an attempt asks for until it has an answer, at the most so many times. play makes the sound of what is listened for.
func plays(t *testing.T, a Attempt, play func() []float64, most int) (last Came, said []string) {
	t.Helper()
	for range most {
		l := a.Listens()
		ear, err := NewEar(student.Rate, l)
		if err != nil {
			t.Fatal(err)
		}
		sound := play()
		for block := range slices.Chunk(sound, student.Rate/50) {
			for _, h := range ear.Feed(block) {
				came := a.Take(h)
				if !came.Says.IsZero() {
					said = append(said, came.Says.Screen())
				}
				if came.Answer != "" {
					return came, said
				}
				last = came
			}
			if last.Anew {
				last.Anew = false
				break
			}
		}
	}
	return last, said
}

// holds plays a shape as an attempt wants it.
func holds(s *student.Student, a Attempt, shape fret.Shape) func() []float64 {
	return func() []float64 {
		if order := a.Listens().Task.Order; order != nil {
			return s.Turn(shape, order)
		}
		return s.Strum(shape)
	}
}

// fault is a shape with one string a fret higher, or one muted.
func fault(t *fret.Tuning, s fret.Shape, r *rand.Rand) fret.Shape {
	out := slices.Clone(s)
	i := r.IntN(len(out))
	for out[i] == fret.Muted || slices.Equal(out, s) {
		i = r.IntN(len(out))
		switch {
		case out[i] == fret.Muted:
		case r.IntN(3) == 0:
			out[i] = fret.Muted
		default:
			out[i] = max(out[i], t.Start(i)) + 1
		}
	}
	return out
}

func TestShapesArePlayed(t *testing.T) {
	for _, drill := range []string{"build", "swap"} {
		for _, tuning := range []string{"ukulele", "guitar"} {
			on, asked := asking(t, drill, tuning, questions())
			s := student.New(on.Tuning, on.Voices[0], 1)
			r := rand.New(rand.NewPCG(3, 3))
			for n, q := range asked {
				shape, err := fret.ParseShape(q.Expected().Typed)
				if err != nil {
					t.Fatal(err)
				}
				plain := shape
				if n%2 == 1 {
					shape = fault(on.Tuning, shape, r)
				}
				a := New(q, on, 0)
				came, said := plays(t, a, holds(s, a, shape), 5)
				want, _ := q.Result(shape.String())
				if came.Right != (want == progress.Right) && came.Answer != "" || came.Answer != "" && came.Answer != shape.String() {
					t.Errorf("%s %s: %s played for %s is heard as %q, right %v: %q", drill, tuning, shape, plain, came.Answer, came.Right, said)
				}
				if n%2 == 0 && !came.Right {
					t.Errorf("%s %s: %s is not heard as right: %q", drill, tuning, shape, said)
				}
			}
		}
	}
}

// pluckTones plucks, of a shape whose tones are asked for, the strings that are it; wrong says that the last is plucked with the first.
func pluckTones(s *student.Student, a *tones, wrong bool) func() []float64 {
	return func() []float64 {
		var out []float64
		for n, tone := range a.asked {
			var order []int
			for _, st := range a.shape.Strings {
				if st.Fret != fret.Muted && (st.Interval == tone || wrong && n == 0 && st.Interval == a.asked[1]) && !(wrong && n == 1 && st.Interval == tone) {
					order = append(order, st.Number)
				}
			}
			if order == nil { // what somebody thinks is the tone is another
				for _, st := range a.shape.Strings {
					if st.Interval == a.asked[0] && order == nil {
						order = append(order, st.Number)
					}
				}
			}
			out = append(out, s.Turn(a.shape.Shape, order)...)
		}
		return out
	}
}

func TestTonesArePlucked(t *testing.T) {
	for _, tuning := range []string{"ukulele", "guitar"} {
		on, asked := asking(t, "shape-tones", tuning, questions())
		s := student.New(on.Tuning, on.Voices[0], 1)
		rights := 0
		for n, q := range asked {
			a := New(q, on, 0).(*tones)
			came, said := plays(t, a, pluckTones(s, a, n%2 == 1), 1)
			if n%2 == 0 && came.Answer == "" || n%2 == 1 && (came.Right || came.Answer == "") {
				t.Errorf("%s %s: %q, right %v, %q", q.Prompt.Screen(), q.Shown.Shape, came.Answer, came.Right, said)
			}
			if came.Right {
				rights++
			}
		}
		if rights < questions()/2-1 { // of half that are plucked right; one that is misheard is asked again
			t.Errorf("%s: %d of %d are heard as right", tuning, rights, questions()/2)
		}
	}
}

func TestNotesArePlayedAndSung(t *testing.T) {
	for _, drill := range []string{"interval-ear", "spell"} {
		on, asked := asking(t, drill, "ukulele", questions())
		s := student.New(on.Tuning, on.Voices[0], 1)
		for n, q := range asked {
			var midis []int
			switch {
			case q.Form == drills.Choose && drill == "spell": // which tone of a chord it is, by its root and the note
				root := q.Sounds[0].Plucked()[0].Pitch.MIDI()
				midis = []int{root, root + 2}
				if n%2 == 0 {
					midis[1] = q.Sounds[1].Plucked()[0].Pitch.MIDI()
				}
			case drill == "spell":
				for _, tone := range q.Answer.Tones() {
					midis = append(midis, 60+(tone.Class()+12)%12)
				}
			default:
				for _, sounding := range q.Sounds[0].Plucked() {
					midis = append(midis, sounding.Pitch.MIDI())
				}
			}
			if n%2 == 1 && (q.Form != drills.Choose || drill == "interval-ear") {
				midis[len(midis)-1]++
			}
			sung := n%4 > 1
			play := func() []float64 { return s.Notes(midis...) }
			if sung {
				for i := range midis {
					midis[i] -= 12
				}
				play = func() []float64 { return s.Hum(midis...) }
			}
			came, said := plays(t, New(q, on, 0), play, 1)
			if n%2 == 0 && !came.Right || n%2 == 1 && came.Right {
				t.Errorf("%s, %s: %v, sung %v: %q, right %v, %q", q.Prompt.Screen(), q.Expected().Typed, midis, sung, came.Answer, came.Right, said)
			}
		}
	}
}

// Of silence, noise, knocks and something like speech no answer comes, whatever is listened for.
func TestNoAnswerWithoutAnInstrument(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	const seconds = 12
	sounds := map[string][]float64{"silence": make([]float64, seconds*student.Rate), "noise": make([]float64, seconds*student.Rate), "knocks": make([]float64, seconds*student.Rate)}
	for i := range sounds["noise"] {
		sounds["noise"][i] = 0.05 * r.NormFloat64()
		sounds["knocks"][i] = 5e-4 * r.NormFloat64()
	}
	for at := 0.5; at < seconds-1; at += 0.7 {
		for range 5 {
			f, fall := 100*math.Pow(20, r.Float64()), 0.005+0.05*r.Float64()
			for i := range int(8 * fall * student.Rate) {
				if s := float64(i) / student.Rate; int(at*student.Rate)+i < len(sounds["knocks"]) {
					sounds["knocks"][int(at*student.Rate)+i] += 0.1 * math.Exp(-s/fall) * math.Sin(2*math.Pi*f*s)
				}
			}
		}
	}
	sounds["speech"] = spoken(r, seconds)
	for _, drill := range []string{"build", "shape-tones", "spell"} { // of shapes, of plucks, and of what may be sung
		on, asked := asking(t, drill, "ukulele", 1)
		for name, sound := range sounds {
			came, said := plays(t, New(asked[0], on, 0), func() []float64 { return sound }, 1)
			if came.Answer != "" {
				t.Errorf("%s: %s gives the answer %q: %q", drill, name, came.Answer, said)
			}
		}
	}
}

// spoken is a voice that speaks: pulses through formants that change with each syllable, gliding in pitch, with hisses between.
func spoken(r *rand.Rand, seconds int) []float64 {
	out := make([]float64, seconds*student.Rate)
	f, phase, gain, aim, hiss, glide := 120.0, 0.0, 0.0, 0.0, 0.0, 0.0
	var formants [3]float64
	for i := range out {
		if i%(student.Rate/8) == 0 {
			glide, aim, hiss = 5*r.NormFloat64(), 0, 0
			if r.Float64() < 0.75 {
				aim = 0.2 + 0.8*r.Float64()
				formants = [3]float64{250 + 600*r.Float64(), 800 + 1500*r.Float64(), 2200 + 1000*r.Float64()}
			}
			if r.Float64() < 0.25 {
				hiss = 0.1 * r.Float64()
			}
			if r.Float64() < 0.1 {
				f = 100 + 100*r.Float64()
			}
		}
		f = min(300, max(70, f*math.Exp2(glide/12/student.Rate)))
		gain += (aim - gain) * 60 / student.Rate
		phase += f / student.Rate
		var x float64
		for n := 1; n <= 14; n++ {
			a := 0.03
			for _, formant := range formants {
				d := (f*float64(n) - formant) / (0.12 * formant)
				a += 1 / (1 + d*d)
			}
			x += a / float64(n) * math.Sin(2*math.Pi*phase*float64(n))
		}
		out[i] = 0.1*gain*x + 0.1*hiss*r.NormFloat64() + 1e-4*r.NormFloat64()
	}
	return out
}
