namespace MixEngine.Service.Options;

/// <summary>The add-in for Excel, served over HTTPS together with the calls that it needs: Excel loads add-ins from nowhere else.</summary>
public sealed class ExcelOptions
{
    /// <summary>The folder of the built add-in, served under /excel. Null: only the calls are served.</summary>
    public string? Folder { get; init; }

    /// <summary>What is wrong with these options, in plain words.</summary>
    /// <param name="tls">The port that serves it.</param>
    public IEnumerable<OptionFault> Faults(TlsOptions tls)
    {
        if (Folder is null)
        {
            yield break;
        }

        if (tls.Https is null)
        {
            yield return new OptionFault("excel", "the add-in is served over HTTPS; name an address too, such as --https 127.0.0.1:7443.");
        }

        if (!Directory.Exists(Folder))
        {
            yield return new OptionFault("excel", $"there is no folder '{Folder}'. Build the add-in first: npm run build in clients/spreadsheet/excel.");
        }
    }
}
