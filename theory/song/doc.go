// Package song holds songs of a player's own: charts as players write them, what they play bar by bar, and which key they are in.
// It is pure, as package theory is.
package song
