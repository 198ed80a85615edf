// Package command is what all commands share: the options that several have, input that a signal interrupts, output as text or
// JSON, the progress file, and what the program ends with.
package command
