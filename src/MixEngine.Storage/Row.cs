using System.Data.Common;

namespace MixEngine.Storage;

/// <summary>A row of an answer, read column by column; valid until the next one is read.</summary>
internal readonly struct Row(DbDataReader reader, Database database)
{
    public long Long(int column) => reader.GetInt64(column);

    public int Int(int column) => checked((int)reader.GetInt64(column));

    public double Number(int column) => reader.GetDouble(column);

    public string Text(int column) => database.FromStored(reader.GetString(column));

    public byte[] Bytes(int column) => (byte[])reader.GetValue(column);

    public long? LongOrNull(int column) => reader.IsDBNull(column) ? null : Long(column);

    public int? IntOrNull(int column) => reader.IsDBNull(column) ? null : Int(column);

    public double? NumberOrNull(int column) => reader.IsDBNull(column) ? null : Number(column);

    public string? TextOrNull(int column) => reader.IsDBNull(column) ? null : Text(column);
}
