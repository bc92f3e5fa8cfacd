using System.Globalization;
using TastingKit.Reading;

namespace TastingKit.Joining;

/// <summary>Brings the scores of several folders onto one scale an attribute: that of the last folder which has it.</summary>
internal sealed class AlignedScales
{
    private readonly Dictionary<TastingAttribute, Scale> _scales = [];
    private readonly Dictionary<FolderLog, List<Move>> _moves = [];

    /// <summary>Decides by all folders, and reports what each has otherwise.</summary>
    public AlignedScales(IReadOnlyList<FolderLog> folders)
    {
        foreach (var attribute in folders.SelectMany(folder => Used(folder.Log)).Distinct().ToList())
        {
            var users = folders.Where(folder => Used(folder.Log).Contains(attribute)).ToList();
            var target = users[^1].Log.ScaleOf(attribute);
            if (users.Exists(folder => folder.Log.StatedScales.Any(scale => scale.Attribute.Equals(attribute))))
                _scales[attribute] = target;
            foreach (var folder in users.Where(folder => folder.Log.ScaleOf(attribute) != target))
                Settle(folder, attribute, folder.Log.ScaleOf(attribute), target, users[^1].Label);
        }
    }

    /// <summary>The scales of the joined log.</summary>
    public IReadOnlyList<Scale> Scales => [.. _scales.Values];

    /// <summary>A cup of a folder with its scores where they belong.</summary>
    public Tasting Moved(FolderLog folder, Tasting cup)
    {
        if (!_moves.TryGetValue(folder, out var moves))
            return cup;
        var values = cup.Attributes.ToDictionary();
        var written = new Dictionary<string, string>(cup.AsWritten, StringComparer.Ordinal);
        var score = cup.Score;
        foreach (var move in moves)
        {
            if (cup.ValueOf(move.From.Attribute) is not { } value)
                continue;
            written[move.From.Attribute.Name] = value.ToString("R", CultureInfo.InvariantCulture);
            if (move.From.Attribute.Equals(TastingAttribute.Score))
                score = null;
            else
                values.Remove(move.From.Attribute);
            if (move.To.Attribute.Equals(TastingAttribute.Score))
                score = move.Value(value);
            else
                values[move.To.Attribute] = move.Value(value);
        }

        return cup with { Score = score, Attributes = values.AsReadOnly(), AsWritten = written.AsReadOnly() };
    }

    /// <summary>A published score of a folder where it belongs; none where its scale is of another kind.</summary>
    public double? MovedScore(FolderLog folder, double? score)
    {
        if (score is not { } value || !_moves.TryGetValue(folder, out var moves) || moves.Find(move => move.From.Attribute.Equals(TastingAttribute.Score)) is not { } move)
            return score;
        return move.To.Attribute.Equals(TastingAttribute.Score) ? move.Value(value) : null;
    }

    private static IEnumerable<TastingAttribute> Used(TastingLog log) =>
        log.Attributes.Concat(log.StatedScales.Select(scale => scale.Attribute)).Append(TastingAttribute.Score).Distinct();

    private void Settle(FolderLog folder, TastingAttribute attribute, Scale here, Scale target, string last)
    {
        var values = folder.Log.Tastings.Count(cup => cup.ValueOf(attribute) is not null);
        if (values == 0)
            return;
        if (here.Kind != target.Kind)
        {
            var apart = TastingAttribute.Named($"{attribute.Name} ({folder.Label})");
            var own = new Scale(apart, here.Kind, here.Min, here.Max, here.Step);
            _scales[apart] = own;
            Add(folder, new Move(here, own));
            folder.OnFile(folder.CupsFile, Severity.Doubtful, attribute.Name, Said(here), new CellFault(Rule.ScaleKindsDiffer,
                $"In {last} the scale is {Said(target)}: of another kind, so that no number of the one is a number of the other. {NumberText.Count(values, "value")} kept as '{apart.Name}'.",
                "one kind in every scales.csv, if it is one"));
            return;
        }

        var isMoved = (here.Min, here.Max) != (target.Min, target.Max);
        if (isMoved)
            Add(folder, new Move(here, target));
        folder.OnFile(folder.CupsFile, Severity.Information, attribute.Name, Said(here), new CellFault(Rule.ScaleAligned,
            $"In {last} the scale is {Said(target)}. " + (isMoved
                ? $"{NumberText.Count(values, "value")} moved linearly, {Text(here.Min)} to {Text(target.Min)} and {Text(here.Max)} to {Text(target.Max)}; what is written is kept beside."
                : $"{NumberText.Count(values, "value")} stay as they are."),
            "one scale in every folder"));
    }

    private void Add(FolderLog folder, Move move)
    {
        if (!_moves.TryGetValue(folder, out var moves))
            _moves.Add(folder, moves = []);
        moves.Add(move);
    }

    private static string Said(Scale scale) =>
        $"{(scale.Kind == ScaleKind.JustRight ? "just-right" : scale.Kind.ToString().ToLowerInvariant())} {Text(scale.Min)} to {Text(scale.Max)} in steps of {Text(scale.Step)}";

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);

    private sealed record Move(Scale From, Scale To)
    {
        // Rounded to what no scale is finer than, so that the arithmetic leaves no trace in the last digits.
        public double Value(double written) => Math.Round(To.Min + (written - From.Min) / (From.Max - From.Min) * (To.Max - To.Min), 10);
    }
}
