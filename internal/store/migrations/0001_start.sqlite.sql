-- Documents stand in body, apart from job, so that a list of jobs reads no documents.

PRAGMA application_id = 1246643013; -- "JNCE": this file is a Jounce store

CREATE TABLE job (
    id         TEXT    NOT NULL PRIMARY KEY,
    listed     INTEGER NOT NULL,             -- 0 for the shop's own document
    revision   INTEGER NOT NULL,             -- number of the newest
    anchor     INTEGER NOT NULL,             -- the revision the next one is packed against
    digest     TEXT    NOT NULL,             -- of the newest revision
    author     TEXT    NOT NULL,             -- of the newest revision
    at         INTEGER NOT NULL,             -- of the newest revision, microseconds UTC
    name       TEXT    NOT NULL,
    state      TEXT    NOT NULL,
    due        TEXT    NOT NULL,             -- YYYY-MM-DD; 9999-12-31 when nothing was promised
    summary    TEXT    NOT NULL,             -- JSON for the list, or empty
    job_key    TEXT    NOT NULL,             -- id, ordered by the numbers in it
    name_key   TEXT    NOT NULL              -- name, folded
) STRICT;

CREATE INDEX job_by_change ON job (listed, at, id);
CREATE INDEX job_by_job    ON job (listed, job_key, id);
CREATE INDEX job_by_name   ON job (listed, name_key, id);
CREATE INDEX job_by_due    ON job (listed, due, id);

CREATE TABLE revision (
    job        TEXT    NOT NULL REFERENCES job (id),
    number     INTEGER NOT NULL,
    author     TEXT    NOT NULL,
    at         INTEGER NOT NULL,             -- microseconds UTC
    note       TEXT    NOT NULL,
    previous   TEXT    NOT NULL,             -- digest of the revision before, empty for the first
    digest     TEXT    NOT NULL,
    PRIMARY KEY (job, number)
) STRICT;

CREATE TABLE body (
    job        TEXT    NOT NULL,
    number     INTEGER NOT NULL,
    anchor     INTEGER NOT NULL,             -- equal to number: packed alone; else packed against that one
    size       INTEGER NOT NULL,             -- bytes, unpacked
    content    BLOB    NOT NULL,             -- zstd
    PRIMARY KEY (job, number),
    FOREIGN KEY (job, number) REFERENCES revision (job, number)
) STRICT;

CREATE TABLE word (
    job        TEXT    NOT NULL PRIMARY KEY REFERENCES job (id),
    folded     TEXT    NOT NULL              -- the words of all passages, folded, each once
) STRICT;

CREATE TABLE passage (
    job        TEXT    NOT NULL PRIMARY KEY REFERENCES job (id),
    content    TEXT    NOT NULL              -- JSON: the passages as typed, with their places
) STRICT;

CREATE TABLE attachment (
    job        TEXT    NOT NULL REFERENCES job (id),
    sha256     TEXT    NOT NULL,
    name       TEXT    NOT NULL,
    media      TEXT    NOT NULL,
    size       INTEGER NOT NULL,             -- bytes
    at         INTEGER NOT NULL,             -- microseconds UTC
    PRIMARY KEY (job, sha256)
) STRICT;

CREATE TABLE counter (
    name       TEXT    NOT NULL PRIMARY KEY,
    value      INTEGER NOT NULL              -- the last one given out
) STRICT;

INSERT INTO counter (name, value) VALUES ('job', 0);
