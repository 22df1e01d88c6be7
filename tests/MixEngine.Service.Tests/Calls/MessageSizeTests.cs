using System.Globalization;
using System.Net;
using System.Text;
using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Calls;

/// <summary>Case 17: what is too large is refused by its size and the limit, and what is large is not.</summary>
public sealed class MessageSizeTests(TestService service) : IClassFixture<TestService>
{
    private const int Limit = 16 << 20;

    [Fact]
    public void A_table_of_sixteen_mebibytes_is_read()
    {
        var table = new StringBuilder("name,hex,notes\n");
        for (var i = 0; table.Length < Limit - 4100; i++)
        {
            table.Append(CultureInfo.InvariantCulture, $"paint {i},#334455,{new string('x', 3900)}\n");
        }

        var answer = service.Import("big", table.ToString());
        Assert.True(answer.Added.Count > 4000);
    }

    [Fact]
    public void Thousands_of_spectra_in_one_table_are_read()
    {
        // 5,000 of 401 bands, as instruments write them.
        var table = new StringBuilder("name," + string.Join(',', Enumerable.Range(330, 401).Select(nm => $"{nm} nm")) + "\n");
        var row = string.Join(',', Enumerable.Range(0, 401).Select(band => (0.05 + band / 500.0).ToString("0.000", CultureInfo.InvariantCulture)));
        for (var i = 0; i < 5000; i++)
        {
            table.Append(CultureInfo.InvariantCulture, $"spectrum {i},{row}\n");
        }

        var answer = service.Import("spectra", table.ToString());
        Assert.Equal(5000, answer.Added.Count);
    }

    [Theory]
    [InlineData(Limit + 1)]
    [InlineData(2 * Limit)]
    public async Task A_table_above_the_limit_is_refused_by_its_size(int bytes)
    {
        var request = new ImportShelfRequest { Shelf = "too-big", Content = UnsafeByteOperations.UnsafeWrap(new byte[bytes]) };
        var refusal = await Assert.ThrowsAsync<RpcException>(() => service.Shelves.ImportShelfAsync(request).ResponseAsync);
        Assert.Contains((refusal.StatusCode == StatusCode.InvalidArgument ? bytes : request.CalculateSize()).ToString(CultureInfo.InvariantCulture), refusal.Status.Detail);
        Assert.Contains("16 MiB", refusal.Status.Detail);
        Assert.NotNull(refusal.GetRpcStatus()!.GetDetail<BadRequest>());
    }

    [Fact]
    public async Task The_same_over_json()
    {
        var content = new byte[Limit + 1];
        using var request = new StringContent($$"""{"content": "{{Convert.ToBase64String(content)}}"}""", Encoding.UTF8, "application/json");
        using var answer = await service.Http.PostAsync("/v1/shelves/too-big:import", request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains($"{Limit + 1} bytes", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_body_that_is_far_too_large_is_refused_by_its_size_before_it_is_read()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/shelves/too-big:import") { Content = new ByteArrayContent(new byte[4 * Limit]) };
        request.Content.Headers.ContentType = new("application/json");
        request.Headers.ExpectContinue = true;
        using var answer = await service.Http.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains($"{4 * Limit} bytes; at most 16 MiB", text);
    }
}
