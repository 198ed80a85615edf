// Package song holds songs of a player's own: charts as players write them, which key they are in, how each chord may be
// coloured, and the path of shapes that asks the least movement of a hand. It is pure, as package theory is.
package song
