// Package class looks at a class as a whole: it reads the files that students hand in, one student at a time, and says how each is
// doing, what the class is weak at, which lesson would help whom, and what the numbers cannot show. Nothing is merged into anybody's
// progress file.
package class
