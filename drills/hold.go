package drills

import (
	"math/rand/v2"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Hold is what questions are held to, as a lesson or a song says: chords, the shapes they are held in, and what one string makes of
// them. A kind of chord of which none is listed is asked on the roots of those that are. The zero Hold holds nothing back.
type Hold struct {
	Chords []HeldChord
	Moves  []HeldMove     // where a plain chord has any, it is changed by these alone
	Key    *theory.Key    // of what is asked in a key; nil for any
	Loop   []theory.Chord // of a song, as they come: in Key, rows of chords in which one is coloured are taken from it; nil for any
}

// HeldChord is a chord that is asked.
type HeldChord struct {
	theory.Chord
	Shapes []fret.Shape // it is asked in these; none for the easiest
}

// HeldMove is one string moved from a plain shape to a coloured one.
type HeldMove struct {
	Plain, Coloured theory.Chord
	From, To        fret.Shape
}

// IsZero reports whether nothing is held back.
func (h *Hold) IsZero() bool { return h == nil || len(h.Chords) == 0 && h.Key == nil }

// HeldTo returns the instrument with its questions held to something.
func (i *Instrument) HeldTo(h Hold) *Instrument {
	return &Instrument{Tuning: i.Tuning, Voices: i.Voices, Hand: i.Hand, hold: &h}
}

// isHeld reports whether chords are held to some.
func (i *Instrument) isHeld() bool { return i.hold != nil && len(i.hold.Chords) > 0 }

// roots returns the roots on which a kind of chord is asked: those of the chords that are listed of it, or of all.
func (h *Hold) roots(k *theory.Kind) []theory.Note {
	var own, all []theory.Note
	add := func(list *[]theory.Note, n theory.Note) {
		if !slices.ContainsFunc(*list, n.Same) {
			*list = append(*list, n)
		}
	}
	for _, c := range h.Chords {
		if add(&all, c.Root); c.Kind == k {
			add(&own, c.Root)
		}
	}
	if own == nil {
		return all
	}
	return own
}

// listed returns the chord that is listed, with the shapes it is asked in.
func (h *Hold) listed(c theory.Chord) (HeldChord, bool) {
	i := slices.IndexFunc(h.Chords, func(l HeldChord) bool { return l.Kind == c.Kind && l.Root.Same(c.Root) })
	if i < 0 {
		return HeldChord{}, false
	}
	return h.Chords[i], true
}

// allows reports whether a chord may be asked.
func (h *Hold) allows(c theory.Chord) bool {
	return slices.ContainsFunc(h.roots(c.Kind), c.Root.Same)
}

// rootsFor returns the roots on which a kind of chord is asked.
func (i *Instrument) rootsFor(k *theory.Kind) []theory.Note {
	if i.isHeld() {
		return i.hold.roots(k)
	}
	return rootsOf(k)
}

// held returns so many shapes of a chord that may be asked, the listed ones or else the easiest; 0 is all of them, and nil if it may
// not be asked. The neck is locked.
func (i *Instrument) held(c theory.Chord, most int) []held {
	if !i.isHeld() {
		return i.easiest(c, most)
	}
	if !i.hold.allows(c) {
		return nil
	}
	l, _ := i.hold.listed(c)
	if len(l.Shapes) == 0 {
		return i.easiest(c, most)
	}
	var out []held
	for _, s := range l.Shapes {
		_, _, effort, _ := fret.Finger(s)
		out = append(out, held{c, s, effort})
	}
	return out
}

// heldFirst returns the first shape of each chord of a kind that may be asked.
func (i *Instrument) heldFirst(k *theory.Kind) (first []held) {
	for _, root := range i.hold.roots(k) {
		if all := i.shapes(theory.NewChord(root, k)); len(all) > 0 {
			first = append(first, all[0])
		}
	}
	return first
}

// mayMove reports whether a plain shape may be changed so: by a move that is listed, where any is of that chord; else to a chord that
// may be asked.
func (i *Instrument) mayMove(c change) bool {
	if !i.isHeld() {
		return true
	}
	listed := false
	for _, m := range i.hold.Moves {
		if m.Plain.Kind == c.plain.Kind && m.Plain.Root.Same(c.plain.Root) {
			if listed = true; slices.Equal(m.From, c.From) && slices.Equal(m.To, c.To) {
				return true
			}
		}
	}
	return !listed && i.hold.allows(c.Chord)
}

// heldNames are the chords that stand beside one among names to choose from: those that are listed and sound otherwise.
func (i *Instrument) heldNames(beside fret.Voicing) (out []theory.Chord) {
	names := rightNames(beside)
	for _, c := range i.hold.Chords {
		if !isNamed(names, c.Chord) {
			out = append(out, c.Chord)
		}
	}
	return out
}

// heldKey returns the key in which a mode is asked: the one that is held to, or its relative. It is false for any key.
func (i *Instrument) heldKey(minor bool) (k theory.Key, ok bool) {
	if i.hold == nil || i.hold.Key == nil {
		return k, false
	}
	switch k = *i.hold.Key; {
	case k.Minor == minor:
	case minor:
		k = theory.Key{Tonic: k.Tonic.Down(theory.MinorThird), Minor: true}
	default:
		k = theory.Key{Tonic: k.Tonic.Up(theory.MinorThird)}
	}
	return k, true
}

// mostHeldNames is how many chords stand among names to choose from where chords are held to.
const mostHeldNames = 4

// amongHeld picks a shape among those that may be asked, and offers the names of others that may be; of a lone chord the kinds that
// it may be taken for. It returns no offer where nothing is held back.
func (shapeName) amongHeld(r Request, kinds []Target) (h held, offer func(fret.Voicing) []held) {
	if !r.On.isHeld() {
		return held{}, nil
	}
	all := r.On.shapesOf(mustKind(r.Target), r.Reach)
	if len(all) == 0 {
		return held{}, nil
	}
	h = all[r.Rand.IntN(len(all))]
	return h, func(v fret.Voicing) []held {
		chords := []theory.Chord{v.Chord}
		if others := r.On.heldNames(v); len(others) > 0 {
			chords = append(chords, someOf(others, mostHeldNames-1, r.Rand)...)
		} else {
			for _, k := range kinds {
				if k.ID != r.Target {
					chords = append(chords, theory.NewChord(v.Chord.Root, mustKind(k.ID)))
				}
			}
		}
		out := make([]held, len(chords))
		for n, c := range chords {
			out[n] = r.On.shapeLike(c, v, all)
		}
		return out
	}
}

// laysTried is how many times notes are laid out to find some in the key that is held to. Twelve keys come about equally often.
const laysTried = 150

// layHeld lays out the notes of a question about a key, in the key and of a chord that may be asked.
func (i *Instrument) layHeld(t keyTask, mostSigns int, rng *rand.Rand) (p laid, err error) {
	k, inKey := i.heldKey(t.minor)
	may := func(p *laid) bool {
		return (!inKey || p.key.Tonic.Same(k.Tonic)) && (!i.isHeld() || i.hold.allows(p.chord))
	}
	l := newLayout(t, mostSigns)
	if !slices.ContainsFunc(l.keys, func(p laid) bool { return may(&p) }) {
		return p, errNotTaught
	}
	for range laysTried {
		if p, err = l.pick(rng); err != nil || may(&p) {
			return p, err
		}
	}
	return p, errNotTaught
}

// errNotTaught is the error of a question about a key of which no chord may be asked.
var errNotTaught = say.Wrong("what is taught here has no such chord of a key")

// Easiest returns the shape of a chord that is asked first, false if there is none that a hand can hold.
func (i *Instrument) Easiest(c theory.Chord) (fret.Shape, bool) {
	all := i.shapes(c)
	if len(all) == 0 {
		return nil, false
	}
	return all[0].shape, true
}

// EasiestMove returns the move of one string that makes of a plain chord a coloured one and asks the least of the hand, false if
// there is none.
func (i *Instrument) EasiestMove(plain, coloured theory.Chord) (HeldMove, bool) {
	var best *change
	for _, c := range i.changes(plain) {
		if c.Chord.Kind == coloured.Kind && (best == nil || c.Effort < best.Effort) {
			best = &c
		}
	}
	if best == nil {
		return HeldMove{}, false
	}
	return HeldMove{Plain: plain, Coloured: coloured, From: best.From, To: best.To}, true
}

// rungsTried is how many questions are made on each rung to find out whether there always is one.
const rungsTried = 3

// CanAsk reports whether a drill always has a question for a target, whatever is picked by chance, on the first rungs as on the last.
func (i *Instrument) CanAsk(d Drill, target string, inPlay []string) bool {
	id := d.About().ID
	if !isTarget(d.Targets(i), target) {
		return false
	}
	if task, ok := keyTasks.of(target); ok && id == (keyAdd{}).About().ID {
		if k, inKey := i.heldKey(task.minor); inKey { // to look for such questions takes long
			return !i.isHeld() || i.hold.allows(task.in(k))
		}
	}
	for n := range Rungs(id, target) {
		at, _ := AtRung(id, target, n+1)
		for seed := range uint64(rungsTried) {
			r := Request{Target: target, On: i, InPlay: inPlay, Reach: at.Reach, Clarity: at.Clarity, Rand: QuestionRand(id, target, seed)}
			if _, err := d.Ask(r); err != nil {
				return false
			}
		}
	}
	return true
}
