namespace MixEngine.Storage.Tests;

public abstract class AccessKeyStoreContract : StoreContract
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    private readonly AccessKeyStore _keys;

    protected AccessKeyStoreContract(DatabasePlace place)
        : base(place) => _keys = new AccessKeyStore(Database);

    [Fact]
    public void A_key_comes_back_as_it_was_kept()
    {
        var key = new AccessKey("a1", Owner.Named("guild"), Scope.Write, "the club's tablet", Noon, null);
        _keys.Add(key, [1, 2, 3]);
        var found = _keys.Find("a1")!.Value;
        Assert.Equal(key, found.Key);
        Assert.Equal([1, 2, 3], found.Hash);
        Assert.Null(_keys.Find("a2"));
        Assert.Equal([key], _keys.List());
    }

    [Fact]
    public void A_key_that_expires_holds_until_that_moment_and_stays_in_the_list()
    {
        var key = new AccessKey("a1", Owner.Named("guild"), Scope.Write, "", Noon, null, Noon.AddDays(30));
        _keys.Add(key, [1]);
        Assert.Equal([key], _keys.List());
        var found = _keys.Find("a1")!.Value.Key;
        Assert.Equal(key, found);
        Assert.Equal((true, true, false), (found.Holds(Noon), found.Holds(Noon.AddDays(30).AddTicks(-1)), found.Holds(Noon.AddDays(30))));
        Assert.False(_keys.Revoke("a1", Noon)!.Holds(Noon));
    }

    [Fact]
    public void A_revoked_key_stays_in_the_list_with_the_first_moment()
    {
        var key = new AccessKey("a1", Owner.Named("guild"), Scope.Read, "", Noon, null);
        _keys.Add(key, [1]);
        Assert.Equal(Noon.AddHours(1), _keys.Revoke("a1", Noon.AddHours(1))!.Revoked);
        Assert.Equal(Noon.AddHours(1), _keys.Revoke("a1", Noon.AddHours(2))!.Revoked);
        Assert.Equal(Noon.AddHours(1), _keys.Find("a1")!.Value.Key.Revoked);
        Assert.Null(_keys.Revoke("a2", Noon));
    }
}
