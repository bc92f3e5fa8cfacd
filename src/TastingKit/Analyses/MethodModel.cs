using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The mixed model behind what a part of the method does: what is asked and everything else about the brew as fixed terms, each with
/// its mean within the coffee (so that differences are within coffees), and what processes and coffees have to themselves as random ones.
/// </summary>
internal sealed class MethodModel
{
    internal const int CupsAFixedColumn = 6;

    private const int Shares = 15;

    private const int FewestCoffees = 3;

    private static readonly Factor[] Factors = [Factor.Brewer, Factor.RecipeFrom, Factor.Water, Factor.Filter, Factor.Grinder];
    private static readonly Covariate[] Covariates = [Covariate.WaterTemperature, Covariate.Ratio];

    private readonly Factor? _factor;
    private readonly IReadOnlyList<MethodTerm> _fixed;

    private MethodModel(
        LinearMixedModelFit fit, ScoreColumns columns, Factor? factor, IReadOnlyList<MethodTerm> fixedTerms, CategoricalColumn? processCell, CategoricalColumn? coffeeCell, IReadOnlyList<string> partOfIt, string words)
    {
        (Fit, Columns, _factor, _fixed, ProcessCell, CoffeeCell, PartOfIt, Words) = (fit, columns, factor, fixedTerms, processCell, coffeeCell, partOfIt, words);
    }

    public LinearMixedModelFit Fit { get; }

    public ScoreColumns Columns { get; }

    /// <summary>Process by level of the factor asked; nothing where the log does not tell processes apart.</summary>
    public CategoricalColumn? ProcessCell { get; }

    /// <summary>Coffee by level of the factor asked; nothing where hardly a coffee has two cups of one level.</summary>
    public CategoricalColumn? CoffeeCell { get; }

    /// <summary>What always changes with the factor asked, and so is part of its difference.</summary>
    public IReadOnlyList<string> PartOfIt { get; }

    public string Words { get; }

    /// <summary>The model of a factor; nothing where the log leaves no chance to judge by.</summary>
    public static MethodModel? Of(ScoreColumns columns, TastingAttribute attribute, Factor factor, CategoricalColumn method, WorkWatch watch)
    {
        var isRecipe = factor == Factor.RecipeFrom || factor == Factor.Recipe;
        var (others, partOfIt) = Others(columns.Cups, method, isRecipe ? [] : Covariates);
        var coffee = CategoricalColumn.From(Factor.Coffee.Name, [.. columns.Cups.Select(Factor.Coffee.LevelOf)]);
        var asked = MethodTerm.Of(factor, method);
        var (design, kept, fixedWords) = Fixed(columns, attribute, method, others, coffee);
        var random = new List<string>();
        design = AddCoffees(design, columns, coffee, random);

        CategoricalColumn? processCell = null;
        if (ScoreColumns.Varying(Factor.Process, columns.Cups) is { } process && process.Cross(method) is var cell && cell.Levels.Count < columns.Cups.Count / 3)
        {
            processCell = cell;
            design = design.WithRandomIntercept(cell);
            random.Add($"process by {factor.Name}");
        }

        var byCoffee = coffee.Cross(method);
        // Of one coffee or two its own difference can't be told from the method's.
        if (byCoffee.Levels.Count < columns.Cups.Count * 0.7 && byCoffee.Levels.Count > coffee.Levels.Count && coffee.Levels.Count >= FewestCoffees)
        {
            design = design.WithRandomIntercept(byCoffee);
            random.Add($"coffee by {factor.Name}");
        }
        else
        {
            byCoffee = null;
        }

        return ScoreFit.Of(design, watch) is { } fit
            ? new MethodModel(fit, columns, factor, [asked, .. kept], processCell, byCoffee, partOfIt, InWords(attribute, fixedWords, random))
            : null;
    }

