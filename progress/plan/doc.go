// Package plan chooses what is asked in a session, and says why. It works on what memory knows, and never on a file.
package plan
