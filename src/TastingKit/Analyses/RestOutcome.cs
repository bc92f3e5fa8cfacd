namespace TastingKit;

/// <summary>What a log says of when coffees of a kind are at their best. Closed: <see cref="Match"/> handles every case.</summary>
public abstract record RestOutcome
{
    private RestOutcome()
    {
    }

    /// <summary>Handles every case.</summary>
    public T Match<T>(
        Func<Peak, T> peak, Func<StillRising, T> stillRising, Func<FallingFromTheStart, T> falling, Func<Flat, T> flat, Func<Undetermined, T> undetermined)
    {
        ArgumentNullException.ThrowIfNull(peak);
        ArgumentNullException.ThrowIfNull(stillRising);
        ArgumentNullException.ThrowIfNull(falling);
        ArgumentNullException.ThrowIfNull(flat);
        ArgumentNullException.ThrowIfNull(undetermined);
        return this switch
        {
            Peak p => peak(p),
            StillRising r => stillRising(r),
            FallingFromTheStart f => falling(f),
            Flat f => flat(f),
            Undetermined u => undetermined(u),
            _ => throw new InvalidOperationException("The cases of RestOutcome are closed."),
        };
    }

    /// <summary>The day of the highest expected score lies above the first day tasted, and above the last, each with a probability of 95 % or more; where several kinds are asked at once, of so much more that all answers hold together.</summary>
    /// <param name="Day">The day of the highest expected value.</param>
    /// <param name="Low">Lower end of the 95 % interval of the day of the peak.</param>
    /// <param name="High">Upper end of the 95 % interval of the day of the peak.</param>
    public sealed record Peak(int Day, int Low, int High) : RestOutcome;

    /// <summary>It is sure to rise over the days tasted, and over their last quarter too: a peak, if there is one, comes later.</summary>
    public sealed record StillRising : RestOutcome;

    /// <summary>It is sure to fall over the days tasted, and over their first quarter too: a peak, if there was one, came earlier.</summary>
    public sealed record FallingFromTheStart : RestOutcome;

    /// <summary>It is sure that no two days tasted differ by the margin from which a difference matters.</summary>
    /// <param name="Margin">The margin, in points of the attribute's scale.</param>
    public sealed record Flat(double Margin) : RestOutcome;

    /// <summary>Nothing of this is sure.</summary>
    /// <param name="Reason">What is known and what is not, as the part of a sentence.</param>
    public sealed record Undetermined(string Reason) : RestOutcome;
}
