namespace TastingKit;

/// <summary>One day of a group's course over effective rest.</summary>
/// <param name="RestDays">Effective rest in days.</param>
/// <param name="Estimate">Expected value under the standard brew on that day, over the group's bags in the log, each counted once.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end of its 95 % interval.</param>
/// <param name="NearBest">Probability that the day lies within the stated distance of the best day tasted, from 0 to 1.</param>
public sealed record RestDay(int RestDays, double Estimate, double Low, double High, double NearBest);

/// <summary>What would be said, had the taster's scale drifted while the bags rested.</summary>
/// <param name="PerYear">Points a year by which the same cup came to be scored higher; negative for lower.</param>
/// <param name="Outcome">What is said once the drift is taken off.</param>
public sealed record RestUnderDrift(double PerYear, RestOutcome Outcome);

/// <summary>The course of one kind of coffee over rest, and what it says.</summary>
/// <param name="Level">The kind, for example a process; <c>all coffees</c> where none was asked for.</param>
/// <param name="Outcome">What the log says of the peak, the scale not drifting.</param>
/// <param name="Days">The course day by day over the days tasted: those of the middle 98 % of the group's cups.</param>
/// <param name="BestFrom">First of the days around the best one whose expected value lies within the stated distance of it; of use where <c>NamesBestDays</c>.</param>
/// <param name="BestTo">Last of these days.</param>
/// <param name="PeakInside">Probability that the highest day tasted is neither the first nor the last.</param>
/// <param name="UnderDrift">The same under a falling and under a rising scale.</param>
/// <param name="Tasted">The group's cups by day, as they are.</param>
/// <param name="Bags">Bags of the group.</param>
public sealed record RestGroup(
    string Level, RestOutcome Outcome, IReadOnlyList<RestDay> Days, int BestFrom, int BestTo, double PeakInside,
    IReadOnlyList<RestUnderDrift> UnderDrift, IReadOnlyList<RestCups> Tasted, int Bags)
{
    /// <summary>Cups of the group.</summary>
    public int Cups => Tasted.Sum(day => day.Cups);

    /// <summary>
    /// Whether the best days are told: where the course is shown to peak, to rise or to fall. Of a course that is not, the days near its highest say
    /// nothing but how wide its band is.
    /// </summary>
    public bool NamesBestDays => Outcome is RestOutcome.Peak or RestOutcome.StillRising or RestOutcome.FallingFromTheStart;

    /// <summary>The highest day of the course.</summary>
    public RestDay Best => Days.MaxBy(day => day.Estimate)!;
}

/// <summary>A kind of coffee of which too little was tasted for an answer of its own.</summary>
/// <param name="Level">The kind.</param>
/// <param name="Cups">Its cups.</param>
/// <param name="Bags">Its bags.</param>
public sealed record UnansweredRest(string Level, int Cups, int Bags);
