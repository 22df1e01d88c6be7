namespace MixEngine.Storage.Tests;

// The contract, on SQLite.
public sealed class SqliteOwnerTests() : OwnerContract(new SqlitePlace());

public sealed class SqliteShelfStoreTests() : ShelfStoreContract(new SqlitePlace());

public sealed class SqliteSwatchStoreTests() : SwatchStoreContract(new SqlitePlace());

public sealed class SqliteBatchStoreTests() : BatchStoreContract(new SqlitePlace());

public sealed class SqliteSchemeRunStoreTests() : SchemeRunStoreContract(new SqlitePlace());

public sealed class SqliteAccessKeyStoreTests() : AccessKeyStoreContract(new SqlitePlace());

public sealed class SqliteMixLogTests() : MixLogContract(new SqlitePlace());

public sealed class SqliteFailureTests() : FailureContract(new SqlitePlace());
