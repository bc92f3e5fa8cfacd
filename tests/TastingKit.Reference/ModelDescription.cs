using System.Globalization;
using System.Text.Json;

namespace TastingKit.Reference;

/// <summary>One model of a case, as model.json describes it.</summary>
internal sealed record ModelDescription(
    string Id,
    string Kind,
    string Response,
    bool Intercept,
    IReadOnlyList<IReadOnlyList<string>> Fixed,
    IReadOnlyList<RandomDescription> Random,
    IReadOnlyList<IReadOnlyList<string>> MarginalMeans,
    IReadOnlyDictionary<string, Func<string, bool>> Where,
    string? Weights,
    string Link,
    IReadOnlyList<IReadOnlyList<string>> Scale,
    IReadOnlyList<IReadOnlyList<string>> Nominal,
    int Quadrature)
{
    private const string Square = "^2";

    /// <summary>Every column of the data that the model needs a value in.</summary>
    public IEnumerable<string> Columns => new[] { Response }
        .Concat(Fixed.SelectMany(t => t).Concat(Scale.SelectMany(t => t)).Concat(Nominal.SelectMany(t => t)).Select(BaseName))
        .Concat(Random.SelectMany(r => r.Group.Concat(r.Slopes.Select(BaseName))))
        .Concat(Weights is null ? [] : [Weights]);

    public static ModelDescription Parse(JsonElement model, IEnumerable<string> columns)
    {
        string id = model.GetProperty("id").GetString()!;
        var known = columns.ToHashSet(StringComparer.Ordinal);
        return new ModelDescription(
            id,
            model.GetProperty("kind").GetString()!,
            model.GetProperty("response").GetString()!,
            !model.TryGetProperty("intercept", out var intercept) || intercept.GetBoolean(),
            InOrderOfAppearance(Terms(model, "fixed", known)),
            model.TryGetProperty("random", out var random) ? [.. random.EnumerateArray().Select(RandomDescription.Parse)] : [],
            Terms(model, "marginalMeans", known),
            Conditions(model),
            model.TryGetProperty("weights", out var weights) ? weights.GetString() : null,
            model.TryGetProperty("link", out var link) ? link.GetString()! : "logit",
            Terms(model, "scale", known),
            Terms(model, "nominal", known),
            model.TryGetProperty("quadrature", out var quadrature) ? quadrature.GetInt32() : 1);
    }

    /// <summary>The column that a term's variable is made of: "day" for "day^2".</summary>
    public static string BaseName(string variable) => IsSquare(variable) ? variable[..^Square.Length] : variable;

    public static bool IsSquare(string variable) => variable.EndsWith(Square, StringComparison.Ordinal);

    // A term is a list of columns, a column, or columns joined by ':'.
    private static List<IReadOnlyList<string>> Terms(JsonElement model, string property, HashSet<string> known)
    {
        if (!model.TryGetProperty(property, out var terms) || terms.ValueKind == JsonValueKind.Null)
        {
            return [];
        }

        if (terms.ValueKind == JsonValueKind.String)
        {
            return [Split(terms.GetString()!, known)];
        }

        return [.. terms.EnumerateArray().Select(t => t.ValueKind == JsonValueKind.Array
            ? (IReadOnlyList<string>)[.. t.EnumerateArray().Select(c => c.GetString()!)]
            : Split(t.GetString()!, known))];
    }

    private static string[] Split(string term, HashSet<string> known) => known.Contains(term) ? [term] : term.Split(':');

    // An interaction names its columns in the order in which they first appear in the model, whatever order it lists them in.
    private static List<IReadOnlyList<string>> InOrderOfAppearance(List<IReadOnlyList<string>> terms)
    {
        string[] order = [.. terms.SelectMany(t => t).Distinct()];
        return [.. terms.Select(t => (IReadOnlyList<string>)[.. t.OrderBy(c => Array.IndexOf(order, c))])];
    }

    private static Dictionary<string, Func<string, bool>> Conditions(JsonElement model)
    {
        var conditions = new Dictionary<string, Func<string, bool>>(StringComparer.Ordinal);
        if (!model.TryGetProperty("where", out var where) || where.ValueKind == JsonValueKind.Null)
        {
            return conditions;
        }

        foreach (var condition in where.EnumerateObject())
        {
            conditions.Add(condition.Name, Condition(condition.Value));
        }

        return conditions;
    }

    private static Func<string, bool> Condition(JsonElement value)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Number:
                double number = value.GetDouble();
                return cell => double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double x) && x == number;
            case JsonValueKind.Array:
                Func<string, bool>[] any = [.. value.EnumerateArray().Select(Condition)];
                return cell => Array.Exists(any, test => test(cell));
            case JsonValueKind.True or JsonValueKind.False:
                string word = value.GetBoolean() ? "TRUE" : "FALSE";
                return cell => string.Equals(cell, word, StringComparison.OrdinalIgnoreCase);
            default:
                string text = value.GetString()!;
                return cell => cell == text;
        }
    }
}

/// <summary>One random term of a model.</summary>
internal sealed record RandomDescription(IReadOnlyList<string> Group, bool Intercept, IReadOnlyList<string> Slopes)
{
    public static RandomDescription Parse(JsonElement term) => new(
        Strings(term.GetProperty("group")),
        !term.TryGetProperty("intercept", out var intercept) || intercept.GetBoolean(),
        term.TryGetProperty("slopes", out var slopes) ? Strings(slopes) : []);

    private static string[] Strings(JsonElement element) => element.ValueKind == JsonValueKind.Array
        ? [.. element.EnumerateArray().Select(e => e.GetString()!)]
        : [element.GetString()!];
}
