using MixEngine.Service.Options;

namespace MixEngine.Service.Tests.Options;

public sealed class DefaultPathsTests
{
    private static readonly string Runtime = Path.GetTempPath();

    [Fact]
    public void The_home_variable_moves_data_and_socket_together()
    {
        var environment = Of(("MIXENGINE_HOME", "/h"), ("XDG_DATA_HOME", "/x"), ("XDG_RUNTIME_DIR", Runtime));
        Assert.Equal("/h", DefaultPaths.DataDirectory(environment));
        Assert.Equal("/h/run/service.sock", DefaultPaths.Socket(environment, "/h"));
    }

    [Fact]
    public void The_socket_variable_wins() =>
        Assert.Equal("/s.sock", DefaultPaths.Socket(Of(("MIXENGINE_SOCKET", "/s.sock"), ("MIXENGINE_HOME", "/h"), ("XDG_RUNTIME_DIR", Runtime)), "/h"));

    [Fact]
    public void The_runtime_folder_serves_where_it_exists()
    {
        Assert.Equal(Path.Combine(Runtime, "mixengine", "service.sock"), DefaultPaths.Socket(Of(("XDG_RUNTIME_DIR", Runtime)), "/d"));
        Assert.Equal("/d/run/service.sock", DefaultPaths.Socket(Of(("XDG_RUNTIME_DIR", "/no/such/folder")), "/d"));
        Assert.Equal("/d/run/service.sock", DefaultPaths.Socket(Of(("XDG_RUNTIME_DIR", "")), "/d"));
    }

    [Fact]
    public void Data_is_kept_where_the_system_keeps_it()
    {
        Assert.Equal("/x/mixengine", DefaultPaths.DataDirectory(Of(("XDG_DATA_HOME", "/x"))));
        Assert.EndsWith("mixengine", DefaultPaths.DataDirectory(Of()));
    }

    private static Func<string, string?> Of(params (string Name, string Value)[] variables) =>
        name => variables.FirstOrDefault(variable => variable.Name == name).Value;
}
