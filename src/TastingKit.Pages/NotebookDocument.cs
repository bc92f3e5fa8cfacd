using System.Text.Json;
using System.Text.Json.Nodes;

namespace TastingKit.Pages;

/// <summary>
/// A Jupyter notebook in C#. All but the outputs and counts of its C# cells (metadata, attachments, raw cells, other languages,
/// even the spacing) is kept as it was to the byte, since the file's own text is edited and not written anew. Immutable.
/// </summary>
public sealed class NotebookDocument
{
    private const string ExpectedKernel = "a notebook whose kernel runs C# (kernelspec language 'C#')";

    private static readonly string[] CSharpNames = ["c#", "csharp", ".net-csharp", "tastingkit"];

    private static readonly string[] OtherLanguages =
        ["fsharp", "f#", "pwsh", "powershell", "javascript", "js", "html", "markdown", "mermaid", "sql", "kql", "http", "value", "python", "python3", "r"];

    private readonly string _json;

    private NotebookDocument(string name, string json, IReadOnlyList<NotebookCell> cells)
    {
        Name = name;
        _json = json;
        Cells = cells;
    }

    /// <summary>The file's name without its folder.</summary>
    public string Name { get; }

    /// <summary>The cells in their order.</summary>
    public IReadOnlyList<NotebookCell> Cells { get; }

    /// <summary>The first heading of the prose, without its markup; the file's name if there is none.</summary>
    public string Title => TitleOf(Name, Cells);

    /// <summary>The first sentence of the prose, without its markup; empty if there is none.</summary>
    public string Description => Cells.OfType<NotebookCell.Prose>().Select(cell => ProseHtml.FirstSentence(cell.Source)).FirstOrDefault(sentence => sentence is not null) ?? "";

    /// <summary>Reads a notebook.</summary>
    /// <param name="path">An <c>.ipynb</c> file, version 4 of the format.</param>
    /// <exception cref="NotebookException">The file is no notebook, of another version, or in another language.</exception>
    /// <exception cref="IOException">The file can't be read.</exception>
    public static NotebookDocument Read(string path) => Parse(Path.GetFileName(path), File.ReadAllText(path));

