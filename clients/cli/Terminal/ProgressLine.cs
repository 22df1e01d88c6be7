namespace MixEngine.Cli.Terminal;

/// <summary>How far some work is: a bar on a terminal, a line for each tenth through a pipe. It goes to standard error, for standard output is the answer.</summary>
internal sealed class ProgressLine(TextWriter output, bool isPiped) : IDisposable
{
    private const int BarWidth = 30;
    private string _doing = "";
    private int _tenth = -1;
    private int _shown;

    public void Show(string doing, int done, int of)
    {
        if (isPiped)
        {
            // Once for each thing that is done, and for each tenth of it.
            int tenth = of > 0 ? 10 * done / of : 0;
            if (doing != _doing || tenth > _tenth)
            {
                output.WriteLine(of > 0 && done > 0 ? $"{Page.Plain(doing)}: {done} of {of}" : Page.Plain(doing));
                (_doing, _tenth) = (doing, tenth);
            }
            return;
        }

        int filled = of > 0 ? BarWidth * done / of : 0;
        string line = of > 0 ? $"[{new string('#', filled)}{new string('.', BarWidth - filled)}] {done} of {of}  {Page.Plain(doing)}" : Page.Plain(doing);
        output.Write("\r" + line.PadRight(_shown));
        _shown = line.Length;
    }

    /// <summary>Takes the bar away.</summary>
    public void Dispose()
    {
        if (!isPiped && _shown > 0)
        {
            output.Write("\r" + new string(' ', _shown) + "\r");
        }
    }
}
