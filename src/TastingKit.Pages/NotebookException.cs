namespace TastingKit.Pages;

/// <summary>A file is not a notebook that can be run or shown; the message says what was found and what would be right.</summary>
public sealed class NotebookException : Exception
{
    /// <inheritdoc/>
    public NotebookException()
        : base("The file is no notebook.")
    {
    }

    /// <summary>Says what was found and what would be right.</summary>
    public NotebookException(string message)
        : base(message)
    {
    }

    /// <summary>Says what was found and what would be right.</summary>
    public NotebookException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
