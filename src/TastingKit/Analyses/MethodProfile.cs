namespace TastingKit;

/// <summary>One attribute's place in the family of attributes.</summary>
/// <param name="Attribute">The attribute.</param>
/// <param name="P">p-value of the factor as a whole.</param>
/// <param name="AdjustedP">The same adjusted for the number of attributes by Benjamini and Hochberg.</param>
/// <param name="Effects">The contrasts of a selected attribute, their intervals widened for the selection; <see langword="null"/> of one not selected, for which no interval may be claimed.</param>
public sealed record AttributeEffects(TastingAttribute Attribute, double P, double AdjustedP, MethodEffects? Effects);

/// <summary>
/// What one part of the method does to the attributes: those in which it makes a difference at all, with the false discovery rate held
/// at 5 % over all attributes, and in these how large it is.
/// </summary>
public sealed class MethodProfile : TastingResult
{
    internal MethodProfile(
        Factor factor, IReadOnlyList<AttributeEffects> attributes, IReadOnlyList<TastingAttribute> untested, double level,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Factor = factor;
        Attributes = attributes;
        Untested = untested;
        Level = level;
    }

    /// <summary>The part of the method.</summary>
    public Factor Factor { get; }

    /// <summary>The attributes tested, the smallest p-value first; the overall score stands outside the family.</summary>
    public IReadOnlyList<AttributeEffects> Attributes { get; }

    /// <summary>Attributes with too few cups to be tested.</summary>
    public IReadOnlyList<TastingAttribute> Untested { get; }

    /// <summary>Level of the simultaneous intervals within each selected attribute: 1 − 0.05 R/m, of m attributes with R selected.</summary>
    public double Level { get; }

    /// <summary>The attributes in which the factor makes a difference.</summary>
    public IEnumerable<MethodEffects> Selected => Attributes.Select(a => a.Effects).OfType<MethodEffects>();

    /// <inheritdoc/>
    public override string Question => $"What does the {Factor.Name} do to the attributes?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var selected = Selected.ToArray();
        var sentences = new List<string>
        {
            selected.Length == 0
                ? $"In none of {NumberText.Count(Attributes.Count, "attribute")} is the {Factor.Name} shown to make a difference ({Computation.CupsUsed} cups), which is not the same as making none."
                : $"The {Factor.Name} makes a difference in {selected.Length} of {NumberText.Count(Attributes.Count, "attribute")}: {string.Join(", ", selected.Select(e => e.Attribute))} (false discovery rate 5 %, {Computation.CupsUsed} cups).",
        };
        foreach (var effects in selected)
        {
            var decided = effects.Contrasts.Where(c => c.Answer.Direction != Direction.Undecided).ToArray();
            sentences.Add(decided.Length == 0
                ? $"{MethodWords.SentenceCase(effects.Attribute.Name)}: which {Factor.Name} differs from which is undecided."
                : $"{MethodWords.SentenceCase(effects.Attribute.Name)}: {effects.Say(decided[0])}{(decided.Length > 1 ? $"; {decided.Length} of {effects.Contrasts.Count} pairs differ" : "")}.");
        }

        var rest = Attributes.Where(a => a.Effects is null).Select(a => a.Attribute.Name).ToArray();
        if (rest.Length > 0 && selected.Length > 0)
            sentences.Add($"Not shown to differ, which is not the same as being alike: {string.Join(", ", rest)}.");
        if (Untested.Count > 0)
            sentences.Add($"Too few cups to test: {string.Join(", ", Untested)}.");
        return sentences;
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Differences of the attributes by {Factor.Name}, within coffees",
        [
            new TableColumn("attribute", "Attribute", ColumnKind.Text),
            new TableColumn("what", "Difference", ColumnKind.Text),
            new TableColumn("p", "p of the whole", ColumnKind.Number, "", 4),
            new TableColumn("adjusted_p", "p, adjusted", ColumnKind.Number, "", 4),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, "points of its scale"),
            new TableColumn("interval", $"{MethodWords.Level(Level)} interval, simultaneous", ColumnKind.Interval, "points of its scale"),
            new TableColumn("direction", "Direction", ColumnKind.Text),
            new TableColumn("size", "Size", ColumnKind.Text),
            new TableColumn("coffees", "Coffees with both", ColumnKind.Count),
        ],
        [.. Attributes.SelectMany(a => a.Effects is { } effects
            ? effects.Contrasts.Select(c => Row(a, $"{c.First} \u2212 {c.Second}", new TableCell.Number(c.Answer.Estimate), new TableCell.Interval(c.Answer.Low, c.Answer.High), MethodWords.Word(c.Answer.Direction), MethodWords.Word(c.Answer.Size), new TableCell.Count(c.SharedCoffees)))
            : [Row(a, "any", NotSelected, NotSelected, "not shown", "not asked", NotSelected)])]);

    private static TableCell.Missing NotSelected { get; } = new("not selected");

    private static IReadOnlyList<TableCell> Row(AttributeEffects a, string what, TableCell estimate, TableCell interval, string direction, string size, TableCell coffees) =>
    [
        new TableCell.Text(a.Attribute.Name), new TableCell.Text(what), new TableCell.Number(a.P), new TableCell.Number(a.AdjustedP),
        estimate, interval, new TableCell.Text(direction), new TableCell.Text(size), coffees,
    ];
}
