namespace TastingKit;

/// <summary>How one attribute comes about in a simulated year, in points of its own scale.</summary>
/// <remarks>
/// An attribute is its mean, plus its loading on the coffee's quality, plus its loading on the rest of the cup's score
/// (brewer, recipe, rest, session, repeat error: one mouth rates all at once), plus its own shifts by process and brewer,
/// its own deviation by coffee, drift and repeat error.
/// </remarks>
public sealed record SimulatedAttribute
{
    /// <summary>The attribute.</summary>
    public required TastingAttribute Attribute { get; init; }

    /// <summary>Its value in an average cup.</summary>
    public required double Mean { get; init; }

    /// <summary>Points for each score point of the coffee's quality.</summary>
    public double CoffeeLoading { get; init; }

    /// <summary>Points for each score point of the cup's departure from its coffee's quality.</summary>
    public double CupLoading { get; init; }

    /// <summary>Standard deviation between coffees that goes with nothing else.</summary>
    public double CoffeeStandardDeviation { get; init; } = 0.9;

    /// <summary>Standard deviation between cups that goes with nothing else.</summary>
    public double RepeatStandardDeviation { get; init; } = 1.0;

    /// <summary>Shift by base process; none where a process is missing.</summary>
    public IReadOnlyDictionary<string, double> ByProcess { get; init; } = new Dictionary<string, double>();

    /// <summary>Shift by brewer; none where a brewer is missing.</summary>
    public IReadOnlyDictionary<string, double> ByBrewer { get; init; } = new Dictionary<string, double>();

    /// <summary>Drift of the attribute's scale in points a year, counted from mid-year.</summary>
    public double DriftPerYear { get; init; }

    /// <summary>The default attributes of a log: sweetness, aroma and aftertaste go with quality, bitterness against it.</summary>
    public static IReadOnlyList<SimulatedAttribute> Defaults { get; } =
    [
        new() { Attribute = TastingAttribute.Aroma, Mean = 8.5, CoffeeLoading = 1.2, CupLoading = 0.6 },
        new()
        {
            Attribute = TastingAttribute.Acidity, Mean = 7.5, CoffeeLoading = 0.6, CupLoading = 0.2,
            ByProcess = Shifts(("washed", 1.2), ("natural", -0.4), ("wet-hulled", -2.0)),
            ByBrewer = Shifts(("cone dripper", 0.6), ("steep-and-release", -0.5)),
        },
        new()
        {
            Attribute = TastingAttribute.Sweetness, Mean = 7.5, CoffeeLoading = 1.6, CupLoading = 0.9,
            ByProcess = Shifts(("natural", 0.9), ("honey", 0.8)), ByBrewer = Shifts(("flat-bed dripper", 0.7)),
        },
        new()
        {
            Attribute = TastingAttribute.Bitterness, Mean = 4.0, CoffeeLoading = -0.8, CupLoading = -0.8,
            ByProcess = Shifts(("wet-hulled", 1.5)),
        },
        new()
        {
            Attribute = TastingAttribute.Body, Mean = 6.5, CoffeeLoading = 0.3, CupLoading = 0.1,
            ByProcess = Shifts(("washed", -0.6), ("natural", 0.9), ("wet-hulled", 2.5)),
            ByBrewer = Shifts(("thick-paper carafe", -1.4), ("steep-and-release", 1.0)),
        },
        new()
        {
            Attribute = TastingAttribute.Clarity, Mean = 8.0, CoffeeLoading = 0.9, CupLoading = 0.7,
            ByProcess = Shifts(("washed", 1.4), ("natural", -0.7), ("wet-hulled", -1.8)),
            ByBrewer = Shifts(("thick-paper carafe", 1.2), ("steep-and-release", -0.6)),
        },
        new() { Attribute = TastingAttribute.Aftertaste, Mean = 7.5, CoffeeLoading = 1.4, CupLoading = 0.8 },
    ];

    internal void Validate()
    {
        SimulationSettings.Finite(Mean, $"mean of {Attribute}");
        SimulationSettings.Finite(CoffeeLoading, $"coffee loading of {Attribute}");
        SimulationSettings.Finite(CupLoading, $"cup loading of {Attribute}");
        SimulationSettings.AtLeast(CoffeeStandardDeviation, 0, $"coffee standard deviation of {Attribute}");
        SimulationSettings.AtLeast(RepeatStandardDeviation, 0, $"repeat standard deviation of {Attribute}");
        SimulationSettings.Finite(DriftPerYear, $"drift of {Attribute}");
        if (Attribute.Equals(TastingAttribute.Score))
            throw new ArgumentException("The overall score is no attribute of its own; its effects are set elsewhere.", nameof(Attribute));
    }

    private static Dictionary<string, double> Shifts(params (string Level, double Points)[] shifts) =>
        shifts.ToDictionary(shift => shift.Level, shift => shift.Points);
}
