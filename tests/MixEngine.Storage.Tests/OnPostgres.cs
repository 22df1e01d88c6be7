using MixEngine.Storage.Tests;

[assembly: AssemblyFixture(typeof(PostgresServer))]

namespace MixEngine.Storage.Tests;

// The contract, on PostgreSQL.
public sealed class PostgresOwnerTests(PostgresServer server) : OwnerContract(server.NewDatabase());

public sealed class PostgresShelfStoreTests(PostgresServer server) : ShelfStoreContract(server.NewDatabase());

public sealed class PostgresSwatchStoreTests(PostgresServer server) : SwatchStoreContract(server.NewDatabase());

public sealed class PostgresBatchStoreTests(PostgresServer server) : BatchStoreContract(server.NewDatabase());

public sealed class PostgresSchemeRunStoreTests(PostgresServer server) : SchemeRunStoreContract(server.NewDatabase());

public sealed class PostgresAccessKeyStoreTests(PostgresServer server) : AccessKeyStoreContract(server.NewDatabase());

public sealed class PostgresMixLogTests(PostgresServer server) : MixLogContract(server.NewDatabase());

public sealed class PostgresFailureTests(PostgresServer server) : FailureContract(server.NewDatabase());
