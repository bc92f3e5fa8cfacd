namespace TastingKit;

/// <summary>One day of the score's course over rest.</summary>
/// <param name="RestDays">Effective rest in days.</param>
/// <param name="Estimate">Expected score under the standard brew on that day, averaged over the log's coffees.</param>
/// <param name="Low">Lower bound of its 95 % interval.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
public sealed record RestPoint(int RestDays, double Estimate, double Low, double High);

/// <summary>Cups tasted on one day of rest.</summary>
/// <param name="RestDays">Effective rest in days.</param>
/// <param name="MeanScore">Mean score of the cups, as they are.</param>
/// <param name="Cups">How many.</param>
public sealed record RestCups(int RestDays, double MeanScore, int Cups);

/// <summary>What the log says of the shape of the course over rest.</summary>
public abstract record RestShape
{
    private RestShape()
    {
    }

    /// <summary>Handles every case.</summary>
    public T Match<T>(Func<Peak, T> peak, Func<Rising, T> rising, Func<Falling, T> falling, Func<Undetermined, T> undetermined)
    {
        ArgumentNullException.ThrowIfNull(peak);
        ArgumentNullException.ThrowIfNull(rising);
        ArgumentNullException.ThrowIfNull(falling);
        ArgumentNullException.ThrowIfNull(undetermined);
        return this switch
        {
            Peak p => peak(p),
            Rising r => rising(r),
            Falling f => falling(f),
            Undetermined u => undetermined(u),
            _ => throw new InvalidOperationException("The cases of RestShape are closed."),
        };
    }

    /// <summary>The course rises to a peak inside the days tasted and falls after it.</summary>
    /// <param name="Day">The most likely day of the peak.</param>
    /// <param name="Low">Lower bound of its 95 % interval.</param>
    /// <param name="High">Upper bound of its 95 % interval.</param>
    public sealed record Peak(int Day, int Low, int High) : RestShape;

    /// <summary>Still rising on the last days tasted.</summary>
    public sealed record Rising : RestShape;

    /// <summary>Falling from the first days tasted.</summary>
    public sealed record Falling : RestShape;

    /// <summary>The log does not tell the course from a flat one, or not where its peak is.</summary>
    /// <param name="Reason">Why, in a sentence.</param>
    public sealed record Undetermined(string Reason) : RestShape;
}
