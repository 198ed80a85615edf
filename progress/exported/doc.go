// Package exported says how sessions, songs and answers are written down to be taken elsewhere. As JSON lines there is an object a
// line, of the kind session, song or answer; as CSV (RFC 4180) a row for each answer, and sessions and songs are left out. Fields
// may come in any order, and ones that are not known are passed over. Both ask for the same fields of an answer, and say the same
// of one that is wrong.
package exported
