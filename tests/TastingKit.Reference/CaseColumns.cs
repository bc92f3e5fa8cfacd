using System.Globalization;
using System.Text.Json;
using TastingKit.Statistics;

namespace TastingKit.Reference;

/// <summary>The columns of one model, over its own rows.</summary>
internal sealed class CaseColumns
{
    private readonly DataTable _data;
    private readonly JsonElement _kinds;
    private readonly List<int> _rows;

    public CaseColumns(DataTable data, JsonElement kinds, ModelDescription model)
    {
        _data = data;
        _kinds = kinds;
        _rows = data.Rows(model.Where, model.Columns);
        if (_rows.Count == 0)
        {
            throw new CaseException($"No row of the data fulfils the conditions and has every value that model '{model.Id}' needs.");
        }
    }

    /// <summary>A column as its kind says; "day^2" is the covariate of the squares, under the name of its coefficient.</summary>
    public Column Column(string variable)
    {
        if (ModelDescription.IsSquare(variable))
        {
            string name = ModelDescription.BaseName(variable);
            return new NumericColumn(SquareName(variable), Array.ConvertAll(_data.Numbers(name, _rows), x => x * x));
        }

        return IsNumber(variable) ? Numeric(variable) : Factor(variable);
    }

    public NumericColumn Numeric(string name) => new(name, _data.Numbers(name, _rows));

    public CategoricalColumn Factor(string name)
    {
        string[] cells = _data.Column(name, _rows);
        return _kinds.TryGetProperty(name, out var kind) && kind.ValueKind == JsonValueKind.Array
            ? CategoricalColumn.From(name, cells, [.. kind.EnumerateArray().Select(l => l.GetString()!)])
            : CategoricalColumn.From(name, cells);
    }

    /// <summary>An ordered response: in its stated order, else by number where all levels are numbers.</summary>
    public CategoricalColumn Ordered(string name)
    {
        var factor = Factor(name);
        bool isStated = _kinds.TryGetProperty(name, out var kind) && kind.ValueKind == JsonValueKind.Array;
        if (isStated || !factor.Levels.All(l => double.TryParse(l, NumberStyles.Float, CultureInfo.InvariantCulture, out _)))
        {
            return factor;
        }

        return CategoricalColumn.From(name, _data.Column(name, _rows), [.. factor.Levels.OrderBy(l => double.Parse(l, CultureInfo.InvariantCulture))]);
    }

    /// <summary>A grouping factor, the combination of columns if there are several.</summary>
    public CategoricalColumn Group(IReadOnlyList<string> names) => names.Skip(1).Aggregate(Factor(names[0]), (group, name) => group.Cross(Factor(name)));

    public double[] Numbers(string name) => _data.Numbers(name, _rows);

    /// <summary>What the coefficient of a square is called.</summary>
    public static string SquareName(string variable) => $"I({variable})";

    private bool IsNumber(string name) => _kinds.TryGetProperty(name, out var kind)
        ? kind.ValueKind == JsonValueKind.String && kind.GetString() != "factor"
        : throw new CaseException($"model.json does not say what column '{name}' is.");
}
