namespace TastingKit;

/// <summary>One part of a result: an estimate, or why the log does not give it.</summary>
public abstract record PartAnswer
{
    private PartAnswer()
    {
    }

    /// <summary>Handles both cases.</summary>
    public T Match<T>(Func<Estimated, T> estimated, Func<Refused, T> refused)
    {
        ArgumentNullException.ThrowIfNull(estimated);
        ArgumentNullException.ThrowIfNull(refused);
        return this switch
        {
            Estimated yes => estimated(yes),
            Refused no => refused(no),
            _ => throw new InvalidOperationException("The cases of PartAnswer are closed."),
        };
    }

    /// <summary>The log gives an estimate.</summary>
    /// <param name="Estimate">The estimate, in the unit that its result states.</param>
    /// <param name="Low">Lower end of its 95 % interval.</param>
    /// <param name="High">Upper end of its 95 % interval.</param>
    /// <param name="Cups">Cups it rests on.</param>
    /// <param name="From">What it rests on in a few words, with counts, for example <c>20 repeats in 20 sets</c>.</param>
    public sealed record Estimated(double Estimate, double Low, double High, int Cups, string From) : PartAnswer;

    /// <summary>The log does not give it.</summary>
    /// <param name="Reason">Why, as a sentence with the counts that decide it.</param>
    /// <param name="WhatToLog">What to log so that it would.</param>
    public sealed record Refused(string Reason, string WhatToLog) : PartAnswer;
}
