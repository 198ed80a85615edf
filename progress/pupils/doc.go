// Package pupils has simulated students, and teachers who choose what to ask them, to find out what the planner is worth. The
// program does not use it.
package pupils
