namespace TastingKit.Pages;

/// <summary>Something a cell showed when it ran.</summary>
public abstract record CellOutput
{
    private CellOutput()
    {
    }

    /// <summary>Handles each case.</summary>
    public T Match<T>(Func<Printed, T> printed, Func<Shown, T> shown)
    {
        ArgumentNullException.ThrowIfNull(printed);
        ArgumentNullException.ThrowIfNull(shown);
        return this switch
        {
            Printed output => printed(output),
            Shown output => shown(output),
            _ => throw new InvalidOperationException("The cases of CellOutput are closed."),
        };
    }

    /// <summary>Text written to standard output or standard error.</summary>
    /// <param name="IsError">Whether it went to standard error.</param>
    /// <param name="Text">The text.</param>
    public sealed record Printed(bool IsError, string Text) : CellOutput;

    /// <summary>A value displayed, in one or more representations.</summary>
    /// <param name="IsResult">Whether it is the value of the cell's last expression.</param>
    /// <param name="Data">The representations by MIME type. Text as it is; images as base64.</param>
    public sealed record Shown(bool IsResult, IReadOnlyDictionary<string, string> Data) : CellOutput;
}
