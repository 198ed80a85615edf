package progress

// Where the header of an SQLite file says what it is; all numbers big-endian. Source: the SQLite
// file format, section 1.3, https://www.sqlite.org/fileformat2.html.
const (
	headerSize      = 100
	pageSizeAt      = 16
	pagesAt         = 28
	userVersionAt   = 60
	applicationIDAt = 68
)

var magic = []byte("SQLite format 3\x00")
