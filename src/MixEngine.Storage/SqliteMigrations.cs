namespace MixEngine.Storage;

/// <summary>
/// How the tables of a SQLite file came to be, step by step. A step that was ever released is never edited: changes are new steps at the end.
/// </summary>
internal static class SqliteMigrations
{
    /// <summary>Step i brings a database from version i to version i + 1; an empty database has version 0.</summary>
    public static IReadOnlyList<string> Steps { get; } =
    [
        // 1: Shelves and the bottles on them. Evidence of a colour stands in a table of its own, for there will be other evidence beside it.
        """
        CREATE TABLE shelf (
            shelf_key INTEGER PRIMARY KEY,
            name TEXT NOT NULL,
            folded_name TEXT NOT NULL UNIQUE,
            revision INTEGER NOT NULL
        ) STRICT;
        CREATE TABLE paint (
            paint_key INTEGER PRIMARY KEY,
            shelf_key INTEGER NOT NULL REFERENCES shelf (shelf_key) ON DELETE CASCADE,
            id TEXT NOT NULL,
            name TEXT NOT NULL,
            folded_name TEXT NOT NULL,
            range TEXT,
            kind TEXT NOT NULL CHECK (kind IN ('paint', 'medium', 'water')),
            opacity TEXT CHECK (opacity IN ('opaque', 'semi-opaque', 'semi-transparent', 'transparent')),
            finish TEXT CHECK (finish IN ('matt', 'satin', 'gloss')),
            drops_per_ml REAL,
            ml_left REAL,
            notes TEXT,
            UNIQUE (shelf_key, id),
            UNIQUE (shelf_key, folded_name)
        ) STRICT;
        CREATE TABLE paint_pigment (
            paint_key INTEGER NOT NULL REFERENCES paint (paint_key) ON DELETE CASCADE,
            place INTEGER NOT NULL,
            pigment TEXT NOT NULL,
            PRIMARY KEY (paint_key, place)
        ) STRICT;
        CREATE TABLE paint_color (
            paint_key INTEGER PRIMARY KEY REFERENCES paint (paint_key) ON DELETE CASCADE,
            color TEXT NOT NULL,
            illuminant TEXT NOT NULL,
            observer_degrees INTEGER NOT NULL
        ) STRICT;
        """,

        // 2: Swatches as they were given. A part names its paint and does not refer to it: a swatch stays when the bottle goes.
        """
        CREATE TABLE swatch (
            swatch_key INTEGER PRIMARY KEY,
            shelf_key INTEGER NOT NULL REFERENCES shelf (shelf_key) ON DELETE CASCADE,
            id TEXT NOT NULL,
            color TEXT NOT NULL,
            illuminant TEXT NOT NULL,
            observer_degrees INTEGER NOT NULL,
            backing TEXT,
            backing_illuminant TEXT,
            backing_observer_degrees INTEGER,
            film TEXT,
            thickness_um REAL,
            coats INTEGER,
            dosing TEXT NOT NULL CHECK (dosing IN ('drops', 'weighed')),
            source TEXT CHECK (source IN ('instrument', 'photo', 'guess')),
            specular TEXT NOT NULL CHECK (specular IN ('not stated', 'excluded', 'included')),
            finish TEXT CHECK (finish IN ('matt', 'satin', 'gloss')),
            date TEXT,
            note TEXT,
            UNIQUE (shelf_key, id)
        ) STRICT;
        CREATE TABLE swatch_part (
            swatch_key INTEGER NOT NULL REFERENCES swatch (swatch_key) ON DELETE CASCADE,
            place INTEGER NOT NULL,
            paint TEXT NOT NULL,
            parts REAL NOT NULL,
            PRIMARY KEY (swatch_key, place)
        ) STRICT;
        """,

        // 3: Schemes: answers of batches until they are acknowledged, scheme runs with all they were made from, and mixes really made.
        """
        CREATE TABLE batch (
            batch_id TEXT PRIMARY KEY,
            shelf_state TEXT NOT NULL,
            touched INTEGER NOT NULL
        ) STRICT;
        CREATE TABLE batch_answer (
            batch_id TEXT NOT NULL REFERENCES batch (batch_id) ON DELETE CASCADE,
            item_key TEXT NOT NULL,
            item_hash BLOB NOT NULL,
            answer BLOB NOT NULL,
            acknowledged INTEGER NOT NULL,
            PRIMARY KEY (batch_id, item_key)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE scheme_run (
            run_key INTEGER PRIMARY KEY AUTOINCREMENT,
            name TEXT NOT NULL,
            made TEXT NOT NULL,
            engine_version TEXT NOT NULL,
            digest TEXT NOT NULL,
            request BLOB NOT NULL,
            shelves TEXT NOT NULL,
            answer BLOB NOT NULL
        ) STRICT;
        CREATE TABLE made_mix (
            mix_key INTEGER PRIMARY KEY AUTOINCREMENT,
            made TEXT NOT NULL,
            run_key INTEGER REFERENCES scheme_run (run_key),
            pot INTEGER,
            swatch TEXT,
            swatch_illuminant TEXT,
            swatch_observer_degrees INTEGER,
            notes TEXT
        ) STRICT;
        CREATE TABLE made_part (
            mix_key INTEGER NOT NULL REFERENCES made_mix (mix_key) ON DELETE CASCADE,
            place INTEGER NOT NULL,
            paint TEXT NOT NULL,
            drops REAL NOT NULL,
            batch TEXT,
            PRIMARY KEY (mix_key, place)
        ) STRICT;
        """,

        // 4: Everything belongs to an owner; what was there before, to the one at home. Names, batches and runs are an owner's own, so the tables are made anew around their rows.
        """
        CREATE TABLE new_shelf (
            shelf_key INTEGER PRIMARY KEY,
            owner TEXT NOT NULL,
            name TEXT NOT NULL,
            folded_name TEXT NOT NULL,
            revision INTEGER NOT NULL,
            UNIQUE (owner, folded_name)
        ) STRICT;
        INSERT INTO new_shelf (shelf_key, owner, name, folded_name, revision) SELECT shelf_key, 'home', name, folded_name, revision FROM shelf;
        DROP TABLE shelf;
        ALTER TABLE new_shelf RENAME TO shelf;

        CREATE TABLE new_batch (
            owner TEXT NOT NULL,
            batch_id TEXT NOT NULL,
            shelf_state TEXT NOT NULL,
            touched INTEGER NOT NULL,
            PRIMARY KEY (owner, batch_id)
        ) STRICT;
        INSERT INTO new_batch (owner, batch_id, shelf_state, touched) SELECT 'home', batch_id, shelf_state, touched FROM batch;
        DROP TABLE batch;
        ALTER TABLE new_batch RENAME TO batch;
        CREATE TABLE new_batch_answer (
            owner TEXT NOT NULL,
            batch_id TEXT NOT NULL,
            item_key TEXT NOT NULL,
            item_hash BLOB NOT NULL,
            answer BLOB NOT NULL,
            acknowledged INTEGER NOT NULL,
            PRIMARY KEY (owner, batch_id, item_key),
            FOREIGN KEY (owner, batch_id) REFERENCES batch (owner, batch_id) ON DELETE CASCADE
        ) STRICT, WITHOUT ROWID;
        INSERT INTO new_batch_answer (owner, batch_id, item_key, item_hash, answer, acknowledged)
            SELECT 'home', batch_id, item_key, item_hash, answer, acknowledged FROM batch_answer;
        DROP TABLE batch_answer;
        ALTER TABLE new_batch_answer RENAME TO batch_answer;

        CREATE TABLE new_scheme_run (
            run_key INTEGER PRIMARY KEY AUTOINCREMENT,
            owner TEXT NOT NULL,
            name TEXT NOT NULL,
            made TEXT NOT NULL,
            engine_version TEXT NOT NULL,
            digest TEXT NOT NULL,
            request BLOB NOT NULL,
            shelves TEXT NOT NULL,
            answer BLOB NOT NULL,
            UNIQUE (owner, run_key)
        ) STRICT;
        INSERT INTO new_scheme_run (run_key, owner, name, made, engine_version, digest, request, shelves, answer)
            SELECT run_key, 'home', name, made, engine_version, digest, request, shelves, answer FROM scheme_run;
        DROP TABLE scheme_run;
        ALTER TABLE new_scheme_run RENAME TO scheme_run;
        CREATE TABLE new_made_mix (
            mix_key INTEGER PRIMARY KEY AUTOINCREMENT,
            owner TEXT NOT NULL,
            made TEXT NOT NULL,
            run_key INTEGER,
            pot INTEGER,
            swatch TEXT,
            swatch_illuminant TEXT,
            swatch_observer_degrees INTEGER,
            notes TEXT,
            FOREIGN KEY (owner, run_key) REFERENCES scheme_run (owner, run_key)
        ) STRICT;
        INSERT INTO new_made_mix (mix_key, owner, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes)
            SELECT mix_key, 'home', made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes FROM made_mix;
        DROP TABLE made_mix;
        ALTER TABLE new_made_mix RENAME TO made_mix;
        CREATE INDEX made_mix_of_owner ON made_mix (owner, run_key);
        """,

        // 5: Runs and mixes are counted for each owner by itself, and one that is sent again under its request's id is kept once.
        """
        CREATE TABLE new_scheme_run (
            owner TEXT NOT NULL,
            run_key INTEGER NOT NULL,
            name TEXT NOT NULL,
            made TEXT NOT NULL,
            engine_version TEXT NOT NULL,
            digest TEXT NOT NULL,
            request BLOB NOT NULL,
            shelves TEXT NOT NULL,
            answer BLOB NOT NULL,
            request_id TEXT,
            request_hash BLOB,
            PRIMARY KEY (owner, run_key),
            UNIQUE (owner, request_id)
        ) STRICT;
        INSERT INTO new_scheme_run (owner, run_key, name, made, engine_version, digest, request, shelves, answer)
            SELECT owner, run_key, name, made, engine_version, digest, request, shelves, answer FROM scheme_run;
        DROP TABLE scheme_run;
        ALTER TABLE new_scheme_run RENAME TO scheme_run;

        CREATE TABLE new_made_part (
            owner TEXT NOT NULL,
            mix_key INTEGER NOT NULL,
            place INTEGER NOT NULL,
            paint TEXT NOT NULL,
            drops REAL NOT NULL,
            batch TEXT,
            PRIMARY KEY (owner, mix_key, place),
            FOREIGN KEY (owner, mix_key) REFERENCES made_mix (owner, mix_key) ON DELETE CASCADE
        ) STRICT;
        INSERT INTO new_made_part (owner, mix_key, place, paint, drops, batch)
            SELECT owner, mix_key, place, paint, drops, batch FROM made_part JOIN made_mix USING (mix_key);
        DROP TABLE made_part;
        ALTER TABLE new_made_part RENAME TO made_part;

        CREATE TABLE new_made_mix (
            owner TEXT NOT NULL,
            mix_key INTEGER NOT NULL,
            made TEXT NOT NULL,
            run_key INTEGER,
            pot INTEGER,
            swatch TEXT,
            swatch_illuminant TEXT,
            swatch_observer_degrees INTEGER,
            notes TEXT,
            request_id TEXT,
            request_hash BLOB,
            PRIMARY KEY (owner, mix_key),
            UNIQUE (owner, request_id),
            FOREIGN KEY (owner, run_key) REFERENCES scheme_run (owner, run_key)
        ) STRICT;
        INSERT INTO new_made_mix (owner, mix_key, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes)
            SELECT owner, mix_key, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes FROM made_mix;
        DROP TABLE made_mix;
        ALTER TABLE new_made_mix RENAME TO made_mix;
        CREATE INDEX made_mix_of_owner ON made_mix (owner, run_key);
        """,

        // 6: Access keys. Of a key only a hash is kept.
        """
        CREATE TABLE access_key (
            key_id TEXT PRIMARY KEY,
            owner TEXT NOT NULL,
            scope TEXT NOT NULL CHECK (scope IN ('read', 'write', 'admin')),
            label TEXT NOT NULL,
            hash BLOB NOT NULL,
            created TEXT NOT NULL,
            revoked TEXT
        ) STRICT;
        """,

        // 7: Keys that expire.
        "ALTER TABLE access_key ADD COLUMN expires TEXT;",

        // 8: Each answer of a batch has a number, by which a connection remembers in one bit that it has sent it.
        """
        ALTER TABLE batch ADD COLUMN last_number INTEGER NOT NULL DEFAULT 0;
        ALTER TABLE batch_answer ADD COLUMN number INTEGER NOT NULL DEFAULT 0;
        UPDATE batch_answer AS answer SET number = numbered.number
            FROM (SELECT owner, batch_id, item_key, row_number() OVER (PARTITION BY owner, batch_id ORDER BY item_key) AS number FROM batch_answer) AS numbered
            WHERE answer.owner = numbered.owner AND answer.batch_id = numbered.batch_id AND answer.item_key = numbered.item_key;
        UPDATE batch SET last_number = (SELECT count(*) FROM batch_answer AS answer WHERE answer.owner = batch.owner AND answer.batch_id = batch.batch_id);
        """,
    ];
}