    /// <summary>The model of a covariate, in steps from its mean; nothing where the log leaves no chance to judge by.</summary>
    /// <param name="columns">Cups that all have a value of the covariate.</param>
    /// <param name="attribute">What is modelled.</param>
    /// <param name="covariate">The covariate asked.</param>
    /// <param name="steps">Its values in steps from their mean.</param>
    /// <param name="square">The same squared, to look for a bend; nothing for the straight line alone.</param>
    /// <param name="watch">Who watches.</param>
    public static MethodModel? Of(
        ScoreColumns columns, TastingAttribute attribute, Covariate covariate, NumericColumn steps, NumericColumn? square, WorkWatch watch)
    {
        var (others, _) = Others(columns.Cups, null, [.. Covariates.Where(other => other.Name != covariate.Name)]);
        var coffee = CategoricalColumn.From(Factor.Coffee.Name, [.. columns.Cups.Select(Factor.Coffee.LevelOf)]);
        var (design, _, words) = Fixed(columns, attribute, steps, square is null ? others : [new MethodTerm(square), .. others], coffee);
        var random = new List<string>();
        design = AddCoffees(design, columns, coffee, random);
        foreach (var (group, fewest) in new[] { (ScoreColumns.Varying(Factor.Process, columns.Cups), 3), (coffee, 8) })
        {
            if (group is null || LevelsThatVary(group, steps) < fewest)
                continue;
            design = design.WithRandomSlope(group, steps);
            random.Add($"slope by {group.Name}");
        }

        return ScoreFit.Of(design, watch) is { } fit ? new MethodModel(fit, columns, null, [], null, null, [], InWords(attribute, words, random)) : null;
    }

    /// <summary>Counts the further cups of a difference from what the fit says of cups and coffees.</summary>
    /// <param name="factor">The factor asked.</param>
    /// <param name="first">The level that the difference speaks of.</param>
    /// <param name="second">The level it is held against.</param>
    /// <param name="deviation">Standard deviation of the difference now.</param>
    /// <param name="multiplier">How many of these its simultaneous interval reaches.</param>
    /// <param name="alone">How many its interval by itself reaches.</param>
    /// <param name="level">The level of both.</param>
    /// <param name="margin">The difference that is to be told.</param>
    /// <param name="joint">Draws of the variances.</param>
    public FurtherCupsPlan PlanFor(Factor factor, string first, string second, double deviation, double multiplier, double alone, double level, double margin, JointDraws joint)
    {
        var cups = Columns.Cups.GroupBy(c => c.Bag.Coffee.Id)
            .Select(coffee => (First: (double)coffee.Count(c => factor.LevelOf(c) == first), Second: (double)coffee.Count(c => factor.LevelOf(c) == second)))
            .Where(coffee => coffee is { First: > 0, Second: > 0 }).ToArray();
        return new FurtherCupsPlan(
            deviation, multiplier, alone, Certain(level), margin, CupVariance, CoffeeCell is null ? [0] : Drawn(joint.StandardDeviations(CoffeeCell.Name), 2), cups);
    }

    /// <summary>Counts the further cups of a step, half of them at either end of the values brewed.</summary>
    /// <param name="steps">The covariate's column, in steps.</param>
    /// <param name="length">How many steps lie between the two ends.</param>
    /// <param name="deviation">Standard deviation of the difference of a step now.</param>
    /// <param name="multiplier">How many of these its interval reaches.</param>
    /// <param name="margin">The difference of a step that is to be told.</param>
    /// <param name="joint">Draws of the variances.</param>
    public FurtherCupsPlan PlanFor(NumericColumn steps, double length, double deviation, double multiplier, double margin, JointDraws joint)
    {
        // Cups scattered over the values tell as much as so many at the two ends as have the same sum of squares.
        var cups = Columns.Cups.Select((cup, row) => (Coffee: cup.Bag.Coffee.Id, Value: steps.Values[row])).GroupBy(c => c.Coffee)
            .Select(coffee => coffee.Sum(c => Math.Pow(c.Value - coffee.Average(other => other.Value), 2)))
            .Where(squares => squares > 1e-9).Select(squares => 2 * squares / (length * length)).Select(worth => (worth, worth)).ToArray();
        var differs = Fit.VarianceComponents.Any(component => component.Group == Factor.Coffee.Name && component.Terms.Contains(steps.Name));
        return new FurtherCupsPlan(
            deviation, multiplier, multiplier, Certain(0.95), margin, CupVariance / (length * length), differs ? Drawn(joint.StandardDeviations(Factor.Coffee.Name, steps.Name), 1) : [0], cups);
    }

