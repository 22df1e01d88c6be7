namespace MixEngine.Core;

/// <summary>What to take care of, in plain words. The maker's safety sheet and local rules always go before it.</summary>
/// <param name="About">A paint, a pigment, or a step of the work.</param>
/// <param name="Words">What to do.</param>
public sealed record Caution(string About, string Words)
{
    /// <summary>Stands at the end of every list of cautions.</summary>
    public const string Deferring = "These are the usual precautions of the trade, not a safety assessment: the maker's safety data sheet and your local rules come first.";
}
