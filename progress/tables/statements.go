package tables

import (
	"context"
	"database/sql/driver"
	"errors"
)

// mostStatements is how many statements a connection keeps. There are fewer than a hundred in the program; those
// made up as it runs must not fill memory.
const mostStatements = 200

// opened is what SQLite's connections can do, of which statements asks some.
type opened interface {
	driver.Conn
	driver.ConnBeginTx
	driver.ConnPrepareContext
	driver.SessionResetter
	driver.Validator
	Serialize() ([]byte, error)
	Deserialize([]byte) error
}

// statements is a connection that keeps the statements it was given, since to read one again takes SQLite
// longer than to do most of them (BenchmarkStatements). One that is being read from is not given to another.
type statements struct {
	opened
	kept map[string]driver.Stmt
}

func newStatements(c opened) *statements {
	return &statements{opened: c, kept: map[string]driver.Stmt{}}
}

// take returns the statement of a query, which nobody else has until it is put back.
func (s *statements) take(ctx context.Context, query string) (driver.Stmt, error) {
	if stmt, ok := s.kept[query]; ok {
		delete(s.kept, query)
		return stmt, nil
	}
	return s.PrepareContext(ctx, query)
}

// put keeps a statement that was taken.
func (s *statements) put(query string, stmt driver.Stmt) error {
	if _, ok := s.kept[query]; ok {
		return stmt.Close()
	}
	if len(s.kept) >= mostStatements {
		if err := s.forget(); err != nil {
			return errors.Join(err, stmt.Close())
		}
	}
	s.kept[query] = stmt
	return nil
}

// forget closes all statements that are kept.
func (s *statements) forget() (err error) {
	for query, stmt := range s.kept {
		err = errors.Join(err, stmt.Close())
		delete(s.kept, query)
	}
	return err
}

// ExecContext is what database/sql asks to do something.
func (s *statements) ExecContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Result, error) {
	stmt, err := s.take(ctx, query)
	if err != nil {
		return nil, err
	}
	done, err := stmt.(driver.StmtExecContext).ExecContext(ctx, args)
	if err != nil {
		stmt.Close() // one that has failed is not used again
		return nil, err
	}
	return done, s.put(query, stmt)
}

// QueryContext is what database/sql asks to read something.
func (s *statements) QueryContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Rows, error) {
	stmt, err := s.take(ctx, query)
	if err != nil {
		return nil, err
	}
	rows, err := stmt.(driver.StmtQueryContext).QueryContext(ctx, args)
	if err != nil {
		stmt.Close()
		return nil, err
	}
	return &statementRows{Rows: rows, put: func() error { return s.put(query, stmt) }}, nil
}

// Close closes the connection and what it kept.
func (s *statements) Close() error {
	return errors.Join(s.forget(), s.opened.Close())
}

// statementRows is what is read by a statement, which is put back when that has ended.
type statementRows struct {
	driver.Rows
	put func() error
}

func (r *statementRows) Close() error {
	if r.put == nil {
		return nil
	}
	put := r.put
	r.put = nil
	return errors.Join(r.Rows.Close(), put())
}
