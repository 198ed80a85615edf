// Package rescue reads what can still be read of a damaged progress file, and pours it into an empty one.
package rescue
