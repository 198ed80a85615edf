package tables

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"

	"modernc.org/sqlite"
)

// Connector opens connections to the database at a path, which may change. An empty path is memory.
type Connector struct {
	Path  atomic.Pointer[string]
	still bool   // nobody writes to it: it is only read, without a lock or a log
	Bytes []byte // what is in memory from the start
}

func NewConnector(path string) *Connector {
	c := &Connector{}
	c.Path.Store(&path)
	return c
}

// NewStillConnector is a connector to a file that nobody writes to.
func NewStillConnector(path string) *Connector {
	c := NewConnector(path)
	c.still = true
	return c
}

// Connect is what database/sql asks for a new connection.
func (c *Connector) Connect(ctx context.Context) (driver.Conn, error) {
	one, err := sqlite.NewConnector(source(*c.Path.Load(), c.still))
	if err != nil {
		return nil, err
	}
	raw, err := one.Connect(ctx)
	if err != nil {
		return nil, err
	}
	conn := newStatements(raw.(opened))
	if c.Bytes == nil || *c.Path.Load() != "" { // practice in memory may go on in a file
		return conn, nil
	}
	if err := conn.Deserialize(c.Bytes); err != nil {
		conn.Close()
		return nil, err
	}
	return conn, nil
}

// Driver is what database/sql asks for.
func (c *Connector) Driver() driver.Driver { return &sqlite.Driver{} }

// Open returns a database of one connection, which is enough and keeps a reading from seeing half of
// what this program writes.
func (c *Connector) Open() *sql.DB {
	db := sql.OpenDB(c)
	db.SetMaxOpenConns(1)
	return db
}

// source is how SQLite is told of a database that is there already, or of one in memory.
func source(path string, still bool) string {
	if path == "" {
		return ":memory:?_txlock=immediate"
	}
	at := url.URL{Scheme: "file", Path: "/" + strings.TrimPrefix(filepath.ToSlash(path), "/")} // file:///C:/… on Windows
	query := url.Values{
		"mode":    {"rw"},
		"_txlock": {"immediate"},
		"_pragma": {"busy_timeout(10000)", "synchronous(FULL)", "foreign_keys(ON)", "trusted_schema(OFF)", "cell_size_check(ON)"},
	}
	if still {
		query["mode"], query["immutable"] = []string{"ro"}, []string{"1"}
	}
	at.RawQuery = query.Encode()
	return at.String()
}

// longestChain is how many symbolic links may lead to a progress file.
const longestChain = 40

// Resolve returns where a progress file really lies, behind symbolic links, because its log lies there too.
// Nothing need be there yet.
func Resolve(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	for range longestChain {
		to, err := os.Readlink(path)
		if err != nil {
			return path, nil // no link
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", fmt.Errorf("%s: a circle of symbolic links", path)
}
