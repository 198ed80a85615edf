// Package memory works out what a student still knows from the answers in the order they were given: the memory model
// (FSRS-6) and how it is fitted, what is weak, how fast somebody answers. It knows no file and no clock.
package memory
