package songs

import (
	"sparetone/drills/practice/songwork"
	"sparetone/theory/say"
)

// What is said of playing a song through.
var (
	noMoreAlong = say.Of("No more is listened for.")
	listenFirst = say.Of("Nothing listens: switch the microphone on first.")
)

// Wording of the places of songs.
const (
	askSongs     = "Type a number to go on with a song, or new to write one."
	askFirstSong = "Type new to write a song, or open and a file."
	askWriting   = "Type the song, a line at a time, and then done."
	leadWriting  = "Each line that is typed is a line of the song, an empty one as well."
	askSongPlace = "Type play to hear the song, next for the next chord, or the number of a bar."
)

var (
	noSongs      = say.Of("No song is kept yet. A song is written as players do: bars between |, or chords in [brackets] in the words, or above them.")
	aboutOpening = say.Of("A chart as text, or a MusicXML file.")
	aboutWriting = say.Of("Such as: | C | Am | F G | C |")
	aboutSheet   = say.Of("A sheet, if the file's name ends with .html, .pdf or .svg; the song alone as .txt, a lesson of it as .toml. Nothing is written over.")
)

func saySongs(n int) say.Text {
	if n == 1 {
		return say.Of("There is one song: 1.")
	}
	return say.Of("There are songs 1 to {}.", say.Number(n))
}

// countsIn says whether a song is counted in.
var countsIn = map[bool]say.Text{true: say.Of("It is counted in."), false: say.Of("It is not counted in.")}

// sayBar says which chords are in a bar; where there are none the one before goes on.
func sayBar(b songwork.SongBar, chords []say.Text) say.Text {
	if chords == nil {
		chords = append(chords, say.Of("goes on"))
	}
	if b.Section != "" {
		return say.Of("{}. Bar {}: {}.", say.Foreign(b.Section), say.Number(b.Number), say.Commas(chords...))
	}
	return say.Of("Bar {}: {}.", say.Number(b.Number), say.Commas(chords...))
}

// sayAtBar names the chord that is marked.
func sayAtBar(bar int, chord say.Text) say.Text {
	return say.Of("At bar {}: {}.", say.Number(bar), chord)
}

func sayBars(first, last int) say.Text {
	return say.Of("There are bars {} to {}.", say.Number(first), say.Number(last))
}

// askSheet is what is asked where a sheet is written.
var askSheet = say.Of("Where is the sheet to be written?")

// askSongFile is what is asked where a song is opened.
var askSongFile = say.Of("Which file?")

// sayTakesAway is said before a song is taken away.
func sayTakesAway(song say.Text) say.Text { return say.Of("Once more takes “{}” away.", song) }

func sayTakenAway(song say.Text) say.Text { return say.Of("“{}” is taken away.", song) }

// What the place is called where a song is written, and where it is changed.
const (
	titleWriting   = "Write a song"
	titleRewriting = "Change the song"
)

func sayLines(n int) say.Text { return say.Of("There are lines 1 to {}.", say.Number(n)) }

func sayAnew(line int, was string) say.Text {
	return say.Of("Line {} is written anew: {}", say.Number(line), say.Foreign(was))
}

func sayOut(line int) say.Text { return say.Of("Line {} is out.", say.Number(line)) }

// What places are called on the screen.
const (
	titleSongsOfYourOwn = "Songs of your own"
)
