namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>The seed of every analysis that draws at random and is given none.</summary>
    public const ulong DefaultSeed = 20_250_101;

    /// <summary>What was logged: cups, bags, coffees by month, and the notes that kept coming back.</summary>
    public LoggedYear Logged() => LoggedAnalysis.Of(this);

    /// <summary>
    /// The raw course of the score or an attribute over the calendar, and whether bag means rise, fall or step with the order of their days. It is not
    /// by itself an answer about inflation.
    /// </summary>
    /// <param name="attribute">What is followed; the score where not given.</param>
    /// <param name="seed">Seed of the permutations of bags, where there are too many orders to go through all.</param>
    public CalendarCourse CalendarCourse(TastingAttribute? attribute = null, ulong seed = DefaultSeed) =>
        CalendarAnalysis.Of(this, attribute ?? TastingAttribute.Score, seed);

    /// <summary>
    /// Whether the scale drifted, as far as the log can tell: the sums of rest, drift, other coffee and the freezer that it tells, and the drift
    /// under the assumption of each anchor that it has (frozen doses, lots roasted again). Without an anchor no drift is estimated.
    /// </summary>
    /// <param name="attribute">What is asked about; the score where not given.</param>
    /// <param name="freezerLossAYear">Points a year that a frozen dose is stated to lose: the drift by frozen doses is then given at this loss too.</param>
    /// <param name="adjustedFor">
    /// Numbers of the brew, such as a column of the log, that cups are held against one another at equal values of; water temperature, ratio and strength
    /// are so without being named, where most cups state them.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">The loss is not a finite number.</exception>
    /// <exception cref="ArgumentException">The calendar is among the numbers: at equal days no drift is left.</exception>
    public ScaleDrift ScaleDrift(TastingAttribute? attribute = null, double freezerLossAYear = 0, IReadOnlyList<Covariate>? adjustedFor = null)
    {
        if (!double.IsFinite(freezerLossAYear))
            throw new ArgumentOutOfRangeException(nameof(freezerLossAYear), freezerLossAYear, "What a frozen dose loses in a year is a finite number of points.");
        if (adjustedFor?.Any(covariate => covariate.Name == Covariate.Calendar.Name) == true)
            throw new ArgumentException("Drift is a change over the calendar: of cups held against one another at equal days nothing is left of it. Leave the calendar out.", nameof(adjustedFor));
        return DriftAnalysis.Of(this, attribute ?? TastingAttribute.Score, freezerLossAYear, adjustedFor ?? []);
    }

    /// <summary>
    /// How the steps of a scale were used: the part of each by quarter, the spread, steps never used, whether steps moved against one another, and
    /// what the end of the scale costs at the top. A movement that all steps share is not read: <see cref="ScaleDrift"/> asks that.
    /// </summary>
    /// <param name="attribute">Whose scale; the score’s where not given.</param>
    public ScaleUse ScaleUse(TastingAttribute? attribute = null) => ScaleUseAnalysis.Of(this, attribute ?? TastingAttribute.Score);

    /// <summary>
    /// What seeing the label does to the score or an attribute: coded cups against cups of the same bag whose label was seen, brewed alike and
    /// tasted at one sitting, at equal places in it; and what the effect goes with (reputation, price, how obtained, country, the time of year).
    /// </summary>
    /// <param name="attribute">What is asked about; the score where not given.</param>
    public LabelEffect LabelEffect(TastingAttribute? attribute = null) => LabelAnalysis.Of(this, attribute ?? TastingAttribute.Score);

    /// <summary>
    /// What a change in raw scores came of: another mix of coffees bought, another mix of brews, changes of equipment, better coffees of like kinds,
    /// a drift of the scale. The drift stands alone only where the log tells it, or where it follows from what is stated of rest; else it stays with the coffees.
    /// </summary>
    /// <param name="attribute">What is asked about; the score where not given.</param>
    /// <param name="earlier">The earlier stretch of days; with <paramref name="later"/> not given, the first and the last quarter of the cups, or their halves where these are thin.</param>
    /// <param name="later">The later stretch; it begins after the earlier one has ended.</param>
    /// <param name="restAMonth">What a month of rest does by itself, as the user states it, in points: the drift that follows then stands alone under this assumption.</param>
    /// <param name="freezerLossAYear">Points a year that a frozen dose is stated to lose, as in <see cref="ScaleDrift"/>.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">One stretch is given without the other, or they overlap.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number stated is not finite.</exception>
    public ScoreRise ScoreRise(
        TastingAttribute? attribute = null, DaySpan? earlier = null, DaySpan? later = null, double? restAMonth = null, double freezerLossAYear = 0, ulong seed = DefaultSeed)
    {
        if (earlier is null != later is null)
            throw new ArgumentException("Two stretches of days are held against each other: state both, or neither.", earlier is null ? nameof(earlier) : nameof(later));
        if (earlier is not null && later!.From <= earlier.To)
            throw new ArgumentException($"The later stretch begins after the earlier one has ended; found {earlier} and {later}.", nameof(later));
        if (restAMonth is { } rest && !double.IsFinite(rest))
            throw new ArgumentOutOfRangeException(nameof(restAMonth), rest, "What a month of rest does is a finite number of points.");
        if (!double.IsFinite(freezerLossAYear))
            throw new ArgumentOutOfRangeException(nameof(freezerLossAYear), freezerLossAYear, "What a frozen dose loses in a year is a finite number of points.");
        return RiseAnalysis.Of(this, attribute ?? TastingAttribute.Score, earlier is null ? null : (earlier, later!), restAMonth, freezerLossAYear, seed);
    }

    /// <summary>How many frozen doses, how far apart, or which sitting at the year's end would tell a drift in 80 of 100 years, from the scatter of this log's cups.</summary>
    /// <param name="driftAYear">The drift to be told, in points a year; positive.</param>
    /// <param name="attribute">Of what; the score where not given.</param>
    /// <exception cref="ArgumentOutOfRangeException">The drift is not a positive finite number.</exception>
    public DriftPlan DriftPlan(double driftAYear, TastingAttribute? attribute = null)
    {
        if (!double.IsFinite(driftAYear) || driftAYear <= 0)
            throw new ArgumentOutOfRangeException(nameof(driftAYear), driftAYear, "The drift to be told is a positive number of points a year; its direction makes no difference.");
        return DriftPlanAnalysis.Of(this, attribute ?? TastingAttribute.Score, driftAYear);
    }

    /// <summary>
    /// Each cup's score on the scale of one day, with the uncertainty that all share; refused where the log does not identify drift. It rests on
    /// an assumption that every sentence names: what the user states of rest, or else that of the frozen doses, or where there are none of the lots
    /// roasted again.
    /// </summary>
    /// <param name="attribute">What is adjusted; the score where not given.</param>
    /// <param name="onScaleOf">The day whose scale it is brought to; the middle of the log's days where not given.</param>
    /// <param name="freezerLossAYear">Points a year that a frozen dose is stated to lose, as in <see cref="ScaleDrift"/>.</param>
    /// <param name="seed">Seed of the favourites' draws.</param>
    /// <param name="restAMonth">
    /// Points that a month of rest does by itself on average over the days tasted, if the user states it; it then takes the place of what was kept the
    /// same, as in <see cref="TastingKit.ScaleDrift.GivenRestSlope(double)"/>.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">The loss, or what rest does, is not a finite number.</exception>
    public AdjustedScores AdjustedScores(
        TastingAttribute? attribute = null, DateOnly? onScaleOf = null, double freezerLossAYear = 0, ulong seed = DefaultSeed, double? restAMonth = null)
    {
        if (!double.IsFinite(freezerLossAYear))
            throw new ArgumentOutOfRangeException(nameof(freezerLossAYear), freezerLossAYear, "What a frozen dose loses in a year is a finite number of points.");
        if (restAMonth is { } rest && !double.IsFinite(rest))
            throw new ArgumentOutOfRangeException(nameof(restAMonth), rest, "What a month of rest does is a finite number of points.");
        return AdjustmentAnalysis.Of(this, attribute ?? TastingAttribute.Score, onScaleOf, freezerLossAYear, restAMonth, seed);
    }

    /// <summary>The favourites: each coffee's predicted score under one standard brew, and how sure its place is.</summary>
    /// <param name="brew">The brew under which coffees are compared; the log's most common one where not given.</param>
    /// <param name="seed">Seed of the draws; the same seed and log give the same figures.</param>
    public Favourites Favourites(StandardBrew? brew = null, ulong seed = DefaultSeed) => FavouritesAnalysis.Of(this, brew, seed);

    /// <summary>What one part of the method does to the score or an attribute, within coffees.</summary>
    /// <param name="factor">A factor of the brew, such as <see cref="Factor.Brewer"/> or <see cref="Factor.RecipeFrom"/>, or a column of the log.</param>
    /// <param name="attribute">What is asked about; the score where not given.</param>
    /// <param name="margin">
    /// The difference from which one matters, in points of the attribute's scale, fixed before looking; half a point of a scale from 1 to 9
    /// where not given, scaled to the attribute's own.
    /// </param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">The factor belongs to the coffee and not to the brew.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The margin is not positive.</exception>
    public MethodEffects MethodEffects(Factor factor, TastingAttribute? attribute = null, double? margin = null, ulong seed = DefaultSeed)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return MethodAnalysis.Of(this, factor, attribute ?? TastingAttribute.Score, margin, seed);
    }

    /// <summary>What one part of the method does to each attribute, with the false discovery rate held over all of them.</summary>
    /// <param name="factor">A factor of the brew, or a column of the log.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">The factor belongs to the coffee and not to the brew.</exception>
    public MethodProfile MethodProfile(Factor factor, ulong seed = DefaultSeed)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return ProfileAnalysis.Of(this, factor, seed);
    }

    /// <summary>What a step more of a number of the brew (temperature, ratio, grind within one grinder) does, within coffees.</summary>
    /// <param name="covariates">
    /// What to ask about, each with its step; where empty, temperature by 5 °C, ratio by 1, and the grind by 1 on each grinder with twenty cups.
    /// </param>
    /// <param name="attribute">What is asked about; the score where not given.</param>
    /// <param name="margin">The difference of one step from which it matters, as in <see cref="MethodEffects(Factor, TastingAttribute?, double?, ulong)"/>.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentOutOfRangeException">The margin is not positive.</exception>
    public MethodSlopes MethodSlopes(IReadOnlyList<Covariate>? covariates = null, TastingAttribute? attribute = null, double? margin = null, ulong seed = DefaultSeed) =>
        SlopeAnalysis.Of(this, covariates ?? [], attribute ?? TastingAttribute.Score, margin, seed);

    /// <summary>A model of the score or an attribute to be put together term by term, where the ready-made results do not ask the question.</summary>
    /// <param name="attribute">What is modelled.</param>
    public CupModel Estimate(TastingAttribute attribute)
    {
        ArgumentNullException.ThrowIfNull(attribute);
        return new CupModel(this, attribute);
    }

    /// <summary>The course of the score over effective rest, within bags.</summary>
    /// <param name="seed">Seed of the draws.</param>
    public RestCourse RestCourse(ulong seed = DefaultSeed) => RestAnalysis.Of(this, seed);

    /// <summary>
    /// When coffees are at their best: the course of the score or an attribute over effective rest, by kind of coffee, and whether it has a peak
    /// within the days tasted.
    /// </summary>
    /// <param name="by">What sorts coffees into kinds, such as <see cref="Factor.Process"/> or <see cref="Factor.RoastLevel"/>; all coffees together where not given.</param>
    /// <param name="attribute">What is followed; the score where not given.</param>
    /// <param name="near">
    /// Points of the attribute's scale within which a day counts as among the best, fixed before looking; a quarter of a point of a scale
    /// from 1 to 9 where not given, scaled to the attribute's own.
    /// </param>
    /// <param name="margin">Points from which a difference between two days matters, as in <see cref="MethodEffects(Factor, TastingAttribute?, double?, ulong)"/>: a course sure to stay within is flat.</param>
    /// <param name="driftPerYear">
    /// Points a year by which the taster's scale may have drifted, either way: the peak is told at none and at both; half a point of a scale
    /// from 1 to 9 where not given, scaled to the attribute's own.
    /// </param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">The factor belongs to the brew and not to the coffee.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number of points is not positive.</exception>
    public RestPeaks RestPeaks(
        Factor? by = null, TastingAttribute? attribute = null, double? near = null, double? margin = null, double? driftPerYear = null, ulong seed = DefaultSeed) =>
        RestPeaksAnalysis.Of(this, RestPeaksAnalysis.Question.Of(this, by, attribute, near, margin, driftPerYear), seed);

    /// <summary>
    /// When to open a bag that arrives: the age at which its kind, opened then and drunk over as many days as usual, has the highest expected scores.
    /// Answered only where bags of its kind were opened at ages that differ by ten days or more, over six bags or more.
    /// </summary>
    /// <param name="bagId">The bag's bag_id; it need not have been tasted. The bag roasted last where not given.</param>
    /// <param name="near">Points of the log's scale within which a day to open counts as among the best, as in <see cref="RestPeaks(Factor?, TastingAttribute?, double?, double?, double?, ulong)"/>.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">The log has no such bag, or no bag at all.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The number of points is not positive.</exception>
    public RestPlan RestPlan(string? bagId = null, double? near = null, ulong seed = DefaultSeed) =>
        RestPlanAnalysis.Of(this, bagId ?? Bags.MaxBy(bag => bag.RoastDate ?? DateOnly.MinValue)?.Id ?? "", near, seed);

    /// <summary>
    /// How precisely a taster scores: repeatability from blind repeats of one brew on one day, and apart from it the scatter from day to day,
    /// between sittings and with the order of cups; how far a first cup tells the verdict, and how many cups a verdict asks for.
    /// </summary>
    /// <param name="taster">Whose scores, as the column taster has it; needed only where several tasted, since tasters are not thrown together.</param>
    /// <param name="halfWidth">
    /// The half-width, in points of the log's scale, within which a verdict counts as moving no more, fixed before looking; half a point of a
    /// scale from 1 to 9 where not given, scaled to the log's own.
    /// </param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">No scored cup is of that taster.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The half-width is not positive.</exception>
    public TastingPrecision Repeatability(string? taster = null, double? halfWidth = null, ulong seed = DefaultSeed) =>
        PrecisionAnalysis.Of(this, taster, halfWidth, seed);

    /// <summary>Cups whose score fits nothing else in the log: each is held against the prediction of all the others.</summary>
    /// <param name="falseDiscoveryRate">The share of flags that may be false on average, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate does not lie between 0 and 1.</exception>
    public OneOffs OneOffs(double falseDiscoveryRate = 0.05) => OneOffAnalysis.Of(this, falseDiscoveryRate);

    /// <summary>One suspicious cup: how far off it is, how its distance splits between brewer and chance by variance, and what one more cup would settle.</summary>
    /// <param name="tastingId">The cup's tasting_id.</param>
    /// <param name="falseDiscoveryRate">The rate at which cups are flagged, as in <see cref="OneOffs"/>.</param>
    /// <exception cref="ArgumentException">The log has no such cup, or its score does not count.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The rate does not lie between 0 and 1.</exception>
    public OneOff OneOff(string tastingId, double falseDiscoveryRate = 0.05)
    {
        ArgumentNullException.ThrowIfNull(tastingId);
        return OneOffAnalysis.OfCup(this, tastingId, falseDiscoveryRate);
    }

    /// <summary>Every cup of one bag by its days, whatever became of it: brewers, recipes, what does not count, and when it was opened, frozen and thawed.</summary>
    /// <param name="bagId">The bag's bag_id; that of the bag with most cups for a verdict where not given.</param>
    /// <exception cref="ArgumentException">The log has no such bag, or no bag at all.</exception>
    public BagTimeline BagTimeline(string? bagId = null) => BagTimelineAnalysis.Of(this, bagId ?? Tastings.Where(cup => cup.Purpose == Purpose.Verdict).GroupBy(cup => cup.Bag.Id).MaxBy(bag => bag.Count())?.Key ?? (Bags.Count > 0 ? Bags[0].Id : ""));

    /// <summary>The bag of an id; an error that says what bags there are where there is none.</summary>
    internal Bag BagNamed(string bagId) => Bags.FirstOrDefault(bag => bag.Id == bagId)
        ?? throw new ArgumentException($"The log has no bag '{bagId}'; it has {NumberText.Count(Bags.Count, "bag")}{(Bags.Count == 0 ? "" : $", '{Bags[0].Id}' the first")}.", nameof(bagId));
}