    /// <summary>The expected score of a cup that is yet to be brewed, everything that it shares with other cups included.</summary>
    /// <param name="planned">The cup; its brew is of the log's levels, all else may be new.</param>
    /// <returns>The score; nothing where the log can't tell one part of such a cup from another.</returns>
    public FurtherFunction? OfCup(Tasting planned)
    {
        var setting = _fixed.Aggregate(
            Columns.WhenAndWhere(Setting.Averaged(MarginalWeights.AsObserved), planned), (sum, term) => term.With is { } with ? with(sum, planned) : sum);
        if (ScoreFit.At(Fit, setting) is not { } known)
            return null;
        var levels = new[] { Factor.Coffee, Factor.Bag, Factor.Taster }.ToDictionary(factor => factor.Name, factor => factor.LevelOf(planned));
        levels["session"] = ScoreColumns.SessionOf(planned);
        foreach (var (cell, of) in new[] { (ProcessCell, Factor.Process), (CoffeeCell, Factor.Coffee) })
        {
            if (cell is not null)
                levels[cell.Name] = CellOf(of.LevelOf(planned), _factor!.LevelOf(planned));
        }

        return Fit.VarianceComponents.Select(component => component.Group)
            .Aggregate(new FurtherFunction(known), (sum, group) => sum + ScoreFit.Intercept(Fit, group, levels[group]));
    }

    /// <summary>First minus second for one coffee, its process's own difference and its own included.</summary>
    /// <param name="cup">A cup of the coffee.</param>
    /// <param name="first">A level of the factor.</param>
    /// <param name="second">Another.</param>
    /// <returns>The difference; nothing where the log can't tell it from the rest of the brew.</returns>
    public FurtherFunction? DifferenceFor(Tasting cup, string first, string second)
    {
        if (MethodAnalysis.FixedContrast(Fit, (CategoricalColumn)_fixed[0].Column, first, second) is not { } known)
            return null;
        return new[] { (ProcessCell, Factor.Process), (CoffeeCell, Factor.Coffee) }.Where(cell => cell.Item1 is not null).Aggregate(
            new FurtherFunction(known), (sum, cell) => sum
                + ScoreFit.Intercept(Fit, cell.Item1!.Name, CellOf(cell.Item2.LevelOf(cup), first)) - ScoreFit.Intercept(Fit, cell.Item1.Name, CellOf(cell.Item2.LevelOf(cup), second)));
    }

    private static string CellOf(string level, string method) => $"{level}:{method}";

    private static double Certain(double level) => StandardNormal.Quantile((1 + level) / 2);

    /// <summary>What a variance may be, at even shares of its draws: of few coffees the likeliest is often nought, which would promise too much of more cups.</summary>
    private static double[] Drawn(double[] deviations, double factor)
    {
        double[] sorted = [.. deviations.Order()];
        return [.. Enumerable.Range(0, Shares).Select(i => factor * Math.Pow(Quantiles.OfSorted(sorted, (i + 0.5) / Shares), 2))];
    }

    /// <summary>Cups that are held against one another are seldom of one session, so that a session's own shift is part of a cup's chance.</summary>
    private double CupVariance => Fit.VarianceComponents.Where(component => component.Group == "session")
        .Sum(component => component.StandardDeviations[0] * component.StandardDeviations[0]) + (Fit.ResidualStandardDeviation * Fit.ResidualStandardDeviation);

    /// <summary>The covariate's values in steps from their mean over the cups; every cup must have one.</summary>
    public static NumericColumn InSteps(Covariate covariate, IReadOnlyList<Tasting> cups)
    {
        double[] values = [.. cups.Select(c => covariate.ValueOf(c)!.Value / covariate.Step)];
        var mean = values.Average();
        return new NumericColumn(covariate.Name, values.Select(value => value - mean).ToArray());
    }

