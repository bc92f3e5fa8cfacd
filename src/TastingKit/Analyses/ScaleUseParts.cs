namespace TastingKit;

/// <summary>One step of the scale, or several taken together, over the whole log.</summary>
/// <param name="From">The lowest step, in points of the scale.</param>
/// <param name="To">The highest; the same for a step by itself.</param>
/// <param name="Cups">Cups that were given it.</param>
public sealed record StepGroup(double From, double To, int Cups)
{
    /// <summary>The steps in words, for example <c>7.5</c> or <c>7.5 to 9.0</c>.</summary>
    public string Label => From == To ? ScaleText.Step(From) : $"{ScaleText.Step(From)} to {ScaleText.Step(To)}";
}

/// <summary>The part of a quarter's cups that were given a step, or one of several taken together.</summary>
/// <param name="Steps">Which.</param>
/// <param name="Cups">Cups that were given it.</param>
/// <param name="Share">Their part of the quarter's cups, from 0 to 1.</param>
/// <param name="Interval">Its 95 % interval, cups clustered in bags; <see langword="null"/> with fewer than three bags.</param>
public sealed record StepShare(StepGroup Steps, int Cups, double Share, MeanInterval? Interval);

/// <summary>How the scale was used in one quarter of a calendar year, or in one year of a log of many.</summary>
/// <param name="From">Its first day.</param>
/// <param name="Label">Its name, for example <c>2025 Q1</c>.</param>
/// <param name="Cups">Scored cups.</param>
/// <param name="Bags">Bags these came from.</param>
/// <param name="Spread">Standard deviation of the scores as they are, in points, coffees' own differences among them; 0 for one cup.</param>
/// <param name="SpreadInterval">Its 95 % interval, cups clustered in bags; <see langword="null"/> with fewer than three bags, or where all scores are the same.</param>
/// <param name="Shares">Each step that the log used, the lowest first.</param>
/// <param name="Groups">The steps as the thresholds have them, those hardly used taken together.</param>
/// <param name="DistanceFromJustRight">On a just-right scale how far cups on either side lie from the middle; <see langword="null"/> on any other.</param>
public sealed record ScaleQuarter(
    DateOnly From, string Label, int Cups, int Bags, double Spread, MeanInterval? SpreadInterval, IReadOnlyList<StepShare> Shares,
    IReadOnlyList<StepShare> Groups, JustRightDistance? DistanceFromJustRight);

/// <summary>How far from just right, on both sides: neither side is better than the other.</summary>
/// <param name="TooLittle">Part of the cups below the middle of the scale, from 0 to 1.</param>
/// <param name="TooMuch">Part of them above it.</param>
/// <param name="MeanBelow">Points by which those below lie below on average; 0 where there are none.</param>
/// <param name="MeanAbove">Points by which those above lie above on average.</param>
public sealed record JustRightDistance(double TooLittle, double TooMuch, double MeanBelow, double MeanAbove);

/// <summary>Where a step began in one quarter, against the other steps, by the ordinal model.</summary>
/// <param name="Quarter">The quarter's name.</param>
/// <param name="Step">The step, in points of the scale; it and all above it are meant.</param>
/// <param name="Estimate">
/// Points by which it began higher (harder to reach) than over all quarters, the mean movement of all steps in that quarter taken off; negative
/// where it began lower.
/// </param>
/// <param name="Low">Lower end of the 95 % interval, by itself.</param>
/// <param name="High">Upper end of it.</param>
public sealed record ThresholdMove(string Quarter, double Step, double Estimate, double Low, double High);

/// <summary>How wide the steps were in one quarter, by the ordinal model.</summary>
/// <param name="Quarter">The quarter's name.</param>
/// <param name="Estimate">
/// Points by which the highest step and the lowest began further apart than over all quarters: with wider steps like cups are given like scores,
/// and extremes less often.
/// </param>
/// <param name="Low">Lower end of the 95 % interval, by itself.</param>
/// <param name="High">Upper end of it.</param>
public sealed record WidthMove(string Quarter, double Estimate, double Low, double High);

/// <summary>Whether steps moved against one another from quarter to quarter.</summary>
public abstract record StepMovement
{
    private StepMovement()
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
            _ => throw new InvalidOperationException("The cases of StepMovement are closed."),
        };
    }

    /// <summary>The ordinal model tells it.</summary>
    /// <param name="P">P-value of no movement of the steps against one another, by the likelihood ratio.</param>
    /// <param name="DegreesOfFreedom">Its degrees of freedom.</param>
    /// <param name="Thresholds">Each step in each quarter, in order.</param>
    /// <param name="Widths">The width of the steps by quarter.</param>
    /// <param name="Cups">Cups of the model; those that fit nothing else in the log are set aside.</param>
    public sealed record Estimated(double P, int DegreesOfFreedom, IReadOnlyList<ThresholdMove> Thresholds, IReadOnlyList<WidthMove> Widths, int Cups) : StepMovement
    {
        /// <summary>
        /// P-value below which a movement is told. In logs of a few hundred cups the ratio finds a little too much, what the cups of a sitting share being
        /// left to chance: this level, and not 5 %, is meant to err in at most one year of twenty.
        /// </summary>
        public const double Level = 0.025;

        /// <summary>Whether a movement is told.</summary>
        public bool IsTold => P < Level;
    }

    /// <summary>The log does not tell it.</summary>
    /// <param name="Reason">Why, as a sentence with the counts that decide it.</param>
    /// <param name="WhatToLog">What to log so that it would.</param>
    public sealed record Refused(string Reason, string WhatToLog) : StepMovement;
}

/// <summary>What the end of the scale costs at the top.</summary>
/// <param name="HighestGiven">The highest score given, in points.</param>
/// <param name="InformationLost">
/// Part, from 0 to 1, of the Fisher information of one cup about a coffee among the best tenth that a scale of the same steps without an end
/// would give, and this one does not.
/// </param>
public sealed record TopOfScale(double HighestGiven, double InformationLost)
{
    /// <summary>From this part on the best coffees count as hardly told apart.</summary>
    public const double WarnsFrom = 0.2;
}
