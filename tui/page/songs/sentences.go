package songs

import "sparetone/theory/say"

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
	noSongs      = say.Of("None is kept yet. A song is written as players do: bars between |, or chords in [brackets] in the words, or above them.")
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
