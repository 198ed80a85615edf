// Package teaching has the commands lesson and class: what a teacher sets, what students hand in, and how they are doing.
package teaching
