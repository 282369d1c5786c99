// Package store keeps the record: immutable revisions of JSON documents, the
// list of jobs, and attachments. It knows nothing about what a document says.
//
// A store is one folder:
//
//	jounce.db             database (SQLite, with jounce.db-wal and -shm while open)
//	attachments/ab/ab…    files, named by the SHA-256 of their content
//	attachments/part/     files on their way in
//	copies/               the database as it was before each change of schema
//
// What it promises:
//
//   - A save that was acknowledged survives a crash of the program and a loss of
//     power; one that cannot be written to the disk returns an error.
//   - A save names the revision it was based on. Of two saves based on the same
//     one, exactly one is kept; the other gets a *job.Conflict.
//   - Nothing is ever overwritten or removed. Each revision seals the one before
//     it (job.Revision.Seal); every load checks the seal of what it hands out,
//     Verify walks a whole job.
//   - Opening changes nothing in a file that is damaged, that a newer program
//     wrote, or that is not a store.
//
// Several programs may have one store open at a time, on one machine. The folder
// must not be on a network share: the write-ahead log needs memory that all its
// users share.
//
// The SQL is one text for SQLite and PostgreSQL; only the files in migrations
// may differ, by suffix, and the one condition that looks for words (addWords in
// search.go), by what index those files make.
package store
