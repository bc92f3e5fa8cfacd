using System.Globalization;
using System.Text;
using Microsoft.CodeAnalysis.CSharp;
using TastingKit.Pages;

namespace TastingKit.Cli.Scripts;

/// <summary>
/// A notebook as the text of a file-based program, which `dotnet run FILE.cs` runs: prose and code are carried as they are, and
/// each cell's code follows its text.
/// </summary>
internal sealed class ScriptText
{
    private const int ShortestFence = 3;

    private static readonly string[] Projects = ["TastingKit.Pages", "TastingKit.Charts", "TastingKit", "TastingKit.Statistics"];

    /// <summary>Those of a build of one's own, wherever the file lies: a folder above it may ask for something else.</summary>
    private static readonly string[] Properties =
    [
        "PublishAot=false", "ImplicitUsings=disable", "Nullable=disable", "AllowUnsafeBlocks=true", "InvariantGlobalization=true", "TreatWarningsAsErrors=false",
        "EnforceCodeStyleInBuild=false", "GenerateDocumentationFile=false",
    ];

    private readonly StringBuilder _text = new();
    private readonly List<(int Line, int Cell)> _cellsFrom = [];

    /// <param name="notebook">The notebook.</param>
    /// <param name="cells">Its code cells.</param>
    /// <param name="kit">The folder of the kit's sources as the script finds it, separated by slashes.</param>
    /// <param name="fileName">The script's own name, for its first lines.</param>
    internal ScriptText(NotebookDocument notebook, IReadOnlyList<ScriptCell> cells, string kit, string fileName)
    {
        var names = new ScriptNames(cells);
        var written = cells.ToDictionary(cell => cell.Cell.Number, cell => CellWriter.Write(cell, names, notebook.Name));
        foreach (var project in Projects)
            Line($"#:project {kit}/src/{project}");
        foreach (var property in Properties)
            Line($"#:property {property}");
        Line("");
        Line($"// The notebook {Shown(notebook.Name)} as a program, which needs no Jupyter and no kernel:");
        Line($"//   dotnet run {Shown(fileName)} -- --log FOLDER --out FILE.html");
        Line("// Every cell stands here twice: as the page shows it, and as it runs. Who changes one changes both.");
        Line("");
        foreach (var directive in ScriptCell.Preamble.Concat(written.Values.SelectMany(cell => cell.Usings)).Distinct(StringComparer.Ordinal))
            Line(directive);
        Line("");
        Line($"ScriptPage.Begin({Literal(notebook.Name)}, args);");
        foreach (var cell in notebook.Cells)
            _ = cell.Match(Prose, code => Code(code, written[code.Number]), Other);
        Line("");
        Line("ScriptPage.Write();");
        foreach (var (number, cell) in written.OrderBy(pair => pair.Key))
            Types(number, cell.Types);
    }

    /// <summary>The program, its lines ended by line feeds.</summary>
    public override string ToString() => _text.ToString();

    /// <summary>The cell that a line of the program came from.</summary>
    /// <param name="line">From 0.</param>
    internal int CellOf(int line) => _cellsFrom.LastOrDefault(cell => cell.Line <= line).Cell;

    private bool Prose(NotebookCell.Prose prose)
    {
        Line("");
        if (prose.Attachments.Count == 0)
        {
            Line($"ScriptPage.Prose({Literal(prose.Source)});");
            return true;
        }

        Line($"ScriptPage.Prose({Literal(prose.Source)}, new Dictionary<string, string>");
        Line("{");
        foreach (var (name, data) in prose.Attachments)
            Line($"    [{Quoted(name)}] = {Quoted(data)},");
        Line("});");
        return true;
    }

    private bool Other(NotebookCell.Other other)
    {
        Line("");
        Line($"ScriptPage.Other({Literal(other.Source)});");
        return true;
    }

    private bool Code(NotebookCell.Code code, WrittenCell written)
    {
        Line("");
        _cellsFrom.Add((LineCount, code.Number));
        Line(string.Create(CultureInfo.InvariantCulture, $"// Cell {code.Number}"));
        Line($"ScriptPage.Code({Literal(code.Source)}{string.Concat(code.Tags.Select(tag => $", {Quoted(tag)}"))});");
        if (written.Statements.Length > 0)
            Line(written.Statements);
        return true;
    }

    private void Types(int cell, IReadOnlyList<string> types)
    {
        foreach (var type in types)
        {
            Line("");
            _cellsFrom.Add((LineCount, cell));
            Line(type);
        }
    }

    private int LineCount { get; set; }

    private void Line(string text)
    {
        _text.Append(text).Append('\n');
        LineCount += 1 + text.Count(character => character == '\n');
    }

    /// <summary>A text as a literal that holds it exactly; over several lines where it has several and all of it can be seen.</summary>
    private static string Literal(string text)
    {
        if (!text.Contains('\n', StringComparison.Ordinal) || text.Any(IsUnseen))
            return Quoted(text);
        var fence = new string('"', Math.Max(ShortestFence, 1 + LongestRunOfQuotes(text)));
        return $"{fence}\n{text}\n{fence}";
    }

    /// <summary>A literal on one line in which nothing is unseen.</summary>
    private static string Quoted(string text)
    {
        var literal = new StringBuilder();
        foreach (var character in SymbolDisplay.FormatLiteral(text, quote: true))
            _ = IsUnseen(character) ? literal.Append(CultureInfo.InvariantCulture, $"\\u{(int)character:x4}") : literal.Append(character);
        return literal.ToString();
    }

    /// <summary>What an editor or a compiler may show or take otherwise than it is.</summary>
    private static bool IsUnseen(char character) => character is not ('\n' or '\t') && (char.IsControl(character) || char.IsSurrogate(character) ||
        char.GetUnicodeCategory(character) is UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);

    private static int LongestRunOfQuotes(string text)
    {
        var (longest, run) = (0, 0);
        foreach (var character in text)
        {
            run = character == '"' ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }

        return longest;
    }

    private static string Shown(string name) => RunMessages.OneLine(name);
}
