namespace TastingKit;

/// <summary>
/// A log, or one of its files, can't be read at all: it is not there, is no CSV, or lacks a column without which no row could be read.
/// The message is one sentence or two for a person: where, what was found, what would be right. A bad row never throws.
/// </summary>
public sealed class LogReadException : Exception
{
    /// <summary>Makes the exception without a message.</summary>
    public LogReadException()
    {
    }

    /// <summary>Makes the exception.</summary>
    /// <param name="message">Where, what was found, and what would be right.</param>
    public LogReadException(string message)
        : base(message)
    {
    }

    /// <summary>Makes the exception.</summary>
    /// <param name="message">Where, what was found, and what would be right.</param>
    /// <param name="innerException">What the file system said.</param>
    public LogReadException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
