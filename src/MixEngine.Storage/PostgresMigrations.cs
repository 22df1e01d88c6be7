namespace MixEngine.Storage;

/// <summary>
/// How the tables in PostgreSQL came to be, step by step. A step that was ever released is never edited: changes are new steps at the end.
/// What is put in order by a query is compared as it is in SQLite, byte by byte.
/// </summary>
internal static class PostgresMigrations
{
    /// <summary>Step i brings a database from version i to version i + 1; an empty database has version 0.</summary>
    public static IReadOnlyList<string> Steps { get; } =
    [
        // 1: All that SQLite had in its fourth version.
        """
        CREATE TABLE shelf (
            shelf_key BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
            owner TEXT NOT NULL,
            name TEXT NOT NULL,
            folded_name TEXT COLLATE "C" NOT NULL,
            revision BIGINT NOT NULL,
            UNIQUE (owner, folded_name)
        );
        CREATE TABLE paint (
            paint_key BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
            shelf_key BIGINT NOT NULL REFERENCES shelf (shelf_key) ON DELETE CASCADE,
            id TEXT NOT NULL,
            name TEXT NOT NULL,
            folded_name TEXT COLLATE "C" NOT NULL,
            range TEXT,
            kind TEXT NOT NULL CHECK (kind IN ('paint', 'medium', 'water')),
            opacity TEXT CHECK (opacity IN ('opaque', 'semi-opaque', 'semi-transparent', 'transparent')),
            finish TEXT CHECK (finish IN ('matt', 'satin', 'gloss')),
            drops_per_ml DOUBLE PRECISION,
            ml_left DOUBLE PRECISION,
            notes TEXT,
            UNIQUE (shelf_key, id),
            UNIQUE (shelf_key, folded_name)
        );
        CREATE TABLE paint_pigment (
            paint_key BIGINT NOT NULL REFERENCES paint (paint_key) ON DELETE CASCADE,
            place INTEGER NOT NULL,
            pigment TEXT NOT NULL,
            PRIMARY KEY (paint_key, place)
        );
        CREATE TABLE paint_color (
            paint_key BIGINT PRIMARY KEY REFERENCES paint (paint_key) ON DELETE CASCADE,
            color TEXT NOT NULL,
            illuminant TEXT NOT NULL,
            observer_degrees INTEGER NOT NULL
        );
        CREATE TABLE swatch (
            swatch_key BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
            shelf_key BIGINT NOT NULL REFERENCES shelf (shelf_key) ON DELETE CASCADE,
            id TEXT NOT NULL,
            color TEXT NOT NULL,
            illuminant TEXT NOT NULL,
            observer_degrees INTEGER NOT NULL,
            backing TEXT,
            backing_illuminant TEXT,
            backing_observer_degrees INTEGER,
            film TEXT,
            thickness_um DOUBLE PRECISION,
            coats INTEGER,
            dosing TEXT NOT NULL CHECK (dosing IN ('drops', 'weighed')),
            source TEXT CHECK (source IN ('instrument', 'photo', 'guess')),
            specular TEXT NOT NULL CHECK (specular IN ('not stated', 'excluded', 'included')),
            finish TEXT CHECK (finish IN ('matt', 'satin', 'gloss')),
            date TEXT,
            note TEXT,
            UNIQUE (shelf_key, id)
        );
        CREATE TABLE swatch_part (
            swatch_key BIGINT NOT NULL REFERENCES swatch (swatch_key) ON DELETE CASCADE,
            place INTEGER NOT NULL,
            paint TEXT NOT NULL,
            parts DOUBLE PRECISION NOT NULL,
            PRIMARY KEY (swatch_key, place)
        );
        CREATE TABLE batch (
            owner TEXT NOT NULL,
            batch_id TEXT NOT NULL,
            shelf_state TEXT NOT NULL,
            touched BIGINT NOT NULL,
            PRIMARY KEY (owner, batch_id)
        );
        CREATE TABLE batch_answer (
            owner TEXT NOT NULL,
            batch_id TEXT NOT NULL,
            item_key TEXT COLLATE "C" NOT NULL,
            item_hash BYTEA NOT NULL,
            answer BYTEA NOT NULL,
            acknowledged INTEGER NOT NULL,
            PRIMARY KEY (owner, batch_id, item_key),
            FOREIGN KEY (owner, batch_id) REFERENCES batch (owner, batch_id) ON DELETE CASCADE
        );
        CREATE TABLE scheme_run (
            run_key BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
            owner TEXT NOT NULL,
            name TEXT NOT NULL,
            made TEXT NOT NULL,
            engine_version TEXT NOT NULL,
            digest TEXT NOT NULL,
            request BYTEA NOT NULL,
            shelves TEXT NOT NULL,
            answer BYTEA NOT NULL,
            UNIQUE (owner, run_key)
        );
        CREATE TABLE made_mix (
            mix_key BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
            owner TEXT NOT NULL,
            made TEXT NOT NULL,
            run_key BIGINT,
            pot INTEGER,
            swatch TEXT,
            swatch_illuminant TEXT,
            swatch_observer_degrees INTEGER,
            notes TEXT,
            FOREIGN KEY (owner, run_key) REFERENCES scheme_run (owner, run_key)
        );
        CREATE INDEX made_mix_of_owner ON made_mix (owner, run_key);
        CREATE TABLE made_part (
            mix_key BIGINT NOT NULL REFERENCES made_mix (mix_key) ON DELETE CASCADE,
            place INTEGER NOT NULL,
            paint TEXT NOT NULL,
            drops DOUBLE PRECISION NOT NULL,
            batch TEXT,
            PRIMARY KEY (mix_key, place)
        );
        """,

        // 2: Runs and mixes are counted for each owner by itself, and one that is sent again under its request's id is kept once.
        """
        ALTER TABLE made_mix DROP CONSTRAINT made_mix_owner_run_key_fkey;
        ALTER TABLE scheme_run ALTER COLUMN run_key DROP IDENTITY, DROP CONSTRAINT scheme_run_pkey, DROP CONSTRAINT scheme_run_owner_run_key_key,
            ADD PRIMARY KEY (owner, run_key), ADD COLUMN request_id TEXT, ADD COLUMN request_hash BYTEA, ADD UNIQUE (owner, request_id);
        ALTER TABLE made_part DROP CONSTRAINT made_part_mix_key_fkey, DROP CONSTRAINT made_part_pkey, ADD COLUMN owner TEXT;
        UPDATE made_part SET owner = (SELECT owner FROM made_mix WHERE made_mix.mix_key = made_part.mix_key);
        ALTER TABLE made_mix ALTER COLUMN mix_key DROP IDENTITY, DROP CONSTRAINT made_mix_pkey,
            ADD PRIMARY KEY (owner, mix_key), ADD COLUMN request_id TEXT, ADD COLUMN request_hash BYTEA, ADD UNIQUE (owner, request_id),
            ADD FOREIGN KEY (owner, run_key) REFERENCES scheme_run (owner, run_key);
        ALTER TABLE made_part ADD PRIMARY KEY (owner, mix_key, place), ADD FOREIGN KEY (owner, mix_key) REFERENCES made_mix (owner, mix_key) ON DELETE CASCADE;
        """,

        // 3: Access keys. Of a key only a hash is kept.
        """
        CREATE TABLE access_key (
            key_id TEXT PRIMARY KEY,
            owner TEXT NOT NULL,
            scope TEXT NOT NULL CHECK (scope IN ('read', 'write', 'admin')),
            label TEXT NOT NULL,
            hash BYTEA NOT NULL,
            created TEXT NOT NULL,
            revoked TEXT
        );
        """,

        // 4: Keys that expire.
        "ALTER TABLE access_key ADD COLUMN expires TEXT;",

        // 5: Each answer of a batch has a number, by which a connection remembers in one bit that it has sent it.
        """
        ALTER TABLE batch ADD COLUMN last_number BIGINT NOT NULL DEFAULT 0;
        ALTER TABLE batch_answer ADD COLUMN number BIGINT NOT NULL DEFAULT 0;
        UPDATE batch_answer AS answer SET number = numbered.number
            FROM (SELECT owner, batch_id, item_key, row_number() OVER (PARTITION BY owner, batch_id ORDER BY item_key) AS number FROM batch_answer) AS numbered
            WHERE answer.owner = numbered.owner AND answer.batch_id = numbered.batch_id AND answer.item_key = numbered.item_key;
        UPDATE batch SET last_number = (SELECT count(*) FROM batch_answer AS answer WHERE answer.owner = batch.owner AND answer.batch_id = batch.batch_id);
        """,
    ];
}
