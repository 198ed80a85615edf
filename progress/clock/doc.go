// Package clock judges when answers were given: whether a machine's clock can be believed, by the order of the answers
// alone, and how two histories of answers become one. It knows numbers of answers and times, and no file.
package clock
