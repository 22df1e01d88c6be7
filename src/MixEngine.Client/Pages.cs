using System.Runtime.CompilerServices;
using MixEngine.V1;

namespace MixEngine.Client;

/// <summary>Lists that come in pages, from their beginning to their end.</summary>
public static class Pages
{
    /// <summary>All swatches that a request asks for, page after page.</summary>
    /// <param name="client">Whom to ask.</param>
    /// <param name="request">Which; its page size is that of one page, and its page token is where to begin.</param>
    /// <param name="cancel">Stops asking.</param>
    public static async IAsyncEnumerable<SwatchFit> ListAllAsync(this Swatches.SwatchesClient client, ListSwatchesRequest request, [EnumeratorCancellation] CancellationToken cancel = default)
    {
        var page = request.Clone();
        do
        {
            var answer = await client.ListSwatchesAsync(page, cancellationToken: cancel);
            foreach (var swatch in answer.Swatches)
            {
                yield return swatch;
            }

            page.PageToken = answer.NextPageToken;
        }
        while (page.PageToken.Length > 0);
    }
}
