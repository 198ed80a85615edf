package progress

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"net/url"
	"path/filepath"
	"strings"
	"sync/atomic"

	"modernc.org/sqlite"
)

// place opens connections to the database at a path, which may change. An empty path is memory.
type place struct{ path atomic.Pointer[string] }

func newPlace(path string) *place {
	p := &place{}
	p.path.Store(&path)
	return p
}

// Connect is what database/sql asks for a new connection.
func (p *place) Connect(ctx context.Context) (driver.Conn, error) {
	c, err := sqlite.NewConnector(source(*p.path.Load()))
	if err != nil {
		return nil, err
	}
	return c.Connect(ctx)
}

// Driver is what database/sql asks for.
func (p *place) Driver() driver.Driver { return &sqlite.Driver{} }

// open returns a database of one connection, which is enough and keeps a reading from seeing half of
// what this program writes.
func (p *place) open() *sql.DB {
	db := sql.OpenDB(p)
	db.SetMaxOpenConns(1)
	return db
}

// source is how SQLite is told of a database that is there already, or of one in memory.
func source(path string) string {
	if path == "" {
		return ":memory:?_txlock=immediate"
	}
	at := url.URL{Scheme: "file", Path: "/" + strings.TrimPrefix(filepath.ToSlash(path), "/")} // file:///C:/… on Windows
	at.RawQuery = url.Values{
		"mode":    {"rw"},
		"_txlock": {"immediate"},
		"_pragma": {"busy_timeout(10000)", "synchronous(FULL)", "foreign_keys(ON)"},
	}.Encode()
	return at.String()
}