    /// <summary>Reads a notebook from its JSON.</summary>
    /// <param name="name">The name by which errors call it.</param>
    /// <param name="json">The file's text.</param>
    /// <exception cref="NotebookException">The text is no notebook, of another version, or in another language.</exception>
    public static NotebookDocument Parse(string name, string json)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(json);
        try
        {
            if (JsonNode.Parse(json) is not JsonObject root || root["cells"] is not JsonArray cells)
                throw new NotebookException($"{name} is no notebook: it has no list of cells. Expected a Jupyter notebook, version 4 of the format.");
            if (root["nbformat"]?.GetValueKind() != JsonValueKind.Number || (int)root["nbformat"]! != 4)
                throw new NotebookException($"{name} is of version {root["nbformat"]?.ToJsonString() ?? "none"} of the notebook format. Expected version 4.");
            CheckLanguage(name, root);
            return new NotebookDocument(name, json, CellsOf(cells));
        }
        catch (JsonException error)
        {
            throw new NotebookException($"{name} is no notebook: its line {error.LineNumber + 1} is not JSON. Expected a Jupyter notebook, version 4 of the format.", error);
        }
        catch (Exception error) when (error is InvalidOperationException or FormatException)
        {
            throw new NotebookException($"{name} is no notebook: {error.Message} Expected a Jupyter notebook, version 4 of the format.", error);
        }
    }

    /// <summary>The notebook with new outputs in its code cells, as JSON that Jupyter and nbconvert read; old outputs are gone.</summary>
    /// <param name="outputs">Outputs by <see cref="NotebookCell.Code.Number"/>; a cell that is not among them did not run.</param>
    public string WithOutputs(IReadOnlyDictionary<int, IReadOnlyList<CellOutput>> outputs)
    {
        ArgumentNullException.ThrowIfNull(outputs);
        var text = new NotebookText(_json);
        foreach (var code in Cells.OfType<NotebookCell.Code>())
        {
            var hasRun = outputs.TryGetValue(code.Number, out var shown);
            text.Replace(code.Index, "execution_count", hasRun ? JsonValue.Create(code.Number) : null);
            text.Replace(code.Index, "outputs", new JsonArray([.. (shown ?? []).Select(output => NotebookJson.Output(output, code.Number))]));
        }

        return text.ToString();
    }

    /// <summary>
    /// The notebook with one more code cell, tagged <see cref="NotebookCell.Code.ValuesTag"/>, which sets what a run was asked to
    /// set. Later code cells count one more.
    /// </summary>
    /// <param name="after">The <see cref="NotebookCell.Index"/> of the cell that it follows.</param>
    /// <param name="source">The C# of the cell.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such cell.</exception>
    public NotebookDocument WithValues(int after, string source)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(after);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(after, Cells.Count);
        ArgumentNullException.ThrowIfNull(source);
        var text = new NotebookText(_json);
        text.InsertAfter(after, NotebookJson.ValuesCell(source, HasCellIds ? $"values-of-this-run-{after + 1}" : null));
        return Parse(Name, text.ToString());
    }

    /// <summary>Whether the notebook's version of the format gives every cell an identifier, and earlier ones none.</summary>
    private bool HasCellIds => JsonNode.Parse(_json)!["nbformat_minor"] is { } minor && minor.GetValueKind() == JsonValueKind.Number && (int)minor >= 5;

    internal static string TitleOf(string name, IReadOnlyList<NotebookCell> cells) =>
        cells.OfType<NotebookCell.Prose>().Select(cell => ProseHtml.FirstHeading(cell.Source)).FirstOrDefault(heading => !string.IsNullOrWhiteSpace(heading)) ?? name;

    private static void CheckLanguage(string name, JsonObject root)
    {
        var metadata = root["metadata"];
        string?[] written =
        [
            (string?)metadata?["kernelspec"]?["language"],
            (string?)metadata?["kernelspec"]?["name"],
            (string?)metadata?["language_info"]?["name"],
        ];
        if (written.FirstOrDefault(language => language is not null) is { } language && !written.Any(IsCSharp))
            throw new NotebookException($"{name} is written for '{language}'. Expected {ExpectedKernel}.");
    }

    private static List<NotebookCell> CellsOf(JsonArray cells)
    {
        var read = new List<NotebookCell>();
        var number = 0;
        for (var i = 0; i < cells.Count; i++)
        {
            var cell = cells[i]!.AsObject();
            var source = NotebookJson.Text(cell["source"]);
            read.Add((string?)cell["cell_type"] switch
            {
                "markdown" => new NotebookCell.Prose(i, source, NotebookJson.Attachments(cell["attachments"])),
                "code" when IsCSharp(cell, source) => new NotebookCell.Code(i, source, ++number, NotebookJson.Tags(cell["metadata"])),
                _ => new NotebookCell.Other(i, source),
            });
        }

        return read;
    }

    /// <summary>
    /// Whether a code cell is in C#: neither its metadata nor a first line such as <c>#!fsharp</c> or <c>%%python</c> says
    /// that it is in another language. Any other first line is run, so that what can't be run fails rather than being passed over.
    /// </summary>
    private static bool IsCSharp(JsonObject cell, string source)
    {
        var metadata = cell["metadata"];
        var language = (string?)metadata?["polyglot_notebook"]?["kernelName"] ?? (string?)metadata?["dotnet_interactive"]?["language"] ??
            (string?)metadata?["vscode"]?["languageId"];
        if (language is not null && !IsCSharp(language))
            return false;
        var first = source.AsSpan().TrimStart();
        if (first.StartsWith("%%", StringComparison.Ordinal))
            return false;
        if (!first.StartsWith("#!", StringComparison.Ordinal))
            return true;
        var word = first[2..];
        var end = word.IndexOfAny(" \t\r\n");
        return !OtherLanguages.Contains((end < 0 ? word : word[..end]).ToString(), StringComparer.OrdinalIgnoreCase);
    }

    private static bool IsCSharp(string? language) => language is not null && CSharpNames.Contains(language, StringComparer.OrdinalIgnoreCase);
}
