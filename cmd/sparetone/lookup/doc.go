// Package lookup has the commands that answer questions about chords, shapes, swaps and tunings, typed or heard.
package lookup
