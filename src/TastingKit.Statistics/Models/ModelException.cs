namespace TastingKit.Statistics;

/// <summary>A model that can't be estimated from the data it was given; the message says which part, what was found and what would be needed.</summary>
public sealed class ModelException : Exception
{
    /// <summary>An exception without a message of its own.</summary>
    public ModelException()
    {
    }

    /// <summary>An exception that says what can't be estimated and why.</summary>
    /// <param name="message">Which part, what was found, what would be needed.</param>
    public ModelException(string message) : base(message)
    {
    }

    /// <summary>An exception that says what can't be estimated and why, caused by another.</summary>
    /// <param name="message">Which part, what was found, what would be needed.</param>
    /// <param name="innerException">The cause.</param>
    public ModelException(string message, Exception innerException) : base(message, innerException)
    {
    }
}
