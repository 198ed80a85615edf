// Package records has the command progress and those below it: what a progress file says, and how it is exported, taken in, kept alike
// with those of other machines, copied, mended and named.
package records
