// Version 1 of the season file: the one table, to which rows are only ever added.
// Times are text, RFC 3339 in UTC; body is the JSON that wire writes; check_sum covers the other columns, so that a
// value changed by a failing disk or by another program is noticed instead of believed.

#include "logbook/detail/migrations.h"

namespace redd::logbook {

const Migration migration_0001_records{1, R"sql(
CREATE TABLE records (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  at         TEXT NOT NULL,
  logged_at  TEXT NOT NULL,
  author     TEXT NOT NULL,
  kind       TEXT NOT NULL,
  supersedes INTEGER REFERENCES records (id),
  entry_key  TEXT UNIQUE,
  body       TEXT NOT NULL CHECK (substr(body, 1, 1) = '{'),
  check_sum  TEXT NOT NULL
) STRICT;

CREATE TRIGGER records_are_never_changed BEFORE UPDATE ON records
BEGIN
  SELECT RAISE(ABORT, 'records are never changed: add a correction instead');
END;

CREATE TRIGGER records_are_never_removed BEFORE DELETE ON records
BEGIN
  SELECT RAISE(ABORT, 'records are never removed: add an undo instead');
END;

-- INSERT OR REPLACE removes the old row without asking the trigger above.
CREATE TRIGGER records_are_never_replaced BEFORE INSERT ON records
WHEN EXISTS (SELECT 1 FROM records WHERE id = NEW.id OR entry_key = NEW.entry_key)
BEGIN
  SELECT RAISE(ABORT, 'records are never replaced');
END;
)sql"};

}  // namespace redd::logbook
