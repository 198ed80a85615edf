// Package exchange writes exports, takes them in and takes that back, within a transaction that it is given.
package exchange
