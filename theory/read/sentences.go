package read

import (
	"strconv"
	"unicode/utf8"

	"sparetone/theory"
	"sparetone/theory/say"
)

// Wording of this room, beside the facts that go into it: what is wrong with what was typed, and what would be right.

// unread are the sentences about texts that are not what they were read as.
var unread = map[Thing]string{
	ANote:      "{} is not a note: a note is a letter from A to G with # or b, such as F# or Bb",
	AKey:       "{} is not a key: write its tonic, and m or minor for a minor key, such as Eb or F#m",
	AnInterval: "{} is not an interval: write one such as m3, b3, minor third or fifth",
	ATone:      "{} is not a tone of a chord: write one such as R, b3, 5 or minor third",
}

// Say says what was read and what would be right.
func (e UnreadError) Say() say.Text { return say.Of(unread[e.As], say.Typed(e.Typed)) }

// Say says which keys there are.
func (e NoSignatureError) Say() say.Text {
	return say.Of("{} has no key signature: keys go from seven flats to seven sharps", say.Key(e.Key))
}

// Say says how notes are written.
func (NoNotesError) Say() say.Text {
	return say.Of("no notes: write them with spaces between, such as C E G")
}

// Say says how several notes are written.
func (e TogetherError) Say() say.Text {
	return say.Of("{} is more than one note: leave a space between notes", say.Typed(e.Typed))
}

// Say says how either B is written.
func (e GermanBError) Say() say.Text {
	return say.Of("{} beside {} could be B flat or B natural: write Bb, or H", clipped(e.B), clipped(e.Beside))
}

// Say says which two chords could be meant.
func (e TwoChordsError) Say() say.Text {
	return say.Of("{} could be {} or {}: write one of these", clipped(e.Typed), say.TypedChord(e.Could[0]), say.TypedChord(e.Could[1]))
}

// Say says what is wrong, where, and what is nearest.
func (e *SymbolError) Say() say.Text {
	if e.Nearest == "" {
		return say.Of("{}: character {}: {}", say.Typed(e.Symbol), say.Number(e.At), e.Problem)
	}
	return say.Of("{}: character {}: {}; the nearest we know is {}", say.Typed(e.Symbol), say.Number(e.At), e.Problem, say.Words(e.Nearest))
}

// clipped is what was typed, without quotation marks.
func clipped(typed string) say.Fact { return say.Foreign(theory.Clip(typed)) }

// What is wrong with a chord symbol as a text.
var (
	tooLongSymbol = say.Of("too long for a chord symbol")
	notUTF8       = say.Of("not valid UTF-8")
	control       = say.Of("a control character")
	invisible     = say.Of("an invisible character")
	noChordPlayed = say.Of("this says that no chord is played")
	empty         = say.Of("empty; a chord symbol starts with its root, such as C or F#")
	noRoot        = say.Of("a chord symbol starts with its root, a letter from A to G, such as C or F#")
	noBass        = say.Of("a bass note or a number should follow the slash, as in C/E or C6/9")
)

// What is wrong with brackets, commas and slashes in a suffix.
var (
	bracketInBracket = say.Of("a bracket within a bracket")
	bracketNotOpened = say.Of("a closing bracket without an opening one")
	bracketNotClosed = say.Of("the bracket is not closed")
	bracketEmpty     = say.Of("nothing stands before the closing bracket")
	shouldFollow     = say.Of("something should follow")
)

// What is wrong with a word or a number in a suffix.
var (
	plusSeven        = say.Of("+7 after m could raise the fifth or the seventh: write m7#5 or m(maj7)")
	leftOutNumber    = say.Of("the number of the tone left out should follow, as in no5")
	qualityTwice     = say.Of("the quality of the triad stands once, right after the root")
	noAlteration     = say.Of("an alteration is b5, #5, b9, #9, #11, b13 or the like")
	eitherSeventh    = say.Of("add7 could be either seventh: write 7 for the minor one, maj7 for the major one")
	addedNumber      = say.Of("a number should follow add, as in add9")
	suspendedBy      = say.Of("a chord is suspended by its second or its fourth: sus2, sus4")
	suspendedOnce    = say.Of("a chord is suspended once")
	majorMisplaced   = say.Of("maj should stand right after the root or before 7, 9, 11 or 13")
	fourthWhere      = say.Of("write add4 for a fourth beside the third, sus4 for one in its place")
	zero             = say.Of("0 is no number of a chord: for a diminished chord write dim, o or °")
	raisedLowered    = say.Of("augmented raises the fifth and b5 lowers it: write b5#5 if both sound, or one of them")
	loweredRaised    = say.Of("diminished lowers the fifth and #5 raises it: write m with the fifth that is meant, such as mb5 or m#5")
	suspendedNoThird = say.Of("a suspended chord has no third, so it is not diminished or augmented: write 7sus4 or #5sus4")
)

func sayNothingBefore(between byte) say.Text {
	return say.Of("nothing stands before the {}", say.Words(between))
}

func sayNoKind(suffix string, tones []theory.Interval) say.Text {
	var written []say.Words
	for _, i := range tones {
		written = append(written, say.Words(i.Degree()))
	}
	return say.Of("{} has the tones {}, which are no kind of chord we know", clipped(suffix), say.Row(written...))
}

func sayNoSuchTone(suffix string) say.Text {
	return say.Of("{}: there is no such tone to leave out", clipped(suffix))
}

func sayOneTone(suffix string) say.Text {
	return say.Of("{} leaves one tone, and a chord has two or more", clipped(suffix))
}

func sayNoNumber(n int) say.Text {
	return say.Of("{}: the number of a chord is 5, 6, 7, 9, 11, 13 or 6/9", say.Number(n))
}

// sayMeaningless is about the first character of what is left of a suffix.
func sayMeaningless(rest string) say.Text {
	r, _ := utf8.DecodeRuneInString(rest)
	return say.Of("{} says nothing in a chord symbol here", say.Foreign(strconv.QuoteRune(r)))
}
