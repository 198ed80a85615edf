// Package tables is what a progress file holds: its schema, the rows of answers, sessions and settings, each under seal, and
// the tables of what is derived from the answers. It works within a transaction that it is given, and knows no path.
package tables
