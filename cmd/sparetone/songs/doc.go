// Package songs has the command song: a chart arranged, printed, played and written as a sheet, MusicXML, MIDI or sound.
package songs
