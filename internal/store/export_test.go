package store

import (
	"database/sql"
	"io/fs"
)

// Pools gives tests the pools of a store: writing and reading.
func (s *Store) Pools() (write, read *sql.DB) { return s.write, s.read }

// WithMigrations opens with other schema steps.
func WithMigrations(o Options, steps fs.FS) Options {
	o.migrations = steps
	return o
}

// Migrations are the embedded schema steps.
func Migrations() fs.FS {
	steps, _ := fs.Sub(migrationFiles, "migrations")
	return steps
}

// BackupDSN is the address of the connection that copies.
func BackupDSN(file string) string { return backupDSN(file) }

// Fold is the form that a search compares texts in.
func Fold(text string) string { return fold(text) }
