// Package pages reads a progress file as it lies on the disk, without SQLite: the file, its log over it, and the trees in both.
package pages
