namespace TastingKit;

/// <summary>The taster: where on the scale, how steadily, and how the scale moves. All in score points.</summary>
public sealed record SimulatedTaster
{
    /// <summary>Score of an average coffee at its peak, brewed by an effect of zero, first in its session, at mid-year.</summary>
    public double Mean { get; init; } = 6.6;

    /// <summary>Standard deviation between sessions: the taster's form and palate that day.</summary>
    public double SessionStandardDeviation { get; init; } = 0.20;

    /// <summary>Standard deviation between days of one bag, shared by its cups of that day.</summary>
    public double BagDayStandardDeviation { get; init; } = 0.10;

    /// <summary>Repeat error: standard deviation of cups of one bag, day, brewer and recipe.</summary>
    public double RepeatStandardDeviation { get; init; } = 0.40;

    /// <summary>Points for each place after the first in a session.</summary>
    public double PositionEffect { get; init; } = -0.04;

    /// <summary>Drift of the scale: points a year by which the same cup is scored higher, counted from mid-year (2 July).</summary>
    public double DriftPerYear { get; init; }

    /// <summary>Share of the last cup's departure from the taster's mean that colours the next cup of the same session; 0 to 1.</summary>
    public double CarryOver { get; init; }

    /// <summary>Share by which a cup is drawn to the last score that its bag was given; 0 to 1.</summary>
    public double AnchoringOnLastScore { get; init; }

    /// <summary>Points that seeing any label adds.</summary>
    public double LabelEffect { get; init; }

    /// <summary>Points that seeing a label adds for each unit of currency a 100 g by which the bag's logged price lies above <see cref="UsualPrice"/>.</summary>
    public double LabelPremiumByPrice { get; init; }

    /// <summary>The price of 100 g at which a label adds nothing by its price.</summary>
    public static double UsualPrice => 5.5;

    /// <summary>Points that seeing the label of a renowned roaster adds; the first half of the roasters are renowned.</summary>
    public double LabelPremium { get; init; }

    /// <summary>
    /// Steps of the score that begin elsewhere in part of the year, the coffee being the same; empty for none. They show only where
    /// <see cref="RoundsToSteps"/> is on.
    /// </summary>
    public IReadOnlyList<MovedThreshold> MovedThresholds { get; init; } = [];

    /// <summary>Whether scores and attributes are rounded to the steps of their scales.</summary>
    public bool RoundsToSteps { get; init; } = true;

    /// <summary>Whether scores and attributes stop at the ends of their scales.</summary>
    public bool StaysWithinScale { get; init; } = true;

    /// <summary>The scale of the overall score.</summary>
    public Scale ScoreScale { get; init; } = Scale.Default(TastingAttribute.Score);

    /// <summary>Points that seeing a bag's label adds.</summary>
    internal double LabelAdds(Bag bag, bool isRenowned) =>
        LabelEffect + (isRenowned ? LabelPremium : 0)
        + (bag is { Price: { } price, NetWeightGrams: { } grams } ? LabelPremiumByPrice * ((100 * (double)price / grams) - UsualPrice) : 0);

    /// <summary>The score a taster writes down for an impression on a day of the year.</summary>
    internal double RecordScore(double impression, DateOnly day)
    {
        var value = Record(impression, ScoreScale);
        if (!RoundsToSteps)
            return value;
        foreach (var moved in MovedThresholds.Where(moved => moved.Quarter == ((day.Month - 1) / 3) + 1))
            value = moved.Record(value, Record(impression + moved.Points, ScoreScale), ScoreScale);
        return value;
    }

    /// <summary>The value a taster writes down for an impression.</summary>
    internal double Record(double impression, Scale scale)
    {
        var value = impression;
        if (RoundsToSteps)
            value = scale.Min + Math.Round((value - scale.Min) / scale.Step, MidpointRounding.AwayFromZero) * scale.Step;
        return StaysWithinScale ? Math.Clamp(value, scale.Min, scale.Max) : value;
    }

    internal void Validate()
    {
        SimulationSettings.Finite(Mean, nameof(Mean));
        SimulationSettings.AtLeast(SessionStandardDeviation, 0, nameof(SessionStandardDeviation));
        SimulationSettings.AtLeast(BagDayStandardDeviation, 0, nameof(BagDayStandardDeviation));
        SimulationSettings.AtLeast(RepeatStandardDeviation, 0, nameof(RepeatStandardDeviation));
        SimulationSettings.Finite(PositionEffect, nameof(PositionEffect));
        SimulationSettings.Finite(DriftPerYear, nameof(DriftPerYear));
        SimulationSettings.Between(CarryOver, 0, 1, nameof(CarryOver));
        SimulationSettings.Between(AnchoringOnLastScore, 0, 1, nameof(AnchoringOnLastScore));
        SimulationSettings.Finite(LabelEffect, nameof(LabelEffect));
        SimulationSettings.Finite(LabelPremiumByPrice, nameof(LabelPremiumByPrice));
        SimulationSettings.Finite(LabelPremium, nameof(LabelPremium));
        foreach (var moved in MovedThresholds)
            moved.Validate();
        if (!ScoreScale.Attribute.Equals(TastingAttribute.Score))
            throw new ArgumentException($"The setting ScoreScale is the scale of {ScoreScale.Attribute}; it must be that of the score.", nameof(ScoreScale));
    }
}
