-- Words are looked up in an index of every three characters in a row (FTS5, trigram), so that a word is found by
-- any part of it. The texts are folded already; the index neither folds nor keeps them again.

-- The index names a row by its number, which VACUUM keeps only where it is a column.
CREATE TABLE word_numbered (
    number     INTEGER NOT NULL PRIMARY KEY,
    job        TEXT    NOT NULL UNIQUE REFERENCES job (id),
    folded     TEXT    NOT NULL              -- the words of all passages, folded, each once; then their characters
) STRICT;

-- Two blanks, so that every character begins three.
INSERT INTO word_numbered (job, folded) SELECT job, folded || '  ' FROM word ORDER BY job;
DROP TABLE word;
ALTER TABLE word_numbered RENAME TO word;

-- From number to job without reading the texts.
CREATE INDEX word_by_number ON word (number, job);

CREATE VIRTUAL TABLE word_index USING fts5(folded, content = 'word', content_rowid = 'number', tokenize = 'trigram case_sensitive 1');
INSERT INTO word_index (word_index) VALUES ('rebuild');
-- What the index has, for words of two characters: the three that begin with them.
CREATE VIRTUAL TABLE word_gram USING fts5vocab(word_index, row);

-- Behind the words come their characters, each once between marks, for words of one character.
WITH letter (c) AS MATERIALIZED (SELECT DISTINCT substr(term, 1, 1) FROM word_gram WHERE term NOT LIKE ' %')
UPDATE word SET folded = rtrim(folded, ' ') || ' ' || char(31) || (SELECT coalesce(group_concat(c, char(31)), '') FROM letter WHERE instr(word.folded, c) > 0) || char(31);
INSERT INTO word_index (word_index) VALUES ('rebuild');

CREATE TRIGGER word_added AFTER INSERT ON word BEGIN
    INSERT INTO word_index (rowid, folded) VALUES (new.number, new.folded);
END;
CREATE TRIGGER word_changed AFTER UPDATE ON word BEGIN
    INSERT INTO word_index (word_index, rowid, folded) VALUES ('delete', old.number, old.folded);
    INSERT INTO word_index (rowid, folded) VALUES (new.number, new.folded);
END;
CREATE TRIGGER word_gone AFTER DELETE ON word BEGIN
    INSERT INTO word_index (word_index, rowid, folded) VALUES ('delete', old.number, old.folded);
END;

-- Counts by state read this alone.
CREATE INDEX job_by_state ON job (listed, state, id);
