using System.Text.Json;
using System.Text.Json.Nodes;

namespace TastingKit.Reference;

/// <summary>A folder with data and the models to fit to them.</summary>
internal sealed class ReferenceCase
{
    private readonly DataTable _data;
    private readonly JsonElement _columns;
    private readonly IReadOnlyList<ModelDescription> _models;

    private ReferenceCase(DataTable data, JsonElement columns, IReadOnlyList<ModelDescription> models)
    {
        _data = data;
        _columns = columns;
        _models = models;
    }

    public static ReferenceCase Read(string folder)
    {
        var description = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "model.json"))).RootElement;
        var columns = description.GetProperty("columns");
        return new ReferenceCase(
            DataTable.Read(Path.Combine(folder, description.GetProperty("data").GetString()!)),
            columns,
            [.. description.GetProperty("models").EnumerateArray().Select(m => ModelDescription.Parse(m, columns.EnumerateObject().Select(c => c.Name)))]);
    }

    /// <summary>Fits every model; one that can't be fitted says why and leaves the others alone.</summary>
    public JsonObject Fit() => new() { ["models"] = new JsonArray([.. _models.Select(Fit)]) };

    private JsonObject Fit(ModelDescription model)
    {
        try
        {
            var columns = new CaseColumns(_data, _columns, model);
            return model.Kind switch
            {
                "linear" => LinearFigures.Of(model, columns),
                "ordinal" => OrdinalFigures.Of(model, columns),
                _ => throw new CaseException($"Model '{model.Id}' is of kind '{model.Kind}'; known are linear and ordinal."),
            };
        }
        catch (Exception error) when (error is not OutOfMemoryException)
        {
            // Whatever one model meets, the figures of the others are wanted.
            return new JsonObject { ["id"] = model.Id, ["error"] = error.Message };
        }
    }
}
