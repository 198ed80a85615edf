// Package store is the progress file: opened, practised in, followed where it goes, copied, restored, rescued, exported and
// imported. What is in it lies in tables; this room has the file, its deeds and what may befall it.
package store