    private static (ModelDesign Design, IReadOnlyList<MethodTerm> Kept, string Words) Fixed(
        ScoreColumns columns, TastingAttribute attribute, Column asked, IReadOnlyList<MethodTerm> others, CategoricalColumn coffee)
    {
        // What is asked stands first, so that nothing else takes its place where columns depend on each other.
        var design = ModelDesign.For(attribute.Name, columns.Scores).WithFixed(asked);
        var words = new List<string> { asked.Name };
        var means = new List<Column> { asked };
        if (columns.Rest is { } rest)
        {
            design = design.WithFixed(rest);
            means.Add(rest);
            words.Add("days of rest (natural cubic spline)");
        }

        if (columns.RestStated is { } stated)
            design = design.WithFixed(stated);
        if (columns.Position is { } position && position.Name != asked.Name)
        {
            design = design.WithFixed(position);
            words.Add("position in the session");
        }

        var left = (columns.Cups.Count / CupsAFixedColumn) - means.Sum(Width);
        var kept = new List<MethodTerm>();
        foreach (var term in others)
        {
            var other = term.Column;
            if (Width(other) > left)
                continue;
            left -= Width(other);
            design = design.WithFixed(other);
            means.Add(other);
            kept.Add(term);
            words.Add(other.Name);
        }

        var before = design.FixedTerms.Count;
        foreach (var column in means)
            design = WithinCoffees.AddMeans(design, coffee, column);
        kept.AddRange(design.FixedTerms.Skip(before).Select(term => MethodTerm.OfMean((NumericColumn)term.Columns[0], columns.Cups)));
        return (columns.AddRandomTo(design), kept, string.Join(", ", words));

        static int Width(Column column) => 2 * (column switch { CategoricalColumn factor => factor.Levels.Count - 1, CovariateBasis basis => basis.Width, _ => 1 });
    }

    private static ModelDesign AddCoffees(ModelDesign design, ScoreColumns columns, CategoricalColumn coffee, List<string> random)
    {
        if (coffee.Levels.Count > 1 && coffee.Levels.Count < columns.Cups.Count)
        {
            design = design.WithRandomIntercept(coffee);
            random.Add("coffee");
        }

        random.AddRange(columns.RandomTerms);
        if (columns.Cups.Select(c => c.Bag.Id).Distinct().Count() - coffee.Levels.Count >= 2)
        {
            design = design.WithRandomIntercept(CategoricalColumn.From(Factor.Bag.Name, [.. columns.Cups.Select(Factor.Bag.LevelOf)]));
            random.Add("bag");
        }

        return design;
    }

    /// <summary>The rest of the method, as far as it varies and is not settled by what is asked.</summary>
    private static (List<MethodTerm> Others, List<string> PartOfIt) Others(IReadOnlyList<Tasting> cups, CategoricalColumn? asked, IReadOnlyList<Covariate> covariates)
    {
        var others = new List<MethodTerm>();
        var partOfIt = new List<string>();
        foreach (var factor in Factors)
        {
            if (factor.Name == asked?.Name || ScoreColumns.Varying(factor, cups) is not { } column)
                continue;
            if (asked is not null && (asked.Cross(column).Levels.Count == asked.Levels.Count || asked.Cross(column).Levels.Count == column.Levels.Count))
                partOfIt.Add(factor.Name);
            else
                others.Add(MethodTerm.Of(factor, column));
        }

        foreach (var covariate in covariates)
        {
            var terms = MethodTerm.Of(covariate, cups);
            if (terms.Count > 0 && asked is not null && IsSettledBy(asked, cups, covariate))
                partOfIt.Add(covariate.Name);
            else
                others.AddRange(terms);
        }

        return (others, partOfIt);
    }

    private static bool IsSettledBy(CategoricalColumn asked, IReadOnlyList<Tasting> cups, Covariate covariate) =>
        cups.Select((cup, row) => (Level: asked.Codes[row], Value: covariate.ValueOf(cup))).Where(c => c.Value is not null)
            .GroupBy(c => c.Level).All(g => g.Max(c => c.Value) - g.Min(c => c.Value) <= 1e-9);

    private static int LevelsThatVary(CategoricalColumn group, NumericColumn steps)
    {
        var rows = Enumerable.Range(0, group.Count).Select(row => (Level: group.Codes[row], Value: steps.Values[row]));
        return rows.GroupBy(row => row.Level).Count(level => level.Count() > 2 && level.Max(row => row.Value) - level.Min(row => row.Value) > 1e-9);
    }

    private static string InWords(TastingAttribute attribute, string fixedTerms, IReadOnlyList<string> random) =>
        $"linear mixed model of {(attribute.Equals(TastingAttribute.Score) ? "the score" : attribute.Name)}; fixed: {fixedTerms}, and the mean of each but the position within the coffee"
        + (random.Count == 0 ? "" : $"; random: {string.Join(", ", random)}");
}
