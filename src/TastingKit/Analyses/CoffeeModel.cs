using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The mixed model behind the favourites: the score by the brew (fixed) and by the kinds of coffee, the coffee and its bag (random),
/// with each kind a random intercept, so that what few cups say is shrunk towards what many say.
/// </summary>
internal sealed class CoffeeModel
{
    private readonly ScoreColumns _columns;
    private readonly IReadOnlyList<Kind> _kinds;
    private readonly CategoricalColumn? _coffee;
    private readonly CategoricalColumn? _bag;
    private readonly IReadOnlyList<Cell> _cells;

    private CoffeeModel(
        ScoreColumns columns, IReadOnlyList<Kind> kinds, CategoricalColumn? coffee, CategoricalColumn? bag, IReadOnlyList<Cell> cells,
        LinearMixedModelFit fit)
    {
        _columns = columns;
        _kinds = kinds;
        _coffee = coffee;
        _bag = bag;
        _cells = cells;
        Fit = fit;
    }

    public LinearMixedModelFit Fit { get; }

    /// <summary>Whether cups repeat within coffees, so that a coffee can be told from the chance of a cup.</summary>
    public bool TellsCoffeesApart => _coffee is not null;

    /// <summary>The model; nothing where the log leaves no chance to judge by.</summary>
    /// <param name="columns">The cups.</param>
    /// <param name="kindFactors">The kinds of coffee.</param>
    /// <param name="fewestRepeats">Cups beyond one a coffee from which coffees are told from the chance of a cup.</param>
    /// <param name="watch">Who watches.</param>
    public static CoffeeModel? Of(ScoreColumns columns, IReadOnlyList<Factor> kindFactors, int fewestRepeats, WorkWatch watch)
    {
        var cups = columns.Cups;
        var coffees = cups.Select(c => c.Bag.Coffee.Id).Distinct().Count();
        var design = columns.AddBrewTo(ModelDesign.For("score", columns.Scores));
        var kinds = new List<Kind>();
        foreach (var factor in kindFactors)
        {
            // A kind that nearly every coffee has to itself can't be told from the coffee.
            if (ScoreColumns.Varying(factor, cups) is { } column && column.Levels.Count * 1.2 <= coffees)
                kinds.Add(new Kind(factor, column));
        }

        CategoricalColumn? coffee = null, bag = null;
        if (cups.Count - coffees >= fewestRepeats)
        {
            coffee = CategoricalColumn.From(Factor.Coffee.Name, [.. cups.Select(Factor.Coffee.LevelOf)]);
            if (cups.Select(c => c.Bag.Id).Distinct().Count() - coffees >= 2)
                bag = CategoricalColumn.From(Factor.Bag.Name, [.. cups.Select(Factor.Bag.LevelOf)]);
        }

        var cells = new List<Cell>();
        foreach (var (ofBrew, method) in new[] { (Factor.Brewer, columns.Brewer), (Factor.RecipeFrom, columns.RecipeFrom) })
        {
            if (method is null)
                continue;
            if (kinds.FirstOrDefault(kind => kind.Factor == Factor.Process) is { Column: { } process })
                AddIfRepeated(new Cell(Factor.Process, ofBrew, process.Cross(method)), process);
            if (coffee is not null && ofBrew == Factor.Brewer)
                AddIfRepeated(new Cell(Factor.Coffee, ofBrew, coffee.Cross(method)), coffee);
        }

        foreach (var column in kinds.Select(kind => kind.Column).Concat([coffee, bag]).Concat(cells.Select(cell => cell.Column)).OfType<CategoricalColumn>())
            design = design.WithRandomIntercept(column);
        return ScoreFit.Of(design, watch) is { } fit ? new CoffeeModel(columns, kinds, coffee, bag, cells, fit) : null;

        // A deviation by combination needs kinds that were brewed in several ways, and combinations that were brewed again.
        void AddIfRepeated(Cell cell, CategoricalColumn ofCoffee)
        {
            if (cell.Column.Levels.Count >= 1.2 * ofCoffee.Levels.Count && cell.Column.Levels.Count <= 0.8 * cups.Count)
                cells.Add(cell);
        }
    }

    public bool Has(Factor factor) => _kinds.Any(kind => kind.Factor == factor);

