using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using TastingKit.Pages;

namespace TastingKit.Cli.Scripts;

/// <summary>A code cell as the compiler sees it: its syntax, and what each name in it means, after the cells before it.</summary>
internal sealed partial class ScriptCell
{
    /// <summary>What the kernel has imported before the first cell, and what stands in for its functions.</summary>
    internal static readonly string[] Preamble =
    [
        "using System;", "using System.Collections;", "using System.Collections.Generic;", "using System.Linq;", "using System.Text;",
        "using System.Threading.Tasks;", "using TastingKit.Pages;", "using static TastingKit.Pages.ScriptedNotebook;", "using TastingNotebook = TastingKit.Pages.ScriptedNotebook;",
    ];

    internal static readonly CSharpCompilationOptions Options = new(OutputKind.ConsoleApplication, allowUnsafe: true, nullableContextOptions: NullableContextOptions.Disable);

    private static readonly CSharpParseOptions ScriptParse = new(LanguageVersion.Latest, kind: SourceCodeKind.Script);

    /// <summary>Assemblies that come with the kit's projects, and so need no line of their own.</summary>
    private static readonly string[] Own = ["TastingKit", "TastingKit.Statistics", "TastingKit.Charts", "TastingKit.Notebooks", "Plotly.NET", "DynamicObj", "FSharp.Core", "Microsoft.Data.Analysis", "CsvHelper", "MathNet.Numerics"];

    private ScriptCell(NotebookCell.Code cell, string source, CSharpCompilation compilation, SyntaxTree tree)
    {
        Cell = cell;
        Source = source;
        Root = (CompilationUnitSyntax)tree.GetRoot();
        Model = compilation.GetSemanticModel(tree);
    }

    /// <summary>The cell.</summary>
    internal NotebookCell.Code Cell { get; }

    /// <summary>Its text without lines that are for a kernel, every line in its place.</summary>
    internal string Source { get; }

    internal CompilationUnitSyntax Root { get; }

    internal SemanticModel Model { get; }

    /// <summary>The expression whose value the cell shows; <see langword="null"/> if it ends otherwise.</summary>
    internal ExpressionStatementSyntax? Trailing =>
        Root.Members.LastOrDefault() is GlobalStatementSyntax { Statement: ExpressionStatementSyntax { SemicolonToken.IsMissing: true } last } ? last : null;

    /// <summary>Reads the cells one after the other, each in the light of those before it.</summary>
    /// <exception cref="NotebookFailure">A cell does not compile, or is of a kind that a script can't have.</exception>
    internal static IReadOnlyList<ScriptCell> Read(NotebookDocument notebook, IReadOnlyList<MetadataReference> references)
    {
        var options = new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary, allowUnsafe: true, nullableContextOptions: NullableContextOptions.Disable);
        var before = CSharpCompilation.CreateScriptCompilation("preamble", CSharpSyntaxTree.ParseText(string.Join('\n', Preamble), ScriptParse), references, options);
        var cells = new List<ScriptCell>();
        foreach (var cell in notebook.Cells.OfType<NotebookCell.Code>())
        {
            var source = WithoutDirectives(notebook.Name, cell);
            var tree = CSharpSyntaxTree.ParseText(source, ScriptParse);
            before = CSharpCompilation.CreateScriptCompilation($"cell{cell.Number}", tree, references, options, before);
            if (before.GetDiagnostics().FirstOrDefault(d => d.Severity == DiagnosticSeverity.Error) is { } error)
                throw Failure(notebook.Name, cell.Number, error.Location.GetLineSpan().StartLinePosition.Line + 1, $"{error.GetMessage(System.Globalization.CultureInfo.InvariantCulture)} ({error.Id})");
            cells.Add(new ScriptCell(cell, source, before, tree));
        }

        return cells;
    }

    internal static NotebookFailure Failure(string notebook, int number, int? line, string reason) => new(
        notebook, RunMessages.OneLine(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"cell {number}{(line is null ? "" : $", line {line}")}: {reason}")), ExitCode.NotebookFailed);

    /// <summary>
    /// Takes out what is for a kernel alone: references to what comes with the kit, and the name of the language. Their lines
    /// stay, empty, so that an error is told on the line where a reader finds it.
    /// </summary>
    private static string WithoutDirectives(string notebook, NotebookCell.Code cell)
    {
        var lines = cell.Source.Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            var line = lines[i].Trim();
            if (KernelDirective().IsMatch(line))
            {
                if (!IsNeedless(line))
                    throw Failure(notebook, cell.Number, i + 1, $"'{line}' is for the kernel, and a script has none. Expected #r with the name of an assembly that comes with the kit: {string.Join(", ", Own)}.");
                lines[i] = "";
            }
            else
            {
                lines[i] = NotebookRoom().Replace(lines[i], "");
            }
        }

        return string.Join('\n', lines);
    }

    private static bool IsNeedless(string line) =>
        line is "#!csharp" or "#!c#" || (Reference().Match(line) is { Success: true } match && Own.Contains(match.Groups[1].Value, StringComparer.Ordinal));

    [GeneratedRegex("^#(r|load|!)", RegexOptions.CultureInvariant)]
    private static partial Regex KernelDirective();

    [GeneratedRegex("^#r\\s+\"([^\"]*)\"$", RegexOptions.CultureInvariant)]
    private static partial Regex Reference();

    /// <summary>The room that holds the kernel; the preamble has what a cell wants of it.</summary>
    [GeneratedRegex(@"(?<=^|;\s*)using\s+TastingKit\.Notebooks\s*;", RegexOptions.CultureInvariant)]
    private static partial Regex NotebookRoom();
}
