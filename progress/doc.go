// Package progress has the values that keep what a student has done: an answer, its result, a session, a practice day. The
// rooms in it keep them (store, tables), work out what is still known (memory, clock) and plan which ten minutes come next
// (plan).
//
// It knows items by their ids, with results and times, and never what an item means. An id is put
// together by the caller from what is drilled, the target and the instrument, such as
// chord-ear/dominant/ukulele; here it is only a string.
//
// What is kept is every session, every answer and the settings. All the rest (what is remembered,
// when it comes back, what it is mistaken for, the student's pace) is derived from the answers in
// the order they were given, is kept in tables only to be quick, and can be made again.
package progress