    /// <summary>The expected score of a coffee under a brew: its kinds, itself, its bags at equal weight, and how they take to the brew.</summary>
    public FurtherFunction OfCoffee(StandardBrew brew, IReadOnlyList<Tasting> cupsOfCoffee)
    {
        var any = cupsOfCoffee[0];
        var function = Fit.At(_columns.At(brew));
        foreach (var (factor, column) in _kinds)
            function += Fit.RandomEffect(column.Name, factor.LevelOf(any));
        if (_coffee is not null)
            function += Fit.RandomEffect(_coffee.Name, Factor.Coffee.LevelOf(any));
        if (_bag is not null)
        {
            function += LinearFunction.Mean(cupsOfCoffee.Select(Factor.Bag.LevelOf).Distinct()
                .Select(bag => Fit.RandomEffect(_bag.Name, bag)));
        }

        return WithCells(function, brew, _cells, cell => cell.OfCoffee.LevelOf(any));
    }

    /// <summary>
    /// The expected score of a coffee of one kind: in all else it is the average of the log's coffees, each counted once, so that
    /// kinds are compared on the same shelf and the shelf itself adds no doubt.
    /// </summary>
    public FurtherFunction OfKind(StandardBrew brew, Factor factor, string level)
    {
        var shelf = _columns.Cups.GroupBy(c => c.Bag.Coffee.Id).Select(g => g.First()).ToArray();
        var function = Fit.At(_columns.At(brew));
        foreach (var kind in _kinds)
        {
            function += kind.Factor == factor
                ? Fit.RandomEffect(kind.Column.Name, level)
                : LinearFunction.Mean(shelf.Select(any => Fit.RandomEffect(kind.Column.Name, kind.Factor.LevelOf(any))));
        }

        if (_coffee is not null)
            function += LinearFunction.Mean(shelf.Select(any => Fit.RandomEffect(_coffee.Name, Factor.Coffee.LevelOf(any))));
        return WithCells(function, brew, _cells.Where(cell => cell.OfCoffee == factor), _ => level);
    }

    /// <summary>The model in words.</summary>
    public string InWords()
    {
        var random = _kinds.Select(kind => kind.Factor.Name)
            .Concat(_coffee is null ? [] : [_coffee.Name]).Concat(_bag is null ? [] : [_bag.Name])
            .Concat(_cells.Select(cell => $"{cell.OfCoffee.Name} by {cell.OfBrew.Name}"))
            .Concat(_columns.RandomTerms).ToArray();
        return $"linear mixed model of the score; fixed: {_columns.BrewInWords()}; random intercepts: {(random.Length == 0 ? "none" : string.Join(", ", random))}";
    }

    public Computation Computation(ScoredCups scored, ulong seed) => new(
        InWords(),
        "restricted maximum likelihood; estimates, intervals and probabilities from joint draws of the variances (importance sampling) and of the effects (Gaussian given these); an interval is the middle 95 % of the draws",
        scored.Cups.Count, scored.LeftOut, seed);

    /// <summary>The expected score of a cup that is yet to be brewed, everything that it shares with other cups included.</summary>
    /// <param name="planned">The cup; its brewer and recipe are of the log's; all else may be new.</param>
    /// <returns>The score; nothing where the log can't tell one part of such a cup from another.</returns>
    public FurtherFunction? OfCup(Tasting planned)
    {
        if (ScoreFit.At(Fit, _columns.At(planned)) is not { } known)
            return null;
        var function = new FurtherFunction(known);
        foreach (var (factor, column) in _kinds)
            function += Intercept(column, factor.LevelOf(planned));
        if (_coffee is not null)
            function += Intercept(_coffee, Factor.Coffee.LevelOf(planned));
        if (_bag is not null)
            function += Intercept(_bag, Factor.Bag.LevelOf(planned));
        foreach (var cell in _cells)
            function += Intercept(cell.Column, $"{cell.OfCoffee.LevelOf(planned)}:{cell.OfBrew.LevelOf(planned)}");
        if (_columns.Session is { } session)
            function += Intercept(session, ScoreColumns.SessionOf(planned));
        if (_columns.Taster is { } taster)
            function += Intercept(taster, Factor.Taster.LevelOf(planned));
        return function;
    }

    private FurtherFunction Intercept(CategoricalColumn group, string level) => ScoreFit.Intercept(Fit, group.Name, level);

    private FurtherFunction WithCells(LinearFunction function, StandardBrew brew, IEnumerable<Cell> cells, Func<Cell, string> levelOf) => cells.Aggregate(
        new FurtherFunction(function),
        (sum, cell) => sum + Intercept(cell.Column, $"{levelOf(cell)}:{(cell.OfBrew == Factor.Brewer ? brew.Brewer : brew.RecipeFrom)}"));

    private sealed record Kind(Factor Factor, CategoricalColumn Column);

    private sealed record Cell(Factor OfCoffee, Factor OfBrew, CategoricalColumn Column);
}
